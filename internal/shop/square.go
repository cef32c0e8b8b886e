package shop

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// diagonal gives the diagonal of a by b to the nearest half millimetre.
func diagonal(a, b length.Length) length.Length {
	half := length.MM / 2
	return length.Length(math.Round(math.Hypot(float64(a), float64(b))/float64(half))) * half
}

// square checks the carcass.
func (w *maker) square(from int) {
	c := w.owner.Carcass.Size()
	d := diagonal(c.X, c.Z)
	where := "at the front and at the rear"
	switch front, rear := w.notched(); {
	case front && rear:
		where = "hold a square into the corners that are notched, and measure to it"
	case rear:
		where = "at the front; at the rear corners are notched"
	case front:
		where = "at the rear; at the front corners are notched"
	}
	text := fmt.Sprintf("square it before the glue sets. Both diagonals of the face, %s by %s, should read %s (%s); they may differ by %s at most (common practice). Push the longer one in by half of the difference", w.in(c.X), w.in(c.Z), w.in(d), where, w.coarse(3*length.MM/2, length.Inch/16))
	// A back that is screwed on holds the case as it is: it goes on when that is square. So does a panel on its side, which
	// may come before the back.
	for i := from; i < len(w.list); i++ {
		if panel, more := w.comes(i, part.EndPanel), w.comesAfter(i, part.BackPanel); panel && more {
			n := len(w.list)
			w.step(Step{Tool: "tape", Text: text + ", and keep it so until the back is in."})
			w.list = slices.Insert(w.list[:n], i, w.list[n])
			return
		}
		for _, m := range w.list[i].New {
			if w.parts[m].Role != part.BackPanel || !slices.ContainsFunc(w.own.Joints, func(j part.Joint) bool { return (j.A == m || j.B == m) && j.Count > 0 }) {
				continue
			}
			n := len(w.list)
			w.step(Step{Tool: "tape", Text: text + ", and keep it so until the back is screwed on."})
			w.list = slices.Insert(w.list[:n], i, w.list[n])
			return
		}
	}
	// Else when the last board that keeps it square is in: blocks, packing and panels come when the glue has set.
	last := from - 1
	for i := from; i < len(w.list); i++ {
		if slices.ContainsFunc(w.list[i].New, func(m string) bool { return keepsSquare(w.parts[m].Role) }) {
			last = i
		}
	}
	n := len(w.list)
	w.step(Step{Tool: "tape", Text: text + "."})
	w.list = slices.Insert(w.list[:n], last+1, w.list[n])
}

// comes reports whether a board of a role comes in with a step of the list.
func (w *maker) comes(i int, r part.Role) bool {
	return slices.ContainsFunc(w.list[i].New, func(m string) bool { return w.parts[m].Role == r })
}

// comesAfter reports whether one does with a later step.
func (w *maker) comesAfter(i int, r part.Role) bool {
	for i++; i < len(w.list); i++ {
		if w.comes(i, r) {
			return true
		}
	}
	return false
}

// squareFrame checks a frame that is no case: of a bench, of a hook board, of a base.
func (w *maker) squareFrame(from int, parts []part.Part) {
	var box geom.Box
	in, legs := map[string]bool{}, false
	for _, p := range parts {
		upright := p.Role == part.Frame && slices.ContainsFunc(parts, func(q part.Part) bool { // a brace is on uprights, not on rails
			return q.Role == part.HangRail && joined(w.own.Joints, p.Mark, q.Mark)
		})
		if p.Role == part.Leg || p.Role == part.Rail && legs || p.Role == part.HangRail || upright || p.Role == part.BaseRail || p.Role == part.BaseRung {
			in[p.Mark], legs = true, legs || p.Role == part.Leg
			box = box.Or(p.Box())
		}
	}
	last := -1
	for i := from; i < len(w.list); i++ {
		if slices.ContainsFunc(w.list[i].New, func(m string) bool { return in[m] || legs && w.parts[m].Role == part.Rail }) {
			last = i
		}
	}
	if last < 0 || len(in) < 3 {
		return
	}
	c := box.Size()
	told := func(a, b length.Length, where string) string {
		return fmt.Sprintf("%s (%s, %s by %s)", w.in(diagonal(a, b)), where, w.in(a), w.in(b))
	}
	what, read := "the frame", told(c.X, c.Z, "its face")
	switch {
	case legs:
		read = told(c.X, c.Z, "at the rear") + " and " + told(c.X, c.Y, "across its upper ends")
	case w.owner.Kind == "base":
		what, read = "it", told(c.X, c.Y, "from above")
	}
	n := len(w.list)
	w.step(Step{Tool: "tape", Text: fmt.Sprintf("square %s before the glue sets, on a flat floor: both diagonals from corner to corner should read %s; they may differ by %s at most (common practice). Push the longer one in by half of the difference.", what, read, w.coarse(3*length.MM/2, length.Inch/16))})
	w.list = slices.Insert(w.list[:n], last+1, w.list[n])
}

// keepsSquare reports whether boards of a role are what a case is put together of, and not what is put into it
// and on to it.
func keepsSquare(r part.Role) bool {
	switch r {
	case part.Side, part.Bottom, part.Top, part.Partition, part.FixedShelf, part.Stretcher, part.HangRail, part.Cleat, part.ToeBoard, part.BackPanel:
		return true
	}
	return false
}

// notched reports whether the corners of a case are cut away at the front and at the rear.
func (w *maker) notched() (front, rear bool) {
	c := w.owner.Carcass
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Role != part.Side {
			continue
		}
		for _, o := range p.Ops {
			if o.Kind != part.Notch {
				continue
			}
			gone := p.Pose.Box(o.Removed(p.Size))
			if gone.Min.Z > p.Box().Min.Z && gone.Max.Z < p.Box().Max.Z {
				continue // in the middle of an edge
			}
			front = front || gone.Min.Y <= p.Box().Min.Y
			rear = rear || gone.Max.Y >= min(p.Box().Max.Y, c.Max.Y)
		}
	}
	return front, rear
}

// coarse prints a rule of thumb in the job's unit.
func (s *steps) coarse(mm, in length.Length) string { return s.step(mm, in).In(s.Print) }

// step is the one or the other.
func (s *steps) step(mm, in length.Length) length.Length {
	if s.Print == length.Inches {
		return in
	}
	return mm
}
