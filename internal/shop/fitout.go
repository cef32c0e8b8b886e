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
	"stowright/internal/stock"
)

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
		text = fmt.Sprintf("saw %s to length and fit %s with %s: slip the flanges on to its ends, hold it in its place, and screw them over the holes bored for them", w.named(marks), plural(len(marks), "it", "them"), w.things(fits))
	}
	var points []string
	for _, p := range bought {
		if left := w.leftOf(p.Box()); left.Mark != "" {
			b, q := p.Box(), left.Box()
			points = append(points, fmt.Sprintf("%s: %s to the right of %s, its middle %s up from the %s of that and %s behind the %s", p.Mark, w.in(b.Min.X-q.Max.X), w.label(left.Mark),
				w.in((b.Min.Z+b.Max.Z)/2-q.Min.Z), feature(left, 2, false), w.in((b.Min.Y+b.Max.Y)/2-q.Min.Y), feature(left, 1, false)))
		}
	}
	w.step(Step{Tool: "hacksaw, drill, driver bits", New: marks, Parts: marks, Fits: fits, Points: points, Text: text + "."})
}

// glued puts together what lies loose in a case and is of more than one board.
func (w *maker) glued(loose []part.Part) {
	in := map[string]bool{}
	for _, p := range loose {
		in[p.Mark] = true
	}
	var multi []part.Part
	for _, p := range loose {
		if slices.ContainsFunc(w.own.Joints, func(j part.Joint) bool {
			return (j.A == p.Mark && in[j.B] || j.B == p.Mark && in[j.A]) && j.Kind != part.Loose
		}) {
			multi = append(multi, p)
		}
	}
	w.group(multi)
}

// shelves puts what lies loose in its place: which hole its pins go in, counted from below.
func (w *maker) shelves(loose []part.Part) {
	pins := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "pin" })
	if len(loose) == 0 {
		if len(pins) > 0 {
			w.step(Step{Tool: "hand", Fits: pins, Text: "put in " + w.things(pins) + "."})
		}
		return
	}
	st := Step{Tool: "hand", Fits: pins, Text: "put what lies loose in its place"}
	loose = slices.Clone(loose)
	order.Stable(loose, func(a, b part.Part) int {
		return cmp.Or(cmp.Compare(a.Box().Min.Z, b.Box().Min.Z), cmp.Compare(a.Box().Min.X, b.Box().Min.X))
	})
	came := map[string]bool{}
	for _, x := range w.list {
		for _, m := range x.New {
			came[m] = true
		}
	}
	last := ""
	for _, p := range loose {
		st.Parts = append(st.Parts, p.Mark)
		if !came[p.Mark] {
			st.New = append(st.New, p.Mark)
		}
		where, rest := w.rests(p), ""
		if i := strings.Index(where, "; "); i >= 0 { // what several of them share is told of the first
			if where, rest = where[:i], where[i:]; rest != last {
				where += rest
			} else {
				where += ", else as the one before"
			}
		}
		last = rest
		st.Points = append(st.Points, capital(w.label(p.Mark))+": "+where)
	}
	if len(pins) > 0 {
		st.Text += ", with " + w.things(pins)
	}
	if slices.ContainsFunc(loose, func(p part.Part) bool { return strings.HasPrefix(w.rests(p), "in slot ") }) {
		st.Text += ", a divider up into its upper slot and down into its lower"
	}
	low, high := loose[0].Box().Min.Z, loose[len(loose)-1].Box().Min.Z
	if high > low {
		st.Text += ", the lowest first"
	}
	st.Text += ":"
	w.step(st)
}

// rests says where a loose board lies or stands: on pins in a hole of the rows in the uprights on both sides of it,
// counted from below, or on the board under it.
func (w *maker) rests(p part.Part) string {
	box := p.Box()
	if box.Size().X < box.Size().Z && box.Size().X < box.Size().Y { // it stands
		return w.stands(p)
	}
	var left, right part.Part
	for _, q := range w.own.Parts {
		b := q.Box()
		if q.Owner != p.Owner || q.Moves != "" || q.Role != part.Side && q.Role != part.Partition || b.Max.Z < box.Min.Z || b.Min.Z > box.Min.Z {
			continue
		}
		if b.Max.X <= box.Min.X && (left.Mark == "" || b.Max.X > left.Box().Max.X) {
			left = q
		}
		if b.Min.X >= box.Max.X && (right.Mark == "" || b.Min.X < right.Box().Min.X) {
			right = q
		}
	}
	if left.Mark == "" {
		left, right = right, part.Part{}
	}
	if left.Mark == "" {
		return "where the drawing shows it"
	}
	t := w.pinned(p, left)
	if right.Mark == "" {
		return t
	}
	// The same hole, counted and measured alike, on the other side needs no second line.
	if o := w.pinned(p, right); strings.ReplaceAll(o, w.label(right.Mark), w.label(left.Mark)) != t {
		o, _, _ = strings.Cut(o, ", front edge ")
		t += "; at its other end " + strings.TrimPrefix(o, "on pins ")
	}
	return t
}

