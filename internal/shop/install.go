package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

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
	for _, stage := range stages {
		from := len(s.list)
		in := func(o part.Owner) bool {
			return o.Stage == stage || stage == "" && !slices.Contains(s.Stages, o.Stage)
		}
		var now []part.Owner
		for _, o := range s.owners("case") {
			if o.Hung && in(o) {
				s.unfix(o)
				s.hang(o)
				stands[o.ID] = true
				now = append(now, o)
			}
		}
		s.join(stands, joined)
		for _, o := range s.owners("base") {
			if in(o) {
				s.level(o, s.setBase(o), true)
				stands[o.ID] = true
			}
		}
		var floor []part.Owner
		for _, o := range s.owners("case") {
			if !o.Hung && in(o) {
				s.unfix(o)
				s.level(o, s.setCase(o), false)
				stands[o.ID] = true
				floor = append(floor, o)
			}
		}
		s.join(stands, joined)
		for _, o := range floor {
			s.fixDown(o)
			s.ballast(o)
		}
		now = append(now, floor...)
		for _, kind := range []string{"counter", "hutch"} {
			for _, o := range s.owners(kind) {
				if in(o) {
					s.put(o)
				}
			}
		}
		for _, kind := range []string{"filler", "panel"} {
			for _, o := range s.owners(kind) {
				if in(o) {
					s.scribe(o)
				}
			}
		}
		s.adjust(now)
		if stage != "" && len(s.Stages) > 1 && len(s.list) > from {
			s.list[from].Text = fmt.Sprintf("Stage %s begins here. %s", stage, s.list[from].Text)
		}
	}
	for _, o := range s.Assembly.Owners {
		if !o.Standing {
			s.rest(o, cmp.Or(o.Name, o.ID))
		}
	}
}

// name gives what a person calls an owner.
func (s *steps) name(id string) string {
	for _, o := range s.Assembly.Owners {
		if o.ID == id {
			return cmp.Or(o.Name, o.ID)
		}
	}
	return id
}

func (s *steps) fixings(o part.Owner, want func(part.Fixing) bool) []part.Fixing {
	var out []part.Fixing
	for _, f := range s.Assembly.Fixings {
		if f.Owner == o.ID && want(f) {
			out = append(out, f)
		}
	}
	return out
}

// toRoom tells a fixing to the room from one to a neighbour.
func toRoom(f part.Fixing) bool { return f.Kind != part.ToCase && f.Kind != part.ToBase }

// driven says which screws go where: for every kind of fixing, screw, board and height a count
// and its places along the wall. It takes the screws.
func (s *steps) driven(o part.Owner, list []part.Fixing) ([]string, []Fit) {
	type row struct {
		kind    part.FixKind
		screw   string
		part    string
		z       length.Length
		packing length.Length
		header  string // over an opening, "" for a stud
		steel   bool   // an anchor in a steel stud
	}
	var rows []row
	at, xs := map[row][]string{}, map[row][]length.Length{}
	var fits []Fit
	for _, f := range list {
		r := row{f.Kind, f.Screw, f.Part, f.At.Z, f.Packing, "", f.Kind == part.ToWall && f.Stud != ""}
		if strings.HasPrefix(f.Stud, "header") {
			r.header = f.Stud
		}
		if at[r] == nil {
			rows = append(rows, r)
		}
		at[r] = append(at[r], s.in(f.At.X))
		xs[r] = append(xs[r], f.At.X)
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
		t := fmt.Sprintf("%d × %s through %s (%s) %s at %s along, %s up%s", n, s.fastener(r.screw), s.parts[r.part].Name, r.part, into, and(at[r]), s.in(r.z), s.within(o, r.part, xs[r], r.z))
		if r.packing > 0 {
			t += ", packed out " + s.in(r.packing)
		}
		out = append(out, t)
	}
	for i := range fits {
		fits[i].Count = s.draw(o.ID, fits[i].ID, fits[i].Count, func(h part.Item) bool { return h.For == "wall fixing" || h.For == "rails to ledgers" })
	}
	if slices.ContainsFunc(list, func(f part.Fixing) bool { return f.Packing > 0 }) {
		if shims := s.take(o.ID, func(h part.Item) bool { return h.For == part.PackingUse }); len(shims) > 0 {
			out, fits = append(out, "packing: "+s.things(shims)), append(fits, shims...)
		}
	}
	return out, slices.DeleteFunc(fits, func(f Fit) bool { return f.Count == 0 })
}

