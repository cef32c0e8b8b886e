package draw

import (
	"math"
	"math/bits"
	"slices"

	"stowright/internal/draw/font"
)

// Distances in mm.
const (
	firstRow  = 8.0 // least from the outline to the first line
	nextRow   = 7.0 // least between lines
	bareRow   = 4.5 // the same for a line that no number stands on
	textGap   = 1.0 // between line and number
	stub      = 1.8 // extension line past the dimension line
	clearance = 1.4 // between what one row prints and the next
	roomy     = 2*ArrowLen + 1.2
	tail      = ArrowLen + 2.2 // line of an arrow that stands outside
	dense     = 1.6            // between numbers outside that are crowded
	sheer     = 0.7            // between a number and a line that passes it
)

// outward tells on which side of its line a number stands: away from the view, or to it.
func (s Side) outward() bool { return s == Above || s == Left }

// note is a number that stands outside on a leader.
type note struct {
	text      string
	w, at, to float64 // room along the side, where its leader starts, where its middle is
	long      float64 // room away from the side, of one at the end of an extension line
	of        *group  // the piece that a number on a leader states
	piece     int
}

// row is the layout of one row of one side.
type row struct {
	groups []*group
	d      float64 // distance of the line from the outline
	notes  []note
	far    []note // as notes, in a second lane
	inline []note // to is the middle
	beyond []note // past an end of their group, on its line made longer: at is that end, to the middle
	ends   []note // numbers of running dimensions, each at the end of its extension line
}

// apart is the pitch of numbers that stand at the ends of extension lines, less a hair.
func (d *Dims) apart() float64 { return d.size() * (font.Rise + font.Drop) }

// past is how far beyond the line the numbers at the ends of extension lines begin: further
// where one had to step aside, and the further the more, so that its leader is not flat.
func (r *row) past() float64 {
	most := 0.0
	for _, n := range r.ends {
		most = max(most, math.Abs(n.to-n.at))
	}
	if most > 0.02 {
		return stub + 3.2 + min(4, max(0, (most-8)/4))
	}
	return stub + 0.7
}

// corner is how far beyond a corner of the view the middle of a number above or below it may stand where the side round
// that corner has numbers of running dimensions too, which begin further out: those rows never meet.
const corner = 4.5

// within gives the stretch that the middles of the numbers at the ends of a side's extension lines keep to.
func (d *Dims) within(side Side) (lo, hi float64) {
	lo, hi = math.Inf(-1), math.Inf(1)
	for _, g := range d.groups {
		switch {
		case side == Left || side == Right || !g.running:
		case g.side == Left:
			lo = d.View.X - corner
		case g.side == Right:
			hi = d.View.Right() + corner
		}
	}
	return lo, hi
}

// reach is the stretch of its row that a group needs, outside arrows included.
func (g *group) reach() (lo, hi float64) {
	n := len(g.ticks)
	lo, hi = g.ticks[0], g.ticks[n-1]
	if !g.running {
		if g.pieces[0].text != "" && g.ticks[1]-g.ticks[0] < roomy-1e-6 {
			lo -= tail
		}
		if g.pieces[n-2].text != "" && g.ticks[n-1]-g.ticks[n-2] < roomy-1e-6 {
			hi += tail
		}
	}
	return lo, hi
}

// layout sets the rows of a side, the first by so much further from the view; no number stands past its low or its high end where that is shut.
func (d *Dims) layout(side Side, aside float64, shut [2]bool) (rows []row) {
	var gs []*group
	for i := range d.groups {
		if d.groups[i].side == side {
			gs = append(gs, &d.groups[i])
		}
	}
	span := func(g *group) float64 { return math.Round((g.ticks[len(g.ticks)-1]-g.ticks[0])*50) / 50 }
	// The whole of a view has one piece, and stays behind what stands in a row.
	alike := func(a, b *group) bool {
		return !a.running && !b.running && min(len(a.pieces), len(b.pieces)) > 1 && span(a) == span(b)
	}
	slices.SortStableFunc(gs, func(a, b *group) int { // running ones outside, so that nothing passes their numbers
		if a.running != b.running {
			if a.running {
				return 1
			}
			return -1
		}
		return cmpFloat(span(a), span(b))
	})
	rows, crossing := d.stack(side, gs, aside, shut)
	for again := crossing > 0; again; { // of those as long as each other that one is nearer that lets fewer leaders cross a line
		again = false
		for k := range gs {
			for i := range k {
				if !alike(gs[i], gs[k]) {
					continue
				}
				gs[i], gs[k] = gs[k], gs[i]
				if other, n := d.stack(side, gs, aside, shut); n < crossing {
					rows, crossing, again = other, n, n > 0
				} else {
					gs[i], gs[k] = gs[k], gs[i]
				}
			}
		}
	}
	return rows
}

