package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// between says where rails go that lie between the sides of two cases: on a side of this set, else on what
// stands there already.
func (s *steps) between(rails []string) (points []string) {
	for _, m := range rails {
		p := s.parts[m]
		look := ""
		for _, o := range p.Ops {
			if o.Kind == part.Pocket {
				look = ", its pockets to the " + map[geom.Dir]string{geom.Front: "front", geom.Back: "rear", geom.Down: "floor", geom.Up: "top"}[p.Pose.Dir(o.Face.Normal())]
			}
		}
		if t := s.atEnd(p); t != "" {
			points = append(points, m+" "+t+look)
		}
	}
	return points
}

// atEnd says how a rail lies on the side of a case that it ends at.
func (s *steps) atEnd(p part.Part) string {
	a := p.Box()
	ends := func(b geom.Box, low bool) bool { // whether it ends at a box, at its lower end or its upper one
		d := a.Min.X - b.Max.X
		if !low {
			d = b.Min.X - a.Max.X
		}
		return (d-part.RailPlay).Abs() <= part.RailPlay && b.Min.Y < a.Max.Y && b.Max.Y > a.Min.Y && b.Min.Z < a.Max.Z && b.Max.Z > a.Min.Z
	}
	side := map[bool]string{true: "right", false: "left"}
	for _, low := range []bool{true, false} {
		for _, q := range s.Assembly.Parts {
			if q.Role == part.Side && q.Moves == "" && ends(q.Box(), low) {
				return fmt.Sprintf("on the %s of %s: %s of %s", side[low], q.Mark, s.seat(p, q, 0), q.Mark)
			}
		}
	}
	for _, low := range []bool{true, false} {
		for _, o := range s.Assembly.Owners {
			if !o.Standing || !ends(o.Box, low) {
				continue
			}
			high, deep := "flush with its top", "flush with its front"
			if d := o.Box.Max.Z - a.Max.Z; d > 0 {
				high = s.in(d) + " below its top"
			}
			if d := a.Min.Y - o.Box.Min.Y; d > 0 {
				deep = s.in(d) + " behind its front"
			}
			return fmt.Sprintf("on the %s of %s: upper edge %s, front face %s", side[low], s.name(o.ID), high, deep)
		}
	}
	return ""
}

// rails puts the rails over a knee space in between the cases, before the counter lies on them and before these
// cases are fixed where they come with it.
func (s *steps) rails(o part.Owner) {
	if !s.carried(o) {
		return
	}
	var rails, beside []string
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role == part.Rail && p.Material != part.Bought {
			rails = append(rails, p.Mark)
		}
	}
	if len(rails) == 0 {
		return
	}
	for _, f := range s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToCase && slices.Contains(rails, f.Part) }) {
		if !slices.Contains(beside, f.Stud) {
			beside = append(beside, f.Stud)
		}
	}
	fits := s.take(o.ID, func(h part.Item) bool { return strings.HasPrefix(h.For, "rails over") })
	with := ""
	if len(fits) > 0 {
		with = ", with " + s.things(fits) + " in all"
	}
	name := s.called(o)
	st := Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, clamps", Parts: rails, New: rails, Fits: fits, Points: s.between(rails),
		Text: fmt.Sprintf("Screw the rails of %s between the cases, through their pockets: %s%s.", name, (&maker{steps: s}).named(rails), with)}
	if len(fits) == 0 {
		st.Text = fmt.Sprintf("The rails of %s go between the cases: %s. What holds them there is not known: see the findings.", name, (&maker{steps: s}).named(rails))
	}
	if slices.ContainsFunc(s.Assembly.Parts, func(p part.Part) bool { return p.Owner == o.ID && s.endBlock(p) }) {
		st.Tool, st.New = "wrenches, clamps, hacksaw, file", nil
		st.Text = fmt.Sprintf("Bolt the rails of %s between the cases: %s%s. Each bolt goes from inside the case through the hole in its side and the one in the block behind it, a washer under its head and under its nut, which is in the knee space: nothing that slides out meets its head. Saw and file off what stands out beyond the nut, or knees find it.", name, (&maker{steps: s}).named(rails), with) + s.emptied(beside)
	}
	var free []string
	for _, x := range s.Assembly.Owners {
		if slices.Contains(beside, x.ID) && !x.Standing && (x.Stage == o.Stage || x.Stage == s.now) {
			free = append(free, s.called(x))
		}
	}
	if len(beside) > 0 {
		st.Text += fmt.Sprintf(" They are %s shorter than the room by the plan.", s.in(part.RailPlay*length.Length(min(2, len(beside)))))
		if len(free) > 0 {
			st.Text += fmt.Sprintf(" Where they do not go in, or leave more, move %s with what is joined to it: nothing there is fixed to the wall yet.", strings.Join(free, " or "))
		}
		st.Text += " Push slips of card or veneer in where an end does not touch its side, before it is drawn tight: no side is bent to a rail."
	}
	st.Text += " The counter lies on them and is not screwed to them: it lifts off when its own screws are out."
	s.add(st)
}

