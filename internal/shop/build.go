package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// rank is the order in which boards would go together if nothing were in the way; common
// practice, no source.
func rank(p part.Part) int {
	order := []part.Role{part.Side, part.Bottom, part.Partition, part.FixedShelf, part.Stretcher, part.Top, part.HangRail, part.Cleat, part.ToeBoard, part.EndPanel, part.BackPanel, // a panel's screws are driven from inside while the back is off
		part.BoxBack, part.BoxFront, part.BoxSide, part.BoxBottom, part.TrayBase, part.Leg, part.Frame, part.BaseRail, part.BaseRung, part.Plate, part.CounterLayer, part.Rail, part.Blocking,
		part.Lip, part.CounterEdge, part.EdgeStrip, part.Spacer, part.HookBoard}
	if i := slices.Index(order, p.Role); i >= 0 {
		return i
	}
	return len(order)
}

// assemble puts one owner together: what moves first, then the carcass, what it stands on,
// what lies loose in it, and its fronts.
func (s *steps) assemble(o part.Owner, twins []part.Owner) {
	w := s.maker(o, cmp.Or(o.Name, o.ID), Assemble)
	own := w.own.Parts
	if len(own) == 0 {
		return
	}
	for _, t := range twins {
		w.name += ", " + cmp.Or(t.Name, t.ID)
	}
	moving := map[string][]part.Part{}
	var order []string
	var fixed, loose, bought, rails []part.Part
	screwed := map[string]bool{}
	for _, j := range w.own.Joints {
		if j.Kind != part.Loose && s.parts[j.A].Removable != s.parts[j.B].Removable {
			screwed[j.A], screwed[j.B] = true, true
		}
	}
	for _, p := range own {
		switch {
		case p.Role == part.Door || p.Role == part.DrawerFront || p.Role == part.FalseFront || p.Role == part.WallCleat || p.Role == part.Ledger || p.Role == part.HookBoard:
			// with the fronts, or on the wall, or on a frame that stands
		case p.Moves != "":
			if moving[p.Moves] == nil {
				order = append(order, p.Moves)
			}
			moving[p.Moves] = append(moving[p.Moves], p)
		case p.Material == part.Bought:
			bought = append(bought, p)
		case p.Removable && !screwed[p.Mark]:
			loose = append(loose, p)
		case o.Kind == "counter" && s.carried(o) && (p.Role == part.Rail || s.endBlock(p)):
			rails = append(rails, p) // between the cases, when these stand
		default:
			fixed = append(fixed, p)
		}
	}
	from := len(s.list)
	w.ready(own)
	if o.Kind == "filler" || o.Kind == "panel" { // scribed and fixed where they go
		s.share(from, twins)
		return
	}
	w.movers(order, moving)
	before := len(s.list)
	if frame, top := w.bench(fixed); len(frame) > 0 {
		w.group(top)
		w.group(frame)
		w.topOn(frame, top)
	} else {
		w.group(fixed)
	}
	if slices.ContainsFunc(rails, s.endBlock) {
		w.group(rails)
	}
	if o.Kind == "case" && len(fixed) > 1 {
		w.square(before)
	} else {
		w.squareFrame(before, fixed)
	}
	w.glued(loose)
	w.finish(own)
	w.phase = FitOut
	w.stand(twins)
	if w.rolling(o) {
		w.ballast(o, FitOut, capital(w.name))
	}
	w.hangers(bought)
	w.shelves(loose)
	w.slides()
	w.faces()
	w.doors()
	w.byMarks(s.list[from:], own)
	s.share(from, twins)
}

// endBlock reports whether a board is a block at the end of a rail, by which it is bolted to a case.
func (s *steps) endBlock(p part.Part) bool {
	return slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.BoltedRail }) && p.Role == part.Spacer
}

// carried reports whether a counter lies on cases.
func (s *steps) carried(o part.Owner) bool {
	return slices.ContainsFunc(s.Assembly.Fixings, func(f part.Fixing) bool { return f.Owner == o.ID && f.Kind == part.ToCase })
}

