package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// rank is the order in which boards would go together if nothing were in the way; common
// practice, no source.
func rank(p part.Part) int {
	order := []part.Role{part.Side, part.Bottom, part.Partition, part.FixedShelf, part.Stretcher, part.Top, part.HangRail, part.Cleat, part.ToeBoard, part.BackPanel,
		part.BoxBack, part.BoxFront, part.BoxSide, part.BoxBottom, part.TrayBase, part.Leg, part.Frame, part.BaseRail, part.BaseRung, part.CounterLayer, part.Rail, part.Blocking,
		part.Lip, part.CounterEdge, part.EdgeStrip, part.Spacer, part.HookBoard, part.EndPanel}
	if i := slices.Index(order, p.Role); i >= 0 {
		return i
	}
	return len(order)
}

// assemble puts one owner together: what moves first, then the carcass, what it stands on,
// what lies loose in it, and its fronts.
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
	w := maker{steps: s, owner: o, name: cmp.Or(o.Name, o.ID)}
	moving := map[string][]part.Part{}
	var order []string
	var fixed, loose, bought []part.Part
	screwed := map[string]bool{}
	for _, j := range s.Assembly.Joints {
		if j.Kind != part.Loose && s.parts[j.A].Removable != s.parts[j.B].Removable {
			screwed[j.A], screwed[j.B] = true, true
		}
	}
	for _, p := range own {
		switch {
		case p.Role == part.Door || p.Role == part.DrawerFront || p.Role == part.FalseFront || p.Role == part.WallCleat:
			// with the fronts, or on the wall
		case p.Moves != "":
			if moving[p.Moves] == nil {
				order = append(order, p.Moves)
			}
			moving[p.Moves] = append(moving[p.Moves], p)
		case p.Material == part.Bought:
			bought = append(bought, p)
		case p.Removable && !screwed[p.Mark]:
			loose = append(loose, p)
		case o.Kind == "counter" && p.Role == part.Rail && s.carried(o):
			// between the cases, when these stand
		default:
			fixed = append(fixed, p)
		}
	}
	w.movers(order, moving)
	w.group(fixed)
	if o.Kind == "case" && len(fixed) > 1 {
		w.square()
	}
	w.stand()
	w.hangers(bought)
	w.shelves(loose)
	w.slides()
	w.faces()
	w.doors()
}

// carried reports whether a counter lies on cases.
func (s *steps) carried(o part.Owner) bool {
	return slices.ContainsFunc(s.Assembly.Fixings, func(f part.Fixing) bool { return f.Owner == o.ID && f.Kind == part.ToCase })
}

// maker puts together one owner.
type maker struct {
	*steps
	owner part.Owner
	name  string
	of    string // " of drawer 3": left out of the names of boards, and so are their marks; "" for none
}

func (w *maker) step(st Step) {
	st.Phase, st.Owner = Assemble, w.owner.ID
	if w.of == "" {
		st.Text = w.name + ": " + st.Text
	}
	w.add(st)
}

// label names a board: "left side (A.left)".
func (w *maker) label(mark string) string {
	n := w.parts[mark].Name
	if w.of != "" {
		return strings.TrimSuffix(n, w.of)
	}
	return fmt.Sprintf("%s (%s)", n, mark)
}

// named lists boards by name and mark: "left side (A.left) and bottom (A.bottom)".
func (w *maker) named(marks []string) string {
	var out []string
	for _, m := range marks {
		out = append(out, w.label(m))
	}
	return and(out)
}

