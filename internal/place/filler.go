package place

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
)

// end is a run as laid, kept until all are seated: where a filler in a corner ends depends on the
// run round it.
type end struct {
	run         job.Named[job.Run]
	wall        *Wall
	lo, hi      L
	rear, level L
}

// corner gives where a filler ends that closes the corner at an end of a wall, beside a case of
// whose run it is: at the plane of the carcasses round the corner, or, where they go on behind it,
// at that of their fronts. Where both runs have a filler there, the one that comes first passes
// behind the end of the other, by its thickness.
func (l *layout) corner(w *Wall, side string, beside *Seat) (at L, ok bool) {
	k, far := 0, "right"
	if side == "right" {
		k, far = 1, "left"
	}
	o := l.room.Wall(w.Corner(k))
	if o == nil || !w.Frame.Square() || !o.Frame.Square() {
		return 0, false
	}
	var near *Seat
	gap := func(s *Seat) L {
		if far == "right" {
			return o.Length - s.Box.Max.X
		}
		return s.Box.Min.X
	}
	up := w.datumZ() - o.datumZ()
	for _, s := range l.room.At(o.ID) {
		if s.Kind == Case && s.Hung == beside.Hung && !s.Moves && s.Box.Min.Z < beside.Box.Max.Z+up && s.Box.Max.Z > beside.Box.Min.Z+up && (near == nil || gap(s) < gap(near)) {
			near = s
		}
	}
	if near == nil {
		return 0, false
	}
	plane := near.Box.Min.Y
	if gap(near) >= -beside.Box.Min.Y { // it leaves the corner open
		plane += l.frontOf(near)
		first := !slices.ContainsFunc(l.room.Seats, func(s Seat) bool { return s.Kind == Filler && s.On == near.ID && strings.HasSuffix(s.ID, far) })
		for _, n := range l.job.Runs {
			if f := n.Value.Fill; n.ID == near.Run && (f == far || f == "both") && first {
				b, _ := l.job.Catalogue.Board(cmp.Or(l.job.Practice.FrontBoard, l.job.Practice.Case))
				plane += b.Thickness
			}
		}
	}
	p := Vec{Y: plane}
	if far == "right" {
		p.X = o.Length
	}
	return w.Frame.Back(Box{Min: o.Frame.Point(p), Max: o.Frame.Point(p)}).Min.X, true
}

// fill gives the fillers between a run's ends and the walls.
func (l *layout) fill(e end) {
	n, w, lo, hi, rear, level := e.run, e.wall, e.lo, e.hi, e.rear, e.level
	r := n.Value
	if r.Fill == "" || r.Fill == "none" {
		return
	}
	var first, last *Seat
	for _, s := range l.room.At(w.ID) {
		if s.Run == n.ID && s.Kind == Case {
			if first == nil || s.Box.Min.X < first.Box.Min.X {
				first = s
			}
			if last == nil || s.Box.Max.X > last.Box.Max.X {
				last = s
			}
		}
	}
	if first == nil {
		return
	}
	from, to := L(0), w.Length
	if r.From == "between" {
		if r.Start != nil {
			from = *r.Start
		}
		if r.To != nil {
			to = *r.To
		}
	}
	most := 3 * length.Inch
	if r.Filler != nil {
		most = *r.Filler
	}
	one := func(side string, beside *Seat, a, b L, butts bool) {
		wide := b - a
		switch {
		case wide <= 0:
			return
		case wide > most:
			hint := "There is none, and the gap stays open. Shift the run, widen a case, or let a wider filler be made with filler:."
			end := 0
			if side == "right" {
				end = 1
			}
			if o := l.room.Wall(w.Corner(end)); o != nil && !(w.Frame.Square() && o.Frame.Square()) {
				hint += " Between two runs in a corner that is not square a filler is scribed by hand, when both stand."
			}
			l.found.Add(finding.Finding{Code: FillerWide, Severity: finding.Warning, At: "run/" + n.ID, Source: "common practice, no source",
				Text: fmt.Sprintf("The filler at the %s end of run %s would be %s wide; %s is the widest wanted.", side, n.ID, l.in(wide), l.in(most)),
				Hint: hint})
			return
		}
		front := beside.Box.Min.Y
		l.room.Seats = append(l.room.Seats, Seat{ID: n.ID + "-filler-" + side, Kind: Filler, Name: side + " filler", Wall: w.ID, Run: n.ID, Stage: beside.Stage,
			Box: geom.B(a, front, beside.Box.Min.Z, b, rear, beside.Top), Level: level, Top: beside.Top, Rear: rear, Hung: beside.Hung, On: beside.ID, Butts: butts})
	}
	a, b2 := *first, *last
	var meets [2]bool
	if at, ok := l.corner(w, "left", &a); ok && r.From != "between" {
		from, meets[0] = at, true
	}
	if at, ok := l.corner(w, "right", &b2); ok && r.From != "between" {
		to, meets[1] = at, true
	}
	// Where a wall meets this one at another angle than a right one, the filler ends at it where it stands.
	for end, m := range meets {
		if m || r.From == "between" {
			continue
		}
		b, _ := l.job.Catalogue.Board(cmp.Or(l.job.Practice.FrontBoard, l.job.Practice.Case))
		seat := [2]Seat{a, b2}[end]
		into := max(l.room.Into(w, end, -seat.Box.Min.Y), l.room.Into(w, end, -seat.Box.Min.Y-l.frontOf(&seat)-b.Thickness))
		if end == 0 {
			from += into
		} else {
			to -= into
		}
	}
	if r.Fill == "left" || r.Fill == "both" {
		one("left", &a, from, lo, meets[0])
	}
	if r.Fill == "right" || r.Fill == "both" {
		one("right", &b2, hi, to, meets[1])
	}
}