// group puts boards together one after the other, each as soon as it meets what is there.
func (w *maker) group(parts []part.Part) {
	if len(parts) == 0 {
		return
	}
	b := newBench(parts, w.own.Joints, w.onSpotDrills)
	made := map[string]bool{} // marks on the bench
	met := map[string]bool{}  // marks that are joined
	var waiting []placed
	var last *Step
	lastKey := ""
	side, sideAt := "", []string(nil) // the last board on which the places of others were set out, and these
	by := rank
	if w.owner.Kind == "counter" {
		by = counterRank
	}
	for _, p := range b.order(by) {
		made[p.part.Mark] = true
		var js []part.Joint
		for _, j := range b.joints {
			if j.A == p.part.Mark && made[j.B] || j.B == p.part.Mark && made[j.A] {
				js = append(js, j.Joint)
			}
		}
		if len(js) == 0 {
			waiting = append(waiting, p)
			continue
		}
		hidden := b.hidden(p.part.Mark, made)
		others := w.across(js, p.part.Mark)
		var begin []string
		for _, q := range waiting {
			if slices.Contains(others, q.part.Mark) {
				begin = append(begin, q.part.Mark)
			}
		}
		waiting = slices.DeleteFunc(waiting, func(q placed) bool { return slices.Contains(begin, q.part.Mark) })
		key := fmt.Sprint(uncounted(p.part.Name), p.part.Role, others, js[0].Kind)
		if p.part.Role == part.Spacer { // packing for the slides of either side
			key = fmt.Sprint(p.part.Role, js[0].Kind)
		}
		loose := slices.ContainsFunc(js, func(j part.Joint) bool { return j.Kind == part.Loose })
		if last != nil && key == lastKey && len(begin) == 0 && !loose {
			// Another of the same at once.
			last.New = append(last.New, p.part.Mark)
			last.Parts = append([]string{p.part.Mark}, last.Parts...)
			for _, m := range others {
				if !slices.Contains(last.Parts, m) {
					last.Parts = append(last.Parts, m)
				}
			}
			w.fits(last, js)
			w.several(last)
			last.Hidden = append(last.Hidden, hidden...)
			w.reach(last, b, p.part.Mark, made)
			met[p.part.Mark] = true
			continue
		}
		st := Step{New: append(slices.Clone(begin), p.part.Mark), Parts: append([]string{p.part.Mark}, others...), Tool: w.driver(js), Hidden: hidden}
		w.fits(&st, js)
		text := ""
		if len(begin) > 0 {
			verb := "Add "
			if len(met) == 0 {
				verb = "Begin with "
			}
			text = verb + w.named(begin) + ". "
			if len(met) == 0 && w.of == "" {
				text += w.opening(p.part, w.driver(js), b)
			}
		}
		w.begun = nil
		if len(begin) < len(others) {
			w.begun = begin
		}
		told, spots := w.bring(p, js)
		text += told + w.pocketsOf(append(slices.Clone(begin), w.theirs(p.part, js, begin)...))
		for _, m := range append(begin, p.part.Mark) {
			met[m] = true
		}
		st.Text = text + w.overBolt(st.New)
		st.Points = w.spread(p.part, js, begin)
		if closes(p.part) { // on which the places of the others are set out
			st.Points = w.setOut(p.part, js)
			if one := w.likeSide(side, p.part.Mark, sideAt, st.Points); one != "" {
				st.Points = []string{one}
			} else {
				side, sideAt = p.part.Mark, st.Points
			}
		}
		st.Points = append(st.Points, spots...)
		w.reach(&st, b, p.part.Mark, made)
		w.step(st)
		last, lastKey = &w.list[len(w.list)-1], key
		if len(begin) > 0 {
			lastKey = "" // it has boards of other kinds
		}
	}
	// What no joint of the group holds is put in its place.
	for _, q := range waiting {
		var js []part.Joint
		for _, j := range w.own.Joints {
			if (j.A == q.part.Mark || j.B == q.part.Mark) && w.parts[j.A].Moves == w.parts[j.B].Moves {
				js = append(js, j)
			}
		}
		st := Step{New: []string{q.part.Mark}, Parts: append([]string{q.part.Mark}, w.across(js, q.part.Mark)...), Tool: w.driver(js)}
		if len(parts) == 1 && q.part.Moves == "" && len(js) == 0 {
			st.Text = fmt.Sprintf("%s is of one piece: nothing is put together.", w.label(q.part.Mark))
		} else if len(js) == 0 {
			st.Text = fmt.Sprintf("fit %s in its place.", w.label(q.part.Mark))
		} else {
			w.fits(&st, js)
			st.Text, st.Points = w.join(q.part, js)
		}
		w.step(st)
	}
}

// ways says from which side a board comes.
var ways = map[geom.Dir]string{geom.Up: "from above", geom.Down: "from below", geom.Front: "from the front", geom.Back: "from behind", geom.Left: "from the left", geom.Right: "from the right"}

