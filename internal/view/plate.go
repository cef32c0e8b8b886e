package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/draw"
)

// Larger is a rectangle of a sheet that is drawn again larger, and the letter that both pictures of it have.
type Larger struct {
	Letter string
	Of     cutting.Rect
}

func (a Larger) says() string { return "detail " + a.Letter }

// Detail is what is drawn larger.
type Detail struct {
	*Drawn
	Letter string
	Turned bool // it lies, where the picture has it stand
}

// Title says which it is and how large.
func (d Detail) Title() string {
	t := fmt.Sprintf("Detail %s, %s", d.Letter, d.Scale)
	if d.Turned {
		t += ", its top at the left"
	}
	return t
}

// Plate is all that is drawn of a sheet: its picture, and larger what would be crowded in that.
type Plate struct {
	*Drawn
	Details []Detail
	Keys    Keys
	Bare    []int // cuts without a ring
	Lost    []int // pieces with neither a name nor a letter
}

// Told is the number of letters and figures in what is drawn.
func (p *Plate) Told() (n int) {
	count := func(d *Drawn) {
		for _, it := range d.items {
			if t, ok := it.(*draw.Text); ok {
				n += len(strings.ReplaceAll(t.Text, " ", ""))
			}
		}
	}
	count(p.Drawn)
	for _, d := range p.Details {
		count(d.Drawn)
	}
	return n
}

// Faults is how much it does not show.
func (p *Plate) Faults() int { return len(p.Bare) + len(p.Lost) }

// Plate draws a sheet at a scale, and what would be crowded in its picture again larger, where it is given a width for that.
func (l *Laid) Plate(c draw.Scale, wide float64) *Plate {
	p := &Plate{}
	was, ok := l.plain[c]
	if !ok {
		was.Drawn = l.Draw(c, &was.keys, nil)
		if l.plain == nil {
			l.plain = map[draw.Scale]plainDrawn{}
		}
		l.plain[c] = was
	}
	p.Drawn, p.Keys = was.Drawn, was.keys
	p.Bare, p.Lost = p.Uncircled, p.Nameless
	if p.Faults() == 0 || wide == 0 {
		return p
	}
	apart := l.crowded(c, p.Drawn, wide)
	if len(apart) == 0 {
		return p
	}
	q := &Plate{}
	q.Drawn = l.Draw(c, &q.Keys, apart)
	q.Bare, q.Lost = slices.Clone(q.Uncircled), slices.Clone(q.Nameless)
	for _, a := range apart {
		d := l.detail(a, c, wide, &q.Keys)
		q.Details = append(q.Details, d)
		q.Bare, q.Lost = append(q.Bare, d.Uncircled...), append(q.Lost, d.Nameless...)
	}
	slices.Sort(q.Bare)
	if q.Faults() >= p.Faults() {
		return p
	}
	return q
}

// detailScales are those of details, the smallest first.
var detailScales = []int{20, 16, 14, 12, 10, 8, 6, 5, 4}

// Of details, on paper:
const (
	detailLarger = 1.25 // times at least
	detailHigh   = 48.0 // mm at most
	detailMost   = 4    // of one sheet
)

// detailScale gives the largest scale at which a rectangle stands in a width, lying.
func detailScale(of cutting.Rect, c draw.Scale, wide float64) (list []draw.Scale) {
	for _, real := range detailScales {
		d := draw.Scale{Paper: 1, Real: real}
		if d.MM(max(of.L, of.W))+2*BesideSheet <= wide && d.MM(min(of.L, of.W)) <= detailHigh && float64(c.Real) >= detailLarger*float64(real) {
			list = append(list, d)
		}
	}
	return list
}

// crowded finds the pieces of a sheet, as they come from a cut, that have what found no room in its picture.
func (l *Laid) crowded(c draw.Scale, d *Drawn, wide float64) []Larger {
	var wants []cutting.Rect
	for i, p := range l.Sheet.Pieces {
		if slices.Contains(d.Nameless, l.pieces[i]) {
			wants = append(wants, p.Rect)
		}
	}
	for i, k := range l.number {
		if k > 0 && slices.Contains(d.Uncircled, k) {
			wants = append(wants, l.Sheet.Cuts[i].Of)
		}
	}
	sheet := cutting.Rect{L: l.Sheet.L, W: l.Sheet.W}
	var out []cutting.Rect
	for _, w := range wants {
		if slices.ContainsFunc(out, func(r cutting.Rect) bool { return lies(r, w) }) {
			continue
		}
		var best cutting.Rect
		for i, x := range l.Sheet.Cuts {
			if l.number[i] > 0 && lies(x.Of, w) && x.Of.Area() > best.Area() && 2*x.Of.Area() < sheet.Area() && len(detailScale(x.Of, c, wide)) > 0 {
				best = x.Of
			}
		}
		if best.Area() > 0 {
			out = slices.DeleteFunc(out, func(r cutting.Rect) bool { return lies(best, r) })
			out = append(out, best)
		}
	}
	if len(out) > detailMost {
		return nil
	}
	slices.SortFunc(out, func(a, b cutting.Rect) int { return cmp.Or(cmp.Compare(b.Y, a.Y), cmp.Compare(a.X, b.X)) })
	var list []Larger
	for i, r := range out {
		list = append(list, Larger{string("XYZW"[i]), r})
	}
	return list
}

// detail draws a rectangle of a sheet larger: so large that all of it is told, and no larger, where that can be.
func (l *Laid) detail(a Larger, c draw.Scale, wide float64, keys *Keys) Detail {
	part := l.Part(a.Of)
	turned := a.Of.W > a.Of.L
	if turned {
		part = part.OnEnd()
	}
	var best Detail
	var with Keys
	for _, scale := range detailScale(a.Of, c, wide) {
		own := keys.clone()
		d := Detail{part.Draw(scale, &own, nil), a.Letter, turned}
		if best.Drawn == nil || len(d.Nameless)+len(d.Uncircled) <= len(best.Nameless)+len(best.Uncircled) {
			best, with = d, own
		}
		if len(d.Nameless)+len(d.Uncircled) == 0 {
			break
		}
	}
	*keys = with
	return best
}