// pinned says where a loose board lies by one of the uprights beside it.
func (w *maker) pinned(p, side part.Part) string {
	box, inner := p.Box(), side.Box()
	up := fmt.Sprintf("underside %s up from the %s of %s", w.in(box.Min.Z-inner.Min.Z), feature(side, 2, false), w.label(side.Mark))
	if d := box.Min.Y - inner.Min.Y; d > 0 {
		up += fmt.Sprintf(", front edge %s behind its %s", w.in(d), feature(side, 1, false))
	}
	near := box.Min.X
	if inner.Min.X >= box.Max.X {
		near = box.Max.X
	}
	var rows []length.Length
	across := map[length.Length]int{} // holes of each row of holes, one above the other
	for _, o := range side.Ops {
		if o.For != "shelf pin" {
			continue
		}
		at := side.Pose.Point(o.Face.Point(o.X, o.Y, side.Size))
		if at.Y > box.Min.Y && at.Y < box.Max.Y && (at.X-near).Abs() < 30*length.MM && (at.X-near).Abs() <= (inner.Min.X+inner.Max.X-at.X-near).Abs() {
			across[at.Y]++
			if !slices.Contains(rows, at.Z) {
				rows = append(rows, at.Z)
			}
		}
	}
	order.Up(rows)
	alike := true // every row has all heights, so that counting from below finds the same one in each
	for _, n := range across {
		alike = alike && n == len(rows)
	}
	for i := len(rows) - 1; i >= 0; i-- {
		if d := box.Min.Z - rows[i]; d >= 0 && d < 12*length.MM {
			switch {
			case len(rows) == 1:
				return "on pins, " + up
			case !alike:
				return fmt.Sprintf("on pins in the holes %s up from the %s, %s", w.in(rows[i]-inner.Min.Z), feature(side, 2, false), up)
			}
			return fmt.Sprintf("on pins in hole %d of %d, counted from below, %s", i+1, len(rows), up)
		}
	}
	return up
}

// stands says where a loose board stands: measured from the upright to its left, from the lower end and the
// front edge of that.
func (w *maker) stands(p part.Part) string {
	box := p.Box()
	left := w.leftOf(box)
	if left.Mark == "" {
		return "where the drawing shows it"
	}
	q := left.Box()
	front := w.in(box.Min.Y-q.Min.Y) + " behind"
	if box.Min.Y == q.Min.Y {
		front = "flush with"
	}
	face := fmt.Sprintf("left face %s to the right of %s", w.in(box.Min.X-q.Max.X), w.label(left.Mark))
	front += " the " + feature(left, 1, false)
	if n, of := w.slot(p); of > 0 {
		face = fmt.Sprintf("in slot %d of %d from the left, %s", n, of, face)
	}
	up := w.in(box.Min.Z-q.Min.Z) + " up from"
	if d := q.Min.Z - box.Min.Z; d == 0 {
		up = "flush with"
	} else if d > 0 {
		up = w.in(d) + " below"
	}
	return fmt.Sprintf("%s; %s high, its lower side %s the %s of that and its front %s", face, w.in(box.Size().Z), up, feature(left, 2, false), front)
}

// slot gives which of the slots of the board under a divider it stands in, from the left, and how many there are; none
// where it stands in no slot.
func (w *maker) slot(p part.Part) (n, of int) {
	box := p.Box()
	foot := geom.B((box.Min.X+box.Max.X)/2, box.Min.Y, box.Min.Z, (box.Min.X+box.Max.X)/2, box.Max.Y, box.Min.Z)
	for _, o := range w.whose.Of(p.Owner).Parts {
		var at []geom.Box
		here := -1
		for _, x := range o.Ops {
			if x.For == "divider slot" {
				at = append(at, o.Pose.Box(x.Removed(o.Size)))
			}
		}
		order.Stable(at, func(a, b geom.Box) int { return cmp.Compare(a.Min.X, b.Min.X) })
		for i, b := range at {
			if b.Min.X < foot.Min.X && foot.Max.X < b.Max.X && b.Min.Z <= foot.Min.Z && foot.Min.Z < b.Max.Z {
				here = i
			}
		}
		if here >= 0 {
			return here + 1, len(at)
		}
	}
	return 0, 0
}