// movers builds what moves before the rest: drawer boxes, trays, racks. Those that are built
// alike share a step.
func (w *maker) movers(order []string, moving map[string][]part.Part) {
	at := map[string]int{}
	var titles [][]string
	for _, m := range order {
		title := common(moving[m])
		inner := *w.steps
		inner.list = nil
		sub := maker{&inner, w.owner, w.name, title}
		sub.group(moving[m])
		if len(inner.list) == 0 {
			continue
		}
		all := Step{Tool: inner.list[0].Tool}
		var text, marks []string
		for _, st := range inner.list {
			text = append(text, capital(st.Text))
			all.New = append(all.New, st.New...)
			for _, f := range st.Fits {
				all.Fits = fit(all.Fits, f.ID, f.Count)
			}
			if st.Tool == "drill" {
				all.Tool = "drill"
			}
		}
		marks = all.New
		all.Parts = all.New
		square := ""
		if slices.ContainsFunc(all.New, func(m string) bool { return w.parts[m].Role == part.BoxBottom || w.parts[m].Role == part.TrayBase }) {
			z := w.body(all.New[0])
			square = fmt.Sprintf(" Both diagonals, %s by %s, should read %s, and differ by %s at most; the bottom is the square.", w.in(z.X), w.in(z.Y), w.in(diagonal(z.X, z.Y)), w.coarse(length.MM*8/10, length.Inch/32))
		}
		how := strings.Join(text, " ") + square
		pieces := strings.Join(marks, ", ")
		i, ok := at[how]
		if !ok {
			at[how] = len(w.list)
			titles = append(titles, []string{strings.TrimPrefix(title, " of ")})
			w.step(all)
			w.list[len(w.list)-1].Text = how + "\n" + pieces
			continue
		}
		st := &w.list[i]
		st.New = append(slices.Clone(st.New), all.New...)
		st.Parts = st.New
		for _, f := range all.Fits {
			st.Fits = fit(st.Fits, f.ID, f.Count)
		}
		st.Text += "; " + pieces
		titles[slices.Index(sorted(at), i)] = append(titles[slices.Index(sorted(at), i)], strings.TrimPrefix(title, " of "))
	}
	for n, i := range sorted(at) {
		st := &w.list[i]
		how, pieces, _ := strings.Cut(st.Text, "\n")
		each := ""
		if len(titles[n]) > 1 {
			each = ", each the same way"
		}
		st.Text = fmt.Sprintf("%s: build %s (%s)%s. %s", w.name, and(titles[n]), pieces, each, how)
	}
}

// body gives the size of a drawer's or a tray's box, its front left out.
func (w *maker) body(mark string) geom.Vec {
	var b geom.Box
	for _, p := range w.Assembly.Parts {
		if p.Moves == w.parts[mark].Moves && p.Role != part.DrawerFront && p.Role != part.FalseFront {
			b = b.Or(p.Box())
		}
	}
	return b.Size()
}

// sorted gives the places of the steps that were added, in order.
func sorted(at map[string]int) []int {
	var out []int
	for _, i := range at {
		out = append(out, i)
	}
	slices.Sort(out)
	return out
}

// common gives what the names of boards that move together end in: " of drawer 3".
func common(parts []part.Part) string {
	_, after, ok := strings.Cut(parts[0].Name, " of ")
	if !ok {
		return " of " + parts[0].Name
	}
	return " of " + after
}

