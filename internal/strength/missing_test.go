package strength_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/builtin"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/plan/plantest"
	"stowright/internal/source/yaml"
	"stowright/internal/strength"
)

// What a maker may leave out of a job, in its own words: what things are made of and hold, and what
// they weigh; and loads, for which there is a default.
var (
	resistance = []string{"weighs", "rating", "shear", "tension", "anchor", "lining", "species", "studs", "spacing", "kind", "root", "head", "gauge", "diameter", "specific-gravity", "modulus", "modulus-along", "modulus-across", "design-bending", "strength", "strength-along", "strength-across", "shear-panel", "shear-planar", "density", "creep", "mass", "ballast", "locks", "yield", "tube-wall", "thickness", "listed", "first", "swivel"}
	loads      = []string{"load", "shelf-load", "drawer-load", "counter-load", "count", "goods"}
)

// without gives a job's text without one key, at each place where it stands with its value on one line.
func without(text, key string) (list []string, what []string) {
	value := regexp.MustCompile(`(?m)(^ *|[{,] *)` + regexp.QuoteMeta(key) + `: *(\{[^{}]*\}|\[[^\]\n]*\]|[^,{}\[\]\n#]+?)(, *| *$|\})`)
	for _, m := range value.FindAllStringSubmatchIndex(text, -1) {
		end := m[1]
		if text[m[6]:m[7]] == "}" {
			end = m[6] // the bracket stays
		}
		before := text[:m[3]]
		if end == m[6] {
			before = strings.TrimRight(before, ", ")
		}
		list = append(list, before+text[end:])
		what = append(what, strings.TrimSpace(text[m[2]:m[1]]))
	}
	return list, what
}

// Anything that describes a resistance or a mass, left out of any of the examples at any one place,
// never makes hold what failed or was not known; and what holds because a load was left to its default
// says that the load is assumed. A job that can no longer be read says so, and passes nothing.
func TestLeftOutOfTheJob(t *testing.T) {
	sets := names
	if testing.Short() {
		sets = []string{"one-case", "ostler-row"}
	}
	for _, name := range sets {
		t.Run(name, func(t *testing.T) {
			whole := text(t, name)
			before := map[key]finding.Finding{}
			for _, f := range strength.Check(input(read(t, name, whole))) {
				before[key{f.Code, f.At}] = f
			}
			tried, refused := 0, 0
			for _, k := range append(slices.Clone(resistance), loads...) {
				list, what := without(whole, k)
				for i, x := range list {
					if testing.Short() && i%4 > 0 {
						continue
					}
					after, ok := judge(x)
					if !ok {
						refused++
						continue
					}
					tried++
					for _, f := range after {
						was, known := before[key{f.Code, f.At}]
						if f.Verdict != finding.Holds && f.Verdict != finding.Near || !known || was.Verdict != finding.Fails && was.Verdict != finding.NotKnown {
							continue
						}
						if slices.Contains(loads, k) && strings.Contains(f.Text+strings.Join(f.Working, " "), "assumed") {
							continue
						}
						if gone(f, x, k) {
							continue
						}
						t.Errorf("without %q holds now: %s\nwas %s", what[i], say(f), say(was))
					}
				}
			}
			t.Logf("%d left out, %d more that the job cannot do without", tried, refused)
			if tried < 2 {
				t.Errorf("only %d things were left out", tried)
			}
		})
	}
}

// gone says that a finding is about goods that the bay no longer names: nothing is left to judge, or less shares the
// bay; or that shelves were left out, not what is known of them: without one there is more room between the others.
func gone(f finding.Finding, _, k string) bool {
	if f.Code == strength.GoodsRoom && (k == "count" || k == "goods") {
		return true
	}
	return k == "goods" && (f.Code == strength.Flammables || f.Unit == "places")
}

// judge reads and proves a job; false when it cannot be read.
func judge(text string) (finding.List, bool) {
	n, p := yaml.Read("left out", []byte(text))
	if len(p) > 0 {
		return nil, false
	}
	c, p := job.Read(job.Sources{Shipped: plantest.Shipped(), Job: n}, builtin.Fittings())
	if len(p) > 0 {
		return nil, false
	}
	return strength.Check(input(c)), true
}

// The practice's default loads, each made a third heavier in each of the examples: every finding whose
// demand this changes says that its load is assumed, in its sentence or in its working; and none that a
// job states itself changes.
func TestDefaultLoadsAreCalledAssumedInTheExamples(t *testing.T) {
	sets := names
	if testing.Short() {
		sets = []string{"fennel-street", "one-case"}
	}
	for _, name := range sets {
		in := input(read(t, name, text(t, name)))
		before := judged(strength.Check(in))
		for k, what := range []string{"shelf-load", "drawer-load", "counter-load"} {
			n := in
			c := *in.Job
			p := &c.Practice
			switch k {
			case 0:
				p.ShelfLoad += p.ShelfLoad / 3
			case 1:
				p.DrawerLoad += p.DrawerLoad / 3
			case 2:
				p.CounterLoad += p.CounterLoad / 3
			}
			n.Job = &c
			changed := 0
			for at, f := range judged(strength.Check(n)) {
				if was := before[at]; was.Demand == f.Demand && was.Capacity == f.Capacity {
					continue
				}
				changed++
				if words := f.Text + strings.Join(f.Working, " "); !strings.Contains(words, "assumed") {
					t.Errorf("%s: a heavier %s changes this, and it does not say that it is assumed: %s", name, what, say(f))
				}
			}
			t.Log(fmt.Sprint(name, ": ", what, " changes ", changed))
		}
	}
}
