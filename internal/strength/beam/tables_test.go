package beam_test

import (
	"testing"

	"stowright/internal/strength/beam"
)

// EN 1995-1-1 table 3.2, kdef by service class: the row of solid timber was read, the others are from
// memory; 0 stands for no value. NDS 2018 3.5.2 and the Wood Handbook's several years.
func TestCreepTables(t *testing.T) {
	for p, row := range map[beam.Product][3]float64{
		beam.SolidTimber: {.60, .80, 2.00}, beam.Plywood: {.80, 1.00, 2.50}, beam.OSB3: {1.50, 2.25, 0}, beam.ParticleP5: {2.25, 3.00, 0}, beam.MDFServiceOne: {2.25, 0, 0},
	} {
		for i, want := range row {
			if got, ok := beam.Kdef(p, i+1); got != want || ok != (want > 0) {
				t.Errorf("product %d in class %d: %g %v, table %g", p, i+1, got, ok, want)
			}
		}
		for _, class := range []int{0, 4} {
			if _, ok := beam.Kdef(p, class); ok {
				t.Errorf("there is no class %d", class)
			}
		}
	}
	if beam.CreepHandbook != 2 || beam.CreepSeasoned != 1.5 || beam.CreepUnseasoned != 2 {
		t.Error("creep factors")
	}
}

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
