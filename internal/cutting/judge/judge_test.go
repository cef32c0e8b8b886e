package judge_test

import (
	"context"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
)

const mm = length.MM

// sample has everything that a plan can go wrong in: kerf, trim, grain, a damaged sheet on hand, a strip
// of fronts, counts and limits.
func sample() *cutting.Problem {
	return &cutting.Problem{
		Stocks: []cutting.Stock{
			{ID: "ply", L: 2440 * mm, W: 1220 * mm, Count: 4, Price: 60_0000, Grain: cutting.GrainX, Mass: 9000,
				Kerf: cutting.Kerf{X: 3 * mm, Y: 2*mm + 1}, Trim: cutting.Trim{Left: 10 * mm, Bottom: 5 * mm}},
			{ID: "rest", L: 1200 * mm, W: 800 * mm, Count: 1, OnHand: true, Grain: cutting.GrainX,
				Kerf: cutting.Kerf{X: 3 * mm, Y: 3 * mm}, Damage: []cutting.Rect{{X: 500 * mm, Y: 300 * mm, L: 60 * mm, W: 50 * mm}}},
		},
		Parts: []cutting.Part{
			{ID: "side", L: 720 * mm, W: 560 * mm, Count: 6, Lay: cutting.Along},
			{ID: "shelf", L: 564 * mm, W: 540 * mm, Count: 5},
			{ID: "rail", L: 564 * mm, W: 100 * mm, Count: 6, Lay: cutting.Across},
			{ID: "door", L: 700 * mm, W: 597 * mm, Count: 1, Lay: cutting.Along, Stocks: []string{"ply"}},
			{ID: "front1", L: 597 * mm, W: 140 * mm, Count: 1, Lay: cutting.Along, Group: "bank"},
			{ID: "front2", L: 597 * mm, W: 180 * mm, Count: 2, Lay: cutting.Along, Group: "bank"},
		},
		Groups: []cutting.Group{{ID: "bank", Strip: true, Axis: cutting.Across}},
		Limits: cutting.Limits{Heaviest: 20_000, Narrow: 120 * mm, Largest: 900 * mm, Rough: &cutting.Rough{Kerf: 2 * mm, Allowance: 4 * mm}},
		Keep:   cutting.Keep{Least: 100 * mm},
	}
}

func plan(t *testing.T, p *cutting.Problem) *cutting.Plan {
	t.Helper()
	pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 500}, nil)
	if len(pl.Unplaced) > 0 {
		t.Fatalf("not complete: %v", pl.Unplaced)
	}
	for _, f := range judge.Check(p, pl) {
		t.Errorf("sound plan: %v", f)
	}
	if t.Failed() {
		t.FailNow()
	}
	return pl
}

// find gives the first piece of a part.
func find(pl *cutting.Plan, part string) (sheet, piece int) {
	for i, s := range pl.Sheets {
		for n, pc := range s.Pieces {
			if pc.Part == part {
				return i, n
			}
		}
	}
	panic("no such part")
}

// rough gives a rough first cut.
func rough(pl *cutting.Plan) *cutting.Cut {
	for i := range pl.Sheets {
		for k := range pl.Sheets[i].Cuts {
			if c := &pl.Sheets[i].Cuts[k]; c.Work == cutting.Roughing {
				return c
			}
		}
	}
	panic("no rough cut")
}

