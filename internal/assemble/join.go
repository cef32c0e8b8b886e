package assemble

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/stock"
)

// Joining neighbours: at least three screws, four over 36 in of height, never longer than both
// sides less 4 mm (common practice, no source).
const (
	joinLeast  = 3
	joinTall   = 36 * length.Inch
	joinMargin = 4 * length.MM
)

// joinNeighbours bores for the screws between cases that touch, and lists them: from inside the left
// one; into one that stands already from inside the new one, on whichever side that is.
func (w *work) joinNeighbours() {
	for i := range w.room.Seats {
		s := &w.room.Seats[i]
		if s.Kind != place.Case {
			continue
		}
		if r := w.room.Seat(s.Right); r != nil && s.Joins[1] {
			w.joinPair(s, r, geom.Right)
		} else if r != nil {
			w.byHand(s, r, s.Odd[1])
		}
		if l := w.room.Seat(s.Left); l != nil && l.Kind == place.Standing {
			if s.Joins[0] {
				w.joinPair(s, l, geom.Left)
			} else {
				w.byHand(s, l, s.Odd[0])
			}
		}
	}
}

// byHand says by what two that touch differ, so that the family's rows of holes do not meet, and
// gives the screws between them with holes of their own: from inside the lower one, two behind its
// front edge and two before its rear.
func (w *work) byHand(s, other *place.Seat, odd string) {
	from, to, d := s, other, geom.Right
	if other.Kind == place.Case && other.Top < s.Top {
		from, to, d = other, s, geom.Left
	}
	if s.Box.Max.X > other.Box.Min.X {
		d = d.Not()
	}
	p, ok := w.side(from.ID, d)
	if !ok {
		return
	}
	screw, gap, have := w.between(from, to, p, d)
	into, kind := screw.Length-p.Size[2]-gap, "screw"
	if w.adrift(from.ID) || w.adrift(to.ID) {
		// A screw of two sides has too little wood for any published strength; a bolt has one.
		if b, theirs, ok := w.bolt(to, p, d, gap); ok {
			screw, into, kind, have = b, theirs, "bolt", true
		}
	}
	box := p.Box()
	if q, ok := w.side(to.ID, d.Not()); ok {
		box.Min.Z, box.Max.Z = max(box.Min.Z, q.Box().Min.Z), min(box.Max.Z, q.Box().Max.Z)
		box.Min.Y, box.Max.Y = max(box.Min.Y, q.Box().Min.Y), min(box.Max.Y, q.Box().Max.Y)
	} else { // what stands already is known by its outside only
		box.Min.Z, box.Max.Z = max(box.Min.Z, to.Box.Min.Z), min(box.Max.Z, to.Box.Max.Z)
		box.Min.Y, box.Max.Y = max(box.Min.Y, to.Box.Min.Y), min(box.Max.Y, to.Box.Max.Y)
	}
	if box.Max.Z-box.Min.Z < 4*handEdge || box.Max.Y-box.Min.Y < 4*handEdge {
		w.found.Add(finding.Finding{Code: JoinNone, Severity: finding.Note, At: string(s.Kind) + "/" + s.ID, Source: "common practice, no source",
			Text: fmt.Sprintf("%s and %s touch over %s of depth and %s of height only: there is no room for screws between them, and nothing joins them.", s.Name, other.Name, w.in(max(0, box.Max.Y-box.Min.Y)), w.in(max(0, box.Max.Z-box.Min.Z)))})
		return
	}
	said := func(holes string) {
		w.found.Add(finding.Finding{Code: JoinByHand, Severity: finding.Note, At: string(s.Kind) + "/" + s.ID, Source: "common practice, no source",
			Text: fmt.Sprintf("%s and %s stand side by side, but %s: the family's rows of joining holes do not meet in them.%s", s.Name, other.Name, odd, holes)})
	}
	if !have {
		said("")
		return
	}
	x := (box.Min.X + box.Max.X) / 2
	mine := w.inJob(p.Mark)
	var theirs *part.Part
	if q, ok := w.side(to.ID, d.Not()); ok {
		theirs = w.inJob(q.Mark)
	}
	n, low, high := 0, L(0), L(0) // screws, the lowest and the highest
	for i, z := range []L{box.Min.Z + 2*handEdge, box.Max.Z - handEdge} {
		for k, y := range []L{box.Min.Y + handEdge, box.Max.Y - handEdge} {
			at, free := w.boreJoining(mine, theirs, d, screw, geom.V(x, y, z), geom.V(0, L(1-2*k), L(1-2*i)))
			if !free {
				continue
			}
			y, z := at.Y, at.Z
			if n++; n == 1 {
				low, high = z, z
			}
			low, high = min(low, z), max(high, z)
			w.all.Fixings = append(w.all.Fixings, part.Fixing{Owner: from.ID, Kind: part.ToCase, Wall: from.Wall, Part: p.Mark, At: geom.V(x, y, z), Stud: to.ID, Screw: screw.ID, Length: screw.Length,
				Layers: []part.Layer{{Name: "side", Stock: p.Stock, Thickness: p.Size[2]}}, Into: into, Packing: gap, Row: "joining"})
		}
	}
	if n > 0 {
		said(fmt.Sprintf(" %d of their own join them, from %s to %s up.", n, w.in(low), w.in(high)))
	} else {
		said("")
	}
	if n < handScrews {
		w.found.Add(finding.Finding{Code: JoinFew, Severity: finding.Warning, Verdict: finding.Fails, At: "case/" + from.ID, Source: "common practice, no source", Demand: handScrews, Capacity: float64(n), Unit: "screws",
			Text: fmt.Sprintf("%s and %s are joined by %d screws; %d are wanted.", from.Name, to.Name, n, handScrews), Hint: "Find clear places for more by hand, away from hinges, slides and shelf holes."})
	}
	if n == 0 {
		return
	}
	w.all.Hardware = append(w.all.Hardware, part.Item{Owner: from.ID, ID: screw.ID, Kind: kind, Count: n, Length: screw.Length, For: part.Joins + to.ID, Stage: from.Stage})
}

