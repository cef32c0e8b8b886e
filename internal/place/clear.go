package place

import (
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/schema"
)

// Opening is a window or door in a wall.
type Opening struct {
	ID      string
	Kind    string
	Box     Box  // the opening itself, no thickness given to the wall: y from 0 to 1 tick
	Casing  L    // trim each side
	In      bool // a door that swings into this room
	Known   bool // whether the way it swings is known
	Left    bool // hinged on the left, seen from this room
	Hinged  bool // whether the hinged side is known
	Framed  bool // whether its framing is known
	framing []L
}

// Swing gives the quarter circle that a room door sweeps, and false when none is swept or it
// is not known.
func (o Opening) Swing() (Quarter, bool) {
	if !o.In || !o.Hinged {
		return Quarter{}, false
	}
	q := Quarter{X: o.Box.Min.X, Right: true, R: o.Box.Max.X - o.Box.Min.X, Bottom: o.Box.Min.Z, Top: o.Box.Max.Z}
	if !o.Left {
		q.X, q.Right = o.Box.Max.X, false
	}
	return q, true
}

// Quarter is the upright quarter cylinder that a door sweeps from closed to 90 degrees: its
// hinge line at (X, Y), its leaf, when closed, towards the right or left, opening into the room.
type Quarter struct {
	X, Y        L
	R           L
	Right       bool
	Bottom, Top L
}

// Bite gives how far a box reaches into the quarter cylinder, measured from its rim, and 0
// when it stays clear.
func (q Quarter) Bite(b Box) L {
	if b.Max.Z <= q.Bottom || b.Min.Z >= q.Top {
		return 0
	}
	lo, hi := b.Min.X-q.X, b.Max.X-q.X
	if !q.Right {
		lo, hi = -hi, -lo
	}
	near, far := q.Y-b.Max.Y, q.Y-b.Min.Y // distances into the room
	if hi <= 0 || far <= 0 {
		return 0
	}
	x, y := max(lo, 0), max(near, 0)
	if x >= q.R || y >= q.R {
		return 0
	}
	return max(0, q.R-hypot(x, y))
}

// hypot gives the whole root of x² + y², rounded up, for sizes up to 100 m.
func hypot(x, y L) L {
	const most = 2_000_000_000 // squares of two such fit 63 bits
	if x > most || y > most {
		return max(x, y)
	}
	n := uint64(x)*uint64(x) + uint64(y)*uint64(y)
	var r uint64
	for bit := uint64(1) << 31; bit > 0; bit >>= 1 {
		if t := r + bit; t*t <= n {
			r = t
		}
	}
	if r*r < n {
		r++
	}
	return L(r)
}

// Box gives the box around the quarter.
func (q Quarter) Box() Box {
	x0, x1 := q.X, q.X+q.R
	if !q.Right {
		x0, x1 = q.X-q.R, q.X
	}
	return geom.B(x0, q.Y-q.R, q.Bottom, x1, q.Y, q.Top)
}

// Zone is something on a wall and the space before it that must stay clear.
type Zone struct {
	ID      string
	Kind    string
	Body    Box // the thing itself on the wall
	Space   Box // what must stay clear
	MayCut  bool
	Ignites bool
	Known   bool   // whether its place on the wall is known
	Source  string // of a space that its kind gives
}

// Panel working space, 29 CFR 1910.303(g)(1) and Table S-1 (NFPA 70, 110.26(A) alike): 3 ft deep up
// to 150 V to ground; over it 3 ft with nothing grounded opposite (condition A), 3-1/2 ft with
// something grounded (B), 4 ft with live parts (C); 30 in or the equipment's width, 6-1/2 ft high.
const (
	PanelWide   = 30 * length.Inch
	PanelHigh   = 78 * length.Inch
	panelSource = "29 CFR 1910.303(g)(1), Table S-1"
	usualSource = "common practice, no source"
)

