package parttest

import (
	"fmt"

	"stowright/internal/geom"
	"stowright/internal/part"
)

// Moves gives one sentence for everything that something moving meets of its own owner on its
// way: drawers and trays on their whole travel, doors as they swing to 90 degrees, and what
// comes out past doors that stand open. Rooms, neighbours and walls are not looked at.
func Moves(a part.Assembly) []string {
	var bad []string
	solids := map[string]solid{}
	at := map[string]part.Part{}
	for _, p := range a.Parts {
		solids[Name(p)], at[Name(p)] = solidOf(p), p
	}
	motion := map[string]part.Motion{}
	carries := map[string]map[string]bool{} // motion -> parts
	for _, m := range a.Motions {
		motion[m.ID], carries[m.ID] = m, map[string]bool{}
		for _, n := range m.Parts {
			carries[m.ID][n] = true
		}
	}
	for _, p := range a.Parts {
		if p.Moves != "" && carries[p.Moves] != nil {
			carries[p.Moves][Name(p)] = true
		}
	}
	meets := func(m part.Motion, n string, swept solid, rest func(q part.Part) bool) {
		for _, q := range a.Parts {
			if q.Owner != m.Owner || carries[m.ID][Name(q)] || !rest(q) {
				continue
			}
			if c := swept.meets(solids[Name(q)]); !c.Empty() {
				bad = append(bad, fmt.Sprintf("%s of motion %s meets %s in %v", n, m.ID, Name(q), c))
			}
		}
	}
	for _, m := range a.Motions {
		switch m.Kind {
		case part.Slide:
			open := map[string]bool{}
			for _, o := range a.Motions {
				if o.Kind == part.Swing && o.Owner == m.Owner && (o.ID == m.Needs || m.Needs != "" && pair(motion[m.Needs], o)) {
					open[o.ID] = true
				}
			}
			for n := range inOrder(carries[m.ID], a.Parts) {
				p := at[n]
				// The hull of a box along one axis is where it goes; its grooves go with it.
				b := p.Box()
				b = b.Or(b.Shift(m.Dir.Vec(m.Travel)))
				swept := solid{boxes: []geom.Box{b}}
				meets(m, n, swept, func(q part.Part) bool {
					return !open[q.Moves] && (q.Moves == "" || q.Moves == m.ID || motion[q.Moves].Kind == part.Swing)
				})
				for _, o := range a.Motions {
					if !open[o.ID] {
						continue
					}
					for d := range inOrder(carries[o.ID], a.Parts) {
						if at[d].Role == part.Door {
							continue // its leaf stands in the plane of the case's side, further than the pivot shows
						}
						if x := turnedInto(o, at[d].Box(), b, openAt(o)); x > float64(mm)/10 {
							bad = append(bad, fmt.Sprintf("%s of motion %s meets %s on the door %s, which stands open at %d degrees, by %.1f mm", n, m.ID, d, o.ID, openAt(o), x/float64(mm)))
						}
					}
				}
			}
		case part.Swing:
			if m.Hinge != geom.Left && m.Hinge != geom.Right {
				continue
			}
			for n := range inOrder(carries[m.ID], a.Parts) {
				if at[n].Role == part.Door {
					continue
				}
				for _, q := range a.Parts {
					if q.Owner == m.Owner && !carries[m.ID][Name(q)] && (q.Moves == "" || q.Moves != m.ID && motion[q.Moves].Kind != part.Swing) {
						if deg := swings(m, at[n].Box(), solids[Name(q)]); deg >= 0 {
							bad = append(bad, fmt.Sprintf("%s on the door of motion %s meets %s at %d degrees", n, m.ID, Name(q), deg))
							break
						}
					}
				}
			}
		}
	}
	return bad
}

// inOrder gives the names of a set in the order of the parts.
func inOrder(set map[string]bool, parts []part.Part) func(func(string) bool) {
	return func(yield func(string) bool) {
		for _, p := range parts {
			if n := Name(p); set[n] && !yield(n) {
				return
			}
		}
	}
}

// pair reports whether a door is the other leaf of one that is needed: beside it at one height.
func pair(a, b part.Motion) bool {
	return a.ID != b.ID && a.Closed.Min.Z == b.Closed.Min.Z && a.Closed.Max.Z == b.Closed.Max.Z && a.Hinge == b.Hinge.Not() &&
		(a.Hinge == geom.Left && b.Closed.Min.X >= a.Closed.Max.X && b.Closed.Min.X-a.Closed.Max.X < 10*mm || a.Hinge == geom.Right && a.Closed.Min.X >= b.Closed.Max.X && a.Closed.Min.X-b.Closed.Max.X < 10*mm)
}

// openAt gives the angle at which a door is waiting: a right angle, where it may be stopped by
// what is beside it, unless it is one that opens so far that it is meant to be out of the way.
func openAt(m part.Motion) int {
	if m.Angle < 150 {
		return 90
	}
	return m.Angle
}