// put lays a counter where it goes, and stands a hook board on it.
func (s *steps) put(o part.Owner) {
	if o.Kind == "hutch" {
		s.standUp(o)
		return
	}
	name := s.called(o)
	to := map[string]int{}
	var order []string
	screw := ""
	n := 0
	for _, f := range s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToCase }) {
		if s.parts[f.Part].Role == part.Rail {
			continue
		}
		other := s.under(o, f)
		if to[other] == 0 {
			order = append(order, other)
		}
		to[other]++
		screw = f.Screw
		n++
	}
	low := o.Box.Min.Z
	if s.carried(o) && o.Kind == "counter" { // of what lies on the cases: rails and blocks hang between them
		low = o.Box.Max.Z
		for _, p := range s.whose.Of(o.ID).Parts {
			if p.Role == part.CounterLayer || p.Role == part.Blocking {
				low = min(low, p.Box().Min.Z)
			}
		}
	}
	up := s.in(low) + " up"
	if low < 0 {
		up = s.in(-low) + " lower than where heights are measured from"
	}
	text := fmt.Sprintf("Put %s (%s) in its place, left end %s, lower side %s%s.", name, s.weight(o), s.along(o, o.Box.Min.X), up, s.fromWall(o, o.Box, o.Box.Max.Z, " at its upper edge")) + s.cornered(o)
	fits := s.take(o.ID, func(h part.Item) bool { return strings.HasPrefix(h.For, "counter to") })
	if n > 0 {
		var each []string
		for _, id := range order {
			each = append(each, fmt.Sprintf("%d from %s", to[id], s.name(id)))
		}
		if len(fits) > 0 {
			screw = fits[0].ID
		}
		text += fmt.Sprintf(" Screw it with %d × %s up from the cases below it: %s.%s%s", n, s.fastener(screw), and(each), s.emptied(order), s.through(screw))
	}
	list := s.fixings(o, func(f part.Fixing) bool { return toRoom(f) && f.Kind != part.ToFloor })
	s.packBehind(o, list)
	where, more := s.driven(o, list)
	var onTop []string
	for _, x := range s.Assembly.Owners { // a machine, where it is set in the end
		if v := x.Box.And(o.Box.Grow(length.MM)); x.Standing && x.Wall == o.Wall && (x.Box.Min.Z-o.Box.Max.Z).Abs() <= length.MM && v.Min.X < v.Max.X && v.Min.Y < v.Max.Y {
			onTop = append(onTop, fmt.Sprintf("When it is screwed down, set %s on it, left end %s: until then it stands elsewhere, off the places of what is built. What it weighs is not told here: two people lift what is too heavy for one", s.called(x), s.along(x, x.Box.Min.X)))
		}
	}
	below := s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToCase && f.Row == "counter" })
	points := s.upward(below)
	beside, angle := s.besideUp(below)
	text += beside
	points = append(append(points, where...), onTop...)
	if o.Kind == "counter" && !s.carried(o) && len(where) == 0 && s.stood(o) == "place" {
		shims := s.take(o.ID, func(h part.Item) bool { return h.Kind == "shim" && h.For == "levelling" })
		more = append(more, shims...)
		if t := s.drawnOn(o); t != "" {
			points = append(points, t+": the level decides, and how high the top is over the floor")
		}
		points = append(points, fmt.Sprintf("Where a leg does not reach the floor, push a pair of shims under it, thin ends first and from both sides, until nothing rocks and the top is level: %s for all legs", cmp.Or(s.things(shims), "tapered shims")))
	}
	if bead := s.take(o.ID, func(h part.Item) bool { return h.For == part.ButtsInCorner }); len(bead) > 0 {
		points = append(points, fmt.Sprintf("It butts against the counter round the corner: slide its end home on a bead of adhesive, both upper faces flush under a straight board held across them, and screw it down before the bead sets: %s. Wipe off at once what comes out", s.things(bead)))
		more = append(more, bead...)
	}
	c := s.tooHeavy(o)
	if len(where) > 0 {
		text += " Then fix it to the wall." + s.pilots(list)
		c += wall
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level, tape" + angle + s.bits(screw) + s.sinker(screw) + s.roomBits(list), Text: text, Points: points, Fits: append(fits, more...), Caution: c})
	s.toFloor(o)
}

// angleFoot is how far the half of a steel angle that lies on the floor reaches from its leg.
const angleFoot = 50 * length.MM

