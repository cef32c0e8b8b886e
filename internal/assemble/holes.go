package assemble

import (
	"cmp"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/stock"
)

// Holes for what joins two that stand side by side. Wood
// that is left beside other holes, and room for a driver beside what is inside; common practice,
// no source.
const (
	joinWeb   = 3 * length.MM
	joinRoom  = 10 * length.MM
	joinStep  = 10 * length.MM
	joinReach = 160 * length.MM
)

// once adds a finding that says what none has said.
func (w *work) once(f finding.Finding) {
	if !slices.ContainsFunc(w.found, func(g finding.Finding) bool { return g.Code == f.Code && g.At == f.At && g.Text == f.Text }) {
		w.found.Add(f)
	}
}

// inJob gives the part of a mark.
func (w *work) inJob(mark string) *part.Part {
	if i, ok := w.marks[mark]; ok {
		return &w.all.Parts[i]
	}
	return nil
}

// boreJoining bores one hole through a side, from inside, and the hole behind it in the side of
// its neighbour (nil for one that stands already): as near to a point as other holes and what is
// fixed inside leave it clear, inwards. It gives the place.
func (w *work) boreJoining(p, q *part.Part, d geom.Dir, screw stock.Hardware, at geom.Vec, in geom.Vec) (geom.Vec, bool) {
	shop := joinery.Shop{Practice: w.job.Practice, Catalogue: w.job.Catalogue, Owner: p.Owner}
	tool, wide, ok := shop.Over(cmp.Or(screw.Clearance, screw.Dia))
	ptool, pilot, ok2 := tool, wide, ok
	deep, use := p.Size[2], part.JoiningBolt
	if screw.Kind != "bolt" {
		use = part.JoiningScrew
		tool, wide, ok = shop.Pilot(cmp.Or(screw.Clearance, screw.Dia))
		ptool, pilot, ok2 = shop.Pilot(cmp.Or(screw.Pilot, screw.Root, 3*length.MM))
	}
	if !ok || !ok2 {
		need := tool
		if ok {
			need = ptool
		}
		w.once(finding.Finding{Code: joinery.NoBit, Severity: finding.Warning, At: w.at(p.Owner), Source: "the practice", Text: "no " + need + " for " + use + "s is owned", Hint: "Add it to the practice's bits."})
	}
	through := screw.Kind == "bolt"
	theirs := L(0)
	if q != nil {
		if theirs = joinery.Blind(q.Size[2], q.Size[2], 5*length.MM); through {
			theirs = q.Size[2]
		}
		if theirs == 0 {
			w.once(joinery.Shop{Practice: w.job.Practice, Catalogue: w.job.Catalogue, Owner: q.Owner}.Thin(part.JoiningScrew, q.Size[2]))
			return at, false
		}
	}
	for off := L(0); off <= joinReach; off += joinStep {
		for _, v := range []geom.Vec{{Z: off * in.Z}, {Y: off * in.Y}, {Y: off * in.Y, Z: off * in.Z}} {
			s := at.Add(v)
			if !w.clearInside(p, d, s, wide) || q != nil && !w.clearInside(q, d.Not(), s, pilot) {
				continue
			}
			if w.covered(p, d, s) || q != nil && through && w.covered(q, d.Not(), s) {
				continue
			}
			p.Bore(part.Hole, p.Facing(d.Not()), s, wide, deep, tool, use)
			if q != nil {
				q.Bore(part.Hole, q.Facing(d.Not()), s, pilot, theirs, ptool, use)
			}
			return s, true
		}
	}
	return at, false
}

// spot is where a joining screw is wanted, and which way it moves where its place is taken.
type spot struct{ at, in geom.Vec }

// row gives where the screws that join a case to a neighbour are wanted in its side towards that: a pair low and a pair
// high, one behind the front edge and one before the back, and a third pair between in one over 36 in high.
func (w *work) row(s *place.Seat, p *part.Part, d geom.Dir) (list []spot) {
	i := slices.IndexFunc(w.all.Owners, func(o part.Owner) bool { return o.ID == s.ID })
	if i < 0 {
		return nil
	}
	o := w.all.Owners[i]
	foot := o.Hollow.Min.Z - p.Size[2] // the lower edge of its bottom
	zs := []L{foot + s.Row.Low, o.Carcass.Max.Z - s.Row.High}
	if o.Carcass.Max.Z-foot > joinTall {
		zs = append(zs, (zs[0]+zs[1])/2)
	}
	inwards := func(v, lo, hi L) L {
		if 2*v > lo+hi {
			return -1
		}
		return 1
	}
	box := p.Box()
	x := box.Min.X // inside it, where the heads are
	if d == geom.Left {
		x = box.Max.X
	}
	for _, z := range zs {
		for _, y := range []L{o.Hollow.Min.Y + s.Row.Front, o.Hollow.Max.Y - s.Row.Rear} {
			list = append(list, spot{geom.V(x, y, z), geom.V(0, inwards(y, o.Hollow.Min.Y, o.Hollow.Max.Y), inwards(z, box.Min.Z, box.Max.Z))})
		}
	}
	return list
}

// covered reports whether the head of a screw on the inside of a side would lie under hardware.
func (w *work) covered(p *part.Part, outside geom.Dir, at geom.Vec) bool {
	return joinery.Covered(*p, p.Facing(outside.Not()), at, joinery.HeadHalf, w.slides[p.Owner])
}

// clearInside reports whether a hole through a side at a point is clear of what is worked in it,
// of slides, and of the boards that are fixed to its inside.
func (w *work) clearInside(p *part.Part, outside geom.Dir, at geom.Vec, dia L) bool {
	u, v := p.OnFace(part.Upper, at)
	if u < 2*dia || v < 2*dia || u > p.Size[0]-2*dia || v > p.Size[1]-2*dia {
		return false
	}
	for _, o := range p.Ops {
		if o.Face > part.Lower {
			continue
		}
		switch o.Kind {
		case part.Hole, part.Cup, part.Countersink:
			r := (dia+o.Dia)/2 + joinWeb
			if du, dv := (o.X - u).Abs(), (o.Y - v).Abs(); du < r && dv < r {
				return false
			}
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			if u+dia > o.X && u-dia < o.X+o.L && v+dia > o.Y && v-dia < o.Y+o.W {
				return false
			}
		}
	}
	face := p.Box().Min.X
	if outside == geom.Left {
		face = p.Box().Max.X
	}
	room := geom.Box{Min: at.With(0, face), Max: at.With(0, face)}.Grow(joinRoom)
	high := w.slides[p.Owner]
	for _, i := range w.of[p.Owner] {
		if o := &w.all.Parts[i]; o.Mark != p.Mark && o.Moves == "" && !o.Removable && o.Role != part.BackPanel && joinery.WithSlides(*o, high).Meets(room) {
			return false
		}
	}
	return true
}