// adrift says that nothing holds a case that should be fixed to its wall.
func (w *work) adrift(id string) bool {
	s := w.room.Seat(id)
	return s.Kind == place.Case && !s.Moves && !s.Hung && !slices.ContainsFunc(w.all.Fixings, func(f part.Fixing) bool {
		return f.Owner == id && (f.Kind == part.ToStud || f.Kind == part.ToWall)
	})
}

// bolt gives the shortest joining bolt, sold in the shop's unit, that passes two sides and a gap
// and takes washers and its nut, and the thickness of the other side.
func (w *work) bolt(other *place.Seat, p part.Part, d geom.Dir, gap L) (best stock.Hardware, theirs L, ok bool) {
	q, ok := w.side(other.ID, d.Not())
	if !ok {
		return best, 0, false
	}
	theirs = q.Size[2]
	for _, h := range w.job.Catalogue.Hardware {
		if h.Clamps(p.Size[2]+gap+theirs) && (h.Sold == w.job.Practice.Unit || h.Sold == "both" || h.Sold == "") && (best.ID == "" || h.Length < best.Length) {
			best = h
		}
	}
	return best, theirs, best.ID != ""
}

// Screws that join by hand: four, so far from the edges (common practice, no source).
const (
	handScrews = 4
	handEdge   = 50 * length.MM
)

// between gives the screw that joins a side of one to the next, and the gap that it crosses; false
// when none is short enough.
func (w *work) between(s, other *place.Seat, p part.Part, d geom.Dir) (stock.Hardware, L, bool) {
	thick := p.Size[2]
	theirs := thick
	if q, ok := w.side(other.ID, d.Not()); ok {
		theirs = q.Size[2]
	} else {
		for _, n := range w.job.Standing {
			switch {
			case n.ID != other.ID:
			case n.Value.Board != nil:
				theirs = *n.Value.Board
			default:
				w.found.Add(finding.Finding{Code: JoinAssumed, Severity: finding.Note, Verdict: finding.NotKnown, At: string(s.Kind) + "/" + s.ID, Source: "the job",
					Text: fmt.Sprintf("How thick the sides of %s are is not stated; they are taken to be %s like those of %s, and the screws between them go by that.", other.Name, w.in(theirs), s.Name),
					Hint: "Measure a side of " + other.Name + " and write board-measures."})
			}
		}
	}
	gap := other.Box.Min.X - s.Box.Max.X
	if d == geom.Left {
		gap = s.Box.Min.X - other.Box.Max.X
	}
	gap = max(0, gap)
	most := thick + gap + theirs - joinMargin
	for _, p := range [][2]L{s.Play, other.Play} { // the gap may be narrower where the screw is
		if p[1] > 0 {
			most = min(most, thick+min(gap, p[0]/2)+theirs-joinMargin/2)
		}
	}
	screw, have := w.joiner(most, gap, s.Row.Screw)
	if !have {
		w.found.Add(finding.Finding{Code: JoinLong, Severity: finding.Error, Verdict: finding.Fails, At: string(s.Kind) + "/" + s.ID, Source: "common practice, no source", Demand: mm(screw.Length), Capacity: mm(most), Unit: "mm",
			Text: fmt.Sprintf("No joining screw is short enough for %s and %s: two sides of %s and %s take at most %s.", s.Name, other.Name, w.in(thick), w.in(theirs), w.in(most)), Hint: "List a shorter screw with use: joining."})
	}
	if named, ok := w.job.Catalogue.Item(s.Row.Screw); ok && have && named.Length > most {
		w.found.Add(finding.Finding{Code: JoinOther, Severity: finding.Note, At: string(s.Kind) + "/" + s.ID, Source: "common practice, no source", Demand: mm(named.Length), Capacity: mm(most), Unit: "mm",
			Text: fmt.Sprintf("%s is too long to join %s and %s: two sides of %s and %s take at most %s. %s is used.", named.Name, s.Name, other.Name, w.in(thick), w.in(theirs), w.in(most), screw.Name),
			Hint: "Name a shorter screw in the family's joining."})
	}
	return screw, gap, have
}