// leftOf gives the upright of the case that stands next to the left of a box.
func (w *maker) leftOf(box geom.Box) (left part.Part) {
	for _, q := range w.own.Parts {
		b := q.Box()
		if q.Owner != w.owner.ID || q.Moves != "" || q.Role != part.Side && q.Role != part.Partition || b.Max.X > box.Min.X || b.Min.Z >= box.Max.Z || b.Max.Z <= box.Min.Z {
			continue
		}
		if left.Mark == "" || b.Max.X > left.Box().Max.X {
			left = q
		}
	}
	return left
}

// slides fits the slides of drawers and trays and sets the boxes on them.
func (w *maker) slides() {
	fits := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "slide" || h.For == "slides" || h.For == part.SlidesOnBoxes })
	if len(fits) == 0 {
		return
	}
	short := w.shorter(fits)
	var boxes []string
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Role == part.BoxBottom || p.Role == part.TrayBase {
			boxes = append(boxes, p.Mark)
		}
	}
	beside, hand := w.besideSlide()
	st := Step{Tool: "drill, driver bits, tape" + hand, Parts: boxes, Fits: fits, Caution: w.tipping(w.owner), Text: fmt.Sprintf("measure each opening at the front and at the rear before the slides go in%s: where it is more than %s too wide, pack the slide out by half of it on each side; where it is too narrow, plane the box. In the holes bored for them fit %s, their front ends %s, and hang the boxes, the lowest first.%s%s", w.openings(), w.coarse(length.MM*8/10, length.Inch/32), w.things(fits), w.fronts(), short, beside)}
	st.Points = w.rows()
	w.step(st)
}

// openings says how wide the openings for drawers and trays are to be.
func (w *maker) openings() string {
	var wide []string
	for _, m := range w.whose.Of(w.owner.ID).Motions {
		if m.Kind != part.Slide {
			continue
		}
		var body geom.Box // its front left out, which covers more
		for _, p := range w.own.Parts {
			if p.Moves == m.ID && p.Role != part.DrawerFront && p.Role != part.FalseFront {
				body = body.Or(p.Box())
			}
		}
		lo, hi := length.Length(-1)<<60, length.Length(1)<<60
		for _, p := range w.own.Parts { // what the slides are screwed to
			b := p.Box()
			if p.Owner != w.owner.ID || p.Moves != "" || b.Max.Z <= body.Min.Z || b.Min.Z >= body.Max.Z || p.Role != part.Side && p.Role != part.Partition && p.Role != part.Spacer {
				continue
			}
			if b.Max.X <= body.Min.X {
				lo = max(lo, b.Max.X)
			}
			if b.Min.X >= body.Max.X {
				hi = min(hi, b.Min.X)
			}
		}
		if t := w.in(hi - lo); hi-lo < 1<<40 && !slices.Contains(wide, t) {
			wide = append(wide, t)
		}
	}
	if len(wide) == 0 {
		return ""
	}
	return ", " + and(wide) + " wide"
}

// fronts says how the front ends of boxes lie to the edges of the sides.
func (w *maker) fronts() string {
	for _, m := range w.whose.Of(w.owner.ID).Motions {
		if m.Kind != part.Slide {
			continue
		}
		for _, p := range w.own.Parts {
			if p.Moves != m.ID || p.Role != part.BoxSide && p.Role != part.Lip && p.Role != part.TrayBase {
				continue
			}
			switch d := p.Box().Min.Y - w.owner.Carcass.Min.Y; {
			case d > 0:
				return w.in(d) + " behind the front edges of the sides, as the boxes' are"
			case d < 0:
				return "flush with the front edges of the sides, and on the boxes " + w.in(-d) + " behind their fronts, which stand before the sides by as much"
			}
			return "flush with the front edges of the sides, as the boxes' are"
		}
	}
	return "flush with the fronts of the boxes"
}