// stack sets groups in rows, the first nearest to the view, and tells how many leaders cross a line.
func (d *Dims) stack(side Side, gs []*group, aside float64, shut [2]bool) (rows []row, crossing int) {
	for i, g := range gs {
		g.row = 0
		lo, hi := g.reach()
		for _, e := range gs[:i] {
			a, b := e.reach()
			if lo < b-0.01 && a < hi-0.01 {
				g.row = max(g.row, e.row+1)
			}
		}
		for len(rows) <= g.row {
			rows = append(rows, row{})
		}
		rows[g.row].groups = append(rows[g.row].groups, g)
	}
	cap := d.size()
	prevOut := 0.0
	for k := range rows {
		r := &rows[k]
		// Extension lines of rows further out pass through this row.
		var pass []float64
		for _, out := range rows[k+1:] {
			for _, g := range out.groups {
				pass = append(pass, g.used()...)
			}
		}
		for _, g := range r.groups {
			d.numbers(r, g, pass)
		}
		if beside(r.notes, pass, 2.4) > 0 && beside(r.notes, pass, dense) > 0 {
			n := r.lengthen(pass, shut)
			if n > 0 {
				n = r.part(pass, n)
			}
			crossing += n
		}
		lo, hi := d.within(side)
		crossing += spread(r.ends, pass, 0.5, lo, hi)
		in, out := 0.0, stub
		if side.outward() {
			out = textGap + cap*font.Rise
		} else {
			in = textGap + cap*font.Rise
		}
		if len(r.notes) > 0 {
			out = d.lane(side) + 0.8 + cap*font.Rise
		}
		if len(r.far) > 0 {
			out += d.further()
		}
		for _, n := range r.ends {
			out = max(out, r.past()+n.long)
		}
		first, next := firstRow, nextRow
		if len(r.inline)+len(r.notes)+len(r.beyond) == 0 { // no number stands on its line
			first, next, in = bareRow, bareRow, 0
		}
		if k == 0 {
			r.d = max(first, in+clearance+1) + aside
		} else {
			r.d = rows[k-1].d + max(next, prevOut+clearance+in)
		}
		prevOut = out
	}
	return rows, crossing
}

// lane is how far beyond its line a number on a leader begins.
func (d *Dims) lane(side Side) float64 {
	if side.outward() {
		return textGap + d.size()*font.Rise + 2
	}
	return stub + 2
}

// used gives the ticks that a drawn piece ends at.
func (g *group) used() []float64 {
	var out []float64
	for i, t := range g.ticks {
		if g.running || (i > 0 && g.pieces[i-1].text != "") || (i < len(g.pieces) && g.pieces[i].text != "") {
			out = append(out, t)
		}
	}
	return out
}

// numbers decides for every number of a group whether it stands on its line or outside.
func (d *Dims) numbers(r *row, g *group, pass []float64) {
	for i, p := range g.pieces {
		if p.text == "" {
			continue
		}
		a, b := g.ticks[i], g.ticks[i+1]
		if g.running { // at the end of its extension line
			at := a
			if g.ticks[0] == g.origin {
				at = b
			}
			r.ends = append(r.ends, note{text: p.text + p.more, w: d.apart(), at: at, to: at, long: max(p.w, p.wide)})
			continue
		}
		mid := (a + b) / 2
		if g.level {
			r.ends = append(r.ends, note{text: p.text, w: d.apart(), at: mid, to: mid, long: p.w, of: g})
			continue
		}
		if p.more != "" {
			if at, ok := slide(mid, p.wide, a, b, pass); ok {
				r.inline = append(r.inline, note{text: p.text + p.more, w: p.wide, to: at})
				continue
			}
		}
		if at, ok := slide(mid, p.w, a, b, pass); ok {
			r.inline = append(r.inline, note{text: p.text, w: p.w, to: at})
		} else {
			r.notes = append(r.notes, note{text: p.text, w: p.w, at: mid, to: mid, of: g, piece: i})
		}
	}
}

