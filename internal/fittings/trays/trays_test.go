package trays_test

import (
	"reflect"
	"strings"
	"testing"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/trays"
	"stowright/internal/length"
	"stowright/internal/part"
)

// The order in which heights are stated does not matter (the same assembly).
func TestHeightsInAnyOrder(t *testing.T) {
	build := func(at ...length.Length) (part.Assembly, finding.List) {
		spec := fittingtest.Case(trays.Kind(), &trays.Spec{Count: 2, Heights: at}, 600*length.MM, "left")
		return carcass.Build(fittingtest.Shops()[0], "c", spec, carcass.Site{})
	}
	up, f := build(20*length.MM, 250*length.MM, 500*length.MM)
	down, g := build(500*length.MM, 250*length.MM, 20*length.MM)
	n := 0
	for _, p := range up.Parts {
		if p.Role == part.TrayBase {
			n++
		}
	}
	if n != 3 || !reflect.DeepEqual(up, down) || !reflect.DeepEqual(f, g) {
		t.Errorf("%d trays of 3; %v; turned round: %v", n, f, g)
	}
}

// Screws of trays stay in the board that they go into and hold in it, and holes in packing do not come through it, however
// thick the case's board, the practice's and the shelves' are.
func TestScrewsStayInTheirBoards(t *testing.T) {
	for _, shop := range fittingtest.Shops() {
		for _, own := range []string{"", "m12", "i12"} {
			for _, shelf := range []string{"m18", "m12", "i34"} {
				env := shop
				env.Practice.ShelfBoard = shelf
				spec := fittingtest.Case(trays.Kind(), trays.Kind().New(), 600*length.MM, "left")
				spec.Board = own
				spec.Inside.Doors = &carcass.Doors{Count: 1}
				a, _ := carcass.Build(env, "c", spec, carcass.Site{})
				thick := map[string]length.Length{}
				for _, p := range a.Parts {
					thick[p.Local] = p.Size[2]
					if p.Role == part.Lip {
						thick[p.Local] = p.Box().Size().Z // screws go up into it
					}
					for _, o := range p.Ops {
						if p.Role == part.Spacer && o.Kind == part.Hole && o.Depth >= p.Size[2] {
							t.Errorf("%s: a hole %s deep in packing of %s", env.Practice.ID, o.Depth, p.Size[2])
						}
					}
				}
				n := 0
				for _, j := range a.Joints {
					first, second := thick[j.B], thick[j.A] // packing lies on what it is screwed to, a base under its lips
					switch {
					case strings.Contains(j.B, "-lip-"):
						first, second = second, first
					case !strings.Contains(j.B, "-packing-"):
						continue
					}
					n++
					for _, h := range env.Catalogue.Hardware {
						if h.ID == j.Fastener && (h.Length < first+6*length.MM || h.Length > first+second-2*length.MM) {
							t.Errorf("%s, case of %q, shelves of %s: %s through %s into %s, %s to %s", env.Practice.ID, own, shelf, h.ID, first, second, j.B, j.A)
						}
					}
					if (j.Fastener == "") != (j.Kind == part.GlueOnly) || (j.Count == 0) != (j.Fastener == "") {
						t.Errorf("%s: %v", env.Practice.ID, j)
					}
				}
				if n == 0 {
					t.Error("nothing is screwed")
				}
			}
		}
	}
}
