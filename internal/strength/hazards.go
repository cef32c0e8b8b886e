package strength

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/stock"
)

// Codes of people and fire.
const (
	// LockNeeded: goods that could hurt a child, or that must be locked, are not behind a lock.
	LockNeeded finding.Code = "lock-needed"
	// KeptApart: goods that must not be together are in one case.
	KeptApart finding.Code = "kept-apart"
	// ChargingClosed: something charges in a closed case.
	ChargingClosed finding.Code = "charging-closed"
	// FuelInside: something with fuel in it is kept in a case.
	FuelInside finding.Code = "fuel-inside"
	// OilyRags: oily rags are kept otherwise than in a lidded metal can.
	OilyRags finding.Code = "oily-rags"
	// Flammables: how much is flammable, and that no case here counts as a cabinet for it.
	Flammables finding.Code = "flammables"
)

const (
	fireSource = "29 CFR 1910.106(d)(3) (what a wooden cabinet for flammables needs), 1926.152(b)(1) (25 gal in a room without one)"
	ragSource  = "29 CFR 1910.106(e)(9)(iii) (covered metal receptacles, emptied daily; from memory)"
	ownSource  = "common practice, no source"
)

// hazardSource is where a rule about what could hurt stands.
func hazardSource(c finding.Code) string {
	switch c {
	case Flammables:
		return fireSource
	case OilyRags:
		return ragSource
	}
	return ownSource
}

func hazards() Rule {
	return Rule{Name: "people and fire", Codes: []finding.Code{LockNeeded, KeptApart, ChargingClosed, FuelInside, OilyRags, Flammables},
		Doc:     "What could hurt is behind a lock where children come in, whatever its height, for a counter is a step: what is put on the floor, a bench, a rail, a hook or in the open is behind none; flammables, flares, chargers, sparks and whatever says apart-from: are not in one case; nothing charges behind a door and nothing with fuel in it is in a case; oily rags are in a lidded metal can. No case made here counts as a cabinet for flammables.",
		Source:  fireSource + "; oily rags: " + ragSource + "; the rest common practice, no source",
		Example: "Flares and varnish in one case.",
		Run:     checkHazards}
}

// hurts are hazards that a child must not get at.
var hurts = []string{"flammable", "corrosive", "toxic", "pyrotechnic", "fuelled", "sharp", "medical"}

// never are pairs of hazards that do not go into one case.
var never = [][2]string{{"pyrotechnic", "flammable"}, {"charging", "flammable"}, {"sparks", "flammable"}, {"charging", "pyrotechnic"}, {"sparks", "pyrotechnic"}, {"oily", "flammable"}, {"corrosive", "flammable"}}

// litres is the greatest volume that one of them can hold: its outside.
func litres(g *stock.Goods) (float64, bool) {
	switch {
	case g.Tall == nil:
		return 0, false
	case g.Dia != nil:
		return 3.14159265 / 4 * mm(*g.Dia) * mm(*g.Dia) * mm(*g.Tall) / 1e6, true
	case g.Wide != nil && g.Deep != nil:
		return mm(*g.Wide) * mm(*g.Deep) * mm(*g.Tall) / 1e6, true
	}
	return 0, false
}