// bring says how a board comes to those before it.
func (w *maker) bring(p placed, js []part.Joint) (text string, spots []string) {
	others := w.across(js, p.part.Mark)
	loose := !slices.ContainsFunc(js, func(j part.Joint) bool { return j.Kind != part.Loose })
	if loose {
		return fmt.Sprintf("Slide %s %s into %s of %s, without glue.", w.label(p.part.Mark), ways[p.from], plural(len(others), "the groove", "the grooves"), w.named(others)), nil
	}
	// Grooves close over panels that are there.
	var over []string
	var firm []part.Joint
	for _, j := range js {
		if j.Kind == part.Loose {
			m := j.A
			if m == p.part.Mark {
				m = j.B
			}
			over = append(over, m)
		} else {
			firm = append(firm, j)
		}
	}
	for _, m := range w.closed(p, over) {
		over = append(over, m)
	}
	text, spots = w.join(p.part, firm)
	if len(over) > 0 && p.part.Role == part.BackPanel {
		text += fmt.Sprintf(" Slide it %s into the grooves of %s first, without glue there.", ways[p.from], w.named(over))
	} else if len(over) > 0 {
		text += fmt.Sprintf(" Its %s over %s, without glue.", plural(len(over), "groove goes", "grooves go"), w.named(over))
	}
	return text, spots
}

// join says to what a board is fastened, where it sits there and with what it is held.
func (w *maker) join(p part.Part, js []part.Joint) (text string, spots []string) {
	text = "Fit " + w.label(p.Mark) + " " + w.to(p, js)
	if t := w.seats(p, js); t != "" && !closes(p) {
		text += ": " + t
	}
	with, spots := w.held(js)
	return text + ". " + with + w.pockets(p), spots
}

// closes reports whether a board is one that others come to, so that their places are set out on it.
func closes(p part.Part) bool {
	return p.Role == part.Side || p.Role == part.RackSide || p.Role == part.Frame
}

// setOut says where the boards that a side comes to sit on it.
func (w *maker) setOut(p part.Part, js []part.Joint) (points []string) {
	for _, j := range js {
		m := j.A
		if m == p.Mark {
			m = j.B
		}
		if t := w.seat(w.parts[m], p, joinery.Thin(j.Contact)); t != "" && j.Kind != part.Loose {
			t = w.short(w.label(m)) + ": " + t + " of " + p.Mark
			if !slices.Contains(points, t) {
				points = append(points, t)
			}
		}
	}
	return points
}

// likeSide says in one line that boards lie on one side as on the one before it, "" where they do not.
func (w *maker) likeSide(before, mark string, was, is []string) string {
	if before == "" || len(is) < 2 || len(is) != len(was) {
		return ""
	}
	for i := range is {
		if strings.ReplaceAll(was[i], before, mark) != is[i] {
			return ""
		}
	}
	return fmt.Sprintf("They lie on %s as on %s", mark, before)
}

// to says between which boards another goes, or against which side of which.
func (w *maker) to(p part.Part, js []part.Joint) string {
	sides, on := w.against(p, js)
	for _, pair := range [][2]string{{"against the right of", "against the left of"}, {"against the rear of", "against the front of"}, {"on", "under"}} {
		i, k := slices.Index(sides, pair[0]), slices.Index(sides, pair[1])
		if i < 0 || k < 0 || len(on[i]) != len(on[k]) {
			continue
		}
		var out []string
		for n := range on[i] {
			out = append(out, "between "+w.named([]string{on[i][n], on[k][n]}))
		}
		for n, list := range on {
			if n != i && n != k {
				out = append(out, sides[n]+" "+w.named(list))
			}
		}
		return strings.Join(out, ", and ")
	}
	var out []string
	for i, t := range sides {
		out = append(out, t+" "+w.named(on[i]))
	}
	return strings.Join(out, ", and ")
}

// against says on which sides of the boards that it is joined to another lies, "on", "under",
// "against the front of", of a back "in the rabbets of", and those that it lies so to.
func (w *maker) against(p part.Part, js []part.Joint) (sides []string, on [][]string) {
	for _, j := range js {
		m := j.A
		if m == p.Mark {
			m = j.B
		}
		axis := joinery.Thin(j.Contact)
		a, b := p.Box(), w.parts[m].Box()
		high := a.Min.At(axis)+a.Max.At(axis) > b.Min.At(axis)+b.Max.At(axis)
		t := [3][2]string{{"against the left of", "against the right of"}, {"against the front of", "against the rear of"}, {"under", "on"}}[axis][map[bool]int{true: 1}[high]]
		if slices.ContainsFunc(w.parts[m].Ops, func(o part.Op) bool { return o.Kind == part.Rabbet }) && p.Role == part.BackPanel {
			t = "in the rabbets of"
		}
		i := slices.Index(sides, t)
		if i < 0 {
			i = len(sides)
			sides, on = append(sides, t), append(on, nil)
		}
		if !slices.Contains(on[i], m) {
			on[i] = append(on[i], m)
		}
	}
	return sides, on
}

