package trays_test

import (
	"reflect"
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