// within says where screws are inside a case, for the one who stands before it with a tape: from the inner
// face of its left side, and from the top face of its bottom.
func (s *steps) within(o part.Owner, mark string, xs []length.Length, z length.Length) string {
	if o.Kind != "case" || s.parts[mark].Role == part.WallCleat || s.parts[mark].Role == part.Ledger {
		return ""
	}
	var left, bottom part.Part
	for _, p := range s.Assembly.Parts {
		if p.Owner != o.ID || p.Moves != "" {
			continue
		}
		if p.Role == part.Side && (left.Mark == "" || p.Box().Min.X < left.Box().Min.X) {
			left = p
		}
		if p.Role == part.Bottom {
			bottom = p
		}
	}
	if left.Mark == "" || bottom.Mark == "" || z < bottom.Box().Max.Z {
		return ""
	}
	var in []string
	for _, x := range xs {
		in = append(in, s.in(x-left.Box().Max.X))
	}
	return fmt.Sprintf(" (in the case %s from the inside of its left side, %s over its bottom)", and(in), s.in(z-bottom.Box().Max.Z))
}

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
			text := fmt.Sprintf("Clamp %s and %s with %s, and join them: %d × %s through %s (%s), %s up.", cmp.Or(o.Name, o.ID), s.name(other), s.flush(o, other), len(list), s.fastener(f.Screw), s.parts[f.Part].Name, f.Part, and(ups))
			if f.Packing > 0 {
				text = strings.TrimSuffix(text, ".") + fmt.Sprintf(", with packing of %s between them.", s.in(f.Packing))
			}
			fits := fit(nil, f.Screw, s.draw(o.ID, f.Screw, len(list), func(h part.Item) bool { return strings.HasPrefix(h.For, "joining") }))
			s.add(Step{Phase: Install, Owner: o.ID, Tool: "clamps, drill, driver bits", Parts: []string{f.Part}, Fits: fits, Text: text})
		}
	}
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
		if d > 0 {
			return fmt.Sprintf("%s %s behind %s", cmp.Or(o.Name, o.ID), s.in(d), s.name(other))
		}
		return fmt.Sprintf("%s %s behind %s", s.name(other), s.in(-d), cmp.Or(o.Name, o.ID))
	}
	switch {
	case front.Abs() < length.MM/2 && rear.Abs() < length.MM/2:
		return "their sides flush at the front and at the rear"
	case rear.Abs() < length.MM/2:
		return "their sides flush at the rear; at the front the side of " + back(front) + "'s"
	case front.Abs() < length.MM/2:
		return "the front edges of their sides flush"
	}
	return "the front edge of the side of " + back(front) + "'s"
}

