package joinery

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Sold reports whether hardware is sold where the practice buys: inch shops inch sizes, others
// metric ones.
func (s Shop) Sold(h stock.Hardware) bool {
	unit := s.Practice.Unit
	return h.Sold == "" || h.Sold == "both" || unit == "" || h.Sold == unit
}

// over is how much longer than wanted Screw may give one.
const over = 2 * mm

// Screw gives the screw of the catalogue for a use whose length is nearest to the wanted one
// and at most 2 mm longer.
func (s Shop) Screw(use string, want L) (stock.Hardware, bool) {
	var best stock.Hardware
	ok := false
	for _, h := range s.Catalogue.Hardware {
		if h.Use != use || (h.Kind != "screw" && h.Kind != "bolt") || h.Length > want+over || !s.Sold(h) {
			continue
		}
		if !ok || h.Length > best.Length {
			best, ok = h, true
		}
	}
	return best, ok
}

// Bite is the least that a screw goes into the last board (common practice, no source): with a thread or two it
// holds nothing.
const Bite = 6 * mm

// ScrewFor gives the longest screw of a use that goes through a first layer and Bite into a
// second without coming out of it: at most the sum less 4 mm.
func (s Shop) ScrewFor(use string, first, second L) (stock.Hardware, bool) {
	var best stock.Hardware
	ok := false
	for _, h := range s.Catalogue.Hardware {
		if h.Use == use && h.Kind == "screw" && s.Sold(h) && h.Length <= first+second-4*mm && h.Length >= first+Bite && (!ok || h.Length > best.Length) {
			best, ok = h, true
		}
	}
	return best, ok
}

// Lay screws one board through another that lies on it, without holes of their own for the list of workings: n of the
// longest wood screw that stays. Where none does, the joint is glued, and it is said.
func (s Shop) Lay(j part.Joint, through, into part.Part, first, second L, n int, use string) Result {
	h, ok := s.ScrewFor("wood", first, second)
	r := Result{Joint: j}
	if !ok {
		s.glued(&r, through.Name, into.Name, first, second)
		return r
	}
	r.Joint.Fastener, r.Joint.Count = h.ID, n
	r.Items = []part.Item{{Owner: s.Owner, ID: h.ID, Kind: "screw", Count: n, Length: h.Length, For: use}}
	return r
}

// glued leaves a joint without screws, for none goes through a first board and stays in a second.
func (s Shop) glued(r *Result, through, into string, first, second L) {
	r.Joint.Kind, r.Joint.Glue = part.GlueOnly, true
	r.Findings.Add(finding.Finding{Code: NoScrew, Severity: finding.Warning, At: s.at(),
		Text: fmt.Sprintf("no wood screw goes through %s of %s and stays in %s of %s: they are only glued", s.text(first), through, s.text(second), into),
		Hint: "add one to hardware, with its use and length", Source: "common practice, no source"})
}

// PocketLength gives the length of a pocket screw for the thinner of two boards. Common
// practice, no source.
func PocketLength(thinner L) L {
	rows := [...][2]L{
		{14 * mm, 25 * mm}, {17 * mm, 25 * mm}, {20 * mm, 32 * mm}, {26 * mm, 38 * mm},
		{29 * mm, 45 * mm}, {34 * mm, 50 * mm},
	}
	for _, r := range rows {
		if thinner <= r[0] {
			return r[1]
		}
	}
	return 63 * mm
}

// fasten names the screw of a joint.
func (s Shop) fasten(r *Result, use string, want L, n int) {
	h, ok := s.Screw(use, want)
	if !ok || h.Length < want-4*mm {
		r.Findings.Add(finding.Finding{Code: NoScrew, Severity: finding.Warning, At: s.at(),
			Text:   fmt.Sprintf("no %s screw of %s is in the catalogue", use, s.name(want)),
			Hint:   "add it to hardware, with its use and length",
			Source: "common practice, no source"})
	}
	s.buy(r, h, use, n)
}

// buy puts n screws on the list of a joint.
func (s Shop) buy(r *Result, h stock.Hardware, use string, n int) {
	id := cmp.Or(h.ID, use+"-screw")
	r.Joint.Fastener, r.Joint.Count = id, n
	r.Items = append(r.Items, part.Item{Owner: s.Owner, ID: id, Kind: "screw", Count: n, Length: h.Length, For: "carcass joints"})
}

// PlateScrews gives the screws of n feet or castors whose plates are screwed under a board so thick, short of
// coming out of it; false for those that go in a hole.
func (s Shop) PlateScrews(h stock.Hardware, n int, thick L, use string) (part.Item, bool) {
	screw, ok := s.Screw("slide", thick-2*mm)
	if !ok || h.ScrewsEach == 0 || n == 0 {
		return part.Item{}, false
	}
	return part.Item{Owner: s.Owner, ID: screw.ID, Kind: "screw", Count: n * h.ScrewsEach, Length: screw.Length, For: use}, true
}