// slide finds the place nearest to want for the middle of a text of width w between a and
// b that no passing line strikes.
func slide(want, w, a, b float64, pass []float64) (float64, bool) {
	lo, hi := a+0.5+w/2, b-0.5-w/2
	if lo > hi {
		return 0, false
	}
	best, found := 0.0, false
	try := func(c float64) {
		if c < lo-1e-9 || c > hi+1e-9 {
			return
		}
		for _, t := range pass {
			if t > c-w/2-sheer+1e-9 && t < c+w/2+sheer-1e-9 {
				return
			}
		}
		if !found || math.Abs(c-want) < math.Abs(best-want)-1e-6 {
			best, found = c, true
		}
	}
	try(min(max(want, lo), hi))
	try(lo)
	try(hi)
	for _, t := range pass {
		try(t - w/2 - sheer)
		try(t + w/2 + sheer)
	}
	return best, found
}

// spread moves the numbers outside along their lane, in order, each as near as can be to
// where its leader starts, none over another or over a passing line: the least sum of
// squared moves over steps of half a millimetre, their middles between lo and hi. gap is the least between two. It tells how many
// of their leaders cross a line.
func spread(notes []note, pass []float64, gap, lo, hi float64) (crossing int) {
	if len(notes) == 0 {
		return 0
	}
	defer func() {
		for _, n := range notes {
			if slices.ContainsFunc(pass, func(t float64) bool {
				return t > min(n.at, n.to)+1e-6 && t < max(n.at, n.to)-1e-6 || math.Abs(t-n.to) < n.w/2+sheer-1e-6
			}) {
				crossing++
			}
		}
	}()
	slices.SortStableFunc(notes, func(a, b note) int { return cmpFloat(a.at, b.at) })
	const half, step = 160, 0.5
	for _, strict := range []bool{true, false} {
		var cost, before [2*half + 1]float64 // of a note at each of its places, with those before it; of the one before
		from := make([][2*half + 1]int16, len(notes))
		for i, n := range notes {
			before = cost
			best, bestAt, next := math.Inf(1), -1, 0
			for k := range cost {
				c := n.at + float64(k-half)*step
				own := (c - n.at) * (c - n.at)
				if c < lo || c > hi {
					own = math.Inf(1)
				}
				for _, t := range pass {
					hit := t > c-n.w/2-sheer+1e-6 && t < c+n.w/2+sheer-1e-6
					crossed := t > min(c, n.at)+1e-6 && t < max(c, n.at)-1e-6
					if hit && strict {
						own = math.Inf(1)
					} else if hit || crossed {
						own += 2500
					}
				}
				if i > 0 { // the best place of the one before that leaves room
					p := notes[i-1]
					for next < len(before) && p.at+float64(next-half)*step+p.w/2+gap <= c-n.w/2+1e-9 {
						if before[next] < best-1e-6 { // not by the noise of where on the sheet it stands
							best, bestAt = before[next], next
						}
						next++
					}
					own += best
				}
				cost[k], from[i][k] = own, int16(bestAt)
			}
		}
		last := len(notes) - 1
		k := 0
		for j, c := range cost {
			if c < cost[k]-1e-6 {
				k = j
			}
		}
		if math.IsInf(cost[k], 1) {
			continue
		}
		for i := last; i >= 0; i-- {
			notes[i].to = notes[i].at + float64(k-half)*step
			k = int(from[i][k])
		}
		return 0
	}
	// More than the lane holds: set them side by side without regard to distance.
	at := notes[0].at - notes[0].w/2
	for i := range notes {
		notes[i].to = at + notes[i].w/2
		at += notes[i].w + gap
	}
	return 0
}

