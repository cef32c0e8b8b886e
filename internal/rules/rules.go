// Package rules judges the finished room: what meets what, what cannot open, what leaves no
// room to walk or park, and what breaks good practice. Each rule is one file with its codes,
// its sentence, its source and an example. Rules read placed seats and finished assemblies
// and change nothing; strength, goods and cost are judged elsewhere.
package rules

import (
	"cmp"
	"slices"
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"strings"
)

type (
	L   = length.Length
	Box = geom.Box
	Vec = geom.Vec
)

// Rule is one thing that is judged.
type Rule struct {
	Name    string
	Codes   []finding.Code
	Doc     string // what it asks, one sentence
	Source  string
	Example string // a case that breaks it
	Check   func(*Scene) finding.List
}

// All lists the rules in the order they are judged.
func All() []Rule {
	return []Rule{boxes(), obstacles(), keepClear(), panel(), openings(), blind(), ceiling(), ends(), opens(), stops(), together(), roomDoors(), aisle(), cars(), swings(), sitting(), workHeight(), families(), grip()}
}

// Check judges everything.
func Check(j *job.Checked, r *place.Room, a *part.Assembly) finding.List {
	s := NewScene(j, r, a)
	var f finding.List
	for _, rule := range All() {
		f.Add(rule.Check(s)...)
	}
	f.Sort()
	return f
}

// Solid is something that takes room.
type Solid struct {
	At      string // "case/trays", for a finding
	Name    string
	Owner   part.Owner
	Seat    *place.Seat
	Box     Box   // around it, in the frame of its wall
	World   Box   // around it, in the room's frame
	Parts   []Box // its parts, in the frame of its wall; the whole box when it has none
	Carried []Box // those of its parts into which no notch goes: they move, or are a counter's that has none
	Frame   place.Frame
}

// Move is a motion with its space in the frame of its wall and in the room's.
type Move struct {
	part.Motion
	At    string
	Wall  string
	World Box
	Moves bool   // its owner can be moved away
	Name  string // "drawer 3 of west drawers"
	Mark  string // of its leaf or front; "" where it has none
	Rest  []Box  // its parts as they rest, in the frame of its wall; none when they are not known
}

// Scene is what rules look at.
type Scene struct {
	Job    *job.Checked
	Room   *place.Room
	All    *part.Assembly
	Solids []Solid
	Moves  []Move
	fronts map[string][]L // heights of doors and drawer fronts, by owner
}

// NewScene gathers solids and motions once for all rules.
func NewScene(j *job.Checked, r *place.Room, a *part.Assembly) *Scene {
	s := &Scene{Job: j, Room: r, All: a}
	front := map[string]bool{}
	for _, x := range a.Fronts {
		if x.Kind != part.FixedFront {
			front[x.Part] = true
		}
	}
	s.fronts = map[string][]L{}
	for _, x := range a.Parts {
		if front[x.Mark] {
			s.fronts[x.Owner] = append(s.fronts[x.Owner], x.Box().Size().Z)
		}
	}
	rest, riding := map[string][]Box{}, map[string][]*part.Part{} // by motion
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Moves != "" {
			rest[p.Moves] = append(rest[p.Moves], p.Box())
			riding[p.Moves] = append(riding[p.Moves], p)
		}
	}
	index := map[string]int{}
	for _, o := range a.Owners {
		index[o.ID] = len(s.Solids)
		s.Solids = append(s.Solids, Solid{At: o.Kind + "/" + o.ID, Name: o.Name, Owner: o, Seat: r.Seat(o.ID), Box: o.Box, Frame: s.frame(o.Wall)})
	}
	for _, p := range a.Parts {
		i, ok := index[p.Owner]
		if !ok {
			continue
		}
		b := p.Box()
		s.Solids[i].Parts = append(s.Solids[i].Parts, b)
		notched := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Kind == part.Notch && o.For == part.RoundWall })
		if p.Moves != "" || s.Solids[i].Owner.Kind == "counter" && !notched {
			s.Solids[i].Carried = append(s.Solids[i].Carried, b)
		}
	}
	for i := range s.Solids {
		x := &s.Solids[i]
		if len(x.Parts) == 0 {
			x.Parts = []Box{x.Box}
		}
		all := x.Parts[0]
		for _, b := range x.Parts {
			all = all.Or(b)
		}
		x.World = x.Frame.Box(all)
	}
	for _, m := range a.Motions {
		i, ok := index[m.Owner]
		if !ok {
			continue
		}
		o := s.Solids[i]
		s.Moves = append(s.Moves, Move{Motion: m, At: o.At, Wall: o.Owner.Wall, World: o.Frame.Box(m.Swept), Moves: o.Owner.Moves, Name: called(m, o.Owner, riding[m.ID]), Mark: fronted(riding[m.ID]), Rest: rest[m.ID]})
	}
	return s
}

// called names what moves as the parts on it do, and whose it is.
func called(m part.Motion, o part.Owner, on []*part.Part) string {
	owner := cmp.Or(o.Name, o.ID)
	for _, p := range on {
		if _, name, ok := strings.Cut(p.Name, " of "); ok {
			return name + " of " + owner
		}
		if p.Role == part.Door {
			return p.Name + " of " + owner
		}
	}
	if m.Kind == part.Roll {
		return "rolling case " + owner
	}
	return kindWord(m.Kind) + " of " + owner
}

