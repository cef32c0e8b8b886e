// Package shop puts the work in order: sawing, boring, assembling each case, finishing and
// installing, as steps that one person can follow, with the usual cautions where they matter.
// Steps are derived from the parts, the joints and the cutting plan; nothing here is typed in
// for a particular case.
package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/mass"
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
	Assemble Phase = "assembling"
	Finish   Phase = "finishing"
	Install  Phase = "installing"
)

// Step is one step of the work.
type Step struct {
	N       int
	Phase   Phase
	Owner   string // "" for all
	Text    string
	Parts   []string // marks
	Tool    string
	Caution string
}

// Input is what the steps are derived from.
type Input struct {
	Assembly  part.Assembly
	Plan      cutting.Plan
	Marks     [][]string
	Catalogue stock.Catalogue
	Practice  stock.Practice
	Weights   []bill.Weight
	Print     length.Unit
	Stages    []string // ids, in the order they are built
}

// Steps gives all steps in order, numbered from 1.
func Steps(in Input) []Step {
	s := steps{Input: in, parts: map[string]part.Part{}}
	for _, p := range in.Assembly.Parts {
		s.parts[p.Mark] = p
	}
	s.prove()
	s.saw()
	s.bore()
	for _, o := range s.owners("case") {
		s.assemble(o)
	}
	for _, k := range []string{"base", "counter", "hutch"} {
		for _, o := range s.owners(k) {
			s.assemble(o)
		}
	}
	s.finish()
	s.install()
	for i := range s.list {
		s.list[i].N = i + 1
	}
	return s.list
}

type steps struct {
	Input
	parts map[string]part.Part
	list  []Step
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
		slices.SortStableFunc(out, func(a, b part.Owner) int {
			return cmp.Compare(slices.Index(s.Stages, a.Stage), slices.Index(s.Stages, b.Stage))
		})
	}
	return out
}

// prove lists what is measured before anything is cut.
func (s *steps) prove() {
	var boards []string
	for _, b := range s.Catalogue.Boards {
		if slices.ContainsFunc(s.Assembly.Parts, func(p part.Part) bool { return p.Stock == b.ID && p.Material == part.Board }) {
			boards = append(boards, fmt.Sprintf("%s %s", cmp.Or(b.Name, b.ID), b.Thickness.Exact(s.Print)))
		}
	}
	if len(boards) > 0 {
		s.add(Step{Phase: Prove, Tool: "caliper", Text: "Measure every kind of sheet at four points. The plan is made for: " + strings.Join(boards, "; ") +
			". When yours differs by more than 0.2 mm (1/128 in), change the board's 'measures' in the job and print again."})
	}
	s.add(Step{Phase: Prove, Tool: "caliper", Text: "Make a test cut in scrap with each saw and measure the kerf against the practice."})
	if n := s.count(part.DoorFront); n > 0 {
		s.add(Step{Phase: Prove, Tool: "drill", Text: "Bore one hinge cup in scrap, hang the scrap on a scrap side, and measure the overlay before boring doors.", Caution: eyes})
	}
	if n := s.count(part.Drawer); n > 0 {
		s.add(Step{Phase: Prove, Tool: "caliper", Text: "Measure one pair of slides: their thickness and their length. Drawer boxes follow them."})
	}
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
	tableSaw = "Riving knife and guard on. Push stick below 150 mm (6 in) between hand and blade. Stand out of the line of the cut. Unplug to change the blade."
	handSaw  = "Clamp the straightedge, support both halves so that the cut cannot close, good face down, and keep the cord clear."
	heavy    = "Too heavy for one person: two people, or break it down first with a hand-held saw."
	rags     = "Oily rags heat by themselves: dry them flat and single outdoors, or keep them in a lidded metal can."
	wall     = "Look for wires and pipes before driving long screws, above and below outlets most of all. Switch the circuit off where in doubt; leave electrical work to the licensed."
	lift     = "Lift with two people, prop the case from below, and drive the screws before letting go."
	tips     = "A case with open drawers tips: fix it to the wall before it is loaded, and open one drawer at a time."
)

