package plan_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// What rolls and tips without its ballast has it before the first step in which anything slides out of it, and is weighed with it
// from then on; nothing advises to fix it to a wall, as it rolls away.
func TestBallastIsLaidBeforeAnythingSlidesOut(t *testing.T) {
	seen := 0
	for _, name := range countered {
		r := plantest.Result(t, name)
		rolls := map[string]bool{}
		for _, f := range r.Assembly.Feet {
			rolls[f.Owner] = rolls[f.Owner] || f.Kind == "castor"
		}
		held := map[string]bool{}
		for _, b := range r.Assembly.Bays {
			held[b.Owner] = held[b.Owner] || b.Ballast > 0 && rolls[b.Owner]
		}
		for id := range held {
			if !held[id] {
				continue
			}
			laid := false
			for _, s := range r.Steps {
				text := s.Whole()
				if s.Owner != id {
					continue
				}
				if strings.Contains(strings.ToLower(text), "lay the ballast of") {
					laid = true
					seen++
				}
				if s.Phase == shop.FitOut && (strings.Contains(text, "hang the boxes") || strings.Contains(text, "draw the drawer out") || strings.Contains(text, "one drawer at a time")) && !laid {
					t.Errorf("%s, step %d: something slides out of %s before its ballast is laid: %s", name, s.N, id, text)
				}
				if strings.Contains(text, "set it in its place") && !strings.Contains(text, "of ballast in it") {
					t.Errorf("%s, step %d: %s is weighed without its ballast: %s", name, s.N, id, text)
				}
			}
			if !laid {
				t.Errorf("%s: no step lays the ballast of %s", name, id)
			}
		}
		for _, f := range r.Findings {
			for _, at := range append([]string{f.At}, f.Also...) {
				for id := range rolls {
					if rolls[id] && strings.Contains(at, "/"+id) && strings.Contains(f.Hint, "ix its top to") {
						t.Errorf("%s: %s rolls, and is to be fixed: %s", name, id, f.Hint)
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("nothing that rolls has ballast")
	}
}

// slid gives a sentence for every case whose slides have screws nearer to a fixed board over or under them than a drill is
// thick, and whose step does not say so; and for every step that says so without need. tried counts the screws.
func slid(r plan.Result) (bad []string, tried int) {
	const half = 38 * length.MM
	near, said := map[string]bool{}, map[string]bool{}
	for _, p := range r.Assembly.Parts {
		if p.Moves != "" {
			continue
		}
		for _, o := range p.Ops {
			if o.For != "slide" {
				continue
			}
			tried++
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			way := p.Pose.Dir(o.Face.Normal())
			for _, q := range r.Assembly.Parts {
				b := q.Box()
				if q.Owner != p.Owner || q.Moves != "" || q.Removable || q.Role != part.Bottom && q.Role != part.FixedShelf || b.Min.Y > at.Y || b.Max.Y < at.Y {
					continue
				}
				if x := at.X + 50*length.MM*length.Length(way.Sign()); way.Axis() != 0 || b.Min.X > x || b.Max.X < x {
					continue
				}
				if d := max(at.Z-b.Max.Z, b.Min.Z-at.Z); d > 0 && d < half {
					near[p.Owner] = true
				}
			}
		}
	}
	for _, s := range r.Steps {
		if t := s.Whole(); strings.Contains(t, "Screws of slides nearer than") {
			said[s.Owner] = true
			for _, id := range s.Also {
				said[id] = true
			}
			if strings.Contains(t, "by hand, with a screwdriver") != strings.Contains(s.Tool, "screwdriver") {
				bad = append(bad, fmt.Sprintf("step %d: its tools are %s", s.N, s.Tool))
			}
		}
	}
	for id := range near {
		if !said[id] {
			bad = append(bad, id+": nothing says with what the screws of its slides near a board are driven")
		}
	}
	return bad, tried
}

func TestSlidesNearABoardAreToldSo(t *testing.T) {
	inExamples(t, countered, slid, "no slide is screwed on")
}

// sunk gives a sentence for every bored screw with a sunk head whose board is drawn from the other face, and whose step names
// no face to sink in.
func sunk(r plan.Result) (bad []string, tried int) {
	at := byMark(r.Assembly)
	plain := regexp.MustCompile(`Countersink for the heads\.`)
	for _, s := range r.Steps {
		if s.Phase != shop.Assemble {
			continue
		}
		text := s.Whole()
		for _, j := range r.Assembly.Joints {
			in := false
			for _, m := range s.New {
				in = in || m == j.A || m == j.B
			}
			a, b := at[j.A], at[j.B]
			if !in || j.Kind != part.WoodScrew || j.Fastener == "" || !strings.Contains(strings.Join(s.Parts, " ")+" ", j.A+" ") || !strings.Contains(strings.Join(s.Parts, " ")+" ", j.B+" ") {
				continue
			}
			up := a.Box().Max.Z <= b.Box().Min.Z && j.Contact.Size().Z == 0
			bored := false // from below, and drawn from above
			for _, o := range a.Ops {
				bored = bored || o.For == string(part.WoodScrew) && o.Depth >= a.Size[2] && a.Pose.Dir(o.Face.Normal()).Axis() == 2
			}
			if up && bored && a.Pose.Dir(a.First().Normal()) == geom.Up {
				if tried++; plain.MatchString(text) {
					bad = append(bad, fmt.Sprintf("step %d: heads go into the underside of %s, and its drawing shows the top face: %s", s.N, j.A, text))
				}
			}
		}
	}
	return bad, tried
}

func TestHeadsAreSunkInTheirOwnFace(t *testing.T) {
	inExamples(t, countered, sunk, "no screw goes up through a board that is drawn from above")
}