// beside gives the neighbours that an owner is screwed to, in the order of the screws.
func (s *steps) beside(o part.Owner) []string {
	var out []string
	for _, f := range s.Assembly.Fixings {
		if f.Owner == o.ID && f.Kind == part.ToCase && f.Stud != "" && !slices.Contains(out, f.Stud) {
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

// fromWall says how far the rear of a thing is from the face of the wall.
func (s *steps) fromWall(o part.Owner, rear length.Length) string {
	switch {
	case o.Wall == "":
		return ""
	case rear >= -length.MM/2:
		return ", its rear against the wall"
	}
	return ", its rear " + s.in(-rear) + " from the wall"
}

// hang fixes a wall case: its cleat or its ledgers first, where it has them.
func (s *steps) hang(o part.Owner) {
	name := cmp.Or(o.Name, o.ID)
	onWall := func(f part.Fixing) bool {
		return toRoom(f) && (s.parts[f.Part].Role == part.WallCleat || s.parts[f.Part].Role == part.Ledger)
	}
	missing := []string{"NO FIXING FOUND: see the findings; do not hang it"}
	cleat, ledgers := false, false
	for _, p := range s.Assembly.Parts {
		if p.Owner != o.ID || p.Role != part.WallCleat && p.Role != part.Ledger {
			continue
		}
		cleat, ledgers = cleat || p.Role == part.WallCleat, ledgers || p.Role == part.Ledger
		own := s.fixings(o, func(f part.Fixing) bool { return onWall(f) && f.Part == p.Mark })
		where, fits := s.driven(o, own)
		if len(where) == 0 {
			where = missing
		}
		marks := []string{p.Mark}
		s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level, tape" + s.roomBits(own), Parts: marks, New: marks, Fits: fits, Caution: wall, Points: where,
			Text: fmt.Sprintf("Fix %s of %s (%s) to the wall, level, its lower edge %s up, its left end %s.%s", p.Name, name, p.Mark, s.in(p.Box().Min.Z), s.along(o, p.Box().Min.X), s.pilots(own))})
	}
	list := s.fixings(o, func(f part.Fixing) bool { return toRoom(f) && !onWall(f) })
	pilot := s.pilots(list)
	where, fits := s.driven(o, list)
	s.lighten(o)
	text := fmt.Sprintf("Hang %s: lower edge %s up, left side %s, propped from below on a batten, a straight offcut that is screwed level to the studs.%s", name, s.in(o.Carcass.Min.Z), s.along(o, o.Carcass.Min.X), pilot)
	switch {
	case ledgers && len(where) > 0:
		text = fmt.Sprintf("Hang %s: lower edge %s up, left side %s, propped from below on a batten that is screwed to the studs, its rails tight against the ledgers.%s", name, s.in(o.Carcass.Min.Z), s.along(o, o.Carcass.Min.X), pilot)
	case cleat:
		text = fmt.Sprintf("Lift %s on to its cleat, lower edge %s up, left side %s, until the bevels are tight.%s", name, s.in(o.Carcass.Min.Z), s.along(o, o.Carcass.Min.X), pilot)
	case len(where) == 0:
		where = missing
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level, tape" + s.roomBits(list), Fits: fits, Points: where, Caution: lift + " " + wall, Text: text})
	s.restore(o)
}

// roomBits names the bits for screws to the room.
func (s *steps) roomBits(list []part.Fixing) string {
	var ids []string
	more := ""
	js := joinery.Shop{Practice: s.Practice, Catalogue: s.Catalogue}
	for _, f := range list {
		if f.Kind != part.ToStud {
			continue
		}
		if !slices.Contains(ids, f.Screw) {
			ids = append(ids, f.Screw)
		}
		h, _ := s.Catalogue.Item(f.Screw)
		if p, dia, _ := js.Pilot(cmp.Or(h.Pilot, h.Root, 3*length.MM)); joinery.LongBit(p, dia, f.Length) != p {
			more = ", " + joinery.LongBit(p, dia, f.Length)
		}
	}
	if len(ids) > 0 {
		return ", stud finder" + s.bits(ids...) + more
	}
	return ""
}

// pilots says with which bits the holes for screws to the room are bored, and how packing goes in.
func (s *steps) pilots(list []part.Fixing) string {
	if len(list) == 0 {
		return ""
	}
	var out []string
	packed := false
	if slices.ContainsFunc(list, func(f part.Fixing) bool { return f.Kind == part.ToWall }) {
		out = append(out, " Mark the places of the anchors through the rail, bore the wall with the bit and as deep as you copied from their packet before the first cut, blow the dust out, and set them before the screws are driven.")
	}
	js := joinery.Shop{Practice: s.Practice, Catalogue: s.Catalogue}
	for _, f := range list {
		packed = packed || f.Packing > 0
		h, ok := s.Catalogue.Item(f.Screw)
		if !ok || f.Kind != part.ToStud && f.Kind != part.ToLedger {
			continue
		}
		clear, pilot := cmp.Or(h.Clearance, h.Dia), cmp.Or(h.Pilot, h.Root)
		if clear == 0 || pilot == 0 {
			continue
		}
		c, _, _ := js.Pilot(clear)
		p, dia, _ := js.Pilot(pilot)
		boards, through := boards(f), length.Length(0)
		for _, l := range f.Layers {
			if t := "the " + l.Name; slices.Contains(boards, t) || t == "the hang rail" {
				through += l.Thickness
			}
		}
		p = joinery.LongBit(p, dia, f.Length)
		article := "the "
		if strings.HasPrefix(p, "long ") {
			article = "a "
		}
		t := fmt.Sprintf(" For %s bore through %s with the %s, %s deep, and on behind with %s, %s deep from the inside of %s.", s.fastener(f.Screw), and(boards), c, s.in(through), article+p, s.in(f.Length), boards[0])
		if !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	if packed {
		out = append(out, " Where packing is told, slip shims of that thickness behind the rail, as high as the rail and close to the screw on either side, before the screw is driven home.")
	}
	return strings.Join(out, "")
}

// boards names what a screw into the wall goes through in its case, from the inside: "the back" that
// stands before "the rail".
func boards(f part.Fixing) []string {
	var out []string
	for _, l := range f.Layers {
		switch l.Name {
		case "hang rail":
			out = append(out, "the rail")
		case "back", "cleat", "ledger":
			out = append(out, "the "+l.Name)
		}
	}
	if len(out) == 0 {
		return []string{"the rail"}
	}
	return out
}

// level sets what stands on the floor to its heights.
func (s *steps) level(o part.Owner, verb string, fix bool) {
	name := cmp.Or(o.Name, o.ID)
	points, shims := s.underneath(o)
	where := ""
	if o.Wall != "" {
		where = ", left side " + s.along(o, o.Carcass.Min.X) + s.fromWall(o, o.Carcass.Max.Y)
	}
	text := fmt.Sprintf("%s (%s): %s%s.", capital(name), s.weight(o), verb, where)
	if o.Moves {
		text = fmt.Sprintf("%s (%s): set it in its place%s. It is not fixed.", capital(name), s.weight(o), where)
	}
	st := Step{Phase: Install, Owner: o.ID, Tool: "level, tape", Fits: shims, Caution: s.tooHeavy(o)}
	if o.Kind == "case" {
		st.Caution = strings.TrimSpace(st.Caution + " " + s.tipping(o))
	}
	if tape := s.take(o.ID, func(h part.Item) bool { return h.Kind == "tape" }); len(tape) > 0 {
		points = append(points, fmt.Sprintf("Under it: %s, in pieces under every point where it stands, on the floor as on shims and blocks: pressed flat it is alike everywhere, lifts all by about %s, and changes no height of a shim", s.things(tape), s.coarse(3*length.MM/2, length.Inch/16)))
		st.Fits = append(st.Fits, tape...)
	}
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
	for _, f := range s.Assembly.Feet {
		if f.Owner == o.ID && (f.Kind != "shim" || f.Height >= shimLeast || f.Unsure) {
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

// fixDown screws a floor case to the wall when it stands level beside its neighbours.
func (s *steps) fixDown(o part.Owner) {
	s.toBase(o)
	s.whereItStands(o)
	list := s.fixings(o, toRoom)
	if len(list) == 0 {
		return
	}
	pilot := s.pilots(list)
	where, fits := s.driven(o, list)
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level, tape" + s.roomBits(list), Fits: fits, Points: where, Caution: wall + " " + s.tipping(o), Text: fmt.Sprintf("Fix %s to the wall.%s", cmp.Or(o.Name, o.ID), pilot)})
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
	st.Text = fmt.Sprintf("Scribe %s to the wall: hold it plumb, draw a pencil on a block of the widest gap along the wall, plane to the line, and fix it to its neighbour%s.", (&maker{steps: s}).named(marks), with)
	for _, f := range st.Fits {
		if n := s.fastener(f.ID); f.Count > 1 && strings.Contains(n, "screw") {
			st.Text += " Drive them from inside the neighbour, through its side into the filler's edge: the first and the last " + s.coarse(100*length.MM, 4*length.Inch) + " from its ends, the others evenly between. " + s.onSpot(f.ID, "that side", "")
			st.Tool += s.bits(f.ID)
		}
	}
	s.add(st)
}

// adjust sets what opens, once everything stands.
func (s *steps) adjust(cases []part.Owner) {
	var names []string
	for _, o := range cases {
		if slices.ContainsFunc(s.Assembly.Fronts, func(f part.Front) bool { return s.parts[f.Part].Owner == o.ID }) {
			names = append(names, cmp.Or(o.Name, o.ID))
		}
	}
	if len(names) > 0 {
		s.add(Step{Phase: Install, Tool: "screwdriver", Text: fmt.Sprintf("Last, when everything is loaded and has settled: adjust doors and fronts of %s to even gaps of %s, and check level once more.", and(names), s.in(s.Practice.FrontGap))})
	}
}

// unfix makes room for a case that does not slide into its gap.
func (s *steps) unfix(o part.Owner) {
	if o.Unfix == "" {
		return
	}
	name, beside := cmp.Or(o.Name, o.ID), s.name(o.Unfix)
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill", Caution: s.tipping(o),
		Text: fmt.Sprintf("Empty %s, take out the screws that hold it to the wall, to its neighbours and to what lies on it, and draw it aside until %s goes in. Push it back against %s, level it, and fix it again once %s stands.", beside, name, name, name)})
}

// downInto tells the screws from a hook board's frame down into its counter, those of its feet by themselves.
func (s *steps) downInto(o part.Owner) string {
	type kind struct {
		screw string
		feet  bool
	}
	count := map[kind]int{}
	var order []kind
	for _, f := range s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToCase && f.Row == "counter" }) {
		k := kind{f.Screw, s.parts[f.Part].Role == part.Frame}
		if count[k] == 0 {
			order = append(order, k)
		}
		count[k]++
	}
	var out []string
	for _, k := range order {
		where := "down through the holes in its lowest rail"
		if k.feet {
			where = "down through those in its feet"
		}
		out = append(out, fmt.Sprintf("%d × %s %s", count[k], s.fastener(k.screw), where))
	}
	return and(out)
}
