package plan_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/rules"
	"stowright/internal/shop"
)

// unset gives a sentence for everything that is set at the wall with a step amiss: a batten that nobody takes down, a nut in a
// case whose drawers are in, a rail whose pockets may look to either side, a board that covers what goes on behind it.
func unset(r plan.Result) (bad []string, n int) {
	slides := map[string]bool{}
	for _, m := range r.Assembly.Motions {
		slides[m.Owner] = slides[m.Owner] || m.Kind == part.Slide
	}
	name := map[string]string{}
	for _, o := range r.Assembly.Owners {
		name[o.ID] = o.Name
	}
	batten := false
	boarded := map[string]bool{} // hook boards that are on
	for _, s := range r.Steps {
		if s.Phase != shop.Install {
			continue
		}
		switch {
		case strings.Contains(s.Text, "on a batten"):
			batten = true
			n++
		case strings.HasPrefix(s.Text, "Take the batten down"):
			batten = false
		case strings.Contains(s.Text, ": set the case") && batten:
			bad = append(bad, "a floor case is set while the batten is still up: "+s.Text)
		}
		if strings.HasPrefix(s.Text, "Clamp ") {
			for _, f := range r.Assembly.Fixings {
				h, _ := r.Job.Catalogue.Item(f.Screw)
				if f.Owner != s.Owner || f.Row != "joining" || !slices.Contains(s.Parts, f.Part) {
					continue
				}
				n++
				for _, id := range []string{f.Owner, f.Stud} {
					if slides[id] && (id == f.Owner || h.Kind == "bolt") && !regexp.MustCompile(`\b([Dd]rawers|[Tt]rays)( and trays)? of `).MatchString(s.Text) {
						bad = append(bad, "hands reach into "+name[id]+" with its drawers in: "+s.Text)
					}
				}
			}
		}
		if strings.HasPrefix(s.Text, "Screw the rails of ") {
			for _, p := range s.Points {
				if n++; !strings.Contains(p, "its pockets to the front") && !strings.Contains(p, "its pockets to the rear") {
					bad = append(bad, "which way the pockets look: "+p)
				}
			}
		}
		for _, p := range r.Assembly.Parts {
			wired := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.LightCable })
			if p.Role != part.HookBoard || !wired || !slices.Contains(s.Parts, p.Mark) {
				continue
			}
			n++
			switch {
			case strings.Contains(s.Text, "lay the cable"):
				if boarded[p.Mark] {
					bad = append(bad, "the cable goes behind a board that is on: "+s.Text)
				}
			case slices.Contains(s.New, p.Mark):
				boarded[p.Mark] = true
			case strings.HasPrefix(s.Text, "Screw the light") && !strings.Contains(s.Text, "to the face of"):
				bad = append(bad, "where the light goes: "+s.Text)
			}
		}
	}
	if batten {
		bad = append(bad, "the batten is never taken down")
	}
	return bad, n
}

// What is set at the wall can be reached, and what helped to set it comes away.
func TestSettingAtTheWallIsTold(t *testing.T) {
	inExamples(t, shipped, unset, "nothing is set")
}

