package assemble_test

import (
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// Every screw from a case up into its counter goes through a board of the case and on into wood of the
// counter, 10 mm or more from the edges of both (common practice, no source): none into a hollow.
func TestCounterScrewsFindWood(t *testing.T) {
	n := 0
	for _, name := range []string{"ostler-row", "hollis-court", "fennel-street", "marram-point"} {
		a := plantest.Result(t, name).Assembly
		kind := map[string]string{}
		for _, o := range a.Owners {
			if kind[o.ID] = o.Kind; o.Standing {
				kind[o.ID] = "standing"
			}
		}
		for _, f := range a.Fixings {
			if f.Kind != part.ToCase || f.Row != "counter" || kind[f.Owner] != "counter" || kind[f.Stud] != "case" {
				continue
			}
			n++
			in := 10 * length.MM
			for _, side := range []struct {
				owner string
				z     length.Length
			}{{f.Stud, -length.MM}, {f.Owner, length.MM}} {
				found := false
				for _, p := range a.Parts {
					at := f.At.Add(geom.V(0, 0, side.z))
					spot := geom.Box{Min: at.Sub(geom.V(in, in, 0)), Max: at.Add(geom.V(in, in, 0))}
					found = found || p.Owner == side.owner && p.Box().Has(spot)
				}
				if !found {
					t.Errorf("%s: no wood of %s at %s along, %s out, %s up", name, side.owner, f.At.X, f.At.Y, f.At.Z)
				}
			}
		}
	}
	if n == 0 {
		t.Error("no counter is screwed to a case")
	}
}
