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
func (w *maker) stand(twins []part.Owner) {
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
	if bolts, tools := w.bolts(append([]part.Owner{w.owner}, twins...)); bolts != "" {
		st.Points = append(st.Points, bolts)
		st.Tool += ", " + tools
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

// over gives how long the bolts of feet that are turned from above may be over all, or they stand out in the case: from the foot's
// plate to the upper face of its bottom at the lowest foot. 0 where none is; sure says that all heights are known.
func (s *steps) over(o part.Owner) (least length.Length, sure bool) {
	sure = true
	for _, f := range s.whose.Of(o.ID).Feet {
		h, ok := s.Catalogue.Item(f.Hardware)
		if !ok || h.TurnFrom != "above" || h.Dia == 0 {
			continue
		}
		for _, p := range s.whose.Of(o.ID).Parts {
			if b := p.Box(); p.Role == part.Bottom && b.Min.X <= f.At.X && f.At.X <= b.Max.X && b.Max.Z > f.At.Z {
				sure = sure && !f.Unsure
				if room := f.Height + b.Max.Z - f.At.Z; least == 0 || room < least {
					least = room
				}
			}
		}
	}
	return least, sure
}

// bolts says, before feet are fitted, how long their bolts may be in each of the cases that are made alike, and how they are sawn so that
// they can still be turned from above; with the tools that this takes.
func (s *steps) bolts(alike []part.Owner) (text, tools string) {
	var each, all []string
	known := true
	for _, o := range alike {
		l, sure := s.over(o)
		if l == 0 {
			continue
		}
		known = known && sure
		t := s.in(l.Down(s.easy())) + " over all"
		each = append(each, t+" for "+s.called(o))
		if !slices.Contains(all, t) {
			all = append(all, t)
		}
	}
	const how = "file the end, and saw a slot across it for a screwdriver, which turns the foot from above, through the hole in the bottom"
	const tool = "hacksaw, file, screwdriver"
	switch {
	case len(all) == 0:
		return "", ""
	case !known:
		return "No bolt may stand out above the bottom, and the heights of the feet are not known yet: where one stands out when it is levelled, mark it at the bottom, take it out, saw it off there, " + how, tool
	case len(all) > 1:
		all = each
	}
	return fmt.Sprintf("No bolt may stand out above the bottom: before a foot is fitted, saw off what is longer, its plate included, than %s; %s", and(all), how), tool
}

// overBolt says how the hole for a foot in a block comes to lie under the one in the bottom through which that is turned.
func (w *maker) overBolt(marks []string) string {
	bored := func(mark, what string) bool {
		return slices.ContainsFunc(w.parts[mark].Ops, func(o part.Op) bool { return o.For == what })
	}
	for _, j := range w.own.Joints {
		for _, m := range [][2]string{{j.A, j.B}, {j.B, j.A}} {
			if slices.Contains(marks, m[0]) && bored(m[0], "foot") && bored(m[1], part.TurnsFoot) {
				return " Before the glue sets put the bolt of a foot through the holes of block and bottom: it goes freely through both."
			}
		}
	}
	return ""
}

// turned says, of what stands on feet that are turned from above, with what.
func (s *steps) turned(o part.Owner) []string {
	if least, _ := s.over(o); least == 0 {
		return nil
	}
	return []string{"Turn each foot from above with a screwdriver, through the hole in the bottom over it, while a second person lifts that corner a little"}
}
