package place

import (
	"cmp"
	"slices"

	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/order"
)

// Stud is an upright in a wall that takes screws.
type Stud struct {
	ID      string // "stud 3", counted from the left
	At      L      // its centre
	Width   L      // of its face
	Depth   L      // into the wall, 0 when not known
	Species string
	Framing string // opening that it frames, "" for none
	Top     L      // of a trimmer: it ends under the header at the opening's head; 0 for one that goes all the way up
}

// Header spans over an opening and takes a screw anywhere on it.
type Header struct {
	ID          string
	Opening     string // that it spans
	From, To    L      // over the trimmers that it lies on
	Bottom, Top L
	Depth       L // 0 when not known
	Species     string
}

// EdgeCover is the least wood between a screw's centre line and the edge of a stud: 1.5 D of a
// screw of 1/4 in (NDS 2018 Table 12.5.1C, from memory).
const EdgeCover = 3 * length.Inch / 8

// usualStud is the face width of a stud whose width the survey does not give: a dressed 2-by
// (PS 20-20, Table 3: nominal 2 is 1-1/2 in dry).
const usualStud = 3 * length.Inch / 2

// surveyStuds finds the studs: by spacing less those said to be missing, those listed, and
// those that frame openings. None stands inside an opening. One by spacing that would run
// into a listed or framing stud is that stud.
func (w *Wall) surveyStuds(s job.Wall, x func(L) L) {
	if s.Studs == nil {
		return
	}
	st := s.Studs
	width, depth := L(usualStud), L(0)
	if st.Width != nil {
		width = *st.Width
	}
	if st.Depth != nil {
		depth = *st.Depth
	}
	add := func(at L, framing string, top L) {
		if at < 0 || at > w.Length {
			return
		}
		for _, o := range w.Openings {
			if framing == "" && o.Box.Min.X < at+width/2 && at-width/2 < o.Box.Max.X { // not even in part
				return
			}
		}
		for _, o := range w.Studs {
			if (o.At - at).Abs() < width {
				return
			}
		}
		w.Studs = append(w.Studs, Stud{At: at, Width: width, Depth: depth, Species: st.Species, Framing: framing, Top: top})
	}
	for _, o := range w.Openings {
		trimmers := o.trimmers()
		for _, at := range o.framing {
			top := L(0)
			if slices.Contains(trimmers, at) && o.Box.Max.Z < Far {
				top = o.Box.Max.Z
				for i := range w.Headers { // which lies on it
					if h := &w.Headers[i]; h.Opening == o.ID {
						h.From, h.To = min(h.From, at-width/2), max(h.To, at+width/2)
					}
				}
			}
			add(at, o.ID, top)
		}
	}
	for _, at := range st.Listed {
		add(x(at), "", 0)
	}
	if st.First != nil && st.Spacing != nil && *st.Spacing > 0 && w.Length / *st.Spacing < 10_000 {
		for at := *st.First; at <= w.Length; at += *st.Spacing {
			gone := slices.ContainsFunc(st.Missing, func(m L) bool { return (m - at).Abs() < width })
			if !gone {
				add(x(at), "", 0)
			}
		}
	}
	w.StudsKnown = len(w.Studs) > 0
	order.Stable(w.Studs, func(a, b Stud) int { return cmp.Compare(a.At, b.At) })
	for i := range w.Studs {
		w.Studs[i].ID = "stud " + itoa(i+1)
	}
}

// trimmers gives the framing studs that carry the header and end under it: where two or more
// frame one side, all but the outermost, the king stud, which alone goes all the way up (IRC
// 2021, Table R602.7(1) and R602.7.5: jack studs under the header, full-height studs beside
// them; from memory). One alone at a side is taken for the king stud.
func (o Opening) trimmers() []L {
	var sides [2][]L
	for _, at := range o.framing {
		k := 0
		if at > o.Box.Min.X {
			k = 1
		}
		sides[k] = append(sides[k], at)
	}
	order.Up(sides[0])
	order.Up(sides[1])
	var r []L
	if n := len(sides[0]); n > 1 {
		r = append(r, sides[0][1:]...)
	}
	if n := len(sides[1]); n > 1 {
		r = append(r, sides[1][:n-1]...)
	}
	return r
}

// Hold is a place where a screw finds wood.
type Hold struct {
	X       L
	ID      string // of the stud or header
	Depth   L      // wood there, 0 when not known
	Group   int    // holds in studs that touch each other share a group
	Species string
}

// endEase is how much further than a span's ends a screw keeps where its stud lets it: 5 mm past the least that a rail
// is bored at makes the 25 mm that are advised (strength, wall-screw-edge), as long as EdgeCover and edgeEase are left to
// the stud's edge, which makes the two and a half diameters of 5 mm that are advised there.
const (
	endEase  = 5 * length.MM
	edgeEase = 7 * length.MM / 2
)

// Holds gives the places within x0..x1 at height z where a screw finds wood with EdgeCover on
// both sides: the centre of a stud, or as near to it as the span lets. A header takes a
// screw at both ends and no further apart than pitch.
func (w *Wall) Holds(x0, x1, z, pitch L) []Hold {
	var r []Hold
	group := 0
	var last L
	for i, s := range w.Studs {
		half := s.Width/2 - EdgeCover
		lo, hi := max(x0, s.At-half), min(x1, s.At+half)
		if half < 0 || lo > hi || s.Top > 0 && z+EdgeCover > s.Top {
			continue
		}
		if i > 0 && s.At-last > s.Width+length.MM {
			group++
		}
		last = s.At
		x := min(max(s.At, lo), hi)
		if x1-x0 > 2*endEase { // further from the ends of the span where the stud is wide enough
			x = max(x, min(x0+endEase, s.At+half-edgeEase))
			x = min(x, max(x1-endEase, s.At-half+edgeEase))
		}
		r = append(r, Hold{X: x, ID: s.ID, Depth: s.Depth, Group: group, Species: s.Species})
	}
	for _, h := range w.Headers {
		lo, hi := max(x0, h.From+EdgeCover), min(x1, h.To-EdgeCover)
		if z-EdgeCover < h.Bottom || z+EdgeCover > h.Top || lo > hi {
			continue
		}
		n := 1
		if hi > lo {
			n = 1 + int((hi - lo).DivUp(int64(pitch)))
		}
		for i := range n {
			at := lo
			if n > 1 {
				at += (hi - lo).MulDiv(int64(i), int64(n-1))
			}
			near := slices.ContainsFunc(r, func(o Hold) bool { return (o.X - at).Abs() < 2*EdgeCover })
			if !near {
				group++
				r = append(r, Hold{X: at, ID: h.ID, Depth: h.Depth, Group: group, Species: h.Species})
			}
		}
	}
	order.Stable(r, func(a, b Hold) int { return cmp.Compare(a.X, b.X) })
	return r
}

// Groups counts the places among holds that are apart from each other: a king stud and its
// trimmer count once.
func Groups(h []Hold) int {
	seen := map[int]bool{}
	for _, x := range h {
		seen[x.Group] = true
	}
	return len(seen)
}
