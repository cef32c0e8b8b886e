package bound

import (
	"math"
	"slices"
)

// Patterns gives a cost that no complete guillotine plan can be under, from how much any one sheet can hold: whatever
// values parts are given, no plan is cheaper than their sum over the greatest value that a sheet gives for its
// cost (Farley, "A note on bounding a class of linear programming problems, including cutting stock problems",
// Operations Research 1990). The greatest value, of parts taken as often as one likes, comes from dynamic programming over all sizes of
// piece (Gilmore and Gomory 1965; Beasley 1985). Good values are the prices of a linear program over the patterns found so
// far; known are patterns to start from, such as the sheets of a plan: how often each part is in one, and which sheet
// it is. It is slower than Cost and often better, above all where parts may turn. It stops when the bound reaches enough,
// when the work in additions is done or when stop says so, and gives the best bound so far.
func Patterns(sheets []Sheet, parts []Part, known []Pattern, enough int64, work int, stop func() bool) int64 {
	if len(sheets) == 0 || len(parts) == 0 {
		return 0
	}
	for _, s := range sheets {
		if s.Cost <= 0 {
			return 0
		}
	}
	k := newPieces(sheets, parts)
	m := newMaster(k, parts)
	best, unit := int64(0), float64(sheets[0].Cost)
	price := make([]float64, len(parts))
	pass := 2 * len(parts) * len(parts)
	for _, p := range known {
		work -= pass * m.prices(price)
		column := make([]float64, len(parts))
		for i, n := range p.Count {
			column[i] = float64(n) / k.cost[p.Sheet]
		}
		m.enter(column, price)
	}
	center := firstPrices(sheets, parts)
	high := 0.0
	values := make([]int32, len(parts))
	for keen := 0.0; work > 0 && !stop(); {
		work -= k.work + pass*m.prices(price)
		for i := range price {
			p := float64(center[i]*(1-keen)) + float64(price[i]*keen)
			if values[i] = int32(p * scale); k.fine[i] {
				values[i] = 0
			}
		}
		bound, count := k.bound(values, parts)
		best = max(best, payable(sheets, int64(math.Ceil(bound*unit*(1-1e-12)-1e-9))))
		if best >= enough {
			break
		}
		if bound > high {
			high = bound
			for i := range center {
				center[i] = float64(values[i]) / scale
			}
		}
		if !m.enter(count, price) {
			if keen == 1 {
				break // no pattern is worth more than its price: this is the linear program's value
			}
			keen = 1
			continue
		}
		keen = smooth
	}
	return best
}

// Pattern is what one sheet can hold: how often each part.
type Pattern struct {
	Sheet int
	Count []int32
}

// smooth is how far values go from the best so far to the prices of the linear program; the prices alone swing widely.
const smooth = 0.15

// scale turns prices into whole values; sums of values on a sheet stay near it.
const scale = 1 << 20

// pieces is the table of the greatest value of every size of piece.
type pieces struct {
	sheets []Sheet   // in cells
	cost   []float64 // of each sheet, as a multiple of the first's
	ways   [][][2]int32
	fine   []bool // of each part, whether it can be less than a cell: it is left out of account, as sheets can hold any number of those
	x, y   int32  // the largest sheet
	least  [2]int32
	even   bool    // every part may lie both ways, so that a piece is worth the same turned
	v, w   []int32 // value by x and y, and by y and x; the same table where even
	work   int     // additions of one filling
}

// cells is the greatest number of cells along a side; larger sheets are taken in coarser units, parts and sheets rounded
// down, which loses no plan: sizes rounded down never sum to more than their sum rounded down.
const cells = 150

