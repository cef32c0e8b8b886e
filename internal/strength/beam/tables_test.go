package beam_test

import (
	"testing"

	"stowright/internal/strength/beam"
)

// Wood Handbook table 9-1, every row: kb, ks and where. The support's label of the 1/96 row is put
// right: it is the sag at a load of a beam on simple supports.
func TestTable91(t *testing.T) {
	for _, c := range []struct {
		c      beam.Case
		kb, ks float64
	}{
		{beam.UniformSimple, 5. / 384, 1. / 8}, {beam.UniformClamped, 1. / 384, 1. / 8}, {beam.CentreSimple, 1. / 48, 1. / 4}, {beam.CentreClamped, 1. / 192, 1. / 4},
		{beam.QuartersSimple, 11. / 768, 1. / 8}, {beam.QuartersAtLoad, 1. / 96, 1. / 8}, {beam.UniformCantilever, 1. / 8, 1. / 2}, {beam.EndCantilever, 1. / 3, 1},
	} {
		s := beam.Section{EI: 1, GA: 1}
		if b, v := c.c.Sag(1, 1, s); b != c.kb || v != c.ks {
			t.Errorf("%s: %g and %g, printed %g and %g", c.c.Name, b, v, c.kb, c.ks)
		}
	}
}
