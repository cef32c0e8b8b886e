package job_test

import (
	"slices"
	"testing"

	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/source"
	"stowright/internal/source/yaml"
)

func in(t *testing.T, s string) length.Length {
	t.Helper()
	l, err := length.Parse(s, length.Inches)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func caseOf(t *testing.T, c job.Checked, id string) job.CheckedCase {
	t.Helper()
	i := slices.IndexFunc(c.Cases, func(x job.CheckedCase) bool { return x.ID == id })
	if i < 0 {
		t.Fatalf("there is no case %s", id)
	}
	return c.Cases[i]
}

const family = `
stowright: 1
unit: in
sizes: {step: STEP}
families:
  f: {width-step: step, depth: 18 1/2, top-line: 34 1/2, wall-depth: 12, wall-height: 3 x step, sizes: {rack: 3}}
patterns:
  base: {family: f, steps: 10, inside: {shelves: {count: 2}, doors: {lock: yes}}}
  other: {from: base, depth: depth - rack, inside: {drawers: {count: 4}}}
cases:
  a: {pattern: base}
  b: {pattern: base, width: 20, board: maple-three-quarter}
  c: {pattern: other, steps: 4}
  d: {pattern: other, sizes: {rack: 4}}
  w: {pattern: base, level: wall}
`

// Changing one number of a family changes all its members, and an override is exact.
func TestFamily(t *testing.T) {
	for step, want := range map[string][3]string{"3": {"30", "12", "9"}, "2 1/2": {"25", "10", "7 1/2"}} {
		c := good(t, "job.yaml", replaceOnce(family, "STEP", step))
		for id, w := range map[string]string{"a": want[0], "b": "20", "c": want[1], "d": want[0], "w": want[0]} {
			if got := *caseOf(t, c, id).Spec.Width; got != in(t, w) {
				t.Errorf("step %s: %s is %v wide, not %s", step, id, got, w)
			}
		}
		if got := *caseOf(t, c, "w").Spec.Height; got != in(t, want[2]) {
			t.Errorf("w is %v high", got)
		}
		for id, d := range map[string]string{"a": "18 1/2", "c": "15 1/2", "d": "14 1/2", "w": "12"} {
			if got := *caseOf(t, c, id).Spec.Depth; got != in(t, d) {
				t.Errorf("%s is %v deep, not %s", id, got, d)
			}
		}
	}
	c := good(t, "job.yaml", replaceOnce(family, "STEP", "3"))
	if k := caseOf(t, c, "c").Spec.Inside; k.Fitting.Kind != "drawers" || k.Doors == nil || !k.Doors.Lock {
		t.Errorf("drawers take the place of shelves, the doors stay: %+v", k)
	}
	if caseOf(t, c, "a").Family != "f" || len(c.Families) < 1 {
		t.Error("the family is lost")
	}
}

func replaceOnce(s, old, new string) string {
	for i := 0; i+len(old) <= len(s); i++ {
		if s[i:i+len(old)] == old {
			return s[:i] + new + s[i+len(old):]
		}
	}
	return s
}

// A mistake in a pattern is said once, at the pattern's line, however many cases derive from it.
func TestMistakeInPattern(t *testing.T) {
	_, mistakes := read(t, "job.yaml", "stowright: 1\nunit: in\npatterns:\n  p: {width: wide, height: 30, depth: 18}\ncases: {a: {pattern: p}, b: {pattern: p}}\n")
	if len(mistakes) != 1 || mistakes[0].Span.Line() != 4 {
		t.Error(said(mistakes))
	}
}

func TestLibrary(t *testing.T) {
	lib, mistakes := yaml.Read("lib.yaml", []byte("boards: {mine: {material: mdf, measures: 16 mm, length: 2 m, width: 1 m}}\npatterns: {p: {width: 600 mm, height: 700 mm, depth: 400 mm}}\n"))
	if len(mistakes) > 0 {
		t.Fatal(mistakes)
	}
	c, bad := read(t, "job.yaml", "stowright: 1\nunit: in\nlibrary: [lib.yaml]\npractice: {case-board: mine}\ncases: {a: {pattern: p}}\n", lib)
	if len(bad) > 0 {
		t.Fatal(said(bad))
	}
	if b, ok := c.Catalogue.Board("mine"); !ok || b.Thickness != 16*length.MM || caseOf(t, c, "a").Spec.Board != "mine" {
		t.Error("the library's board is not used")
	}
	lib, _ = yaml.Read("lib.yaml", []byte("walls: {w: {length: 1 m}}\n"))
	_, bad = read(t, "job.yaml", "stowright: 1\nunit: in\n", lib)
	if len(bad) != 1 || bad[0].Span.File.Name != "lib.yaml" {
		t.Error(said(bad))
	}
}

// A new case between two that stand takes the smallest measured gap less the clearance
// (issue: common practice, no source).
func TestGap(t *testing.T) {
	const text = `
stowright: 1
unit: mm
walls: {w: {length: 5200}}
standing: {l: {from: 0, to: 1524, depth: 515, top: 868}, r: {from: 2441, to: 3203, depth: 515, top: 868}}
cases: {new: {in-gap: {left: l, right: r, widths: [917, 912, 910]CLEAR}, height: 790, depth: 515}}
`
	c := good(t, "job.yaml", replaceOnce(text, "CLEAR", ", clearance: 5"))
	if got := *caseOf(t, c, "new").Spec.Width; got != 905*length.MM {
		t.Error(got)
	}
	c = good(t, "job.yaml", replaceOnce(replaceOnce(text, "CLEAR", ""), ", height: 790, depth: 515", ""))
	if s := caseOf(t, c, "new").Spec; *s.Height != 868*length.MM || *s.Depth != 515*length.MM {
		t.Error("height and depth are not the neighbours':", *s.Height, *s.Depth)
	}
	c = good(t, "job.yaml", replaceOnce(text, "CLEAR", ""))
	if got := *caseOf(t, c, "new").Spec.Width; got != 910*length.MM-c.Practice.Clearance {
		t.Error(got)
	}
}

// Equal sizes in inches and millimetres are equal.
func TestUnits(t *testing.T) {
	a := good(t, "a.yaml", "stowright: 1\nunit: in\npractice: {from: metric-shop}\ncases: {a: {width: 30, height: 34 1/2, depth: 18 1/2}}\n")
	b := good(t, "b.yaml", "stowright: 1\nunit: mm\npractice: {from: metric-shop}\ncases: {a: {width: 762, height: 876.3, depth: 469.9}}\n")
	x, y := a.Cases[0].Spec, b.Cases[0].Spec
	if *x.Width != *y.Width || *x.Height != *y.Height || *x.Depth != *y.Depth {
		t.Error("they differ")
	}
}

// Every shipped practice is complete, every shipped pattern reads, every shipped figure has a source.
func TestShippedIsWhole(t *testing.T) {
	tree := shipped(t)
	for _, e := range tree.Get("practices").Entries {
		c := good(t, e.Key, "stowright: 1\npractice: {from: "+e.Key+"}\n")
		p := c.Practice
		if p.Case == "" || p.Hinge == "" || p.Slide == "" || p.FrontGap == 0 || p.PinDia == 0 || len(p.Tools) == 0 || p.ShelfLoad == 0 || p.Lift == 0 || p.WallScrew == "" || p.Finish == "" {
			t.Errorf("%s is not complete: %+v", e.Key, p)
		}
		if !slices.ContainsFunc(p.Bits, func(b length.Length) bool { return b == p.PinDia }) {
			t.Errorf("%s: no bit for its shelf pins", e.Key)
		}
	}
	for _, unit := range []string{"inch", "metric"} {
		for _, e := range tree.Get("patterns").Entries {
			good(t, e.Key, "stowright: 1\nunit: mm\ncases: {x: {pattern: "+e.Key+", family: "+unit+"-bench, width: 700 mm}}\n")
			if text := e.Value.Get("about"); text == nil {
				t.Errorf("pattern %s says nothing about itself", e.Key)
			}
		}
	}
	for _, section := range []string{"boards", "sticks", "edgings", "hardware", "materials", "species", "containers"} {
		for _, e := range tree.Get(section).Entries {
			if s := e.Value.Get("source"); s == nil || s.Text == "" {
				t.Errorf("%s %s has no source", section, e.Key)
			}
			if e.Value.Get("price") != nil {
				t.Errorf("%s %s has a price: prices are a job's own", section, e.Key)
			}
		}
	}
}

// Dressed sizes of lumber: American Softwood Lumber Standard PS 20, dry: nominal less 1/4 in thickness
// for one-by, less 1/2 for two-by and for widths up to 6.
func TestLumberIsPS20(t *testing.T) {
	c := good(t, "x", "stowright: 1\nunit: in\n")
	for id, want := range map[string][2]string{
		"one-by-two": {"3/4", "1 1/2"}, "one-by-three": {"3/4", "2 1/2"}, "one-by-four": {"3/4", "3 1/2"},
		"two-by-two": {"1 1/2", "1 1/2"}, "two-by-four": {"1 1/2", "3 1/2"}, "two-by-six": {"1 1/2", "5 1/2"},
		"two-by-four-treated": {"1 1/2", "3 1/2"}, "two-by-six-treated": {"1 1/2", "5 1/2"},
	} {
		s, ok := c.Catalogue.Stick(id)
		if !ok || s.Thickness != in(t, want[0]) || s.Width != in(t, want[1]) {
			t.Errorf("%s: %v x %v", id, s.Thickness, s.Width)
		}
	}
}

// Thickness of panels: PS 1-19 performance categories (least and greatest, in) and EN 315 (t +
// (0.2 + 0.03 t), t - (0.4 + 0.03 t), mm) must hold what the shipped boards are said to measure.
func TestPanelThicknessIsInItsStandard(t *testing.T) {
	c := good(t, "x", "stowright: 1\nunit: in\n")
	ps1 := map[string][2]float64{"maple-three-quarter": {.688, .750}, "pine-three-quarter": {.688, .750}, "ply-half": {.438, .500}}
	for id, r := range ps1 {
		b, _ := c.Catalogue.Board(id)
		if m := float64(b.Thickness) / float64(length.Inch); m < r[0] || m > r[1] {
			t.Errorf("%s measures %v in, PS 1 allows %v", id, m, r)
		}
	}
	for _, id := range []string{"birch-6", "birch-9", "birch-12", "birch-15", "birch-18", "birch-21"} {
		b, _ := c.Catalogue.Board(id)
		m, n := float64(b.Thickness)/float64(length.MM), float64(b.Nominal)/float64(length.MM)
		if m > n+.2+.03*n || m < n-.4-.03*n {
			t.Errorf("%s measures %v mm, EN 315 allows %v to %v", id, m, n-.4-.03*n, n+.2+.03*n)
		}
	}
}

// The pair of moduli of birch plywood sums to 17 500 N/mm2 (Handbook of Finnish Plywood: every thickness).
func TestBirchModuliSum(t *testing.T) {
	c := good(t, "x", "stowright: 1\nunit: mm\n")
	n := 0
	for _, m := range c.Catalogue.Materials {
		if len(m.ID) > 6 && m.ID[:6] == "birch-" {
			along, _ := m.ELong.Whole()
			across, _ := m.EAcross.Whole()
			if along+across != 17_500 {
				t.Errorf("%s: %d + %d", m.ID, along, across)
			}
			n++
		}
	}
	if n < 5 {
		t.Errorf("only %d birch plywoods", n)
	}
}

// Screw diameters: NDS 2018 Table L3.
func TestScrewsAreNDS(t *testing.T) {
	c := good(t, "x", "stowright: 1\nunit: in\n")
	want := map[int][3]string{6: {".138", ".113", ".262"}, 7: {".151", ".122", ".287"}, 8: {".164", ".131", ".312"}, 10: {".190", ".152", ".363"}}
	n := 0
	for _, h := range c.Catalogue.Hardware {
		w, ok := want[h.Gauge]
		if h.Kind != "screw" || !ok {
			continue
		}
		n++
		if h.Dia != in(t, "0"+w[0]) || h.Root != in(t, "0"+w[1]) || h.Head != in(t, "0"+w[2]) {
			t.Errorf("%s: %v %v %v", h.ID, h.Dia, h.Root, h.Head)
		}
	}
	if n < 15 {
		t.Errorf("only %d screws by number", n)
	}
}

// Libraries are named before anything is checked.
func TestLibraries(t *testing.T) {
	n, _ := yaml.Read("job.yaml", []byte("library: [a.yaml, b.yaml, 3]\n"))
	if got := job.Libraries(n); len(got) != 2 || got[0].Text != "a.yaml" || got[1].Text != "b.yaml" || got[1].Span.Column() != 19 {
		t.Error(got)
	}
	if job.Libraries(nil) != nil || job.Libraries(&source.Node{}) != nil {
		t.Error("something out of nothing")
	}
}
