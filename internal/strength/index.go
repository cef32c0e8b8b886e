package strength

import "stowright/internal/part"

// belongings are what is of one owner, each in the order of the assembly.
type belongings struct {
	parts  []*part.Part
	bays   []*part.Bay
	joints []*part.Joint  // into its parts: those whose A is one
	held   []part.Fixing  // to its wall
	ledger []part.Fixing  // from its rails into the ledgers behind them
	ties   []tie          // to the cases beside it, from either side
	with   []*part.Motion // what opens, turns or rolls
}

// tie is a screw between an owner and another.
type tie struct {
	part.Fixing
	other string
}

// index gathers what is of each owner and rides on each motion, once for all checks.
func (s *Scene) index() {
	s.own, s.riding, s.inside = map[string]*belongings{}, map[string][]*part.Part{}, map[string][]*part.Bay{}
	of := func(owner string) *belongings {
		b := s.own[owner]
		if b == nil {
			b = &belongings{}
			s.own[owner] = b
		}
		return b
	}
	for i := range s.All.Parts {
		p := &s.All.Parts[i]
		b := of(p.Owner)
		b.parts = append(b.parts, p)
		if p.Moves != "" {
			s.riding[p.Moves] = append(s.riding[p.Moves], p)
		}
	}
	for i := range s.All.Joints {
		j := &s.All.Joints[i]
		if a := s.parts[j.A]; a != nil {
			b := of(a.Owner)
			b.joints = append(b.joints, j)
		}
	}
	for i := range s.All.Bays {
		b := &s.All.Bays[i]
		o := of(b.Owner)
		o.bays = append(o.bays, b)
		if b.Moves != "" {
			s.inside[b.Moves] = append(s.inside[b.Moves], b)
		}
	}
	for i := range s.All.Motions {
		m := &s.All.Motions[i]
		b := of(m.Owner)
		b.with = append(b.with, m)
	}
	for _, f := range s.All.Fixings {
		b := of(f.Owner)
		switch f.Kind {
		case part.ToStud, part.ToWall:
			b.held = append(b.held, f)
		case part.ToLedger:
			b.ledger = append(b.ledger, f)
		case part.ToCase:
			if f.Stud == "" {
				continue
			}
			b.ties = append(b.ties, tie{f, f.Stud})
			if f.Stud != f.Owner {
				o := of(f.Stud)
				o.ties = append(o.ties, tie{f, f.Owner})
			}
		}
	}
}

// of gives what is of an owner; nothing of one that is not there.
func (s *Scene) of(owner string) *belongings {
	if b := s.own[owner]; b != nil {
		return b
	}
	return &belongings{}
}