// group puts boards together one after the other, each as soon as it meets what is there.
func (w *maker) group(parts []part.Part) {
	if len(parts) == 0 {
		return
	}
	b := newBench(parts, w.Assembly.Joints)
	made := map[string]bool{} // marks on the bench
	met := map[string]bool{}  // marks that are joined
	var waiting []placed
	var last *Step
	lastKey := ""
	for _, p := range b.order(rank) {
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
		others := w.across(js, p.part.Mark)
		var begin []string
		for _, q := range waiting {
			if slices.Contains(others, q.part.Mark) {
				begin = append(begin, q.part.Mark)
			}
		}
		waiting = slices.DeleteFunc(waiting, func(q placed) bool { return slices.Contains(begin, q.part.Mark) })
		key := fmt.Sprint(p.part.Name, p.part.Role, others, js[0].Kind)
		if last != nil && key == lastKey && len(begin) == 0 {
			// Another of the same at once.
			last.New = append(last.New, p.part.Mark)
			last.Parts = append([]string{p.part.Mark}, last.Parts...)
			w.fits(last, js)
			last.Text = lower(w.several(last.New, others, js))
			if w.of == "" {
				last.Text = w.name + ": " + last.Text
			}
			met[p.part.Mark] = true
			continue
		}
		st := Step{New: append(slices.Clone(begin), p.part.Mark), Parts: append([]string{p.part.Mark}, others...), Tool: w.driver(js)}
		w.fits(&st, js)
		text := ""
		if len(begin) > 0 {
			verb := "Add "
			if len(met) == 0 {
				verb = "Begin with "
			}
			text = verb + w.named(begin) + ". "
		}
		text += w.bring(p, others, js)
		for _, m := range append(begin, p.part.Mark) {
			met[m] = true
		}
		st.Text = lower(text)
		w.step(st)
		last, lastKey = &w.list[len(w.list)-1], key
	}
	// What no joint of the group holds is put in its place.
	for _, q := range waiting {
		var js []part.Joint
		for _, j := range w.Assembly.Joints {
			if (j.A == q.part.Mark || j.B == q.part.Mark) && w.parts[j.A].Moves == w.parts[j.B].Moves {
				js = append(js, j)
			}
		}
		st := Step{New: []string{q.part.Mark}, Parts: append([]string{q.part.Mark}, w.across(js, q.part.Mark)...), Tool: w.driver(js)}
		if len(parts) == 1 && q.part.Moves == "" && len(js) == 0 {
			st.Text = fmt.Sprintf("%s is of one piece.", w.label(q.part.Mark))
		} else if len(js) == 0 {
			st.Text = fmt.Sprintf("fit %s in its place.", w.label(q.part.Mark))
		} else {
			w.fits(&st, js)
			st.Text = fmt.Sprintf("fit %s to %s. %s", w.label(q.part.Mark), w.named(w.across(js, q.part.Mark)), w.with(js))
		}
		w.step(st)
	}
}

// bring says how a board comes to those before it.
func (w *maker) bring(p placed, others []string, js []part.Joint) string {
	name := w.label(p.part.Mark)
	loose := !slices.ContainsFunc(js, func(j part.Joint) bool { return j.Kind != part.Loose })
	if loose {
		from := map[geom.Dir]string{geom.Up: "from above", geom.Down: "from below", geom.Front: "from the front", geom.Back: "from behind", geom.Left: "from the left", geom.Right: "from the right"}[p.from]
		return fmt.Sprintf("Slide %s %s into %s of %s, without glue.", name, from, plural(len(others), "the groove", "the grooves"), w.named(others))
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
	to := w.across(firm, p.part.Mark)
	text := fmt.Sprintf("Bring in %s to %s. %s", name, w.named(to), w.with(firm))
	if len(over) > 0 {
		text += fmt.Sprintf(" Its %s over %s, without glue.", plural(len(over), "groove goes", "grooves go"), w.named(over))
	}
	return text
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
			if q.Box().Meets(p.part.Box()) && !joined(w.Assembly.Joints, m, p.part.Mark) {
				out = append(out, m)
			}
		}
	}
	return out
}

func joined(js []part.Joint, a, b string) bool {
	return slices.ContainsFunc(js, func(j part.Joint) bool { return j.A == a && j.B == b || j.A == b && j.B == a })
}

// several says how alike boards come in one after the other.
func (w *maker) several(marks, others []string, js []part.Joint) string {
	loose := js[0].Kind == part.Loose
	all := make([]part.Joint, 0, len(js)*len(marks))
	for _, m := range marks {
		for _, j := range w.Assembly.Joints {
			if (j.A == m && slices.Contains(others, j.B) || j.B == m && slices.Contains(others, j.A)) && (j.Kind == part.Loose) == loose {
				all = append(all, j)
			}
		}
	}
	return fmt.Sprintf("Bring in %s to %s. %s", w.named(marks), w.named(others), w.with(all))
}

