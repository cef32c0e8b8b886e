package assemble

import (
	"cmp"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
)

// BaseLoose: screws that hold a case to its base have no place, or none is long enough.
// Example: a base of rails that lie outside the case's bottom.
const BaseLoose finding.Code = "base-loose"

// A case is held to its base by two screws into each rail, so far from its sides, moved inwards where
// something is in the way. Common practice, no source.
const (
	baseIn    = 70 * length.MM
	baseReach = 200 * length.MM
	baseStep  = 10 * length.MM
	baseRoom  = 15 * length.MM // to a board that stands on the bottom
	baseRail  = 15 * length.MM // least of a rail under the bottom: a sheet on edge takes a screw in its middle, as the ends of carcass boards do
)

// bedding is the adhesive of the catalogue on which a case is set that no screws hold to its base.
const bedding = "adhesive-cartridge"

// holdToBases screws every case down to the separate base that it stands on, through its bottom.
func (w *work) holdToBases() {
	for i := range w.room.Seats {
		s := &w.room.Seats[i]
		if s.Kind != place.Base {
			continue
		}
		for _, piece := range s.Pieces {
			if o := w.room.Seat(piece.ID); o != nil && o.Kind == place.Case {
				w.holdToBase(o, s)
			}
		}
	}
}

func (w *work) holdToBase(s, base *place.Seat) {
	var bottom *part.Part
	var rails []*part.Part
	for i := range w.all.Parts {
		switch p := &w.all.Parts[i]; {
		case p.Owner == s.ID && p.Role == part.Bottom:
			bottom = p
		case p.Owner == base.ID && p.Role == part.BaseRail:
			rails = append(rails, p)
		}
	}
	if bottom == nil || len(rails) == 0 {
		return
	}
	shop := joinery.Shop{Practice: w.job.Practice, Catalogue: w.job.Catalogue, Owner: s.ID}
	box := bottom.Box()
	thick, high := bottom.Size[2], rails[0].Box().Size().Z
	h, ok := shop.Reaching(thick, high)
	n := 0
	if ok {
		tool, dia, _ := shop.Pilot(cmp.Or(h.Clearance, h.Dia))
		ptool, pilot, _ := shop.Pilot(cmp.Or(h.Pilot, h.Root, 3*length.MM))
		for _, r := range rails {
			c := r.Box()
			lo, hi := max(box.Min.X, c.Min.X), min(box.Max.X, c.Max.X)
			front, rear := max(box.Min.Y, c.Min.Y), min(box.Max.Y, c.Max.Y) // a bottom may end before a curb
			if (c.Max.Z-box.Min.Z).Abs() > length.MM || hi-lo < baseIn || rear-front < baseRail {
				continue
			}
			for _, right := range []bool{false, true} {
				for off := L(0); off <= baseReach; off += baseStep {
					at := geom.V(box.Min.X+baseIn+off, (front+rear)/2, box.Min.Z)
					if right {
						at.X = box.Max.X - baseIn - off
					}
					if at.X < lo+baseRoom || at.X > hi-baseRoom || right && 2*at.X < box.Min.X+box.Max.X || !right && 2*at.X > box.Min.X+box.Max.X {
						continue
					}
					through := hole(*bottom, bottom.Facing(geom.Up), at, dia, thick, tool)
					into := hole(*r, r.Facing(geom.Up), at, pilot, joinery.PilotDepth(h.Length-thick+length.MM, pilot), ptool)
					if !bottom.Clear(through, part.Web) || !r.Clear(into, part.Web) || w.stoodOn(bottom, at) {
						continue
					}
					bottom.Ops, r.Ops = append(bottom.Ops, through), append(r.Ops, into)
					w.all.Fixings = append(w.all.Fixings, part.Fixing{Owner: s.ID, Kind: part.ToBase, Wall: s.Wall, Part: bottom.Mark, At: at, Stud: base.ID, Screw: h.ID, Length: h.Length,
						Layers: []part.Layer{{Name: "bottom", Stock: bottom.Stock, Thickness: thick}}, Into: h.Length - thick, Row: "base"})
					n++
					break
				}
			}
		}
	}
	if n < 2 {
		text, hint := " is not screwed to its base: no two screws have a place through its bottom into the base's rails.", "Set it down on beads of adhesive, or screw blocks inside the base against its bottom."
		if bed, ok := w.job.Catalogue.Item(bedding); ok {
			text = " is set on beads of adhesive, not screwed to its base: no two screws have a place through its bottom into the base's rails."
			hint = "To be able to lift it off again screw blocks inside the base against its bottom instead."
			w.all.Hardware = append(w.all.Hardware, part.Item{Owner: s.ID, ID: bed.ID, Kind: bed.Kind, Count: 1, For: part.BedsOnBase, Stage: s.Stage})
		}
		w.found.Add(finding.Finding{Code: BaseLoose, Severity: finding.Note, At: "case/" + s.ID, Source: "common practice, no source", Text: s.Name + text, Hint: hint})
	}
	if n > 0 {
		w.all.Hardware = append(w.all.Hardware, part.Item{Owner: s.ID, ID: h.ID, Kind: "screw", Count: n, Length: h.Length, For: part.ToBases, Stage: s.Stage})
	}
}

// hole is a bore in a face of a part at a point.
func hole(p part.Part, f part.Face, at geom.Vec, dia, depth L, tool string) part.Op {
	x, y := p.OnFace(f, at)
	return part.Op{Kind: part.Hole, Face: f, X: x, Y: y, Dia: dia, Depth: depth, Tool: joinery.LongBit(tool, dia, depth), For: part.ToBases}
}

// stoodOn reports whether a board that is fixed in the case stands on its bottom at a point.
func (w *work) stoodOn(bottom *part.Part, at geom.Vec) bool {
	room := geom.Box{Min: at, Max: at.With(2, bottom.Box().Max.Z)}.Grow(baseRoom)
	for _, o := range w.all.Parts {
		if o.Owner == bottom.Owner && o.Mark != bottom.Mark && o.Moves == "" && !o.Removable && o.Box().Meets(room) {
			return true
		}
	}
	return false
}
