package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/part"
)

// What is fixed to a wall goes up in the order of the trade. Into studs holes are bored where these are found,
// with the thing in its place. An anchor is wider than its screw: the wall is marked through the holes in the
// rail, the thing comes away, the wall is bored and the anchors set, and it goes back. Neighbours are joined
// before their lower rails are screwed, so that they can still be drawn flush; doors come on last.

// driven says which screws go where: for every kind of fixing, screw, board and height a count
// and its places along the wall. It takes the screws.
func (s *steps) driven(o part.Owner, list []part.Fixing) ([]string, []Fit) {
	type row struct {
		kind   part.FixKind
		screw  string
		part   string
		z      length.Length
		header string // over an opening, "" for a stud
		steel  bool   // an anchor in a steel stud
	}
	var rows []row
	at := map[row][]part.Fixing{}
	var fits []Fit
	for _, f := range list {
		if f.Packing < part.ShimLeast {
			f.Packing = 0
		}
		r := row{f.Kind, f.Screw, f.Part, f.At.Z, "", f.Kind == part.ToWall && f.Stud != ""}
		if strings.HasPrefix(f.Stud, "header") {
			r.header = f.Stud
		}
		if at[r] == nil {
			rows = append(rows, r)
		}
		at[r] = append(at[r], f)
		fits = fit(fits, f.Screw, 1)
	}
	var out []string
	for _, r := range rows {
		n := len(at[r])
		into := ""
		switch r.kind {
		case part.ToStud:
			into = plural(n, "into the stud", "into the studs")
			if r.header != "" {
				into = "into the " + r.header
			}
		case part.ToWall:
			into = "into the wall"
			if r.steel {
				into = plural(n, "into the steel stud", "into the steel studs")
			}
		case part.ToFloor:
			into = "into the floor"
		case part.ToLedger:
			into = "into the ledger behind it"
		case part.NoStud:
			into = "with no stud behind: see the findings"
		}
		x0, z0, inside := s.inside(o, r.part, r.z)
		up := s.in(r.z) + " up"
		if inside {
			up += fmt.Sprintf(" (%s over its bottom)", s.in(r.z-z0))
		}
		var places []string
		for i, f := range at[r] {
			t := s.in(f.At.X)
			if i == 0 {
				t += " along"
			}
			switch {
			case inside && i == 0:
				t += fmt.Sprintf(" (in the case %s from the inside of its left side)", s.in(f.At.X-x0))
			case inside:
				t += fmt.Sprintf(" (%s)", s.in(f.At.X-x0))
			}
			if f.Packing > 0 {
				t += ", packed out " + s.in(f.Packing)
			}
			places = append(places, t)
		}
		out = append(out, fmt.Sprintf("%d × %s through %s (%s) %s, %s: at %s", n, s.fastener(r.screw), s.parts[r.part].Name, r.part, into, up, strings.Join(places, "; ")))
	}
	for i := range fits {
		fits[i].Count = s.draw(o.ID, fits[i].ID, fits[i].Count, func(h part.Item) bool { return h.For == "wall fixing" || h.For == "rails to ledgers" })
	}
	return out, slices.DeleteFunc(fits, func(f Fit) bool { return f.Count == 0 })
}

// inside gives what the places of screws in a board are measured from inside a case, for the one who stands
// before it with a tape: the inner face of its left side, and the top face of its bottom.
func (s *steps) inside(o part.Owner, mark string, z length.Length) (x0, z0 length.Length, ok bool) {
	if o.Kind != "case" || s.parts[mark].Role == part.WallCleat || s.parts[mark].Role == part.Ledger {
		return 0, 0, false
	}
	var left, bottom part.Part
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Moves != "" {
			continue
		}
		if p.Role == part.Side && (left.Mark == "" || p.Box().Min.X < left.Box().Min.X) {
			left = *p
		}
		if p.Role == part.Bottom {
			bottom = *p
		}
	}
	if left.Mark == "" || bottom.Mark == "" || z < bottom.Box().Max.Z {
		return 0, 0, false
	}
	return left.Box().Max.X, bottom.Box().Max.Z, true
}

