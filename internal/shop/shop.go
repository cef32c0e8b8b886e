// Package shop puts the work in order: sawing, boring, assembling each case, finishing and
// installing, as steps that one person can follow, with the usual cautions where they matter.
// Steps are derived from the parts, the joints and the cutting plan; nothing here is typed in
// for a particular case.
package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Phase is where in the work a step belongs.
type Phase string

// Phases, in order.
const (
	Prove    Phase = "before the first cut"
	Saw      Phase = "sawing"
	Bore     Phase = "boring and grooving"
	Ready    Phase = "making ready" // of one owner, as all that follow but the last
	Assemble Phase = "assembling"
	Finish   Phase = "finishing"
	FitOut   Phase = "fitting out"
	Install  Phase = "installing"
)

// Bench reports whether the steps of a phase are about one owner at the bench.
func (p Phase) Bench() bool { return p == Ready || p == Assemble || p == Finish || p == FitOut }

// Step is one step of the work.
type Step struct {
	N       int
	Phase   Phase
	Owner   string   // "" for all
	Also    []string // owners that are built exactly like it, by the same step
	Head    string   // what the step is about, said before it where that is not plain; "" for none
	Text    string
	Parts   []string // marks of what is handled
	New     []string // marks of what comes in with this step; each board of an owner comes in once
	Fits    []Fit    // hardware that goes in with this step
	Points  []string // lines of their own: places, settings
	Tool    string
	Caution string
	Hidden  []Hidden // screws of this step that no driver reaches
}

// Hidden is a joint whose screws no driver reaches by the time it is made, for a board is in the way.
type Hidden struct {
	A, B string // marks of its boards
	By   string // mark of what is in the way
}

// Fit is hardware that a step takes.
type Fit struct {
	ID    string
	Count int
	Size  length.Length // of what is bought in sizes: slides, rails; 0 for none
}

// Whole is the step in one run of text, its points included.
func (s Step) Whole() string {
	t := s.Text
	if s.Head != "" {
		t = s.Head + ": " + lower(t)
	}
	for _, p := range s.Points {
		t += " " + p + ";"
	}
	return strings.TrimSuffix(t, ";")
}

// Input is what the steps are derived from.
type Input struct {
	Assembly  part.Assembly
	Plan      cutting.Plan
	Marks     [][]string
	Sticks    []cutlist.Stick
	Masses    map[string]mass.Mass // of boards, by mark
	Catalogue stock.Catalogue
	Practice  stock.Practice
	Weights   []bill.Weight
	Print     length.Unit
	Stages    []string // ids, in the order they are built
	CutAway   []string // what is in the way at the wall and may be cut away, from where to where, a sentence each
}

// Steps gives all steps in order, numbered from 1.
func Steps(in Input) []Step {
	s := steps{Input: in, parts: map[string]part.Part{}, local: map[[2]string]string{}, left: map[string][]part.Item{}, around: part.About(in.Assembly.Parts)}
	for _, p := range in.Assembly.Parts {
		s.parts[p.Mark] = p
		if k := [2]string{p.Owner, p.Local}; s.local[k] == "" {
			s.local[k] = p.Mark
		}
	}
	for _, h := range in.Assembly.Hardware {
		s.left[h.Owner] = append(s.left[h.Owner], h)
	}
	s.prove()
	s.saw()
	s.sticks()
	s.edge()
	s.bore()
	first := Alike(&s.Assembly)
	for _, k := range []string{"case", "counter", "base", "hutch", "filler", "panel"} {
		for _, o := range s.owners(k) {
			if first[o.ID] != o.ID {
				continue
			}
			var twins []part.Owner
			for _, t := range s.owners(k) {
				if first[t.ID] == o.ID && t.ID != o.ID {
					twins = append(twins, t)
				}
			}
			s.assemble(o, twins)
		}
	}
	s.install()
	s.once()
	for i := range s.list {
		s.list[i].N = i + 1
	}
	s.refer()
	return s.list
}

type steps struct {
	Input
	parts  map[string]part.Part
	local  map[[2]string]string // marks, by owner and local name
	around part.Around
	left   map[string][]part.Item // hardware of each owner that no step has taken yet
	list   []Step
	rules  []rule // sentences that more than one step may say
}

func (s *steps) add(st Step) { s.list = append(s.list, st) }

func (s *steps) in(l length.Length) string { return l.In(s.Print) }

func (s *steps) owners(kind string) []part.Owner {
	var out []part.Owner
	for _, o := range s.Assembly.Owners {
		if o.Kind == kind && !o.Standing {
			out = append(out, o)
		}
	}
	if len(s.Stages) > 0 {
		order.Stable(out, func(a, b part.Owner) int {
			return cmp.Compare(slices.Index(s.Stages, a.Stage), slices.Index(s.Stages, b.Stage))
		})
	}
	return out
}

