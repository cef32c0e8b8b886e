package strength

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/part"
)

// ShelfPins: the pins under a loose shelf carry more than they are rated for.
const ShelfPins finding.Code = "shelf-pins"

func pins() Rule {
	return Rule{Name: "shelf pins", Codes: []finding.Code{ShelfPins},
		Doc:     "A loose shelf and what stands on it is carried by four pins, each within its rating.",
		Source:  "the rating of the pin, as the list gives it",
		Example: "A shelf with 120 kg on four pins rated at 18 kg.",
		Run:     checkPins}
}

func checkPins(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: ShelfPins, source: "the rating of the pin"}
	for i := range s.All.Spans {
		sp := &s.All.Spans[i]
		p := s.parts[sp.Part]
		if p == nil || p.Role != part.Shelf || len(sp.Supports) != 2 || sp.Supports[0].Fixed {
			continue
		}
		at := s.at(p.Owner, p.Mark)
		pin := ""
		for _, h := range s.All.Hardware {
			if h.Owner == p.Owner && h.Kind == "pin" {
				pin = h.ID
			}
		}
		item, ok := s.Job.Catalogue.Item(pin)
		if !ok || item.Rating == nil {
			unknown.add("the rating of shelf pin "+pin, "Give rating: to the pin under hardware:.", s.name(p), at)
			continue
		}
		own, ok := s.weight(p)
		l := s.on(p, sp, &board{part: p})
		if !ok || !l.known {
			continue // said with its sag
		}
		x := verdict(finding.Finding{Code: ShelfPins, At: at, Demand: (l.kg + own) / 4, Capacity: item.Rating.Kilograms(), Unit: "kg", Source: "rating of " + item.Name + ": " + item.Source}, finding.Warning)
		x.Text = fmt.Sprintf("Each of four pins under %s carries %s of %s; it is rated at %s.", s.name(p), s.kg((l.kg+own)/4), s.carries(l), s.kg(item.Rating.Kilograms()))
		x.Working = []string{"Load: " + l.from + ": " + s.kg(l.kg) + "; own weight " + s.kg(own) + ".", fmt.Sprintf("A quarter on each pin: (%s + %s) / 4 = %s. Ratio %.2f.", s.kg(l.kg), s.kg(own), s.kg((l.kg+own)/4), x.Ratio())}
		if x.Verdict == finding.Fails {
			n := 2 * (int((l.kg+own)/2/item.Rating.Kilograms()) + 1)
			x.Hint = fmt.Sprintf("Put %d pins under it (ratio %.2f), or fasten it to the sides.", n, (l.kg+own)/float64(n)/item.Rating.Kilograms())
		}
		f.Add(x)
	}
	f.Add(unknown.findings("What its pins carry", finding.Note)...)
	return f
}
