package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
)

func (s *steps) finish() {
	if len(s.Assembly.Parts) == 0 {
		return
	}
	var edgings []string
	for _, p := range s.Assembly.Parts {
		for _, b := range p.Bands {
			if n := s.edging(b.Edging); n != "" && !slices.Contains(edgings, n) {
				edgings = append(edgings, n)
			}
		}
	}
	if len(edgings) > 0 {
		s.add(Step{Phase: Finish, Tool: "iron, trimmer", Text: fmt.Sprintf("Before assembling, put edging (%s) on the edges that the tables of parts name, trim it flush and sand its corners round.", strings.Join(edgings, ", "))})
	}
	s.add(Step{Phase: Finish, Text: "Before assembling, ease the edges that hands touch by 1 mm (1/32 in), sand faces through 120 to 180 grit with the grain, and mask where glue will hold. Inner faces are easiest finished flat.", Tool: "sander", Caution: "Wear a dust mask."})
	if s.Practice.Finish != "" {
		s.add(Step{Phase: Finish, Text: fmt.Sprintf("%s: %d coats on cases, %d on counters; let each dry as its can says, sand lightly between them, and let the last harden before anything stands on it.", s.fastener(s.Practice.Finish), s.Practice.Coats, s.Practice.CoatsTop), Caution: rags + " Ventilate; no flames or sparks while it dries."})
	}
}

func (s *steps) edging(id string) string {
	if id == "" {
		return ""
	}
	for _, e := range s.Catalogue.Edgings {
		if e.ID == id {
			return cmp.Or(e.Name, id)
		}
	}
	return id
}

// install: wall cases before floor cases, base, cases, counter, hutch, fronts last; stage by
// stage where there are stages, what belongs to none first.
func (s *steps) install() {
	stages := []string{""}
	for _, x := range s.Stages {
		if x != "" {
			stages = append(stages, x)
		}
	}
	for _, stage := range stages {
		in := func(o part.Owner) bool {
			return o.Stage == stage || stage == "" && !slices.Contains(s.Stages, o.Stage)
		}
		for _, o := range s.owners("case") {
			if o.Hung && in(o) {
				s.unfix(o)
				s.hang(o)
			}
		}
		for _, o := range s.owners("base") {
			if in(o) {
				s.level(o, "Set the base on its shims or feet, check it for level both ways, and fix it")
			}
		}
		for _, o := range s.owners("case") {
			if !o.Hung && in(o) {
				s.unfix(o)
				s.level(o, "Set the case, level it both ways, and fix it")
			}
		}
		for _, k := range []string{"counter", "hutch"} {
			for _, o := range s.owners(k) {
				if in(o) {
					s.put(o)
				}
			}
		}
	}
	for _, k := range []string{"filler", "panel"} {
		for _, o := range s.owners(k) {
			s.add(Step{Phase: Install, Owner: o.ID, Tool: "pencil, plane", Text: fmt.Sprintf("Scribe %s to the wall: hold it plumb, draw a pencil on a block of the widest gap along the wall, plane to the line, and screw it to its neighbour.", cmp.Or(o.Name, o.ID))})
		}
	}
	if s.count(part.DoorFront)+s.count(part.Drawer) > 0 {
		s.add(Step{Phase: Install, Tool: "screwdriver", Text: fmt.Sprintf("Last, when everything is loaded and has settled: adjust doors and fronts to even gaps of %s, and check level once more.", s.in(s.Practice.FrontGap))})
	}
}

// unfix makes room for a case that does not slide into its gap.
func (s *steps) unfix(o part.Owner) {
	if o.Unfix == "" {
		return
	}
	name, beside := cmp.Or(o.Name, o.ID), o.Unfix
	for _, x := range s.Assembly.Owners {
		if x.ID == o.Unfix {
			beside = cmp.Or(x.Name, x.ID)
		}
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill", Caution: tips,
		Text: fmt.Sprintf("Empty %s, take out the screws that hold it to the wall, to its neighbours and to what lies on it, and draw it aside until %s goes in. Push it back against %s, level it, and fix it again once %s stands.", beside, name, name, name)})
}

