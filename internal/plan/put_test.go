package plan_test

import (
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// What the sheet of goods puts on a shelf or into a drawer can be there as it says: what is taller than the place is lying,
// and nothing else, and what has more of it than its floor takes beside each other is on each other.
func TestGoodsAreSaidToLieAndToBeStacked(t *testing.T) {
	lying, stacked := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		bays := map[string]part.Bay{}
		for _, b := range r.Assembly.Bays {
			bays[b.ID] = b
		}
		feet := map[string]float64{} // of all that is in a bay, as it stands
		for _, s := range r.Stowed {
			for _, g := range r.Job.Goods {
				if g.ID == s.Goods && g.Wide != nil && g.Deep != nil {
					feet[s.Bay] += float64(s.Count) * float64(*g.Wide) * float64(*g.Deep)
				}
			}
		}
		for _, s := range r.Stowed {
			b, ok := bays[s.Bay]
			if !ok || b.Hung || len(b.Places) > 0 || b.Kind == "hook-board" {
				continue
			}
			for _, g := range r.Job.Goods {
				if g.ID != s.Goods || g.Tall == nil {
					continue
				}
				room := b.Box.Size()
				if *g.Tall > room.Z+length.MM {
					lying++
					if !s.Lying {
						t.Errorf("%s: %d × %s, %s tall, in %s of %s, are not said to lie", name, s.Count, g.ID, *g.Tall, b.ID, room.Z)
					}
				}
				if s.Lying {
					is := func(l *length.Length) bool { return l != nil && (*l-s.Up).Abs() < length.MM/100 }
					if is(g.Tall) || s.Up > room.Z+length.MM || !is(g.Dia) && !is(g.Wide) && !is(g.Deep) {
						t.Errorf("%s: %s in %s are on their sides and %s high so", name, g.ID, b.ID, s.Up)
					}
				}
				if s.Lying && *g.Tall <= room.Z && g.Wide != nil && g.Deep != nil && max(*g.Wide, *g.Deep) <= min(room.X, room.Y) && feet[b.ID] < 0.8*float64(room.X)*float64(room.Y) {
					t.Errorf("%s: %d × %s lie in %s, where they can stand", name, s.Count, g.ID, b.ID)
				}
				foot := int64(0)
				if g.Dia != nil {
					foot = int64(*g.Dia) * int64(*g.Dia)
				} else if g.Wide != nil && g.Deep != nil {
					foot = int64(*g.Wide) * int64(*g.Deep)
				}
				if !s.Lying && foot*int64(s.Count) > int64(room.X+length.MM)*int64(room.Y+length.MM) {
					stacked++
					if s.High < 2 {
						t.Errorf("%s: %d × %s have no room beside each other in %s, and are not said to be on each other", name, s.Count, g.ID, b.ID)
					}
				}
			}
		}
	}
	if lying == 0 || stacked == 0 {
		t.Errorf("%d places where things lie, %d where they are on each other", lying, stacked)
	}
}
