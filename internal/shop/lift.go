package shop

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
)

// weight says what an owner weighs as it is lifted, without what is on the wall before it.
func (s *steps) weight(o part.Owner) string {
	for _, w := range s.Weights {
		if w.Owner == o.ID && w.Whole {
			for _, p := range s.whose.Of(o.ID).Parts {
				if p.Role == part.WallCleat || p.Role == part.Ledger {
					w.Mass -= s.Masses[p.Mark]
				}
			}
			text := w.Mass.Print(s.Print == length.Millimetres) + " empty"
			if in := s.held(o); in > 0 && s.rolling(o) {
				text += ", and " + in.Print(s.Print == length.Millimetres) + " of ballast in it"
			}
			return text
		}
	}
	return "weight not known"
}

func (s *steps) tooHeavy(o part.Owner) string {
	most := mass.Mass(s.Practice.Lift)
	back := "put back what came out when the last screw inside it is home"
	if o.Moves {
		back = "put back what came out when it stands"
	}
	for _, w := range s.Weights {
		if w.Owner == o.ID && s.rolling(o) {
			w.Mass += s.held(o)
		}
		if w.Owner != o.ID || most <= 0 || w.Mass <= most {
			continue
		}
		m, left := s.bare(o)
		if s.rolling(o) { // what is bedded in it stays
			m += s.held(o)
			left = m.Print(s.Print == length.Millimetres)
		}
		if _, what := s.comesOut(o); what != "" && m <= most {
			return fmt.Sprintf("Too heavy for one person as it is: take %s first (%s is left), or two people; %s. ", what, left, back)
		} else if what != "" {
			return fmt.Sprintf("Too heavy for one person: take %s first (%s is left), and %d people; %s. ", what, left, people(m, most), back)
		}
		return fmt.Sprintf("Too heavy for one person: %d people. ", people(w.Mass, most))
	}
	return ""
}

// people says how many lift so much, when one lifts most.
func people(m, most mass.Mass) int { return max(2, int((m+most-1)/most)) }

// comesOut lists what lifts out of a case or off it before it is lifted.
func (s *steps) comesOut(o part.Owner) (marks []string, what string) {
	var words []string
	say := func(w string) {
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	mine, doors := s.whose.Of(o.ID).Parts, 0
	for _, p := range mine {
		if p.Role == part.Door {
			doors++
		}
	}
	for _, p := range mine {
		switch {
		case p.Role == part.Door && doors == 1:
			say("the door off")
		case p.Role == part.Door:
			say("the doors off, each marked where it belongs,")
		case p.Moves != "" && (p.Role == part.BoxBottom || p.Role == part.TrayBase):
			say(s.slid(o) + " out")
		case p.Removable && p.Moves == "":
			say(map[bool]string{true: "loose dividers out", false: "loose shelves out"}[p.Role == part.Divider])
		default:
			continue
		}
		marks = append(marks, p.Mark)
	}
	return marks, strings.ReplaceAll(strings.TrimSuffix(and(words), ","), ",,", ",")
}

// bare says what a case weighs without what comes out of it.
func (s *steps) bare(o part.Owner) (mass.Mass, string) {
	sum, whole := mass.Mass(0), true
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Moves != "" || p.Removable || p.Role == part.WallCleat || p.Role == part.Ledger || p.Role == part.Shelf || p.Role == part.Door {
			continue
		}
		m, ok := s.Masses[p.Mark]
		sum, whole = sum+m, whole && ok
	}
	t := sum.Print(s.Print == length.Millimetres)
	if !whole {
		t = "at least " + t
	}
	return sum, t
}

// lighten takes out of a wall case what makes it heavy before it is lifted.
func (s *steps) lighten(o part.Owner) {
	marks, what := s.comesOut(o)
	m, left := s.bare(o)
	how := "Two people lift it."
	if most := mass.Mass(s.Practice.Lift); most > 0 && people(m, most) > 2 {
		how = fmt.Sprintf("%d people lift it.", people(m, most))
	}
	text := fmt.Sprintf("%s weighs %s. %s", capital(s.called(o)), left, how)
	if what != "" {
		text = fmt.Sprintf("Take %s of %s before it is lifted: %s is left. %s", what, s.called(o), left, how)
		if all := s.weight(o); all != "weight not known" {
			text = strings.Replace(text, " is left.", fmt.Sprintf(" of %s is left.", strings.TrimSuffix(all, " empty")), 1)
		}
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "screwdriver", Parts: marks, Text: text})
}

// restore puts back what was taken out.
func (s *steps) restore(o part.Owner) {
	if marks, _ := s.comesOut(o); len(marks) > 0 {
		s.add(Step{Phase: Install, Owner: o.ID, Tool: "screwdriver", Parts: marks, Text: fmt.Sprintf("Only when every screw of %s is home: put back what was taken out, %s.", s.called(o), brief(marks))})
	}
}
