package plan_test

import (
	"testing"

	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// A back that is slid into its grooves has air between what stands before it and what stands behind it, and the screws
// of a back stand no nearer to an edge than 8 mm, two diameters (common practice, no source).
func TestBacksGoInAndHold(t *testing.T) {
	slid, screwed := 0, 0
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		at := map[string]part.Part{}
		for _, p := range a.Parts {
			at[p.Mark] = p
		}
		in := map[string]bool{}
		for _, j := range a.Joints {
			back, on := at[j.B], at[j.A]
			if back.Role != part.BackPanel {
				back, on = on, back
			}
			if back.Role != part.BackPanel {
				continue
			}
			if j.Kind == part.Loose {
				in[back.Mark] = true
			}
			if j.Kind == part.WoodScrew && j.Fastener != "" {
				screwed++
				s := j.Contact.Size()
				n := joinery.Thin(j.Contact)
				if w := min(s.At((n+1)%3), s.At((n+2)%3)); w < 16*length.MM {
					t.Errorf("%s: %s lies on %s by %s", name, back.Mark, on.Mark, w)
				}
			}
		}
		for mark := range in {
			b := at[mark].Box()
			before, behind := -1000*length.MM, 1000*length.MM
			for _, p := range a.Parts {
				c := p.Box()
				if p.Owner != at[mark].Owner || p.Moves != "" || p.Mark == mark || p.Role == part.BackPanel || p.Role == part.Side || p.Removable ||
					c.Max.X <= b.Min.X+10*length.MM || c.Min.X >= b.Max.X-10*length.MM || c.Max.Z <= b.Min.Z+10*length.MM || c.Min.Z >= b.Max.Z-10*length.MM {
					continue
				}
				if c.Max.Y <= b.Min.Y {
					before = max(before, c.Max.Y)
				}
				if c.Min.Y >= b.Max.Y {
					behind = min(behind, c.Min.Y)
				}
			}
			slid++
			if air := behind - before - b.Size().Y; air < 4*length.MM/10 {
				t.Errorf("%s: %s has %s of air", name, mark, air)
			}
		}
	}
	if slid == 0 || screwed == 0 {
		t.Errorf("%d backs slid in, %d screwed", slid, screwed)
	}
}

// What is locked is closed on all sides: a case with a lock has a top, or a counter lies on it.
func TestLockedCasesAreClosed(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, o := range a.Owners {
			lock, top := false, false
			for _, f := range a.Fronts {
				for _, p := range a.Parts {
					lock = lock || p.Mark == f.Part && p.Owner == o.ID && f.Kind == part.DoorFront && f.Lock
				}
			}
			for _, p := range a.Parts {
				c := p.Box()
				mid := (o.Carcass.Min.X + o.Carcass.Max.X) / 2
				top = top || p.Owner == o.ID && p.Role == part.Top || p.Role == part.CounterLayer && c.Min.X < mid && c.Max.X > mid && c.Min.Z >= o.Carcass.Max.Z && c.Min.Z < o.Carcass.Max.Z+60*length.MM
			}
			if lock {
				seen++
				if !top {
					t.Errorf("%s: %s is locked and open above", name, o.ID)
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no lock")
	}
}