// saw follows the cutting plan: one step for every sheet, then the settings.
func (s *steps) saw() {
	saw := "saw"
	caution := eyes
	for _, t := range s.Practice.Tools {
		switch t.Kind {
		case "table-saw", "panel-saw":
			saw, caution = t.Name, tableSaw
		case "track-saw", "circular-saw":
			if caution == eyes {
				saw, caution = t.Name, handSaw
			}
		}
	}
	type pass struct {
		axis    cutting.Axis
		setting length.Length
	}
	for i, sh := range s.Plan.Sheets {
		var words []string
		var last pass
		for _, c := range sh.Cuts {
			if c.Work == cutting.Trimming {
				continue
			}
			p := pass{c.Axis, c.Setting}
			if p == last {
				continue
			}
			last = p
			way := "rip"
			if c.Axis == cutting.X {
				way = "crosscut"
			}
			words = append(words, way+" at "+s.in(c.Setting))
		}
		then := ""
		if len(words) > 0 {
			then = ", then " + strings.Join(words, ", ")
		}
		st := Step{Phase: Saw, Parts: slices.Clone(s.Marks[i]), Tool: cmp.Or(saw, "saw"), Caution: caution,
			Text: fmt.Sprintf("Sheet %d, %s: trim the edges that will be used%s. Write its mark on every part as it comes off.", i+1, sh.Stock, then)}
		for _, w := range s.Plan.Warnings {
			if w.Sheet == i && w.Kind == cutting.TooHeavy {
				st.Caution = heavy + " " + caution
			}
		}
		s.add(st)
	}
}

// bore groups workings by what they are for and how the tool is set.
func (s *steps) bore() {
	type setup struct {
		tool, what string
		kind       part.OpKind
		dia, depth length.Length
	}
	marks := map[setup][]string{}
	n := map[setup]int{}
	var order []setup
	for _, p := range s.Assembly.Parts {
		for _, o := range p.Ops {
			k := setup{o.Tool, o.For, o.Kind, o.Dia, o.Depth}
			if n[k] == 0 {
				order = append(order, k)
			}
			n[k]++
			if l := marks[k]; len(l) == 0 || l[len(l)-1] != p.Mark {
				marks[k] = append(l, p.Mark)
			}
		}
	}
	slices.SortStableFunc(order, func(a, b setup) int {
		return cmp.Or(cmp.Compare(a.tool, b.tool), cmp.Compare(a.kind, b.kind), cmp.Compare(a.dia, b.dia), cmp.Compare(a.depth, b.depth))
	})
	for _, k := range order {
		size := ""
		if k.dia > 0 {
			size = " " + k.dia.Exact(s.Print) + " across,"
		}
		text := fmt.Sprintf("%s:%s %s deep, %d in %d parts", cmp.Or(k.what, k.kind.String()), size, k.depth.Exact(s.Print), n[k], len(marks[k]))
		s.add(Step{Phase: Bore, Tool: k.tool, Parts: marks[k], Text: strings.ToUpper(text[:1]) + text[1:] + ". Set the stop once for all of them.", Caution: eyes})
	}
}

// rank is the order in which boards of a carcass go together; common practice, no source.
func rank(r part.Role) int {
	order := []part.Role{part.Side, part.Bottom, part.Partition, part.FixedShelf, part.Stretcher, part.Top, part.HangRail, part.Cleat, part.ToeBoard, part.Blocking, part.BackPanel}
	if i := slices.Index(order, r); i >= 0 {
		return i
	}
	return len(order)
}

func (s *steps) assemble(o part.Owner) {
	var own []part.Part
	for _, p := range s.Assembly.Parts {
		if p.Owner == o.ID {
			own = append(own, p)
		}
	}
	if len(own) == 0 {
		return
	}
	name := cmp.Or(o.Name, o.ID)
	// What moves is built first: drawers, trays, racks, each group of joined parts a step.
	moving := map[string][]string{}
	var order []string
	for _, p := range own {
		if p.Moves != "" {
			if moving[p.Moves] == nil {
				order = append(order, p.Moves)
			}
			moving[p.Moves] = append(moving[p.Moves], p.Mark)
		}
	}
	type same struct{ text string }
	built := map[same]int{}
	for _, m := range order {
		joints := s.joints(o.ID, moving[m])
		if len(joints) == 0 {
			continue
		}
		text := fmt.Sprintf("%s: build the piece that moves (%s). %s", name, strings.Join(s.names(moving[m]), ", "), s.how(joints))
		if i, ok := built[same{text}]; ok {
			s.list[i].Parts = append(s.list[i].Parts, moving[m]...)
			continue
		}
		built[same{text}] = len(s.list)
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: moving[m], Text: text + " Measure both diagonals; the bottom is the square.", Tool: "drill"})
	}
	var fixed []string
	slices.SortStableFunc(own, func(a, b part.Part) int { return cmp.Compare(rank(a.Role), rank(b.Role)) })
	for _, p := range own {
		if p.Moves == "" && !p.Removable {
			fixed = append(fixed, p.Mark)
		}
	}
	done := map[string]bool{}
	var now []part.Joint
	for _, mark := range fixed {
		done[mark] = true
		var js []part.Joint
		for _, j := range s.Assembly.Joints {
			if (j.A == mark && done[j.B] || j.B == mark && done[j.A]) && s.parts[j.A].Moves == "" && s.parts[j.B].Moves == "" {
				js = append(js, j)
			}
		}
		now = append(now, js...)
		if len(js) == 0 {
			continue
		}
		p := s.parts[mark]
		text := fmt.Sprintf("%s: bring in %s (%s) to %s. %s", name, p.Name, p.Mark, strings.Join(s.others(js, mark), ", "), s.how(js))
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: append([]string{mark}, s.otherMarks(js, mark)...), Text: text, Tool: "drill"})
	}
	if len(now) > 0 && o.Kind == "case" {
		c := o.Carcass.Size()
		d := length.Length(math.Round(math.Sqrt(float64(c.X)*float64(c.X)+float64(c.Z)*float64(c.Z))/float64(length.MM/2))) * (length.MM / 2)
		s.add(Step{Phase: Assemble, Owner: o.ID, Tool: "tape", Text: fmt.Sprintf("%s: square it. Both diagonals of the face, %s by %s, should read %s; they may differ by 1.5 mm (1/16 in) at most (common practice). Push the longer one in by half of the difference.", name, s.in(c.X), s.in(c.Z), s.in(d))})
	}
	var loose []string
	for _, p := range own {
		if p.Removable {
			loose = append(loose, p.Mark)
		}
	}
	if len(loose) > 0 {
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: loose, Text: name + ": try the loose shelves and dividers in their places."})
	}
	s.fronts(o, name)
}

