package draw

import (
	"math"
	"slices"

	"stowright/internal/draw/font"
)

// Title sets the name of a set with a line about it under it. A name makes it an anchor.
func (f *Flow) Title(text, about, name string) {
	const size = 6.5
	s := f.need(3 * size)
	if name != "" {
		s.Anchor(name, Pt(f.area.X, f.y))
	}
	for _, l := range Wrap(f.Say.Of(text), size, true, f.area.W) {
		f.y += size * 1.2
		s.Text(Pt(f.area.X, f.y), size, l, Start).Bold = true
		f.y += size * 0.35
	}
	for _, l := range Wrap(f.Say.Of(about), 2.8, false, f.area.W) {
		f.y += 4.6
		s.Text(Pt(f.area.X, f.y), 2.8, l, Start)
	}
	f.y += 2.4
	s.Poly(Outline, Pt(f.area.X, f.y), Pt(f.area.Right(), f.y))
	f.y += 2
}

// Fact is something that is asked first: its name, what it is, and a word on it.
type Fact struct{ Name, Value, More string }

// Facts sets facts beside each other in one row of boxes, what they say large. Columns are as
// wide as what stands in them asks.
func (f *Flow) Facts(list []Fact) {
	if len(list) == 0 {
		return
	}
	if f.Say != nil {
		list = slices.Clone(list)
		for i, x := range list {
			list[i] = Fact{f.Say(x.Name), f.Say(x.Value), f.Say(x.More)}
		}
	}
	const pad = 2.2
	wide := f.Width()
	high := 0.0
	want := make([]float64, len(list))
	cap := 4.2
	var more [][]string
	for {
		sum := 0.0
		for i, x := range list {
			want[i] = max(font.Width(x.Value, true, cap), font.Width(x.Name, false, LeastCap), min(24, font.Width(x.More, false, LeastCap))) + 2*pad
			sum += want[i]
		}
		if sum <= wide || cap <= LeastCap {
			for spare := wide - sum; spare > 0; spare-- { // to where most lines stand
				most := 0
				for i, x := range list {
					if len(Wrap(x.More, LeastCap, false, want[i]-2*pad)) > len(Wrap(list[most].More, LeastCap, false, want[most]-2*pad)) {
						most = i
					}
				}
				want[most] += min(1, spare)
			}
			break
		}
		cap -= 0.1
	}
	for i, x := range list {
		l := Wrap(x.More, LeastCap, false, want[i]-2*pad)
		more = append(more, l)
		high = max(high, 5.2+cap*1.5+float64(len(l))*cellRow+1.5)
	}
	f.Block(high, func(s *Sheet, r Rect) {
		x := r.X
		for i, fact := range list {
			if i > 0 {
				s.Poly(Narrow, Pt(x, r.Y), Pt(x, r.Bottom()))
			}
			s.Text(Pt(x+pad, r.Y+4.4), LeastCap, fact.Name, Start)
			s.Text(Pt(x+pad, r.Y+5.2+cap*1.25), cap, fact.Value, Start).Bold = true
			y := r.Y + 5.2 + cap*1.5
			for _, l := range more[i] {
				y += cellRow
				s.Text(Pt(x+pad, y-0.6), LeastCap, l, Start)
			}
			x += want[i]
		}
		s.Poly(Edge, Pt(r.X, r.Y), Pt(r.Right(), r.Y))
		s.Poly(Edge, Pt(r.X, r.Bottom()), Pt(r.Right(), r.Bottom()))
	})
	f.y += 2.5
}

// FactList sets facts one under the other, for a column beside a picture.
func (f *Flow) FactList(list []Fact) {
	const pad = 1.6
	wide := f.Width() - 2*pad
	for i, x := range list {
		name, value := f.Say.Of(x.Name), f.Say.Of(x.Value)
		more := Wrap(f.Say.Of(x.More), LeastCap, false, wide)
		if x.More == "" {
			more = nil
		}
		size := 4.2
		for size > LeastCap && font.Width(value, true, size) > wide {
			size -= 0.1
		}
		f.Block(5.6+size*1.25+float64(len(more))*cellRow+pad, func(s *Sheet, r Rect) {
			if i == 0 {
				s.Poly(Edge, Pt(r.X, r.Y), Pt(r.Right(), r.Y))
			}
			s.Text(Pt(r.X+pad, r.Y+4.4), LeastCap, name, Start)
			s.Text(Pt(r.X+pad, r.Y+4.8+size*1.25), size, value, Start).Bold = true
			y := r.Y + 4.8 + size*1.25
			for _, l := range more {
				y += cellRow
				s.Text(Pt(r.X+pad, y), LeastCap, l, Start)
			}
			line := Narrow
			if i == len(list)-1 {
				line = Edge
			}
			s.Poly(line, Pt(r.X, r.Bottom()), Pt(r.Right(), r.Bottom()))
		})
	}
}

// Columns sets what each of sets sets beside the others, in columns of one width, all on one
// sheet.
func (f *Flow) Columns(gap float64, sets ...func(*Flow)) {
	n := float64(len(sets))
	wide := (f.Width() - gap*(n-1)) / n
	high := 0.0
	for _, set := range sets {
		high = max(high, f.MeasureIn(wide, set))
	}
	f.Block(high, func(s *Sheet, r Rect) {
		for i, set := range sets {
			set(within(f, s, Rect{r.X + float64(i)*(wide+gap), r.Y, wide, math.MaxInt32}))
		}
	})
}

// Beside sets a picture of a size at the left and what set sets in the width that is left of it,
// both on one sheet.
func (f *Flow) Beside(wide, high, gap float64, picture func(s *Sheet, r Rect), set func(*Flow)) {
	rest := f.Width() - wide - gap
	f.Block(max(high, f.MeasureIn(rest, set)), func(s *Sheet, r Rect) {
		picture(s, Rect{r.X, r.Y, wide, high})
		set(within(f, s, Rect{r.X + wide + gap, r.Y, rest, math.MaxInt32}))
	})
}

// within is a flow of its own in an area of a sheet.
func within(f *Flow, s *Sheet, r Rect) *Flow {
	c := &Flow{Wide: f.Wide, Lead: f.Lead, Say: f.Say, Page: func(int) (*Sheet, Rect) { return s, r }}
	c.need(0)
	return c
}
