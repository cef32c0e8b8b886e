package shop

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
)

// unit is what is put together by itself before the case: a drawer, a tray, a rack of a door.
type unit struct {
	parts []part.Part
	title string // "drawer 3", "the lower rack of left door (A.1door)"
	of    string // what the names of its boards end in
}

// units parts what moves into what is built by itself. What hangs on one door may be several
// racks, which nothing but the door joins.
func (w *maker) units(order []string, moving map[string][]part.Part) []unit {
	var out []unit
	for _, m := range order {
		lots := w.lots(moving[m])
		for i, lot := range lots {
			u := unit{parts: lot, of: common(lot)}
			u.title = strings.TrimPrefix(u.of, " of ")
			for _, p := range w.own.Parts {
				if p.Moves != m || p.Role != part.Door {
					continue
				}
				rack := "rack"
				if len(lots) > 1 {
					rack = fmt.Sprintf("rack %d, counted from below,", i+1)
				}
				u.title = fmt.Sprintf("the %s of %s (%s)", rack, p.Name, p.Mark)
				if len(lots) > 1 {
					u.title = strings.TrimPrefix(u.title, "the ")
				}
			}
			out = append(out, u)
		}
	}
	return out
}

// lots parts boards into those that joints hold together, the lowest first.
func (w *maker) lots(parts []part.Part) [][]part.Part {
	lot := make([]int, len(parts))
	at := map[string]int{}
	for i, p := range parts {
		lot[i], at[p.Mark] = i, i
	}
	for _, j := range w.own.Joints {
		a, ok := at[j.A]
		b, ok2 := at[j.B]
		if !ok || !ok2 {
			continue
		}
		from, to := max(lot[a], lot[b]), min(lot[a], lot[b])
		for i := range lot {
			if lot[i] == from {
				lot[i] = to
			}
		}
	}
	var out [][]part.Part
	var heads []int
	for i, p := range parts {
		k := slices.Index(heads, lot[i])
		if k < 0 {
			k = len(heads)
			heads, out = append(heads, lot[i]), append(out, nil)
		}
		out[k] = append(out[k], p)
	}
	low := func(l []part.Part) length.Length {
		z := l[0].Box().Min.Z
		for _, p := range l {
			z = min(z, p.Box().Min.Z)
		}
		return z
	}
	order.Stable(out, func(a, b []part.Part) int { return int(min(max(low(a)-low(b), -1), 1)) })
	return out
}

// barring gives those rails of a rack that stand before the screws by which it hangs on its door, where a drill does
// not come to them: they go on when the rack is on the door.
func (w *maker) barring(lot []part.Part) (marks []string) {
	joined := func(p part.Part, with func(q part.Part) bool) bool {
		return slices.ContainsFunc(w.own.Joints, func(j part.Joint) bool {
			return j.A == p.Mark && with(w.parts[j.B]) || j.B == p.Mark && with(w.parts[j.A])
		})
	}
	door := func(q part.Part) bool { return q.Role == part.Door && q.Owner == w.owner.ID && q.Moves == lot[0].Moves }
	for _, p := range lot {
		if p.Role != part.Rail || joined(p, door) || joined(p, func(q part.Part) bool { return q.Role != part.RackSide }) {
			continue
		}
		if slices.ContainsFunc(lot, func(q part.Part) bool {
			a, b := p.Box(), q.Box()
			return joined(q, door) && a.Min.X < b.Max.X && a.Max.X > b.Min.X && a.Min.Z-drillHalf < b.Max.Z && a.Max.Z+drillHalf > b.Min.Z
		}) {
			marks = append(marks, p.Mark)
		}
	}
	return marks
}

