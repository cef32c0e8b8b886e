package joinery

import (
	"stowright/internal/geom"
	"stowright/internal/part"
)

// What hardware covers of the board that it is screwed to, and the head of a joining screw beside it;
// common practice, no source. A hinge's plate is taken with its wings and the arm over it.
const (
	plateHalf = 27 * mm // along its row of screws, either way from the middle
	plateSide = 30 * mm // across the row, either way
	slideEnd  = 45 * mm // a slide reaches past its first and last screw by at most so much
	slideHigh = 45 * mm // of a slide whose height is not known
	HeadHalf  = 6 * mm  // half a joining screw's head, and a little
	NoSlides  = -1 * mm
)

// Outlines gives what hinge plates and slides cover of one face of a board, as boxes through its
// thickness in the frame of its pose; high is the height of the slides, 0 where it is not known,
// NoSlides to leave them out.
func Outlines(p part.Part, face part.Face, high L) []geom.Box {
	if high == 0 {
		high = slideHigh
	}
	thick := p.Pose.W().Axis()
	through := func(b geom.Box) geom.Box {
		x := p.Box()
		b.Min, b.Max = b.Min.With(thick, x.Min.At(thick)), b.Max.With(thick, x.Max.At(thick))
		return b
	}
	var out []geom.Box
	rows := map[L]int{} // of slides, by height
	for _, o := range p.Ops {
		if o.Kind != part.Hole || o.Face != face {
			continue
		}
		at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
		switch o.For {
		case "hinge plate":
			// Each of its two screws is half a pitch from the middle: both together give the whole.
			b := geom.Box{Min: at, Max: at}
			b.Min, b.Max = b.Min.Add(geom.V(-plateSide, -plateSide, -plateHalf)), b.Max.Add(geom.V(plateSide, plateSide, plateHalf))
			for _, x := range p.Ops {
				q := p.Pose.Point(x.Face.Point(x.X, x.Y, p.Size))
				if d := q.Z - at.Z; x.For == o.For && x.Face == face && q.Y == at.Y && d != 0 && d.Abs() <= 2*plateHalf { // the other screw
					mid := (q.Z + at.Z) / 2
					b.Min.Z, b.Max.Z = mid-plateHalf, mid+plateHalf
				}
			}
			if b = through(b); len(out) == 0 || out[len(out)-1] != b {
				out = append(out, b)
			}
		case "slide":
			if high == NoSlides {
				continue
			}
			i, ok := rows[at.Z]
			if !ok {
				i = len(out)
				rows[at.Z] = i
				out = append(out, through(geom.Box{Min: at.With(2, at.Z-high/2), Max: at.With(2, at.Z+high/2)}))
			}
			out[i].Min.Y, out[i].Max.Y = min(out[i].Min.Y, at.Y-slideEnd), max(out[i].Max.Y, at.Y+slideEnd)
		}
	}
	return out
}

// Covered reports whether a round thing about a point of a face would lie under hardware there.
func Covered(p part.Part, face part.Face, at geom.Vec, half, high L) bool {
	at = at.With(p.Pose.W().Axis(), p.Box().Min.At(p.Pose.W().Axis()))
	spot := geom.Box{Min: at, Max: at}.Grow(half)
	for _, b := range Outlines(p, face, high) {
		if b.Meets(spot) {
			return true
		}
	}
	return false
}

// SlideHeight gives the height of the highest slide on a list of hardware, 0 for none.
func (s Shop) SlideHeight(list []part.Item) (high L) {
	for _, it := range list {
		if h, ok := s.Catalogue.Item(it.ID); ok && it.Kind == "slide" && it.Owner == s.Owner {
			high = max(high, h.Height)
		}
	}
	return high
}

// WithSlides is the box of a board and of the slides that are screwed to it, so high each.
func WithSlides(p part.Part, high L) geom.Box {
	box := p.Box()
	for _, o := range p.Ops {
		if o.For == "slide" {
			z := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)).Z
			box.Min.Z, box.Max.Z = min(box.Min.Z, z-high/2), max(box.Max.Z, z+high/2)
		}
	}
	return box
}
