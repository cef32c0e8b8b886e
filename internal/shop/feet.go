package shop

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
)

// stand fits feet or castors while the carcass is upside down.
func (w *maker) stand() {
	fits := w.take(w.owner.ID, func(h part.Item) bool {
		return h.Kind == "foot" || h.Kind == "castor" || h.Kind == "insert" || h.For == part.StandsOn
	})
	if len(fits) == 0 {
		return
	}
	rank := func(f Fit) int { // what goes into the wood first, and what holds it last
		h, _ := w.Catalogue.Item(f.ID)
		return map[string]int{"insert": 0, "screw": 2}[h.Kind] + map[bool]int{true: 1}[h.Kind == "foot" || h.Kind == "castor"]
	}
	order.Stable(fits, func(a, b Fit) int { return cmp.Compare(rank(a), rank(b)) })
	st := Step{Tool: "wrench", Fits: fits, Text: fmt.Sprintf("turn it upside down on blankets and fit %s.", w.things(fits))}
	if slices.ContainsFunc(w.own.Feet, func(f part.Foot) bool { return f.Kind == "foot" }) {
		st.Text += " Their heights are set when it stands in its place."
	}
	if last := fits[len(fits)-1]; rank(last) == 2 {
		h, _ := w.Catalogue.Item(last.ID)
		js := w.joiner()
		pilot, _, _ := js.Pilot(cmp.Or(h.Pilot, h.Root))
		st.Tool = "drill, driver bits, tape, " + pilot
		st.Text += fmt.Sprintf(" Mark the holes of every plate, its middle where it is told, and bore for their screws with the %s, no deeper than these go. Where a head slips into a hole of the plate, put a washer under it.", pilot)
		st.Points = w.plates()
	}
	st.Text += " Then turn it back."
	w.step(st)
}

// plates says where the middles of the plates of feet and castors are on the boards that they are screwed under.
func (w *maker) plates() (points []string) {
	type at struct{ x, y length.Length }
	on := map[string][]at{}
	var marks []string
	for _, f := range w.whose.Of(w.owner.ID).Feet {
		for _, p := range w.own.Parts {
			b := p.Box()
			if p.Owner != w.owner.ID || p.Moves != "" || (b.Min.Z-f.At.Z).Abs() > length.MM || f.At.X < b.Min.X || f.At.X > b.Max.X || f.At.Y < b.Min.Y || f.At.Y > b.Max.Y {
				continue
			}
			if on[p.Mark] == nil {
				marks = append(marks, p.Mark)
			}
			on[p.Mark] = append(on[p.Mark], at{f.At.X - b.Min.X, f.At.Y - b.Min.Y})
			break
		}
	}
	for _, m := range marks {
		p := w.parts[m]
		size := p.Box().Size()
		list := on[m]
		if q := list[0]; len(list) == 1 && (2*q.x-size.X).Abs() < length.MM && (2*q.y-size.Y).Abs() < length.MM {
			points = append(points, fmt.Sprintf("1 in the middle of the lower side of %s", w.label(m)))
			continue
		}
		var rows []length.Length
		for _, q := range list {
			if !slices.Contains(rows, q.y) {
				rows = append(rows, q.y)
			}
		}
		order.Up(rows)
		for _, y := range rows {
			var xs []length.Length
			for _, q := range list {
				if q.y == y {
					xs = append(xs, q.x)
				}
			}
			order.Up(xs)
			var told []string
			for _, x := range xs {
				told = append(told, w.in(x))
			}
			points = append(points, fmt.Sprintf("Under %s: %d, %s from its %s, %s behind its %s", w.label(m), len(xs), and(told), feature(p, 0, false), w.in(y), feature(p, 1, false)))
		}
	}
	return points
}
