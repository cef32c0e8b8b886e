package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
)

// install: wall cases before floor cases, bases, cases, what joins them, counters, hutches,
// fillers, fronts last; stage by stage where there are stages, what
// belongs to none first.
func (s *steps) install() {
	stages := []string{""}
	for _, x := range s.Stages {
		if x != "" {
			stages = append(stages, x)
		}
	}
	stands := map[string]bool{}
	for _, o := range s.Assembly.Owners {
		stands[o.ID] = o.Standing
	}
	joined := map[string]bool{}
	if len(s.CutAway) > 0 {
		s.add(Step{Phase: Install, Tool: "pencil, square, hand saw, chisel", Caution: eyes + " " + wall,
			Text: "Make room at the wall. " + strings.Join(s.CutAway, " ") + " Mark both ends square, saw and pare down to the wall there, and take out what lies between; keep it for the other places."})
	}
	ruled := len(s.list)
	for _, stage := range stages {
		from := len(s.list)
		s.now = stage
		in := func(o part.Owner) bool {
			return o.Stage == stage || stage == "" && !slices.Contains(s.Stages, o.Stage)
		}
		var now []part.Owner
		for _, o := range s.owners("case") {
			if o.Hung && in(o) {
				s.unfix(o)
				first := s.hang(o, stands)
				stands[o.ID] = true
				now = append(now, o)
				s.join(stands, joined)
				s.home(o, first)
			}
		}
		for _, o := range now {
			s.restore(o)
		}
		if s.batten {
			s.batten = false
			s.add(Step{Phase: Install, Tool: "driver bits", Text: "Take the batten down: all that rested on it hang by all of their screws. Fill the holes of its screws, where they show."})
		}
		for _, o := range s.owners("base") {
			if in(o) {
				s.level(o, s.setBase(o), true)
				stands[o.ID] = true
			}
		}
		var floor, last []part.Owner
		for _, o := range s.owners("case") {
			if !o.Hung && in(o) && s.benchOver(o) { // a bench is not lifted over what stands
				last = append(last, o)
			} else if !o.Hung && in(o) {
				s.unfix(o)
				s.packBehind(o, s.fixings(o, toRoom))
				s.level(o, s.setCase(o), false)
				s.toMark(o)
				stands[o.ID] = true
				floor = append(floor, o)
			}
		}
		s.join(stands, joined)
		for _, o := range s.owners("counter") {
			if in(o) {
				s.rails(o)
			}
		}
		for _, o := range floor {
			s.fixDown(o)
			s.ballast(o, Install, "")
		}
		now = append(append(now, floor...), last...)
		for _, kind := range []string{"counter", "hutch"} {
			for _, o := range s.owners(kind) {
				if in(o) {
					s.put(o)
				}
			}
		}
		for _, o := range last {
			s.level(o, s.setCase(o), false)
			stands[o.ID] = true
			s.ballast(o, Install, "")
		}
		s.openTops(now)
		for _, kind := range []string{"filler", "panel"} {
			for _, o := range s.owners(kind) {
				if in(o) {
					s.scribe(o)
				}
			}
		}
		s.adjust(now, stands)
		if stage != "" && len(s.Stages) > 1 && len(s.list) > from {
			s.list[from].Text = fmt.Sprintf("Setting up stage %s begins here. %s", stage, s.list[from].Text)
		}
	}
	for _, o := range s.Assembly.Owners {
		if !o.Standing {
			s.rest(o, s.called(o))
		}
	}
	s.rulesOnce(ruled)
}

// name gives what a person calls an owner.
func (s *steps) name(id string) string {
	for _, o := range s.Assembly.Owners {
		if o.ID == id {
			return s.called(o)
		}
	}
	return id
}

// called gives what a person calls an owner, with the letter that the marks of its boards begin with, "sail bags (F)":
// several may have one name. What stands already has no marks.
func (s *steps) called(o part.Owner) string {
	name := cmp.Or(o.Name, o.ID)
	if parts := s.whose.Of(o.ID).Parts; len(parts) > 0 {
		if code := parts[0].Code(); code != name {
			name += " (" + code + ")"
		}
	} else if o.Code != "" {
		name += " (" + o.Code + ")"
	}
	return name
}