// Where a counter ends with its wall it is told to be fitted, and how far everything stands from the wall is told for the
// height at which that is measured: by the survey's own face of the wall there.
func TestWhatStandsAtTheWallIsToldWhereItIsMeasured(t *testing.T) {
	fitted, told, counted, flush := 0, 0, 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		for _, o := range r.Assembly.Owners {
			w := r.Room.Wall(o.Wall)
			if w == nil {
				continue
			}
			at := func(x, z, rear length.Length) string {
				if v := w.Face(x, z) - rear; v >= length.MM/2 {
					return v.In(r.Job.Print) + " from the wall"
				}
				return "against the wall"
			}
			for _, s := range r.Steps {
				if s.Phase != shop.Install || s.Owner != o.ID {
					continue
				}
				if o.Kind == "counter" && strings.Contains(s.Text, " in its place, left end ") {
					ends := o.Box.Min.X.Abs() < length.MM || (o.Box.Max.X-w.Length).Abs() < length.MM
					if ends {
						fitted++
					}
					if ends != strings.Contains(s.Text, "scribe") {
						t.Errorf("%s: %s ends with its wall: %v; its step: %s", name, o.ID, ends, s.Text)
					}
				}
				if strings.Contains(s.Text, ", its rear") && strings.Contains(s.Text, " from the wall") && !strings.Contains(s.Text, "at its upper edge") && !strings.Contains(s.Text, "at its foot") {
					t.Errorf("%s: a distance from the wall at no height: %s", name, s.Text)
				}
				if o.Kind == "counter" && strings.Contains(s.Text, " in its place, left end ") { // where its top has a rear edge
					counted++
					top := geom.Box{}
					for _, p := range r.Assembly.Parts {
						if b := p.Box(); p.Owner == o.ID && p.Role == part.CounterLayer && (top == geom.Box{} || b.Max.Z > top.Max.Z) {
							top = b
						}
					}
					for _, x := range []length.Length{o.Box.Min.X, o.Box.Max.X} {
						if want := at(x, top.Max.Z, o.Box.Max.Y); !strings.Contains(s.Text, want) {
							t.Errorf("%s: %s has its upper rear edge %s; its step: %s", name, o.ID, want, s.Text)
						}
					}
				}
				if o.Kind == "hutch" && o.Moves && strings.HasPrefix(s.Text, "Put the frame of ") { // by what it stands on, which is there
					flush++
					for _, c := range r.Assembly.Owners {
						if c.Kind != "counter" || c.Box.Max.Z != o.Box.Min.Z || c.Wall != o.Wall || c.Box.Max.Y != o.Box.Max.Y || c.Box.Min.X != o.Box.Min.X {
							continue
						}
						if strings.Contains(s.Text, " from the wall") || !strings.Contains(s.Text, "its left end flush with the left end of that, its rear flush with its rear edge") {
							t.Errorf("%s: %s is flush with %s; its step: %s", name, o.ID, c.ID, s.Text)
						}
					}
				}
				if o.Kind == "case" && strings.Contains(s.Text, ": set the case") && strings.Contains(s.Text, " its rear") {
					told++
					b := o.Carcass
					for _, x := range []length.Length{b.Min.X, b.Max.X} {
						if want := at(x, b.Max.Z, b.Max.Y); !strings.Contains(s.Text, want) {
							t.Errorf("%s: %s stands %s; its step: %s", name, o.ID, want, s.Text)
						}
					}
				}
			}
		}
	}
	if fitted == 0 || told == 0 || counted == 0 || flush == 0 {
		t.Errorf("%d fitted, %d told, %d counters, %d hook boards by their benches", fitted, told, counted, flush)
	}
}

// Holes for dowels are bored in the ends and edges before the faces that are marked from them, dowel by dowel, and what
// stands where the floor was not measured says so wherever heights are told.
func TestEndsBeforeFacesAndHeightsThatAreGuessed(t *testing.T) {
	dowelled, guessed := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		size := map[string]part.Part{}
		for _, p := range r.Assembly.Parts {
			size[p.Mark] = p
		}
		faces := map[string]bool{} // the tools that have bored faces
		for _, s := range r.Steps {
			if s.Phase == shop.Bore && strings.HasPrefix(s.Text, "Dowel: ") {
				for _, m := range s.Parts {
					for _, o := range size[m].Ops {
						if o.For != "dowel" || !strings.Contains(s.Text, o.Depth.Stop(r.Job.Print)+" deep") {
							continue
						}
						edge := o.Face > part.Lower
						if dowelled++; edge && faces[s.Tool] {
							t.Errorf("%s: the end of %s is bored when faces have been: %d. %s", name, m, s.N, s.Text)
						}
						faces[s.Tool] = faces[s.Tool] || !edge
					}
				}
			}
			for _, o := range r.Assembly.Owners {
				w := r.Room.Wall(o.Wall)
				if w == nil || o.ID != s.Owner || s.Phase != shop.Install {
					continue
				}
				points := strings.Join(s.Points, " ")
				if heights := strings.Contains(points, "Height of every ") || strings.Contains(points, "Where a leg does not reach"); !heights {
					continue
				}
				far := -o.Box.Min.Y > max(w.SurveyedOut()*3/2, 1000*length.MM)
				if far {
					guessed++
				}
				if far != strings.Contains(points, "are a guess") {
					t.Errorf("%s: %s stands %s out, where the floor was measured to %s: %s", name, o.ID, (-o.Box.Min.Y).In(r.Job.Print), w.SurveyedOut().In(r.Job.Print), points)
				}
			}
		}
		if l := r.Findings.With(place.SurveyLacks); guessed > 0 && name == "hollis-court" && (len(l) != 1 || !strings.Contains(l[0].Text, "floor heights from 600 mm to ")) {
			t.Errorf("%s: no finding says where the floor was not measured: %v", name, l)
		}
	}
	if dowelled == 0 || guessed == 0 {
		t.Errorf("%d dowels, %d guessed", dowelled, guessed)
	}
}

// A wall that only a filler shows to be there stops doors as one that is surveyed does.
func TestFillersShowWallsThatStopDoors(t *testing.T) {
	r := plantest.Result(t, "fennel-street")
	for _, id := range []string{"trays", "tyres left"} {
		if !slices.ContainsFunc(r.Findings.With(rules.DoorStopped), func(f finding.Finding) bool {
			return f.At == "case/"+id && strings.Contains(f.Text, "left door") && strings.Contains(f.Text, "that a filler is fitted to")
		}) {
			t.Errorf("nothing says that the wall stops the left door of %s", id)
		}
	}
}