// anchored reports whether a fixing goes into an anchor, for which the thing comes off the wall again.
func anchored(f part.Fixing) bool { return f.Kind == part.ToWall }

// onWall reports whether a fixing holds what a case hangs on.
func (s *steps) onWall(f part.Fixing) bool {
	return toRoom(f) && (s.parts[f.Part].Role == part.WallCleat || s.parts[f.Part].Role == part.Ledger)
}

const noFixing = "NO FIXING FOUND: see the findings; do not hang it"

// The cautions for one that lifts a case to the wall; common practice, no source.
const (
	liftOn = "Lift with two people. Before letting go pull at its lower edge: the bevels hold it, or it comes off in your hands."
	liftUp = "Lift with two people, and hold it on its props until the first screws are in."
)

// hang puts a wall case up: its cleat or its ledgers first, where it has them, then the case with the screws
// that carry it, which stay a turn loose where it is still to be drawn flush with what stands beside it: the others wait
// until the two are joined. It gives the screws that are in when the case hangs.
func (s *steps) hang(o part.Owner, stands map[string]bool) []part.Fixing {
	name := s.called(o)
	cleat, ledgers := false, false
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role != part.WallCleat && p.Role != part.Ledger {
			continue
		}
		cleat, ledgers = cleat || p.Role == part.WallCleat, ledgers || p.Role == part.Ledger
		own := s.fixings(o, func(f part.Fixing) bool { return s.onWall(f) && f.Part == p.Mark })
		where, fits := s.driven(o, own)
		if len(where) == 0 {
			where = []string{noFixing}
		}
		sink := ""
		text := fmt.Sprintf("Fix %s of %s (%s) to the wall, level, its lower edge %s up, its left end %s.", p.Name, name, p.Mark, s.in(p.Box().Min.Z), s.along(o, p.Box().Min.X))
		if p.Role == part.WallCleat {
			text += " Its bevel is on top, and its long point is away from the wall. Countersink its holes first: the heads lie below its face, against which the back of the case comes."
			sink = ", countersink"
		}
		marks := []string{p.Mark}
		pack, packers, packed := s.packs(o, own)
		s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level, tape" + sink + s.roomBits(own), Parts: marks, New: marks, Fits: append(fits, packers...), Caution: wall, Points: append(where, packed...),
			Text: text + pack + s.marked(own, "hold it level in its place", "take it down", "hold it there again") + s.pilots(own)})
	}
	s.lighten(o)
	list := s.fixings(o, func(f part.Fixing) bool { return toRoom(f) && !s.onWall(f) })
	s.packBehind(o, list)
	first := s.carry(o, stands)
	if cleat {
		first = nil
	}
	where, fits := s.driven(o, first)
	if !cleat && len(list) == 0 {
		where = []string{noFixing}
	}
	place := fmt.Sprintf("lower edge %s up, left side %s", s.in(o.Carcass.Min.Z), s.along(o, o.Carcass.Min.X))
	var props string
	var batten []Fit
	battened := s.batten
	switch under, gap := s.below(o); {
	case cleat:
	case under != "": // there is no room for a batten
		props = fmt.Sprintf("resting on slips of board, veneer or card that make up the %s between it and %s, which hangs already", s.in(gap), under)
	case slices.ContainsFunc(list, anchored):
		props = "on two props that stand under its sides, both as long as that height"
	default:
		props, batten = s.onBatten()
		s.batten = true
	}
	text, caution := fmt.Sprintf("Hang %s: %s, %s.", name, place, props), liftUp
	switch {
	case cleat:
		text, caution = fmt.Sprintf("Lift %s on to its cleat, %s, until the bevels are tight. See with the level that it hangs upright, its lower rail against the wall or its packing.", name, place), liftOn
	case ledgers && len(list) > 0:
		text = fmt.Sprintf("Hang %s: %s, %s, its rails tight against the ledgers.", name, place, props)
	}
	if s.batten && !battened && len(s.battened) > 0 {
		text += s.battenHoles(s.battened[0].ID)
	}
	beside, tools := s.besideSide(o, first)
	text += s.marked(list, "", "Lift it off again", "Lift it back") + s.pilots(first) + beside
	if len(first) > 0 && s.besideOne(o, stands) {
		s.loose[o.ID] = true
		text += " Leave these screws a turn loose: it is drawn flush with what stands beside it first."
	}
	if len(first) > 0 && len(first) < len(list) {
		text += " The screws of its other rails wait until it is joined to what stands beside it; until then it stays empty."
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level, tape" + s.roomBits(append(slices.Clone(first), anchors(list)...)) + tools, Fits: append(batten, fits...), Points: where, Caution: caution + " " + wall, Text: text})
	return first
}

