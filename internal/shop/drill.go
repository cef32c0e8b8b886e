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
