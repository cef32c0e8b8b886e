package shop

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

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
		s.add(Step{Phase: Prove, Tool: "caliper", Points: slides, Text: fmt.Sprintf("Measure one pair of slides, and compare it with its line: length, thickness or the room that its own paper wants, and where its screws and hooks go. The widths of %s, and the holes for the slides, follow them.", cmp.Or(boxes, "what runs on them"))})
	}
	s.hinges()
	s.boredPlaces()
	s.barLocks()
	s.anchors()
	if slices.ContainsFunc(s.Assembly.Owners, func(o part.Owner) bool { return o.Wall != "" && !o.Standing }) {
		s.add(Step{Phase: Prove, Tool: "level, tape", Text: "Hold the wall against its drawings: its length and height, the studs, how far the floor falls from its left end, what has to stay clear and what stands there already and how high. All heights, shims, packing and screws of the last chapter follow these (walls, of each wall)."})
	}
}

// boredPlaces asks for the widest of what stands in bored holes: one line for every size of hole in a kind of fitting.
func (s *steps) boredPlaces() {
	type line struct {
		kind string
		dia  length.Length
	}
	var lines []line
	boards := map[line][]string{}
	for _, b := range s.Assembly.Bays {
		if len(b.Places) == 0 || b.Places[0].Dia == 0 {
			continue
		}
		l := line{b.Kind, b.Places[0].Dia}
		for _, p := range s.whose.Of(b.Owner).Parts {
			bored := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.BoredPlace && o.Dia == l.dia })
			if !bored || slices.Contains(boards[l], p.Mark) {
				continue
			}
			if boards[l] == nil {
				lines = append(lines, l)
			}
			boards[l] = append(boards[l], p.Mark)
		}
	}
	var points []string
	for _, l := range lines {
		points = append(points, fmt.Sprintf("%s: holes of %s (its bay, %s, diameter)", brief(boards[l]), s.size(l.dia), l.kind))
	}
	if len(points) > 0 {
		s.add(Step{Phase: Prove, Tool: "caliper", Points: points, Text: "Measure the widest can, bottle or cartridge that stands in a bored hole, over its seam and its label: it must go in and out with ease. Its line says how wide one is; the width of the holes follows it, and with that how far apart they are and how many there are."})
	}
}

// tried is one kind of hinge as it is bored for, and the doors that hang so.
type tried struct {
	hinge             string
	cup, plate, cover length.Length // the cup's middle from the door's hinged edge, the plate's screws from the side's front edge
	edged             bool
	doors             []string
}

// hinges asks for a hinge on scrap: one of every kind, and one for every way in which it is bored for.
func (s *steps) hinges() {
	var list []tried
	for _, f := range s.Assembly.Fronts {
		t, ok := s.tried(f)
		if !ok {
			continue
		}
		i := slices.IndexFunc(list, func(x tried) bool {
			return x.hinge == t.hinge && x.edged == t.edged && (x.cup-t.cup).Abs() < length.MM/5 && (x.plate-t.plate).Abs() < length.MM/5 && (x.cover-t.cover).Abs() < length.MM/5
		})
		if i < 0 {
			i = len(list)
			list = append(list, t)
		}
		list[i].doors = append(list[i].doors, f.Part)
	}
	if len(list) == 0 {
		return
	}
	var points []string
	for _, t := range list {
		edge := "the door's edge"
		if t.edged {
			edge = "the door's finished edge, the edging on it, for which the scrap's bare edge stands"
		}
		of := ""
		if len(list) > 1 {
			of = "; " + brief(t.doors)
		}
		points = append(points, fmt.Sprintf("%s: the cup's middle %s from %s, the plate's screws %s from the side's front edge; the door should cover %s (hardware, %s%s)", s.fastener(t.hinge), s.size(t.cup), edge, s.size(t.plate), s.size(t.cover), t.hinge, of))
	}
	what := "Bore one hinge cup in scrap, hang the scrap on a scrap side, and measure how far it covers the side's edge."
	if len(list) > 1 {
		what = "Bore a hinge cup in scrap for each of these, hang the scrap on a scrap side, and measure how far it covers the side's edge."
	}
	s.add(Step{Phase: Prove, Tool: "drill", Points: points, Text: what + " The widths of doors and the places of cups follow it.", Caution: eyes})
}

