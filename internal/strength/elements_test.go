package strength_test

import (
	"math"
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/strength"
	"stowright/internal/strength/plainfe"
)

// within fails unless two sags agree within 2 %.
func within(t *testing.T, what string, got, want float64) {
	t.Helper()
	t.Logf("%s: %.4f mm in the finding, %.4f mm by elements (%+.2f %%)", what, got, want, 100*(got/want-1))
	if math.Abs(got-want) > 0.02*want {
		t.Errorf("%s: %.4f mm, elements %.4f mm", what, got, want)
	}
}

// slid is the shear that thin elements leave out: W L/(8 G A') of the board alone, planar G 155 MPa
// (Wood Handbook Eq. 9-2).
func slid(line, reach, deep, thick float64) float64 {
	return line * reach * reach / 8 / (155 * 5. / 6 * deep * thick)
}

// shearing is the greatest sag of a beam over supports by a plain model: many straight elements that
// bend and slide, each with its shear taken at its middle, and Gauss's elimination.
func shearing(long, deep, thick, e, shear, line float64, supports []float64) float64 {
	const n = 400
	h := long / n
	size := 2 * (n + 1)
	k := make([][]float64, size)
	for i := range k {
		k[i] = make([]float64, size+1)
	}
	ei, ga := e*deep*thick*thick*thick/12, shear*5./6*deep*thick
	for i := range n {
		// Curvature (t2-t1)/h, slide (w2-w1)/h - (t1+t2)/2.
		curve := [4]float64{0, -1 / h, 0, 1 / h}
		slide := [4]float64{-1 / h, -0.5, 1 / h, -0.5}
		for a := range 4 {
			for b := range 4 {
				k[2*i+a][2*i+b] += h * (ei*curve[a]*curve[b] + ga*slide[a]*slide[b])
			}
		}
		k[2*i][size] += line * h / 2
		k[2*i+2][size] += line * h / 2
	}
	for _, s := range supports {
		j := 2 * int(math.Round(s/h))
		for c := range k[j] {
			k[j][c] = 0
		}
		k[j][j] = 1
	}
	for c := range size {
		p := c
		for r := c; r < min(size, c+8); r++ {
			if math.Abs(k[r][c]) > math.Abs(k[p][c]) {
				p = r
			}
		}
		k[c], k[p] = k[p], k[c]
		for r := c + 1; r < min(size, c+8); r++ {
			if f := k[r][c] / k[c][c]; f != 0 {
				for x := c; x <= size; x++ {
					k[r][x] -= f * k[c][x]
				}
			}
		}
	}
	u := make([]float64, size)
	for i := size - 1; i >= 0; i-- {
		u[i] = k[i][size]
		for j := i + 1; j < size; j++ {
			u[i] -= k[i][j] * u[j]
		}
		u[i] /= k[i][i]
	}
	most := 0.0
	for i := 0; i < size; i += 2 {
		most = math.Max(most, u[i])
	}
	return most
}

// one gives the only part of a role.
func one(t *testing.T, in strength.Input, role part.Role) part.Part {
	t.Helper()
	for _, p := range in.All.Parts {
		if p.Role == role {
			return p
		}
	}
	t.Fatalf("no %s", role)
	return part.Part{}
}

const creep = 1.8 // birch plywood, EN 1995-1-1 Table 3.2: one plus 0.8

// birch18 is birch plywood of 18 mm along its face grain (Handbook of Finnish Plywood).
func birch18(t float64) plainfe.Material {
	return plainfe.Material{T: t, Ex: 10_048, Ey: 7_452, G: 620}
}

// A loose shelf with a strip of ash under its front edge, from the job to the finding, against
// finite elements with the strip's line where the strip really is.
func TestStripFromJobAgainstElements(t *testing.T) {
	in := whole(t, alone(strings.Replace(floor, "600", "900", 1)+"    inside: {shelves: {count: 1, strip: yes, part-depth: 300}, load: 60 kg}\n"))
	p, st := one(t, in, part.Shelf), one(t, in, part.EdgeStrip)
	long, deep := mmOf(p.Size[0]), mmOf(p.Size[1])
	wide, high := mmOf(st.Box().Size().Y), mmOf(st.Box().Size().Z)
	load := 60 + in.Masses[p.Mark].Kilograms() + in.Masses[st.Mark].Kilograms()
	q := load * g / long / deep
	const nx, ny = 32, 30
	if math.Abs(deep/ny*1-wide/2) > 0.5 {
		t.Fatalf("the net's second line at %g mm is not the strip's middle at %g", deep/ny, wide/2)
	}
	m := &plainfe.Model{Material: birch18(mmOf(p.Size[2])), A: long - 8, B: deep, NX: nx, NY: ny,
		Bars: []plainfe.Bar{{J: 1, Width: wide, Height: high, Drop: (high + mmOf(p.Size[2])) / 2, E: 12_000, G: 12_000. / 16}},
		Held: func(i, j int) (u, v, w, tx, ty bool) {
			end := i == 0 || i == nx
			return 2*i == nx && j == 0, end, end, false, end
		},
		Pressure: func(x, y float64) float64 { return q }}
	m.Solve()
	within(t, "strip", find(t, strength.Check(in), strength.ShelfSag, p.Mark).Demand/creep, m.Greatest()+slid(q*deep, m.A, deep, m.T))
}