// prove lists what is measured before anything is cut, each with its line in the job and what
// it changes.
func (s *steps) prove() {
	var boards []string
	for _, b := range s.Catalogue.Boards {
		if slices.ContainsFunc(s.Assembly.Parts, func(p part.Part) bool { return p.Stock == b.ID && p.Material == part.Board }) {
			boards = append(boards, fmt.Sprintf("%s: %s (boards, %s, measures)", cmp.Or(b.Name, b.ID), s.exactly(b.Thickness), b.ID))
		}
	}
	if len(boards) > 0 {
		s.add(Step{Phase: Prove, Tool: "caliper", Points: boards, Text: "Measure every kind of sheet at four points, and write down the mean. It changes every part, groove and hole that meets its thickness. When yours differs by more than " + s.size(length.MM/5) + ", change its line in the job and print again; with this paper alone go by “Sizes that follow the sheet” below."})
	}
	s.add(Step{Phase: Prove, Tool: "caliper", Points: s.kerfs(), Text: "Make a test cut in scrap with each saw and measure the kerf. It changes the cutting plan: a piece that no cut is set for, what is left of a cut, is as much smaller as the kerf is wider."})
	if slides := s.hardware("slide"); len(slides) > 0 {
		boxes := ""
		for _, x := range []struct {
			role part.Role
			what string
		}{{part.BoxBottom, "drawers"}, {part.TrayBase, "trays"}} {
			if slices.ContainsFunc(s.Assembly.Parts, func(p part.Part) bool { return p.Role == x.role }) {
				boxes += map[bool]string{true: " and ", false: ""}[boxes != ""] + x.what
			}
		}
		s.add(Step{Phase: Prove, Tool: "caliper", Points: slides, Text: fmt.Sprintf("Measure one pair of slides: thickness and length. The widths of %s, and the holes for the slides, follow them.", cmp.Or(boxes, "what runs on them"))})
	}
	if n := s.count(part.DoorFront); n > 0 {
		s.add(Step{Phase: Prove, Tool: "drill", Points: s.hardware("hinge"), Text: fmt.Sprintf("Bore one hinge cup in scrap, hang the scrap on a scrap side, and measure how far it covers the side's edge.%s The widths of doors and the places of cups follow it.", s.overlay()), Caution: eyes})
	}
	s.anchors()
	if slices.ContainsFunc(s.Assembly.Owners, func(o part.Owner) bool { return o.Wall != "" && !o.Standing }) {
		s.add(Step{Phase: Prove, Tool: "level, tape", Text: "Hold the wall against its drawings: its length and height, the studs, how far the floor falls from its left end, what has to stay clear and what stands there already and how high. All heights, shims and screws of the last chapter follow these (walls, of each wall)."})
	}
}

// overlay says where the test's holes go and what the test should show, by the first hinged door.
func (s *steps) overlay() string {
	for _, f := range s.Assembly.Fronts {
		door, ok := s.parts[f.Part]
		if !ok || f.Kind != part.DoorFront || f.Hinge > geom.Left {
			continue
		}
		i := slices.IndexFunc(door.Ops, func(o part.Op) bool { return o.Kind == part.Cup })
		if i < 0 {
			continue
		}
		hinged := func(at geom.Vec) length.Length { // from the hinged edge
			if f.Hinge == geom.Left {
				return at.X - door.Box().Min.X
			}
			return door.Box().Max.X - at.X
		}
		cup := door.Ops[i]
		edge := "the door's edge"
		if slices.ContainsFunc(door.Bands[:], func(b part.Band) bool { return b.Edging != "" }) {
			edge = "the door's finished edge, the edging on it, for which the scrap's bare edge stands"
		}
		t := fmt.Sprintf(" The cup's middle is %s from %s", s.size(hinged(door.Pose.Point(cup.Face.Point(cup.X, cup.Y, door.Size)))), edge)
		for _, q := range s.Assembly.Parts {
			if q.Owner != door.Owner || q.Role != part.Side && q.Role != part.Partition {
				continue
			}
			b := q.Box()
			cover := hinged(b.Max.With(0, map[bool]length.Length{true: b.Max.X, false: b.Min.X}[f.Hinge == geom.Left]))
			k := slices.IndexFunc(q.Ops, func(o part.Op) bool { return o.For == "hinge plate" })
			if cover <= 0 || cover > b.Size().X || k < 0 {
				continue
			}
			at := q.Pose.Point(q.Ops[k].Face.Point(q.Ops[k].X, q.Ops[k].Y, q.Size))
			return t + fmt.Sprintf(", the plate's screws %s from the side's front edge; the door should cover %s.", s.size(at.Y-b.Min.Y), s.size(cover))
		}
	}
	return ""
}

// joiner is the shop that the steps are made in: its bits and screws.
func (s *steps) joiner() joinery.Shop {
	return joinery.Shop{Practice: s.Practice, Catalogue: s.Catalogue}
}

