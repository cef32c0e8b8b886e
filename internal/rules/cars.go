package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/place"
)

// Codes of the rule on parked cars.
const (
	// CarMeets: something stands where a car, or its mirror, stands.
	CarMeets finding.Code = "car-meets"
	// CarDoors: a car's doors have too little room to get out.
	CarDoors finding.Code = "car-doors"
	// CarOut: something opens only while the car is out.
	CarOut finding.Code = "car-out"
)

func cars() Rule {
	return Rule{
		Name: "cars", Codes: []finding.Code{CarMeets, CarDoors, CarOut},
		Doc:     "A parked car, its mirrors and the room that its doors need meet nothing; what opens into it is said to open only while the car is out.",
		Source:  "the survey",
		Example: "A bench 25 in deep beside a car that stands 51 in out and needs 24 in at its doors is fine; one 30 in deep is not.",
		Check:   checkCars,
	}
}

// car is a parked car's boxes in its wall's frame.
type car struct {
	body, mirror, doors Box
	hasMirror, hasDoors bool
}

func park(w *place.Wall, c job.Car) car {
	floor, _ := w.Range(max(0, min(c.From, w.Length)), max(0, min(c.From+c.Length, w.Length)), -c.Out-c.Width, -c.Out)
	top := floor + 60*length.Inch
	r := car{body: geom.B(c.From, -c.Out-c.Width, floor, c.From+c.Length, -c.Out, top)}
	from, to := c.From, c.From+c.Length
	if c.DoorFrom != nil && c.DoorTo != nil {
		from, to = min(*c.DoorFrom, *c.DoorTo), max(*c.DoorFrom, *c.DoorTo)
	}
	if c.Mirrors != nil {
		lo, hi := floor+36*length.Inch, floor+48*length.Inch
		if c.MirrorFrom != nil {
			lo = floor + *c.MirrorFrom
		}
		if c.MirrorTo != nil {
			hi = floor + *c.MirrorTo
		}
		// A mirror is by the front end of the doors; which end that is depends on how the car was
		// parked, so its whole length counts.
		r.mirror, r.hasMirror = geom.B(c.From, -c.Out-c.Width-*c.Mirrors, lo, c.From+c.Length, -c.Out+*c.Mirrors, hi), true
	}
	if c.DoorRoom != nil {
		r.doors, r.hasDoors = geom.B(from, -c.Out, floor+8*length.Inch, to, -c.Out+*c.DoorRoom, top), true
	}
	return r
}

func checkCars(s *Scene) finding.List {
	var f finding.List
	for _, e := range s.Job.File.Room.Cars {
		w := s.wall(e.Value.Wall)
		if w == nil {
			continue
		}
		c := park(w, e.Value)
		try := func(x Solid, code finding.Code, space Box, what string) {
			world := w.Frame.Box(space)
			if !world.Meets(x.World) {
				return
			}
			d := clearing(x.parts(w), []Box{space}, geom.Back)
			if d == 0 {
				return
			}
			sev := finding.Error
			if x.Owner.Moves {
				sev = finding.Warning
			}
			f.Add(finding.Finding{Code: code, Severity: sev, Verdict: finding.Fails, At: x.At, Source: "the survey", Demand: mm(d), Unit: "mm",
				Text: fmt.Sprintf("%s reaches %s into %s of %s.", x.Name, s.in(d), what, e.Key), Hint: fmt.Sprintf("Make it %s less deep there, or keep it above or beside.", s.in(d))})
		}
		for _, x := range s.Solids {
			if s.Room.Wall(x.Owner.Wall) == nil {
				continue
			}
			try(x, CarMeets, c.body, "the place")
			if c.hasMirror {
				try(x, CarMeets, c.mirror, "a mirror")
			}
			if c.hasDoors {
				try(x, CarDoors, c.doors, "the room for the doors")
			}
		}
		said := map[string]bool{}
		for _, m := range s.Moves {
			own := s.Room.Wall(m.Wall)
			if own == nil || said[m.Owner] {
				continue
			}
			for _, b := range []Box{c.body, c.mirror} {
				if b.Empty() || !w.Frame.Box(b).Meets(m.World) {
					continue
				}
				d := sweep(m.Motion, own.Frame.See(w.Frame, b)...)
				if d <= touch {
					continue
				}
				said[m.Owner] = true
				x := finding.Finding{Code: CarOut, Severity: finding.Warning, Verdict: finding.Fails, At: m.At, Source: "the survey", Demand: mm(d), Unit: "mm",
					Text: fmt.Sprintf("The %s reaches %s into the place of %s: it opens only while that is out.", m.name(), s.in(d), e.Key), Hint: "Narrower doors, or keep there what is used while the car is out."}
				if e.Value.Moves {
					x.Severity, x.Verdict = finding.Note, finding.None
				}
				f.Add(x)
				break
			}
		}
	}
	return f
}