func (s *steps) fixings(o part.Owner) []part.Fixing {
	var out []part.Fixing
	for _, f := range s.Assembly.Fixings {
		if f.Owner == o.ID {
			out = append(out, f)
		}
	}
	return out
}

func (s *steps) weight(o part.Owner) string {
	for _, w := range s.Weights {
		if w.Owner == o.ID && w.Whole {
			return w.Mass.Print(s.Print == length.Millimetres) + " empty"
		}
	}
	return "weight not known"
}

func (s *steps) tooHeavy(o part.Owner) bool {
	for _, w := range s.Weights {
		if w.Owner == o.ID {
			return s.Practice.Lift > 0 && w.Mass > mass.Mass(s.Practice.Lift)
		}
	}
	return false
}

// screws says what holds an owner and where, a line for every row of screws.
func (s *steps) screws(fx []part.Fixing) []string {
	type row struct {
		kind  part.FixKind
		screw string
		z     length.Length
	}
	at := map[row][]string{}
	var order []row
	for _, f := range fx {
		k := row{f.Kind, f.Screw, f.At.Z}
		if f.Kind == part.ToCase {
			k.z = 0
		}
		if at[k] == nil {
			order = append(order, k)
		}
		t := s.in(f.At.X)
		if f.Packing > 0 {
			t += " (pack " + s.in(f.Packing) + ")"
		}
		at[k] = append(at[k], t)
	}
	var out []string
	for _, k := range order {
		t := fmt.Sprintf("%d × %s, %s up, at %s along", len(at[k]), s.fastener(k.screw), s.in(k.z), strings.Join(at[k], ", "))
		switch k.kind {
		case part.ToCase:
			t = fmt.Sprintf("%d × %s to the neighbour, in the holes bored for them", len(at[k]), s.fastener(k.screw))
		case part.NoStud:
			t = fmt.Sprintf("NOTHING TO HOLD IN at %s along, %s up: see the findings", strings.Join(at[k], ", "), s.in(k.z))
		}
		out = append(out, t)
	}
	return out
}

func (s *steps) hang(o part.Owner) {
	fx := s.fixings(o)
	points := s.screws(fx)
	if len(fx) == 0 {
		points = []string{"NO FIXING FOUND: see the findings; do not hang it"}
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, level", Caution: lift + " " + wall, Points: points,
		Text: fmt.Sprintf("Hang %s (%s): lower edge %s up, left side %s along, propped from below on a batten; pack where the wall is hollow.", cmp.Or(o.Name, o.ID), s.weight(o), s.in(o.Carcass.Min.Z), s.in(o.Carcass.Min.X))})
}

func (s *steps) level(o part.Owner, verb string) {
	var points, heights []string
	kind := ""
	for _, f := range s.Assembly.Feet {
		if f.Owner == o.ID {
			kind = f.Kind
			heights = append(heights, fmt.Sprintf("%s at %s along, %s out", s.in(f.Height), s.in(f.At.X), s.in(-f.At.Y)))
		}
	}
	if len(heights) > 0 {
		points = append(points, fmt.Sprintf("Height of every %s: %s", kind, strings.Join(heights, "; ")))
	}
	fx := s.fixings(o)
	points = append(points, s.screws(fx)...)
	c := ""
	if s.tooHeavy(o) {
		c = "Too heavy for one person: two people, and take drawers, doors and shelves out first. "
	}
	if o.Kind == "case" {
		c += tips
	}
	if len(fx) > 0 {
		c += " " + wall
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "level", Points: points, Caution: strings.TrimSpace(c),
		Text: fmt.Sprintf("%s (%s): %s, left side %s along.", cmp.Or(o.Name, o.ID), s.weight(o), strings.ToLower(verb[:1])+verb[1:], s.in(o.Carcass.Min.X))})
}

func (s *steps) put(o part.Owner) {
	c := ""
	if s.tooHeavy(o) {
		c = heavy
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill", Points: s.screws(s.fixings(o)), Caution: c,
		Text: fmt.Sprintf("Put %s (%s) in its place, left end %s along, lower face %s up, and fix it.", cmp.Or(o.Name, o.ID), s.weight(o), s.in(o.Box.Min.X), s.in(o.Box.Min.Z))})
}
