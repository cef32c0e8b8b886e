package plan_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/part"
	"stowright/internal/plan"
)

var seeds = flag.String("seeds", "", "made-up jobs to try instead, as in 2000-6000")

// Every made-up job: nothing shares space unless it is told, everything is in its envelope, joints
// touch, holes stay in their face, doors and drawers move free, sawn sizes equal the model's, sheets
// add up to the tick, and making it twice gives the same bytes. Two thousand reach everything that a
// job can say and a result can have.
func TestRandomJobs(t *testing.T) {
	first, last := uint64(0), uint64(2000)
	if testing.Short() {
		last = short
	}
	asked, err := fmt.Sscanf(*seeds, "%d-%d", &first, &last)
	if *seeds != "" && err != nil {
		t.Fatal("-seeds wants two numbers, as in 2000-6000:", err)
	}
	seen := map[string]bool{}
	failed := 0
	type outcome struct {
		text string
		bad  []string
		seen map[string]bool
	}
	each(first, last, func(seed uint64) outcome {
		w := random(seed)
		text := w.job()
		bad, r := judged(t, text, seed%50 == 0)
		keep(seed, r)
		reached(&r, w.seen)
		return outcome{text, bad, w.seen}
	}, func(seed uint64, o outcome) {
		for k := range o.seen {
			seen[k] = true
		}
		if len(o.bad) > 0 {
			failed++
			t.Errorf("seed %d:\n%s\n%s", seed, strings.Join(o.bad[:min(len(o.bad), 6)], "\n"), o.text)
			if failed > 20 {
				t.Fatal("and so on")
			}
		}
	})
	if testing.Short() || asked > 0 {
		return
	}
	for _, k := range wanted() {
		if !seen[k] {
			t.Errorf("no job of %d had %q", last, k)
		}
	}
}

// each makes something of every seed, on all processors, and takes them in order.
func each[T any](first, last uint64, one func(uint64) T, take func(uint64, T)) {
	workers := uint64(runtime.GOMAXPROCS(0))
	for from := first; from < last; from += 8 * workers {
		to := min(from+8*workers, last)
		made := make([]T, to-from)
		var wait sync.WaitGroup
		for w := range workers {
			wait.Add(1)
			go func() {
				defer wait.Done()
				for seed := from + w; seed < to; seed += workers {
					made[seed-from] = one(seed)
				}
			}()
		}
		wait.Wait()
		for i, x := range made {
			take(from+uint64(i), x)
		}
	}
}

// Jobs in which a fault was found once, each saying which in its first line: they keep the same
// promises as the made-up ones.
func TestFoundFaults(t *testing.T) {
	files, err := filepath.Glob("testdata/jobs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no jobs", err)
	}
	for _, f := range files {
		t.Run(strings.TrimSuffix(filepath.Base(f), ".yaml"), func(t *testing.T) {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range judgeJob(t, string(b), true) {
				t.Error(s)
			}
		})
	}
}

// short is how many made-up jobs the short form looks at, and many how many of them several tests look at in the long form;
// what came of these is kept for all tests: nobody may change it.
const (
	short = 7
	many  = 100
)

var (
	keeping sync.Mutex
	kept    = map[uint64]plan.Result{}
)

func keep(seed uint64, r plan.Result) {
	keeping.Lock()
	defer keeping.Unlock()
	if seed < many {
		kept[seed] = r
	}
}

// madeUp gives a made-up job and what comes of it.
func madeUp(t *testing.T, seed uint64) (text string, r plan.Result) {
	text = random(seed).job()
	keeping.Lock()
	r, ok := kept[seed]
	keeping.Unlock()
	if !ok {
		r = plan.Make(context.Background(), parse(t, "random", []byte(text)), plan.Want{})
		keep(seed, r)
	}
	return text, r
}

func judgeJob(t *testing.T, text string, twice bool) (bad []string) {
	bad, _ = judged(t, text, twice)
	return bad
}

