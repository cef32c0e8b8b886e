package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/part"
)

// Codes of the rule on doors of the room.
const (
	// RoomDoor: a door of the room meets something as it swings in.
	RoomDoor finding.Code = "room-door"
	// RoomDoorOpen: something that is open stands in the way of a door of the room.
	RoomDoorOpen finding.Code = "room-door-open"
)

func roomDoors() Rule {
	return Rule{
		Name: "room-doors", Codes: []finding.Code{RoomDoor, RoomDoorOpen},
		Doc:     "A door of the room that swings in meets nothing that stands, and it is said what may not be open when it does.",
		Source:  "geometry",
		Example: "A door 900 mm wide swings into a case that starts 700 mm from its hinge.",
		Check:   checkRoomDoors,
	}
}

func checkRoomDoors(s *Scene) finding.List {
	var f finding.List
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for _, o := range w.Openings {
			q, ok := o.Swing()
			if !ok {
				continue
			}
			world := w.Frame.Box(q.Box())
			for _, x := range s.Solids {
				if s.Room.Wall(x.Owner.Wall) == nil || !x.World.Meets(world) {
					continue
				}
				worst := L(0)
				for _, p := range x.parts(w) {
					worst = max(worst, q.Bite(p))
				}
				if worst <= touch {
					continue
				}
				sev := finding.Error
				if x.Owner.Moves {
					sev = finding.Warning
				}
				f.Add(finding.Finding{Code: RoomDoor, Severity: sev, Verdict: finding.Fails, At: x.At, Source: "geometry", Demand: mm(worst), Unit: "mm",
					Text: fmt.Sprintf("The door %s on wall %s, %s wide, meets %s by %s as it swings in.", o.ID, w.ID, s.in(q.R), x.Name, s.in(worst)), Hint: fmt.Sprintf("Move it %s away, or hang the door to swing the other way.", s.in(worst))})
			}
			for _, m := range s.Moves {
				own := s.Room.Wall(m.Wall)
				if own == nil || !m.World.Meets(world) {
					continue
				}
				worst := L(0)
				for _, b := range strips(part.Motion{Kind: part.Swing, Hinge: hinge(q.Right), Pivot: geom.V(q.X, q.Y, 0), Closed: leaf(q.Box())}) {
					worst = max(worst, sweep(m.Motion, own.Frame.See(w.Frame, b)...))
				}
				if worst > touch {
					f.Add(finding.Finding{Code: RoomDoorOpen, Severity: finding.Warning, Verdict: finding.Fails, At: m.At, Source: "geometry", Demand: mm(worst), Unit: "mm",
						Text: fmt.Sprintf("The %s, open, stands %s in the swing of the door %s.", m.name(), s.in(worst), o.ID), Hint: "Somebody who opens the door may meet it: move the case, or hinge its door on the other side."})
				}
			}
		}
	}
	return f
}

func hinge(right bool) geom.Dir {
	if right {
		return geom.Left
	}
	return geom.Right
}

// leaf gives a door leaf without thickness, closed.
func leaf(b Box) Box { b.Min.Y = b.Max.Y; return b }