// reachOf is how far along the wall fixings reach, from the first to the last.
func reachOf(list []part.Fixing) length.Length {
	if len(list) == 0 {
		return 0
	}
	low, high := list[0].At.X, list[0].At.X
	for _, f := range list {
		low, high = min(low, f.At.X), max(high, f.At.X)
	}
	return high - low
}

// carry gives the screws that carry a wall case from the first: those of its highest rail; all of them where nothing stands
// beside it yet that it is joined to.
func (s *steps) carry(o part.Owner, stands map[string]bool) []part.Fixing {
	list := s.fixings(o, func(f part.Fixing) bool { return toRoom(f) && !s.onWall(f) })
	if !s.besideOne(o, stands) {
		return list
	}
	return slices.DeleteFunc(list, func(f part.Fixing) bool { return f.Row != "upper" })
}

// neighbours reports whether a case is screwed to one beside it.
func (s *steps) neighbours(o part.Owner) bool {
	return slices.ContainsFunc(s.Assembly.Fixings, func(f part.Fixing) bool {
		return f.Kind == part.ToCase && f.Row == "joining" && (f.Owner == o.ID || f.Stud == o.ID)
	})
}

// besideOne reports whether a case is to be screwed to one beside it that stands or hangs already.
func (s *steps) besideOne(o part.Owner, stands map[string]bool) bool {
	return slices.ContainsFunc(s.Assembly.Fixings, func(f part.Fixing) bool {
		return f.Kind == part.ToCase && f.Row == "joining" && (f.Owner == o.ID && stands[f.Stud] || f.Stud == o.ID && stands[f.Owner])
	})
}

// home drives the screws of a wall case that waited until it was joined.
func (s *steps) home(o part.Owner, first []part.Fixing) {
	cleat := slices.ContainsFunc(s.whose.Of(o.ID).Parts, func(p *part.Part) bool { return p.Role == part.WallCleat })
	list := s.fixings(o, func(f part.Fixing) bool { return toRoom(f) && !s.onWall(f) })
	if !cleat {
		list = slices.DeleteFunc(list, func(f part.Fixing) bool {
			return slices.ContainsFunc(first, func(d part.Fixing) bool { return d.At == f.At })
		})
	}
	if len(list) > 0 {
		where, fits := s.driven(o, list)
		what := "Screw the lower rail of " + s.called(o) + " to the wall"
		if !cleat {
			what = "Drive the other screws of " + s.called(o)
		}
		into := "."
		if slices.ContainsFunc(list, anchored) {
			into = ", into its anchors." + s.heads()
		}
		beside, tools := s.besideSide(o, list)
		s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level" + s.roomBits(slices.DeleteFunc(slices.Clone(list), anchored)) + tools, Fits: fits, Points: where, Caution: wall,
			Text: what + into + s.pilots(slices.DeleteFunc(slices.Clone(list), anchored)) + beside})
	}
}

// anchors gives those of a list that go into anchors.
func anchors(list []part.Fixing) []part.Fixing {
	return slices.DeleteFunc(slices.Clone(list), func(f part.Fixing) bool { return !anchored(f) })
}