func newPieces(sheets []Sheet, parts []Part) *pieces {
	k := &pieces{least: [2]int32{math.MaxInt32, math.MaxInt32}, even: true}
	var far int32
	for _, s := range sheets {
		far = max(far, s.X, s.Y)
	}
	unit := (far + cells - 1) / cells
	for _, s := range sheets {
		s.X, s.Y = s.X/unit, s.Y/unit
		k.x, k.y = max(k.x, s.X), max(k.y, s.Y)
		k.sheets = append(k.sheets, s)
		k.cost = append(k.cost, float64(s.Cost)/float64(sheets[0].Cost))
	}
	for _, pt := range parts {
		var ways [][2]int32
		fine := false
		for _, w := range pt.Ways {
			fine = fine || w[0] < unit || w[1] < unit
			w = [2]int32{max(1, w[0]/unit), max(1, w[1]/unit)}
			ways = append(ways, w)
			k.least[0], k.least[1] = min(k.least[0], w[0]), min(k.least[1], w[1])
		}
		if a := ways[0]; len(ways) == 1 && a[0] != a[1] || len(ways) == 2 && ways[1] != [2]int32{a[1], a[0]} {
			k.even = false
		}
		k.ways, k.fine = append(k.ways, ways), append(k.fine, fine)
	}
	if k.even {
		k.x, k.y = max(k.x, k.y), max(k.x, k.y)
	}
	n := int(k.x+1) * int(k.y+1)
	k.v = make([]int32, n)
	if k.w = k.v; !k.even {
		k.w = make([]int32, n)
	}
	k.work = n * int(k.x+k.y) / 4
	if k.even {
		k.work /= 2
	}
	return k
}

// firstPrices are those of the best pair of dual-feasible functions, scaled so that no price is above that of
// a sheet.
func firstPrices(sheets []Sheet, parts []Part) []float64 {
	var p problem
	p.sheets, p.parts = coarse(sheets, parts)
	p.solve()
	price := make([]float64, len(parts))
	high := 0.0
	for i := range parts {
		price[i] = p.price(&p.parts[i])
		high = max(high, price[i])
	}
	for i := range price {
		price[i] /= max(high, 1e-9) // all may be nothing
	}
	return price
}

// fill works out the greatest value of every size of piece.
func (k *pieces) fill(values []int32) {
	clear(k.v)
	nx, ny := k.x+1, k.y+1
	for i, ways := range k.ways {
		for _, w := range ways {
			if w[0] <= k.x && w[1] <= k.y {
				k.v[w[0]*ny+w[1]] = max(k.v[w[0]*ny+w[1]], values[i])
			}
		}
	}
	for x := k.least[0]; x <= k.x; x++ {
		column := k.v[x*ny : x*ny+ny]
		before := k.v[(x-1)*ny : x*ny]
		most := k.y
		if k.even {
			most = x
		}
		for y := k.least[1]; y <= most; y++ {
			best := max(column[y], before[y], column[y-1])
			row := k.w[y*nx : y*nx+nx]
			best = max(best, split(row, k.least[0], x), split(column, k.least[1], y))
			column[y], row[x] = best, best
		}
	}
}

// split gives the greatest value of two pieces that a piece of given size is cut into.
func split(v []int32, least, size int32) int32 {
	best := int32(0)
	for a, b := least, size-least; a <= b; a, b = a+1, b-1 {
		best = max(best, v[a]+v[b])
	}
	return best
}

// bound gives the bound that values make, and how often each part is in the pattern that limits it, for the cost of a first sheet.
func (k *pieces) bound(values []int32, parts []Part) (float64, []float64) {
	k.fill(values)
	rate, at := 0.0, -1
	for i, s := range k.sheets {
		if r := float64(k.v[s.X*(k.y+1)+s.Y]) / k.cost[i]; r > rate {
			rate, at = r, i
		}
	}
	count := make([]float64, len(parts))
	if at < 0 {
		return 0, count
	}
	s := k.sheets[at]
	k.trace(s.X, s.Y, values, count)
	for i := range count {
		count[i] /= k.cost[at]
	}
	sum := int64(0)
	for i := range parts {
		sum += int64(values[i]) * int64(parts[i].Count)
	}
	return float64(sum) / rate, count
}

