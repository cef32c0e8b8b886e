package plan_test

import (
	"fmt"
	"strings"

	"stowright/internal/builtin"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// reached notes what a result has in it: what was asked for in the text and could not be made is
// not reached.
func reached(r *plan.Result, seen map[string]bool) {
	a := &r.Assembly
	for _, p := range a.Parts {
		seen["role "+string(p.Role)] = true
		for _, o := range p.Ops {
			seen["working "+o.Kind.String()] = true
		}
		if p.Role == part.CounterLayer && strings.Contains(p.Name, "piece") {
			seen["counter joint"] = true
		}
		if p.Role == part.BackPanel && p.Name != "back" {
			seen["back in pieces"] = true
		}
		switch p.Material {
		case part.Board:
			seen["of board"] = true
		case part.Stick:
			seen["of stick"] = true
		}
	}
	for _, j := range a.Joints {
		seen["made "+string(j.Kind)] = true
	}
	for _, f := range a.Fixings {
		seen["fixed to "+string(f.Kind)] = true
		if f.Packing > 0 {
			seen["packing"] = true
		}
	}
	for _, f := range a.Feet {
		seen["stands on "+f.Kind] = true
	}
	for _, m := range a.Motions {
		seen[fmt.Sprintf("moves %s", m.Kind)] = true
	}
	for _, f := range a.Fronts {
		seen[fmt.Sprintf("front %s", f.Kind)] = true
		if f.Lock {
			seen["locked"] = true
		}
	}
	for _, b := range a.Bays {
		seen["bay "+b.Kind] = true
	}
	for _, o := range a.Owners {
		seen["owner "+o.Kind] = true
	}
	for _, s := range r.Room.Seats {
		if len(s.Site.Cutouts) > 0 {
			seen["cut-outs"] = true
		}
		if len(s.Site.Notches) > 0 {
			seen["notches"] = true
		}
		if s.Joins[0] && s.Joins[1] {
			seen["joined on both sides"] = true
		}
	}
	for i := range r.Room.Walls {
		if !r.Room.Walls[i].Frame.Square() {
			seen["a corner that is not square"] = true
		}
	}
}

// wanted is what the made-up jobs must come to: each in the words of reached or of the writer.
func wanted() []string {
	var list []string
	for _, k := range builtin.Fittings() {
		list = append(list, "fitting "+k.Name)
	}
	group := func(kind string, words ...string) {
		for _, w := range words {
			list = append(list, strings.TrimSpace(kind+" "+w))
		}
	}
	group("unit", "in", "mm", "both")
	group("practice", "inch-shop", "metric-shop", "saw-and-drill")
	group("stands", "toe", "feet", "toe-feet", "base", "floor")
	group("hangs", "rail", "cleat")
	group("joint", "pocket-screw", "connecting-screw", "dowel", "dado", "wood-screw")
	group("back", "captured", "applied", "full", "none")
	group("top", "full", "stretchers")
	group("grain", "upright", "level", "either")
	group("walls", "1", "2", "3")
	group("wall", "stud", "masonry", "concrete", "steel-stud", "not-known")
	group("from", "left", "right")
	group("corner at", "left", "right")
	group("angle", "90", "135", "100", "75")
	group("floor", "rows", "points", "falls", "level")
	group("opening", "window", "door", "hatch")
	group("keep", "outlet", "switch", "electrical-panel", "heater", "pipe", "window", "vent", "valve", "light", "other")
	group("obstacle", "curb", "pipe", "skirting", "casing", "door-track", "platform", "duct", "column", "other")
	group("start", "left", "right", "centre", "between", "around")
	group("fill", "none", "left", "right", "both")
	group("knee", "empty", "rolls", "slides", "later")
	group("castor", "castor-75", "castor-50")
	group("base of", "two-by-four", "ply", "practice")
	group("levels by", "shims", "taper", "steps", "feet", "floor")
	group("layers", "1", "2", "3")
	group("corners", "mitre", "butt")
	group("brace", "panel", "rails", "shelf", "none")
	group("legs", "stick", "board", "practice")
	group("hutch frame", "practice", "strip", "board")
	group("fronts", "equal", "arithmetic", "geometric", "given")
	group("box joint", "butt-screw", "pocket-screw", "rabbet", "lock-rabbet", "finger", "dowel")
	group("box bottom", "grooved", "under")
	group("", "across", "up", "tall", "doors", "door lock", "wide hinges", "drawer lock", "one at a time", "under slides", "fixed shelves", "half shelves", "part shelves", "strips",
		"standing", "standing counter", "in gap", "stages", "leans", "hollow", "sloped ceiling", "studs listed", "studs missing", "keep clear", "opening", "obstacle",
		"machine", "level with", "space", "sits", "blocking", "edging", "rails", "hutch", "hutch on bench", "hutch on standing", "spacer", "light", "free bench", "bench feet", "bench angles",
		"damp strip", "back from wall", "joining", "car", "aisle", "goods", "people", "end panel left", "end panel right", "exposed left", "exposed right", "exposed bottom", "exposed top")
	// What must come of them.
	group("role", "side", "bottom", "top", "stretcher", "back", "hang rail", "cleat", "wall cleat", "partition", "fixed shelf", "shelf", "divider", "door", "drawer front",
		"box side", "box front", "box back", "box bottom", "tray base", "lip", "spacer", "rail", "rack side", "rack shelf", "toe board", "base rail", "base rung", "plate", "filler", "end panel",
		"counter layer", "counter edge", "blocking", "leg", "hook board", "frame", "edge strip")
	group("working", "hole", "cup", "pocket", "groove", "rabbet", "notch", "cutout", "bevel", "taper")
	group("made", "pocket screw", "connecting screw", "dowel", "dado", "wood screw", "glue", "loose", "joining screw")
	group("fixed to", "stud", "wall", "case", "floor")
	group("stands on", "foot", "shim", "castor")
	group("moves", "swing", "slide", "roll")
	group("front", "door", "drawer")
	group("owner", "case", "counter", "base", "hutch", "filler", "standing")
	group("", "counter joint", "back in pieces", "of board", "of stick", "packing", "locked", "cut-outs", "notches", "joined on both sides", "a corner that is not square")
	return list
}