// marked says how anchors come into the wall: it is marked through the holes that are bored in the boards, the
// thing comes away, and goes back when they are set. "" where there are none.
func (s *steps) marked(list []part.Fixing, hold, off, again string) string {
	list = anchors(list)
	if len(list) == 0 {
		return ""
	}
	t := " "
	if hold != "" {
		t += capital(hold) + ", and mark"
	} else {
		t += "Mark"
	}
	var through []string
	own := slices.ContainsFunc(list, func(f part.Fixing) bool { return f.Stud == "" })
	for _, f := range list {
		for _, b := range boards(f) {
			if !slices.Contains(through, b) {
				through = append(through, b)
			}
		}
	}
	if own {
		tip := ""
		if h, ok := s.Catalogue.Item(list[0].Screw); ok && h.Clearance > 0 {
			c, _, _ := s.joiner().Pilot(h.Clearance)
			tip = " with the tip of the " + c
		}
		t += fmt.Sprintf(" the wall through the holes in %s%s.", and(through), tip)
	} else {
		bit := "a bit that passes the anchor's bolt"
		if h, ok := s.Catalogue.Item(list[0].Screw); ok && h.Clearance > 0 {
			bit, _, _ = s.joiner().Pilot(h.Clearance)
			bit = "the " + bit
		}
		t += fmt.Sprintf(" on %s where the studs are, bore through with %s, and mark the wall through the holes.", and(through), bit)
	}
	least := ""
	if own {
		least = fmt.Sprintf(", no less than %s deep,", s.in((inWall(list) + anchorDust).Up(s.step(5*length.MM, length.Inch/8))))
	}
	return t + fmt.Sprintf(" %s, bore with the bit and as deep as you copied from the anchors' packet before the first cut%s blow the dust out, and set the anchors. %s.", capital(off), cmp.Or(least, ","), capital(again))
}

// anchorDust is how much deeper than its screw reaches the hole of an anchor is (common practice, no source).
const anchorDust = 10 * length.MM

// inWall is how deep the deepest of some anchors' screws reaches behind the face of the wall.
func inWall(list []part.Fixing) (deep length.Length) {
	for _, f := range list {
		deep = max(deep, f.Length-f.Own()-f.Packing)
	}
	return deep
}

// roomBits names the tools for screws to the room.
func (s *steps) roomBits(list []part.Fixing) string {
	var tools []string
	add := func(t string) {
		if !slices.Contains(tools, t) {
			tools = append(tools, t)
		}
	}
	js := s.joiner()
	if slices.ContainsFunc(list, func(f part.Fixing) bool { return f.Kind == part.ToStud || f.Stud != "" && anchored(f) }) {
		add("stud finder")
	}
	for _, f := range list {
		h, _ := s.Catalogue.Item(f.Screw)
		c, wide, _ := js.Pilot(cmp.Or(h.Clearance, h.Dia, 3*length.MM))
		p, dia, _ := js.Pilot(cmp.Or(h.Pilot, h.Root, 3*length.MM))
		if anchored(f) || f.Kind == part.ToStud || f.Kind == part.ToLedger {
			if h.Clearance == 0 || !f.AtBench() {
				add(s.bored(c, wide, s.clear(f)))
			}
		}
		switch {
		case anchored(f):
			if f.Stud == "" {
				if h.Clearance > 0 {
					add(c)
				}
				add("hammer drill with the anchors' bit")
			} else {
				add("pencil")
				add("the anchors' bit")
			}
		case f.Kind == part.ToStud || f.Kind == part.ToLedger:
			add(s.bored(p, dia, f.Length))
		}
	}
	if len(tools) == 0 {
		return ""
	}
	return ", " + strings.Join(tools, ", ")
}

