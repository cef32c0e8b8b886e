package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/part"
)

// FootLoad: a foot or castor carries more than it is rated for.
const FootLoad finding.Code = "foot-load"

func feet() Rule {
	return Rule{Name: "feet", Codes: []finding.Code{FootLoad},
		Doc:     "Every foot and castor carries its share of the case, its contents and the counter over it, as under a stiff case, within its rating. A castor counts double where three of four stand on an uneven floor.",
		Source:  "statics; the rating of the foot, as the list gives it",
		Example: "A case with 300 kg on four feet rated at 50 kg.",
		Run:     checkFeet}
}

func checkFeet(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: FootLoad, source: "the rating of the foot"}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "case" || o.Standing {
			continue
		}
		var list []part.Foot
		for _, x := range s.All.Feet {
			if x.Owner == o.ID && x.Kind != "shim" {
				list = append(list, x)
			}
		}
		if len(list) == 0 {
			continue
		}
		at := s.at(o.ID, "")
		if list[0].Rating <= 0 {
			unknown.add("the rating of "+list[0].Hardware, "Give rating: to the foot or castor under hardware:.", o.Name, at)
			continue
		}
		l := s.gross(o.ID)
		if !l.known {
			for _, x := range l.lacks {
				unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", o.Name, at)
			}
			continue
		}
		own, _ := s.bodies(o.ID, false)
		in, _, _ := s.contents(o.ID, false)
		c := sum(append(own, in...))
		worst, where := 0.0, 0
		for k, share := range planted(list, c.x, c.y) {
			if share > worst {
				worst, where = share, k
			}
		}
		demand := l.kg * worst
		note := ""
		if list[0].Kind == "castor" {
			demand, note = demand*4/3, ", counted on three of four castors"
		}
		may := list[where].Rating.Kilograms()
		x := verdict(finding.Finding{Code: FootLoad, At: at, Demand: demand, Capacity: may, Unit: "kg", Source: s.sourceOf(list[where].Hardware) + "; statics"}, overload(demand/may, l.assumed))
		x.Text = fmt.Sprintf("The most loaded of %d feet of %s carries %s of %s; it is rated at %s.", len(list), o.Name, s.kg(demand), s.carries(l), s.kg(may))
		x.Working = []string{fmt.Sprintf("Case, contents and the counter over it: %s.", s.kg(l.kg)), fmt.Sprintf("The foot at %s along takes %.2f of it%s: %s. Ratio %.2f.", s.long(mm(list[where].At.X)), worst, note, s.kg(demand), x.Ratio())}
		if l.assumed {
			x.Working = append([]string{"Some of its load is assumed, by the practice."}, x.Working...)
		}
		if x.Verdict == finding.Fails {
			n := int(math.Ceil(float64(len(list)) * demand / may))
			x.Hint = fmt.Sprintf("Put it on %d feet (ratio about %.2f), or take feet of a higher rating.", n, demand/may*float64(len(list))/float64(n))
		}
		f.Add(x)
	}
	f.Add(unknown.findings("What its feet carry", finding.Note)...)
	return f
}

// planted is how a load with its centre at (x, y) is shared by feet under a stiff case.
func planted(list []part.Foot, x, y float64) []float64 {
	n := float64(len(list))
	var mx, my float64
	for _, f := range list {
		mx += mm(f.At.X) / n
		my += mm(f.At.Y) / n
	}
	var xx, yy float64
	for _, f := range list {
		xx += (mm(f.At.X) - mx) * (mm(f.At.X) - mx)
		yy += (mm(f.At.Y) - my) * (mm(f.At.Y) - my)
	}
	out := make([]float64, len(list))
	for i, f := range list {
		out[i] = 1 / n
		if xx > 1 {
			out[i] += (x - mx) * (mm(f.At.X) - mx) / xx
		}
		if yy > 1 {
			out[i] += (y - my) * (mm(f.At.Y) - my) / yy
		}
	}
	return out
}
