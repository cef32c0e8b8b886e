// Package boxholder makes a pocket on the back of a door for boxes that stand side by side: of
// wipes, gloves, screws.
package boxholder

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/fitting/rack"
	"stowright/internal/length"
)

type L = length.Length

const mm = length.MM

// Spec is what a job says of a box holder. The box it is made for when nothing is said is one
// of a hundred gloves; common practice, no source.
type Spec struct {
	Wide  L      `job:"width" min:"20 mm" max:"800 mm" default:"240 mm" doc:"width of one box as it stands" eg:"9 in"`
	Deep  L      `job:"depth" min:"10 mm" max:"400 mm" default:"75 mm" doc:"front to back of one box"`
	Tall  L      `job:"height" min:"20 mm" max:"600 mm" default:"125 mm" doc:"height of one box"`
	Count int    `job:"count" min:"0" max:"20" doc:"boxes side by side; as many as fit when not stated"`
	Room  L      `job:"clearance" min:"0 mm" max:"50 mm" default:"3 mm" doc:"room around a box"`
	Rails []L    `job:"rails" min:"0 mm" max:"600 mm" doc:"lower edges of the rails above the shelf, instead of one at a third of the height"`
	Board string `job:"board" names:"boards" doc:"board instead of the practice's for racks"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "box-holder", Doc: "a pocket for boxes, of wipes or gloves for example", Where: fitting.OnDoor, New: func() fitting.Spec {
		return &Spec{Wide: 240 * mm, Deep: 75 * mm, Tall: 125 * mm, Room: 3 * mm}
	}}
}

func (c *Spec) frame(t L) rack.Frame {
	return rack.Open(rack.Thing{Wide: c.Wide, Deep: c.Deep, Tall: c.Tall, Room: c.Room}, rack.Rails(c.Rails, c.Tall, t, 1))
}

// Claim wants the depth and height of the pocket.
func (c *Spec) Claim(env fitting.Env, s fitting.Space) fitting.Claim {
	_, t, _ := rack.Board(env, c.Board)
	return c.frame(t).Claim(env, s, t)
}

// Build makes the pocket, as wide as its boxes.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	w := rack.Begin(env, s, c.Board)
	f := c.frame(w.T)
	x0, x1 := rack.Extent(s, f.Deep(w.T))
	each := c.Wide + c.Room
	n := int(max(x1-x0-2*w.T, 0) / each)
	if c.Count > n && n > 0 {
		w.Say(rack.Fewer, finding.Warning, fmt.Sprintf("%d boxes of %s were asked for and %d go side by side in %s", c.Count, w.Text(c.Wide), n, w.Text(x1-x0-2*w.T)), "ask for fewer, or a wider door")
	} else if c.Count > 0 {
		n = c.Count
	}
	f.Width = each * L(n)
	if b, ok := w.OnDoor(f); ok {
		w.Bay("box-holder", b, nil)
	}
	return w.Result
}
