package rules

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
)

// Aisle: too little floor is left to walk past something open.
const Aisle finding.Code = "aisle"

func aisle() Rule {
	return Rule{
		Name: "aisle", Codes: []finding.Code{Aisle},
		Doc:     "Between anything open and what stands opposite, a parked car included, the floor stays free as wide as the job says; the worst of each case is told.",
		Source:  "the job",
		Example: "A drawer comes out to 36 in from the wall; a stand begins 58 in out; 36 in were to stay free.",
		Check:   checkAisle,
	}
}

func checkAisle(s *Scene) finding.List {
	want := s.Room.Aisle
	if want == nil {
		return nil
	}
	things := s.things()
	type worst struct {
		free, out L
		what      string
		open      string
	}
	var f finding.List
	for _, x := range s.Solids {
		w := s.Room.Wall(x.Owner.Wall)
		if w == nil || x.Owner.Moves || x.Owner.Hung && x.Box.Min.Z > headroom {
			continue
		}
		var at *worst
		parked := false // whether that is a car
		try := func(b Box, open string) {
			out := -b.Min.Y
			reach := func(far L, what string) {
				if free := far - out; at == nil || free < at.free {
					at, parked = &worst{free, out, what, open}, false
				}
			}
			if s.Room.Depth != nil && (len(s.Room.Walls) == 0 || w.ID == s.Room.Walls[0].ID) {
				reach(*s.Room.Depth, "the wall opposite")
			}
			for _, t := range things {
				tb := whole(w.Frame.See(t.frame, t.box))
				// It stands before this when their stretches along the wall, less the corners past which one
				// walks anyway, overlap.
				if t.moves || tb.Max.Y > b.Min.Y && tb.Min.Y > b.Max.Y || tb.Min.X >= b.Max.X || tb.Max.X <= b.Min.X {
					continue
				}
				reach(-tb.Max.Y, t.name)
			}
			for _, e := range s.Job.File.Room.Cars {
				if s.wall(e.Value.Wall) != w || open != "" && e.Value.Moves {
					continue // it is out while anything is open
				}
				c := park(w, e.Value)
				side := c.body
				if c.hasMirror {
					side = side.Or(c.mirror)
				}
				if c.body.Min.X < b.Max.X && c.body.Max.X > b.Min.X && side.Max.Y < b.Min.Y {
					before, was := at, parked
					reach(-side.Max.Y, e.Key+", parked,")
					parked = was || at != before
				}
			}
			for _, o := range s.Solids {
				ow := s.Room.Wall(o.Owner.Wall)
				if ow == nil || o.Owner.Moves || o.Owner.Hung && o.Box.Min.Z > headroom || !opposite(w, ow) {
					continue // what stands round the corner stands beside: see opens and together
				}
				if ob := whole(o.parts(w)); ob.Min.X < b.Max.X && ob.Max.X > b.Min.X {
					reach(-ob.Max.Y, o.Name)
				}
			}
		}
		try(x.Box, "")
		for _, m := range s.Moves {
			if m.Owner == x.Owner.ID && m.Kind != part.Lift && m.Swept.Min.Z < headroom {
				try(m.Swept, m.name())
			}
		}
		if at == nil || at.free >= *want {
			continue
		}
		sev := finding.Warning
		if (at.free < 0 || at.open == "") && !parked {
			sev = finding.Error
		}
		short := *want - at.free
		hint := fmt.Sprintf("Make it %s less deep, take shorter slides or narrower doors.", s.in(short))
		if deep := x.Box.Max.Y - x.Box.Min.Y; short >= deep/2 { // no case is left of it
			hint = fmt.Sprintf("Put it elsewhere, or see that %s is %s further away: less depth alone is not enough.", at.what, s.in(short))
		}
		opened := ""
		if at.open != "" {
			opened = " with the " + at.open + " open"
		}
		f.Add(finding.Finding{Code: Aisle, Severity: sev, Verdict: finding.Fails, At: x.At, Source: "the job", Demand: mm(*want), Capacity: mm(at.free), Unit: "mm",
			Text: fmt.Sprintf("Between %s%s, %s out from the wall, and %s there is %s; %s must stay free.", x.Name, opened, s.in(at.out), at.what, s.in(at.free), s.in(*want)),
			Hint: hint})
	}
	return f
}

// whole gives the box around several.
func whole(boxes []Box) Box {
	all := boxes[0]
	for _, b := range boxes {
		all = all.Or(b)
	}
	return all
}

// opposite reports whether two walls face each other.
func opposite(a, b *place.Wall) bool {
	turn := math.Abs(math.Mod(a.Frame.Degrees-b.Frame.Degrees, 360))
	return turn > 135 && turn < 225
}

// headroom: what is above it is walked under.
const headroom = 78 * length.Inch