// A fixed shelf that runs on over a partition, loaded over both its spans.
func TestContinuousFromJobAgainstElements(t *testing.T) {
	in := whole(t, alone(strings.Replace(floor, "600", "1200", 1)+"    inside: {up: [{across: [{open: {}, load: 5 kg}, {open: {}, load: 5 kg}]}, {open: {}, load: 150 kg}]}\n"))
	p := one(t, in, part.FixedShelf)
	f := find(t, strength.Check(in), strength.ShelfSag, p.Mark)
	var at []float64
	for _, sp := range in.All.Spans {
		if sp.Part == p.Mark && at == nil {
			for _, s := range sp.Supports {
				at = append(at, mmOf(s.At))
			}
		}
	}
	if len(at) != 3 {
		t.Fatalf("supports %v", at)
	}
	long, deep := mmOf(p.Size[0]), mmOf(p.Size[1])
	q := (150 + in.Masses[p.Mark].Kilograms()) * g / long / deep
	within(t, "continuous", f.Demand/creep, shearing(long, deep, mmOf(p.Size[2]), 10_048, 155, q*deep, at))
}

// The bottom of a drawer, held along its four edges in grooves.
func TestBottomsFromJobAgainstElements(t *testing.T) {
	in := whole(t, alone(floor+"    inside: {drawers: {count: 2}, load: 12 kg}\n"))
	p := one(t, in, part.BoxBottom)
	f := find(t, strength.Check(in), strength.DrawerBottom, p.Mark)
	a, b, th := mmOf(p.Box().Size().X), mmOf(p.Box().Size().Y), mmOf(p.Size[2])
	board, _ := in.Job.Catalogue.Board(p.Stock)
	mat, _ := in.Job.Catalogue.Material(board.Material)
	along, _ := mat.ELong.Float()
	across, _ := mat.EAcross.Float()
	shear, _ := mat.GPanel.Float()
	ex, ey := along, across
	if p.Pose.U.Axis() == 1 {
		ex, ey = across, along
	}
	load := 0.0
	for _, y := range in.All.Bays {
		if load == 0 { // two alike
			load = y.Load.Kilograms()
		}
	}
	q := (load + in.Masses[p.Mark].Kilograms()) * g / a / b
	const n = 24
	m := &plainfe.Model{Material: plainfe.Material{T: th, Ex: ex, Ey: ey, G: shear}, A: a, B: b, NX: n, NY: n,
		Held: func(i, j int) (u, v, w, tx, ty bool) {
			x, y := i == 0 || i == n, j == 0 || j == n
			return true, true, x || y, y, x
		},
		Pressure: func(x, y float64) float64 { return q }}
	m.Solve()
	if f.Unit != "mm" {
		t.Fatalf("judged by %s", f.Unit)
	}
	within(t, "drawer bottom", f.Demand/creep, m.Greatest())
}

// The base of a pull-out tray with its lips, on two ends.
func TestTrayFromJobAgainstElements(t *testing.T) {
	if testing.Short() {
		t.Skip("a net of 12 000 freedoms")
	}
	in := whole(t, alone(floor+"    inside: {trays: {count: 2}, load: 20 kg}\n"))
	p := one(t, in, part.TrayBase)
	f := find(t, strength.Check(in), strength.ShelfSag, p.Mark)
	var sp part.Span
	for _, x := range in.All.Spans {
		if x.Part == p.Mark {
			sp = x
		}
	}
	reach := mmOf(sp.Supports[1].At - sp.Supports[0].At)
	long, deep := mmOf(p.Box().Size().X), mmOf(p.Box().Size().Y)
	mass := in.All.Bays[0].Load.Kilograms() + in.Masses[p.Mark].Kilograms()
	m := &plainfe.Model{Material: birch18(mmOf(p.Size[2])), A: reach, B: deep, NX: 16, NY: 75, // a line of the net at the middle of each lip
		Held: func(i, j int) (u, v, w, tx, ty bool) {
			end := i == 0 || i == 16
			return i == 8 && j == 0, end, end, false, end
		}}
	lips := 0
	for _, l := range in.All.Parts {
		size := l.Box().Size()
		if l.Role != part.Lip || l.Moves != p.Moves || size.X < size.Y || size.X < p.Box().Size().X*8/10 {
			continue
		}
		lips++
		mass += in.Masses[l.Mark].Kilograms()
		mid := (mmOf(l.Box().Min.Z+l.Box().Max.Z) - mmOf(p.Box().Min.Z+p.Box().Max.Z)) / 2
		j := 1
		if mmOf(l.Box().Min.Y+l.Box().Max.Y) > mmOf(p.Box().Min.Y+p.Box().Max.Y) {
			j = 74
		}
		lb, _ := in.Job.Catalogue.Board(l.Stock)
		lm, _ := in.Job.Catalogue.Material(lb.Material)
		e1, _ := lm.ELong.Float()
		e2, _ := lm.EAcross.Float()
		lg, _ := lm.GPanel.Float()
		m.Bars = append(m.Bars, plainfe.Bar{J: j, Width: mmOf(size.Y), Height: mmOf(size.Z), Drop: -mid, E: (e1 + e2) / 2, G: lg})
	}
	m.Pressure = func(x, y float64) float64 { return mass * g / long / deep }
	m.Solve()
	t.Logf("%d lips along the tray", lips)
	within(t, "tray", f.Demand/creep, m.Greatest()+slid(mass*g/long, reach, deep, m.T))
}