// holeInSteel says which hole a steel angle needs for what holds it to the floor; "" where that is not known.
func (s *steps) holeInSteel(screw string) string {
	h, ok := s.Catalogue.Item(screw)
	if !ok || cmp.Or(h.Clearance, h.Dia) == 0 {
		return ""
	}
	return fmt.Sprintf(" An angle is sold with holes for its own screws: where it has none of %s there, clamp it down and bore one, with a twist bit for steel, and file the burr off.", cmp.Or(h.Clearance, h.Dia).Bit(s.Print))
}

// toFloor holds the legs of a bench to the floor by steel angles, before anything stands on it.
func (s *steps) toFloor(o part.Owner) {
	list := s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToFloor })
	fits := s.take(o.ID, func(h part.Item) bool { return h.For == part.ToFloorUse })
	if len(list) == 0 || len(fits) < 2 {
		return
	}
	var legs []string
	for _, f := range list {
		if !slices.Contains(legs, f.Part) {
			legs = append(legs, f.Part)
		}
	}
	leg := s.parts[list[0].Part].Box()
	out := min((leg.Min.X - list[0].At.X).Abs(), (leg.Max.X - list[0].At.X).Abs())
	bore, tools := "bore with the bit and as deep as its packet says", "hammer drill with the anchors' bit, wrench"
	hole := s.holeInSteel(list[0].Screw)
	stands := ""
	if over := angleFoot - min((leg.Min.X-o.Box.Min.X).Abs(), (o.Box.Max.X-leg.Max.X).Abs()); over > 0 {
		stands = fmt.Sprintf(" Its foot stands %s out past the end of the top: round its corners with the file, and mind your own feet.", s.in(over))
	}
	if h, ok := s.Catalogue.Item(list[0].Screw); ok && h.Kind == "screw" {
		bore, tools = "bore into the floor's boards with a bit as thick as the screw's core", "drill, driver bits"
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "pencil, drill, " + tools, Parts: legs, Fits: fits, Caution: floorCare,
		Text: fmt.Sprintf("Hold %s where it stands level: %s into the floor, each through a steel angle at its leg, %s. An angle comes on the outer face of each leg (%s), its other half flat on the floor and turned away from the bench, the hole in the floor %s from the leg.%s%s Screw it to the leg with the screws that come with it, mark the floor through it, take it off where it is in the way, %s, clear the dust out, and screw it down. Nothing leans on the bench before the last is home.",
			s.called(o), s.things(fits[1:]), s.things(fits[:1]), and(legs), s.in(out), hole, stands, bore)})
}

// through says with which bits a screw on its way up from a case into a counter is bored for on the spot.
func (s *steps) through(screw string) string {
	h, ok := s.Catalogue.Item(screw)
	if !ok || h.Clearance == 0 {
		return ""
	}
	sh := s.joiner()
	tool, _, _ := sh.Pilot(h.Clearance)
	text := fmt.Sprintf(" Bore for them on the spot, from inside the cases, through the stretchers or the tops with the %s", tool)
	if h.Pilot > 0 {
		pilot, _, _ := sh.Pilot(h.Pilot)
		text += fmt.Sprintf(", and on into the counter with the %s, no deeper than the screws go", pilot)
	}
	return text + "; countersink for the heads."
}

// upward says where in each case the screws of a counter go up.
func (s *steps) upward(list []part.Fixing) (out []string) {
	var ids []string
	for _, f := range list {
		if !slices.Contains(ids, f.Stud) {
			ids = append(ids, f.Stud)
		}
	}
	for _, id := range ids {
		var left part.Part
		for _, p := range s.whose.Of(id).Parts {
			if p.Role == part.Side && (left.Mark == "" || p.Box().Min.X < left.Box().Min.X) {
				left = *p
			}
		}
		if left.Mark == "" {
			continue
		}
		var rows []string // how far back, and which of them
		var xs [][]string
		for _, f := range list {
			if f.Stud != id {
				continue
			}
			row := s.in(f.At.Y - left.Box().Min.Y)
			i := slices.Index(rows, row)
			if i < 0 {
				i = len(rows)
				rows, xs = append(rows, row), append(xs, nil)
			}
			xs[i] = append(xs[i], s.in(f.At.X-left.Box().Max.X))
		}
		var told []string
		for i, row := range rows {
			told = append(told, fmt.Sprintf("%s behind the front edges of its sides, %s from the inside of its left side", row, and(xs[i])))
		}
		out = append(out, "In "+s.name(id)+": "+strings.Join(told, "; "))
	}
	return out
}

// under names what a fixing of a counter or hutch goes to.
func (s *steps) under(o part.Owner, f part.Fixing) string {
	for _, id := range []string{f.Stud, f.Row} {
		if slices.ContainsFunc(s.Assembly.Owners, func(x part.Owner) bool { return x.ID == id }) {
			return id
		}
	}
	for _, x := range s.Assembly.Owners {
		if x.ID != o.ID && x.Wall == o.Wall && x.Kind == "counter" && x.Box.Max.Z == o.Box.Min.Z {
			return x.ID
		}
	}
	return "what it stands on"
}
