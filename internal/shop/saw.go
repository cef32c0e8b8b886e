package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/mass"
)

// saw follows the cutting plan: one step for every sheet; its settings stand in the table of
// the sheet.
func (s *steps) saw() {
	saw := "saw"
	caution := eyes
	for _, t := range s.Practice.Tools {
		switch t.Kind {
		case "table-saw", "panel-saw":
			saw, caution = t.Name, tableSaw
		case "track-saw", "circular-saw":
			if caution == eyes {
				saw, caution = t.Name, handSaw
			}
		}
	}
	if x := cutlist.BreakDown(s.Practice); saw == "saw" && x.Name != "" {
		saw = x.Name
	}
	for i, sh := range s.Plan.Sheets {
		cuts, settings, trims, rough := 0, 0, 0, 0
		led := 0                // cuts to size with a straightedge
		recut := map[bool]int{} // with the hand-held saw, and not
		var off, hand length.Length
		var axis cutting.Axis
		last := length.Length(-1)
		for _, c := range sh.Cuts {
			if c.Work <= cutting.Roughing && c.Hand {
				hand = max(hand, c.Kerf)
			}
			if c.Work == cutting.Roughing {
				rough++
			}
			if c.Work == cutting.Recut {
				recut[c.Hand]++
			}
			if c.Work == cutting.Trimming {
				trims++
				whole := c.Of.L
				if c.Axis == cutting.Y {
					whole = c.Of.W
				}
				off = max(off, min(c.Setting+c.Kerf, whole-c.Setting))
				continue
			}
			if c.Hand && c.Work > cutting.Recut {
				led++
			}
			cuts++
			if c.Axis != axis || c.Setting != last {
				settings++
			}
			axis, last = c.Axis, c.Setting
		}
		trim := ""
		if trims > 0 {
			trim = fmt.Sprintf("trim %s, %s off each with the kerf, then ", count(trims, "edge", "edges"), s.in(off))
			switch {
			case trims == 1 && cutlist.LeftOver(sh.Stock):
				trim = fmt.Sprintf("trim the edge that a rough cut has left, %s off it with the kerf, then ", s.in(off))
			case trims == 1:
				trim = fmt.Sprintf("trim 1 edge, %s off with the kerf, then ", s.in(off))
			}
		}
		from := ""
		if cutlist.LeftOver(sh.Stock) {
			from = " that an earlier stage has left"
		} else if len(sh.Damage) > 0 {
			from = ", the damaged one on hand"
		}
		heaviest, weighs := mass.Mass(0), ""
		for _, w := range s.Plan.Warnings {
			if w.Sheet == i && w.Kind == cutting.TooHeavy {
				heaviest = max(heaviest, mass.Mass(w.Mass*1_000_000))
				weighs = fmt.Sprintf(" (about %s: two people)", heaviest.Print(s.Print == length.Millimetres))
			}
		}
		st := Step{Phase: Saw, Parts: slices.Clone(s.Marks[i]), Tool: cmp.Or(saw, "saw"), Caution: caution,
			Text: fmt.Sprintf("Sheet %d, %s%s%s: %smake its %s at %s.", i+1, s.board(sh.Stock), from, weighs, trim, count(cuts, "cut", "cuts"), count(settings, "setting", "settings"))}
		if i == 0 {
			st.Text += " Write its mark on every part as it comes off."
		}
		if point := s.badPlaces(sh); point != "" {
			st.Points = append(st.Points, point)
		}
		if rough == 0 && led > 0 && weighs != "" && saw != cutlist.Led(s.Practice) {
			st.Points = append(st.Points, fmt.Sprintf("Too heavy to push through the saw: trim it and make its first cuts with the %s, as the table of cuts says, to size at once", cutlist.Led(s.Practice)))
		}
		if rough > 0 {
			led := cutlist.Led(s.Practice)
			at := "at the " + saw
			switch {
			case recut[false] == 0:
				at = "with the " + led + " again"
			case recut[true] > 0:
				at = fmt.Sprintf("(%d with the %s again, %d at the %s, as the table of cuts says)", recut[true], led, recut[false], saw)
			}
			st.Points = append(st.Points, fmt.Sprintf("Too heavy to push through the saw: first break it down with the %s (%s, an allowance left on), then re-cut those edges %s before anything else.", led, count(rough, "rough cut", "rough cuts"), at))
		}
		if slices.ContainsFunc(sh.Offcuts, func(o cutting.Offcut) bool {
			return !o.Scrap && cutlist.RoughEdges(sh.Cuts, o.Rect, 1) != cutting.Trim{}
		}) {
			st.Points = append(st.Points, "The offcut keeps the edge of the rough cut: write “rough” on it; it is trimmed there before use.")
		}
		for _, o := range sh.Offcuts {
			if o.Keeps > 0 {
				st.Points = append(st.Points, fmt.Sprintf("Keep the offcut of %s × %s and write “sheet %d” on it: it is that sheet, of a later stage", s.in(o.L), s.in(o.W), o.Keeps))
			}
		}
		st.Points = append(st.Points, s.grooveSteps(i)...)
		if first := s.bevelFirst(i); len(first) > 0 {
			st.Points = append(st.Points, fmt.Sprintf("Bevelled: %s. Before each is ripped from its wide piece, saw the bevel (its setting stands under boring and grooving) along the edge of that piece, which carries the saw and its straightedge; then rip the strip to its width, measured from the long point. Of strips that are alike any will do: the one that is bevelled gets the mark.", brief(first)))
		}
		small := 0
		for _, c := range sh.Cuts {
			if cutlist.Small(s.Practice, c) {
				small++
			}
		}
		if small > 0 {
			work, tool, _ := cutlist.Holder(s.Practice, "")
			st.Tool += ", " + tool
			st.Points = append(st.Points, fmt.Sprintf("Of pieces under %s both ways: %s, which are made %s, as the table of cuts says", s.in(cutlist.LeastHeld), count(small, "cut", "cuts"), work))
		}
		if slices.ContainsFunc(sh.Cuts, func(c cutting.Cut) bool { return cutlist.ByGauge(s.Practice, c) }) {
			st.Tool += ", mitre gauge"
			if m := cutlist.Mitre(s.Practice); m != "" {
				st.Tool += ", " + m
			}
		}
		if led := s.straightedge(); hand > 0 && led != "" && led != saw {
			st.Tool += ", " + led
		}
		if weighs != "" {
			st.Caution = heavy + " " + caution
		}
		s.add(st)
	}
}