// side gives the side part of a case towards d.
func (w *work) side(owner string, d geom.Dir) (part.Part, bool) {
	var best part.Part
	var old L
	found := false
	for _, p := range w.sides[owner] {
		if x := p.Box().Min.X; !found || d == geom.Right && x > old || d == geom.Left && x < old {
			best, old, found = p, x, true
		}
	}
	return best, found
}

func (w *work) joinPair(s, other *place.Seat, d geom.Dir) {
	p, ok := w.side(s.ID, d)
	if !ok {
		return
	}
	screw, gap, _ := w.between(s, other, p, d)
	thick := p.Size[2]
	into, kind := screw.Length-thick-gap, "screw"
	if w.adrift(s.ID) != w.adrift(other.ID) {
		// As for those joined by hand: what holds one of them is these alone.
		if b, theirs, ok := w.bolt(other, p, d, gap); ok {
			screw, into, kind = b, theirs, "bolt"
		}
	}
	at := string(s.Kind) + "/" + s.ID
	mine := w.inJob(p.Mark)
	var theirs *part.Part
	if q, ok := w.side(other.ID, d.Not()); ok && d == geom.Right {
		theirs = w.inJob(q.Mark)
	}
	var holes []geom.Vec
	for _, h := range w.row(s, mine, d) {
		if q, ok := w.boreJoining(mine, theirs, d, screw, h.at, h.in); ok {
			holes = append(holes, q)
		}
	}
	need := joinLeast
	if s.Top-s.Box.Min.Z > joinTall {
		need = joinLeast + 1
	}
	if len(holes) < need {
		w.found.Add(finding.Finding{Code: JoinFew, Severity: finding.Warning, Verdict: finding.Fails, At: at, Source: "common practice, no source", Demand: float64(need), Capacity: float64(len(holes)), Unit: "screws",
			Text: fmt.Sprintf("%s and %s are joined by %d screws; %d are the least.", s.Name, other.Name, len(holes), need), Hint: "Find clear places for more by hand, away from hinges, slides and shelf holes."})
	}
	for _, h := range holes {
		w.all.Fixings = append(w.all.Fixings, part.Fixing{Owner: s.ID, Kind: part.ToCase, Wall: s.Wall, Part: p.Mark, At: h, Stud: other.ID, Screw: screw.ID, Length: screw.Length,
			Layers: []part.Layer{{Name: "side", Stock: p.Stock, Thickness: thick}}, Into: into, Packing: gap, Row: "joining"})
	}
	if len(holes) > 0 {
		w.all.Hardware = append(w.all.Hardware, part.Item{Owner: s.ID, ID: screw.ID, Kind: kind, Count: len(holes), Length: screw.Length, For: part.Joins + other.ID, Stage: s.Stage})
	}
}

// joiner gives the named joining screw, else the longest that is not longer than most, of the
// shop's own measure if there is one; the shortest and false when all are longer. The named one is
// for sides that touch: through a packing goes the longest of its thickness, for the same holes.
func (w *work) joiner(most, gap L, named string) (stock.Hardware, bool) {
	if best, ok := w.job.Catalogue.Item(named); ok && best.Length <= most {
		for _, h := range w.job.Catalogue.Hardware {
			if gap > 0 && h.Kind == best.Kind && h.Use == best.Use && h.Dia == best.Dia && h.Sold == best.Sold && h.Length > best.Length && h.Length <= most {
				best = h
			}
		}
		return best, true
	}
	own := func(h stock.Hardware) bool {
		u := length.Millimetres
		if w.job.Practice.Unit == "in" {
			u = length.Inches
		}
		return h.Length%u.Step() == 0
	}
	var best, shortest stock.Hardware
	for _, h := range w.job.Catalogue.Hardware {
		if h.Kind != "screw" || h.Use != "joining" {
			continue
		}
		if h.Length <= most && (own(h) && !own(best) || own(h) == own(best) && h.Length > best.Length || best.ID == "") {
			best = h
		}
		if shortest.ID == "" || h.Length < shortest.Length {
			shortest = h
		}
	}
	if best.ID == "" {
		return shortest, false
	}
	return best, true
}
