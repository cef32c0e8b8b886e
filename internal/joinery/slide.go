package joinery

import (
	"fmt"

	"stowright/internal/stock"
)

// Common practice, no source.
const (
	slideShort  = 3 * mm            // a side slide is shorter than the inside depth by this
	underLonger = 12700 * mm / 1000 // an under slide's body is longer than its name, published guides
	slideFirst  = 37 * mm           // first screw of a slide behind its front end
	slideStep   = 32 * mm           // its screws are whole steps apart
	slideSheet  = 12 * mm / 10      // the sheet that a slide's member or a flange is made of
	slideInside = 1 * mm            // a screw's point stays so far inside its board
	slideLong   = 19 * mm           // longer than this holds a slide no better
)

// SlideLength gives the longest slide sold that goes in a depth; false when none does.
func SlideLength(h stock.Hardware, depth L) (L, bool) {
	room := depth - slideShort
	if h.SlideKind == "under" {
		room = depth - underLonger
	}
	best := L(0)
	for _, l := range h.Lengths {
		if l <= room {
			best = max(best, l)
		}
	}
	return best, best > 0
}

// BoxOutside gives the outside width of a drawer box in an opening: for side slides the
// opening less the room on both sides, for under slides its inside is the opening less that.
func BoxOutside(h stock.Hardware, opening, side L) L {
	w := opening - 2*h.SideRoom
	if h.SlideKind == "under" {
		w += 2 * side
	}
	return w
}

// SlideScrews gives where the screws of a slide member go, behind its front end: the first
// where the trade has it, the others whole steps of 32 mm behind it.
func SlideScrews(length L, n int) []L {
	n = max(n, 2)
	room := (length - slideFirst - 30*mm).Down(slideStep)
	if room < slideStep {
		return []L{length / 4, length * 3 / 4}
	}
	steps := int64(room / slideStep)
	n = min(n, int(steps)+1)
	at := make([]L, n)
	for i := range at {
		at[i] = slideFirst + slideStep*L(steps*int64(i)/int64(n-1))
	}
	return at
}

// SlideScrew gives the longest pan-head screw that holds a slide's member or a flange on a board
// and whose point stays in it; the shortest there is and false where none is short enough.
func (s Shop) SlideScrew(board L) (best stock.Hardware, ok bool) {
	most := min(SlideReach(board)-slideInside, slideLong)
	for _, h := range s.Catalogue.Hardware {
		if h.Use != "slide" || h.Kind != "screw" || !s.Sold(h) {
			continue
		}
		fits := h.Length <= most
		if best.ID == "" || fits && (!ok || h.Length > best.Length) || !fits && !ok && h.Length < best.Length {
			best, ok = h, fits
		}
	}
	return best, ok
}

// SlideReach is what a slide's screw goes through before its point comes out of a board.
func SlideReach(board L) L { return board + slideSheet }

// SlideScrewLong says of a screw that SlideScrew could not choose well what is wrong, and what to do.
func (s Shop) SlideScrewLong(h stock.Hardware, board L) (text, hint string) {
	if h.ID == "" {
		return "no screw for slides is in the catalogue", "add a pan-head one to hardware, with use: slide and its length"
	}
	return fmt.Sprintf("%s comes out of a board of %s that it fixes a slide to, and no shorter one is in the catalogue", h.Name, s.name(board)),
		"add a shorter pan-head screw to hardware, with use: slide, or take a thicker board"
}

// Travel gives how far a slide of a length comes out.
func Travel(h stock.Hardware, length L) L {
	if h.Extends == "three-quarter" {
		return length * 3 / 4
	}
	return length
}