// judged gives what is wrong with a job's result, and the result.
func judged(t *testing.T, text string, twice bool) (bad []string, r plan.Result) {
	defer func() {
		if r := recover(); r != nil {
			bad = append(bad, fmt.Sprintf("panic: %v\n%s", r, debug.Stack()))
		}
	}()
	c := parse(t, "random", []byte(text))
	r = plan.Make(context.Background(), c, plan.Want{})
	bad = append(bad, sound(&r)...)
	bad = append(bad, clashes(&r)...)
	bad = append(bad, uncatalogued(&r)...)
	bad = append(bad, colliding(r.Assembly, r.Findings)...)
	bad = append(bad, unsawable(r.Assembly, r.Findings)...)
	if f := judge.Check(&r.Problem, &r.Plan); len(f) > 0 {
		bad = append(bad, "the judge: "+f[0].String())
	}
	bad = append(bad, sheetsAddUp(r)...)
	out, _ := emerging(r)
	bad = append(bad, out...)
	air, _ := intoAir(r)
	bad = append(bad, air...)
	for _, f := range r.Findings {
		if f.Code == "" || f.At == "" || f.Text == "" {
			bad = append(bad, fmt.Sprintf("a finding without code, place or text: %+v", f))
		}
		if strings.Contains(f.Text, "%!") {
			bad = append(bad, "a finding with a broken sentence: "+f.Text)
		}
	}
	if twice {
		again := plan.Make(context.Background(), c, plan.Want{})
		if !bytes.Equal(output.Plan(r), output.Plan(again)) {
			bad = append(bad, "making it twice gives two results")
		}
	}
	return bad, r
}

// sheetsAddUp: every part once on a sheet at its sawn size, and every sheet's area is parts,
// offcuts, kerf and trim, exactly.
func sheetsAddUp(r plan.Result) (bad []string) {
	size := map[string][2]length.Length{}
	for _, p := range r.Assembly.Parts {
		if p.Material == part.Board {
			size[p.Mark] = [2]length.Length{p.Cut()[0], p.Cut()[1]}
		}
	}
	unplaced := 0
	for _, u := range r.Plan.Unplaced {
		unplaced += u.Count
	}
	n := 0
	for i, s := range r.Plan.Sheets {
		var sum int64
		for k, p := range s.Pieces {
			n++
			got := [2]length.Length{p.L, p.W}
			if p.Turned {
				got[0], got[1] = got[1], got[0]
			}
			m := r.Marks[i][k]
			if size[m] != got {
				bad = append(bad, fmt.Sprintf("%s is cut %v, modelled %v", m, got, size[m]))
			}
			delete(size, m)
			sum += p.Area()
		}
		if a := s.Area; sum != a.Parts || a.Parts+a.Offcuts+a.Kerf+a.Trim != (cutting.Rect{L: s.L, W: s.W}).Area() {
			bad = append(bad, fmt.Sprintf("sheet %d does not add up: %+v", i, a))
		}
	}
	if len(size) != unplaced {
		bad = append(bad, fmt.Sprintf("%d parts are on no sheet, %d were said to be", len(size), unplaced))
	}
	return bad
}

// The same shop and room in inches and in millimetres: sizes that are equal give equal parts.
func TestUnitsDoNotMatter(t *testing.T) {
	last := uint64(100)
	if testing.Short() {
		last = 2
	}
	for seed := range last {
		made := func(unit string) ([]part.Part, string) {
			w := random(seed)
			w.exact = unit
			text := w.job()
			return plan.Make(context.Background(), parse(t, unit, []byte(text)), plan.Want{}).Assembly.Parts, text
		}
		a, text := made("mm")
		b, inches := made("in")
		if len(a) == 0 || text == inches {
			t.Fatalf("seed %d: nothing is compared", seed)
		}
		if !slices.EqualFunc(a, b, func(p, q part.Part) bool { return fmt.Sprint(p) == fmt.Sprint(q) }) {
			t.Fatalf("seed %d: inches and millimetres give different parts\n%s", seed, text)
		}
	}
}