// trace counts the parts in the pattern that gives a piece its value.
func (k *pieces) trace(x, y int32, values []int32, count []float64) {
	nx, ny := k.x+1, k.y+1
	for {
		v := k.v[x*ny+y]
		if v == 0 {
			return
		}
		if x > 0 && k.v[(x-1)*ny+y] == v {
			x--
			continue
		}
		if y > 0 && k.v[x*ny+y-1] == v {
			y--
			continue
		}
		if i := slices.IndexFunc(k.ways, func(ways [][2]int32) bool { return slices.Contains(ways, [2]int32{x, y}) }); i >= 0 {
			for j := i; j < len(k.ways); j++ {
				if values[j] == v && slices.Contains(k.ways[j], [2]int32{x, y}) {
					count[j]++
					return
				}
			}
		}
		cut := false
		for a := k.least[0]; 2*a <= x && !cut; a++ {
			if k.w[y*nx+a]+k.w[y*nx+x-a] == v {
				k.trace(a, y, values, count)
				x, cut = x-a, true
			}
		}
		for a := k.least[1]; 2*a <= y && !cut; a++ {
			if k.v[x*ny+a]+k.v[x*ny+y-a] == v {
				k.trace(x, a, values, count)
				y, cut = y-a, true
			}
		}
		if !cut {
			panic("bound: a value comes from nowhere")
		}
	}
}

// master is the linear program over the patterns found so far: as little cost as possible so that every part is
// cut often enough. Its basis is kept as an inverse.
type master struct {
	inverse [][]float64
	cost    []float64 // of the columns in the basis: 1 for a pattern, 0 for a surplus
	x       []float64 // how much of each
}

// newMaster starts from patterns of one part each.
func newMaster(k *pieces, parts []Part) *master {
	n := len(parts)
	m := &master{cost: make([]float64, n), x: make([]float64, n)}
	for i := range parts {
		most := 0.0
		for j, s := range k.sheets {
			for _, w := range k.ways[i] {
				most = max(most, float64(s.X/w[0])*float64(s.Y/w[1])/k.cost[j])
			}
		}
		row := make([]float64, n)
		row[i] = 1 / most
		m.inverse = append(m.inverse, row)
		m.cost[i] = 1
		m.x[i] = float64(parts[i].Count) / most
	}
	return m
}

// prices gives what one more of each part would cost, never less than nothing. Pivots that change nothing could go round
// in circles: after some the prices are taken as they are, which only costs a better bound. It tells how often
// the whole inverse was gone through.
func (m *master) prices(price []float64) (passes int) {
	for passes < 20 {
		passes++
		least, at := -1e-9, -1
		for i := range price {
			p := 0.0
			for j, row := range m.inverse {
				if m.cost[j] != 0 {
					p += row[i]
				}
			}
			price[i] = p
			if p < least {
				least, at = p, i
			}
		}
		if at < 0 {
			break
		}
		// A part is cut more often than it is wanted: let it.
		surplus := make([]float64, len(price))
		surplus[at] = -1
		if !m.pivot(surplus, 0) {
			break
		}
	}
	for i := range price {
		price[i] = max(0, price[i])
	}
	return passes
}

// enter takes a pattern into the basis if it is worth more than it costs.
func (m *master) enter(count, price []float64) bool {
	worth := 0.0
	for i := range count {
		worth += float64(count[i] * price[i])
	}
	return worth > 1+1e-7 && m.pivot(count, 1)
}

// pivot brings a column into the basis.
func (m *master) pivot(column []float64, cost float64) bool {
	n := len(column)
	d := make([]float64, n)
	out, step := -1, math.Inf(1)
	for j, row := range m.inverse {
		for i, c := range column {
			if c != 0 {
				d[j] += float64(row[i] * c)
			}
		}
		if d[j] > 1e-9 && m.x[j]/d[j] < step {
			out, step = j, m.x[j]/d[j]
		}
	}
	if out < 0 {
		return false
	}
	pivot := m.inverse[out]
	for i := range pivot {
		pivot[i] /= d[out]
	}
	for j, row := range m.inverse {
		if j == out || d[j] == 0 {
			continue
		}
		m.x[j] = max(0, m.x[j]-float64(step*d[j]))
		for i, p := range pivot {
			row[i] -= float64(d[j] * p)
		}
	}
	m.x[out], m.cost[out] = step, cost
	return true
}