func checkHazards(s *Scene) finding.List {
	var f finding.List
	fail := func(code finding.Code, sev finding.Severity, at, text, hint string, working ...string) {
		f.Add(finding.Finding{Code: code, Severity: sev, Verdict: finding.Fails, At: at, Text: text, Hint: hint, Source: hazardSource(code), Demand: 1, Unit: "places", Working: append(working, text)})
	}
	good := func(code finding.Code, at, text string) {
		f.Add(finding.Finding{Code: code, Severity: finding.Note, Verdict: finding.Holds, At: at, Text: text, Source: hazardSource(code), Capacity: 1, Unit: "places", Working: []string{text}})
	}
	unknown := blank{code: LockNeeded, source: ownSource}
	children := s.Job.File.People.Children
	seen := map[string]bool{}
	once := func(code finding.Code, at string) bool {
		k := string(code) + at
		was := seen[k]
		seen[k] = true
		return !was
	}
	lock := func(g *stock.Goods, at, in string, locked bool, hint string) {
		hurt := slices.ContainsFunc(g.Hazards, func(h string) bool { return slices.Contains(hurts, h) })
		why := "could hurt a child"
		if g.Locked {
			why = "must be locked"
		}
		switch {
		case !g.Locked && !hurt || !once(LockNeeded, at):
		case locked:
			good(LockNeeded, at, fmt.Sprintf("%s in %s: behind a lock.", called(g), in))
		case g.Locked || children != nil && *children:
			fail(LockNeeded, finding.Warning, at, fmt.Sprintf("%s in %s %s and is behind no lock; height alone is none.", called(g), in, why), hint)
		case children == nil:
			unknown.add("whether children come in", "Say people: {children: yes} or no.", called(g)+" in "+in, at)
		}
	}
	held := map[*stock.Goods]bool{}
	for _, w := range s.where {
		g, at := w.goods, s.at(w.owner, "")+"/"+w.goods.ID
		held[g] = true
		in := s.called(w.owner)
		locked := w.bay != nil && w.bay.Locked
		for _, x := range s.Job.Standing {
			locked = locked || x.ID == w.owner && x.Value.Locked
		}
		lock(g, at, in, locked, "Say lock: yes of the doors or drawers before it.")
		closed := w.bay != nil && (w.bay.Door || s.slid(w.bay))
		if slices.Contains(g.Hazards, "charging") && once(ChargingClosed, at) {
			if closed {
				fail(ChargingClosed, finding.Warning, at, fmt.Sprintf("%s charges in %s, which is closed.", called(g), in), "Charge in the open, away from what burns, with a timer.")
			} else {
				good(ChargingClosed, at, fmt.Sprintf("%s charges in the open on %s.", called(g), in))
			}
		}
		if slices.Contains(g.Hazards, "fuelled") && w.bay != nil && once(FuelInside, at) {
			fail(FuelInside, finding.Warning, at, fmt.Sprintf("%s in %s has fuel in it.", called(g), in), "Drain it, or keep it outside the building.")
		}
		if slices.Contains(g.Hazards, "oily") && once(OilyRags, at) {
			s.rags(g, at, in, fail, good)
		}
	}
	for i := range s.Job.Goods {
		g := &s.Job.Goods[i]
		if held[g] {
			continue
		}
		if g.Place != "" {
			lock(g, "goods/"+g.ID, "no case (place: "+g.Place+")", false, "List it under a case with lock: yes of its doors or drawers.")
		}
		if slices.Contains(g.Hazards, "oily") {
			s.rags(g, "goods/"+g.ID, cmp.Or(g.Place, "no place"), fail, good)
		}
	}
	s.apart(fail)
	f.Add(s.outside(held)...)
	s.flammable(&f)
	f.Add(unknown.findings("Whether a lock is needed", finding.Warning)...)
	return f
}

// rags says whether oily things are in a lidded metal can.
func (s *Scene) rags(g *stock.Goods, at, in string, fail func(finding.Code, finding.Severity, string, string, string, ...string), good func(finding.Code, string, string)) {
	words := strings.ToLower(g.Name + " " + g.ID + " " + g.Like)
	if strings.Contains(words, "can") && strings.Contains(words, "metal") || strings.Contains(words, "metal") && strings.Contains(words, "lid") || g.Like == "rag-can" {
		good(OilyRags, at, fmt.Sprintf("%s (%s): a lidded metal can.", called(g), in))
		return
	}
	fail(OilyRags, finding.Warning, at, fmt.Sprintf("%s (%s): nothing says that they are in a lidded metal can; oily rags heat themselves and burn.", called(g), in), "Keep them in a lidded metal can, emptied daily, like: rag-can.")
}

// apart finds goods in one case that must not be together.
func (s *Scene) apart(fail func(finding.Code, finding.Severity, string, string, string, ...string)) {
	var owners []string
	in := map[string][]*stock.Goods{}
	for _, w := range s.where { // kind by kind
		list := in[w.owner]
		if len(list) == 0 {
			owners = append(owners, w.owner)
		}
		if len(list) == 0 || list[len(list)-1] != w.goods {
			in[w.owner] = append(list, w.goods)
		}
	}
	for _, owner := range owners {
		for i, a := range in[owner] {
			for _, b := range in[owner][i+1:] {
				if why := unlike(a, b); why != "" {
					fail(KeptApart, finding.Error, s.at(owner, "")+"/"+a.ID+"+"+b.ID, fmt.Sprintf("%s and %s are both in %s: %s.", called(a), called(b), s.called(owner), why), "Give one of them another case.")
				}
			}
		}
	}
}