// tried says how one door hangs; false for a front that has no hinges.
func (s *steps) tried(f part.Front) (t tried, ok bool) {
	door, ok := s.parts[f.Part]
	if !ok || f.Kind != part.DoorFront || f.Hinge > geom.Left {
		return t, false
	}
	i := slices.IndexFunc(door.Ops, func(o part.Op) bool { return o.Kind == part.Cup })
	if i < 0 {
		return t, false
	}
	hinged := func(at geom.Vec) length.Length { // from the hinged edge
		if f.Hinge == geom.Left {
			return at.X - door.Box().Min.X
		}
		return door.Box().Max.X - at.X
	}
	cup := door.Ops[i]
	t.cup = hinged(door.Pose.Point(cup.Face.Point(cup.X, cup.Y, door.Size)))
	t.edged = slices.ContainsFunc(door.Bands[:], func(b part.Band) bool { return b.Edging != "" })
	for _, q := range s.whose.Of(door.Owner).Parts {
		if q.Role != part.Side && q.Role != part.Partition {
			continue
		}
		b := q.Box()
		cover := hinged(b.Max.With(0, map[bool]length.Length{true: b.Max.X, false: b.Min.X}[f.Hinge == geom.Left]))
		k := slices.IndexFunc(q.Ops, func(o part.Op) bool { return o.For == "hinge plate" })
		if cover <= 0 || cover > b.Size().X || k < 0 {
			continue
		}
		at := q.Pose.Point(q.Ops[k].Face.Point(q.Ops[k].X, q.Ops[k].Y, q.Size))
		t.plate, t.cover = at.Y-b.Min.Y, cover
		t.hinge = s.hingeOf(door.Owner, t.cup-cup.Dia/2, cover)
		return t, t.hinge != ""
	}
	return t, false
}

// hingeOf gives the hinge of an owner that covers so much with its cup so far from the door's edge, on one of the
// plates that are sold for it; "" where none is bought.
func (s *steps) hingeOf(owner string, boring, cover length.Length) (id string) {
	off := length.Length(-1)
	for _, h := range s.whose.Of(owner).Hardware {
		x, ok := s.Catalogue.Item(h.ID)
		if h.Kind != "hinge" || !ok {
			continue
		}
		plates := x.Plates
		if len(plates) == 0 {
			plates = []length.Length{x.Plate}
		}
		for _, p := range plates { // as makers' guides have it: overlay = constant + boring - plate
			if d := (x.Overlay + boring - p - cover).Abs(); off < 0 || d < off {
				id, off = h.ID, d
			}
		}
	}
	return id
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

// slideHoles says for which room a pair of slides is planned, and where its screws and hooks go, to be held against its
// own paper.
func (s *steps) slideHoles(h part.Item) (t string) {
	x, ok := s.Catalogue.Item(h.ID)
	if !ok {
		return ""
	}
	under := x.SlideKind == "under"
	if under && x.SideRoom > 0 {
		t += fmt.Sprintf(", for boxes that are %s narrower inside than their opening", s.size(2*x.SideRoom))
	}
	if h.Length > 0 {
		var at []string
		for _, l := range joinery.SlideScrews(h.Length, x.ScrewsEach) {
			at = append(at, s.size(l))
		}
		t += fmt.Sprintf("; its screws in the case %s behind its front end, or in holes of its own near there", and(at))
	}
	for _, p := range s.whose.Of(h.Owner).Parts {
		for _, o := range p.Ops {
			if under && o.For == "under slide hook" && o.X < p.Size[0]/2 {
				return t + fmt.Sprintf("; its hook in a hole of %s in the back of the box, %s from the inner face of the side and %s up from the lower edge", s.size(o.Dia), s.size(o.X), s.size(o.Y))
			}
		}
	}
	return t
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
		if kind == "slide" {
			t += s.slideHoles(h)
		}
		if t += " (hardware, " + h.ID + ")"; !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}
