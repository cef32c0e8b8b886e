package counter

import (
	"cmp"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/part"
)

// floorHole is how far before its leg an angle's hole in the floor is (common practice, no source).
const floorHole = 30 * mm

// toFloor holds legs to the floor by a steel angle at the outer face of each, where a drill stands upright.
func (b *build) toFloor(legs []string, out geom.Dir) {
	if b.Free.Floor == "" {
		return
	}
	item, _ := b.Catalogue.Item(b.Free.Floor)
	if b.Free.Feet != "" {
		if out == geom.Left {
			b.say(OnFeet, finding.Error, "a bench on feet or castors is not held to the floor by angles at its legs", "leave out feet: or floor: under free", 0)
		}
		return
	}
	kind := cmp.Or(item.Kind, "anchor")
	for _, l := range legs {
		box := b.part(l).Box()
		x := box.Min.X - floorHole
		if out == geom.Right {
			x = box.Max.X + floorHole
		}
		b.a.Fixings = append(b.a.Fixings, part.Fixing{Owner: b.id, Kind: part.ToFloor, Part: l, Row: "floor", Screw: b.Free.Floor, Length: item.Length, Into: item.Length,
			At: geom.V(x, (box.Min.Y+box.Max.Y)/2, box.Min.Z)})
		b.a.Hardware = append(b.a.Hardware,
			part.Item{Owner: b.id, ID: part.FloorAngle, Kind: "other", Count: 1, For: part.ToFloorUse},
			part.Item{Owner: b.id, ID: b.Free.Floor, Kind: kind, Count: 1, Length: item.Length, For: part.ToFloorUse})
	}
}
