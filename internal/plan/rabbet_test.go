package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// A back that lies in rabbets has screws with wood on both sides of them, at least their diameter from the middle on
// (common practice, no source), goes in between the lips with play, and its step says that it lies there.
func TestBackInRabbets(t *testing.T) {
	r := plantest.Result(t, "steel")
	diameter := map[string]length.Length{}
	for _, h := range r.Job.Catalogue.Hardware {
		diameter[h.ID] = h.Dia
	}
	n := 0
	for _, p := range r.Assembly.Parts {
		if p.Role != part.Side {
			continue
		}
		for _, o := range p.Ops {
			if o.Kind != part.Rabbet {
				continue
			}
			for _, j := range r.Assembly.Joints {
				if j.A != p.Mark || !strings.HasSuffix(j.B, ".back") {
					continue
				}
				n++
				var back part.Part
				for _, q := range r.Assembly.Parts {
					if q.Mark == j.B {
						back = q
					}
				}
				c, d := j.Contact, diameter[j.Fastener]
				if half := (c.Max.X - c.Min.X) / 2; d == 0 || half < d {
					t.Errorf("%s: %s of %s has %s of wood beside its middle", p.Mark, j.Fastener, d, half)
				}
				lip := p.Box().Max.X - o.Depth
				play := back.Box().Min.X - (p.Box().Max.X - o.Depth)
				if strings.HasPrefix(p.Name, "right") {
					lip = p.Box().Min.X + o.Depth
					play = lip - back.Box().Max.X
				}
				if play <= 0 || play > length.MM {
					t.Errorf("%s: %s to the lip at %s", j.B, play, lip)
				}
			}
		}
	}
	told := 0
	for _, s := range r.Steps {
		told += strings.Count(s.Text, "in the rabbets of")
	}
	if n < 8 || told < 4 {
		t.Errorf("%d sides with a back, %d steps that tell", n, told)
	}
}
