package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/plan/plantest"
)

// railCut reports whether it is said of a rail that an opening takes its end.
func railCut(p part.Part, found finding.List) bool {
	return slices.ContainsFunc(found.With(carcass.RailCut), func(f finding.Finding) bool {
		return f.At == "case/"+p.Owner && strings.Contains(f.Text, p.Name+",")
	})
}

// colliding gives a sentence for every two workings of one board that share space.
func colliding(a part.Assembly, found finding.List) (bad []string) {
	for _, p := range a.Parts {
		if railCut(p, found) {
			continue
		}
		for i, o := range p.Ops {
			o.Depth = stopped(o, p)
			for _, q := range p.Ops[i+1:] {
				q.Depth = stopped(q, p)
				if o.Meets(q, p.Size, 0) {
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

// unsawable gives a sentence for every notch that no saw makes as it is told: thinner than a kerf of
// 1/8 in, in several that together run along a whole edge, which is a narrower board, or with next to no
// wood between it and a pocket or a hole (1 mm).
func unsawable(a part.Assembly, found finding.List) (bad []string) {
	for _, p := range a.Parts {
		if railCut(p, found) {
			continue
		}
		edge := map[string]length.Length{}
		for _, o := range p.Ops {
			if o.Kind != part.Notch && o.Kind != part.Cutout {
				continue
			}
			c := o.Removed(p.Size)
			if s := c.Size(); min(s.X, s.Y, s.Z) < 3*length.MM {
				bad = append(bad, fmt.Sprintf("%s %s: a notch of %s by %s for %q", parttest.Name(p), p.Name, o.L, o.W, o.For))
			}
			for i, at := range []bool{c.Min.X == 0, c.Max.X == p.Size[0], c.Min.Y == 0, c.Max.Y == p.Size[1]} {
				if at {
					edge[fmt.Sprint(i)] += [2]length.Length{c.Size().Y, c.Size().X}[i/2]
				}
			}
			for _, q := range p.Ops {
				switch q.Kind {
				case part.Hole, part.Cup, part.Pocket:
					if o.Meets(q, p.Size, length.MM) {
						bad = append(bad, fmt.Sprintf("%s %s: next to no wood between the notch for %q and %s for %q", parttest.Name(p), p.Name, o.For, q.Kind, q.For))
					}
				}
			}
		}
		for k, l := range edge {
			if l >= p.Size[1-(k[0]-'0')/2] && p.Role != part.BoxSide && p.Role != part.BoxFront && p.Role != part.BoxBack { // not finger joints
				bad = append(bad, fmt.Sprintf("%s %s: notches run along a whole edge", parttest.Name(p), p.Name))
			}
		}
	}
	return bad
}

// No two workings of a board share space, depths counted, and every notch can be sawn.
func TestWorkingsAreApart(t *testing.T) {
	for _, name := range shipped {
		r := plantest.Result(t, name)
		for _, s := range append(colliding(r.Assembly, r.Findings), unsawable(r.Assembly, r.Findings)...) {
			t.Errorf("%s: %s", name, s)
		}
	}
}