func TestEachFaultIsFound(t *testing.T) {
	for _, tt := range []struct {
		name, code string
		spoil      func(p *cutting.Problem, pl *cutting.Plan)
	}{
		{"one tick into the kerf", "not-cut", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Sheets[0].Pieces[0].X++
		}},
		{"a cut one tick too narrow", "kerf", func(p *cutting.Problem, pl *cutting.Plan) {
			for i := range pl.Sheets[0].Cuts {
				if c := &pl.Sheets[0].Cuts[i]; c.Work != cutting.Trimming {
					c.Kerf--
					return
				}
			}
		}},
		{"wrong grain", "grain", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Parts[0].Lay = cutting.Across
		}},
		{"turned in name only", "size", func(p *cutting.Problem, pl *cutting.Plan) {
			i, n := find(pl, "side")
			pl.Sheets[i].Pieces[n].Turned = true
		}},
		{"a part lost", "part-lost", func(p *cutting.Problem, pl *cutting.Plan) {
			s := &pl.Sheets[0]
			s.Pieces = s.Pieces[:len(s.Pieces)-1]
		}},
		{"a part doubled", "part-doubled", func(p *cutting.Problem, pl *cutting.Plan) {
			s := &pl.Sheets[0]
			s.Pieces = append(s.Pieces, s.Pieces[0])
		}},
		{"a part nobody asked for", "part-unknown", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Sheets[0].Pieces[0].Part = "gift"
		}},
		{"a cut not through", "not-through", func(p *cutting.Problem, pl *cutting.Plan) {
			c := pl.Sheets[0].Cuts
			c[len(c)-1].Of.W -= 5
		}},
		{"a count exceeded", "count-exceeded", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Stocks[0].Count = 1
		}},
		{"a damaged place used", "damaged", func(p *cutting.Problem, pl *cutting.Plan) {
			i, n := find(pl, "side")
			for k := range p.Stocks {
				if p.Stocks[k].ID == pl.Sheets[i].Stock {
					r := pl.Sheets[i].Pieces[n].Rect
					p.Stocks[k].Damage = []cutting.Rect{{X: r.X + r.L - 1, Y: r.Y + r.W - 1, L: 5, W: 5}}
				}
			}
		}},
		{"a stock it may not come from", "wrong-stock", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Parts[0].Stocks = []string{"other"}
		}},
		{"a group parted", "group-parted", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Groups[0].Axis = cutting.Along
		}},
		{"a warning left out", "warning", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Warnings = pl.Warnings[1:]
		}},
		{"more directions of cutting than allowed", "stages", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Limits.Stages = 1
		}},
		{"wider than the fence", "fence", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Limits.Largest = 50 * mm
		}},
		{"a setting that measures nothing", "setting", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Sheets[0].Cuts[len(pl.Sheets[0].Cuts)-1].Setting++
		}},
		{"the fence is set to the waste", "waste", func(p *cutting.Problem, pl *cutting.Plan) {
			for i := range pl.Sheets[0].Cuts {
				c := &pl.Sheets[0].Cuts[i]
				rest := c.Of.L - c.Setting - c.Kerf
				if c.Axis == cutting.Y {
					rest = c.Of.W - c.Setting - c.Kerf
				}
				if len(c.Frees) > 0 && len(c.Leaves) > 0 && rest > 0 && rest != c.Setting {
					c.Setting = rest
					return
				}
			}
		}},
		{"a piece freed by another cut", "frees", func(p *cutting.Problem, pl *cutting.Plan) {
			for i := range pl.Sheets[0].Cuts {
				if c := &pl.Sheets[0].Cuts[i]; len(c.Frees) > 0 {
					pl.Sheets[0].Cuts[0].Frees = append(pl.Sheets[0].Cuts[0].Frees, c.Frees[0])
					c.Frees = c.Frees[1:]
					return
				}
			}
		}},
		{"an offcut forgotten", "forgotten", func(p *cutting.Problem, pl *cutting.Plan) {
			for i := range pl.Sheets {
				if s := &pl.Sheets[i]; len(s.Offcuts) > 0 {
					s.Offcuts = s.Offcuts[:len(s.Offcuts)-1]
					return
				}
			}
		}},
		{"areas that do not balance", "area", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Sheets[0].Area.Kerf++
		}},
		{"cuts out of order", "order", func(p *cutting.Problem, pl *cutting.Plan) {
			c := pl.Sheets[0].Cuts
			c[0].Seq, c[1].Seq = c[1].Seq, c[0].Seq
		}},
		{"a bound above the plan", "bound", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Bounds.Cost = pl.Totals.Cost + 1
		}},
		{"a group on two sheets", "group-parted", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Parts[0].Group = "set"
			p.Groups = append(p.Groups, cutting.Group{ID: "set"})
		}},
		{"a part over the edge that is trimmed", "outside", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Stocks[0].Trim.Left++
		}},
		{"another sheet than there is", "sheet-changed", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Sheets[0].L++
		}},
		{"a sheet that nobody has", "stock-unknown", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Sheets[0].Stock = "other"
		}},
		{"nothing unplaced", "unplaced-count", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Unplaced = append(pl.Unplaced, cutting.Unplaced{Part: "side"})
		}},
		{"a cut beside its piece", "cut-outside", func(p *cutting.Problem, pl *cutting.Plan) {
			c := &pl.Sheets[0].Cuts[len(pl.Sheets[0].Cuts)-1]
			c.At = c.Of.X + c.Of.L + c.Of.Y + c.Of.W
		}},
		{"trimming in the middle", "trim", func(p *cutting.Problem, pl *cutting.Plan) {
			rough(pl).Work = cutting.Trimming
		}},
		{"a rough cut on an edge that is not cut again", "rough", func(p *cutting.Problem, pl *cutting.Plan) {
			for i := range pl.Sheets {
				for k := range pl.Sheets[i].Cuts {
					if c := &pl.Sheets[i].Cuts[k]; c.Work == cutting.Crosscut {
						c.Work, c.Hand, c.Stage = cutting.Roughing, true, 1
						return
					}
				}
			}
		}},
		{"less left on than the allowance", "rough", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Limits.Rough = &cutting.Rough{Kerf: 2 * mm, Allowance: 4*mm + 1}
		}},
		{"a heavy sheet pushed through the saw", "rough", func(p *cutting.Problem, pl *cutting.Plan) {
			rough(pl).Hand = false
		}},
		{"re-cuts of what was never rough", "rough", func(p *cutting.Problem, pl *cutting.Plan) {
			p.Limits.Rough = nil
		}},
		{"a rough cut with the other saw's kerf", "kerf", func(p *cutting.Problem, pl *cutting.Plan) {
			rough(pl).Kerf++
		}},
		{"a sum that is wrong", "totals", func(p *cutting.Problem, pl *cutting.Plan) {
			pl.Totals.Settings--
		}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := sample()
			pl := plan(t, p)
			tt.spoil(p, pl)
			faults := judge.Check(p, pl)
			for _, f := range faults {
				if f.Code == tt.code {
					return
				}
			}
			t.Errorf("no fault %s among %v", tt.code, faults)
		})
	}
}