// badPlaces says how a damaged sheet is laid before its first cut, so that no part is cut from its bad place: in any corner it can be
// brought to every other by turning the sheet end for end and over. "" for one that is sound.
func (s *steps) badPlaces(sh cutting.Sheet) string {
	var list []string
	for _, d := range sh.Damage {
		list = append(list, fmt.Sprintf("%s × %s (%s along the sheet's length)", s.in(d.L), s.in(d.W), s.in(d.L)))
	}
	if len(list) == 0 {
		return ""
	}
	return fmt.Sprintf("Take the sheet with the bad place, %s, and no other: turn it end for end, or over, till that lies where the picture is crossed out (bad place) and the grain runs as drawn, and look again before the first cut. No part is cut from there", strings.Join(list, "; "))
}

// straightedge names the saw that is led along a straightedge.
func (s *steps) straightedge() string {
	for _, t := range s.Practice.Tools {
		if t.Kind == "track-saw" || t.Kind == "circular-saw" {
			return cmp.Or(t.Name, t.ID)
		}
	}
	return ""
}

// RipWhole is the rule for pieces of a stick that are ripped.
const RipWhole = "Rip a piece after it is cut to its length, never one shorter than a foot: short parts come from a blank that is ripped into strips as it is, and crosscut after."

// TreatedWood is the caution at the saw for wood with a preservative in it (from memory: consumer information sheets of
// its makers).
const TreatedWood = "Treated wood: wear a dust mask, saw it outdoors, wash your hands after it, and never burn what is left of it."

// sticks crosscuts solid lumber, a step for every length that is sawn up.
func (s *steps) sticks() {
	saw := "hand saw"
	for _, t := range s.Practice.Tools {
		if t.Kind == "mitre-saw" {
			saw = cmp.Or(t.Name, t.Kind)
		}
	}
	for i, x := range s.Sticks {
		care := "Hold the stick against the fence; let the blade stop before lifting it."
		if saw == "hand saw" {
			care = "Clamp the stick down, and saw beside a line squared all round it."
		}
		st := Step{Phase: Saw, Tool: saw, Caution: care,
			Text: fmt.Sprintf("Stick %d, %s: square one end, then cut these lengths in order from it, each against a stop.", i+1, s.stick(x.Stock))}
		if x.Over {
			st.Text = fmt.Sprintf("Stick %d, %s that an earlier stage has left: cut these lengths in order from its square end, each against a stop.", i+1, s.stick(x.Stock))
		}
		rips := false
		for _, p := range x.Pieces {
			t := s.in(p.Len) + ": " + strings.Join(p.Marks, " and ")
			switch {
			case len(p.Strips) > 0:
				t = s.in(p.Len) + ": a blank. Rip it, as long as it is, into strips, each from its wide rest; then crosscut them against a stop: " + s.strips(p)
				rips = true
			case p.Rip > 0:
				t += ", ripped to " + s.in(p.Rip)
				rips = true
			}
			if n := s.parts[p.Marks[0]].Note; n != "" {
				t += ", " + n
			}
			st.Points = append(st.Points, t)
			st.Parts = append(st.Parts, p.Marks...)
		}
		if s.Catalogue.Treated(x.Stock) {
			st.Caution += " " + TreatedWood
		}
		if rips {
			ripper, caution := s.ripper()
			st.Tool += ", " + ripper
			st.Points = append(st.Points, RipWhole)
			st.Caution += " " + caution
		}
		s.add(st)
	}
}

// strips tells the strips of a blank and what each is crosscut into.
func (s *steps) strips(p cutlist.StickPiece) string {
	var list []string
	for _, x := range p.Strips {
		list = append(list, fmt.Sprintf("%s wide into %s of %s", s.in(x.Rip), strings.Join(x.Marks, ", "), s.in(x.Each)))
	}
	return strings.Join(list, "; ")
}

// ripper names the saw that sticks are ripped at, with its caution.
func (s *steps) ripper() (name, caution string) {
	for _, t := range s.Practice.Tools {
		if t.Kind == "table-saw" || t.Kind == "panel-saw" {
			return cmp.Or(t.Name, t.ID), tableSaw
		}
	}
	return cmp.Or(s.straightedge(), "rip saw"), handSaw
}

// stick gives the name of solid lumber.
func (s *steps) stick(id string) string {
	if x, ok := s.Catalogue.Stick(id); ok {
		return cmp.Or(x.Name, id)
	}
	return id
}

// board gives the name of the board that a stock of the cutting plan is.
func (s *steps) board(id string) string {
	id, _, _ = strings.Cut(id, "/")
	if b, ok := s.Catalogue.Board(id); ok {
		return cmp.Or(b.Name, id)
	}
	return id
}
