// Package view draws what there is: walls, cases, parts and sheets, as elevations, plans,
// sections, pictorial and exploded views and cutting plans, with their dimensions. It reads
// assemblies, cutting plans and a survey given in plain terms, and puts lines and numbers on
// paper; it decides nothing about the job, and which page comes where is left to package packet.
package view

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

type (
	L    = length.Length
	Box  = geom.Box
	Part = part.Part
)

// Wall is what a drawing needs of a surveyed wall, in the wall's frame.
type Wall struct {
	ID        string
	Name      string
	Kind      string // "stud", "masonry" ...
	Length    L
	Height    L              // 0 when not known
	Ends      [2]bool        // where a wall stands at its left end, and at its right
	Stops     map[string]int // degrees to which doors open, by motion, their hinges' where none is given
	Studs     []Stud
	Openings  []Area
	Clear     []Area
	Obstacles []Area
	Floor     []At // line of the floor at the wall, from left to right
	Out       L    // how far from the wall the floor was measured again, 0 for not
	FloorOut  []At // its line there
	Ceiling   []At // line of the ceiling, empty for level at Height
	Level     L    // the level line that floor cases stand on
	Things    []Thing
	Uneven    bool     // whether its face leans, bows or is hollow anywhere
	Aisle     L        // floor kept free before what opens, 0 for not stated
	Depth     L        // to the wall opposite, 0 for not known
	Round     []Round  // what stands round its corners
	Together  []string // which doors and drawers are in each other's way
}

// Stud is an upright that takes screws.
type Stud struct {
	ID    string
	At    L // its centre
	Width L
}

// Area is a named rectangle of the wall and, where it reaches into the room, a box.
type Area struct {
	ID   string
	Kind string
	Box  Box
	// Doors of the room: hinged at Box.Min.X (or Max.X) and opening into the room.
	Swings, HingeLeft bool
	// What stands out from the wall: all of what Box may be a piece of, and whether its heights are over the floor where it is.
	Whole   Box
	Follows bool
}

// At is a height at a place along the wall.
type At struct{ X, Z L }

// Thing stands in the room: a parked car, a machine, a platform.
type Thing struct {
	ID  string
	Box Box
}

// Scene is what is drawn.
type Scene struct {
	Wall     *Wall // nil for a case without a wall
	Assembly *part.Assembly
	Unit     Units

	only func(part.Owner) bool // what is shown; nil for all
}

// Fronts gives the marks of all parts that come off with the fronts: doors, drawer fronts and
// what hangs on doors.
func Fronts(a *part.Assembly) map[string]bool {
	out := map[string]bool{}
	swings := map[string]bool{}
	for _, f := range a.Fronts {
		out[f.Part] = true
		if f.Kind == part.DoorFront && f.Motion != "" {
			swings[f.Motion] = true
		}
	}
	for _, p := range a.Parts {
		if swings[p.Moves] {
			out[p.Mark] = true
		}
	}
	return out
}

// Code gives the code of an owner, the first word of its parts' marks; of one that has no parts its name, or its id.
func Code(a *part.Assembly, owner string) string {
	for _, p := range a.Parts {
		if p.Owner == owner {
			return p.Code()
		}
	}
	for _, o := range a.Owners { // what stands already has no parts
		if o.ID == owner && o.Code != "" {
			return o.Code
		}
		if o.ID == owner && o.Name != "" {
			return o.Name
		}
	}
	return owner
}

// sorted gives places in order, each once; places nearer to each other than 0.05 mm are one.
func sorted(at []L) []L {
	at = slices.Clone(at)
	slices.Sort(at)
	return slices.CompactFunc(at, func(a, b L) bool { return (a - b).Abs() < length.MM/20 })
}

// texts prints the pieces between places so that they add to their overall, of which those give way
// that are free; a piece that this moves prints its exact size too.
func texts(at []L, u Units, free []bool) []string {
	var pieces []L
	for i := 1; i < len(at); i++ {
		pieces = append(pieces, at[i]-at[i-1])
	}
	var out []string
	for i, p := range length.ChainOf(pieces, u.Unit, free) {
		t := p.Length.Marked(u.Unit)
		if p.Moved && !u.Too {
			t += " (" + strings.TrimSuffix(finely(pieces[i], u), `"`) + ")"
		}
		out = append(out, t+u.more(pieces[i]))
	}
	return out
}

// tight is the paper between two places, in mm, below which a size is left to a detail or a
// table: at the scale of the page it could not be read.
const tight = 4.0

// rod stands a chain of dimensions on a side of a view, and its overall: each piece as the tables
// print it, as a tape shows it with the exact size behind where that is another. Of pieces that are
// tight the first of every board's thickness has its exact figure on a leader; the others, and
// gaps, which stand in the details, keep their place in the chain without one.
func rod(d *draw.Dims, side draw.Side, v draw.View, at []L, u Units) {
	chained(d, side, v, at, u, false)
}

