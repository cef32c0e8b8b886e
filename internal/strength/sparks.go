package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/place"
	"stowright/internal/strength/unit"
)

// SparksNear: what throws sparks or is hot stands too near to what burns.
const SparksNear finding.Code = "sparks-near"

// IgnitionLow: in a garage, a source of ignition is nearer to the floor than fumes of fuel allow.
const IgnitionLow finding.Code = "ignition-low"

const (
	sparksSource = "29 CFR 1910.252(a)(2)(vii) (35 ft round work that throws sparks, else shielded; from memory); 3 ft round what is hot, common practice, no source"
	garageSource = "IRC M1307.3 (18 in above a garage floor)"
	sparksFly    = 35 * 12 * unit.Inch
	hotNear      = 36 * unit.Inch
	fumesHigh    = 18 * unit.Inch
)

func sparks() Rule {
	return Rule{Name: "sparks and heat", Codes: []finding.Code{SparksNear, IgnitionLow},
		Doc:     "What is flammable stands 3 ft or more from a machine that throws sparks or heats, a heater and a place where something charges, and behind a door where sparks fly within 35 ft, on its own wall and round the corners of walls that meet; between walls of which nothing says how they lie to each other it is not known. In a garage nothing that could ignite fumes stands lower than 18 in above the floor.",
		Source:  sparksSource + "; " + garageSource,
		Example: "Varnish on a shelf beside a bench grinder.",
		Run:     checkSparks}
}

// source is something hot, or that throws sparks.
type source struct {
	id, name, wall string
	owner          string // that it is in, "" for what is in none
	box            place.Box
	flies          bool
	low            bool // its height above the floor is that of its box
}

func (s *Scene) sources() []source {
	var list []source
	for _, m := range s.Job.Machines {
		if !m.Value.Sparks && !m.Value.Heat {
			continue
		}
		for i := range s.Room.Seats {
			if x := &s.Room.Seats[i]; x.ID == m.ID && x.Kind == place.Machine {
				list = append(list, source{"machine/" + m.ID, m.ID, x.Wall, "", x.Box, m.Value.Sparks, true})
			}
		}
	}
	for i := range s.Room.Walls {
		for _, z := range s.Room.Walls[i].Clear {
			if z.Ignites && z.Known && z.Kind != "electrical-panel" {
				list = append(list, source{"wall/" + s.Room.Walls[i].ID + "/" + z.ID, z.ID, s.Room.Walls[i].ID, "", z.Space, false, false})
			}
		}
	}
	for _, w := range s.where {
		flies := slices.Contains(w.goods.Hazards, "sparks")
		if !flies && !slices.Contains(w.goods.Hazards, "charging") {
			continue
		}
		o := s.owners[w.owner]
		if o == nil {
			continue
		}
		box := o.Box
		if w.bay != nil {
			box = w.bay.Box
		}
		list = append(list, source{"goods/" + w.goods.ID, called(w.goods), o.Wall, w.owner, box, flies, true})
	}
	return list
}

// between is the clear distance of two boxes, mm.
func between(a, b place.Box) float64 {
	d := 0.0
	for i := range 3 {
		gap := math.Max(mm(a.Min.At(i)-b.Max.At(i)), mm(b.Min.At(i)-a.Max.At(i)))
		if gap > 0 {
			d += gap * gap
		}
	}
	return math.Sqrt(d)
}

// far is the clear distance of a box on a wall from a source, mm; false where nothing says how the two lie to each other:
// on walls that meet by no corner, or on none.
func (s *Scene) far(wall, owner string, box place.Box, h source) (float64, bool) {
	if wall == h.wall {
		return between(box, h.box), wall != "" || owner == h.owner
	}
	a, b := s.Room.Wall(wall), s.Room.Wall(h.wall)
	if a == nil || b == nil {
		return 0, false
	}
	d := math.Inf(1)
	for _, x := range a.Frame.See(b.Frame, h.box) {
		d = math.Min(d, between(box, x))
	}
	return d, d < mm(place.Far) // walls that do not meet are laid further apart
}

func checkSparks(s *Scene) finding.List {
	var f finding.List
	apart := blank{code: SparksNear, source: sparksSource}
	list := s.sources()
	seen := map[string]bool{}
	for _, w := range s.where {
		o := s.owners[w.owner]
		if o == nil || !slices.Contains(w.goods.Hazards, "flammable") {
			continue
		}
		box, shut := o.Box, false
		if w.bay != nil {
			box, shut = w.bay.Box, w.bay.Door || s.slid(w.bay)
		}
		at := s.at(w.owner, "") + "/" + w.goods.ID
		for _, h := range list {
			k := at + h.id
			if h.id == "goods/"+w.goods.ID || seen[k] {
				continue
			}
			seen[k] = true
			d, known := s.far(o.Wall, w.owner, box, h)
			if !known {
				apart.add("how far it is from "+h.name, "Say corner: of the walls that meet, or keep what is flammable behind a door, 3 ft or more from what is hot.", called(w.goods)+" in "+s.called(w.owner), at)
				continue
			}
			least := hotNear
			if h.flies && !shut {
				least = sparksFly
			}
			x := verdict(finding.Finding{Code: SparksNear, At: at, Demand: least, Capacity: d, Unit: "mm apart", Source: sparksSource}, finding.Warning)
			why := "is a source of ignition"
			if h.flies {
				why = "throws sparks"
			}
			x.Text = fmt.Sprintf("%s in %s, flammable: %s from %s, which %s; %s is the least.", called(w.goods), s.called(w.owner), s.long(d), h.name, why, s.feet(least))
			x.Working = []string{x.Text}
			if x.Verdict == finding.Fails {
				x.Hint = fmt.Sprintf("Keep them %s away or more, behind a door.", s.feet(hotNear))
			}
			f.Add(x)
		}
	}
	f.Add(apart.findings("Whether sparks or heat reach what is flammable", finding.Note)...)
	if !s.garage() {
		return f
	}
	for _, h := range list {
		z := s.up(h.wall, h.box, h.box.Min.Z)
		if seen["low"+h.id] || !h.low {
			continue
		}
		seen["low"+h.id] = true
		x := verdict(finding.Finding{Code: IgnitionLow, At: h.id, Demand: fumesHigh, Capacity: math.Max(z, 0), Unit: "mm above the floor", Source: garageSource}, finding.Warning)
		x.Text = fmt.Sprintf("%s, a source of ignition in a garage, is %s above the floor; %s is the least.", h.name, s.long(z), s.inches(fumesHigh))
		x.Working = []string{x.Text}
		if x.Verdict == finding.Fails {
			x.Hint = fmt.Sprintf("Raise it by %s.", s.long(fumesHigh-z))
		}
		f.Add(x)
	}
	return f
}

// feet prints a distance that a rule states in whole feet, as it does: "35 ft", with the job's unit behind it in mm.
func (s *Scene) feet(v float64) string {
	t := fmt.Sprintf("%.0f ft", v/unit.Foot)
	if !s.inch() {
		t += " (" + s.exact(v) + ")"
	}
	return t
}

// inches does the same for whole inches.
func (s *Scene) inches(v float64) string {
	t := fmt.Sprintf("%.0f in", v/unit.Inch)
	if !s.inch() {
		t += " (" + s.exact(v) + ")"
	}
	return t
}

// garage says that cars come in.
func (s *Scene) garage() bool {
	if len(s.Job.File.Room.Cars) > 0 {
		return true
	}
	for _, w := range s.Job.Walls {
		for _, o := range w.Value.Openings {
			if o.Value.Kind == "garage-door" {
				return true
			}
		}
	}
	return false
}
