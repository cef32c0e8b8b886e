// Package canshelves makes bored shelves in a bay: a board that things stand on and, a little
// above it, one with holes that they stand in, both loose on pins.
package canshelves

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/fitting/rack"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// Room: fewer tiers fit than were asked for, or none. Example: "2 tiers of 290 mm do not fit
	// in 400 mm: 1 is made".
	Room finding.Code = "can-shelves-room"
	// Shallow: the bay is too shallow for one row of holes behind what hangs on its doors.
	Shallow finding.Code = "can-shelves-shallow"
)

// Spec is what a job says of can shelves. The can they are made for when nothing is said is
// the common spray can, 66 across and 200 high; common practice, no source.
type Spec struct {
	Dia   L      `job:"diameter" min:"5 mm" max:"200 mm" default:"66 mm" doc:"across one can" eg:"2 5/8 in"`
	Tall  L      `job:"height" min:"30 mm" max:"600 mm" default:"200 mm" doc:"height of one can" eg:"8 in"`
	Tiers int    `job:"tiers" min:"0" max:"12" doc:"bored shelves one above the other; as many as fit when not stated"`
	Count int    `job:"count" min:"0" max:"400" doc:"holes in each; as many as go in when not stated"`
	Room  L      `job:"clearance" min:"0 mm" max:"20 mm" default:"1 mm" doc:"least room in a hole; the next bit or hole saw of the shop is taken"`
	Hold  L      `job:"held" min:"15 mm" max:"300 mm" default:"40 mm" doc:"how high over what the cans stand on the bored board is"`
	Board string `job:"board" names:"boards" doc:"board instead of the practice's for shelves"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "can-shelves", Doc: "bored shelves that cans stand in", Where: fitting.InBay, New: func() fitting.Spec {
		return &Spec{Dia: 66 * mm, Tall: 200 * mm, Room: mm, Hold: 40 * mm}
	}}
}

// Claim wants no room of others.
func (*Spec) Claim(fitting.Env, fitting.Space) fitting.Claim { return fitting.Claim{} }

// Build makes the shelves: the lowest tier stands on the bay's floor, the others on boards of
// their own.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	board := c.Board
	if board == "" {
		board = env.Practice.ShelfBoard
	}
	w := rack.Begin(env, s, board)
	p := env.Practice
	tool, hole, bored := w.Borer(c.Dia, c.Room)
	first := c.Hold + w.T + c.Tall + rack.LiftHole // from what the cans stand on
	if !bored {
		first = c.Tall + rack.Lift
	}
	next := first + w.T
	most := 0
	if s.Height() >= first {
		most = 1 + int((s.Height()-first)/next)
	}
	n := c.Tiers
	if n == 0 {
		n = max(most, 1)
	}
	y0 := max(s.Setback(s.Box.Min.Z, s.Box.Max.Z), p.ShelfSetback)
	deep := s.Box.Max.Y - y0
	if n > most {
		w.Say(Room, finding.Warning, fmt.Sprintf("%d tiers want %s of height, lifting out included, and there is %s: %d made", n, w.Text(first+next*L(n-1)), w.Text(s.Height()), most), fmt.Sprintf("make the bay %s high, or ask for fewer", w.Text(first+next*L(n-1))))
		n = most
	}
	if least := hole + 2*w.Web(); n > 0 && (deep < max(least, 80*mm) || s.Width() < least+2*p.ShelfEnd) {
		w.Say(Shallow, finding.Warning, fmt.Sprintf("the bay is %s wide and %s deep behind what hangs on its doors, and one row of cans wants %s", w.Text(s.Width()), w.Text(max(deep, 0)), w.Text(max(least, 80*mm))), "make the case deeper or the rack shallower")
		n = 0
	}
	room := s.Box
	room.Min.Y = s.Setback(room.Min.Z, room.Max.Z)
	if n == 0 {
		b := s.Bay(env, "can-shelves", "", room)
		b.Floor = s.Walls[geom.Down].Part
		w.Result.Bays = append(w.Result.Bays, b)
		return w.Result
	}
	// Tiers share the height evenly: whatever is left over is room to lift out.
	step := max((s.Height() - first).DivDown(int64(max(n-1, 1))), next)
	on := s.Walls[geom.Down].Part
	for i := range n {
		floor := s.Box.Min.Z + step*L(i)
		if i > 0 {
			on = c.shelf(w, fmt.Sprintf("support-%d", i+1), fmt.Sprintf("support board %d", i+1), y0, floor-w.T)
		}
		name := ""
		if i > 0 {
			name = fmt.Sprint(i + 1)
		}
		box := room
		box.Min.Z = floor
		if i < n-1 {
			box.Max.Z = s.Box.Min.Z + step*L(i+1) - w.T
		}
		b := s.Bay(env, "can-shelves", name, box)
		b.Floor = on
		if bored {
			local := c.shelf(w, fmt.Sprintf("bored-%d", i+1), fmt.Sprintf("bored board %d", i+1), y0, floor+c.Hold)
			wood := w.Part(local).Box()
			b.Places = w.Holes(local, wood, floor, hole, tool, c.Count)
			// The cans stand on the floor; free is what is over the bored board.
			b.Box.Min.Z = wood.Max.Z
		}
		w.Result.Bays = append(w.Result.Bays, b)
		if i > 0 {
			wide := s.Width() - 2*p.ShelfEnd
			w.Result.Spans = append(w.Result.Spans, part.Span{Part: on, Along: geom.Right, Bay: b.ID, Use: s.Use,
				Supports: []part.Support{{At: 4 * mm, Width: 8 * mm}, {At: wide - 4*mm, Width: 8 * mm}}})
		}
	}
	return w.Result
}

// shelf makes one board at a height, loose on four pins.
func (c *Spec) shelf(w *rack.Work, name, called string, y0, z L) string {
	s, p := w.Space, w.Env.Practice
	local := w.Put(name, called, part.Shelf, geom.B(s.Box.Min.X+p.ShelfEnd, y0, z, s.Box.Max.X-p.ShelfEnd, s.Box.Max.Y, z+w.T), geom.Right, geom.Back)
	q := w.Part(local)
	q.Removable = true
	if e, ok := w.Env.Catalogue.Edging(p.Edging); ok {
		fitting.Band(q, part.Near, e)
	}
	tool, ok := w.Shop.Bit(p.PinDia)
	if !ok {
		w.Say(joinery.NoBit, finding.Warning, "no "+tool+" for shelf pins is owned", "add it to the practice's bits, or use another pin")
	}
	front := max(p.GridFront, y0+15*mm)
	if len(s.Doors) > 0 {
		front = max(front, 37*mm+32*mm) // behind hinge plates
	}
	rear := max(s.Box.Max.Y-max(p.GridRear, 15*mm), front+25*mm)
	for _, d := range []geom.Dir{geom.Left, geom.Right} {
		x := s.Box.Min.X
		if d == geom.Right {
			x = s.Box.Max.X
		}
		for _, y := range []L{front, rear} {
			w.Result.Bores = append(w.Result.Bores, fitting.Bore{Wall: d, Kind: part.Hole, At: geom.V(x, y, z-p.PinDia/2), Dia: p.PinDia, Depth: joinery.Blind(p.PinDepth, s.Walls[d].Thickness, 5*mm), Tool: tool, For: "shelf pin"})
		}
	}
	w.Result.Hardware = append(w.Result.Hardware, part.Item{Owner: w.Env.Owner, ID: p.Pin, Kind: "pin", Count: 4, For: "can shelves"})
	return local
}
