package solve

import "math"

// mix is the linear program: patterns in such numbers that every part is cut often enough, for as little cost as possible. Its
// basis is kept as an inverse; rows are the types that are out.
type mix struct {
	rows    []int32 // the types
	row     []int32 // of each type, or none
	inverse [][]float64
	cost    []float64 // of what is in the basis
	id      []int     // the pattern, or -1
	x       []float64
	price   []float64 // of each row
	d       []float64 // scratch
}

func newMix(st *state) *mix {
	m := &mix{row: make([]int32, len(st.in.types))}
	for t := range m.row {
		m.row[t] = none
	}
	for _, t := range st.outs {
		m.row[t] = int32(len(m.rows))
		m.rows = append(m.rows, t)
	}
	n := len(m.rows)
	m.cost, m.id, m.x, m.price, m.d = make([]float64, n), make([]int, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i, t := range m.rows { // a sheet with nothing else on it
		m.inverse = append(m.inverse, make([]float64, n))
		m.inverse[i][i] = 1
		m.cost[i], m.id[i], m.x[i] = 2, -1, float64(st.out[t])
	}
	return m
}

// prices works out anew what one more of each part would cost; enter keeps them up to date but for small errors.
func (m *mix) prices() {
	clear(m.price)
	for j, row := range m.inverse {
		if c := m.cost[j]; c != 0 {
			for i, v := range row {
				m.price[i] += float64(c * v)
			}
		}
	}
}

// gain is by how much a pattern is worth more than it costs.
func (m *mix) gain(q *pattern) float64 {
	sum := -q.cost
	for i, t := range q.of {
		sum += float64(float64(q.n[i]) * m.price[m.row[t]])
	}
	return sum
}

// enter brings a pattern into the basis; -1 is a surplus of the part in row at.
func (m *mix) enter(q *pattern, id int, at int) bool {
	gain := 0.0
	if q == nil {
		gain = -m.price[at]
	} else {
		gain = m.gain(q)
	}
	clear(m.d)
	out, step := -1, math.Inf(1)
	for j, row := range m.inverse {
		if q == nil {
			m.d[j] = -row[at]
		} else {
			for i, t := range q.of {
				m.d[j] += float64(row[m.row[t]] * float64(q.n[i]))
			}
		}
		if m.d[j] > 1e-9 && m.x[j]/m.d[j] < step {
			out, step = j, m.x[j]/m.d[j]
		}
	}
	if out < 0 {
		return false
	}
	top := m.inverse[out]
	for i := range top {
		top[i] /= m.d[out]
		m.price[i] -= float64(gain * top[i])
	}
	for j, row := range m.inverse {
		if j == out || m.d[j] == 0 {
			continue
		}
		m.x[j] = max(0, m.x[j]-float64(step*m.d[j]))
		for i, p := range top {
			row[i] -= float64(m.d[j] * p)
		}
	}
	m.x[out], m.id[out], m.cost[out] = step, id, 0
	if q != nil {
		m.cost[out] = q.cost
	}
	return true
}

// anew is after how many steps prices are worked out anew, and tiny is what counts as nothing.
const (
	anew = 50
	tiny = 1e-7
)

// least solves the program over the patterns of the pool that the parts which are out suffice for.
func (m *mix) least(st *state, p *pool, b *budget) bool {
	var fit []int
	for i := range p.list {
		if q := &p.list[i]; !q.past && st.suffices(q) {
			fit = append(fit, i)
		}
	}
	var some []int // those that were worth more than they cost when all were looked at last
	for n := range 6*len(m.rows) + 20 {
		if !b.step() {
			return false
		}
		if n%anew == 0 {
			m.prices()
		}
		high, at, short := tiny, -1, -1
		for i, v := range m.price {
			if -v > high {
				high, short = -v, i
			}
		}
		left := some[:0]
		for _, i := range some {
			if g := m.gain(&p.list[i]); g > tiny {
				left = append(left, i)
				if g > high {
					high, at, short = g, i, -1
				}
			}
		}
		some = left
		if len(some) == 0 {
			for _, i := range fit {
				if g := m.gain(&p.list[i]); g > tiny {
					some = append(some, i)
					if g > high {
						high, at, short = g, i, -1
					}
				}
			}
		}
		switch {
		case at >= 0 && m.enter(&p.list[at], at, 0):
		case at < 0 && short >= 0 && m.enter(nil, -1, short):
		default:
			return true
		}
	}
	return true
}

// value of the program.
func (m *mix) value() float64 {
	sum := 0.0
	for j, x := range m.x {
		sum += float64(x * m.cost[j])
	}
	return sum
}
