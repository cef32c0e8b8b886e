package strength_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/finding"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength"
)

type key struct {
	code finding.Code
	at   string
}

// judged gives the known findings by code and place; the worst where there are several.
func judged(list finding.List) map[key]finding.Finding {
	m := map[key]finding.Finding{}
	for _, f := range list {
		k := key{f.Code, f.At}
		if was, ok := m[k]; f.Verdict != finding.NotKnown && (!ok || was.Ratio() < f.Ratio()) {
			m[k] = f
		}
	}
	return m
}

// loaded gives every bay a stated load.
func loaded(in strength.Input, of func(i int) mass.Mass) strength.Input {
	a := *in.All
	a.Bays = slices.Clone(a.Bays)
	for i := range a.Bays {
		a.Bays[i].Load = of(i)
	}
	in.All = &a
	return in
}

// tables gives the input a catalogue of its own, changed.
func tables(in strength.Input, change func(*stock.Catalogue)) strength.Input {
	c := *in.Job
	c.Catalogue.Materials = slices.Clone(c.Catalogue.Materials)
	c.Catalogue.Species = slices.Clone(c.Catalogue.Species)
	c.Catalogue.Hardware = slices.Clone(c.Catalogue.Hardware)
	change(&c.Catalogue)
	in.Job = &c
	return in
}

// worse fails when something that both know got better. Where a case that stood free is now held
// by its wall, the two ratios measure different things.
func worse(t interface{ Errorf(string, ...any) }, what string, before, after finding.List) {
	b, a := judged(before), judged(after)
	for k, f := range b {
		if g, ok := a[k]; ok && f.Unit == g.Unit && g.Ratio() < f.Ratio()*(1-2e-3) && !(f.Capacity == 0 || g.Capacity == 0) {
			t.Errorf("%s made %s at %s better: %.4f, was %.4f\n%s\n%s", what, k.code, k.at, g.Ratio(), f.Ratio(), say(f), say(g))
		}
	}
}

func TestMoreLoadIsNeverBetter(t *testing.T) {
	for _, name := range []string{"marram-point", "ostler-row", "fennel-street"} {
		in := input(read(t, name, text(t, name)))
		rapid.Check(t, func(t *rapid.T) {
			var less, more []mass.Mass
			for range in.All.Bays {
				kg := rapid.Int64Range(1, 60_000).Draw(t, "g")
				less = append(less, mass.Mass(kg)*mass.Gram)
				more = append(more, mass.Mass(kg+rapid.Int64Range(0, 60_000).Draw(t, "more"))*mass.Gram)
			}
			carried := func(kg []mass.Mass) finding.List {
				l := strength.Check(loaded(in, func(i int) mass.Mass { return kg[i] }))
				return slices.DeleteFunc(l, func(f finding.Finding) bool { // a stated load is also leave to put so much there
					return f.Code == strength.GoodsRoom || f.Code == strength.OutOfReach || f.Code == strength.LiftIndex
				})
			}
			worse(t, "more load", carried(less), carried(more))
		})
		if testing.Short() {
			break
		}
	}
}

// Heavier goods, all of them or one kind, never make anything better in any of the examples.
func TestHeavierGoodsAreNeverBetter(t *testing.T) {
	for _, name := range names {
		if testing.Short() && name != "ostler-row" {
			continue
		}
		in := input(read(t, name, text(t, name)))
		before := strength.Check(in)
		heavier := func(k float64, only int) {
			n, c := in, *in.Job
			c.Goods = slices.Clone(c.Goods)
			for i := range c.Goods {
				if c.Goods[i].Each != nil && (only < 0 || only == i) {
					kg := mass.Mass(float64(*c.Goods[i].Each) * k)
					c.Goods[i].Each = &kg
				}
			}
			n.Job = &c
			worse(t, fmt.Sprintf("%s: goods %d, %.2f times as heavy", name, only, k), before, strength.Check(n))
		}
		for _, k := range []float64{1.03, 1.5, 4} {
			heavier(k, -1)
		}
		for i := range in.Job.Goods {
			heavier(2, i)
		}
	}
}

func TestSofterWoodIsNeverBetter(t *testing.T) {
	for _, name := range names {
		if name == "marram-point" || !testing.Short() {
			softer(t, name)
		}
	}
}

