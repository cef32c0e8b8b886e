package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
)

// Codes of the rule on what opens.
const (
	// CannotOpen: a door, drawer or tray meets something on its way.
	CannotOpen finding.Code = "cannot-open"
	// HandleRoom: a door or drawer beside a wall has no room for its handle.
	HandleRoom finding.Code = "handle-room"
)

func opens() Rule {
	return Rule{
		Name: "opens", Codes: []finding.Code{CannotOpen, HandleRoom},
		Doc:     "Every door opens to 90 degrees, every drawer, tray and rolling case comes out, past neighbours, corners, walls, ceiling and what stands in the room; beside a wall 1 in is left for a handle.",
		Source:  "geometry; 1 in beside a wall is common practice, no source",
		Example: "A drawer case in a corner behind the run of the other wall.",
		Check:   checkOpens,
	}
}

// handleRoom is left between a wall and the first door or drawer beside it.
const handleRoom = length.Inch

func checkOpens(s *Scene) finding.List {
	var f finding.List
	for _, m := range s.Moves {
		w := s.Room.Wall(m.Wall)
		if w == nil {
			continue
		}
		outward := []geom.Dir{geom.Left, geom.Right, geom.Front}
		blocked := func(d L, what string) {
			f.Add(finding.Finding{Code: CannotOpen, Severity: finding.Error, Verdict: finding.Fails, At: m.At, Source: "geometry", Demand: mm(d), Unit: "mm",
				Text: fmt.Sprintf("The %s meets %s by %s as it opens.", m.name(), what, s.in(d)), Hint: fmt.Sprintf("Leave %s more, with a filler or by moving the case, or hinge it on the other side.", s.in(d))})
		}
		for _, x := range s.Solids {
			if x.Owner.ID == m.Owner || !x.World.Meets(m.World) || x.Owner.Moves {
				continue
			}
			if d := m.meets(along, x.parts(w)...); d > touch {
				blocked(d, x.Name)
			}
		}
		for i := range s.Room.Walls {
			other := &s.Room.Walls[i]
			for _, o := range other.Obstacles {
				worst := L(0)
				for _, b := range o.Boxes(other) {
					if o.MayCut || !other.Frame.Box(b).Meets(m.World) {
						continue
					}
					own := w.Frame.See(other.Frame, b)
					if meet(m.Rest, own) {
						continue // in its way at rest: that is the rule on obstacles
					}
					worst = max(worst, m.meets(outward, own...))
				}
				if worst > touch {
					blocked(worst, o.ID+" ("+o.Kind+" on wall "+other.ID+")")
				}
			}
		}
		// Walls at the ends, where the survey says that one stands there.
		for end, at := range [2]L{0, w.Length} {
			if w.Corner(end) == "" {
				continue
			}
			solid := geom.B(-place.Far, -place.Far, -place.Far, 0, place.Far, place.Far)
			beside := m.Closed.Min.X
			if end == 1 {
				solid = geom.B(at, -place.Far, -place.Far, at+place.Far, place.Far, place.Far)
				beside = at - m.Closed.Max.X
			}
			if d := sweep(m.Motion, s.slanted(w, end, solid, m.Swept)...); d > touch {
				blocked(d, "wall "+w.Corner(end))
			} else if beside >= 0 && beside < handleRoom && m.Kind != part.Roll {
				f.Add(finding.Finding{Code: HandleRoom, Severity: finding.Warning, Verdict: finding.Fails, At: m.At, Source: "common practice, no source", Demand: mm(handleRoom), Capacity: mm(beside), Unit: "mm",
					Text: fmt.Sprintf("The %s is %s from wall %s; handles want %s.", m.name(), s.in(beside), w.Corner(end), s.in(handleRoom)), Hint: "Put a filler between the case and the wall."})
			}
		}
		if z, ok := w.LowestCeiling(max(0, m.Swept.Min.X), max(0, min(m.Swept.Max.X, w.Length))); ok && m.Swept.Max.Z > z {
			blocked(m.Swept.Max.Z-z, "the ceiling")
		}
		for _, t := range s.things() {
			if t.moves || !t.frame.Box(t.box).Meets(m.World) {
				continue
			}
			if d := sweep(m.Motion, w.Frame.See(t.frame, t.box)...); d > touch {
				blocked(d, t.name)
			}
		}
	}
	return f
}

// slanted gives a wall round a corner as boxes in the frame of this one: one where they are square to each other, else one
// for each inch out, as deep as something sweeps.
func (s *Scene) slanted(w *place.Wall, end int, solid, swept Box) []Box {
	if s.Room.Into(w, end, length.Foot) == 0 {
		return []Box{solid}
	}
	var list []Box
	for y := swept.Max.Y; y > swept.Min.Y && len(list) < 400; y -= length.Inch {
		b := solid
		b.Max.Y, b.Min.Y = y, y-length.Inch
		into := min(s.Room.Into(w, end, -b.Max.Y), s.Room.Into(w, end, -b.Min.Y))
		if end == 0 {
			b.Max.X += into
		} else {
			b.Min.X -= into
		}
		list = append(list, b)
	}
	return list
}

// thing stands on the floor of the room, in the frame of the wall that it is measured from.
type thing struct {
	name  string
	box   Box
	frame place.Frame
	moves bool
}

func (s *Scene) things() []thing {
	var r []thing
	for _, e := range s.Job.File.Room.Fixed {
		t := e.Value
		w := s.wall(t.Wall)
		if w == nil {
			continue
		}
		floor := w.FloorAt(min(max(0, t.At), w.Length), -t.Out)
		top := floor + 60*length.Inch // as high as a person's chest when not stated
		if t.Height != nil {
			top = floor + *t.Height
		}
		h := t.Across / 2
		b := geom.B(t.At-h, -t.Out-h, floor, t.At-h+t.Across, -t.Out-h+t.Across, top)
		r = append(r, thing{e.Key, b, w.Frame, t.Moves})
	}
	return r
}

// wall gives a wall by name, the first one for none.
func (s *Scene) wall(id string) *place.Wall {
	if id == "" && len(s.Room.Walls) > 0 {
		return &s.Room.Walls[0]
	}
	return s.Room.Wall(id)
}
