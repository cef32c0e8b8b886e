package carcass_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/carcass"
	"stowright/internal/carcass/carcasstest"
	"stowright/internal/finding"
	"stowright/internal/fittings/bottlerack"
	"stowright/internal/fittings/boxholder"
	"stowright/internal/fittings/canrack"
	"stowright/internal/fittings/cartridgerack"
	"stowright/internal/part/parttest"
	"stowright/internal/schema"
)

// What stands in a rack is lifted over its rail, or out of its hole, under the rack that hangs over it on the same door:
// the slot is as high as the thing (plane geometry: it fills its rack from front to back and cannot tip).
func TestWhatStandsInARackComesOut(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		tall := L(rapid.IntRange(60, 240).Draw(t, "tall")) * mm
		var racks []carcass.Rack
		for i := range 3 {
			var v any
			kind := rapid.SampledFrom([]string{"can", "bottle", "box", "cartridge"}).Draw(t, fmt.Sprint("kind", i))
			switch kind {
			case "can":
				v = &canrack.Spec{Dia: 66 * mm, Tall: tall, Rows: 1, Room: 2 * mm}
			case "bottle":
				v = &bottlerack.Spec{Wide: 60 * mm, Deep: 60 * mm, Tall: tall, Rows: 1, Room: 2 * mm}
			case "box":
				v = &boxholder.Spec{Wide: 100 * mm, Deep: 70 * mm, Tall: tall, Room: 3 * mm}
			default:
				v = &cartridgerack.Spec{Dia: 34 * mm, Tall: tall, Rows: 1, Room: mm, Hold: 40 * mm}
			}
			racks = append(racks, carcass.Rack{Fitting: schema.Plug{Kind: kind, Value: v}})
		}
		spec := carcass.Spec{Width: size(600 * mm), Height: size(2300 * mm), Depth: size(450 * mm), Level: "floor",
			Inside: carcass.Bay{Doors: &carcass.Doors{Count: 1, Left: racks}}}
		a, f := carcass.Build(carcasstest.Metric(), "c", spec, carcass.Site{})
		for _, x := range f {
			if x.Code == carcass.RackRoom || x.Severity == finding.Error {
				t.Skip(x.Text)
			}
		}
		for _, b := range a.Bays {
			kept, above, ok := parttest.Slot(a, b)
			if !ok {
				continue
			}
			if tried++; above-kept < tall {
				t.Errorf("%s: what is %v high has %v between %v and %v", b.ID, tall, above-kept, kept, above)
			}
		}
	})
	if tried == 0 {
		t.Error("no rack hangs over another")
	}
}