// PanelDepth is Table S-1 up to 600 V: the depth of the working space before a panel by its volts to
// ground, nil where they are not said (a house's panel: no more than 150 V), and what is opposite;
// the deepest where that is not said.
func PanelDepth(volts *int, opposite string) L {
	deep := 36 * length.Inch
	if volts == nil || *volts <= 150 {
		return deep
	}
	switch opposite {
	case "nothing":
		return deep
	case "grounded":
		return deep + length.Foot/2
	}
	return deep + length.Foot
}

// depthBefore is the clear depth that a kind of thing wants before it when the survey says
// none: room for a plug and its cord, a hand, a sash.
func depthBefore(kind string, volts *int, opposite string) (L, string) {
	switch kind {
	case "electrical-panel":
		return PanelDepth(volts, opposite), panelSource
	case "heater":
		return 36 * length.Inch, usualSource
	case "window", "vent", "valve":
		return 12 * length.Inch, usualSource
	case "light":
		return 6 * length.Inch, usualSource
	case "pipe":
		return 2 * length.Inch, usualSource
	}
	return 4 * length.Inch, usualSource
}

// span reads a stretch that is given by its ends, or by its centre and size.
func span(from, to, at, size *L, usual L) (lo, hi L, ok bool) {
	switch {
	case from != nil && to != nil:
		return min(*from, *to), max(*from, *to), true
	case at != nil:
		s := usual
		if size != nil {
			s = *size
		}
		return *at - s/2, *at - s/2 + s, true
	case from != nil && size != nil:
		return *from, *from + *size, true
	case to != nil && size != nil:
		return *to - *size, *to, true
	}
	return 0, 0, false
}

func turn(lo, hi L, x func(L) L) (L, L) {
	a, b := x(lo), x(hi)
	return min(a, b), max(a, b)
}

func (w *Wall) surveyOpenings(list schema.Map[job.Opening], x func(L) L) {
	for _, e := range list {
		s := e.Value
		o := Opening{ID: e.Key, Kind: s.Kind, In: s.Swings == "in", Known: s.Swings != "" && s.Swings != "not-known", Left: s.Hinge == "left", Hinged: s.Hinge != "", Framed: s.Framing != nil}
		lo, hi := turn(s.From, s.To, x)
		sill, head := L(0), L(Far)
		if s.Sill != nil {
			sill = *s.Sill
		}
		if s.Head != nil {
			head = *s.Head
		} else if s.Kind == "door" {
			head = 80 * length.Inch // the usual door; only its swing and space depend on it
		}
		o.Box = geom.B(lo, 0, sill, hi, 1, head)
		if s.Casing != nil {
			o.Casing = *s.Casing
		}
		for _, f := range s.Framing {
			o.framing = append(o.framing, x(f))
		}
		w.Openings = append(w.Openings, o)
		if s.Header != nil && s.Head != nil {
			h := Header{ID: "header over " + e.Key, Opening: e.Key, From: lo, To: hi, Bottom: head, Top: head + s.Header.Height, Species: s.Header.Species}
			if s.Header.Depth != nil {
				h.Depth = *s.Header.Depth
			}
			w.Headers = append(w.Headers, h)
		}
	}
}