func (s *steps) fronts(o part.Owner, name string) {
	var doors, drawers []string
	for _, f := range s.Assembly.Fronts {
		p := s.parts[f.Part]
		if p.Owner != o.ID {
			continue
		}
		if f.Kind == part.DoorFront {
			doors = append(doors, f.Part)
		} else {
			drawers = append(drawers, f.Part)
		}
	}
	gap := s.in(s.Practice.FrontGap)
	if len(drawers) > 0 {
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: drawers, Tool: "drill", Caution: tips, Text: fmt.Sprintf("%s: measure each opening before the slides go in and pack out what is more than 0.8 mm (1/32 in) wide. Hang the boxes, then set the fronts from the lowest up on spacers of %s, screwed from inside.", name, gap)})
	}
	if len(doors) > 0 {
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: doors, Tool: "drill", Text: fmt.Sprintf("%s: hang the doors on their plates and adjust them to gaps of %s.", name, gap)})
	}
}

func (s *steps) joints(owner string, marks []string) []part.Joint {
	var out []part.Joint
	for _, j := range s.Assembly.Joints {
		if slices.Contains(marks, j.A) && slices.Contains(marks, j.B) {
			out = append(out, j)
		}
	}
	return out
}

func (s *steps) names(marks []string) []string {
	var out []string
	for _, m := range marks {
		if n := s.parts[m].Name; !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

func (s *steps) otherMarks(js []part.Joint, mark string) []string {
	var out []string
	for _, j := range js {
		m := j.A
		if m == mark {
			m = j.B
		}
		if !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out
}

func (s *steps) others(js []part.Joint, mark string) []string {
	var out []string
	for _, m := range s.otherMarks(js, mark) {
		out = append(out, fmt.Sprintf("%s (%s)", s.parts[m].Name, m))
	}
	return out
}

// how says how joints are made: "Glue and 12 pocket screws (…)".
func (s *steps) how(js []part.Joint) string {
	type kind struct {
		k    part.JointKind
		f    string
		glue bool
	}
	n := map[kind]int{}
	var order []kind
	for _, j := range js {
		k := kind{j.Kind, j.Fastener, j.Glue}
		if _, ok := n[k]; !ok {
			order = append(order, k)
		}
		n[k] += j.Count
	}
	var out []string
	for _, k := range order {
		w := ""
		switch {
		case k.k == part.GlueOnly:
			w = "glue and clamps"
		case k.k == part.Loose:
			w = "slid into its groove, no glue"
		case n[k] == 0:
			w = string(k.k)
		default:
			w = fmt.Sprintf("%d × %s", n[k], cmp.Or(s.fastener(k.f), string(k.k)))
		}
		if k.glue && k.k != part.GlueOnly {
			w = "glue and " + w
		}
		out = append(out, w)
	}
	t := strings.Join(out, "; ")
	if t == "" {
		return ""
	}
	return strings.ToUpper(t[:1]) + t[1:] + "."
}

func (s *steps) fastener(id string) string {
	h, ok := s.Catalogue.Item(id)
	if !ok {
		return id
	}
	return cmp.Or(h.Name, id)
}

func (s *steps) finish() {
	if len(s.Assembly.Parts) == 0 {
		return
	}
	s.add(Step{Phase: Finish, Text: "Ease the edges, sand, and mask faces that will be glued. Finish inner faces before assembly where that is easier.", Tool: "sander", Caution: "Wear a dust mask."})
	if s.Practice.Finish != "" {
		s.add(Step{Phase: Finish, Text: fmt.Sprintf("%s: %d coats on cases, %d on counters; let each dry as its can says.", s.fastener(s.Practice.Finish), s.Practice.Coats, s.Practice.CoatsTop), Caution: rags + " Ventilate; no flames or sparks while it dries."})
	}
}

// install: wall cases before floor cases, base, cases, counter, hutch, fronts last; stage by
// stage where there are stages.
func (s *steps) install() {
	stages := s.Stages
	if len(stages) == 0 {
		stages = []string{""}
	}
	for _, stage := range stages {
		in := func(o part.Owner) bool { return stage == "" || o.Stage == stage }
		for _, o := range s.owners("case") {
			if o.Hung && in(o) {
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
				s.level(o, "Set the case, level it, and fix it")
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
}

// unfix makes room for a case that does not slide into its gap.
func (s *steps) unfix(o part.Owner) {
	if o.Unfix == "" {
		return
	}
	beside := o.Unfix
	for _, x := range s.Assembly.Owners {
		if x.ID == o.Unfix {
			beside = cmp.Or(x.Name, x.ID)
		}
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill", Caution: tips,
		Text: fmt.Sprintf("Empty %s, take out the screws that hold it to the wall, to its neighbours and to what lies on it, and draw it aside until %s goes in. Push it back against %s, level it, and fix it again once %s stands.", beside, cmp.Or(o.Name, o.ID), cmp.Or(o.Name, o.ID), cmp.Or(o.Name, o.ID))})
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
			if s.Print == length.Inches {
				return fmt.Sprintf("%.0f lb", float64(w.Mass)/453.59237e6)
			}
			return fmt.Sprintf("%.0f kg", float64(w.Mass)/1e9)
		}
	}
	return "not known"
}

func (s *steps) tooHeavy(o part.Owner) bool {
	for _, w := range s.Weights {
		if w.Owner == o.ID {
			return s.Practice.Lift > 0 && w.Mass > mass.Mass(s.Practice.Lift)
		}
	}
	return false
}

func (s *steps) hang(o part.Owner) {
	name := cmp.Or(o.Name, o.ID)
	fx := s.fixings(o)
	where := "NO FIXING FOUND: see the findings; do not hang it"
	if n := len(fx); n > 0 {
		var at []string
		for _, f := range fx {
			t := fmt.Sprintf("%s along, %s up", s.in(f.At.X), s.in(f.At.Z))
			if f.Packing > 0 {
				t += ", packed out " + s.in(f.Packing)
			}
			at = append(at, t)
		}
		where = fmt.Sprintf("%d × %s at %s", n, s.fastener(fx[0].Screw), strings.Join(at, "; "))
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, level", Caution: lift + " " + wall,
		Text: fmt.Sprintf("Hang %s (%s empty, lower edge %s up, left side %s along): %s.", name, s.weight(o), s.in(o.Carcass.Min.Z), s.in(o.Carcass.Min.X), where)})
}

func (s *steps) level(o part.Owner, verb string) {
	name := cmp.Or(o.Name, o.ID)
	var heights []string
	for _, f := range s.Assembly.Feet {
		if f.Owner == o.ID {
			heights = append(heights, fmt.Sprintf("%s at %s along, %s out: %s", f.Kind, s.in(f.At.X), s.in(-f.At.Y), s.in(f.Height)))
		}
	}
	text := fmt.Sprintf("%s: %s (left side %s along).", name, strings.ToLower(verb[:1])+verb[1:], s.in(o.Carcass.Min.X))
	if len(heights) > 0 {
		text += " " + strings.Join(heights, "; ") + "."
	}
	if fx := s.fixings(o); len(fx) > 0 {
		text += fmt.Sprintf(" Fix it with %d × %s.", len(fx), s.fastener(fx[0].Screw))
	}
	c := ""
	if s.tooHeavy(o) {
		c = heavy + " "
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "level", Text: text, Caution: c + tips})
}

func (s *steps) put(o part.Owner) {
	name := cmp.Or(o.Name, o.ID)
	text := fmt.Sprintf("Put %s in its place, left end %s along, %s up, and fix it from below.", name, s.in(o.Box.Min.X), s.in(o.Box.Min.Z))
	if fx := s.fixings(o); len(fx) > 0 {
		text += fmt.Sprintf(" %d × %s into the studs.", len(fx), s.fastener(fx[0].Screw))
	}
	c := ""
	if s.tooHeavy(o) {
		c = heavy
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill", Text: text, Caution: c})
}