// shorter says which of two lengths of slide screws go into drawers and trays, "" for one length:
// a longer one comes out inside them.
func (w *maker) shorter(fits []Fit) string {
	var longest, shortest stock.Hardware
	for _, f := range fits {
		h, ok := w.Catalogue.Item(f.ID)
		if !ok || h.Kind != "screw" {
			continue
		}
		if longest.ID == "" || h.Length > longest.Length {
			longest = h
		}
		if shortest.ID == "" || h.Length < shortest.Length {
			shortest = h
		}
	}
	if longest.Length == shortest.Length {
		return ""
	}
	return fmt.Sprintf(" The shorter screws, %s, go into the sides of the boxes; longer ones come out inside.", shortest.Name)
}

// row is a row of slide screws, how high and for what.
type row struct {
	z, open length.Length
	what    string
}

// rows gives the heights of the rows of slide screws in the sides and the packing of an owner,
// and what goes there.
func (w *maker) rows() []string {
	low, end := w.owner.Carcass.Min.Z, "lower end"
	for _, q := range w.whose.Of(w.owner.ID).Parts {
		if q.Role == part.Side {
			low, end = q.Box().Min.Z, feature(*q, 2, false)
			break
		}
	}
	var out []row
	for _, m := range w.whose.Of(w.owner.ID).Motions {
		if m.Kind != part.Slide {
			continue
		}
		before := len(out)
		for _, p := range w.own.Parts { // the screws in what moves are at the slide's middle
			if p.Moves != m.ID || p.Role != part.BoxSide && p.Role != part.Lip {
				continue
			}
			i := slices.IndexFunc(p.Ops, func(o part.Op) bool { return o.For == "slide" })
			if i < 0 {
				continue
			}
			o := p.Ops[i]
			_, what, _ := strings.Cut(p.Name, " of ")
			out = append(out, row{p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)).Z - low, p.Box().Min.X, what})
			break
		}
		if len(out) == before { // it hooks on: the screws in the case are under it
			out = append(out, w.under(*m, low)...)
		}
	}
	order.Stable(out, func(a, b row) int { return cmp.Or(cmp.Compare(a.z, b.z), cmp.Compare(a.open, b.open)) })
	var list []string
	for _, r := range out {
		list = append(list, fmt.Sprintf("%s: screws %s up from the %s of the sides", r.what, w.in(r.z), end))
	}
	return list
}

// under gives the row of screws in the case for a slide that its box hooks on to.
func (w *maker) under(m part.Motion, low length.Length) (out []row) {
	what := ""
	for _, p := range w.own.Parts {
		if p.Moves == m.ID && what == "" {
			_, what, _ = strings.Cut(p.Name, " of ")
		}
	}
	const near = 40 * length.MM
	best := near
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Moves != "" {
			continue
		}
		for _, o := range p.Ops {
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			if d := (at.Z - m.Closed.Min.Z).Abs(); o.For == "slide" && d < best && at.X > m.Closed.Min.X-near && at.X < m.Closed.Max.X+near {
				best, out = d, []row{{at.Z - low, m.Closed.Min.X, what}}
			}
		}
	}
	return out
}

// faces sets the fronts of drawers, from the lowest up.
func (w *maker) faces() {
	var marks []string
	var js []part.Joint
	for _, f := range w.own.Fronts {
		p := w.parts[f.Part]
		if p.Owner == w.owner.ID && f.Kind != part.DoorFront {
			marks = append(marks, f.Part)
		}
	}
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if (p.Role == part.DrawerFront || p.Role == part.FalseFront) && !slices.Contains(marks, p.Mark) {
			marks = append(marks, p.Mark)
		}
	}
	w.barLock()
	more := w.take(w.owner.ID, func(h part.Item) bool {
		return h.Kind == "handle" && h.For == "drawers" || h.For == part.ForDrawerHandles || h.Kind == "lock" && h.For != "doors" && h.For != part.ForCaught
	})
	if len(marks) == 0 {
		if len(more) > 0 {
			w.step(Step{Tool: "drill, driver bits", Fits: more, Text: "fit " + w.things(more) + "."})
		}
		return
	}
	order.Stable(marks, func(a, b string) int { return cmp.Compare(w.parts[a].Box().Min.Z, w.parts[b].Box().Min.Z) })
	for _, j := range w.own.Joints {
		if slices.Contains(marks, j.A) || slices.Contains(marks, j.B) {
			js = append(js, j)
		}
	}
	st := Step{Tool: "drill, driver bits", Parts: marks, New: marks}
	w.fits(&st, js)
	st.Fits = append(st.Fits, more...)
	st.Text = fmt.Sprintf("set the fronts from the lowest up on spacers of %s, screwed from inside the boxes: %s. %s Stick each with double-sided tape to the front of its closed box, pressed home, then draw the drawer out and screw it on before the next. %s", w.in(w.Practice.FrontGap), w.named(marks), w.facesAt(marks), w.with(js))
	beside, tools := w.besideBottom(marks)
	st.Text, st.Tool = st.Text+beside, st.Tool+tools
	if len(more) > 0 {
		st.Text += fmt.Sprintf(" Then fit %s.", w.things(more))
		st.Points = append(st.Points, w.handleScrews(marks)...)
	}
	w.step(st)
}