func (w *Wall) surveyClear(list schema.Map[job.Keep], x func(L) L) {
	for _, e := range list {
		s := e.Value
		z := Zone{ID: e.Key, Kind: s.Kind, MayCut: s.MayCut != nil && *s.MayCut}
		z.Ignites = s.Kind == "heater" || s.Kind == "electrical-panel"
		if s.Ignites != nil {
			z.Ignites = *s.Ignites
		}
		lo, hi, ok := span(s.From, s.To, s.At, s.Width, 3*length.Inch)
		lo, hi = turn(lo, hi, x)
		bottom, top, tall := span(s.Bottom, s.Top, s.Up, s.Height, 9*length.Inch/2)
		if !tall {
			bottom, top = -Far, Far
			if s.Bottom != nil {
				bottom = *s.Bottom
			}
			if s.Top != nil {
				top = *s.Top
			}
		}
		z.Known = ok
		depth, source := depthBefore(s.Kind, s.Volts, s.Facing)
		z.Source = source
		if s.Out != nil {
			depth, z.Source = *s.Out, ""
		}
		z.Body = geom.B(lo, -1, bottom, hi, 0, top)
		z.Space = geom.B(lo, -depth, bottom, hi, Far, top)
		if s.Kind == "electrical-panel" {
			wide := max(PanelWide, hi-lo)
			from := lo + (hi-lo)/2 - wide/2
			if from+wide > w.Length {
				from = w.Length - wide
			}
			from = max(0, from)
			floor, _ := w.Range(max(0, lo), min(w.Length, hi), -depth, 0)
			z.Space = geom.B(from, -depth, floor, from+wide, Far, max(floor+PanelHigh, top))
		}
		if s.Beside != nil {
			z.Space.Min.X -= *s.Beside
			z.Space.Max.X += *s.Beside
		}
		w.Clear = append(w.Clear, z)
	}
}

// Obstacle stands out from the wall.
type Obstacle struct {
	ID      string
	Kind    string
	Box     Box // with follows: its heights are above the floor where it is
	MayCut  bool
	follows bool
}

func (w *Wall) surveyObstacles(list schema.Map[job.Obstacle], x func(L) L) {
	for _, e := range list {
		s := e.Value
		o := Obstacle{ID: e.Key, Kind: s.Kind, MayCut: s.MayCut, follows: s.FollowsFloor}
		lo, hi := L(0), w.Length
		flip := x(0) != 0
		from, to := s.From, s.To
		if flip {
			from, to = s.To, s.From
		}
		if from != nil {
			lo = x(*from)
		}
		if to != nil {
			hi = x(*to)
		}
		lo, hi = min(lo, hi), max(lo, hi)
		bottom, top := L(-Far), L(Far)
		switch {
		case s.Bottom != nil:
			bottom = *s.Bottom
		case s.Kind == "door-track" && s.Height == nil:
			bottom = 0
		case s.FollowsFloor && s.Height != nil:
			bottom = 0
		}
		switch {
		case s.Top != nil:
			top = *s.Top
		case s.Height != nil:
			top = max(bottom, -Far/2) + *s.Height
			if bottom == -Far {
				top = *s.Height
			}
		}
		o.Box = geom.B(lo, -s.Out, bottom, hi, Far, top)
		w.Obstacles = append(w.Obstacles, o)
	}
}

// Follows reports whether the heights of an obstacle are above the floor where it is.
func (o Obstacle) Follows() bool { return o.follows }

// Boxes gives the space of an obstacle in the wall's frame: one box, or for one that follows
// the floor one for each stretch between surveyed heights, as high as the floor under it
// makes it.
func (o Obstacle) Boxes(w *Wall) []Box {
	if !o.follows {
		return []Box{o.Box}
	}
	var r []Box
	xs := w.floorPlaces(o.Box.Min.X, o.Box.Max.X)
	const piece = 24 * length.Inch
	for i := 1; i < len(xs); i++ {
		n := max(1, int((xs[i] - xs[i-1]).DivUp(int64(piece))))
		for k := range n {
			a := xs[i-1] + (xs[i]-xs[i-1]).MulDiv(int64(k), int64(n))
			b := xs[i-1] + (xs[i]-xs[i-1]).MulDiv(int64(k+1), int64(n))
			least, greatest := w.Range(a, b, o.Box.Min.Y, 0)
			bottom := o.Box.Min.Z
			if bottom > 0 {
				bottom += least
			} else {
				bottom = -Far
			}
			r = append(r, geom.B(a, o.Box.Min.Y, bottom, b, o.Box.Max.Y, o.Box.Max.Z+greatest))
		}
	}
	return r
}

// Reach gives the length of the diagonal of a rectangle, rounded up to a whole tick.
func Reach(x, y L) L { return hypot(x.Abs(), y.Abs()) }