// beside is spread without ends.
func beside(notes []note, pass []float64, gap float64) int {
	return spread(notes, pass, gap, math.Inf(-1), math.Inf(1))
}

// lengthen takes numbers from their leaders that state the first or the last piece of their group, and stands each past that end on
// the dimension line made longer (ISO 129-1), as few as leave the fewest leaders that cross a line; it tells how many do.
func (r *row) lengthen(pass []float64, shut [2]bool) (crossing int) {
	var could []int
	var places []note
	for i, n := range r.notes {
		for end := range 2 {
			if p, ok := r.outside(n, end, pass); ok && !shut[end] && len(could) < 8 {
				could, places = append(could, i), append(places, p)
			}
		}
	}
	best, least := 0, math.MaxInt
	var stays []note
	for set := range 1 << len(could) {
		var notes []note
		var beyond []note
		for i, n := range r.notes {
			kept := true
			for k, c := range could {
				if c == i && set>>k&1 == 1 {
					kept = false
					beyond = append(beyond, places[k])
				}
			}
			if kept {
				notes = append(notes, n)
			}
		}
		if len(notes)+len(beyond) != len(r.notes) || stand(beyond) {
			continue
		}
		cost := 100*beside(notes, pass, dense) + bits.OnesCount(uint(set))
		if cost < least {
			best, least, stays = set, cost, notes
		}
	}
	r.notes = stays
	for k := range could {
		if best>>k&1 == 1 {
			r.beyond = append(r.beyond, places[k])
		}
	}
	return least / 100
}

// part stands some of the numbers outside in a second lane, where that leaves fewer than so many leaders that cross a line, and
// tells how many do.
func (r *row) part(pass []float64, most int) int {
	all := slices.Clone(r.notes)
	for set := 1; set < 1<<min(len(all), 7) && most > 0; set++ {
		var near, far []note
		through := slices.Clone(pass) // with the leaders of the second lane
		for i, n := range all {
			if set>>i&1 == 1 {
				far, through = append(far, n), append(through, n.at)
			} else {
				near = append(near, n)
			}
		}
		if n := beside(near, through, dense) + beside(far, pass, dense); n < most {
			r.notes, r.far, most = near, far, n
		}
	}
	return most
}

// further is how far beyond the first lane of numbers on leaders a second one lies: its leaders bend past what stands in the first.
func (d *Dims) further() float64 { return d.apart() + 2.1 }

// stand tells whether any two numbers past the ends of their groups stand on one another's line.
func stand(list []note) bool {
	for i, a := range list {
		for _, b := range list[:i] {
			if min(a.at, a.to-a.w/2) < max(b.at, b.to+b.w/2)+2.4 && min(b.at, b.to-b.w/2) < max(a.at, a.to+a.w/2)+2.4 {
				return true
			}
		}
	}
	return false
}

// outside gives the place of a number beyond the low or the high end of its group, where it states the piece there and nothing
// else of the row is near.
func (r *row) outside(n note, end int, pass []float64) (note, bool) {
	const most = 12.0 // from the end to the number
	way, tick := -1.0, n.of.ticks[n.piece]
	others := n.of.pieces[:n.piece]
	if end == 1 {
		way, tick, others = 1, n.of.ticks[n.piece+1], n.of.pieces[n.piece+1:]
	}
	if slices.ContainsFunc(others, func(p piece) bool { return p.text != "" }) {
		return n, false
	}
	lead := 1.2
	if n.of.ticks[n.piece+1]-n.of.ticks[n.piece] < roomy-1e-6 {
		lead = tail
	}
	n.at, n.to = tick, tick+way*(lead+n.w/2)
	for range pass {
		for _, t := range pass {
			if math.Abs(t-n.to) < n.w/2+sheer-1e-9 {
				n.to = t + way*(n.w/2+sheer)
			}
		}
	}
	far := n.to + way*n.w/2
	for _, g := range r.groups {
		lo, hi := g.reach()
		if g != n.of && lo-3 < max(tick, far) && min(tick, far) < hi+3 {
			return n, false
		}
	}
	return n, math.Abs(n.to-tick)-n.w/2 <= most
}
