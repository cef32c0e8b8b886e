// Package cartridgerack makes a rack on the back of a door in which things stand upright in
// bored holes: a bored board over the shelf that they stand on.
package cartridgerack

import (
	"stowright/internal/fitting"
	"stowright/internal/fitting/rack"
	"stowright/internal/length"
)

type L = length.Length

const mm = length.MM

// Spec is what a job says of a cartridge rack. The cartridge it is made for when nothing is
// said is the common one of 300 ml, 50 across and 215 high; common practice, no source.
type Spec struct {
	Dia   L      `job:"diameter" min:"5 mm" max:"200 mm" default:"50 mm" doc:"across one cartridge" eg:"2 in"`
	Tall  L      `job:"height" min:"40 mm" max:"600 mm" default:"215 mm" doc:"height of one cartridge" eg:"8 1/2 in"`
	Rows  int    `job:"rows" min:"1" max:"6" default:"1" doc:"depth for so many straight rows of holes"`
	Count int    `job:"count" min:"0" max:"200" doc:"how many holes; as many as go in when not stated"`
	Room  L      `job:"clearance" min:"0 mm" max:"20 mm" default:"1 mm" doc:"least room in a hole; the next bit or hole saw of the shop is taken"`
	Hold  L      `job:"held" min:"25 mm" max:"300 mm" default:"60 mm" doc:"how high over the shelf the bored board is"`
	Board string `job:"board" names:"boards" doc:"board instead of the practice's for racks"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "cartridge-rack", Doc: "a rack of bored holes for cartridges and other round things", Where: fitting.OnDoor, New: func() fitting.Spec {
		return &Spec{Dia: 50 * mm, Tall: 215 * mm, Rows: 1, Room: mm, Hold: 60 * mm}
	}}
}

// frame gives the rack, with rails instead of a bored board where the shop bores no such hole.
func (c *Spec) frame(w *rack.Work) (f rack.Frame, tool string, hole L) {
	tool, hole, ok := w.Borer(c.Dia, c.Room)
	if !ok {
		return rack.Open(rack.Thing{Wide: c.Dia, Deep: c.Dia * L(max(c.Rows, 1)), Tall: c.Tall, Room: c.Room}, rack.Rails(nil, c.Tall, w.T, 1, 2)), "", 0
	}
	web := w.Web()
	return rack.Frame{
		Clear: L(max(c.Rows, 1))*(hole+web) + web,
		Least: hole + 2*web,
		Bored: c.Hold,
		High:  c.Hold + w.T + rack.Upper,
		Room:  c.Hold + w.T + c.Tall + rack.LiftHole,
	}, tool, hole
}

// Claim wants the depth and height of the rack.
func (c *Spec) Claim(env fitting.Env, s fitting.Space) fitting.Claim {
	w := rack.Begin(env, s, c.Board)
	f, _, _ := c.frame(w)
	return f.Claim(env, s, w.T)
}

// Build makes the rack.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	w := rack.Begin(env, s, c.Board)
	f, tool, hole := c.frame(w)
	b, ok := w.OnDoor(f)
	if !ok {
		return w.Result
	}
	if b.Bored == "" {
		w.Bay("cartridge-rack", b, nil)
		return w.Result
	}
	w.Bay("cartridge-rack", b, w.Holes(b.Bored, b.Wood, b.Inside.Min.Z, hole, tool, c.Count))
	return w.Result
}