func (s *steps) fixings(o part.Owner, want func(part.Fixing) bool) []part.Fixing {
	var out []part.Fixing
	for _, f := range s.whose.Of(o.ID).Fixings {
		if want(f) {
			out = append(out, f)
		}
	}
	return out
}

// toRoom tells a fixing to the room from one to a neighbour.
func toRoom(f part.Fixing) bool { return f.Kind != part.ToCase && f.Kind != part.ToBase }

// join screws neighbours together as soon as both stand.
func (s *steps) join(stands, done map[string]bool) {
	for _, o := range s.owners("case") {
		if !stands[o.ID] {
			continue
		}
		for _, other := range s.beside(o) {
			if !stands[other] || done[o.ID+" "+other] {
				continue
			}
			done[o.ID+" "+other] = true
			list := s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToCase && f.Stud == other })
			var ups []string
			f := list[0]
			order.Stable(list, func(a, b part.Fixing) int { return cmp.Compare(a.At.Z, b.At.Z) })
			for _, f := range list {
				if t := s.in(f.At.Z); !slices.Contains(ups, t) {
					ups = append(ups, t)
				}
			}
			text := fmt.Sprintf("Clamp %s and %s with %s, and join them: %d × %s through %s (%s), %s up.", s.called(o), s.name(other), s.flush(o, other), len(list), s.fastener(f.Screw), s.parts[f.Part].Name, f.Part, and(ups))
			if f.Packing > 0 {
				text = strings.TrimSuffix(text, ".") + fmt.Sprintf(", with packing between them at each: slips of board or washers, %s by the survey%s.", s.in(f.Packing), s.play(o, other))
			}
			inside, tool := []string{o.ID}, "clamps, drill, driver bits"
			if h, _ := s.Catalogue.Item(f.Screw); h.Kind == "bolt" { // whose nuts are in the other
				inside = append(inside, other)
				said, with := s.nuts(o, other, list)
				text, tool = text+said, "clamps, wrenches"+with
			}
			text += s.sink(f.Screw) + s.emptied(inside)
			beside, angle := "", ""
			if h, _ := s.Catalogue.Item(f.Screw); h.Kind == "screw" {
				beside, angle = s.besideInside(o, list)
			}
			text += beside
			pilot := ""
			if h, ok := s.Catalogue.Item(f.Screw); ok && h.Kind == "screw" && h.Pilot > 0 && s.stoodBefore(other) {
				bit, _, _ := s.joiner().Pilot(h.Pilot)
				text += fmt.Sprintf(" Look first inside %s that nothing is where they come, and bore on into its side through the holes with the %s, no deeper than they go. %s", s.name(other), bit, s.pointsIn(o, other, f))
				pilot = ", " + bit
			}
			for _, id := range []string{o.ID, other} {
				if s.loose[id] {
					s.loose[id] = false
					text += fmt.Sprintf(" Now drive the screws of the upper rail of %s tight.", s.name(id))
				}
			}
			fits := fit(nil, f.Screw, s.draw(o.ID, f.Screw, len(list), func(h part.Item) bool { return strings.HasPrefix(h.For, "joining") }))
			s.add(Step{Phase: Install, Owner: o.ID, Tool: tool + pilot + angle + s.sinker(f.Screw), Parts: []string{f.Part}, Fits: fits, Text: text})
		}
	}
}

