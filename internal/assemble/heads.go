package assemble

import (
	"slices"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// What is screwed on over a frame that hangs at the wall goes over the heads of its wall screws, for which the frame is
// recessed: its own screws go beside them. Studs do not move, so these do.

// Common practice, no source.
const (
	headWood = 2 * length.MM            // wood that stays between a head's recess and another screw
	headEdge = 6 * length.MM            // and from an edge
	headStep = 5 * length.MM            // by which a screw moves along its board
	headEnd  = 15 * length.MM           // from the end of a board
	headWeb  = 12500 * length.MM / 1000 // between screws of a row, where there is room
)

// screwed is one screw across boards that lie one on another: its holes in them.
type screwed struct {
	at    geom.Vec
	parts []*part.Part
	ops   []part.Op
}

// offHeads moves the screws of an owner that go towards the wall, in the boards that are screwed to it, along the
// rearmost of their boards until they are clear of the heads of those into the wall and of what else is worked there; in the
// middle of it up or down where that does, so that a mirror image has it there too. One that finds no place stays.
func (w *work) offHeads(a *part.Assembly) {
	var heads []part.Fixing
	for _, f := range a.Fixings {
		if f.Kind == part.ToStud || f.Kind == part.ToWall {
			heads = append(heads, f)
		}
	}
	onHead := func(at geom.Vec, dia L) bool {
		return slices.ContainsFunc(heads, func(f part.Fixing) bool {
			h, _ := w.job.Catalogue.Item(f.Screw)
			half := max(joinery.HeadHalf, (h.Head+1)/2) + headWood + dia/2
			return (f.At.X-at.X).Abs() < half && (f.At.Z-at.Z).Abs() < half
		})
	}
	for _, s := range across(a) {
		dia := L(0)
		for _, o := range s.ops {
			dia = max(dia, o.Dia)
		}
		if !onHead(s.at, dia) {
			continue
		}
		rear := s.parts[0]
		for i, p := range s.parts {
			p.Ops = slices.DeleteFunc(p.Ops, func(o part.Op) bool { return o == s.ops[i] })
			if p.Box().Max.Y > rear.Box().Max.Y {
				rear = p
			}
		}
		run := 0
		if z := rear.Box().Size(); z.Z > z.X {
			run = 2
		}
		to := s.at
	search:
		for _, axis := range axes(s.at.At(run), (rear.Box().Min.At(run)+rear.Box().Max.At(run))/2) {
			if axis == 0 {
				axis = run
			}
			for _, web := range []L{headWeb, part.Web} {
				for d := headStep; d < rear.Box().Size().At(axis); d += headStep {
					for _, v := range toMiddle(s.at, rear.Box(), axis, d) {
						if !onHead(v, dia) && s.fits(v, axis, web) {
							to = v
							break search
						}
					}
				}
			}
		}
		for i, p := range s.parts {
			p.Ops = append(p.Ops, s.moved(i, to))
		}
	}
}

// across gives the screws of an owner that go towards the wall through boards which lie one on another.
func across(a *part.Assembly) (list []screwed) {
	for i := range a.Parts {
		p := &a.Parts[i]
		for _, o := range p.Ops {
			if o.Kind != part.Hole || o.For != string(part.WoodScrew) || p.Pose.Dir(o.Face.Normal()).Axis() != 1 {
				continue
			}
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)).With(1, 0)
			k := slices.IndexFunc(list, func(s screwed) bool { return s.at == at })
			if k < 0 {
				k, list = len(list), append(list, screwed{at: at})
			}
			list[k].parts, list[k].ops = append(list[k].parts, p), append(list[k].ops, o)
		}
	}
	return list
}

// toMiddle gives the two places that are so far from one along a board, that towards its middle first, so that a
// mirrored board is a true mirror.
func toMiddle(at geom.Vec, b geom.Box, run int, d L) [2]geom.Vec {
	v := at.At(run)
	if 2*v > b.Min.At(run)+b.Max.At(run) {
		d = -d
	}
	return [2]geom.Vec{at.With(run, v+d), at.With(run, v-d)}
}

// moved is its hole in one of its boards at another place.
func (s screwed) moved(i int, to geom.Vec) part.Op {
	o := s.ops[i]
	o.X, o.Y = s.parts[i].OnFace(o.Face, to)
	return o
}

// fits reports whether a place along a run is within all its boards, and clear by a web of what is worked in them.
func (s screwed) fits(to geom.Vec, run int, web L) bool {
	for i, p := range s.parts {
		b, end := p.Box(), headEnd
		if b.Size().At(run) < b.Size().At(2-run) { // across it
			end = headEdge
		}
		if to.At(run) < b.Min.At(run)+end || to.At(run) > b.Max.At(run)-end || !p.Clear(s.moved(i, to), web) {
			return false
		}
	}
	return true
}

// crossed reports whether a screw from outside into a side of a case would come nearer than that to one which a board of the
// case has in it from inside, through a pocket or through the side.
func (w *work) crossed(id string, outside geom.Dir, at geom.Vec, near L) bool {
	q, ok := w.side(id, outside)
	if !ok {
		return false
	}
	is := func(p part.Part, o part.Op) bool {
		v := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
		if o.Kind == part.Pocket { // it leaves its board in the middle of that's thickness
			axis := p.Pose.W().Axis()
			v = v.With(axis, (p.Box().Min.At(axis)+p.Box().Max.At(axis))/2)
		}
		return (v.Y-at.Y).Abs() < near && (v.Z-at.Z).Abs() < near
	}
	for _, i := range w.of[id] {
		p := w.all.Parts[i]
		for _, o := range p.Ops {
			if o.Kind == part.Pocket && p.Pose.Dir(o.Towards.Normal()) == outside && p.Box().Grow(length.MM).Meets(q.Box()) && is(p, o) ||
				o.Kind == part.Hole && p.Mark == q.Mark && o.Face <= part.Lower && is(p, o) {
				return true
			}
		}
	}
	return false
}
