package carcass

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Common practice, no source: wood behind a back's groove, and what no saw takes off cleanly, which
// the room left round an obstacle covers.
const (
	nookWeb  = 6 * mm
	nookSlim = 3 * mm
)

// nook is what a case leaves free at its lower rear for what stands out from the wall, the same over
// its whole width: one setting for all boards.
type nook struct {
	deep L // from the rear forward
	high L // its upper edge, in the case's frame
}

// nook gives the free room at the lower rear; the zero nook where nothing stands out there.
func (b *build) nook() (n nook) {
	step := mm
	if b.env.Practice.Unit == "in" {
		step = length.Inch / 16
	}
	for _, c := range b.site.Notches {
		n.deep, n.high = max(n.deep, (b.d-c.Min.Y).Up(step)), max(n.high, c.Max.Z)
	}
	if len(b.site.Notches) > 0 {
		n.high = b.zs + max(0, n.high-b.zs).Up(step)
	}
	return n
}

// inside reports whether it reaches above the underside of the bottom, so that bottom, back and rails
// keep clear of it: the bottom ends before it, whole, and a captured back stands in front of it, in a
// groove of the bottom. Where a case is too shallow for that, its boards are notched as they are.
func (n nook) inside(b *build, back L) bool {
	return b.off == 0 && n.deep >= nookSlim && n.high-b.zb >= nookSlim && b.d-n.deep-nookWeb-back >= b.d/2
}

// notches saws the sides and whatever else stands in the nook round it.
func (b *build) notches() {
	n := b.nook()
	var stopped []string
	for i := range b.a.Parts {
		p := &b.a.Parts[i]
		box := p.Box()
		if p.Role == part.WallCleat || !slices.ContainsFunc(b.site.Notches, box.Meets) {
			continue
		}
		cut := box.And(geom.B(box.Min.X, b.d-n.deep, box.Min.Z, box.Max.X, box.Max.Y, n.high))
		if s := cut.Size(); s.Y < nookSlim || s.Z < nookSlim {
			continue
		}
		if p.Moves != "" { // a notched drawer is none
			if !slices.Contains(stopped, p.Moves) {
				stopped = append(stopped, p.Moves)
				b.say(NotchMoves, finding.Error, p.Local, fmt.Sprintf("its rear comes %s into what stands out from the wall, round which the case is notched", b.text(cut.Size().Y)), "a shorter slide, or a case that stands higher or further out")
			}
			continue
		}
		ax := p.Pose.W().Axis() // through the board's thickness
		cut.Min, cut.Max = cut.Min.With(ax, box.Min.At(ax)), cut.Max.With(ax, box.Max.At(ax))
		across := cut.Size()
		p.Recess(part.Notch, part.Upper, cut, b.shop.Notcher(across.At((ax+1)%3), across.At((ax+2)%3)), part.RoundWall)
	}
}