// nuts says on which side the nuts of joining bolts are and how far their ends stand out there, and has them shortened where
// something slides past; it gives the tools for that.
func (s *steps) nuts(o part.Owner, other string, list []part.Fixing) (text, tools string) {
	h, _ := s.Catalogue.Item(list[0].Screw)
	end, grip, past := length.Length(0), length.Length(0), false
	for _, f := range list {
		boards := f.Own() + f.Packing + f.Into
		out := f.Length - h.Washer() - boards
		end, grip = max(end, out), max(grip, boards)
		for _, m := range s.Assembly.Motions { // known of what an earlier stage built too
			if b := m.Closed; m.Owner == other && m.Kind == part.Slide && b.Min.Z < f.At.Z+h.Dia && b.Max.Z > f.At.Z-h.Dia && b.Max.Y > f.At.Y-h.Dia {
				past = past || max(b.Min.X-f.At.X, f.At.X-b.Max.X)+f.Own()/2-boards < out+slidePast
			}
		}
	}
	text = fmt.Sprintf(" The heads are in %s, the nuts in %s, a washer under each.", s.called(o), s.name(other))
	if !past {
		return text + fmt.Sprintf(" The ends stand %s out of that side.", s.in(end.Up(s.easy()))), ""
	}
	return text + fmt.Sprintf(" Something slides past the ends: before they go in, turn the nut on, saw each bolt to %s under its head, file the end, and take the nut off, which clears the thread.", s.in((grip+2*h.Washer()+h.Nut()).Up(s.easy()))), ", hacksaw, file"
}

// slidePast is left between the end of a bolt and what slides past it (common practice, no source).
const slidePast = 3 * length.MM

// pointsIn says how far the points of joining screws come into the side of what stands already, at the narrower of its gaps, and
// how thick that must be measured to be.
func (s *steps) pointsIn(o part.Owner, other string, f part.Fixing) string {
	gap := f.Packing
	for _, x := range s.Assembly.Owners {
		if (x.ID == o.ID || x.ID == other) && x.Play[1] > 0 {
			gap = min(gap, x.Play[0]/2)
		}
	}
	in := f.Length - gap
	for _, l := range f.Layers {
		in -= l.Thickness
	}
	in = in.Up(s.easy())
	return fmt.Sprintf("Measure how thick that side is: they come up to %s into it, so where it is less than %s more, put as much packing on.", s.in(in), s.in(2*length.MM.Up(s.easy())))
}

// benchOver reports whether a case that is not fixed stands under a bench that has legs.
func (s *steps) benchOver(o part.Owner) bool {
	return o.Moves && slices.ContainsFunc(s.Assembly.Parts, func(p part.Part) bool {
		i := slices.IndexFunc(s.Assembly.Owners, func(x part.Owner) bool { return x.ID == p.Owner })
		if p.Role != part.Leg || i < 0 {
			return false
		}
		b, c := s.Assembly.Owners[i].Box, o.Carcass
		return s.Assembly.Owners[i].Wall == o.Wall && b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y && c.Max.Z <= b.Max.Z
	})
}

// stoodBefore reports whether something was there before this job.
func (s *steps) stoodBefore(id string) bool {
	return slices.ContainsFunc(s.Assembly.Owners, func(o part.Owner) bool { return o.ID == id && o.Standing && o.Code == "" })
}

// play tells what the places measured in a gap leave beside the case in it, "" where two do not stand in one.
func (s *steps) play(o part.Owner, other string) string {
	for _, x := range s.Assembly.Owners {
		if p := x.Play; p[1] > 0 && (x.ID == o.ID || x.ID == other) {
			both := s.in(p[0])
			if p[1] > p[0] {
				both += " to " + s.in(p[1])
			}
			return fmt.Sprintf(", but as thick as the gap is there when %s stands in its middle: both sides together leave %s", cmp.Or(x.Name, x.ID), both)
		}
	}
	return ""
}

// flush says where neighbours are flush: their rears where these are in one plane, and by how much the front
// edges of the sides of one then stand back behind the other's.
func (s *steps) flush(o part.Owner, other string) string {
	var x part.Owner
	for _, y := range s.Assembly.Owners {
		if y.ID == other {
			x = y
		}
	}
	front, rear := o.Carcass.Min.Y-x.Carcass.Min.Y, o.Carcass.Max.Y-x.Carcass.Max.Y
	back := func(d length.Length) string {
		one, two := s.called(o), s.name(other)
		if d < 0 {
			d, one, two = -d, two, one
		}
		return fmt.Sprintf("the front edges of the sides of %s %s behind those of %s", one, s.in(d), two)
	}
	switch {
	case front.Abs() < length.MM/2 && rear.Abs() < length.MM/2:
		return "their sides flush at the front and at the rear"
	case rear.Abs() < length.MM/2:
		return "their sides flush at the rear and " + back(front)
	case front.Abs() < length.MM/2:
		return "the front edges of their sides flush"
	}
	return back(front)
}

