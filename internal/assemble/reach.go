package assemble

import (
	"fmt"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
)

// A screw to the wall is driven from within the case, through the back or a rail: not behind a partition, a fixed shelf
// or packing, and not in the pocket of another screw.

// Common practice, no source.
const (
	driverHalf = 18 * length.MM // of a long bit and the hand's play, from its middle to a board that lies along it
	chuck      = 60 * length.MM // what is no deeper than a bit is long is passed beside
	pocketLong = 50 * length.MM // a pocket from the end of its board
	pocketHalf = 10 * length.MM
	reachStep  = 5 * length.MM // by which another place is sought
	anchorOff  = 60 * length.MM
)

// covered names a fixed board of an owner that stands before a place of a rail, "" for none.
func covered(a *part.Assembly, rail geom.Box, x, z L) string {
	for _, p := range a.Parts {
		if p.Moves != "" || p.Removable || p.Role == part.BackPanel || p.Role == part.HangRail || p.Role == part.Side {
			continue
		}
		b := p.Box()
		if b.Max.Y <= rail.Max.Y && b.Max.Y-b.Min.Y > chuck && b.Min.X-driverHalf < x && x < b.Max.X+driverHalf && b.Min.Z-driverHalf < z && z < b.Max.Z+driverHalf {
			return p.Name
		}
	}
	return ""
}

// pocketed reports whether a place of a rail is in one of its pockets.
func pocketed(p part.Part, x, z L) bool {
	for _, o := range p.Ops {
		if o.Kind != part.Pocket {
			continue
		}
		at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
		if (at.X-x).Abs() < pocketLong && (at.Z-z).Abs() < pocketHalf {
			return true
		}
	}
	return false
}

// reached gives the places of the screws in one stud, or of one anchor, nearest to where they are wanted, where a driver
// comes to them; those that it comes to nowhere are named by the board before them.
func reached(a *part.Assembly, want part.Wanted, h place.Hold, zs []L, masonry bool) (spots [][2]L, behind []string) {
	var rail part.Part
	for _, p := range a.Parts {
		if p.Mark == want.Part {
			rail = p
		}
	}
	if rail.Mark == "" || rail.Role == part.WallCleat {
		for _, z := range zs {
			spots = append(spots, [2]L{h.X, z})
		}
		return spots, nil
	}
	box := rail.Box()
	low, high := box.Min.Z+screwEdge, box.Max.Z-screwEdge
	if want.High > want.Low {
		low, high = want.Low, want.High
	}
	lo, hi := min(want.From, want.To), max(want.From, want.To)
	free := func(x, z L) bool { // of those that have their places
		for _, s := range spots {
			if (s[0]-x).Abs() < 3*screwEdge/2 && (s[1]-z).Abs() < 3*screwEdge/2 {
				return false
			}
		}
		return true
	}
	for _, z := range zs {
		found := false
		try := func(x, z L, pockets bool) {
			if !found && x >= lo && x <= hi && free(x, z) && covered(a, box, x, z) == "" && (pockets || !pocketed(rail, x, z)) {
				spots, found = append(spots, [2]L{x, z}), true
			}
		}
		for _, pockets := range []bool{false, true} {
			try(h.X, z, pockets)
			for d := reachStep; d <= high-low && !found; d += reachStep {
				for _, y := range []L{z - d, z + d} {
					if y >= low && y <= high {
						try(h.X, y, pockets)
					}
				}
			}
			for d := reachStep; masonry && d <= anchorOff && !found; d += reachStep {
				try(h.X-d, z, pockets)
				try(h.X+d, z, pockets)
			}
		}
		if !found {
			behind = append(behind, covered(a, box, h.X, z))
		}
	}
	return spots, behind
}

// sayBehind says which screws of a rail are left out for what stands before them.
func (w *work) sayBehind(s *place.Seat, want part.Wanted, behind []string, at string) {
	var names []string
	for _, n := range behind {
		if n != "" && !strings.Contains(strings.Join(names, ", "), n) {
			names = append(names, n)
		}
	}
	if len(names) == 0 {
		return
	}
	w.found.Add(finding.Finding{Code: FixingCovered, Severity: finding.Note, At: at, Source: "common practice, no source",
		Text: fmt.Sprintf("%d of the screws through the %s rail of %s would be behind %s, where no driver comes: they are left out.", len(behind), want.Row, s.Name, strings.Join(names, " and ")),
		Hint: "Move the case, or what stands before them, if the rest does not hold it."})
}
