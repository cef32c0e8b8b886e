package bundle_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"stowright/internal/bundle"
	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

var packets = map[string]map[string][]byte{}

// packed gives every file of an example, made once in a test's process; nobody may change them.
func packed(t *testing.T, example string) map[string][]byte {
	t.Helper()
	if packets[example] == nil {
		packets[example] = pack(t, plantest.Result(t, example))
	}
	return packets[example]
}

// pack makes every file of a result, on the paper of its unit.
func pack(t *testing.T, r plan.Result) map[string][]byte {
	t.Helper()
	paper := draw.A4()
	if r.Job.Print == length.Inches {
		paper = draw.Letter()
	}
	files, err := bundle.Make(r, bundle.Want{Paper: paper})
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range files {
		if out[f.Name] != nil {
			t.Errorf("two files are called %s", f.Name)
		}
		if len(f.Bytes) == 0 {
			t.Errorf("%s is empty", f.Name)
		}
		if strings.Trim(f.Name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./") != "" {
			t.Errorf("%q is no name for every system", f.Name)
		}
		out[f.Name] = f.Bytes
	}
	return out
}

// A packet has every kind of file that docs/packet.md tells of, and no other; made twice, all its bytes
// are the same.
func TestEveryFileIsToldOfAndTheSame(t *testing.T) {
	docs, err := os.ReadFile("../../docs/packet.md")
	if err != nil {
		t.Fatal(err)
	}
	told := map[string]bool{}
	for _, line := range strings.Split(string(docs), "\n") {
		if cell, ok := strings.CutPrefix(line, "| `"); ok {
			cell, _, _ = strings.Cut(cell, " |")
			for _, name := range strings.Split(cell, ", ") {
				told[strings.Trim(name, "`")] = false
			}
		}
	}
	for _, example := range plantest.Examples() {
		a, b := packed(t, example), pack(t, plantest.Result(t, example))
		if len(a) != len(b) {
			t.Errorf("%s: %d files, then %d", example, len(a), len(b))
		}
		for name, x := range a {
			if !bytes.Equal(x, b[name]) {
				t.Errorf("%s: %s differs when it is made again", example, name)
			}
			kind := name
			if dir, file, in := strings.Cut(name, "/"); in {
				kind = dir + "/*" + file[strings.LastIndex(file, "."):]
			}
			if _, ok := told[kind]; !ok {
				t.Errorf("%s: docs/packet.md does not tell of %s", example, kind)
			}
			told[kind] = true
		}
	}
	for kind, made := range told {
		if !made {
			t.Errorf("docs/packet.md tells of %s, which no example has", kind)
		}
	}
}

// A job of which nothing is left to build still gives a packet.
// Jobs that must not be built as they stand have a plan set all the same: with a case, a base or a hook board that is too
// small to have a part, and with a back higher than a sheet of paper.
func TestUnfitJobsHaveAPlanSet(t *testing.T) {
	const wall = `
stowright: 1
unit: in
practice: {from: inch-shop}
walls: {w: {length: 260, height: 98, kind: stud, studs: {first: 8, spacing: 16}, keep-clear: {k: {kind: heater, at: 100, width: 4, may-be-behind: yes}}}}
`
	for name, job := range map[string]string{
		"a case": `
cases: {a: {width: 30, height: 34 1/2, depth: 4, inside: {doors: {}}}, b: {width: 30, height: 34 1/2, depth: 14, inside: {doors: {}}}}
runs: {r: {wall: w, order: [{case: a}, {case: b}]}}`,
		"a base": `
cases: {a: {width: 30, height: 34 1/2, depth: 18}, b: {width: 6, height: 34 1/2, depth: 6}}
runs: {r: {wall: w, order: [{case: a}, {space: 10}, {case: b}]}}
bases: {bb: {under: [r], stock: two-by-four-treated, height: 3 1/2}}`,
		"a hook board": `
cases: {a: {width: 30, height: 34 1/2, depth: 18}}
runs: {r: {wall: w, order: [{case: a}]}}
counters: {c: {over: [r], layers: [{board: birch-three-quarter}]}}
hutches: {h: {on: c, height: 2, board: ply-quarter}}`,
		"a long back": `
stowright: 1
unit: in
walls: {w: {length: 400, keep-clear: {k: {kind: heater, at: 100, width: 4, may-be-behind: yes}}}}
cases: {a: {width: 190, height: 34, depth: 26}}
runs: {r: {order: [{case: a}]}}`,
	} {
		t.Run(name, func(t *testing.T) {
			if !strings.Contains(job, "stowright: 1") {
				job = wall + job
			}
			r := plan.Make(t.Context(), plantest.Parse(t, name, []byte(job)), plan.Want{})
			if !r.Findings.Blocking() {
				t.Fatal("want a job that must not be built")
			}
			papers := []draw.Paper{draw.A4(), draw.Letter()}
			if testing.Short() {
				papers = papers[:1]
			}
			for _, p := range papers {
				if _, err := bundle.Make(r, bundle.Want{Paper: p}); err != nil {
					t.Error(err)
				}
			}
		})
	}
}

func TestNothingToBuild(t *testing.T) {
	r := plantest.Result(t, "one-case")
	r.Assembly.Parts, r.Plan.Sheets, r.Marks, r.Sticks = nil, nil, nil, nil
	files := pack(t, r)
	if files["packet.pdf"] == nil || files["labels.pdf"] != nil {
		t.Error("want the plan set and no labels")
	}
}