// closed gives the panels already in place that lie in a groove of a board without a joint of
// their own.
func (w *maker) closed(p placed, known []string) []string {
	var out []string
	for i := range w.list {
		if w.list[i].Owner != w.owner.ID || w.list[i].Phase != Assemble {
			continue
		}
		for _, m := range w.list[i].New {
			q := w.parts[m]
			if q.Moves != p.part.Moves || slices.Contains(known, m) || slices.Contains(out, m) || q.Role != part.BackPanel {
				continue
			}
			if q.Box().Meets(p.part.Box()) && !joined(w.own.Joints, m, p.part.Mark) {
				out = append(out, m)
			}
		}
	}
	return out
}

func joined(js []part.Joint, a, b string) bool {
	return slices.ContainsFunc(js, func(j part.Joint) bool { return j.A == a && j.B == b || j.A == b && j.B == a })
}

// several retells a step that brings in alike boards one after the other, the place of each on a
// line of its own.
func (w *maker) several(st *Step) {
	var all []part.Joint
	of := map[string][]part.Joint{}
	for i, m := range st.New {
		for _, j := range w.own.Joints {
			o := j.A
			if o == m {
				o = j.B
			}
			// each joint once, with the board that comes later
			if j.Kind != part.Loose && (j.A == m || j.B == m) && slices.Contains(st.Parts, o) && !slices.Contains(st.New[i:], o) {
				of[m] = append(of[m], j)
				all = append(all, j)
			}
		}
	}
	first := w.parts[st.New[0]]
	to := w.to(first, of[first.Mark])
	same := true
	for _, m := range st.New {
		same = same && w.to(w.parts[m], of[m]) == to
	}
	st.Points = nil
	var who, where []string // boards, and where they sit on the one that each lies against
	for _, m := range st.New {
		t, seat := m, w.short(w.seats(w.parts[m], of[m]))
		if !same {
			t += " " + w.short(w.to(w.parts[m], of[m]))
			if on := w.across(of[m], m); len(on) == 1 {
				if at, ok := strings.CutSuffix(seat, " of "+on[0]); ok {
					if i := slices.Index(where, at); i >= 0 {
						who[i] += ", " + t
					} else {
						who, where = append(who, t), append(where, at)
					}
					continue
				}
			}
		}
		if seat != "" {
			t += ": " + seat
		}
		if t != m {
			st.Points = append(st.Points, t)
		}
	}
	for i, t := range who {
		st.Points = append(st.Points, t+": "+where[i]+" of it")
	}
	if !same {
		to = "where each belongs"
	}
	what := w.named(st.New)
	if len(st.New) > 4 {
		what = fmt.Sprintf("these %d, each called %s,", len(st.New), uncounted(strings.TrimSuffix(first.Name, w.of)))
		if !same {
			to = "where it belongs"
		}
	}
	with, spots := w.held(all)
	st.Text = fmt.Sprintf("Fit %s %s. %s%s%s", what, to, with, w.overBolt(st.New), w.pocketsOf(st.New))
	st.Points = append(st.Points, spots...)
}

// short calls boards by their marks alone, where they have been named before.
func (w *maker) short(t string) string {
	for _, p := range w.own.Parts {
		if p.Owner == w.owner.ID {
			t = strings.ReplaceAll(t, w.label(p.Mark), p.Mark)
		}
	}
	return t
}

// uncounted takes the figures out of a name.
func uncounted(name string) string {
	return strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r >= '0' && r <= '9' }), " ")
}

// driver names the tool that makes joints.
func (w *maker) driver(js []part.Joint) string {
	for _, j := range js {
		if j.Count > 0 && j.Kind != part.Dowel {
			t := "drill, driver bits, clamps, square"
			t += w.sinker(fasteners(js)...)
			if !joinery.Bored(w.parts[j.A], w.parts[j.B], j) {
				t += w.bits(j.Fastener)
			}
			return t
		}
	}
	for _, j := range js {
		if j.Kind == part.Dowel {
			return "clamps, mallet, square"
		}
	}
	for _, j := range js {
		if j.Glue {
			return "clamps"
		}
	}
	return "hand"
}

// across gives the marks on the other side of joints, each once.
func (w *maker) across(js []part.Joint, mark string) []string {
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

func and(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// with says how joints are made: "Glue and 12 × pocket screw; ...".
func (s *steps) with(js []part.Joint) string {
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
		case k.k == part.Dado:
			w = "glue in the housings, clamped"
		case k.k == part.Loose:
			w = "held by its groove, no glue"
		case n[k] == 0:
			w = string(k.k)
		default:
			w = fmt.Sprintf("%d × %s", n[k], cmp.Or(s.fastener(k.f), string(k.k)))
			if k.glue {
				w = "glue and " + w
			}
		}
		out = append(out, w)
	}
	if len(out) == 0 {
		return ""
	}
	return capital(strings.Join(out, "; ")) + "." + s.sink(fasteners(js)...)
}

func (s *steps) fastener(id string) string {
	h, ok := s.Catalogue.Item(id)
	if !ok {
		return id
	}
	return cmp.Or(h.Name, id)
}