// fronted gives the mark of the door or the drawer's front on what moves; "" where there is none.
func fronted(on []*part.Part) string {
	for _, p := range on {
		if p.Role == part.Door || p.Role == part.DrawerFront {
			return p.Mark
		}
	}
	return ""
}

// marked gives the name of what moves with the mark of its leaf or front: a case may have two left doors.
func (m Move) marked() string {
	if m.Mark == "" {
		return m.Name
	}
	return m.Name + " (" + m.Mark + ")"
}

func (s *Scene) in(v L) string { return v.In(s.Job.Print) }

func mm(v L) float64 { return float64(v) / float64(length.MM) }

// overlap gives the least way that two boxes must be moved apart along one axis: how much
// they share.
func overlap(a, b Box) L {
	c := a.And(b)
	if c.Empty() {
		return 0
	}
	v := c.Size()
	return min(v.X, v.Y, v.Z)
}

// touch is what two boxes may share before it is called a clash: the tenth of a millimetre.
const touch = length.MM / 10

// meet reports whether any box of one list shares room with one of the other.
func meet(as, bs []Box) bool {
	for _, p := range as {
		for _, q := range bs {
			if overlap(p, q) > touch {
				return true
			}
		}
	}
	return false
}

// Ways that something can be moved: along its wall, and up or down when it hangs.
var (
	along    = []geom.Dir{geom.Left, geom.Right}
	anywhere = []geom.Dir{geom.Left, geom.Right, geom.Up, geom.Down}
)

func (x Solid) ways() []geom.Dir {
	if x.Owner.Hung {
		return anywhere
	}
	return along
}

// apart gives how far the boxes as must be moved in the best of ways to be clear of bs; 0 when
// they are. A step that clears one pair can meet the next: steps are added until none meets.
func apart(as, bs []Box, ways []geom.Dir) L {
	if !meet(as, bs) {
		return 0
	}
	best := L(place.Far)
	for _, d := range ways {
		best = min(best, clearing(as, bs, d))
	}
	return best
}

func clearing(as, bs []Box, d geom.Dir) L {
	moved := L(0)
	for {
		more := L(0)
		by := d.Vec(moved)
		for _, p := range as {
			p = p.Shift(by)
			for _, q := range bs {
				if overlap(p, q) <= touch {
					continue
				}
				switch d {
				case geom.Left:
					more = max(more, p.Max.X-q.Min.X)
				case geom.Right:
					more = max(more, q.Max.X-p.Min.X)
				case geom.Front:
					more = max(more, p.Max.Y-q.Min.Y)
				case geom.Back:
					more = max(more, q.Max.Y-p.Min.Y)
				case geom.Down:
					more = max(more, p.Max.Z-q.Min.Z)
				case geom.Up:
					more = max(more, q.Max.Z-p.Min.Z)
				}
			}
		}
		if more == 0 {
			return moved
		}
		moved += more
	}
}

// frame gives that of a wall; what stands at no wall is in the room's.
func (s *Scene) frame(wall string) place.Frame {
	if w := s.Room.Wall(wall); w != nil {
		return w.Frame
	}
	return place.Frame{}
}

// parts gives those of a solid in the frame of a wall.
func (x Solid) parts(w *place.Wall) []Box { return w.Frame.See(x.Frame, x.Parts...) }

// quarter gives the quarter cylinder of a door from closed to 90 degrees in its wall's frame.
// A door that is stopped there still opens; what lies beyond is not judged.
func quarter(m part.Motion) place.Quarter {
	q := place.Quarter{X: m.Pivot.X, Y: m.Pivot.Y, Right: m.Hinge == geom.Left, Bottom: m.Closed.Min.Z, Top: m.Closed.Max.Z}
	wide, deep := m.Leaf(), max((m.Closed.Min.Y-q.Y).Abs(), (m.Closed.Max.Y-q.Y).Abs())
	q.R = place.Reach(wide, min(deep, wide))
	return q
}

// sweep gives how far boxes (in the motion's wall frame) reach into what a motion sweeps: for a
// door from its edge inwards, for a drawer the way along the wall that clears it.
func sweep(m part.Motion, boxes ...Box) L {
	d := L(0)
	path := m.Swept
	switch m.Kind {
	case part.Swing:
		if m.Hinge == geom.Left || m.Hinge == geom.Right {
			q := quarter(m)
			for _, b := range boxes {
				if m.Swept.Meets(b) {
					d = max(d, q.Bite(b))
				}
			}
			return d
		}
	case part.Slide, part.Roll, part.Lift:
		path = m.Closed.Or(m.Closed.Shift(m.Dir.Vec(m.Travel)))
	}
	return apart([]Box{path}, boxes, along)
}

// meets gives how far boxes (in its wall's frame) reach into what moves, part by part where the parts are known and go
// straight: a drawer box that ends before a pipe passes under its own front's shadow. Ways are those that may clear it.
func (m Move) meets(ways []geom.Dir, boxes ...Box) L {
	if m.Kind == part.Swing || len(m.Rest) == 0 {
		return sweep(m.Motion, boxes...)
	}
	paths := make([]Box, len(m.Rest))
	for i, b := range m.Rest {
		paths[i] = b.Or(b.Shift(m.Dir.Vec(m.Travel)))
	}
	return apart(paths, boxes, ways)
}

// kindWord says what a motion is.
func kindWord(k part.MotionKind) string {
	switch k {
	case part.Swing:
		return "door"
	case part.Slide:
		return "drawer or tray"
	case part.Roll:
		return "rolling case"
	}
	return "lid"
}

func (m Move) name() string { return m.Name }