// doors hangs the doors, with what is screwed to them.
func (w *maker) doors() {
	var marks []string
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Role == part.Door {
			marks = append(marks, p.Mark)
		}
	}
	fits := w.take(w.owner.ID, func(h part.Item) bool { return h.Kind == "hinge" || h.Kind == "plate" || h.For == "hinges" })
	if len(marks) > 0 {
		text := "hang " + w.named(marks)
		if len(fits) > 0 {
			text += " with " + w.things(fits)
		}
		w.step(Step{Tool: "drill, driver bits", Parts: marks, New: marks, Fits: fits, Points: w.hung(marks), Text: fmt.Sprintf("%s: screw the plates to the holes in the sides, press the cups in and screw them, then put each door on and adjust to gaps of %s.", text, w.gaps())})
	}
	w.handles(marks)
	// Racks are screwed on when the door hangs true.
	for _, m := range marks {
		on := map[string][]part.Part{}
		for _, j := range w.own.Joints {
			if q := w.parts[j.B]; j.A == m && q.Moves != "" && q.Moves == w.parts[m].Moves {
				on[q.Moves] = nil
			}
		}
		var racks []part.Part
		for _, q := range w.own.Parts {
			if _, ok := on[q.Moves]; ok && q.Owner == w.owner.ID && q.Mark != m {
				racks = append(racks, q)
			}
		}
		for _, lot := range w.lots(racks) {
			var js []part.Joint
			for _, j := range w.own.Joints {
				o := j.A
				if o == m {
					o = j.B
				}
				if (j.A == m || j.B == m) && slices.ContainsFunc(lot, func(q part.Part) bool { return q.Mark == o }) {
					js = append(js, j)
				}
			}
			if len(js) == 0 {
				continue
			}
			st := Step{Tool: "drill, driver bits" + w.sinker(fasteners(js)...), Parts: append([]string{m}, w.across(js, m)...)}
			w.fits(&st, js)
			st.Text = fmt.Sprintf("screw the rack to the inside of %[2]s by %[1]s. %[3]s", w.named(w.across(js, m)), w.named([]string{m}), w.with(js))
			for _, j := range js {
				q := w.parts[j.A]
				if q.Mark == m {
					q = w.parts[j.B]
				}
				st.Points = append(st.Points, q.Mark+": "+w.seat(q, w.parts[m], joinery.Thin(j.Contact))+" of the door")
			}
			w.step(st)
			w.rails(w.barring(lot))
		}
	}
}

// rails puts those on a rack that went on to its door without them.
func (w *maker) rails(marks []string) {
	for _, m := range marks {
		var js []part.Joint
		for _, j := range w.own.Joints {
			if j.A == m || j.B == m {
				js = append(js, j)
			}
		}
		st := Step{Tool: w.driver(js), Parts: append([]string{m}, w.across(js, m)...), New: []string{m}}
		w.fits(&st, js)
		st.Text, st.Points = w.join(w.parts[m], js)
		st.Text += " It goes on last: screws into the door lie behind it."
		w.step(st)
	}
}

// handles fits handles, locks and catches to doors, before anything hangs behind them.
func (w *maker) handles(marks []string) {
	if more := w.take(w.owner.ID, func(h part.Item) bool {
		return h.Kind == "handle" || h.For == part.ForDoorHandles || h.Kind == "lock" || h.Kind == "catch"
	}); len(more) > 0 {
		w.step(Step{Tool: "drill, driver bits", Parts: marks, Fits: more, Points: append(w.handleScrews(marks), w.locks()...), Text: fmt.Sprintf("fit %s.", w.things(more))})
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