// beside gives the neighbours that an owner is screwed to, in the order of the screws.
func (s *steps) beside(o part.Owner) []string {
	var out []string
	for _, f := range s.whose.Of(o.ID).Fixings {
		if f.Kind == part.ToCase && f.Stud != "" && !slices.Contains(out, f.Stud) {
			out = append(out, f.Stud)
		}
	}
	return out
}

// along prints a place along a wall, which is named where there are several.
func (s *steps) along(o part.Owner, x length.Length) string {
	t := s.in(x) + " along"
	for _, other := range s.Assembly.Owners {
		if o.Wall != "" && other.Wall != "" && other.Wall != o.Wall {
			return t + " wall " + o.Wall
		}
	}
	return t
}

// fromWall says how far the rear of a thing is from the face of the wall at a height, where it is set: what leans or is
// hollow is nearer or further elsewhere.
func (s *steps) fromWall(o part.Owner, b geom.Box, z length.Length, edge string) string {
	if o.Wall == "" {
		return ""
	}
	left, right := -b.Max.Y, -b.Max.Y
	for _, w := range s.Walls {
		if w.ID == o.Wall {
			left, right = left+w.Face(b.Min.X, z), right+w.Face(b.Max.X, z)
		}
	}
	at := func(v length.Length) string {
		if v < length.MM/2 {
			return "against the wall"
		}
		return s.in(v) + " from the wall"
	}
	if at(left) == at(right) {
		if left < length.MM/2 {
			edge = ""
		}
		return ", its rear " + at(left) + edge
	}
	return fmt.Sprintf(", its rear%s %s at its left end and %s at its right", edge, at(left), at(right))
}

// cornered says of a thing that comes against the wall's end that it is fitted there; "" where none does.
func (s *steps) cornered(o part.Owner) string {
	for _, w := range s.Walls {
		left, right := o.Box.Min.X.Abs() < length.MM, (o.Box.Max.X-w.Length).Abs() < length.MM
		if w.ID != o.Wall || !left && !right {
			continue
		}
		end, other, x := "left", "right", o.Box.Max.X
		if right {
			end, other, x = "right", "left", o.Box.Min.X
		}
		if left && right {
			return " It reaches from end to end of the wall: measure the wall at its height before it is cut to length, and scribe both ends."
		}
		return fmt.Sprintf(" Its %s end is at the end of the wall: where the wall that meets it there is out of square or not straight, scribe that end, plane to the line and finish it again, until its %s end is %s along or short of that.", end, other, s.in(x))
	}
	return ""
}