// anchors asks for what only the packet of an anchor says.
func (s *steps) anchors() {
	var screws, list []string
	most, least := map[string]length.Length{}, map[string]length.Length{}
	for _, f := range s.Assembly.Fixings {
		if f.Kind != part.ToWall {
			continue
		}
		through := part.Thick(f.Layers)
		if _, ok := most[f.Screw]; !ok {
			screws, most[f.Screw], least[f.Screw] = append(screws, f.Screw), through, through
		}
		most[f.Screw], least[f.Screw] = max(most[f.Screw], through), min(least[f.Screw], through)
	}
	for _, id := range screws {
		thick := s.in(most[id])
		if least[id] != most[id] {
			thick = s.in(least[id]) + " to " + thick
		}
		list = append(list, fmt.Sprintf("%s, through %s of wood, packing and lining: bit ________, depth of the hole ________, length of the screw ________", s.fastener(id), thick))
	}
	if len(list) > 0 {
		s.add(Step{Phase: Prove, Tool: "pencil", Points: list, Text: "Copy from the packet of the anchors, for your wall, what their maker says: the bit, how deep the hole, and how long the screw. The screw is as long as the anchor wants in it and what it passes. The steps that fix to the wall bore by this line (wall, anchor)."})
	}
}

// exactly prints a measured size: as it was typed, or to 0.01 mm.
func (s *steps) exactly(l length.Length) string {
	if s.Print == length.Millimetres {
		l = l.Near(length.MM / 100)
	}
	return l.Exact(s.Print)
}

// kerfs lists the saws that something is cut with, and their kerfs.
func (s *steps) kerfs() []string {
	mitred := len(s.Sticks) > 0 || slices.ContainsFunc(s.Plan.Sheets, func(x cutting.Sheet) bool {
		return slices.ContainsFunc(x.Cuts, func(c cutting.Cut) bool { return cutlist.ByGauge(s.Practice, c) })
	})
	var out []string
	for _, t := range s.Practice.Tools {
		if t.Kerf != nil && (t.Kind != "mitre-saw" || mitred) {
			out = append(out, fmt.Sprintf("%s: %s (practice, tools, kerf)", cmp.Or(t.Name, t.Kind), s.exactly(*t.Kerf)))
		}
	}
	return out
}

// hardware lists the kinds of a hardware that the job uses.
func (s *steps) hardware(kind string) []string {
	var out []string
	for _, h := range s.Assembly.Hardware {
		if h.Kind != kind {
			continue
		}
		t := s.fastener(h.ID)
		if h.Length > 0 {
			t += ", " + s.in(h.Length)
		}
		if x, ok := s.Catalogue.Item(h.ID); ok && kind == "slide" && x.SlideKind == "side" && x.Section > 0 {
			t += ", " + s.size(x.Section) + " thick"
			if x.SideRoom > 0 {
				t += " in a room of " + s.size(x.SideRoom) + " on each side"
			}
		}
		if t += " (hardware, " + h.ID + ")"; !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}

func (s *steps) count(k part.FrontKind) int {
	n := 0
	for _, f := range s.Assembly.Fronts {
		if f.Kind == k {
			n++
		}
	}
	return n
}

// The usual cautions; common practice, no source.
const (
	eyes     = "Wear eye and ear protection; collect the dust at its source or wear a mask."
	tableSaw = "Riving knife and guard on. Push stick where the hand would come within a hand's length of the blade. Stand out of the line of the cut. Unplug to change the blade."
	handSaw  = "Clamp the straightedge, support both halves so that the cut cannot close, good face down, and keep the cord clear."
	heavy    = "Too heavy for one person: two people, or break it down first with a hand-held saw."
	rags     = "Oily rags heat by themselves: dry them flat and single outdoors, or keep them in a lidded metal can."
	wall     = "Look for wires and pipes before driving long screws, above and below outlets most of all. Switch the circuit off where in doubt; leave electrical work to the licensed."
	tips     = "A case with open drawers tips: fix it to the wall before it is loaded, and open one drawer at a time."
	topples  = "A case can be pulled over: fix it to the wall before it is loaded, and let nobody climb it."
	loose    = "What is not fixed tips when it is leaned on or climbed: heavy things low, and nobody on it."
	leaned   = "Board and bench go over together when somebody leans on the board: fix the feet of the bench to the floor, or its top to a wall, before anything hangs on it. The proof tells which push is enough."
	thinEdge = "Hold a thin edge between two blocks with a clamp while screws go into it, or it splits."
	rolls    = "What rolls tips when drawers stand open: brakes on, open one drawer at a time."
)

// tipping is the caution for what may go over, as it is made and held.
func (s *steps) tipping(o part.Owner) string {
	slides := slices.ContainsFunc(s.Assembly.Motions, func(m part.Motion) bool { return m.Owner == o.ID && m.Kind == part.Slide })
	switch {
	case o.Moves && slides:
		return rolls
	case o.Moves:
		return loose
	case slides:
		return tips
	}
	return topples
}
