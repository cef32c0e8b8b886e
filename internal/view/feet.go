package view

import (
	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
)

// footed gives a box of parts that reaches down to the lowest of the feet under them.
func (b Body) footed(x Box) Box {
	for _, f := range b.feet {
		x.Min.Z = min(x.Min.Z, f.At.Z-f.Height)
	}
	return x
}

// Levelled reports whether feet under an owner are set to different heights where it stands: its height over all is
// then no size of it.
func Levelled(a *part.Assembly, owner string) bool {
	least, most := L(-1), L(0)
	for _, f := range a.Feet {
		if f.Owner == owner && f.Height > 0 {
			if least < 0 || f.Height < least {
				least = f.Height
			}
			most = max(most, f.Height)
		}
	}
	return least >= 0 && most-least > length.MM/4
}

// uneven says the same of the owner of a body.
func (b Body) uneven() bool {
	return Levelled(&part.Assembly{Feet: b.feet}, b.Owner.ID)
}

// paintFeet draws feet, castors and shims as they are seen along an axis, 0 from the front and 1 from
// the right, as any maker's look: those that no part stands before.
func paintFeet(s *draw.Sheet, v draw.View, feet []part.Foot, parts []Part, right int) {
	const mm = length.MM
	was := s.Layer
	s.Layer = "Feet"
	defer func() { s.Layer = was }()
	for _, f := range feet {
		at, depth := f.At.At(right), 1-right
		z := f.At.Z - f.Height/2
		covered := false
		for _, p := range parts {
			b := p.Box()
			before := b.Min.At(depth) < f.At.At(depth)
			if right == 1 {
				before = b.Max.At(depth) > f.At.At(depth)
			}
			covered = covered || before && b.Min.At(right) <= at && at <= b.Max.At(right) && b.Min.Z < z && z < b.Max.Z
		}
		if covered || f.Height <= 0 {
			continue
		}
		box := func(line draw.Line, half, lo, hi L) { s.Rect(line, v.Rect(at-half, lo, at+half, hi)) }
		floor := f.At.Z - f.Height
		switch {
		case f.Kind == "castor" && f.Height > 20*mm:
			plate := f.Height / 8
			r := (f.Height - plate) * 2 / 5
			box(draw.Narrow, f.Height*2/5, f.At.Z-plate, f.At.Z)
			s.Circle(draw.Edge, v.At(at, floor+r), v.Scale.MM(r))
		case f.Kind == "foot" && f.Height > 16*mm:
			box(draw.Narrow, 5*mm, floor+8*mm, f.At.Z)
			box(draw.Edge, 18*mm, floor, floor+8*mm)
		default:
			box(draw.Narrow, 18*mm, floor, f.At.Z)
		}
	}
}