// fronts is rod for the fronts of a case, whose sizes stand in no detail: every one has its figure, however tight, and only
// the gaps between them have none.
func fronts(d *draw.Dims, side draw.Side, v draw.View, at []L, u Units) {
	chained(d, side, v, at, u, true)
}

func chained(d *draw.Dims, side draw.Side, v draw.View, at []L, u Units, every bool) {
	at = sorted(at)
	if len(at) < 2 {
		return
	}
	on := places(side, v, at)
	var texts []string
	for i := 1; i < len(at); i++ {
		texts = append(texts, u.Sized(at[i]-at[i-1]))
	}
	var told []L
	most := int(math.Abs(on[len(on)-1]-on[0]) / 14) // leaders that have room
	for k := range texts {
		i := k
		if side == draw.Below || side == draw.Above { // away from the corner of the chain at the left
			i = len(texts) - 1 - k
		}
		if math.Abs(on[i+1]-on[i]) >= tight {
			continue
		}
		size := at[i+1] - at[i]
		if every && size > 9*length.MM {
			continue
		}
		texts[i] = ""
		if size > 9*length.MM && len(told) < most && !slices.ContainsFunc(told, func(l L) bool { return (l - size).Abs() < length.MM/10 }) {
			told = append(told, size)
			texts[i] = finely(size, u)
		}
	}
	const low = 8.0 // on paper, in mm: less than most numbers are wide
	flat := false
	for i, t := range texts {
		flat = flat || every && t != "" && math.Abs(on[i+1]-on[i]) < low
	}
	if flat && (side == draw.Left || side == draw.Right) {
		d.Level(side, on, texts)
	} else {
		d.Chain(side, on, texts)
	}
	overall(d, side, on, at, u)
}

// overall stands the whole of a chain behind it.
func overall(d *draw.Dims, side draw.Side, on []float64, at []L, u Units) {
	if last := len(at) - 1; last > 1 {
		d.Single(side, on[0], on[last], u.Sized(at[last]-at[0]))
	}
}

// places gives where lengths along a side lie on paper.
func places(side draw.Side, v draw.View, at []L) []float64 {
	var on []float64
	for _, l := range at {
		if side == draw.Left || side == draw.Right {
			on = append(on, v.Y(l))
		} else {
			on = append(on, v.X(l))
		}
	}
	return on
}

// span is what stands between two places, by its name.
type span struct {
	from, to L
	name     string
}

// spans stands a chain of what is named and of the gaps between, from one end to the other,
// and its overall. Where rounding must move a piece, a gap gives way. What stands before or above something else has a chain of its own, so that
// every chain adds up and every piece of it is one thing.
func spans(d *draw.Dims, side draw.Side, v draw.View, list []span, from, to L, u Units) {
	if len(list) == 0 {
		return
	}
	slices.SortStableFunc(list, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for i := len(list) - 1; i > 0; i-- { // what stands between the same places is named together
		if a, b := &list[i-1], list[i]; a.from == b.from && a.to == b.to {
			a.name += ", " + b.name
			list = slices.Delete(list, i, i+1)
		}
	}
	for len(list) > 0 {
		var now, rest []span
		for _, x := range list {
			if n := len(now); n == 0 || x.from > now[n-1].to-length.MM/20 {
				now = append(now, x)
			} else {
				rest = append(rest, x)
			}
		}
		list = rest
		at := []L{from, to}
		for _, x := range now {
			at = append(at, x.from, x.to)
		}
		at = sorted(at)
		names, free := make([]string, len(at)-1), make([]bool, len(at)-1)
		for i := range names {
			free[i] = true
			for _, x := range now {
				if (x.from-at[i]).Abs() < length.MM/10 && (x.to-at[i+1]).Abs() < length.MM/10 {
					names[i], free[i] = x.name+" ", false
				}
			}
		}
		texts := texts(at, u, free)
		for i := range texts {
			texts[i] = names[i] + texts[i]
		}
		d.Whole(side, places(side, v, at), texts)
	}
	at := []L{from, to}
	d.Single(side, places(side, v, at)[0], places(side, v, at)[1], u.Mark(to-from))
}

// tape stands one row of distances from an origin, where the tape is hooked. None is left out:
// what stands too near to its neighbour has its figure outside on a leader.
func tape(d *draw.Dims, side draw.Side, v draw.View, origin L, at []L, u Units) {
	place := func(l L) float64 {
		if side == draw.Left || side == draw.Right {
			return v.Y(l)
		}
		return v.X(l)
	}
	hook(d, side, place(origin), sorted(at), func(l L) (float64, string) { return place(l), u.Mark(l - origin) })
}

// hook is tape for any way to place and print. Places that the tape reads alike are one.
func hook(d *draw.Dims, side draw.Side, origin float64, at []L, say func(L) (float64, string)) {
	var on []float64
	var texts []string
	for _, l := range at {
		p, t := say(l)
		if math.Abs(p-origin) < 0.02 || slices.Contains(texts, t) {
			continue
		}
		on, texts = append(on, p), append(texts, t)
	}
	d.Running(side, origin, on, texts)
}
