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
		Doc:     "A loose shelf and what stands on it is carried by four pins, each within its rating; the heaviest single thing of 5 kg or more may stand at one end, on two of them.",
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
		for _, h := range s.of(p.Owner).Hardware {
			if h.Kind == "pin" {
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
		// The heaviest thing may stand at one end, on two of the pins.
		one, words := s.heaviest(p)
		rest := l.kg + own - (one.kg - one.more)
		l.kg += one.more
		each := rest/4 + one.kg/2
		x := verdict(finding.Finding{Code: ShelfPins, At: at, Demand: each, Capacity: item.Rating.Kilograms(), Unit: "kg", Source: "rating of " + item.Name + ": " + item.Source}, finding.Warning)
		x.Text = fmt.Sprintf("Each of four pins under %s carries %s of %s; it is rated at %s.", s.name(p), s.kg(each), s.carries(l), s.kg(item.Rating.Kilograms()))
		x.Working = []string{"Load: " + l.from + words + ": " + s.kg(l.kg) + "; own weight " + s.kg(own) + ".", fmt.Sprintf("A quarter on each pin: (%s + %s) / 4 = %s. Ratio %.2f.", s.kg(l.kg), s.kg(own), s.kg(each), x.Ratio())}
		if one.kg > 0 {
			x.Working[1] = fmt.Sprintf("A quarter on each pin, and half of the heaviest thing, which may stand at one end: %s / 4 + %s / 2 = %s. Ratio %.2f.", s.kg(rest), s.kg(one.kg), s.kg(each), x.Ratio())
		}
		if x.Verdict == finding.Fails {
			may := item.Rating.Kilograms()
			var words []string
			if r := s.fixedEnds(p, l.kg+own); r > 0 && r <= 1 {
				words = append(words, fmt.Sprintf("fasten it to the sides, shelves: {fixed: yes} (ratio %.2f)", r))
			}
			if less := 4*may - 2*one.kg - own; less > 0 {
				words = append(words, fmt.Sprintf("keep no more than %s on it (ratio 1.00)", s.atMost(less)))
			}
			x.Hint = hint(words)
		}
		f.Add(x)
	}
	f.Add(unknown.findings("What its pins carry", finding.Note)...)
	return f
}