// plain is a second judge, of pieces alone: inside, the right way, a kerf apart, and to be freed by
// cuts from edge to edge, found by trying them all.
func plain(p *cutting.Problem, pl *cutting.Plan) bool {
	want := map[string]int{}
	for _, pt := range p.Parts {
		want[pt.ID] = pt.Count
	}
	for _, s := range pl.Sheets {
		var st *cutting.Stock
		for i := range p.Stocks {
			if p.Stocks[i].ID == s.Stock {
				st = &p.Stocks[i]
			}
		}
		var rs []cutting.Rect
		for _, pc := range s.Pieces {
			want[pc.Part]--
			u := st.Usable()
			if pc.X < u.X || pc.Y < u.Y || pc.X+pc.L > u.X+u.L || pc.Y+pc.W > u.Y+u.W {
				return false
			}
			for _, pt := range p.Parts {
				l, w := pt.L, pt.W
				if pc.Turned {
					l, w = w, l
				}
				if pt.ID == pc.Part && (pc.L != l || pc.W != w || pt.Lay == cutting.Along && pc.Turned || pt.Lay == cutting.Across && !pc.Turned) {
					return false
				}
			}
			for _, d := range st.Damage {
				if pc.X < d.X+d.L && d.X < pc.X+pc.L && pc.Y < d.Y+d.W && d.Y < pc.Y+pc.W {
					return false
				}
			}
			rs = append(rs, pc.Rect)
		}
		if !sawable(rs, st.Kerf) {
			return false
		}
	}
	for _, n := range want {
		if n != 0 {
			return false
		}
	}
	return true
}

func sawable(rs []cutting.Rect, k cutting.Kerf) bool {
	if len(rs) < 2 {
		return true
	}
	for _, c := range rs {
		var lo, hi []cutting.Rect
		ok := true
		for _, r := range rs {
			switch {
			case r.X+r.L <= c.X+c.L:
				lo = append(lo, r)
			case r.X >= c.X+c.L+k.X:
				hi = append(hi, r)
			default:
				ok = false
			}
		}
		if ok && len(hi) > 0 {
			return sawable(lo, k) && sawable(hi, k)
		}
		lo, hi, ok = nil, nil, true
		for _, r := range rs {
			switch {
			case r.Y+r.W <= c.Y+c.W:
				lo = append(lo, r)
			case r.Y >= c.Y+c.W+k.Y:
				hi = append(hi, r)
			default:
				ok = false
			}
		}
		if ok && len(hi) > 0 {
			return sawable(lo, k) && sawable(hi, k)
		}
	}
	return false
}

// TestMutations spoils single numbers of a sound plan: whatever the plain judge refuses, the
// judge refuses; and since its cuts no longer free the pieces, it refuses moved ones too.
func TestMutations(t *testing.T) {
	p := sample()
	pl := plan(t, p)
	if !plain(p, pl) {
		t.Fatal("the plain judge refuses a sound plan")
	}
	refused := 0
	for i := range pl.Sheets {
		for n := range pl.Sheets[i].Pieces {
			pc := &pl.Sheets[i].Pieces[n]
			for _, v := range []*length.Length{&pc.X, &pc.Y, &pc.L, &pc.W} {
				for _, d := range []length.Length{-1, 1, -mm, mm, 400 * mm} {
					*v += d
					if !plain(p, pl) {
						refused++
					}
					if len(judge.Check(p, pl)) == 0 {
						t.Errorf("sheet %d piece %d by %d: no fault", i, n, d)
					}
					*v -= d
				}
			}
			pc.Turned = !pc.Turned
			if !plain(p, pl) && len(judge.Check(p, pl)) == 0 {
				t.Errorf("sheet %d piece %d turned: no fault", i, n)
			}
			pc.Turned = !pc.Turned
		}
		for n := range pl.Sheets[i].Cuts {
			c := &pl.Sheets[i].Cuts[n]
			for _, v := range []*length.Length{&c.At, &c.Kerf, &c.Of.X, &c.Of.L} {
				*v++
				if len(judge.Check(p, pl)) == 0 {
					t.Errorf("sheet %d cut %d: no fault", i, n)
				}
				*v--
			}
		}
	}
	if refused == 0 {
		t.Error("the plain judge refused nothing")
	}
}
