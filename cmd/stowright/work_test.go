package main_test

import (
	"bufio"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The work that the program does, counted in statements of its own that it executes: Go's coverage counters tell how often each
// ran, and the same job gives the same number on every machine. How long it takes, benchmarks tell (CONTRIBUTING.md).
//
// Measured: four times the cases, each of another width, are 5.8 times the work of a check, for more sheets are open to each part
// as the first cutting plan is made. Four times the places for goods are 3.6 times, twice the cases twice that of a packet.
func TestWork(t *testing.T) {
	if testing.Short() {
		t.Skip("the long form builds the program with counters")
	}
	p := counted(t)
	for _, c := range []struct {
		name, few, many string
		times, most     float64 // many is so many times few; the work is at most so many times as much
		args            []string
	}{
		{"cases", manyCases(2), manyCases(8), 4, 6.5, []string{"check", "-"}},
		{"goods", manyPlaces(15), manyPlaces(60), 4, 5, []string{"check", "-"}},
		{"packet", manyCases(1), manyCases(2), 2, 2.5, []string{"packet", "-", "--effort", "first", "-o", filepath.Join(t.TempDir(), "packet")}},
		{"first plan", manyParts(50), manyParts(5000), 100, 30, []string{"cut", "-", "--stock", "2440x1220", "--effort", "first"}},
		{"equal parts", "mark,length,width,count\na,117,118,1000\n", "mark,length,width,count\na,117,118,10000\n", 10, 10, []string{"cut", "-", "--stock", "2440x1220", "--effort", "first"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			few, many := p.work(t, c.few, c.args...), p.work(t, c.many, c.args...)
			grown := many.all() / few.all()
			t.Logf("%.0f times as many: %.4g and %.4g statements, %.2f times", c.times, few.all(), many.all(), grown)
			if grown > c.most {
				t.Errorf("%.0f times as many take %.2f times the work, more than %.0f; what grew most:\n%s", c.times, grown, c.most, few.worst(many, c.times))
			}
		})
	}
	t.Run("step", func(t *testing.T) {
		// Steps of a search are 20 000 in all, of parts too large for the bound to be reached. A step puts parts back where
		// they cost least in the sheets that are open, so that it takes longer with more of them.
		var step []float64
		for _, parts := range []int{500, 5000} {
			text := manyParts(parts)
			args := []string{"cut", "-", "--stock", "2440x1220", "--effort"}
			first, quick := p.work(t, text, append(args, "first")...), p.work(t, text, append(args, "quick")...)
			step = append(step, (quick.all()-first.all())/20_000)
		}
		t.Logf("500 parts %.0f statements a step, 5000 parts %.0f: %.2f times", step[0], step[1], step[1]/step[0])
		if step[1] > 5*step[0] {
			t.Errorf("ten times the parts take %.2f times the work in a step", step[1]/step[0])
		}
	})
	t.Run("same", func(t *testing.T) {
		one, other := p.work(t, manyCases(1), "check", "-"), p.work(t, manyCases(1), "check", "-")
		if !maps.Equal(one, other) {
			t.Errorf("the same job twice: %.0f and %.0f statements", one.all(), other.all())
		}
	})
}

// program is the program built with counters.
type program struct{ file, module string }

// counted builds the program with a counter of how often each of its statements is executed.
func counted(t *testing.T) program {
	t.Helper()
	file := filepath.Join(t.TempDir(), "stowright.exe")
	if out, err := exec.Command("go", "build", "-cover", "-covermode=count", "-coverpkg=stowright/...", "-o", file, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return program{file, "stowright/"}
}

// work is how many statements were executed, by their folder.
type work map[string]float64

// work runs the program on what it reads.
func (p program) work(t *testing.T, in string, args ...string) work {
	t.Helper()
	dir := t.TempDir()
	run := exec.Command(p.file, args...)
	run.Env = append(os.Environ(), "GOCOVERDIR="+dir, "GOMAXPROCS=1") // one thread: counters that are not atomic lose nothing
	run.Stdin = strings.NewReader(in)
	var said strings.Builder
	run.Stderr = &said
	var status *exec.ExitError
	if err := run.Run(); err != nil && !(errors.As(err, &status) && status.ExitCode() == 1 && said.Len() == 0) { // 1: the job has faults
		t.Fatalf("%v\n%s", err, said.String())
	}
	text := filepath.Join(dir, "text")
	if out, err := exec.Command("go", "tool", "covdata", "textfmt", "-i="+dir, "-o="+text).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	f, err := os.Open(text)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	w := work{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		// stowright/internal/plan/plan.go:1.2,3.4 statements times
		where, numbers, _ := strings.Cut(lines.Text(), ":")
		fields := strings.Fields(numbers)
		if len(fields) != 3 {
			continue // the first line
		}
		statements, err1 := strconv.ParseFloat(fields[1], 64)
		times, err2 := strconv.ParseFloat(fields[2], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("no counter: %s", lines.Text())
		}
		if statements*times > 0 {
			w[strings.TrimPrefix(path.Dir(where), p.module)] += statements * times
		}
	}
	if w.all() < 1e5 {
		t.Fatalf("only %.0f statements were executed", w.all())
	}
	return w
}

func (w work) all() float64 {
	n := 0.0
	for _, k := range slices.Sorted(maps.Keys(w)) {
		n += w[k]
	}
	return n
}

// worst lists the folders whose work grew most beyond so many times.
func (w work) worst(many work, times float64) string {
	beyond := func(k string) float64 { return many[k] - times*w[k] }
	names := slices.SortedFunc(maps.Keys(many), func(a, b string) int { return int(beyond(b) - beyond(a)) })
	var s strings.Builder
	for _, k := range names[:min(8, len(names))] {
		fmt.Fprintf(&s, "%-30s %.4g to %.4g statements, %.2f times\n", k, w[k], many[k], many[k]/max(1, w[k]))
	}
	return s.String()
}

// manyCases is a job of so many walls with thirty cases in a run on each.
func manyCases(walls int) string {
	var places, cases, runs strings.Builder
	for w := range walls {
		fmt.Fprintf(&places, "  w%d: {length: 900, height: 98, kind: stud, lining: {name: d, thickness: 1/2}, studs: {first: 8, spacing: 16, species: spruce-pine-fir, width: 1 1/2}, floor: {every: 450, at-wall: [0, 0, 0]}}\n", w)
		fmt.Fprintf(&runs, "  r%d: {wall: w%d, start: 0, order: [", w, w)
		for i := range 30 {
			inside := [...]string{"drawers: {count: 4}", "shelves: {count: 2}, doors: {}", "shelves: {count: 1, fixed: yes}, doors: {count: 1, hinge: right}"}[i%3]
			fmt.Fprintf(&cases, "  c%dx%d: {family: f, width: %d %d/64, inside: {%s}}\n", w, i, 24+i%3, w*30/16*2+i+1, inside)
			fmt.Fprintf(&runs, "{case: c%dx%d}, ", w, i)
		}
		runs.WriteString("]}\n")
	}
	return "stowright: 1\nunit: in\npractice: {from: inch-shop}\n" +
		"families: {f: {depth: 18, top-line: 34 1/2, stands-on: {kind: toe, height: 4, recess: 3}, joining: {front: 2, rear: 2, low: 2, high: 2}}}\n" +
		"walls:\n" + places.String() + "cases:\n" + cases.String() + "runs:\n" + runs.String()
}

// manyPlaces is a job of so many cases with three shelves each and a hundred kinds of goods listed in every one.
func manyPlaces(cases int) string {
	var s, goods strings.Builder
	s.WriteString("stowright: 1\nunit: in\npractice: {from: inch-shop}\ncases:\n")
	var names []string
	for i := range 100 {
		names = append(names, fmt.Sprintf("g%d", i))
		fmt.Fprintf(&goods, "  g%d: {width: 3, depth: 3, height: 4, weighs: 1 lb, count: 4}\n", i)
	}
	for i := range cases {
		fmt.Fprintf(&s, "  c%d: {width: 30, height: 34 1/2, depth: 18, inside: {shelves: {count: 3}, goods: [%s]}}\n", i, strings.Join(names, ", "))
	}
	return s.String() + "goods:\n" + goods.String()
}

// manyParts is a list of so many parts of many sizes, too large for the bound of sheets to be reached.
func manyParts(n int) string {
	var s strings.Builder
	s.WriteString("mark,length,width,count\n")
	for i := range n {
		fmt.Fprintf(&s, "p%d,%d,%d,1\n", i, 600+i*37%700, 320+i*53%450)
	}
	return s.String()
}