// driver names the tool that makes joints.
func (w *maker) driver(js []part.Joint) string {
	for _, j := range js {
		if j.Count > 0 && j.Kind != part.Dowel {
			return "drill"
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
	return capital(strings.Join(out, "; ")) + "."
}

func (s *steps) fastener(id string) string {
	h, ok := s.Catalogue.Item(id)
	if !ok {
		return id
	}
	return cmp.Or(h.Name, id)
}

// diagonal gives the diagonal of a by b to the nearest half millimetre.
func diagonal(a, b length.Length) length.Length {
	half := length.MM / 2
	return length.Length(math.Round(math.Hypot(float64(a), float64(b))/float64(half))) * half
}

// square checks the carcass.
func (w *maker) square() {
	c := w.owner.Carcass.Size()
	d := diagonal(c.X, c.Z)
	w.step(Step{Tool: "tape", Text: fmt.Sprintf("square it before the glue sets. Both diagonals of the face, %s by %s, should read %s; they may differ by %s at most, front and back (common practice). Push the longer one in by half of the difference.", w.in(c.X), w.in(c.Z), w.in(d), w.coarse(3*length.MM/2, length.Inch/16))})
}

// coarse prints a rule of thumb in the job's unit.
func (s *steps) coarse(mm, in length.Length) string {
	if s.Print == length.Inches {
		return in.In(s.Print)
	}
	return mm.In(s.Print)
}

// stand fits feet or castors while the carcass is upside down.
func (w *maker) stand() {
	fits := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "foot" || h.Kind == "castor" || h.Kind == "insert" })
	if len(fits) == 0 {
		return
	}
	w.step(Step{Tool: "drill", Fits: fits, Text: fmt.Sprintf("turn it upside down on blankets and fit %s. Their heights are set when it stands in its place.", w.things(fits))})
}

// hangers fits what is bought and held by nothing but its own hardware: hanging rails.
func (w *maker) hangers(bought []part.Part) {
	if len(bought) == 0 {
		return
	}
	var marks []string
	for _, p := range bought {
		marks = append(marks, p.Mark)
	}
	fits := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "rail" || h.Kind == "rail-flange" || h.For == "flanges" })
	text := "fit " + w.named(marks)
	if len(fits) > 0 {
		text = fmt.Sprintf("saw %s to length and fit %s with %s", w.named(marks), plural(len(marks), "it", "them"), w.things(fits))
	}
	w.step(Step{Tool: "drill", New: marks, Parts: marks, Fits: fits, Text: text + "."})
}

// shelves glues up loose pieces of more than one board and tries all in their places.
func (w *maker) shelves(loose []part.Part) {
	pins := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "pin" })
	if len(loose) == 0 {
		if len(pins) > 0 {
			w.step(Step{Tool: "hand", Fits: pins, Text: "put in " + w.things(pins) + "."})
		}
		return
	}
	in := map[string]bool{}
	for _, p := range loose {
		in[p.Mark] = true
	}
	var marks []string
	var multi []part.Part
	for _, p := range loose {
		marks = append(marks, p.Mark)
		if slices.ContainsFunc(w.Assembly.Joints, func(j part.Joint) bool {
			return (j.A == p.Mark && in[j.B] || j.B == p.Mark && in[j.A]) && j.Kind != part.Loose
		}) {
			multi = append(multi, p)
		}
	}
	w.group(multi)
	st := Step{Tool: "hand", Parts: marks, Fits: pins}
	for _, p := range loose {
		if !slices.ContainsFunc(multi, func(q part.Part) bool { return q.Mark == p.Mark }) {
			st.New = append(st.New, p.Mark)
		}
	}
	st.Text = "try what lies loose in its place: " + w.named(marks)
	if len(pins) > 0 {
		st.Text += ", on " + w.things(pins)
	}
	st.Text += "."
	w.step(st)
}

