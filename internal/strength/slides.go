package strength

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/unit"
)

// SlideLoad: a drawer or tray with what is in it is heavier than its slides are rated for.
const SlideLoad finding.Code = "slide-load"

// DrawerWide: a drawer is much wider than its slides are long, and racks.
const DrawerWide finding.Code = "drawer-wide"

func slides() Rule {
	return Rule{Name: "slides", Codes: []finding.Code{SlideLoad, DrawerWide},
		Doc:     "A drawer or tray, its own weight counted, is within the rating of its pair of slides, and is no wider than one and a half times their length. A rating is tried on a drawer narrower than its slides are long; on a wider one it counts by length over width, and from 24 in on as three quarters at the most, the next lighter class, unless the list gives the width that it holds for (rated-to:). Where nothing is said of what is in it, the assumed load is no more than the slides carry, and that figure is given.",
		Source:  "the rating of the slides, as the list gives it; how it falls with width, and width over length, common practice, no source",
		Example: "A tray with 60 kg on slides of the 45 kg class.",
		Run:     checkSlides}
}

// widest is the width of a drawer over the length of its slides: common practice, no source.
const widest = 1.5

func checkSlides(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: SlideLoad, source: "the rating of the slides"}
	for i := range s.All.Motions {
		m := &s.All.Motions[i]
		if m.Kind != part.Slide {
			continue
		}
		at := s.at(m.Owner, m.ID)
		name := fmt.Sprintf("%s in %s", s.opening(m.ID), s.called(m.Owner))
		if m.Rating <= 0 {
			unknown.add("the rating of "+m.Hardware, "Give rating: to the slides under hardware:.", name, at)
			continue
		}
		box, in, lacks := s.moving(m)
		if len(lacks) > 0 {
			for _, x := range lacks {
				unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", name, at)
			}
			continue
		}
		may, why := s.slidesBear(m)
		left := max(may-box, 0)
		capped := in.bare && in.kg > left
		if capped {
			in.kg = left
			in.from += fmt.Sprintf("; assumed: no more than the slides carry, %s", s.kg(left))
		}
		all := box + in.kg
		x := verdict(finding.Finding{Code: SlideLoad, At: at, Demand: all, Capacity: may, Unit: "kg", Source: s.sourceOf(m.Hardware)}, overload(all/may, in.assumed))
		x.Text = fmt.Sprintf("%s weighs %s with %s in it; its slides are rated at %s.", name, s.kg(all), s.carries(in), s.kg(m.Rating.Kilograms()))
		if why != "" {
			x.Text = strings.TrimSuffix(x.Text, ".") + fmt.Sprintf(", of which %s count on so wide a drawer.", s.kg(may))
		}
		if capped && left > 0 {
			x.Text += fmt.Sprintf(" Nothing says what goes in it: put no more than %s in.", s.atMost(left))
		}
		x.Working = []string{"Load: " + in.from + ": " + s.kg(in.kg) + ".", fmt.Sprintf("The box and its front weigh %s: %s in all, against %s for a pair. Ratio %.2f.", s.kg(box), s.kg(all), s.kg(may), x.Ratio()),
			fmt.Sprintf("So %s may be put in it.", s.kg(left))}
		if why != "" {
			x.Working = slices.Insert(x.Working, 1, why)
		}
		if x.Verdict == finding.Fails {
			var words []string
			if left > 0 {
				words = append(words, fmt.Sprintf("keep no more than %s in it (ratio 1.00)", s.atMost(left)))
			}
			if h, counts, ok := s.stronger(m, all); ok {
				words = append(words, fmt.Sprintf("take %s, slide: %s (ratio %.2f)", h.Name, h.ID, all/counts))
			}
			if why != "" {
				own, _ := s.Job.Catalogue.Item(m.Hardware)
				wide, long := s.breadth(m)
				// Half as wide, each box weighs no more than three quarters: its front and back are half as long.
				if r := (0.75*box + in.kg/2) / (m.Rating.Kilograms() * counts(own, wide/2, long)); r <= 1 {
					words = append(words, fmt.Sprintf("use two drawers side by side, half of it in each, across: of the bay (ratio %.2f)", r))
				}
				if r := all / m.Rating.Kilograms(); r <= 1 {
					words = append(words, fmt.Sprintf("where their maker rates them in full for so wide a drawer, say so, rated-to: of %s under hardware: (ratio %.2f)", m.Hardware, r))
				}
			}
			x.Hint = hint(words)
		}
		f.Add(x)
		f.Add(s.wide(m, name, at)...)
	}
	f.Add(unknown.findings("What its slides carry", finding.Warning)...)
	return f
}

// moving is what a motion carries: its parts, and the goods in its bays. Lacks names what is
// not known.
func (s *Scene) moving(m *part.Motion) (parts float64, in load, lacks []string) {
	seen := map[string]bool{}
	add := func(p *part.Part) {
		if p == nil || seen[p.Mark] {
			return
		}
		seen[p.Mark] = true
		kg, ok := s.weight(p)
		if !ok {
			lacks = append(lacks, weightOf(p))
		}
		parts += kg
	}
	for _, mark := range m.Parts {
		add(s.parts[mark])
	}
	for _, p := range s.riding[m.ID] {
		add(p)
	}
	in.known, in.bare = true, true
	for _, b := range s.inside[m.ID] {
		l := s.loads[b.ID]
		lacks = append(lacks, l.lacks...)
		in.kg += l.kg
		in.assumed, in.bare = in.assumed || l.assumed, in.bare && l.bare
		if in.from != "" {
			in.from += "; "
		}
		in.from += l.from
	}
	if in.from == "" {
		in.from = "nothing is in it"
	}
	return parts, in, lacks
}

