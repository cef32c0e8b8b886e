package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// beyond gives a sentence for every part that gets a groove which is not its own when strips are grooved as the steps
// say, and for every narrow grooved part of which they say nothing, or twice. What lies in a strip is found from the cuts: all
// that is reached from a part past crosscuts of its own width alone.
func beyond(r plan.Result) (bad []string, strips, alone int) {
	parts := map[string]part.Part{}
	for _, p := range r.Assembly.Parts {
		parts[p.Mark] = p
	}
	grooved := func(p part.Part) string { // what is worked along it, from whichever edge is nearer
		var list []string
		for _, o := range p.Ops {
			if (o.Kind == part.Groove || o.Kind == part.Rabbet) && o.L >= p.Size[0] && o.Face <= part.Lower {
				list = append(list, fmt.Sprint(o.W, o.Depth, min(o.Y, p.Size[1]-o.Y-o.W)))
			}
		}
		slices.Sort(list)
		return strings.Join(list, " ")
	}
	var saw []shop.Step
	for _, s := range r.Steps {
		if s.Phase == shop.Saw {
			saw = append(saw, s)
		}
	}
	for i, sh := range r.Plan.Sheets {
		told := map[string]int{}
		for _, p := range saw[i].Points {
			strip := strings.HasPrefix(p, "Narrow, and all that comes off their strip is grooved alike: ")
			if !strip && !strings.HasPrefix(p, "Narrow") {
				continue
			}
			_, list, _ := strings.Cut(p, ": ")
			list, _, _ = strings.Cut(list, ". ")
			for _, lot := range strings.Split(list, "; ") {
				for _, m := range full(lot) {
					told[m]++
					if strip {
						strips++
					} else {
						alone++
						continue
					}
					k := slices.Index(r.Marks[i], m)
					if k < 0 {
						bad = append(bad, fmt.Sprintf("sheet %d: %s is not on it", i+1, m))
						continue
					}
					for j, q := range sh.Pieces {
						if alongside(sh, sh.Pieces[k], q) && (grooved(parts[r.Marks[i][j]]) != grooved(parts[m]) || j != k && width(q) != width(sh.Pieces[k])) {
							bad = append(bad, fmt.Sprintf("sheet %d: the groove of %s runs on into %s", i+1, m, r.Marks[i][j]))
						}
					}
				}
			}
		}
		for _, m := range r.Marks[i] {
			p := parts[m]
			want := 0
			if p.Size[1] < 100*length.MM && grooved(p) != "" {
				want = 1
			}
			if told[m] != want {
				bad = append(bad, fmt.Sprintf("sheet %d: how %s is grooved is told %d times, not %d", i+1, m, told[m], want))
			}
		}
	}
	return bad, strips, alone
}

// width is the size of a piece across its part's length.
func width(p cutting.Piece) length.Length {
	if p.Turned {
		return p.L
	}
	return p.W
}

// alongside reports whether a piece comes off the strip of another: they lie in one row, which no cut across it parts
// from anything wider.
func alongside(sh cutting.Sheet, p, q cutting.Piece) bool {
	axis, lo, hi := cutting.X, p.X, p.X+p.L
	in := q.Y >= p.Y && q.Y+q.W <= p.Y+p.W
	if p.Turned {
		axis, lo, hi = cutting.Y, p.Y, p.Y+p.W
		in = q.X >= p.X && q.X+q.L <= p.X+p.L
	}
	from, to := q.X, q.X+q.L
	if p.Turned {
		from, to = q.Y, q.Y+q.W
	}
	if !in {
		return false
	}
	for _, c := range sh.Cuts {
		wide := c.Of.W
		if axis == cutting.Y {
			wide = c.Of.L
		}
		if c.Axis == axis && wide > width(p) && c.At+c.Kerf > min(hi, to)-1 && c.At < max(lo, from)+1 &&
			c.Of.X <= p.X && c.Of.Y <= p.Y && c.Of.X+c.Of.L >= p.X+p.L && c.Of.Y+c.Of.W >= p.Y+p.W {
			return false
		}
	}
	return true
}

// full gives the marks of a list, "C.4side1, 4side2", whole.
func full(list string) (out []string) {
	owner := ""
	for _, m := range strings.Split(list, ", ") {
		if o, _, ok := strings.Cut(m, "."); ok {
			owner = o
		} else {
			m = owner + "." + m
		}
		out = append(out, m)
	}
	return out
}

// No part gets the groove of its neighbour on the sheet.
func TestGroovesStayInTheirParts(t *testing.T) {
	strips, alone := 0, 0
	for _, name := range shipped {
		bad, s, a := beyond(plantest.Result(t, name))
		strips, alone = strips+s, alone+a
		for _, b := range bad {
			t.Errorf("%s: %s", name, b)
		}
	}
	if strips == 0 || alone == 0 {
		t.Errorf("%d in strips, %d alone", strips, alone)
	}
}

// A narrow part under a foot is grooved under what carries it, as it is sawn: the sheet's cuts and its grooves have one rule.
func TestShortPartsAreGrooved(t *testing.T) {
	short := 0
	everywhere(t, func(name string, r plan.Result) {
		parts := map[string]part.Part{}
		for _, p := range r.Assembly.Parts {
			parts[p.Mark] = p
		}
		for _, s := range r.Steps {
			if s.Phase != shop.Saw {
				continue
			}
			for _, t0 := range s.Points {
				_, list, ok := strings.Cut(t0, "grooved one by one")
				if !ok || strings.Contains(t0, "carries no tool by itself") {
					continue
				}
				list = list[strings.Index(list, ": ")+2:]
				list, how, _ := strings.Cut(list, ". ")
				for _, m := range full(list) {
					p, ok := parts[m]
					if !ok {
						t.Fatalf("%s: no part %q in %q", name, m, t0)
					}
					small := max(p.Size[0], p.Size[1]) < 12*length.Inch
					if small {
						short++
					}
					if small == strings.Contains(how, "featherboard") {
						t.Errorf("%s: %s, %s long, is grooved so: %s", name, m, p.Size[0].In(r.Job.Print), how)
					}
				}
			}
		}
	})
	if short == 0 {
		t.Error("no short part is grooved")
	}
}

// Nothing under a foot both ways goes along a fence or against a bare gauge, of whatever saw and in whatever plan.
func TestSmallPiecesAreHeld(t *testing.T) {
	n := 0
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		saw := cutlist.BreakDown(r.Job.Practice)
		for i, sh := range r.Plan.Sheets {
			small := 0
			for _, c := range sh.Cuts {
				if max(c.Of.L, c.Of.W) < 12*length.Inch {
					small++
					if !cutlist.Small(r.Job.Practice, c) && saw.Kind != "hand" || cutlist.ByGauge(r.Job.Practice, c) {
						t.Errorf("%s: sheet %d: a piece of %v by %v is cut as any", name, i+1, c.Of.L, c.Of.W)
					}
				}
			}
			n += small
			k := slices.IndexFunc(r.Steps, func(s shop.Step) bool { return s.Phase == shop.Saw })
			_, tool, _ := cutlist.Holder(r.Job.Practice, "")
			if st := r.Steps[k+i]; small > 0 != strings.Contains(st.Tool, tool) || small > 0 != strings.Contains(strings.Join(st.Points, " "), fmt.Sprintf(": %d cut", small)) {
				t.Errorf("%s: sheet %d has %d small cuts and says %q with %q", name, i+1, small, st.Points, st.Tool)
			}
		}
	}
	if n == 0 && !testing.Short() {
		t.Error("no small piece")
	}
}
