package shop

import (
	"fmt"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Room for the drill where something is set: boards that stand already leave none for its body close to a screw.

// bitHolder reaches screws where there is no room for a drill.
const bitHolder = "long bit holder or right-angle head"

// angleHead does where there is none for that either.
const angleHead = "right-angle head"

// Common practice, no source: half the thickness of a drill's body, and how long a shank keeps that out of most cases.
const (
	bodyHalf = 40 * length.MM
	farBit   = 300 * length.MM
)

// besideSide says how screws into a wall are reached that are nearer to a board before it than a drill is thick, with the
// tools for it; "" where none is.
func (s *steps) besideSide(o part.Owner, list []part.Fixing) (text, tools string) {
	if !slices.ContainsFunc(list, func(f part.Fixing) bool { _, near := s.crowded(o, f, geom.Front); return near }) {
		return "", ""
	}
	return s.rule("beside", fmt.Sprintf("Screws nearer than %s to a board that stands out from the wall beside, over or under them leave no room for the drill's body: bore and drive them with an extension that holds the bits, %s long, so that the drill stays in front and leans as little as it can, or with a right-angle head.", s.coarse(bodyHalf, 3*length.Inch/2), s.coarse(farBit, 12*length.Inch))), ", " + s.far(bitHolder, farBit)
}

// besideInside says the same of screws out of a case through its side: across the case a drill with an extension has no
// room unless the case is wide.
func (s *steps) besideInside(o part.Owner, list []part.Fixing) (text, tools string) {
	near, across := false, true
	for _, f := range list {
		in := geom.Right
		if f.At.X > (o.Carcass.Min.X+o.Carcass.Max.X)/2 {
			in = geom.Left
		}
		room, close := s.crowded(o, f, in)
		near, across = near || close, across && room >= farBit+drillLong
	}
	switch {
	case !near:
		return "", ""
	case across:
		return fmt.Sprintf(" Those nearer than %s to a board leave no room for the drill's body: drive them with an extension that holds the bit, %s long, or with a right-angle head.", s.coarse(bodyHalf, 3*length.Inch/2), s.coarse(farBit, 12*length.Inch)), ", " + s.far(bitHolder, farBit)
	}
	return fmt.Sprintf(" Where a board inside is nearer than %s to them there is no room for the drill's body, and across the case none for an extension: drive them with a right-angle head.", s.coarse(bodyHalf, 3*length.Inch/2)), ", " + angleHead
}

// besideUp says how screws up through the top of a case are reached that are nearer to its back or sides than a drill is
// thick, with the tools for it; "" where none is.
func (s *steps) besideUp(list []part.Fixing) (text, tools string) {
	for _, f := range list {
		if s.closeUnder(f) {
			return fmt.Sprintf(" Those nearer than %s to a back, a side or a partition leave no room for the drill's body: bore and drive them with an extension that holds the bits, or with a right-angle head, square to the board.", s.coarse(bodyHalf, 3*length.Inch/2)), ", " + s.far(bitHolder, farBit)
		}
	}
	return "", ""
}

// closeUnder reports whether a board of the case below is in the way of a drill that drives a screw up into a counter.
func (s *steps) closeUnder(f part.Fixing) bool {
	list := s.whose.Of(f.Stud).Parts
	low := f.At.Z
	for _, p := range list {
		if b := p.Box(); b.Max.Z <= f.At.Z+length.MM && b.Min.Z > f.At.Z-2*bodyHalf && b.Min.X <= f.At.X && f.At.X <= b.Max.X && b.Min.Y <= f.At.Y && f.At.Y <= b.Max.Y {
			low = min(low, b.Min.Z) // what it goes up through
		}
	}
	body := around(f.At.With(2, low-bitOut), geom.Down, drillLong-bitOut, geom.Down, 0, bodyHalf)
	return slices.ContainsFunc(list, func(p *part.Part) bool {
		return p.Moves == "" && !p.Removable && slices.ContainsFunc(p.Solid(), body.Meets)
	})
}

// besideSlide says how the screws of slides are driven that stand nearer to a board over or under them than a drill is thick:
// with an extension where it has room across the case, else by hand, as a screwdriver's handle is thinner and its shaft keeps
// that off the board.
func (w *maker) besideSlide() (text, tools string) {
	near, across := false, true
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Moves != "" {
			continue
		}
		for _, o := range p.Ops {
			if o.For == "slide" {
				room, close := w.overUnder(*p, o)
				near, across = near || close, across && (!close || room >= farBit+drillLong)
			}
		}
	}
	text = fmt.Sprintf(" Screws of slides nearer than %s to a board over or under them leave no room for the drill's body", w.coarse(bodyHalf, 3*length.Inch/2))
	switch {
	case !near:
		return "", ""
	case across:
		return text + fmt.Sprintf(": drive them with an extension that holds the bit, %s long.", w.coarse(farBit, 12*length.Inch)), ", " + w.far(bitHolder, farBit)
	}
	return text + fmt.Sprintf(", nor the case across for an extension: drive them by hand, with a screwdriver whose shaft is at least %s long, tilted no more than its handle needs.", w.coarse(100*length.MM, 4*length.Inch)), ", screwdriver"
}