// pilots says with which bits the holes for screws into studs and ledgers are bored.
func (s *steps) pilots(list []part.Fixing) string {
	var out []string
	studs := ""
	js := s.joiner()
	for _, f := range list {
		h, ok := s.Catalogue.Item(f.Screw)
		if !ok || f.Kind != part.ToStud && f.Kind != part.ToLedger {
			continue
		}
		clear, pilot := cmp.Or(h.Clearance, h.Dia), cmp.Or(h.Pilot, h.Root)
		if clear == 0 || pilot == 0 {
			continue
		}
		c, wide, _ := js.Pilot(clear)
		p, dia, _ := js.Pilot(pilot)
		boards := boards(f)
		c, p = s.bored(c, wide, s.clear(f)), s.bored(p, dia, f.Length)
		with := func(bit string) string {
			if strings.HasPrefix(bit, "long ") {
				return "a " + bit
			}
			return "the " + bit
		}
		from := " deep from the inside of " + boards[0]
		switch boards[0] {
		case "the cleat", "the ledger":
			from = " deep from the front of " + boards[0]
		case "the frame", "the spacer": // whose heads lie in recesses
			from = " deep, both from the bottom of the recess"
		}
		t := fmt.Sprintf("For %s bore through %s with %s, %s deep, and on behind with %s, %s%s.", s.fastener(f.Screw), and(boards), with(c), s.in(s.clear(f)), with(p), s.in(f.Length), from)
		if f.Kind == part.ToStud && f.Wall != "" {
			studs = s.rule("studs", "See with the stud finder that a stud is behind each place that is told; where it stands beside that, bore into its middle instead, at the same height."+s.lining(f))
		}
		if f.Kind == part.ToLedger && h.Clearance > 0 {
			t = fmt.Sprintf("For %s bore through its holes on into the ledger with %s, %s%s.", s.fastener(f.Screw), with(p), s.in(f.Length), from)
		}
		if t = s.rule(s.fastener(f.Screw)+" through "+boards[len(boards)-1], t); !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return studs + strings.Join(out, "")
}

// clear is how deep a hole is through all that a screw passes before what it holds in, so that it is never
// short of going through: rounded up to what is easily measured.
func (s *steps) clear(f part.Fixing) length.Length {
	return f.Own().Up(s.easy())
}

// easy is the finest mark that is easily measured: 1/16 in or 1 mm.
func (s *steps) easy() length.Length {
	if s.Print == length.Inches {
		return length.Inch / 16
	}
	return length.MM
}

// boards names what a screw into the wall goes through in its case, from the inside: "the back" that
// stands before "the rail".
func boards(f part.Fixing) []string {
	var out []string
	for _, l := range f.Layers {
		switch l.Name {
		case "hang rail":
			out = append(out, "the rail")
		case "back", "cleat", "ledger", "frame", "spacer":
			out = append(out, "the "+l.Name)
		}
	}
	if len(out) == 0 {
		return []string{"the rail"}
	}
	return out
}

// toMark has the wall marked for the anchors of a floor case while it stands in its place, before it is
// joined to anything.
func (s *steps) toMark(o part.Owner) {
	list := anchors(s.fixings(o, toRoom))
	if len(list) == 0 {
		return
	}
	beside := ""
	if s.neighbours(o) {
		beside = ", clamped to those beside it as it will be joined"
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, clamps" + s.roomBits(list), Caution: wall + " " + s.tipping(o),
		Text: fmt.Sprintf("Mark for the anchors of %s while it stands level in its place%s.%s", s.called(o), beside, s.marked(list, "", "Draw it out", "Push it back, and see that it is level"))})
}

// heads says how the heads of screws that come with anchors lie, of whose form nothing is known: on thin board they draw in.
func (s *steps) heads() string {
	return s.rule("heads", "The heads of these screws lie as they are made: countersink for a flat one until it is flush and no deeper, and leave the washer under a hexagon one.")
}

