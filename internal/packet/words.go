package packet

import (
	"slices"
	"strings"

	"stowright/internal/part"
	"stowright/internal/shop"
)

// words explains, in one paragraph, the words of the trade that this set uses and that a reader may not
// know.
func (b *book) words() string {
	roles := map[part.Role]bool{}
	for _, p := range b.Assembly.Parts {
		roles[p.Role] = true
	}
	var out []string
	add := func(when bool, text string) {
		if when {
			out = append(out, text)
		}
	}
	add(roles[part.Stretcher], "stretcher: the rail across the open top of a case")
	add(roles[part.HangRail], "hang rail: the rail at the back, which the screws to the wall go through")
	add(roles[part.Cleat], "cleat: two strips with one edge sawn slanting, one on the wall and one on the case, that hook into each other; long point: the sharp edge of such a strip, where the face that keeps its width ends")
	add(slices.ContainsFunc(b.Assembly.Fixings, func(f part.Fixing) bool { return f.Packing > 0 }), "packing: what fills the gap between a rail and the wall at a screw, so that the case is not drawn out of true")
	add(slices.ContainsFunc(b.Assembly.Fixings, func(f part.Fixing) bool { return f.Kind == part.ToWall }), "anchor: what holds a screw in a wall of masonry or a steel stud; it is set in a hole of its own, wider than the screw")
	add(roles[part.Ledger], "ledger: a strip on the wall that a case rests on")
	add(roles[part.ToeBoard], "toe board: closes the recess for the feet")
	add(roles[part.Filler], "filler: the strip between a case and the wall, planed (scribed) to it")
	add(roles[part.BaseRung], "rung: a piece across a base, from front to back")
	add(len(b.Assembly.Fronts) > 0, "reveal: the gap beside a door or a drawer's front; overlay: how far it covers the edge of the case")
	add(roles[part.BoxSide], "box: the drawer without its front")
	add(len(b.Plan.Sheets) > 0, "kerf: what the blade takes; rip: a cut along the length of the sheet; crosscut: one across it; offcut: a piece worth keeping, scrap: one that is not")
	add(len(b.Assembly.Parts) > 0, "datum: the corner, end, edge or face that figures are measured from; up, of a hole in an edge or an end: from the broad face that its drawing names; face side and face edge: the side that is marked, and the edge that figures across it are measured from")
	add(slices.ContainsFunc(b.Assembly.Parts, func(p part.Part) bool {
		return slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.JoiningScrew || o.For == part.JoiningBolt })
	}), "joining screw: through the sides of two cases, to be undone")
	add(slices.ContainsFunc(b.Steps, func(s shop.Step) bool { return strings.Contains(s.Whole(), "of where they meet") }), "where they meet: the strip or field in which one board touches the other, which may be less than the whole board")
	if len(out) == 0 {
		return ""
	}
	return "Words. " + strings.ToUpper(out[0][:1]) + out[0][1:] + "; " + strings.Join(out[1:], "; ") + "."
}
