package assemble

import (
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Clearance holes are bored at the bench for every screw whose place follows from the case and not from a
// stud: those into anchors in masonry, and those into ledgers. Through them the wall is marked. Screws into
// studs are bored for where the studs are found.

// Common practice, no source.
const (
	anchorStep  = 5 * length.MM   // by which an anchor moves along its rail from what is worked there
	anchorMoves = 100 * length.MM // no further
	throughUse  = "screw to the wall"
	ledgerUse   = "screw to the ledger"
)

// boreThrough bores for a fixing of a case through its boards, and moves it along its rail where something
// is worked already. It does nothing where the size of the hole is not known.
func (w *work) boreThrough(a *part.Assembly, f *part.Fixing) {
	item, ok := w.job.Catalogue.Item(f.Screw)
	if !f.AtBench() || !ok || item.Clearance == 0 {
		return
	}
	use := throughUse
	if f.Kind == part.ToLedger {
		use = ledgerUse
	}
	shop := joinery.Shop{Practice: w.job.Practice, Catalogue: w.job.Catalogue, Owner: f.Owner}
	tool, dia, owned := shop.Pilot(item.Clearance)
	if !owned {
		w.found.Add(finding.Finding{Code: joinery.NoBit, Severity: finding.Warning, At: w.at(f.Owner), Source: "the practice",
			Text: "no " + tool + " for the screws to the wall is owned", Hint: "Add it to the practice's bits."})
	}
	hole := func(p *part.Part, at geom.Vec) part.Op {
		face := p.Facing(geom.Front)
		x, y := p.OnFace(face, at)
		deep := p.Box().Size().Y
		return part.Op{Kind: part.Hole, Face: face, X: x, Y: y, Dia: dia, Depth: deep, Tool: joinery.LongBit(tool, dia, deep), For: use}
	}
	mid := f.At.X // of the board that it holds, towards which it moves first, so that a mirrored case is a true mirror
	for i := range a.Parts {
		if b := a.Parts[i].Box(); a.Parts[i].Mark == f.Part {
			mid = (b.Min.X + b.Max.X) / 2
		}
	}
	for _, axis := range axes(f.At.X, mid) {
		for _, web := range []L{part.Web, length.MM, 0} { // with less where a crowded rail has no more
			for _, d := range offsets(f.At.X > mid && axis == 0) {
				at := f.At.With(axis, f.At.At(axis)+d)
				boards := passed(a, *f, at, dia/2)
				taken := func(p *part.Part) bool { return !within(p.Box(), at, dia/2+web) || !p.Clear(hole(p, at), web) }
				if len(boards) == 0 || slices.ContainsFunc(boards, taken) {
					continue
				}
				f.At = at
				for _, p := range boards {
					p.Ops = append(p.Ops, hole(p, at))
				}
				return
			}
		}
	}
}

// axes are those along which a hole may move: along its rail, but up or down first in the middle of it, so that a mirror
// image has it there too.
func axes(x, mid L) []int {
	if (x - mid).Abs() < length.MM {
		return []int{2, 0}
	}
	return []int{0}
}

// offsets are how far a hole may move, the nearest first, to one side or the other first.
func offsets(back bool) (list []L) {
	for off := L(0); off <= anchorMoves; off += anchorStep {
		if back {
			list = append(list, -off, off)
		} else {
			list = append(list, off, -off)
		}
	}
	return list
}

// within reports whether a hole of a radius to the wall lies wholly in a board.
func within(b geom.Box, at geom.Vec, r L) bool {
	return at.X-r >= b.Min.X && at.X+r <= b.Max.X && at.Z-r >= b.Min.Z && at.Z+r <= b.Max.Z
}

// passed gives the boards of an owner that a screw to the wall at a place goes through: the one that it
// holds, and the back or the spacer before or behind that; those too that a hole of the radius only touches.
func passed(a *part.Assembly, f part.Fixing, at geom.Vec, r L) (out []*part.Part) {
	through := f.Own()
	for i := range a.Parts {
		p := &a.Parts[i]
		b := p.Box()
		if p.Mark != f.Part && p.Role != part.BackPanel && p.Role != part.Spacer || p.Moves != "" {
			continue
		}
		if at.X+r > b.Min.X && at.X-r < b.Max.X && at.Z+r > b.Min.Z && at.Z-r < b.Max.Z && b.Max.Y <= at.Y && b.Min.Y >= at.Y-through {
			out = append(out, p)
		}
	}
	return out
}
