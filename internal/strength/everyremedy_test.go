package strength_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	yaml "go.yaml.in/yaml/v4"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// doc is a job as maps and lists, to do in it what is advised.
type doc map[string]any

func docOf(t *testing.T, text string) doc {
	t.Helper()
	d := map[string]any{}
	if err := yaml.Unmarshal([]byte(text), &d); err != nil {
		t.Fatal(err)
	}
	return d
}

func (d doc) text(t *testing.T) string {
	t.Helper()
	b, err := yaml.Marshal(map[string]any(d))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// in gives a mapping below others, made where it is not there.
func in(m map[string]any, path ...string) map[string]any {
	for _, k := range path {
		n, ok := m[k].(map[string]any)
		if !ok {
			n = map[string]any{}
			m[k] = n
		}
		m = n
	}
	return m
}

// bays calls a function for a bay and all below it.
func bays(b map[string]any, f func(map[string]any)) {
	f(b)
	for _, k := range []string{"across", "up"} {
		if list, ok := b[k].([]any); ok {
			for _, x := range list {
				if m, ok := x.(map[string]any); ok {
					bays(m, f)
				}
			}
		}
	}
}

// size is a length of the job in mm, where it is written as "800", "36" or "34 1/2", in its unit.
func size(d doc, v any) float64 {
	total := 0.0
	for _, w := range strings.Fields(fmt.Sprint(v)) {
		if a, b, ok := strings.Cut(w, "/"); ok {
			x, _ := strconv.ParseFloat(a, 64)
			y, _ := strconv.ParseFloat(b, 64)
			total += x / y
			continue
		}
		x, err := strconv.ParseFloat(w, 64)
		if err != nil {
			return total * unitOf(w)
		}
		total += x
	}
	return total * unitOf(fmt.Sprint(d["unit"]))
}

func unitOf(w string) float64 {
	if w == "in" {
		return 25.4
	}
	return 1
}

func millimetres(v float64) string { return fmt.Sprintf("%.3f mm", v) }

// mass is a weight as a hint prints it, kg.
func massOf(text string) float64 {
	f := strings.Fields(text)
	v, _ := strconv.ParseFloat(f[0], 64)
	if f[1] == "lb" {
		return v * 0.45359237
	}
	return v
}

// spot is where a finding is: the job's entry of its owner.
func spot(d doc, f finding.Finding) (kind, id string, entry map[string]any) {
	parts := strings.SplitN(f.At, "/", 3)
	kind, id = parts[0], parts[1]
	list := map[string]string{"case": "cases", "counter": "counters", "hutch": "hutches", "base": "bases"}[kind]
	entry = in(d, list)
	if e, ok := entry[id].(map[string]any); ok {
		return kind, id, e
	}
	for _, e := range entry { // a base of the job has stretches
		if m, ok := e.(map[string]any); ok && len(entry) == 1 {
			return kind, id, m
		}
	}
	return kind, id, nil
}

// done is one remedy: what its words catch, and how the job then reads; false where that job has no place for it.
type done struct {
	says string
	do   func(d doc, f finding.Finding, e map[string]any, m []string) bool
	near float64 // how far the ratio may be below what is printed
}

// eachLoad changes every load that a case's job states, in kg.
func eachLoad(d doc, e map[string]any, f func(kg float64) float64) bool {
	n := 0
	change := func(m map[string]any) {
		if v, ok := m["load"].(string); ok {
			m["load"] = fmt.Sprintf("%.3f kg", f(massOf(v)))
			n++
		}
	}
	inside, ok := e["inside"].(map[string]any)
	if !ok {
		return false
	}
	bays(inside, func(b map[string]any) {
		change(b)
		if doors, ok := b["doors"].(map[string]any); ok {
			for _, side := range []string{"left", "right"} {
				if list, ok := doors[side].([]any); ok {
					for _, r := range list {
						change(r.(map[string]any))
					}
				}
			}
		}
	})
	return n > 0
}

// count is how many shelves or drawers of a bay share what is stated.
func total(e map[string]any) (kg float64) {
	bays(e["inside"].(map[string]any), func(b map[string]any) {
		v, ok := b["load"].(string)
		if !ok {
			return
		}
		n := 1.0
		if s, ok := b["shelves"].(map[string]any); ok {
			c, _ := strconv.ParseFloat(fmt.Sprint(s["count"]), 64)
			n += c
		}
		kg += n * massOf(v)
	})
	for _, side := range []string{"left", "right"} {
		if doors, ok := e["inside"].(map[string]any)["doors"].(map[string]any); ok {
			if list, ok := doors[side].([]any); ok {
				for _, r := range list {
					if v, ok := r.(map[string]any)["load"].(string); ok {
						kg += massOf(v)
					}
				}
			}
		}
	}
	return kg
}

// less takes so much from all that a case holds, from each load alike.
func less(d doc, _ finding.Finding, e map[string]any, m []string) bool {
	if e == nil || e["inside"] == nil {
		return false
	}
	all := total(e)
	by := massOf(m[1]) * 1.002
	if all <= by {
		return false
	}
	return eachLoad(d, e, func(kg float64) float64 { return kg * (1 - by/all) })
}

// number of drawers, trays or shelves that an "inside" bay shares its load among.
func sharers(b map[string]any) float64 {
	for _, k := range []string{"drawers", "trays"} {
		if s, ok := b[k].(map[string]any); ok {
			n, err := strconv.ParseFloat(fmt.Sprint(s["count"]), 64)
			if err != nil {
				n = 3
			}
			return n
		}
	}
	return 1
}

// keep states for every drawer, tray or shelf what one may hold.
func keep(d doc, _ finding.Finding, e map[string]any, m []string) bool {
	if e == nil || e["inside"] == nil {
		return false
	}
	bays(e["inside"].(map[string]any), func(b map[string]any) {
		_, split := b["across"]
		_, stacked := b["up"]
		if !split && !stacked && b["ballast"] == nil {
			b["load"] = fmt.Sprintf("%.3f kg", massOf(m[1])*sharers(b)*0.9999)
			delete(b, "goods")
		}
	})
	return true
}

// value is a whole number where a text is one.
func value(s string) any {
	if n, err := strconv.Atoi(s); err == nil {
		return n
	}
	return s
}

func practice(key string) func(doc, finding.Finding, map[string]any, []string) bool {
	return func(d doc, _ finding.Finding, _ map[string]any, m []string) bool {
		in(d, "practice")[key] = m[1]
		return true
	}
}

func entry(path ...string) func(doc, finding.Finding, map[string]any, []string) bool {
	return func(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
		if e == nil {
			return false
		}
		in(e, path[:len(path)-1]...)[path[len(path)-1]] = value(m[1])
		return true
	}
}

// narrower makes a length of an entry less, or deeper more.
func by(key string, sign float64) func(doc, finding.Finding, map[string]any, []string) bool {
	return func(d doc, _ finding.Finding, e map[string]any, m []string) bool {
		if e == nil {
			return false
		}
		if free, ok := e["free"].(map[string]any); ok && key == "length" {
			e = free
		}
		if e[key] == nil {
			return false
		}
		e[key] = millimetres(size(d, e[key]) + sign*size(d, m[1]))
		return true
	}
}

// fitted changes the shelves, drawers or trays of a case.
func fitted(kinds []string, f func(map[string]any, []string)) func(doc, finding.Finding, map[string]any, []string) bool {
	return func(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
		n := 0
		if e == nil || e["inside"] == nil {
			return false
		}
		bays(e["inside"].(map[string]any), func(b map[string]any) {
			for _, k := range kinds {
				if s, ok := b[k].(map[string]any); ok {
					f(s, m)
					n++
				}
			}
		})
		return n > 0
	}
}

// halves puts what is in a bay twice beside a partition; half of its load in each where that is for all of it.
func halves(d doc, _ finding.Finding, e map[string]any, _ []string) bool {
	if e == nil || e["inside"] == nil {
		return false
	}
	bay := e["inside"].(map[string]any)
	if bay["across"] != nil || bay["up"] != nil {
		return false
	}
	var copies []any
	for range 2 {
		one := map[string]any{}
		b, _ := yaml.Marshal(bay)
		_ = yaml.Unmarshal(b, &one)
		if v, ok := one["load"].(string); ok {
			one["load"] = fmt.Sprintf("%.3f kg", massOf(v)/2)
		}
		copies = append(copies, one)
	}
	e["inside"] = map[string]any{"across": copies}
	return true
}

// told are the codes whose remedies are changes of what is built or of what is put in it; of the others, on goods and
// people, each says what it says.
func told(c finding.Code) bool {
	return !slices.Contains([]finding.Code{strength.OutOfReach, strength.LiftIndex, strength.LockNeeded, strength.KeptApart, strength.ChargingClosed, strength.FuelInside,
		strength.OilyRags, strength.Flammables, strength.SparksNear, strength.IgnitionLow, strength.OnePerson, strength.GoodsRoom, strength.GoodsHeight, strength.GoodsWith}, c)
}

// Every remedy that any job here is given has its new ratio, of 1 or less, and is one that the job can say: it is said, the
// job is built so, and what failed holds then, by no more than was printed.
func TestEveryRemedyIsDone(t *testing.T) {
	jobs := map[string]string{}
	for i, x := range trials {
		jobs[fmt.Sprintf("trial %d %s", i, x.code)] = x.bad
	}
	files, _ := filepath.Glob("testdata/odd/*.yaml")
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		jobs[filepath.Base(name)] = string(b)
	}
	var names []string
	for n := range jobs {
		names = append(names, n)
	}
	slices.Sort(names)
	ratio := regexp.MustCompile(`^(.*) \(ratio (?:no more than )?(\d+\.\d+)(?:, standing free)?\)$`)
	remedies, used, tried := everyRemedy(t), map[string]int{}, 0
	for k, name := range names {
		if testing.Short() && k%4 != 0 {
			continue
		}
		t.Run(name, func(t *testing.T) {
			seen := map[string]bool{}
			for _, f := range strength.Check(inRounds(t, jobs[name])) {
				if f.Verdict != finding.Fails || !told(f.Code) {
					continue
				}
				if f.Hint == "" {
					t.Logf("nothing is advised: %s", say(f))
					continue
				}
				hint := f.Hint
				if rest, several := strings.CutPrefix(hint, "One of: "); several {
					hint = rest
				}
				for _, clause := range strings.Split(strings.TrimSuffix(hint, "."), "; ") {
					m := ratio.FindStringSubmatch(clause)
					if m == nil {
						t.Errorf("%s: no ratio in %q", f.Code, clause)
						continue
					}
					words := strings.ToLower(m[1][:1]) + m[1][1:]
					want, _ := strconv.ParseFloat(m[2], 64)
					if want > 1 {
						t.Errorf("%s: %q is none", f.Code, clause)
					}
					if key := fmt.Sprint(f.Code, words); seen[key] {
						continue
					} else {
						seen[key] = true
					}
					i := slices.IndexFunc(remedies, func(x done) bool { return regexp.MustCompile(x.says).MatchString(words) })
					if i < 0 {
						t.Errorf("%s: no job says %q", f.Code, words)
						continue
					}
					x := remedies[i]
					if x.do == nil {
						continue // built elsewhere
					}
					d := docOf(t, jobs[name])
					_, _, e := spot(d, f)
					if !x.do(d, f, e, regexp.MustCompile(x.says).FindStringSubmatch(words)) {
						if !strings.Contains(words, "rack") { // of several racks the words are of one
							t.Errorf("%s: this job has no place for %q", f.Code, words)
						}
						continue
					}
					used[x.says]++
					tried++
					worst, at := 0.0, finding.Finding{}
					list := strength.Check(inRounds(t, d.text(t)))
					here := slices.ContainsFunc(list, func(g finding.Finding) bool { return g.Code == f.Code && g.At == f.At })
					for _, g := range list {
						if g.Code != f.Code || here && g.At != f.At || !here && owner(g) != owner(f) || g.Unit != f.Unit && g.Verdict != finding.Fails {
							continue
						}
						if g.Verdict == finding.Fails || g.Verdict == finding.NotKnown {
							if g.Verdict == finding.NotKnown || g.Ratio() > 1.0005 {
								t.Errorf("%s at %s: %q is not enough: %s", f.Code, f.At, clause, say(g))
							}
						}
						if g.Ratio() > worst {
							worst, at = g.Ratio(), g
						}
					}
					if f.Code == strength.WallStuds { // what is printed of ledgers is the worst of what holds them
						continue
					}
					if worst > want+0.0151 || worst > 0 && worst < want-max(x.near, 0.0151) {
						t.Errorf("%s at %s: %q: ratio %.3f when done: %s", f.Code, f.At, clause, worst, say(at))
					}
				}
			}
		})
	}
	if !testing.Short() {
		for _, x := range remedies {
			if used[x.says] == 0 && x.do != nil {
				t.Logf("no job here is told %q", x.says)
			}
		}
	}
	t.Logf("%d remedies done", tried)
}

func owner(f finding.Finding) string { return strings.Join(strings.SplitN(f.At, "/", 3)[:2], "/") }
