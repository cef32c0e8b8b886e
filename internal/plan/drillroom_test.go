package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// unserved gives a sentence for every counter and every drawer's front whose screws stand nearer to a board than a drill is
// thick (1 1/2 in from its middle, common practice, no source) and whose step does not say with what they are driven; and for
// every step that says so without need. Screws go up into a counter past the back and the sides of the case below, and into a
// front over the bottom of its box.
func unserved(r plan.Result) (bad []string, tried int) {
	const half = 38 * length.MM
	near := map[string]bool{} // owner of the step
	for _, f := range r.Assembly.Fixings {
		if f.Kind != part.ToCase || f.Row != "counter" {
			continue
		}
		tried++
		for _, p := range r.Assembly.Parts {
			if p.Owner != f.Stud || p.Role != part.BackPanel && p.Role != part.Side && p.Role != part.Partition {
				continue
			}
			b := p.Box()
			x, y := max(b.Min.X-f.At.X, f.At.X-b.Max.X, 0), max(b.Min.Y-f.At.Y, f.At.Y-b.Max.Y, 0)
			if x < half && y < half && b.Min.Z < f.At.Z-200*length.MM {
				near[f.Owner] = true
			}
		}
	}
	for _, p := range r.Assembly.Parts {
		if p.Role != part.DrawerFront {
			continue
		}
		for _, q := range r.Assembly.Parts {
			if q.Moves != p.Moves || q.Role != part.BoxBottom {
				continue
			}
			for _, o := range p.Ops {
				if at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)); o.Kind == part.Hole && p.Pose.Dir(o.Face.Normal()) == geom.Back && o.For == "front screw" {
					tried++
					if up := at.Z - q.Box().Max.Z; up > 0 && up < half {
						near[p.Owner] = true
					}
				}
			}
		}
	}
	told := map[string]bool{}
	for _, s := range r.Steps {
		t := s.Whole()
		if !strings.Contains(t, "up from the cases below it") && !strings.Contains(t, "screwed from inside the boxes") {
			continue
		}
		says := strings.Contains(t, "no room for the drill's body")
		for _, id := range append([]string{s.Owner}, s.Also...) {
			told[id] = told[id] || says
		}
		if says && !near[s.Owner] && s.Phase == shop.Install {
			bad = append(bad, fmt.Sprintf("step %d: no screw of %s is near a board", s.N, s.Owner))
		}
		if says && !strings.Contains(s.Tool, "right-angle head") {
			bad = append(bad, fmt.Sprintf("step %d: its tools are %s", s.N, s.Tool))
		}
	}
	for id := range near {
		if !told[id] {
			bad = append(bad, id+": nothing says with what the screws near a board are driven")
		}
	}
	return bad, tried
}

func TestDrillsHaveRoomOrAreToldSo(t *testing.T) {
	inExamples(t, countered, unserved, "no screw goes up into a counter or into a front")
}

// What comes out of a case is called what it is: trays are told only of cases that have trays, drawers of those with drawers.
// What a counter bears in the end is set on it in its step. And a board that has pockets, held by pockets of another too, is
// not told to have all of them.
func TestStepsNameWhatIsThere(t *testing.T) {
	pockets, machines, slides := 0, 0, 0
	for _, name := range countered {
		r := plantest.Result(t, name)
		at := byMark(r.Assembly)
		trays, boxes := false, false
		for _, p := range r.Assembly.Parts {
			trays, boxes = trays || p.Role == part.TrayBase, boxes || p.Role == part.BoxBottom
		}
		for _, s := range r.Steps {
			t2 := s.Whole()
			if strings.Contains(t2, "drawers and trays") {
				if slides++; !trays || !boxes {
					t.Errorf("%s, step %d: there are drawers: %v, trays: %v: %s", name, s.N, boxes, trays, t2)
				}
			}
			if s.Phase != shop.Assemble || len(s.New) != 1 {
				continue
			}
			m := s.New[0]
			own, others := false, ""
			for _, j := range r.Assembly.Joints {
				if j.Kind != part.PocketScrew || at[j.A].Moves != at[m].Moves {
					continue
				}
				own = own || j.B == m && strings.Contains(t2, j.A)
				if j.A == m && strings.Contains(t2, "pocket screw") && strings.Contains(strings.Split(t2, ".")[0]+t2, j.B) {
					others = j.B
				}
			}
			if own && others != "" && strings.Contains(t2, "Its pockets are") {
				if pockets++; !strings.Contains(t2, "The pockets of") {
					t.Errorf("%s, step %d: %s has pockets too: %s", name, s.N, others, t2)
				}
			}
		}
		for _, o := range r.Assembly.Owners {
			for _, c := range r.Assembly.Owners {
				v := o.Box.And(c.Box.Grow(length.MM))
				if !o.Standing || c.Kind != "counter" || c.Standing || c.Wall != o.Wall || (o.Box.Min.Z-c.Box.Max.Z).Abs() > length.MM || v.Empty() {
					continue
				}
				machines++
				said := false
				for _, s := range r.Steps {
					said = said || s.Owner == c.ID && strings.Contains(s.Whole(), "set "+o.Name+" on it")
				}
				if !said {
					t.Errorf("%s: nothing says when %s is set on %s", name, o.Name, c.Name)
				}
			}
		}
	}
	if pockets == 0 || machines == 0 {
		t.Errorf("%d boards with pockets of others, %d machines on counters, %d cases of drawers and trays", pockets, machines, slides)
	}
}

// countered are the examples with counters and drawers.
var countered = []string{"fennel-street", "hollis-court", "marram-point", "ostler-row"}
