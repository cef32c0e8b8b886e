package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/strength/unit"
)

// ShelfSag: a shelf, tray, bottom, counter or rail sags more than the practice allows.
const ShelfSag finding.Code = "shelf-sag"

func sag() Rule {
	return Rule{Name: "sag", Codes: []finding.Code{ShelfSag},
		Doc:     "The sag of every shelf, tray, bottom, counter and base rail after years, the first sag times one plus its creep factor, is no more than the practice allows: its longest way between supports over 240 where the practice does not say otherwise, and 1/4 in in all. Housed ends are counted as free to turn. Strips that are glued along an edge count as one section with the board. Goods are spread, but the heaviest single thing of 5 kg or more that the job puts on a shelf or a bottom stands in its middle. A partition that stands on a bottom or a fixed shelf brings it its own weight, its share of every board that ends at it or runs over it, and half of every drawer beside it; what holds its upper end is not counted. A counter rests on a partition only where that stands on what does not give.",
		Source:  beamSource + "; " + plateSource + "; creep EN 1995-1-1 Table 3.2; 1/4 in in all ANSI/KCMA A161.1",
		Example: "A loose shelf of 18 mm birch plywood over 1200 mm with 195 kg/m² on it.",
		Run:     checkSag}
}

// most is the greatest sag in all, mm: ANSI/KCMA A161.1.
const most = unit.Inch / 4

// allowed is the sag that the practice allows a board.
func (s *Scene) allowed(b board) (limit float64, words string) {
	over := float64(s.Job.Practice.Sag)
	if over <= 0 {
		over = 240
	}
	limit = math.Min(b.reach/over, most)
	words = fmt.Sprintf("Allowed: %s / %.0f = %s", s.exact(b.reach), over, s.small(b.reach/over))
	if limit == most {
		words += fmt.Sprintf(", and no more than %s in all", s.small(most))
	}
	return limit, words + "."
}

func checkSag(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: ShelfSag, source: beamSource}
	ratio := func(n board) float64 {
		r, ok := n.bend()
		if !ok {
			return math.Inf(1)
		}
		limit, _ := s.allowed(n)
		return r.sag * (1 + n.wood.creep) / limit
	}
	for _, b := range s.carriers(&unknown) {
		own, ok := b.bend()
		if !ok {
			fact, find := "how its supports hold it", "Give it a support at each end."
			if len(b.cuts) > 0 {
				fact, find = "what carries it at the joint of its pieces", "Lay a second layer under it, a block under the joint, or have the joint over a case's side."
			}
			unknown.add(fact, find, s.name(b.part), b.at)
			continue
		}
		counted := b.worst(ratio)
		r, _ := counted.bend()
		limit, words := s.allowed(counted)
		final := r.sag * (1 + b.wood.creep)
		if r.over && round(final) > round(limit) {
			unknown.add("the modulus across the grain of "+b.wood.what, "Give modulus-across and shear-panel of its material under materials:.", s.name(b.part), b.at)
			continue
		}
		x := verdict(finding.Finding{Code: ShelfSag, At: b.at, Demand: final, Capacity: limit, Unit: "mm", Source: r.source + "; creep: " + b.wood.source}, finding.Warning)
		x.Shape = own.shape(b.length, final)
		x.Working = append(append(b.working, "Method: "+r.how+"."), append(s.shorter(b, counted), s.butted(b)...)...)
		x.Working = append(x.Working, s.sums(counted, r)...)
		x.Working = append(x.Working, fmt.Sprintf("First sag %s; after years: %s × (1 + %.2f) = %s.", s.small(r.sag), s.small(r.sag), b.wood.creep, s.small(final)), words,
			fmt.Sprintf("Ratio %.2f.", x.Ratio()))
		x.Text = fmt.Sprintf("%s, %s between supports, sags %s under %s after years; %s is allowed.", s.name(b.part), s.long(b.reach), s.small(final), s.carrying(b), s.small(limit))
		if x.Verdict == finding.Fails {
			x.Hint = hint(s.remedies(b, func(n board) float64 { return ratio(n.worst(ratio)) }))
		}
		f.Add(x)
	}
	f.Add(unknown.findings("Sag", finding.Note)...)
	return f
}

// carrying says what a board carries, the partitions on it too.
func (s *Scene) carrying(b board) string {
	t, n := s.carries(b.load), 0.0
	for _, x := range b.stands {
		n += x.force
	}
	if n > 0 {
		t += fmt.Sprintf(" and %s that %s", many(len(b.stands), "partition"), map[bool]string{true: "brings ", false: "bring "}[len(b.stands) == 1]+s.force(n))
	}
	return t
}

// carries says what a board carries and where the figure is from, in short.
func (s *Scene) carries(l load) string {
	if l.assumed {
		return "an assumed " + s.kg(l.kg)
	}
	return s.kg(l.kg)
}
