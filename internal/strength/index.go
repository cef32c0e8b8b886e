package strength

import "stowright/internal/part"

// belongings are what is of one owner, each in the order of the assembly.
type belongings struct {
	*part.Belongings
	held   []part.Fixing // to its wall
	ledger []part.Fixing // from its rails into the ledgers behind them
	ties   []tie         // to the cases beside it, from either side
}

// tie is a screw between an owner and another.
type tie struct {
	part.Fixing
	other string
}

// index gathers what is of each owner, rides on each motion, and is at each board, once for all checks.
func (s *Scene) index() {
	s.own, s.riding, s.inside = map[string]*belongings{}, map[string][]*part.Part{}, map[string][]*part.Bay{}
	s.joints, s.spans = map[string][]*part.Joint{}, map[string]bool{}
	for owner, b := range s.All.Whose() {
		s.own[owner] = &belongings{Belongings: b}
	}
	for i := range s.All.Parts {
		if p := &s.All.Parts[i]; p.Moves != "" {
			s.riding[p.Moves] = append(s.riding[p.Moves], p)
		}
	}
	for i := range s.All.Bays {
		if b := &s.All.Bays[i]; b.Moves != "" {
			s.inside[b.Moves] = append(s.inside[b.Moves], b)
		}
	}
	for i := range s.All.Joints {
		j := &s.All.Joints[i]
		s.joints[j.A] = append(s.joints[j.A], j)
		if j.B != j.A {
			s.joints[j.B] = append(s.joints[j.B], j)
		}
	}
	for i := range s.All.Spans {
		s.spans[s.All.Spans[i].Part] = true
	}
	for _, f := range s.All.Fixings {
		b := s.own[f.Owner]
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
				if s.own[f.Stud] == nil {
					s.own[f.Stud] = &belongings{Belongings: &part.Belongings{}}
				}
				s.own[f.Stud].ties = append(s.own[f.Stud].ties, tie{f, f.Owner})
			}
		}
	}
}

// of gives what is of an owner; nothing of one that is not there.
func (s *Scene) of(owner string) *belongings {
	if b := s.own[owner]; b != nil {
		return b
	}
	return &belongings{Belongings: &part.Belongings{}}
}
