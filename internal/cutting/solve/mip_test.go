package solve_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
	"stowright/internal/money"
	"stowright/internal/plan/plantest"
)

// model writes a problem of whole millimetres as a mixed-integer model: plates of every size that cuts can make, how often
// each is cut at each place, and which are kept as parts (Furini, Malaguti and Thomopulos, "Modeling
// two-dimensional guillotine cutting problems via integer programming", INFORMS Journal on Computing 2016). Cuts stand
// where parts side by side end, which loses no plan. It shares nothing with the solver.
type model struct {
	p      *cutting.Problem
	ends   [][2][]int // of each stock: where cuts on either axis can stand
	plates map[plate]int
	list   []plate
	gain   []map[string]int // of each plate: what makes it, +, and what takes it, -
	whole  []string         // the integer variables
	keep   [][]string       // of each part: the variables that keep a plate as it
}

// plate is a piece of a stock, x by y.
type plate struct{ stock, x, y int }

func newModel(p *cutting.Problem) *model {
	m := &model{p: p, plates: map[plate]int{}, keep: make([][]string, len(p.Parts))}
	for s := range p.Stocks {
		st := &p.Stocks[s]
		var ends [2]map[int]bool
		for axis, kerf := range [2]int{units(st.Kerf.X), units(st.Kerf.Y)} {
			ends[axis] = map[int]bool{-kerf: true}
			for i := range p.Parts {
				for range p.Parts[i].Count {
					from := ends[axis]
					ends[axis] = map[int]bool{}
					for e := range from {
						ends[axis][e] = true
						for _, size := range m.ways(s, i) {
							ends[axis][e+kerf+size[axis]] = true
						}
					}
				}
			}
		}
		var sorted [2][]int
		for axis := range ends {
			for e := range ends[axis] {
				if e > 0 {
					sorted[axis] = append(sorted[axis], e)
				}
			}
			slices.Sort(sorted[axis])
		}
		m.ends = append(m.ends, sorted)
	}
	for s := range p.Stocks {
		m.plate(plate{s, units(p.Stocks[s].L), units(p.Stocks[s].W)})
	}
	for i := 0; i < len(m.list); i++ {
		m.cut(i)
	}
	return m
}

// ways gives the sizes that a part can have on a stock.
func (m *model) ways(s, i int) (list [][2]int) {
	pt := &m.p.Parts[i]
	straight, turned := m.p.Stocks[s].Allows(pt.Lay)
	if straight {
		list = append(list, [2]int{units(pt.L), units(pt.W)})
	}
	if turned && (pt.L != pt.W || !straight) {
		list = append(list, [2]int{units(pt.W), units(pt.L)})
	}
	return list
}

func (m *model) plate(q plate) int {
	i, ok := m.plates[q]
	if !ok {
		i = len(m.list)
		m.plates[q] = i
		m.list = append(m.list, q)
		m.gain = append(m.gain, map[string]int{})
	}
	return i
}

// cut lists what can be done with plate i.
func (m *model) cut(i int) {
	q := m.list[i]
	for k := range m.p.Parts {
		if slices.Contains(m.ways(q.stock, k), [2]int{q.x, q.y}) {
			v := fmt.Sprintf("keep_%d_%d", i, k)
			m.whole = append(m.whole, v)
			m.keep[k] = append(m.keep[k], v)
			m.gain[i][v]--
		}
	}
	st := &m.p.Stocks[q.stock]
	for axis, kerf := range [2]int{units(st.Kerf.X), units(st.Kerf.Y)} {
		whole := q.x
		if axis == 1 {
			whole = q.y
		}
		for _, e := range m.ends[q.stock][axis] {
			if e >= whole {
				break
			}
			v := fmt.Sprintf("cut_%d_%d_%d", i, axis, e)
			m.whole = append(m.whole, v)
			m.gain[i][v]--
			for _, size := range [2]int{e, whole - e - kerf} {
				piece := plate{q.stock, size, q.y}
				if axis == 1 {
					piece = plate{q.stock, q.x, size}
				}
				if size > 0 && m.useful(piece) {
					m.gain[m.plate(piece)][v]++
				}
			}
		}
	}
}

// useful tells whether any part can come from a plate.
func (m *model) useful(q plate) bool {
	for k := range m.p.Parts {
		for _, w := range m.ways(q.stock, k) {
			if w[0] <= q.x && w[1] <= q.y {
				return true
			}
		}
	}
	return false
}

