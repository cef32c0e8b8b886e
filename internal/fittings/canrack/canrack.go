// Package canrack makes an open rack for cans on the back of a door: two sides, a shelf, and a
// rail before the cans.
package canrack

import (
	"stowright/internal/fitting"
	"stowright/internal/fitting/rack"
	"stowright/internal/length"
)

type L = length.Length

const mm = length.MM

// Spec is what a job says of a can rack. The can it is made for when nothing is said is the
// common spray can, 66 across and 200 high; common practice, no source.
type Spec struct {
	Dia   L      `job:"diameter" min:"20 mm" max:"400 mm" default:"66 mm" doc:"across one can" eg:"2 5/8 in"`
	Tall  L      `job:"height" min:"30 mm" max:"600 mm" default:"200 mm" doc:"height of one can" eg:"8 in"`
	Rows  int    `job:"rows" min:"1" max:"6" default:"1" doc:"cans one behind the other"`
	Room  L      `job:"clearance" min:"0 mm" max:"50 mm" default:"2 mm" doc:"room around a can"`
	Rails []L    `job:"rails" min:"0 mm" max:"600 mm" doc:"lower edges of the retaining rails above the shelf, instead of one at a third of the height"`
	Board string `job:"board" names:"boards" doc:"board instead of the practice's for racks"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "can-rack", Doc: "an open rack for cans with a retaining rail", Where: fitting.OnDoor, New: func() fitting.Spec {
		return &Spec{Dia: 66 * mm, Tall: 200 * mm, Rows: 1, Room: 2 * mm}
	}}
}

func (c *Spec) frame(t L) rack.Frame {
	return rack.Open(rack.Thing{Wide: c.Dia, Deep: c.Dia * L(max(c.Rows, 1)), Tall: c.Tall, Room: c.Room}, rack.Rails(c.Rails, c.Tall, t, 1))
}

// Claim wants the depth and height of the rack.
func (c *Spec) Claim(env fitting.Env, s fitting.Space) fitting.Claim {
	_, t, _ := rack.Board(env, c.Board)
	return c.frame(t).Claim(env, s, t)
}

// Build makes the rack.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	w := rack.Begin(env, s, c.Board)
	if b, ok := w.OnDoor(c.frame(w.T)); ok {
		w.Bay("can-rack", b, nil)
	}
	return w.Result
}
