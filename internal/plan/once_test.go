package plan_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// long is how many letters a sentence has that is not said again.
const long = 60

// saidAgain gives a sentence for every rule that two steps at the wall say, and for every step that refers to one
// that does not say it before.
func saidAgain(r plan.Result) (bad []string) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	said := map[string]int{}
	rules := 0
	for _, s := range r.Steps {
		if s.Phase != shop.Install {
			continue
		}
		for _, t := range strings.SplitAfter(s.Text, ". ") {
			t = strings.TrimSpace(t)
			if len(t) < long || !strings.HasPrefix(t, "For ") && !strings.HasPrefix(t, "See with the stud finder") && !strings.HasPrefix(t, "Where packing is told") {
				continue
			}
			if n := said[t]; n > 0 {
				say("steps %d and %d both say %q", n, s.N, t)
			}
			said[t] = s.N
		}
		if strings.HasPrefix(s.Text, "How a screw goes into the wall") {
			rules = s.N
			if len(s.Points) == 0 {
				say("step %d says nothing", s.N)
			}
		}
		if m := asStep.FindStringSubmatch(s.Text); m != nil && (rules == 0 || m[1] != fmt.Sprint(rules)) {
			say("step %d refers to step %s, where nothing is told", s.N, m[1])
		}
		if strings.Contains(s.Whole(), "\x01") {
			say("step %d has no number where it refers to one", s.N)
		}
	}
	return bad
}

// What holds for every screw into the wall is said once, before the steps that refer to it, in the examples.
func TestRulesAreSaidOnce(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		for _, s := range saidAgain(r) {
			t.Errorf("%s: %s", name, s)
		}
		for _, s := range r.Steps {
			if asStep.MatchString(s.Text) {
				seen++
			}
		}
	}
	if seen < 10 {
		t.Errorf("%d steps refer to another", seen)
	}
}

// Rails that stand before the screws of a rack into its door go on after these: where one is bored for a rack
// screw, nothing of the rack that is there lies nearer to the drill than half its thickness (22 mm, common
// practice, no source).
func TestRacksAreScrewedOnWithoutWhatIsInTheWay(t *testing.T) {
	const half = 22 * length.MM
	tried, later := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		at := byMark(r.Assembly)
		there := map[string]bool{}
		for _, s := range r.Steps {
			if strings.Contains(strings.ToLower(s.Text), "screw the rack to the inside") {
				for _, m := range s.Parts {
					p := at[m]
					if p.Role != part.Door {
						continue
					}
					for _, o := range p.Ops {
						x := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
						if o.For != "rack screw" || !slices.ContainsFunc(s.Parts, func(n string) bool { // one of this rack
							b := at[n].Box()
							return n != m && b.Min.X < x.X && x.X < b.Max.X && b.Min.Z < x.Z && x.Z < b.Max.Z
						}) {
							continue
						}
						tried++
						for _, q := range r.Assembly.Parts {
							b := q.Box()
							if there[q.Mark] && q.Moves == p.Moves && q.Role == part.Rail && !slices.Contains(s.Parts, q.Mark) && b.Min.X < x.X && x.X < b.Max.X && b.Min.Z-half < x.Z && x.Z < b.Max.Z+half {
								t.Errorf("%s, step %d: %s stands before a screw into %s", name, s.N, q.Mark, m)
							}
						}
					}
				}
			}
			if strings.Contains(s.Text, "goes on last") {
				later++
			}
			for _, m := range s.New {
				there[m] = true
			}
		}
	}
	if tried == 0 || later == 0 {
		t.Errorf("%d screws of racks, %d rails that go on last: nothing is tried", tried, later)
	}
}

// The batten that wall cases are propped on has its screws on the list and in the step that uses it first, and a light
// that the job states is bought.
func TestBattensAndLightsAreBought(t *testing.T) {
	with := regexp.MustCompile(`on a batten, a straight offcut [^,;]+ long at least and no wider than [^,;]+, that is screwed to two studs with (\d+ × )|on the same batten, which is now screwed to two studs here with the (same screws)`)
	battens, lights := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		first := true
		for _, s := range r.Steps {
			if strings.HasPrefix(s.Text, "Take the batten down") {
				first = true
			}
			if strings.Contains(s.Text, "from below on ") {
				m := with.FindStringSubmatch(s.Text)
				if m == nil || first != strings.HasSuffix(m[1], "× ") {
					t.Errorf("%s, step %d: nothing says where the screws of the batten are from: %s", name, s.N, s.Text)
				}
				first = false
				battens++
			}
		}
		bought := 0
		for _, l := range r.Bill.Lines {
			if h, _ := r.Job.Catalogue.Item(l.Item); h.Kind == "light" {
				bought++
			}
		}
		for _, h := range r.Job.Hutches {
			if h.Value.Light != nil {
				if lights++; bought == 0 {
					t.Errorf("%s: the light of %s is not on the list", name, h.ID)
				}
			}
		}
	}
	if battens == 0 || lights == 0 {
		t.Errorf("%d battens, %d lights: nothing is tried", battens, lights)
	}
}
