package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/stock"
)

// slideSheet is the sheet of a slide's member: common practice, no source.
const slideSheet = 12 * length.MM / 10

// pointed gives a sentence for every length of slide screw of which there are more than there are
// holes that it does not come out of: those of drawers and trays, and those of what does not move.
func pointed(a part.Assembly, c stock.Catalogue) (bad []string) {
	for _, o := range a.Owners {
		for _, moves := range []bool{false, true} {
			var through []length.Length
			for _, p := range a.Parts {
				for _, w := range p.Ops {
					if p.Owner == o.ID && (p.Moves != "") == moves && (w.For == "slide" || w.For == "flange") {
						_, _, deep := w.Face.Extent(p.Size)
						through = append(through, deep+slideSheet)
					}
				}
			}
			var long []length.Length
			for _, h := range a.Hardware {
				if x, ok := c.Item(h.ID); ok && h.Owner == o.ID && x.Use == "slide" && (h.For == part.SlidesOnBoxes) == moves {
					long = append(long, slices.Repeat([]length.Length{x.Length}, h.Count)...)
				}
			}
			slices.Sort(through)
			slices.Sort(long)
			if len(through) != len(long) {
				bad = append(bad, fmt.Sprintf("%s: %d holes for %d screws", o.ID, len(through), len(long)))
				continue
			}
			for i := range long {
				if long[i] >= through[i] {
					bad = append(bad, fmt.Sprintf("%s: a slide screw of %s through %s", o.ID, long[i].In(length.Millimetres), through[i].In(length.Millimetres)))
				}
			}
		}
	}
	return bad
}

// shallow gives a sentence for every screw through a packing between two cases that goes less than
// half-way into the second, or comes out of it.
func shallow(a part.Assembly, c stock.Catalogue) (bad []string, packed int) {
	for _, f := range a.Fixings {
		if x, ok := c.Item(f.Screw); !ok || x.Kind != "screw" || f.Kind != part.ToCase || f.Packing == 0 || len(f.Layers) != 1 {
			continue
		}
		packed++
		var side part.Part
		for _, p := range a.Parts {
			if p.Owner == f.Stud && p.Role == part.Side && (side.Mark == "" || (p.Box().Min.X-f.At.X).Abs() < (side.Box().Min.X-f.At.X).Abs()) {
				side = p
			}
		}
		if side.Mark != "" && (f.Into < side.Size[2]/2 || f.Into >= side.Size[2]) {
			bad = append(bad, fmt.Sprintf("%s to %s: %s goes %s into %s", f.Owner, f.Stud, f.Screw, f.Into.In(length.Millimetres), side.Size[2].In(length.Millimetres)))
		}
	}
	return bad, packed
}

// No screw of a slide comes out of what it goes into, and what joins neighbours through a packing
// holds in both.
func TestPointsStayInside(t *testing.T) {
	slides, packed := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		bad := pointed(r.Assembly, r.Job.Catalogue)
		more, n := shallow(r.Assembly, r.Job.Catalogue)
		packed += n
		for _, s := range append(bad, more...) {
			t.Errorf("%s: %s", name, s)
		}
		for _, h := range r.Assembly.Hardware {
			if h.For != part.SlidesOnBoxes || h.Kind != "screw" {
				continue
			}
			slides++
			long := r.Job.Catalogue
			long.Hardware = slices.Clone(long.Hardware)
			for i := range long.Hardware {
				long.Hardware[i].Length += slideSheet + 18*length.MM
			}
			if len(pointed(r.Assembly, long)) == 0 {
				t.Errorf("%s: screws that are too long were not seen", name)
			}
			break
		}
	}
	if slides == 0 || packed == 0 {
		t.Errorf("%d examples with slide screws, %d screws through packing: nothing is tested", slides, packed)
	}
}