// level sets what stands on the floor to its heights.
func (s *steps) level(o part.Owner, verb string, fix bool) {
	name := s.called(o)
	points, shims := s.underneath(o)
	where := ""
	if o.Wall != "" {
		where = ", left side " + s.along(o, o.Carcass.Min.X) + s.fromWall(o, o.Carcass, o.Carcass.Max.Z, " at its upper edge")
	}
	text := fmt.Sprintf("%s (%s): %s%s.", capital(name), s.weight(o), verb, where)
	if o.Moves {
		text = fmt.Sprintf("%s (%s): set it in its place%s. It is not fixed.", capital(name), s.weight(o), where)
	}
	st := Step{Phase: Install, Owner: o.ID, Tool: "level, tape", Fits: shims, Caution: s.tooHeavy(o)}
	if o.Kind == "case" {
		st.Caution = strings.TrimSpace(st.Caution + " " + s.tipping(o))
	}
	pads := slices.ContainsFunc(s.whose.Of(o.ID).Hardware, func(h part.Item) bool { return h.For == part.ForPads })
	if tape := s.take(o.ID, func(h part.Item) bool { return h.Kind == "tape" }); len(tape) > 0 {
		where := "along its rails, whole"
		if pads {
			where = fmt.Sprintf("in %d pieces of %s, one under every point where it stands, on the floor as on shims and blocks, trimmed to what stands on it", len(s.whose.Of(o.ID).Feet), s.in(part.StripPad(s.Practice.InInches())))
		}
		points = append(points, fmt.Sprintf("Under it: %s, %s: pressed flat it is alike everywhere, lifts all by about %s, which no height told here counts, and changes no height of a shim", s.things(tape), where, s.coarse(3*length.MM/2, length.Inch/16)))
		st.Fits = append(st.Fits, tape...)
	}
	if bed := s.take(o.ID, func(h part.Item) bool { return h.For == part.BedsOnBase }); len(bed) > 0 {
		points = append(points, fmt.Sprintf("Nothing screws it to its base: set it down on beads of adhesive along the base's front and rear rails, and let them harden before it is loaded: %s", s.things(bed)))
		st.Fits = append(st.Fits, bed...)
	}
	points = append(points, s.turned(o)...)
	if fix {
		where, fits := s.driven(o, s.fixings(o, toRoom))
		points = append(points, where...)
		st.Fits = append(st.Fits, fits...)
		if len(where) > 0 {
			st.Caution += wall
		}
	}
	if o.Kind == "base" && slices.ContainsFunc(s.Assembly.Fixings, func(f part.Fixing) bool { return f.Kind == part.ToBase && f.Stud == o.ID }) {
		points = append(points, "It is not fixed by itself: the cases that stand on it are screwed down to it and held at the wall")
	}
	st.Text, st.Points = text, points
	s.add(st)
}

// stood says on what a thing stands: its feet, or shims.
func (s *steps) stood(o part.Owner) string {
	for _, f := range s.whose.Of(o.ID).Feet {
		if f.Kind != "shim" || f.Height >= part.ShimLeast || f.Unsure {
			return map[string]string{"foot": "feet", "castor": "castors", "shim": "shims"}[f.Kind]
		}
	}
	return "place"
}

// setBase says how a base is set.
func (s *steps) setBase(o part.Owner) string {
	if t := s.stood(o); t != "place" {
		return "set the base on its " + t + " and level it both ways"
	}
	return "set the base in its place and see that it is level both ways"
}

// setCase says how a floor case is set: what stands on a levelled base only goes to its place.
func (s *steps) setCase(o part.Owner) string {
	if t := s.stood(o); t != "place" {
		return "set the case on its " + t + ", level it both ways"
	}
	return "set the case in its place and see that it is level both ways"
}

// lined says how a filler or a panel is drawn to the wall.
func (s *steps) lined(o part.Owner) string {
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role == part.Filler && p.Box().Size().X > o.Box.Size().X {
			return fmt.Sprintf("it is %s wider than the gap: hold it plumb before the gap, its edge against the wall, so that it laps the neighbour, and draw a pencil on a block as wide as the lap along the wall", s.in(p.Box().Size().X-o.Box.Size().X))
		}
	}
	return "hold it plumb, draw a pencil on a block of the widest gap along the wall"
}

// scribe fits a filler or a panel to a wall that is not straight.
func (s *steps) scribe(o part.Owner) {
	var marks []string
	for _, p := range s.Assembly.Parts {
		if p.Owner == o.ID {
			marks = append(marks, p.Mark)
		}
	}
	if len(marks) == 0 {
		return
	}
	st := Step{Phase: Install, Owner: o.ID, Tool: "level, pencil, block plane, drill, driver bits", Parts: marks, New: marks}
	st.Fits = s.take(o.ID, func(part.Item) bool { return true })
	with := ""
	if len(st.Fits) > 0 {
		with = " with " + s.things(st.Fits)
	}
	st.Text = fmt.Sprintf("Scribe %s to the wall: %s, plane to the line, give the planed edge the finish of the rest, and fix it to its neighbour, front face flush with the front edge of its side and lower end level with the side's%s.", (&maker{steps: s}).named(marks), s.lined(o), with)
	for _, f := range st.Fits {
		if n := s.fastener(f.ID); f.Count > 1 && strings.Contains(n, "screw") {
			st.Text += " Drive them from inside the neighbour, through its side into the filler's edge, " + s.alongFiller(marks[0]) + ", each moved by as little as it takes where packing, a slide or a shelf is in the way. " + s.onSpot(f.ID, "that side", "") + s.sink(f.ID)
			st.Tool += s.bits(f.ID) + s.sinker(f.ID)
		}
	}
	s.add(st)
}

