package plan_test

import (
	"context"
	"fmt"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/plan"
)

// colliding gives a sentence for every two workings of one board that share space.
func colliding(a part.Assembly) (bad []string) {
	for _, p := range a.Parts {
		for i, o := range p.Ops {
			o.Depth = stopped(o, p)
			for _, q := range p.Ops[i+1:] {
				q.Depth = stopped(q, p)
				if o.Meets(q, p.Size, 0) && q.For != "room for what stands out from the wall" {
					bad = append(bad, fmt.Sprintf("%s %s: %s for %q of the %s face at (%s, %s), %s deep, meets %s for %q of the %s face at (%s, %s), %s deep", parttest.Name(p), p.Name,
						o.Kind, o.For, o.Face, o.X, o.Y, o.Depth, q.Kind, q.For, q.Face, q.X, q.Y, q.Depth))
				}
			}
		}
	}
	return bad
}

// stopped is how deep a working is as the stop is set by a figure in inches, which is rather too deep.
func stopped(o part.Op, p part.Part) length.Length {
	_, _, most := o.Face.Extent(p.Size)
	if o.Kind != part.Hole || o.Depth >= most {
		return o.Depth
	}
	return min(o.Depth.Up(length.Inch/32), most)
}

// No two workings of a board share space, depths counted.
func TestWorkingsAreApart(t *testing.T) {
	for _, name := range shipped {
		for _, s := range colliding(plan.Make(context.Background(), read(t, name), plan.Want{}).Assembly) {
			t.Errorf("%s: %s", name, s)
		}
	}
}
