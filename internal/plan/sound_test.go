package plan_test

import (
	"fmt"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/place"
	"stowright/internal/plan"
	"stowright/internal/rules"
)

// sound judges the geometry of a whole job: each owner on its own, everything against everything
// else in the room, and against what stands out from the walls. What meets and is told of is the
// maker's to solve; what meets in silence is a fault.
func sound(r *plan.Result) (bad []string) {
	a := &r.Assembly
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	for _, o := range a.Owners {
		own := parttest.Of(*a, o.ID)
		bad = append(bad, parttest.Check(own, parttest.Options{})...)
		bad = append(bad, parttest.Moves(own)...)
	}
	told := func(code finding.Code, id, name string) bool {
		for _, f := range r.Findings {
			if f.Code == code && strings.HasSuffix(f.At, "/"+id) && strings.Contains(f.Text, name) {
				return true
			}
		}
		return false
	}
	owner := map[string]part.Owner{}
	for _, o := range a.Owners {
		owner[o.ID] = o
	}
	clashes := map[[2]string]bool{}
	for i, p := range a.Parts {
		for _, q := range a.Parts[i+1:] {
			x, y := owner[p.Owner], owner[q.Owner]
			if x.ID == y.ID || x.Wall != y.Wall || clashes[[2]string{x.ID, y.ID}] {
				continue
			}
			// A tenth of a millimetre is what the rules let pass.
			if c := parttest.Shared(p, q); !c.Empty() && min(c.Size().X, c.Size().Y, c.Size().Z) > length.MM/10 {
				clashes[[2]string{x.ID, y.ID}] = true
				if !told(rules.Clash, x.ID, y.Name) && !told(rules.Clash, y.ID, x.Name) {
					say("%s and %s share %v, and nothing says so", p.Mark, q.Mark, c)
				}
			}
		}
	}
	for _, s := range r.Room.Seats {
		o := owner[s.ID]
		w := r.Room.Wall(s.Wall)
		for _, p := range parttest.Of(*a, s.ID).Parts {
			if c := outside(s, p, w); c != "" {
				say("%s %s: %s", p.Mark, p.Name, c)
			}
			if w == nil {
				continue
			}
			for _, b := range w.Obstacles {
				if b.MayCut {
					continue
				}
				for _, x := range b.Boxes(w) {
					if c := parttest.Fills(p, x); !c.Empty() && min(c.Size().X, c.Size().Y, c.Size().Z) > length.MM/10 && !told(rules.ClashObstacle, o.ID, b.ID) {
						say("%s %s is in %s %s by %v, and nothing says so", p.Mark, p.Name, b.Kind, b.ID, c)
					}
				}
			}
		}
	}
	for _, f := range a.Feet {
		if f.Height < 0 {
			say("a %s of %s is %v high", f.Kind, f.Owner, f.Height)
		}
	}
	return bad
}

// outside says how a part leaves the envelope that placing gave its owner, "" when it does not:
// stated sizes are what is built.
func outside(s place.Seat, p part.Part, w *place.Wall) string {
	in := s.Box
	switch s.Kind {
	case place.Case:
		if p.Role == part.EndPanel || p.Role == part.WallCleat || p.Role == part.Ledger {
			return "" // beside the stated width; on the wall
		}
	case place.Counter:
		if s.Moves || p.Role == part.Rail || p.Role == part.Spacer { // under it: rails, and blocks under its joints
			in.Min.Z = s.Level
		}
	case place.Base:
		if w != nil {
			in.Min.Z, _ = w.Range(in.Min.X, in.Max.X, in.Min.Y, in.Max.Y)
			in.Min.Z = min(in.Min.Z, s.Box.Min.Z)
		}
	case place.Hutch:
		in.Min.Y -= 60 * length.MM // its depth is what its frame and board make
		if p.Role == part.Frame {
			in.Min.Y -= 600 * length.MM // feet and braces
		}
	default:
		return ""
	}
	if b := p.Box(); !in.Has(b) {
		return fmt.Sprintf("%v is outside the place that was given, %v", b, in)
	}
	return ""
}