// overUnder reports whether a board over or under a screw that is driven into a face leaves a drill no room before it, and how
// far it is to the next board across.
func (w *maker) overUnder(p part.Part, o part.Op) (room length.Length, near bool) {
	at, in := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)), p.Pose.Dir(o.Face.Normal())
	body := around(at.Add(in.Vec(bitOut)), in, drillLong-bitOut, in, 0, bodyHalf)
	line := around(at.Add(in.Vec(bitOut)), in, 10*drillLong, in, 0, driverHalf)
	room = 10 * drillLong
	for _, q := range w.whose.Of(w.owner.ID).Parts {
		if q.Mark == p.Mark || q.Moves != "" || q.Removable {
			continue
		}
		for _, b := range q.Solid() {
			if b.Max.Z <= at.Z || b.Min.Z >= at.Z {
				near = near || b.Meets(body)
			} else if b.Meets(line) {
				room = min(room, (b.Face(in.Not())-at.At(in.Axis()))*length.Length(in.Sign()))
			}
		}
	}
	return room, near
}

// besideBottom says the same of screws from inside a box into its front, near its bottom.
func (w *maker) besideBottom(fronts []string) (text, tools string) {
	for _, m := range fronts {
		f := w.parts[m]
		for _, p := range w.whose.Of(f.Owner).Parts {
			if p.Role != part.BoxBottom || p.Moves != f.Moves {
				continue
			}
			top := p.Box().Max.Z
			for _, o := range f.Ops {
				if up := f.Pose.Point(o.Face.Point(o.X, o.Y, f.Size)).Z - top; o.For == "front screw" && up > 0 && up < bodyHalf {
					return fmt.Sprintf(" Those nearer than %s to the bottom leave no room for the drill's body: drive them with an extension that holds the bit, or with a right-angle head, square to the front.", w.coarse(bodyHalf, 3*length.Inch/2)), ", " + w.far(bitHolder, farBit)
				}
			}
		}
	}
	return "", ""
}

// crowded reports whether a drill that drives a screw from a side of the board it goes through has a board in its way: of
// the thing itself, of what hangs already and, under a hook board, of what that stands on. Room is how far it is to the next
// board on the screw's line.
func (s *steps) crowded(o part.Owner, f part.Fixing, from geom.Dir) (room length.Length, near bool) {
	at := f.At.With(from.Axis(), s.parts[f.Part].Box().Face(from))
	body := around(at.Add(from.Vec(bitOut)), from, drillLong-bitOut, from, 0, bodyHalf)
	line := around(at.Add(from.Vec(bitOut)), from, 10*drillLong, from, 0, driverHalf)
	room = 10 * drillLong
	for _, x := range s.Assembly.Owners {
		if x.Wall != o.Wall || x.ID != o.ID && (from != geom.Front || !x.Hung && o.Kind != "hutch" || x.Kind == "hutch") {
			continue
		}
		for _, p := range s.whose.Of(x.ID).Parts {
			if p.Mark == f.Part || p.Moves != "" || p.Removable {
				continue
			}
			for _, b := range p.Solid() {
				near = near || b.Meets(body)
				if b.Meets(line) {
					room = min(room, (b.Face(from.Not())-at.At(from.Axis()))*length.Length(from.Sign()))
				}
			}
		}
	}
	return room, near
}
