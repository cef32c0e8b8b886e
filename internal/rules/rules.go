// Package rules judges the finished room: what meets what, what cannot open, what leaves no
// room to walk or park, and what breaks good practice. Each rule is one file with its codes,
// its sentence, its source and an example. Rules read placed seats and finished assemblies
// and change nothing; strength, goods and cost are judged elsewhere.
package rules

import (
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
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
	return []Rule{boxes(), obstacles(), keepClear(), panel(), openings(), ceiling(), ends(), opens(), together(), roomDoors(), aisle(), cars(), swings(), sitting(), families()}
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

// Solid is something that takes room. Its boxes are in the room's frame.
type Solid struct {
	At    string // "case/trays", for a finding
	Name  string
	Owner part.Owner
	Seat  *place.Seat
	Box   Box   // around it, in the frame of its wall
	World Box   // around it, in the room's frame
	Parts []Box // its parts that do not move, in the room's frame; the whole box when it has none
}

// Move is a motion with its space in the frame of its wall and in the room's.
type Move struct {
	part.Motion
	At    string
	Wall  string
	World Box
	Moves bool // its owner can be moved away
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
	index := map[string]int{}
	for _, o := range a.Owners {
		w := r.Wall(o.Wall)
		world := o.Box
		if w != nil {
			world = w.Frame.Box(o.Box)
		}
		index[o.ID] = len(s.Solids)
		s.Solids = append(s.Solids, Solid{At: o.Kind + "/" + o.ID, Name: o.Name, Owner: o, Seat: r.Seat(o.ID), Box: o.Box, World: world})
	}
	for _, p := range a.Parts {
		i, ok := index[p.Owner]
		if !ok {
			continue
		}
		b := p.Box()
		if w := r.Wall(s.Solids[i].Owner.Wall); w != nil {
			b = w.Frame.Box(b)
		}
		s.Solids[i].Parts = append(s.Solids[i].Parts, b)
	}
	for i := range s.Solids {
		x := &s.Solids[i]
		if len(x.Parts) == 0 {
			x.Parts = []Box{x.World}
			continue
		}
		x.World = x.Parts[0]
		for _, b := range x.Parts {
			x.World = x.World.Or(b)
		}
	}
	for _, m := range a.Motions {
		i, ok := index[m.Owner]
		if !ok {
			continue
		}
		o := s.Solids[i]
		w := r.Wall(o.Owner.Wall)
		world := m.Swept
		if w != nil {
			world = w.Frame.Box(m.Swept)
		}
		s.Moves = append(s.Moves, Move{Motion: m, At: o.At, Wall: o.Owner.Wall, World: world, Moves: o.Owner.Moves})
	}
	return s
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

// shared gives how much the parts of two solids share, 0 when they only touch.
func shared(a, b Solid) L {
	if !a.World.Meets(b.World) {
		return 0
	}
	return sharedBoxes(a.Parts, b.Parts, a.World.And(b.World))
}

func sharedBoxes(as, bs []Box, within Box) L {
	most := L(0)
	for _, p := range as {
		if !p.Meets(within) {
			continue
		}
		for _, q := range bs {
			if d := overlap(p, q); d > touch {
				most = max(most, d)
			}
		}
	}
	return most
}

// quarter gives the quarter cylinder of a door from closed to 90 degrees in its wall's frame.
// A door that is stopped there still opens; what lies beyond is not judged.
func quarter(m part.Motion) place.Quarter {
	q := place.Quarter{X: m.Pivot.X, Y: m.Pivot.Y, Right: m.Hinge == geom.Left, Bottom: m.Closed.Min.Z, Top: m.Closed.Max.Z}
	wide := m.Closed.Max.X - q.X
	if !q.Right {
		wide = q.X - m.Closed.Min.X
	}
	deep := max((m.Closed.Min.Y - q.Y).Abs(), (m.Closed.Max.Y - q.Y).Abs())
	q.R = place.Reach(wide, min(deep, wide))
	return q
}

// sweep gives how far a box (in the motion's wall frame) reaches into what a motion sweeps.
func sweep(m part.Motion, b Box) L {
	if !m.Swept.Meets(b) {
		return 0
	}
	switch m.Kind {
	case part.Swing:
		if m.Hinge == geom.Left || m.Hinge == geom.Right {
			return quarter(m).Bite(b)
		}
	case part.Slide, part.Roll, part.Lift:
		d := m.Dir.Vec(m.Travel)
		return overlap(m.Closed.Or(m.Closed.Shift(d)), b)
	}
	return overlap(m.Swept, b)
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

func (m Move) name() string { return kindWord(m.Kind) + " " + m.ID }
