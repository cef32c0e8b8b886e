package carcass

import (
	"fmt"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/mass"
	"stowright/internal/part"
)

// BallastRoom: a bay has no room for its ballast.
// Example: 36 kg in a bay of 60 mm by 200 mm by 300 mm.
const BallastRoom finding.Code = "ballast-room"

// Ballast lies in the rear half of its bay behind a stop that is screwed down, bedded in adhesive; common
// practice, no source. Densities are those of steel and lead.
const (
	ballastStop = 50 * mm // width of the stop, which lies flat
	ballastAir  = 10 * mm // to the sides, the back and what is over it
	steel       = 7850    // kg/m³
	lead        = 11340
	bedding     = 40 // kg to a cartridge of adhesive
)

// ballast puts the stop of a bay's ballast on its floor, and lists what lies behind it.
func (b *build) ballast(bay *part.Bay) {
	floor := b.part(bay.Floor)
	box := bay.Box
	if floor == nil || box.Max.Y-box.Min.Y < 4*ballastStop {
		b.say(BallastRoom, finding.Error, bay.Floor, "its ballast has no floor to lie on", "give the ballast to a bay over the case's bottom")
		return
	}
	mid := (box.Min.Y + box.Max.Y) / 2
	stop := part.New(bay.Floor+"-ballast-stop", part.Spacer, "ballast stop", b.board, geom.B(box.Min.X, mid-ballastStop, box.Min.Z, box.Max.X, mid, box.Min.Z+b.t), geom.Right, geom.Back)
	// It is laid in over the stop.
	high := box.Max.Z - box.Min.Z - b.t - ballastAir/2
	tenths := func(l L) int64 { return int64(max(l, 0) / (mm / 10)) }
	room := tenths(box.Max.X-box.Min.X-2*ballastAir) * tenths(box.Max.Y-mid-ballastAir) * tenths(high) // 1e-12 m³
	kg := func(density int64) mass.Mass {
		return mass.Mass(room / 1000 * density / 1000 * int64(mass.Kilogram) / 1000000)
	}
	id, of := "ballast-kg", "steel or lead"
	if b.env.Practice.InInches() {
		id = "ballast-lb"
	}
	switch {
	case bay.Ballast <= kg(steel):
	case bay.Ballast <= kg(lead):
		id, of = strings.Replace(id, "ballast", "lead", 1), "lead"
	default:
		b.say(BallastRoom, finding.Error, bay.Floor, fmt.Sprintf("%s of ballast does not fit in the rear half of its bay, which takes %s of steel or %s of lead", bay.Ballast.Print(!b.env.Practice.InInches()), kg(steel).Print(!b.env.Practice.InInches()), kg(lead).Print(!b.env.Practice.InInches())), "make the bay higher, or the ballast less")
	}
	unit := mass.Mass(mass.Kilogram)
	if b.env.Practice.InInches() {
		unit = mass.Pound
	}
	stop.Note = fmt.Sprintf("ballast of %s lies behind it", of)
	b.put(stop)
	c := stop.Box()
	c.Max.Z = c.Min.Z
	r := b.shop.Screwed(joinery.Flat{First: b.part(bay.Floor), Second: b.part(stop.Local), To: geom.Up, Contact: c, At: joinery.Along(c, 4, 50*mm), Kind: part.WoodScrew, Glue: true, For: "ballast stop"})
	b.a.Joints = append(b.a.Joints, r.Joint)
	b.a.Hardware = append(b.a.Hardware, r.Items...)
	for _, f := range r.Findings {
		b.once(f)
	}
	n := int((bay.Ballast + unit - 1) / unit)
	b.item(part.Item{ID: id, Kind: "ballast", Count: n, For: "ballast"})
	b.item(part.Item{ID: "adhesive-cartridge", Kind: "ballast", Count: 1 + int(bay.Ballast/(bedding*mass.Kilogram)), For: "ballast"})
}