// lp writes the model in LP format.
func (m *model) lp() string {
	var b strings.Builder
	terms := func(of map[string]int) {
		var names []string
		for v := range of {
			names = append(names, v)
		}
		slices.Sort(names)
		for _, v := range names {
			fmt.Fprintf(&b, " %+d %s", of[v], v)
		}
	}
	b.WriteString("Minimize\n cost:")
	for s := range m.p.Stocks {
		fmt.Fprintf(&b, " + %d sheet_%d", m.p.Cost(s), s)
	}
	b.WriteString("\nSubject To\n")
	for i := range m.list {
		if i < len(m.p.Stocks) {
			m.gain[i][fmt.Sprintf("sheet_%d", i)]++
		}
		fmt.Fprintf(&b, " plate_%d:", i)
		terms(m.gain[i])
		b.WriteString(" >= 0\n")
	}
	for k := range m.p.Parts {
		fmt.Fprintf(&b, " part_%d:", k)
		for _, v := range m.keep[k] {
			fmt.Fprintf(&b, " + %s", v)
		}
		fmt.Fprintf(&b, " >= %d\n", m.p.Parts[k].Count)
	}
	b.WriteString("Bounds\n")
	for s := range m.p.Stocks {
		n := m.p.Stocks[s].Count
		if n == cutting.Unlimited {
			n = 100
		}
		fmt.Fprintf(&b, " 0 <= sheet_%d <= %d\n", s, n)
		m.whole = append(m.whole, fmt.Sprintf("sheet_%d", s))
	}
	b.WriteString("General\n")
	for _, v := range m.whole {
		fmt.Fprintf(&b, " %s\n", v)
	}
	b.WriteString("End\n")
	return b.String()
}

// smallJob draws a job of whole millimetres with kerf, grain and two stocks that can be cut completely.
func smallJob(r *rand.Rand) *cutting.Problem {
	size := func(lo, hi int) length.Length { return length.Length(lo+r.IntN(hi-lo+1)) * mm }
	p := &cutting.Problem{Seed: r.Uint64()}
	kerf := cutting.Kerf{X: size(0, 2), Y: size(0, 2)}
	grain := cutting.Grain(r.IntN(3))
	p.Stocks = []cutting.Stock{
		{ID: "whole", L: size(16, 22), W: size(10, 15), Count: cutting.Unlimited, Grain: grain, Kerf: kerf, Price: 100},
		{ID: "half", L: size(10, 15), W: size(7, 10), Count: r.IntN(4), Grain: cutting.Grain(r.IntN(3)), Kerf: kerf, Price: money.Amount(25 + r.IntN(40))},
	}
	for i := range 4 + r.IntN(3) {
		pt := cutting.Part{ID: fmt.Sprint("p", i), L: size(3, 10), W: size(3, 8), Count: 1 + r.IntN(2), Lay: cutting.Lay(r.IntN(3))}
		p.Parts = append(p.Parts, pt)
	}
	return p
}

// TestAgainstMIP: a general solver of mixed-integer models (HiGHS) proves what small jobs cost at least, and the
// solver finds plans of that cost. With the price of a sheet planted wrong in the model the two no longer agree.
func TestAgainstMIP(t *testing.T) {
	if testing.Short() {
		t.Skip("long: a general solver proves a dozen small jobs")
	}
	dir := t.TempDir()
	r := rand.New(rand.NewPCG(5, 8))
	var jobs []*cutting.Problem
	var files []string
	write := func(p *cutting.Problem) {
		name := filepath.Join(dir, fmt.Sprintf("job%d.lp", len(files)))
		if err := os.WriteFile(name, []byte(newModel(p).lp()), 0o644); err != nil {
			t.Fatal(err)
		}
		files = append(files, name)
	}
	for len(jobs) < 12 {
		p := smallJob(r)
		jobs = append(jobs, p)
		write(p)
	}
	planted := *jobs[0]
	planted.Stocks = slices.Clone(planted.Stocks)
	planted.Stocks[0].Price++
	write(&planted)

	var found []struct {
		Status string
		Value  float64
	}
	plantest.Node(t, &found, "mip-solve.mjs", files...)
	if len(found) != len(files) {
		t.Fatalf("%d answers to %d models", len(found), len(files))
	}
	agrees := func(p *cutting.Problem, value float64) (int64, bool) {
		pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 100_000, Proof: 40_000_000}, nil)
		sound(t, p, pl)
		return pl.Totals.Cost, len(pl.Unplaced) == 0 && float64(pl.Totals.Cost) == math.Round(value)
	}
	for i, p := range jobs {
		if found[i].Status != "Optimal" {
			t.Errorf("job %d: the general solver says %s", i, found[i].Status)
			continue
		}
		if cost, ok := agrees(p, found[i].Value); !ok {
			t.Errorf("job %d: cost %d, proved %v", i, cost, found[i].Value)
		}
	}
	if _, ok := agrees(jobs[0], found[len(jobs)].Value); ok {
		t.Error("a wrong price in the model is not noticed")
	}
}
