package plan_test

import (
	"fmt"
	"os"
	"slices"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
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
				if x, ok := c.Item(h.ID); ok && h.Owner == o.ID && x.Use == "slide" && h.For != part.StandsOn && h.For != part.HangsOnBoard && h.For != part.LightOnBoard && (h.For == part.SlidesOnBoxes) == moves {
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

// emerging gives a sentence for every screw from below into a counter whose point comes out of the wood over it, and for
// every screw into a filler that is longer than what it passes and the filler's width: measured on the finished boards.
func emerging(r plan.Result) (bad []string, n int) {
	over := func(p part.Part, x, y length.Length) bool {
		b := p.Box()
		return b.Min.X <= x && x <= b.Max.X && b.Min.Y <= y && y <= b.Max.Y
	}
	a := r.Assembly
	for _, f := range a.Fixings {
		if f.Kind != part.ToCase || f.Row != "counter" || f.Screw == "" {
			continue
		}
		o := slices.IndexFunc(a.Owners, func(o part.Owner) bool { return o.ID == f.Owner })
		if o < 0 || a.Owners[o].Kind != "counter" {
			continue
		}
		under, wood := length.Length(0), length.Length(0)
		for _, p := range a.Parts {
			if p.Owner == f.Stud && over(p, f.At.X, f.At.Y) && (p.Box().Max.Z-f.At.Z).Abs() < length.MM/10 {
				under = p.Box().Size().Z
			}
		}
		for _, p := range a.Parts {
			if p.Owner == f.Owner && p.Role != part.CounterEdge && over(p, f.At.X, f.At.Y) && p.Box().Max.Z > f.At.Z {
				wood += p.Box().Size().Z
			}
		}
		if under == 0 { // what stands already
			continue
		}
		n++
		if f.Length >= under+wood || f.Length <= under {
			bad = append(bad, fmt.Sprintf("a screw of %s up into %s through %s of %s: %s of wood is over it", f.Length.In(length.Millimetres), f.Owner, under.In(length.Millimetres), f.Stud, wood.In(length.Millimetres)))
		}
	}
	for _, h := range a.Hardware {
		if h.For != "filler" || h.Kind != "screw" {
			continue
		}
		n++
		var strip part.Part
		for _, p := range a.Parts {
			if p.Owner == h.Owner && p.Role == part.Filler {
				strip = p
			}
		}
		b := strip.Box()
		most := length.Length(0) // the side, or panel and side, that the strip touches
		for _, p := range a.Parts {
			if q := p.Box(); (p.Role == part.Side || p.Role == part.EndPanel) && q.Min.X <= b.Max.X+p.Size[2]+length.MM && q.Max.X >= b.Min.X-p.Size[2]-length.MM && q.Min.Z < b.Max.Z && b.Min.Z < q.Max.Z {
				most += p.Size[2]
			}
		}
		if h.Length >= most+b.Size().X {
			bad = append(bad, fmt.Sprintf("%s: a screw of %s through %s into a filler of %s", h.Owner, h.Length.In(length.Millimetres), most.In(length.Millimetres), b.Size().X.In(length.Millimetres)))
		}
	}
	return bad, n
}

// Screws into counters and fillers are chosen by the boards that they pass, of whatever board a case is made.
func TestScrewsOfCountersAndFillersStayInside(t *testing.T) {
	n := 0
	for _, name := range shipped {
		bad, k := emerging(plantest.Result(t, name))
		n += k
		for _, s := range bad {
			t.Errorf("%s: %s", name, s)
		}
	}
	text, err := os.ReadFile("testdata/jobs/thin-case-under-counter.yaml")
	if err != nil {
		t.Fatal(err)
	}
	bad, k := emerging(planned(t, string(text)))
	if k < 5 {
		t.Errorf("%d screws into the counter and the filler of a thin case", k)
	}
	for _, s := range bad {
		t.Error(s)
	}
	if n == 0 {
		t.Error("nothing is tested")
	}
}
