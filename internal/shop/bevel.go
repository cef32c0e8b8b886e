package shop

import (
	"fmt"
	"slices"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// A strip hardly carries a saw that is led over it: where the plan frees it from a wide piece of its own length,
// its bevel is sawn along that piece's edge before; else it is laid between offcuts.

// carries is the width of a piece that carries a saw and its straightedge; common practice, no source.
const carries = 200 * length.MM

// ledByHand reports whether a saw is led over the board, which must then carry it.
func ledByHand(p stock.Practice, id string) bool {
	return !slices.ContainsFunc(p.Tools, func(t stock.Tool) bool {
		return t.ID == id && slices.Contains([]string{"table-saw", "panel-saw", "mitre-saw"}, t.Kind)
	})
}

// bevelFirst gives the parts of a sheet that are bevelled on the wide piece from which they are ripped.
func (s *steps) bevelFirst(sheet int) (out []string) {
	sh := s.Plan.Sheets[sheet]
	for k, m := range s.Marks[sheet] {
		if k >= len(sh.Pieces) || !slices.ContainsFunc(s.parts[m].Ops, func(o part.Op) bool { return o.Kind == part.Bevel && ledByHand(s.Practice, o.Tool) }) {
			continue
		}
		p := turned(sh.Pieces[k].Rect, sh.Pieces[k].W > sh.Pieces[k].L)
		if slices.ContainsFunc(sh.Cuts, func(c cutting.Cut) bool {
			across := sh.Pieces[k].W > sh.Pieces[k].L // the strip lies up the sheet, and so does the cut
			of := turned(c.Of, across)
			if c.Work <= cutting.Roughing || (c.Axis == cutting.X) != across || of.X > p.X || of.X+of.L < p.X+p.L || of.L-p.L > 10*length.MM || of.W < carries {
				return false
			}
			return of.Y == p.Y && c.At == p.Y+p.W || of.Y+of.W == p.Y+p.W && c.At+c.Kerf == p.Y
		}) {
			out = append(out, m)
		}
	}
	return out
}

// turned gives a rectangle with its two ways changed over, where that is wanted.
func turned(r cutting.Rect, over bool) cutting.Rect {
	if over {
		return cutting.Rect{X: r.Y, Y: r.X, L: r.W, W: r.L}
	}
	return r
}

// mitred says how the ends of strips are mitred with the saw that does it.
func (s *steps) mitred(k setup) string {
	text := " A strip keeps its length on its outer face: the cut begins at that face's corner and takes the inner face back by the thickness. "
	t := slices.IndexFunc(s.Practice.Tools, func(t stock.Tool) bool { return t.ID == k.tool })
	switch {
	case t >= 0 && s.Practice.Tools[t].Kind == "mitre-saw":
		return text + "Turn the saw to 45°; the strip stands on its lower edge, its inner face against the fence. Saw a corner of scrap first, and hold a square in it."
	case ledByHand(s.Practice, k.tool):
		return text + "The strip lies on its inner face on a wide scrap between two offcuts as thick as it, all three stuck down with double-sided tape, so that the saw's base and the straightedge lie on them. Tilt the blade to 45°. Saw a corner of scrap first, and hold a square in it."
	}
	return text + "Tilt the blade to 45°; the strip lies on its inner face, across the blade, held against the mitre gauge; the fence stays away. Saw a corner of scrap first, and hold a square in it."
}

// bevelled says how the edges of strips are bevelled with the saw that does it, and where their width is measured.
func (s *steps) bevelled(k setup, marks []string) string {
	text := " The strip keeps its width on one face: the cut begins at that face's corner and takes the other face back by the thickness; the drawing says which face, and the details show both halves of a cleat on the wall."
	if !ledByHand(s.Practice, k.tool) {
		return text + " The square edge runs along the fence, the blade leaning away from it, the face that keeps its width upwards; set the fence by a scrap of the board."
	}
	var done []string
	for i := range s.Plan.Sheets {
		done = append(done, s.bevelFirst(i)...)
	}
	if len(done) > 0 {
		text += fmt.Sprintf(" %s: sawn on the wide piece already, when the sheet was cut.", brief(done))
	}
	if slices.ContainsFunc(marks, func(m string) bool { return !slices.Contains(done, m) }) {
		text += " A strip by itself does not carry the saw: lay it on a wide scrap between two offcuts of its own board, all three stuck down with double-sided tape, so that the saw's base and the straightedge lie on them. Saw a scrap first, and both halves of a cleat at one setting."
	}
	return text
}
