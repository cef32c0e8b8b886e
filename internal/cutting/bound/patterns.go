package bound

import (
	"math"
	"slices"
)

// Patterns gives a cost that no complete guillotine plan can be under, from how much any one sheet can hold: whatever
// values parts are given, no plan is cheaper than their sum over the greatest value that a sheet gives for its
// cost (Farley, "A note on bounding a class of linear programming problems, including cutting stock problems",
// Operations Research 1990). A sheet of which there are only some may give more than it costs, as what is on hand does: what it
// gives beyond that is taken off once for each (weak duality of the same program with the counts as rows). The greatest value, of
// parts taken as often as one likes, comes from dynamic programming over all sizes of
// piece (Gilmore and Gomory 1965; Beasley 1985). Good values are the prices of a linear program over the patterns found so
// far; known are patterns to start from, such as the sheets of a plan: how often each part is in one, and which sheet
// it is. It is slower than Cost and often better, above all where parts may turn. least is a bound that is known. It stops when the bound reaches enough,
// when the program over the patterns found so far, which no bound of this kind is above, comes down to least,
// when the work in additions is done or when stop says so, and gives the best bound so far.
func Patterns(sheets []Sheet, parts []Part, known []Pattern, least, enough int64, work int, stop func() bool) int64 {
	unit := int64(0)
	for _, s := range sheets {
		unit = max(unit, s.Cost)
	}
	if unit == 0 || len(parts) == 0 {
		return least
	}
	k := newPieces(sheets, parts, unit, cellsFor(work, len(parts)))
	m := newMaster(k, parts)
	best := least
	price := make([]float64, k.rows)
	pass := 2 * len(price) * len(price)
	for _, p := range known {
		work -= pass * m.prices(price)
		column := make([]float64, len(price))
		for i, n := range p.Count {
			column[i] = float64(n)
		}
		k.limit(column, p.Sheet)
		m.enter(column, price, k.cost[p.Sheet])
	}
	center := firstPrices(sheets, parts)
	high := 0.0
	values := make([]int32, len(parts))
	for keen := 0.0; work > 0 && !stop(); {
		work -= k.work + pass*m.prices(price)
		for i := range values {
			p := float64(center[i]*(1-keen)) + float64(price[i]*keen)
			if values[i] = int32(min(1, p) * scale); k.fine[i] {
				values[i] = 0
			}
		}
		bound := k.bound(values, parts)
		best = max(best, payable(sheets, int64(math.Ceil(bound*float64(unit)*(1-1e-12)-1e-9))))
		if best >= enough || payable(sheets, int64(math.Ceil(m.value()*float64(unit)-1e-6))) <= best {
			break
		}
		if bound > high {
			high = bound
			for i := range center {
				center[i] = float64(values[i]) / scale
			}
		}
		entered := false
		for i := range k.sheets {
			column := make([]float64, len(price))
			k.column(i, values, column)
			if m.enter(column, price, k.cost[i]) {
				entered = true
				work -= pass * m.prices(price)
			}
		}
		if !entered {
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
	cost   []float64 // of each sheet, as a share of the dearest one's
	rows   int       // of that program: one for each part, then one for each sheet that there are only some of
	row    []int     // of each sheet, the row of the linear program that holds its count; -1 where there are enough for all parts
	ways   [][][2]int32
	fine   []bool // of each part, whether it can be less than a cell: it is left out of account, as sheets can hold any number of those
	x, y   int32  // the largest sheet
	least  [2]int32
	even   bool      // every part may lie both ways, so that a piece is worth the same turned
	v, w   []int32   // value by x and y, and by y and x; the same table where even
	rises  [][]int32 // of v, y for y, at which x its values rise; where even, the same the other way round
	work   int       // additions of one filling
}

// The numbers of cells along a side that the work of one filling stands for; larger sheets are taken in coarser units.
const (
	fewCells  = 150
	manyCells = 600
)

// cellsFor gives as many as leave work for six fillings for each part: about so many bring the linear program near its end.
func cellsFor(work, parts int) int32 {
	return int32(min(manyCells, max(fewCells, math.Cbrt(2*float64(work)/(6*float64(parts))))))
}

// grid turns sizes along one side, up to whole, into n cells, rounded so that sizes that fit side by side never have more cells than
// what they fit into: down, and above half the whole as the whole without what is left of it rounded down (Carlier, Clautiaux and Moukrim 2007). A
// piece has as many cells as the widest row that is cut from it, so that no guillotine plan is lost.
type grid struct{ n, whole int32 }

func (g grid) of(size int32) int32 {
	down := func(v int32) int32 { return int32(int64(v) * int64(g.n) / int64(g.whole)) }
	if 2*int64(size) <= int64(g.whole) || size > g.whole {
		return down(size)
	}
	return g.n - down(g.whole-size)
}

// grids chooses the cells along both sides: one to each unit of size where that is no more work than usual, otherwise those
// in which the parts lose least.
func grids(far [2]int32, parts []Part, same bool, cells int32) [2]grid {
	work := func(x, y int32) int64 { return int64(x) * int64(y) * int64(x+y) }
	most := work(cells, cells)
	if max(far[0], far[1]) < cells*cells && work(far[0], far[1]) <= most {
		return [2]grid{{far[0], far[0]}, {far[1], far[1]}}
	}
	best, high := [2]grid{{1, far[0]}, {1, far[1]}}, -1.0
	try := func(x, y int32) {
		g := [2]grid{{x, far[0]}, {y, far[1]}}
		sum := 0.0
		for _, pt := range parts {
			least := math.Inf(1)
			for _, w := range pt.Ways {
				least = min(least, float64(g[0].of(w[0]))*float64(g[1].of(w[1])))
			}
			sum += float64(least * float64(pt.Count))
		}
		if sum /= float64(x) * float64(y); sum > high {
			best, high = g, sum
		}
	}
	for x := min(far[0], cells/2); x <= min(far[0], 2*cells); x++ {
		y := min(far[1], x)
		if !same {
			for y = min(far[1], int32(math.Sqrt(float64(most)/float64(x)))); work(x, y) > most; y-- {
			}
		}
		if work(x, y) > most {
			break
		}
		if 3*work(x, y) < most {
			continue
		}
		for k := range min(y, tried) {
			try(x, y-k)
			if same {
				break
			}
		}
	}
	return best
}

// tried is how many numbers of cells are tried along the second side for each of the first.
const tried = 20

func newPieces(sheets []Sheet, parts []Part, dearest int64, cells int32) *pieces {
	k := &pieces{least: [2]int32{math.MaxInt32, math.MaxInt32}, even: true}
	wanted := int64(0)
	k.rows = len(parts)
	for _, pt := range parts {
		wanted += int64(pt.Count)
		if a := pt.Ways[0]; len(pt.Ways) == 1 && a[0] != a[1] || len(pt.Ways) == 2 && pt.Ways[1] != [2]int32{a[1], a[0]} {
			k.even = false
		}
	}
	var far [2]int32
	for _, s := range sheets {
		far = [2]int32{max(far[0], s.X), max(far[1], s.Y)}
	}
	if k.even {
		far[0] = max(far[0], far[1])
		far[1] = far[0]
	}
	g := grids(far, parts, k.even, cells)
	for _, s := range sheets {
		s.X, s.Y = g[0].of(s.X), g[1].of(s.Y)
		k.x, k.y = max(k.x, s.X), max(k.y, s.Y)
		k.sheets = append(k.sheets, s)
		k.cost = append(k.cost, float64(s.Cost)/float64(dearest))
		row := -1
		if int64(s.Count) < wanted {
			row = k.rows
			k.rows++
		}
		k.row = append(k.row, row)
	}
	for _, pt := range parts {
		var ways [][2]int32
		fine := false
		for _, w := range pt.Ways {
			w = [2]int32{g[0].of(w[0]), g[1].of(w[1])}
			fine = fine || w[0] == 0 || w[1] == 0
			w = [2]int32{max(1, w[0]), max(1, w[1])}
			ways = append(ways, w)
			k.least[0], k.least[1] = min(k.least[0], w[0]), min(k.least[1], w[1])
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
	k.rises = make([][]int32, k.y+1)
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
	for y := range k.rises {
		k.rises[y] = k.rises[y][:0]
	}
	var up []int32 // where the column rises
	for x := k.least[0]; x <= k.x; x++ {
		column := k.v[x*ny : x*ny+ny]
		before := k.v[(x-1)*ny : x*ny]
		most := k.y
		if k.even {
			most = x
		}
		if up = up[:0]; k.even {
			up = k.rises[x]
		}
		for y := k.least[1]; y <= most; y++ {
			best := max(column[y], before[y], column[y-1])
			row := k.w[y*nx : y*nx+nx]
			best = max(best, split(row, k.rises[y], x), split(column, up, y))
			column[y], row[x] = best, best
			if best > column[y-1] {
				up = append(up, y)
			}
			if best > row[x-1] && !(k.even && y == x) {
				k.rises[y] = append(k.rises[y], x)
			}
		}
		if k.even {
			k.rises[x] = up
		}
	}
}

// split gives the greatest value of two pieces that a piece of given size is cut into. Values never fall as sizes grow, so that the
// smaller is one of those at which they rise.
func split(v, rises []int32, size int32) int32 {
	best := int32(0)
	for _, a := range rises {
		if 2*a > size {
			break
		}
		best = max(best, v[a]+v[size-a])
	}
	return best
}

// bound gives the bound that values make, as a share of the dearest sheet's cost. Values may be taken at any scale at which no sheet that there
// are enough of gives more than it costs; the bound is greatest at the largest such scale, or where one of those that there are only some of
// begins to give more than it costs.
func (k *pieces) bound(values []int32, parts []Part) float64 {
	k.fill(values)
	sum := 0.0
	for i := range parts {
		sum += float64(values[i]) * float64(parts[i].Count)
	}
	most := math.Inf(1)
	scales := []float64{}
	for i := range k.sheets {
		if v := float64(k.worth(i)); v > 0 {
			if at := k.cost[i] / v; k.row[i] < 0 {
				most = min(most, at)
			} else {
				scales = append(scales, at)
			}
		}
	}
	best := 0.0
	for _, at := range append(scales, most) {
		if at > most || math.IsInf(at, 1) {
			continue
		}
		b := at * sum
		for i, s := range k.sheets {
			if k.row[i] >= 0 {
				b -= float64(s.Count) * max(0, float64(at*float64(k.worth(i)))-k.cost[i])
			}
		}
		best = max(best, b)
	}
	return best
}

// worth is the greatest value of sheet i.
func (k *pieces) worth(i int) int32 { return k.v[k.sheets[i].X*(k.y+1)+k.sheets[i].Y] }

// column gives how often each part is in the most valuable pattern of sheet i, and what it takes of the sheet's count.
func (k *pieces) column(i int, values []int32, column []float64) {
	k.trace(k.sheets[i].X, k.sheets[i].Y, values, column)
	k.limit(column, i)
}

// limit has a pattern of sheet i take one from its count.
func (k *pieces) limit(column []float64, i int) {
	if k.row[i] >= 0 {
		column[k.row[i]] = -1
	}
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
// cut often enough and no more sheets are cut than there are. Its basis is kept as an inverse.
type master struct {
	inverse [][]float64
	cost    []float64 // of the columns in the basis, 0 for a surplus
	x       []float64 // how much of each
}

// newMaster starts from patterns of one part each, of sheets that there are enough of; where no such sheet holds a part, a pattern that there is not, at
// twice the dearest sheet's cost. Of sheets that there are only some of none is cut.
func newMaster(k *pieces, parts []Part) *master {
	n := k.rows
	m := &master{cost: make([]float64, n), x: make([]float64, n)}
	for i := range n {
		m.inverse = append(m.inverse, make([]float64, n))
		m.inverse[i][i] = -1
	}
	for i := range parts {
		most, cost := 1.0, 2.0
		for j, s := range k.sheets {
			for _, w := range k.ways[i] {
				if c := float64(s.X/w[0]) * float64(s.Y/w[1]); k.row[j] < 0 && c > 0 && k.cost[j]/c < cost/most {
					most, cost = c, k.cost[j]
				}
			}
		}
		m.inverse[i][i] = 1 / most
		m.cost[i] = cost
		m.x[i] = float64(parts[i].Count) / most
	}
	for j, r := range k.row {
		if r >= 0 {
			m.x[r] = float64(k.sheets[j].Count)
		}
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
				if c := m.cost[j]; c != 0 {
					p += float64(c * row[i])
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

// value is what the program costs.
func (m *master) value() float64 {
	sum := 0.0
	for j, c := range m.cost {
		sum += float64(c * m.x[j])
	}
	return sum
}

// enter takes a pattern into the basis if it is worth more than it costs.
func (m *master) enter(column, price []float64, cost float64) bool {
	worth := 0.0
	for i := range column {
		worth += float64(column[i] * price[i])
	}
	return worth > cost+1e-7 && m.pivot(column, cost)
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