// breadth gives how wide a drawer or tray is and how long its slides are, mm; 0 for what is not known.
func (s *Scene) breadth(m *part.Motion) (wide, long float64) {
	long = mm(m.Closed.Max.Y - m.Closed.Min.Y)
	for _, mark := range m.Parts {
		if p := s.parts[mark]; p != nil && (p.Role == part.BoxBottom || p.Role == part.TrayBase) {
			wide = mm(p.Box().Max.X - p.Box().Min.X)
		}
	}
	if m.Travel > 0 {
		long = mm(m.Travel)
		if h, ok := s.Job.Catalogue.Item(m.Hardware); ok && h.Extends == "three-quarter" {
			long = long * 4 / 3
		}
	}
	return wide, long
}

// wideFrom is the width from which a published guide asks for slides of the next heavier class (24 in), and
// nextClass what one class is of the next: 75 lb of 100 lb.
const (
	wideFrom  = 24 * unit.Inch
	nextClass = 0.75
)

// counts is the share of a rating that counts on a drawer so wide: what would turn it in its slides, its weight by
// its width over their length, is then no more than in one as wide as they are long.
func counts(h stock.Hardware, wide, long float64) float64 {
	k := 1.0
	if wide <= 0 || long <= 0 || wide <= mm(h.RatedTo) {
		return k
	}
	if wide >= wideFrom {
		k = nextClass
	}
	return math.Min(k, long/wide)
}

// slidesBear is what counts of the rating of what carries a drawer or tray, kg; why says how, "" where all of it does.
func (s *Scene) slidesBear(m *part.Motion) (kg float64, why string) {
	h, _ := s.Job.Catalogue.Item(m.Hardware)
	all := m.Rating.Kilograms()
	wide, long := s.breadth(m)
	if wide == 0 {
		wide = mm(m.Closed.Max.X - m.Closed.Min.X)
	}
	k := counts(h, wide, long)
	switch kg = all * k; {
	case k == 1:
		return kg, ""
	case k == nextClass:
		return kg, fmt.Sprintf("It is %s wide, more than 24 in: slides of the next heavier class would be taken, so that three quarters count: 0.75 × %s = %s.", s.exact(wide), s.kg(all), s.kg(kg))
	}
	return kg, fmt.Sprintf("It is wider than its slides are long, so that their rating counts by length over width: %s × %s / %s = %s.", s.kg(all), s.exact(long), s.exact(wide), s.kg(kg))
}

// wide judges a drawer's width by the length of its slides.
func (s *Scene) wide(m *part.Motion, name, at string) finding.List {
	v, long := s.breadth(m)
	if v == 0 || long == 0 {
		return nil
	}
	x := verdict(finding.Finding{Code: DrawerWide, At: at, Demand: v / long, Capacity: widest, Unit: "width over length", Source: "common practice, no source"}, finding.Warning)
	x.Text = fmt.Sprintf("%s is %s wide on slides %s long, %s times: over %.1f it racks.", name, s.long(v), s.long(long), times(v/long), widest)
	x.Working = []string{fmt.Sprintf("%s / %s = %.2f against %.1f.", s.exact(v), s.exact(long), v/long, widest)}
	if x.Verdict == finding.Fails {
		x.Hint = hint(append(s.longer(m, v, long), fmt.Sprintf("use two drawers side by side, across: of the bay (ratio %.2f)", v/2/long/widest)))
	}
	return finding.List{x}
}

// times prints a ratio to two places, or to as many as tell it from the widest that is allowed.
func times(r float64) string {
	for n := 2; ; n++ {
		t := strconv.FormatFloat(r, 'f', n, 64)
		if v, _ := strconv.ParseFloat(t, 64); n > 5 || (v > widest) == (r > widest) {
			return t
		}
	}
}

func (s *Scene) sourceOf(id string) string {
	h, _ := s.Job.Catalogue.Item(id)
	return "rating of " + h.Name + ": " + h.Source
}

// longer says which slides carry a drawer so wide: the shortest that are sold and that its case has
// room for; and how wide a drawer may be on those that it has.
func (s *Scene) longer(m *part.Motion, wide, long float64) []string {
	words := []string{fmt.Sprintf("make it no wider than %s, width: %s less (ratio 1.00)", s.long(widest*long), s.long(math.Ceil((wide-widest*long)/s.step())*s.step()))}
	own, _ := s.Job.Catalogue.Item(m.Hardware)
	best := L(0)
	for _, l := range own.Lengths { // the shortest that would do, in a deeper case
		if mm(l)*widest >= wide && (best == 0 || l < best) {
			best = l
		}
	}
	if best > 0 { // the longest that goes in is taken already
		deeper := math.Ceil((mm(best)-long)/s.step()) * s.step()
		words = append(words, fmt.Sprintf("make the case %s deeper, depth:, for slides of %s (ratio %.2f)", s.long(deeper), s.long(mm(best)), wide/mm(best)/widest))
	}
	return words
}

// stronger gives the weakest slides of the same mount, sold in the same shops, that carry it, and what counts of
// their rating on a drawer that is as much narrower as they are thicker.
func (s *Scene) stronger(m *part.Motion, kg float64) (best stock.Hardware, may float64, ok bool) {
	own, _ := s.Job.Catalogue.Item(m.Hardware)
	wide, long := s.breadth(m)
	for _, h := range s.Job.Catalogue.Hardware {
		if h.Kind != "slide" || h.Rating == nil || h.SlideKind != own.SlideKind || h.Sold != own.Sold {
			continue
		}
		can := h.Rating.Kilograms() * counts(h, wide-2*mm(h.SideRoom-own.SideRoom), long)
		if can >= kg && (best.ID == "" || can < may) {
			best, may = h, can
		}
	}
	return best, may, best.ID != ""
}