// movers builds what moves before the rest: drawers, trays, racks, a step for every board. Those
// that are built alike share their steps, which are told with the marks of the first.
func (w *maker) movers(order []string, moving map[string][]part.Part) {
	type lot struct {
		steps  []Step
		titles []string
	}
	at := map[string]int{}
	var lots []lot
	for _, u := range w.units(order, moving) {
		inner := *w.steps
		inner.list = nil
		sub := maker{steps: &inner, owner: w.owner, own: w.own, name: w.name, phase: Assemble, of: u.of}
		last := w.barring(u.parts)
		sub.group(slices.DeleteFunc(slices.Clone(u.parts), func(p part.Part) bool { return slices.Contains(last, p.Mark) }))
		sub.trueUp(u)
		if len(inner.list) == 0 {
			continue
		}
		how := ""
		for _, st := range inner.list {
			how += w.unmarked(st.Whole()) + "\n"
		}
		i, ok := at[how]
		if !ok {
			at[how] = len(lots)
			lots = append(lots, lot{inner.list, []string{u.title}})
			continue
		}
		l := &lots[i]
		l.titles = append(l.titles, u.title)
		for k, st := range inner.list {
			one := &l.steps[k]
			one.New, one.Parts = append(one.New, st.New...), append(one.Parts, st.Parts...)
			for _, f := range st.Fits {
				one.Fits = fit(one.Fits, f.ID, f.Count)
			}
		}
	}
	for _, l := range lots {
		for k := range l.steps {
			st := l.steps[k]
			what := capital(l.titles[0])
			if n := len(l.titles); n > 1 {
				what = fmt.Sprintf("%s, %d alike, told with the marks of %s", capital(listed(l.titles)), n, l.titles[0])
			}
			if k > 0 && len(l.titles) > 1 {
				what = "Each of these " + fmt.Sprint(len(l.titles))
			}
			st.Text = what + ": " + lower(st.Text)
			w.add(st)
		}
	}
}

// listed says "drawers 1, 2 and 3" for "drawer 1", "drawer 2", "drawer 3", and other titles as they
// are.
func listed(titles []string) string {
	word, _, ok := strings.Cut(titles[0], " ")
	var figures []string
	for _, t := range titles {
		w, n, has := strings.Cut(t, " ")
		ok = ok && has && w == word && strings.Trim(n, "0123456789") == ""
		figures = append(figures, n)
	}
	if !ok {
		return and(titles)
	}
	return word + "s " + and(figures)
}

// unmarked takes the marks out of a text, so that what is built alike reads alike.
func (w *maker) unmarked(text string) string {
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Moves != "" {
			text = strings.ReplaceAll(text, p.Mark+")", ")")
			text = strings.ReplaceAll(text, p.Mark+":", ":")
		}
	}
	return text
}

// trueUp squares a box by its bottom.
func (w *maker) trueUp(u unit) {
	i := slices.IndexFunc(u.parts, func(p part.Part) bool { return p.Role == part.BoxBottom })
	if i < 0 || len(u.parts) < 2 { // a tray is as square as its base
		return
	}
	bottom := u.parts[i].Mark
	z := w.body(bottom)
	text := fmt.Sprintf("lay it on a flat bench and measure both diagonals, %s by %s: they should read %s and may differ by %s at most.", w.in(z.X), w.in(z.Y), w.in(diagonal(z.X, z.Y)), w.coarse(length.MM*8/10, length.Inch/32))
	for k, st := range w.list { // a bottom that is screwed under it holds the box as it is
		if slices.Contains(st.New, bottom) && slices.ContainsFunc(w.own.Joints, func(j part.Joint) bool { return (j.A == bottom || j.B == bottom) && j.Count > 0 }) {
			n := len(w.list)
			w.step(Step{Tool: "tape", Parts: []string{bottom}, Text: text + fmt.Sprintf(" The bottom (%s) is the square: lay it on, push the box until its sides are flush with it all round, and keep it so until the next step has screwed it.", bottom)})
			w.list = slices.Insert(w.list[:n], k, w.list[n])
			return
		}
	}
	w.step(Step{Tool: "tape", Parts: []string{bottom}, Text: text + fmt.Sprintf(" The bottom (%s) is the square: push the box until both diagonals agree, when the room that the bottom has in its grooves is shared evenly, then leave the clamps on until the glue holds.", bottom)})
}

// body gives the size of a drawer's or a tray's box, its front left out.
func (w *maker) body(mark string) geom.Vec {
	var b geom.Box
	for _, p := range w.own.Parts {
		if p.Moves == w.parts[mark].Moves && p.Role != part.DrawerFront && p.Role != part.FalseFront {
			b = b.Or(p.Box())
		}
	}
	return b.Size()
}

// common gives what the names of boards that move together end in: " of drawer 3".
func common(parts []part.Part) string {
	_, after, ok := strings.Cut(parts[0].Name, " of ")
	if !ok {
		return " of " + parts[0].Name
	}
	return " of " + after
}