// unlike says why two kinds of goods must not be together, "" where they may.
func unlike(a, b *stock.Goods) (why string) {
	if (len(a.Hazards) == 0 || len(b.Hazards) == 0) && len(a.Apart) == 0 && len(b.Apart) == 0 {
		return ""
	}
	both := [][2]*stock.Goods{{a, b}, {b, a}}
	for _, p := range never {
		for _, o := range both {
			if slices.Contains(o[0].Hazards, p[0]) && slices.Contains(o[1].Hazards, p[1]) {
				why = p[0] + " beside " + p[1]
			}
		}
	}
	for _, o := range both {
		for _, x := range o[0].Apart {
			if x == o[1].ID || slices.Contains(o[1].Hazards, x) {
				why = o[0].ID + " is to be apart from " + x
			}
		}
	}
	return why
}

// outside finds goods that must not be together and are put down outside cases alike: on the floor, a bench. How far from
// each other is not known there.
func (s *Scene) outside(held map[*stock.Goods]bool) (f finding.List) {
	for i := range s.Job.Goods {
		for k := range s.Job.Goods[:i] {
			a, b := &s.Job.Goods[k], &s.Job.Goods[i]
			if held[a] || held[b] || a.Place == "" || a.Place != b.Place {
				continue
			}
			if why := unlike(a, b); why != "" {
				f.Add(finding.Finding{Code: KeptApart, Severity: finding.Warning, Verdict: finding.NotKnown, At: "goods/" + a.ID + "+" + b.ID, Source: hazardSource(KeptApart),
					Text: fmt.Sprintf("%s and %s are both in no case (place: %s): %s, and how far from each other they are is not known.", called(a), called(b), a.Place, why), Hint: "Give each of them a case of its own."})
			}
		}
	}
	return f
}

// flammable adds up what is flammable.
func (s *Scene) flammable(f *finding.List) {
	total, n := 0.0, 0
	var names, lacks, working []string
	for i := range s.Job.Goods {
		g := &s.Job.Goods[i]
		if !slices.Contains(g.Hazards, "flammable") {
			continue
		}
		n++
		names = append(names, called(g))
		v, ok := litres(g)
		if !ok {
			lacks = append(lacks, called(g))
			continue
		}
		many := float64(max(g.Count, 1))
		total += v * many
		working = append(working, fmt.Sprintf("%s: %.0f × %s = %s.", called(g), many, s.volume(v), s.volume(v*many)))
	}
	if n == 0 {
		return
	}
	const most = 25 * 3.785411784 // litres
	inch, limit := "1 in", "25 gal"
	if !s.inch() {
		inch, limit = "1 in (25.4 mm)", "25 gal (94.6 l)"
	}
	tail := "No case made here counts as a cabinet for flammables: that needs plywood of " + inch + " at least, rabbeted joints fastened in two directions, and a label."
	if len(lacks) > 0 && total <= most {
		f.Add(finding.Finding{Code: Flammables, Severity: finding.Note, Verdict: finding.NotKnown, At: "goods", Source: fireSource,
			Text: fmt.Sprintf("How much is flammable is not known: the size of %s is not known. %s", strings.Join(lacks, ", "), tail), Hint: "Give diameter and height, or width, depth and height."})
		return
	}
	x := verdict(finding.Finding{Code: Flammables, At: "goods", Demand: total, Capacity: most, Unit: "l", Source: fireSource}, finding.Warning)
	x.Text = fmt.Sprintf("At most %s are flammable (%s, by the outside of what holds them); over %s in a room a cabinet for flammables is needed. %s", s.volume(total), strings.Join(names, ", "), limit, tail)
	x.Working = append(working, fmt.Sprintf("In all %s against %s. Ratio %.2f.", s.volume(total), limit, x.Ratio()))
	if x.Verdict == finding.Fails {
		x.Hint = "Keep less, or buy a listed cabinet."
	}
	f.Add(x)
}

// volume prints litres, as gallons where the job is in inches.
func (s *Scene) volume(litres float64) string {
	if s.inch() {
		return three(litres/3.785411784) + " gal"
	}
	return three(litres) + " l"
}
