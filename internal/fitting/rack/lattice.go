package rack

// Point is the centre of a round place on a board, from one of its corners.
type Point struct{ X, Y L }

// Layout is where round things go on a board.
type Layout struct {
	At        []Point
	Staggered bool
}

// Lay gives the places of holes of diameter dia on a board of w by d, with at least web between
// two of them and edge to the board's edges: in straight rows or staggered, whichever holds more,
// straight when both hold the same. At most most holes, 0 for as many as there are. The holes are
// spread over the width and sorted from left to right, then from the front.
func Lay(w, d, dia, web, edge L, most int) Layout {
	w, d = w-2*edge-dia, d-2*edge-dia // of centres
	if w < 0 || d < 0 || dia <= 0 {
		return Layout{}
	}
	c := dia + web
	best := Layout{At: straight(w, d, c)}
	for _, at := range [][]Point{staggered(w, d, c), turn(staggered(d, w, c))} {
		if len(at) > len(best.At) {
			best = Layout{At: at, Staggered: true}
		}
	}
	if most > 0 && len(best.At) > most {
		best = fewer(w, d, c, most)
	}
	for i := range best.At {
		best.At[i].X += edge + dia/2
		best.At[i].Y += edge + dia/2
	}
	sortPoints(best.At)
	return best
}

// fewer lays no more than most: a straight layout that holds them if there is one, else the
// staggered one, its last places left out.
func fewer(w, d, c L, most int) Layout {
	if at := straight(w, d, c); len(at) >= most {
		cols := fit(w, c)
		rows := (most + cols - 1) / cols
		at = grid(w, d, cols, rows)
		sortPoints(at)
		return Layout{At: byRow(at)[:most]}
	}
	a, b := staggered(w, d, c), turn(staggered(d, w, c))
	if len(a) < most || len(b) >= most && len(b) < len(a) {
		a = b
	}
	return Layout{At: byRow(a)[:most], Staggered: true}
}

// fit gives how many centres at least c apart go in w.
func fit(w, c L) int { return int(w/c) + 1 }

func straight(w, d, c L) []Point { return grid(w, d, fit(w, c), fit(d, c)) }

// grid spreads cols by rows places evenly.
func grid(w, d L, cols, rows int) []Point {
	var at []Point
	for i := range cols {
		for j := range rows {
			at = append(at, Point{spread(w, i, cols), spread(d, j, rows)})
		}
	}
	return at
}

// spread gives the i-th of n places over w; a single one is in the middle.
func spread(w L, i, n int) L {
	if n == 1 {
		return w / 2
	}
	return w.MulDiv(int64(i), int64(n-1))
}

// staggered gives the most places in columns spread over the width of which every second one is
// moved back, so that columns may be nearer than c to each other.
func staggered(w, d, c L) []Point {
	var best []Point
	for n := fit(w, c) + 1; ; n++ {
		// The narrowest step between two columns, whatever the rounding.
		step := w / L(n-1)
		if 2*step < c {
			return best
		}
		back := leg(step, c)
		if back > d {
			return best // more columns would be moved back further still
		}
		pitch := max(c, 2*back)
		even, odd := fit(d, pitch), fit(d-back, pitch)
		if total := (n+1)/2*even + n/2*odd; total <= len(best) {
			continue
		}
		best = nil
		for i := range n {
			y, rows := L(0), even
			if i%2 == 1 {
				y, rows = back, odd
			}
			for j := range rows {
				best = append(best, Point{spread(w, i, n), y + L(j)*pitch})
			}
		}
	}
}

func turn(at []Point) []Point {
	for i, p := range at {
		at[i] = Point{p.Y, p.X}
	}
	return at
}