// slides fits the slides of drawers and trays and sets the boxes on them.
func (w *maker) slides() {
	fits := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "slide" || h.For == "slides" })
	if len(fits) == 0 {
		return
	}
	var boxes []string
	for _, p := range w.Assembly.Parts {
		if p.Owner == w.owner.ID && (p.Role == part.BoxBottom || p.Role == part.TrayBase) {
			boxes = append(boxes, p.Mark)
		}
	}
	w.step(Step{Tool: "drill", Parts: boxes, Fits: fits, Caution: tips, Text: fmt.Sprintf("measure each opening before the slides go in and pack out what is more than %s wide. Screw on %s, and hang the boxes.", w.coarse(length.MM*8/10, length.Inch/32), w.things(fits))})
}

// faces sets the fronts of drawers, from the lowest up.
func (w *maker) faces() {
	var marks []string
	var js []part.Joint
	for _, f := range w.Assembly.Fronts {
		p := w.parts[f.Part]
		if p.Owner == w.owner.ID && f.Kind != part.DoorFront {
			marks = append(marks, f.Part)
		}
	}
	for _, p := range w.Assembly.Parts {
		if p.Owner == w.owner.ID && (p.Role == part.DrawerFront || p.Role == part.FalseFront) && !slices.Contains(marks, p.Mark) {
			marks = append(marks, p.Mark)
		}
	}
	more := w.take(w.owner.ID, func(h part.Item) bool {
		return h.Kind == "handle" && h.For == "drawers" || h.Kind == "lock" && h.For != "doors" && h.For != "the leaf without a lock"
	})
	if len(marks) == 0 {
		if len(more) > 0 {
			w.step(Step{Tool: "drill", Fits: more, Text: "fit " + w.things(more) + "."})
		}
		return
	}
	slices.SortStableFunc(marks, func(a, b string) int { return cmp.Compare(w.parts[a].Box().Min.Z, w.parts[b].Box().Min.Z) })
	for _, j := range w.Assembly.Joints {
		if slices.Contains(marks, j.A) || slices.Contains(marks, j.B) {
			js = append(js, j)
		}
	}
	st := Step{Tool: "drill", Parts: marks, New: marks}
	w.fits(&st, js)
	st.Fits = append(st.Fits, more...)
	st.Text = fmt.Sprintf("set the fronts from the lowest up on spacers of %s, screwed from inside the boxes: %s. %s", w.in(w.Practice.FrontGap), w.named(marks), w.with(js))
	if len(more) > 0 {
		st.Text += fmt.Sprintf(" Then fit %s.", w.things(more))
	}
	w.step(st)
}

// doors hangs the doors, with what is screwed to them.
func (w *maker) doors() {
	var marks []string
	for _, p := range w.Assembly.Parts {
		if p.Owner == w.owner.ID && p.Role == part.Door {
			marks = append(marks, p.Mark)
		}
	}
	fits := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "hinge" || h.Kind == "plate" || h.For == "hinges" })
	if len(marks) > 0 {
		text := "hang " + w.named(marks)
		if len(fits) > 0 {
			text += " with " + w.things(fits)
		}
		w.step(Step{Tool: "drill", Parts: marks, New: marks, Fits: fits, Text: fmt.Sprintf("%s. Adjust to gaps of %s.", text, w.in(w.Practice.FrontGap))})
	}
	// Racks are screwed on when the door hangs true.
	for _, m := range marks {
		var js []part.Joint
		for _, j := range w.Assembly.Joints {
			if j.A == m || j.B == m {
				js = append(js, j)
			}
		}
		if len(js) == 0 {
			continue
		}
		st := Step{Tool: "drill", Parts: append([]string{m}, w.across(js, m)...)}
		w.fits(&st, js)
		st.Text = fmt.Sprintf("screw the rack to the inside of %s: %s. %s", w.named([]string{m}), w.named(w.across(js, m)), w.with(js))
		w.step(st)
	}
	if more := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "handle" || h.Kind == "lock" || h.Kind == "catch" }); len(more) > 0 {
		w.step(Step{Tool: "drill", Parts: marks, Fits: more, Text: fmt.Sprintf("fit %s.", w.things(more))})
	}
}

func lower(t string) string {
	if t == "" {
		return t
	}
	return strings.ToLower(t[:1]) + t[1:]
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