func softer(t *testing.T, name string) {
	in := input(read(t, name, text(t, name)))
	before := strength.Check(in)
	weaker := func(r stock.Ratio, k float64) stock.Ratio {
		v, ok := r.Float()
		if !ok {
			return r
		}
		return stock.Ratio(fmt.Sprintf("%.6g", v*k))
	}
	for _, k := range []float64{0.98, 0.8, 0.5} {
		after := strength.Check(tables(in, func(c *stock.Catalogue) {
			for i := range c.Materials {
				m := &c.Materials[i]
				for _, r := range []*stock.Ratio{&m.ELong, &m.EAcross, &m.FLong, &m.FAcross, &m.GPanel, &m.GPlanar, &m.Gravity} {
					*r = weaker(*r, k)
				}
				m.Creep = weaker(m.Creep, 1/k)
			}
			for i := range c.Species {
				s := &c.Species[i]
				for _, r := range []*stock.Ratio{&s.E, &s.F, &s.Gravity} {
					*r = weaker(*r, k)
				}
			}
		}))
		worse(t, fmt.Sprintf("%s: wood at %.2f of its figures", name, k), before, after)
	}
}

// What is deleted never makes anything hold that did not.
func TestNothingMissingEverHolds(t *testing.T) {
	sets := names
	if testing.Short() {
		sets = []string{"ostler-row"}
	}
	for _, name := range sets {
		t.Run(name, func(t *testing.T) {
			in := input(read(t, name, text(t, name)))
			held := map[key]bool{}
			all := strength.Check(in)
			for _, f := range all {
				if f.Verdict == finding.Holds || f.Verdict == finding.Near {
					held[key{f.Code, f.At}] = true
				}
			}
			strict := false
			try := func(what string, in strength.Input) {
				list := strength.Check(in)
				// Nor does a strength, a creep or a specific gravity: what is still known is as bad as it was, or worse.
				if strict {
					worse(t, "without "+what, all, list)
				}
				for _, f := range list {
					if (f.Verdict == finding.Holds || f.Verdict == finding.Near) && !held[key{f.Code, f.At}] {
						t.Errorf("without %s holds now: %s", what, say(f))
					}
				}
			}
			try("any weight of a part", func() strength.Input { n := in; n.Masses = nil; return n }())
			for i := range in.All.Parts {
				if i%5 > 0 {
					continue
				}
				strict = true
				n := in
				n.Masses = masses(in.Job, in.All.Parts)
				delete(n.Masses, in.All.Parts[i].Mark)
				try("the weight of "+in.All.Parts[i].Mark, n)
			}
			for i, m := range in.Job.Catalogue.Materials {
				if !slices.ContainsFunc(in.Job.Catalogue.Boards, func(b stock.Board) bool {
					return b.Material == m.ID && slices.ContainsFunc(in.All.Parts, func(p part.Part) bool { return p.Stock == b.ID })
				}) {
					continue
				}
				for k := range 8 {
					strict = k == 2 || k == 3 || k == 6 || k == 7
					try(fmt.Sprintf("figure %d of %s", k, m.ID), tables(in, func(c *stock.Catalogue) {
						m := &c.Materials[i]
						*[]*stock.Ratio{&m.ELong, &m.EAcross, &m.FLong, &m.FAcross, &m.GPanel, &m.GPlanar, &m.Gravity, &m.Creep}[k] = ""
					}))
				}
			}
			for k := range 4 {
				strict = k == 1 || k == 3
				try(fmt.Sprintf("figure %d of every species", k), tables(in, func(c *stock.Catalogue) {
					for i := range c.Species {
						s := &c.Species[i]
						*[]*stock.Ratio{&s.E, &s.F, &s.Gravity, &s.Creep}[k] = ""
					}
				}))
			}
			strict = true
			try("every rating", tables(in, func(c *stock.Catalogue) {
				for i := range c.Hardware {
					c.Hardware[i].Rating = nil
				}
			}))
			try("every screw's size", tables(in, func(c *stock.Catalogue) {
				for i := range c.Hardware {
					h := &c.Hardware[i]
					h.Gauge, h.Dia, h.Root, h.Head = 0, 0, 0, 0
				}
			}))
			n := in
			a := *in.All
			a.Motions, a.Feet = slices.Clone(a.Motions), slices.Clone(a.Feet)
			for i := range a.Motions {
				a.Motions[i].Rating = 0
			}
			for i := range a.Feet {
				a.Feet[i].Rating = 0
			}
			n.All = &a
			try("ratings of slides and feet", n)
			for k, what := range []string{"the make-up of walls", "the studs", "the lining"} {
				n := in
				r := *in.Room
				r.Walls = slices.Clone(r.Walls)
				for i := range r.Walls {
					w := &r.Walls[i]
					switch k {
					case 0:
						w.Kind = "not-known"
					case 1:
						w.StudsKnown = false
					case 2:
						w.LiningKnown = false
					}
				}
				n.Room = &r
				try(what, n)
			}
			c := *in.Job
			c.Goods = slices.Clone(c.Goods)
			for i := range c.Goods {
				c.Goods[i].Each = nil
			}
			n = in
			n.Job = &c
			try("the weight of goods", n)
		})
	}
}