// fixDown screws a floor case to the wall when it stands level beside its neighbours.
func (s *steps) fixDown(o part.Owner) {
	s.toBase(o)
	s.whereItStands(o)
	list := s.fixings(o, toRoom)
	if len(list) == 0 {
		return
	}
	into := "."
	if slices.ContainsFunc(list, anchored) {
		into = ", into its anchors." + s.heads()
	}
	studs := slices.DeleteFunc(slices.Clone(list), anchored)
	where, fits := s.driven(o, list)
	where = append(where, s.free(o, list)...)
	beside, tools := s.besideSide(o, studs)
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level, tape" + s.roomBits(studs) + tools, Fits: fits, Points: where, Caution: wall + " " + s.tipping(o), Text: fmt.Sprintf("Fix %s to the wall%s%s%s%s", s.called(o), into, s.drawersOut(o), s.pilots(studs), beside)})
}

// free names the rails at the back of a case that take none of its screws to the wall.
func (s *steps) free(o part.Owner, list []part.Fixing) (points []string) {
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role == part.HangRail && !slices.ContainsFunc(list, func(f part.Fixing) bool { return f.Part == p.Mark }) {
			points = append(points, fmt.Sprintf("%s (%s) takes no screw to the wall: it keeps the sides apart behind the back", capital(p.Name), p.Mark))
		}
	}
	return points
}

// slid names what slides out of a case: its drawers, its trays or both; "" where nothing does.
func (s *steps) slid(o part.Owner) string {
	drawers, trays := false, false
	for _, m := range s.whose.Of(o.ID).Motions { // of what stands from an earlier stage nothing else is there
		if m.Kind == part.Slide {
			tray := strings.Contains(m.ID, "-tray-")
			drawers, trays = drawers || !tray, trays || tray
		}
	}
	return map[[2]bool]string{{true, false}: "drawers", {false, true}: "trays", {true, true}: "drawers and trays"}[[2]bool{drawers, trays}]
}

// lining says what lies on the studs that a screw goes through, as it was surveyed; "" where that is not known.
func (s *steps) lining(f part.Fixing) string {
	if n := len(f.Layers); n > 0 { // the last before the stud
		if l := f.Layers[n-1]; l.Stock == "" && l.Name != "packing" && l.Name != "air" && l.Thickness > 0 {
			return fmt.Sprintf(" On the studs lies %s, %s thick by the survey: where yours is thicker, take screws that are longer by as much.", l.Name, s.in(l.Thickness))
		}
	}
	return ""
}

// within lists what comes out of a case before hands or a drill reach into it.
func (s *steps) within(o part.Owner) (kinds []string) {
	if t := s.slid(o); t != "" {
		kinds = append(kinds, t)
	}
	for _, k := range []struct {
		name    string
		divider bool
	}{{"loose shelves", false}, {"loose dividers", true}} {
		if slices.ContainsFunc(s.whose.Of(o.ID).Parts, func(p *part.Part) bool {
			return p.Removable && p.Moves == "" && (p.Role == part.Divider) == k.divider
		}) {
			kinds = append(kinds, k.name)
		}
	}
	return kinds
}

// drawersOut has out of a case what stands in the way of a drill at its rear; "" where nothing does.
func (s *steps) drawersOut(o part.Owner) string {
	if kinds := s.within(o); len(kinds) > 0 {
		return fmt.Sprintf(" Its %s are out while it is done.", and(kinds))
	}
	return ""
}

// emptied says of those whose insides hands must reach what comes out of them first, which of an earlier stage are loaded by
// then; "" where nothing is in the way in any.
func (s *steps) emptied(ids []string) string {
	var kinds []string
	of := map[string][]string{}
	loaded := ""
	for _, o := range s.Assembly.Owners {
		if !slices.Contains(ids, o.ID) {
			continue
		}
		for _, k := range s.within(o) {
			if of[k] == nil {
				kinds = append(kinds, k)
			}
			of[k] = append(of[k], s.called(o))
			if o.Stage != s.now && o.Stage != "" {
				loaded = ", emptied first,"
			}
		}
	}
	if len(kinds) == 0 {
		return ""
	}
	for i, k := range kinds {
		kinds[i] = k + " of " + and(of[k])
	}
	return fmt.Sprintf(" %s%s are out while it is done.", capital(and(kinds)), loaded)
}
