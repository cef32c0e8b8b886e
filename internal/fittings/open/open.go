// Package open is the bay with nothing in it: the goods stand on its floor.
package open

import (
	"stowright/internal/fitting"
	"stowright/internal/geom"
)

// Spec is an open bay; it has nothing to say.
type Spec struct{}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "open", Doc: "a bay with nothing in it", Where: fitting.InBay, New: func() fitting.Spec { return &Spec{} }}
}

// Claim wants no room.
func (*Spec) Claim(fitting.Env, fitting.Space) fitting.Claim { return fitting.Claim{} }

// Build gives the clear space as one bay.
func (*Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	var r fitting.Result
	b := s.Bay(env, "open", "", s.Box)
	b.Box.Min.Y = s.Setback(s.Box.Min.Z, s.Box.Max.Z)
	b.Floor = s.Walls[geom.Down].Part
	r.Bays = append(r.Bays, b)
	return r
}
