package assemble

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
)

// What a screw from a case up into its counter keeps from the edges of both boards, and two such screws
// from each other; common practice, no source.
const (
	upEdge  = 12 * length.MM
	upApart = 60 * length.MM
	upHead  = 15 * length.MM // and from the head of a screw in the counter
)

// landCounters moves the screws that hold counters to where a board of the case and wood of the counter lie
// on each other, nearest to where they are wanted: one into the hollow between blocking holds nothing.
func (w *work) landCounters() {
	var kept []part.Fixing
	lost := map[[2]string]int{}
	landed := map[[2]string][]geom.Vec{}
	heads := map[string][]geom.Vec{}
	for _, f := range w.all.Fixings {
		s := w.room.Seat(f.Owner)
		if s == nil || s.Kind != place.Counter || f.Kind != part.ToCase || f.Row != "counter" {
			kept = append(kept, f)
			continue
		}
		k := [2]string{f.Owner, f.Stud}
		spots, known := w.seats(f)
		if heads[f.Owner] == nil {
			heads[f.Owner] = w.headsUnder(f.Owner)
		}
		at, ok := nearest(spots, f.At, landed[k], heads[f.Owner])
		if known && !ok {
			lost[k]++
			continue
		}
		if known {
			f.At = at
			landed[k] = append(landed[k], at)
		}
		kept = append(kept, f)
	}
	w.all.Fixings = kept
	for _, s := range w.room.Seats {
		for _, p := range s.Pieces {
			n := lost[[2]string{s.ID, p.ID}]
			if n == 0 {
				continue
			}
			i := slices.IndexFunc(w.all.Hardware, func(h part.Item) bool {
				return h.Owner == s.ID && h.For == "counter to cases, from below" && h.Count > 0
			})
			for ; i >= 0 && n > 0; n-- {
				w.all.Hardware = slices.Delete(w.all.Hardware, i, i+1)
				i = slices.IndexFunc(w.all.Hardware, func(h part.Item) bool {
					return h.Owner == s.ID && h.For == "counter to cases, from below" && h.Count > 0
				})
			}
			w.found.Add(finding.Finding{Code: CounterHollow, Severity: finding.Warning, At: "counter/" + s.ID, Source: "common practice, no source",
				Text: fmt.Sprintf("%s and %s lie on each other with wood on wood in too few places: %d of the screws between them have none.", s.Name, w.room.Seat(p.ID).Name, lost[[2]string{s.ID, p.ID}]),
				Hint: "Widen the blocking, or put a strip of it over each stretcher."})
		}
	}
}

// seats gives where a board of a case lies under wood of a counter, edges left off; false where the case
// has no parts, because it stands already.
func (w *work) seats(f part.Fixing) (list []geom.Box, known bool) {
	for _, p := range w.all.Parts {
		if p.Owner != f.Stud {
			continue
		}
		known = true
		if b := p.Box(); (p.Role != part.Stretcher && p.Role != part.Top) || (b.Max.Z-f.At.Z).Abs() > length.MM/10 {
			continue
		}
		for _, q := range w.all.Parts {
			if q.Owner != f.Owner || q.Role != part.Blocking && q.Role != part.CounterLayer || (q.Box().Min.Z-f.At.Z).Abs() > length.MM/10 {
				continue
			}
			a, b := p.Box(), q.Box()
			c := geom.B(max(a.Min.X, b.Min.X)+upEdge, max(a.Min.Y, b.Min.Y)+upEdge, f.At.Z, min(a.Max.X, b.Max.X)-upEdge, min(a.Max.Y, b.Max.Y)-upEdge, f.At.Z)
			if c.Max.X >= c.Min.X && c.Max.Y >= c.Min.Y {
				list = append(list, c)
			}
		}
	}
	return list, known
}

// headsUnder gives where the screws of a counter's own boards are, whose heads are in the face that lies on cases.
func (w *work) headsUnder(owner string) (list []geom.Vec) {
	for _, j := range w.all.Joints {
		a, b := w.all.Parts[w.marks[j.A]], w.all.Parts[w.marks[j.B]]
		if a.Owner != owner || j.Fastener == "" || joinery.Thin(j.Contact) != 2 || joinery.Bored(a, b, j) {
			continue
		}
		h, _ := w.job.Catalogue.Item(j.Fastener)
		list = append(list, joinery.Spots(a, b, j, h.Length, w.job.Print == length.Inches).At...)
	}
	return list
}

// nearest gives the place in one of several boxes that is nearest to a point, not beside those taken and clear of
// the heads of other screws.
func nearest(spots []geom.Box, at geom.Vec, taken, heads []geom.Vec) (best geom.Vec, ok bool) {
	far := func(v geom.Vec) length.Length { return (v.X - at.X).Abs() + (v.Y - at.Y).Abs() }
	for _, c := range spots {
		in := geom.V(min(max(at.X, c.Min.X), c.Max.X), min(max(at.Y, c.Min.Y), c.Max.Y), at.Z)
		list := []geom.Vec{in, in.With(0, c.Min.X), in.With(0, c.Max.X), in.With(1, c.Min.Y), in.With(1, c.Max.Y)}
		for _, d := range []length.Length{upHead, -upHead, 2 * upHead, -2 * upHead} {
			list = append(list, in.With(0, min(max(in.X+d, c.Min.X), c.Max.X)), in.With(1, min(max(in.Y+d, c.Min.Y), c.Max.Y)))
		}
		for _, v := range list {
			if slices.ContainsFunc(heads, func(h geom.Vec) bool { return (h.X-v.X).Abs() < upHead && (h.Y-v.Y).Abs() < upHead }) {
				continue
			}
			if slices.ContainsFunc(taken, func(t geom.Vec) bool { return (t.X-v.X).Abs() < upApart && (t.Y-v.Y).Abs() < upApart }) {
				continue
			}
			if !ok || far(v) < far(best) {
				best, ok = v, true
			}
		}
	}
	return best, ok
}