// alongFiller says where the screws go into the edge of a filler: those heights up it that its screws are counted by, in the
// middle of its thickness.
func (s *steps) alongFiller(mark string) string {
	var up []string
	for _, at := range joinery.Places(s.parts[mark].Size[0], part.FillerFirst, part.FillerPitch, 2) {
		up = append(up, s.in(at))
	}
	return fmt.Sprintf("%s up from its lower end, %s behind its front face", and(up), s.in(s.parts[mark].Size[2]/2))
}

// adjust sets what opens, once everything stands.
func (s *steps) adjust(cases []part.Owner, stands map[string]bool) {
	var names []string
	for _, o := range cases {
		if slices.ContainsFunc(s.Assembly.Fronts, func(f part.Front) bool { return s.parts[f.Part].Owner == o.ID }) {
			names = append(names, s.called(o))
		}
	}
	if len(names) > 0 {
		s.add(Step{Phase: Install, Tool: "screwdriver", Text: fmt.Sprintf("Last, when everything is loaded and has settled: adjust doors and fronts of %s to even gaps of %s%s, and check level once more.", and(names), s.gaps(), s.widerGaps(cases, stands))})
	}
}

// widerGaps tells the gaps between fronts of cases beside each other that the plan leaves wider or narrower than those within
// one, "" where none does.
func (s *steps) widerGaps(cases []part.Owner, stands map[string]bool) string {
	const plane, beside = 5 * length.MM, 20 * length.MM
	fronts := map[string][]geom.Box{}
	for _, f := range s.Assembly.Fronts {
		p := s.parts[f.Part]
		fronts[p.Owner] = append(fronts[p.Owner], p.Box())
	}
	var told []string
	pair := map[string]bool{}
	for _, o := range cases {
		for _, x := range s.Assembly.Owners {
			if x.ID == o.ID || x.Wall != o.Wall || !stands[x.ID] || pair[x.ID+"\x00"+o.ID] {
				continue
			}
			pair[o.ID+"\x00"+x.ID] = true
			gap := length.Length(0)
			for _, a := range fronts[o.ID] {
				for _, b := range fronts[x.ID] {
					d := max(a.Min.X-b.Max.X, b.Min.X-a.Max.X)
					if min(a.Max.Z, b.Max.Z)-max(a.Min.Z, b.Min.Z) > beside && (a.Min.Y-b.Min.Y).Abs() < plane && d > 0 && d < beside {
						gap = d
					}
				}
			}
			if gap > 0 && (gap-s.Practice.FrontGap).Abs() >= s.step(length.MM, length.Inch/32) {
				told = append(told, fmt.Sprintf("%s between %s and %s", s.in(gap), s.called(o), s.called(x)))
			}
		}
	}
	if len(told) == 0 {
		return ""
	}
	return ", but " + and(told)
}

// gaps says how far fronts are from each other and from the outer faces of their case.
func (s *steps) gaps() string {
	p := s.Practice
	sides := s.in(p.SideGap) + " from"
	if p.SideGap <= 0 {
		sides = "flush with"
	}
	return fmt.Sprintf("%s between the fronts of a case and %s the outer faces of its sides", s.in(p.FrontGap), sides)
}

// unfix makes room for a case that does not slide into its gap.
func (s *steps) unfix(o part.Owner) {
	if o.Unfix == "" {
		return
	}
	name, beside := s.called(o), s.name(o.Unfix)
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill", Caution: s.tipping(o),
		Text: fmt.Sprintf("Empty %s, take out the screws that hold it to the wall, to its neighbours and to what lies on it, and draw it aside until %s goes in. Push it back against %s, level it, and fix it again once %s stands.", beside, name, name, name)})
}
