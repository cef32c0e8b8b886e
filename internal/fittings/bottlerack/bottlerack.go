// Package bottlerack makes an open rack for bottles on the back of a door: like one for cans,
// with a second rail higher up, because bottles are top-heavy.
package bottlerack

import (
	"stowright/internal/fitting"
	"stowright/internal/fitting/rack"
	"stowright/internal/length"
)

type L = length.Length

const mm = length.MM

// Spec is what a job says of a bottle rack. The bottle it is made for when nothing is said
// holds half a litre of glue; common practice, no source.
type Spec struct {
	Wide  L      `job:"width" min:"20 mm" max:"400 mm" default:"75 mm" doc:"width of one bottle" eg:"3 in"`
	Deep  L      `job:"depth" min:"20 mm" max:"400 mm" default:"75 mm" doc:"front to back of one bottle"`
	Tall  L      `job:"height" min:"50 mm" max:"600 mm" default:"225 mm" doc:"height of one bottle" eg:"8 3/4 in"`
	Rows  int    `job:"rows" min:"1" max:"6" default:"1" doc:"bottles one behind the other"`
	Room  L      `job:"clearance" min:"0 mm" max:"50 mm" default:"2 mm" doc:"room around a bottle"`
	Rails []L    `job:"rails" min:"0 mm" max:"600 mm" doc:"lower edges of the retaining rails above the shelf, instead of two at one and two thirds of the height"`
	Board string `job:"board" names:"boards" doc:"board instead of the practice's for racks"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "bottle-rack", Doc: "an open rack for bottles with two retaining rails", Where: fitting.OnDoor, New: func() fitting.Spec {
		return &Spec{Wide: 75 * mm, Deep: 75 * mm, Tall: 225 * mm, Rows: 1, Room: 2 * mm}
	}}
}

func (c *Spec) frame(t L) rack.Frame {
	return rack.Open(rack.Thing{Wide: c.Wide, Deep: c.Deep * L(max(c.Rows, 1)), Tall: c.Tall, Room: c.Room}, rack.Rails(c.Rails, c.Tall, t, 1, 2))
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
		w.Bay("bottle-rack", b, nil)
	}
	return w.Result
}
