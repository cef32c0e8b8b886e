package counter_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"stowright/internal/carcass/carcasstest"
	"stowright/internal/counter"
	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/stock"
)

const (
	mm = length.MM
	in = length.Inch
)

type L = length.Length

func shop(inch bool) fitting.Env {
	e := carcasstest.Metric()
	if inch {
		e = carcasstest.Inch()
	}
	e.Catalogue.Sticks = []stock.Stick{
		{ID: "edge", Species: "sugar-maple", Thickness: 3 * in / 4, Width: 3 * in / 2, Length: 96 * in},
		// PS 20-20 table 3: a 2x4 is dressed to 1-1/2 by 3-1/2 in.
		{ID: "2x4", Species: "spf", Thickness: 3 * in / 2, Width: 7 * in / 2, Length: 96 * in},
	}
	return e
}

func draw(t *rapid.T) (fitting.Env, counter.Spec) {
	e := shop(rapid.Bool().Draw(t, "inch"))
	board := "m18"
	if e.Practice.Unit == "in" {
		board = "i34"
	}
	size := func(n string, lo, hi L) L { return L(rapid.Int64Range(int64(lo/mm), int64(hi/mm)).Draw(t, n)) * mm }
	s := counter.Spec{Layers: []string{board}}
	if rapid.Bool().Draw(t, "two") {
		s.Layers = []string{board, board}
	} else if rapid.Bool().Draw(t, "blocked") {
		s.Blocking = &counter.Blocking{}
	}
	thick := counter.Thickness(e.Catalogue, s.Layers, s.Blocking)
	w, d := size("length", 700*mm, 5000*mm), size("depth", 350*mm, 900*mm)
	s.Box = geom.B(0, -d, 870*mm, w, 0, 870*mm+thick)
	if rapid.Bool().Draw(t, "edged") {
		s.Edge = &counter.Edge{Stick: "edge", Butt: rapid.Bool().Draw(t, "butt"), Sides: rapid.SampledFrom([][]geom.Dir{
			{geom.Front}, {geom.Front, geom.Left}, {geom.Front, geom.Left, geom.Right}, {geom.Front, geom.Left, geom.Right, geom.Back}}).Draw(t, "sides")}
	}
	s.Front = s.Box.Min.Y + 25*mm
	if rapid.Bool().Draw(t, "free") {
		s.Free = &counter.Free{Legs: rapid.SampledFrom([]string{"2x4", board}).Draw(t, "legs"), Brace: rapid.SampledFrom([]string{"panel", "rails", "shelf"}).Draw(t, "brace"), Feet: rapid.SampledFrom([]string{"", "foot-100"}).Draw(t, "feet")}
	} else {
		s.Under = []counter.Under{{ID: "a", From: 0, To: w / 3, Side: 18 * mm}, {ID: "b", From: 2 * w / 3, To: w, Side: 18 * mm}}
		s.Knees = []counter.Knee{{From: w / 3, To: 2 * w / 3}}
		s.Rails = &counter.Rails{Stick: rapid.SampledFrom([]string{"", "edge"}).Draw(t, "rails")}
	}
	return e, s
}

func TestCountersKeepThePromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, s := draw(t)
		a, found := counter.Build(e, "top", s)
		b, again := counter.Build(e, "top", s)
		if d := cmp.Diff(a, b) + cmp.Diff(found, again); d != "" {
			t.Fatal("built twice, not equal:", d)
		}
		for _, bad := range parttest.Check(a, parttest.Options{}) {
			t.Error(bad)
		}
		for _, f := range found {
			if f.Code == "" || f.At == "" || f.Text == "" {
				t.Errorf("%+v", f)
			}
		}
		// No layer is longer or wider than its sheet; together they are the top (arithmetic).
		var run L
		for _, p := range a.Parts {
			bd, _ := e.Catalogue.Board(p.Stock)
			if p.Role == part.CounterLayer {
				run += p.Size[0]
				if p.Size[0] > bd.Length {
					t.Errorf("%s is %v long, the sheet %v", p.Local, p.Size[0], bd.Length)
				}
			}
		}
		edges := L(0)
		if s.Edge != nil {
			for _, d := range s.Edge.Sides {
				if d.Axis() == 0 {
					edges += 3 * in / 4
				}
			}
		}
		if want := L(len(s.Layers)) * (s.Box.Max.X - edges); run != want {
			t.Errorf("layers are %v long in all, want %v", run, want)
		}
	})
}

// Cases of 900 take every joint that sheets of 2500 leave, and none is left for the second layer: each of its
// joints lies under a whole first layer, which is a note. In a top of one layer that joint would be a warning.
func TestAJointUnderAWholeLayer(t *testing.T) {
	for layers, want := range map[int]finding.Severity{1: finding.Warning, 2: finding.Note} {
		s := counter.Spec{Box: geom.B(0, -600*mm, 0, 3600*mm, 0, L(layers)*17700*mm/1000), Under: []counter.Under{{ID: "c", From: 0, To: 1800 * mm, Side: 18 * mm}, {ID: "d", From: 1800 * mm, To: 3600 * mm, Side: 18 * mm}}}
		if layers == 1 { // one wide case: no side near the joint
			s.Under = []counter.Under{{ID: "c", From: 0, To: 3600 * mm, Side: 18 * mm}}
		}
		for range layers {
			s.Layers = append(s.Layers, "m18")
		}
		_, found := counter.Build(shop(false), "top", s)
		l := found.With(counter.JointLoose)
		if len(l) == 0 {
			t.Errorf("%d layers: no joint is told: %v", layers, found)
		}
		for _, f := range l {
			if f.Severity != want || (f.Severity == finding.Note) != strings.Contains(f.Text, "runs on there") {
				t.Errorf("%d layers: %s: %s", layers, f.Severity, f.Text)
			}
		}
	}
}

func TestJointsOfTwoLayersAreStaggeredAndCarried(t *testing.T) {
	e := shop(false)
	s := counter.Spec{Layers: []string{"m18", "m18"}, Box: geom.B(0, -600*mm, 0, 4800*mm, 0, 2*17700*mm/1000)}
	for x := L(0); x < 4800*mm; x += 600 * mm {
		s.Under = append(s.Under, counter.Under{ID: "c", From: x, To: x + 600*mm, Side: 18 * mm})
	}
	a, found := counter.Build(e, "top", s)
	if n := len(found.With(counter.JointLoose)); n > 0 {
		t.Errorf("%d joints not carried: %v", n, found)
	}
	at := map[string][]L{}
	for _, j := range a.Joints {
		if j.Kind == part.GlueOnly {
			at[j.A[:7]] = append(at[j.A[:7]], j.Contact.Min.X)
		}
	}
	if len(at["layer-1"]) == 0 || len(at["layer-2"]) == 0 {
		t.Fatalf("a top of 4800 mm from sheets of 2500 mm has joints in both layers, got %v", at)
	}
	for _, x := range at["layer-1"] {
		for _, y := range at["layer-2"] {
			if (x - y).Abs() < 300*mm {
				t.Errorf("joints at %v and %v are one over the other", x, y)
			}
		}
	}
}

func TestABenchWithoutBraceRacks(t *testing.T) {
	e := shop(true)
	s := counter.Spec{Layers: []string{"i34"}, Box: geom.B(0, -24*in, 35*in, 48*in, 0, 35*in+705*in/1000), Free: &counter.Free{Legs: "2x4", Brace: "none"}}
	if _, f := counter.Build(e, "b", s); !f.Blocking() {
		t.Error("a bench that nothing braces is not an error")
	}
}

// Edging longer than its stick comes in equal pieces: 120 in from sticks of 96 are two of 60, mitred
// at the outer ends alone (arithmetic).
func TestEdgingLongerThanAStick(t *testing.T) {
	a, _ := counter.Build(shop(true), "top", counter.Spec{Layers: []string{"i34"}, Box: geom.B(0, -24*in, 36*in, 120*in, 0, 36*in+705*in/1000),
		Edge: &counter.Edge{Stick: "edge", Sides: []geom.Dir{geom.Front, geom.Left, geom.Right}}})
	front, mitres := 0, 0
	for _, p := range a.Parts {
		if p.Role != part.CounterEdge || p.Size[0] < 30*in {
			continue
		}
		front++
		if p.Size[0] != 60*in {
			t.Errorf("%s is %s long, want 60 in", p.Local, p.Size[0].Exact(0))
		}
		for _, o := range p.Ops {
			x := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)).X
			if o.Kind == part.Bevel {
				mitres++
				if x != 0 && x != 120*in {
					t.Errorf("%s is mitred at %s", p.Local, x.Exact(0))
				}
			}
		}
	}
	if front != 2 || mitres != 2 {
		t.Errorf("%d pieces with %d mitres, want 2 and 2", front, mitres)
	}
}

// A joint of a single layer over a knee space hangs on glue alone: it must not be built so. A second layer under it, or
// rails with a block, carry it.
func TestAJointOverAGapMustBeCarried(t *testing.T) {
	e := shop(false)
	for _, c := range []struct {
		name   string
		layers []string
		rails  bool
		want   int // findings that forbid it
	}{{"one layer", []string{"m18"}, false, 1}, {"two layers", []string{"m18", "m18"}, false, 0}, {"rails", []string{"m18"}, true, 0}} {
		s := counter.Spec{Layers: c.layers, Box: geom.B(0, -600*mm, 0, 4200*mm, 0, L(len(c.layers))*17700*mm/1000),
			Under: []counter.Under{{ID: "a", From: 0, To: 600 * mm, Side: 18 * mm}, {ID: "b", From: 3600 * mm, To: 4200 * mm, Side: 18 * mm}},
			Knees: []counter.Knee{{From: 600 * mm, To: 3600 * mm}}}
		if c.rails {
			s.Rails = &counter.Rails{Stick: "edge"}
		}
		_, found := counter.Build(e, "top", s)
		n := 0
		for _, f := range found.With(counter.JointLoose) {
			if f.Severity == finding.Error {
				n++
			}
		}
		if n != c.want {
			t.Errorf("%s: %v", c.name, found)
		}
	}
}

// Strips of blocking never lie on each other, and a counter that has some lies on them, however wide and near
// they are stated.
func TestBlockingHasRoomOrIsSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := shop(false)
		size := func(n string, lo, hi L) L { return L(rapid.Int64Range(int64(lo/mm), int64(hi/mm)).Draw(t, n)) * mm }
		s := counter.Spec{Layers: []string{"m18"}, Blocking: &counter.Blocking{Width: size("width", 1*mm, 700*mm), Every: size("every", 1*mm, 900*mm)}}
		thick := counter.Thickness(e.Catalogue, s.Layers, s.Blocking)
		w := size("length", 20*mm, 2000*mm)
		s.Box = geom.B(0, -size("depth", 20*mm, 900*mm), 870*mm, w, 0, 870*mm+thick)
		s.Front = s.Box.Min.Y
		s.Under = []counter.Under{{ID: "a", From: 0, To: w, Side: 18 * mm}}
		a, found := counter.Build(e, "top", s)
		if len(a.Parts) > 1000 {
			t.Fatal(len(a.Parts), "parts")
		}
		strips := 0
		for i, p := range a.Parts {
			for _, q := range a.Parts[i+1:] {
				if p.Box().Meets(q.Box()) {
					t.Fatalf("%s %v lies in %s %v", p.Local, p.Box(), q.Local, q.Box())
				}
			}
			if p.Role == part.Blocking {
				strips++
			}
		}
		said := found.With(counter.NoBlocking)
		if strips == 0 && (len(said) == 0 || said[0].Severity != finding.Error || len(a.Spans) > 0) {
			t.Fatalf("no blocking, and %v is said; %d spans", found, len(a.Spans))
		}
	})
}

// A rail over a knee space at the end of a run is screwed to no more than there is: each of its screws goes into a
// case, has a pocket, and is bought; the end where nothing stands is said.
func TestRailsEndAtCases(t *testing.T) {
	e := shop(true)
	s := counter.Spec{Layers: []string{"i34", "i34"}, Rails: &counter.Rails{}, Under: []counter.Under{{ID: "a", From: 0, To: 30 * in, Side: 18 * mm}}, Knees: []counter.Knee{{From: 30 * in, To: 57 * in}}}
	s.Box = geom.B(0, -25*in, 870*mm, 57*in, 0, 870*mm+counter.Thickness(e.Catalogue, s.Layers, nil))
	s.Front = s.Box.Min.Y + in
	a, found := counter.Build(e, "top", s)
	if n := len(found.With(counter.NoBolt)); n != 2 {
		t.Errorf("the front and the rear rail end at nothing; %d are said: %v", n, found)
	}
	pockets, fixed, bought := 0, 0, 0
	for _, p := range a.Parts {
		for _, o := range p.Ops {
			if o.Kind == part.Pocket {
				pockets++
			}
		}
	}
	for _, f := range a.Fixings {
		if f.Row == "counter" {
			continue
		}
		fixed++
		if f.Stud != "a" || f.At.X != 30*in {
			t.Errorf("%+v goes into nothing", f)
		}
	}
	for _, h := range a.Hardware {
		if strings.HasPrefix(h.For, "rails over") {
			bought += h.Count
		}
	}
	if fixed == 0 || pockets != fixed || bought != fixed {
		t.Errorf("%d pockets, %d screws bought, %d driven", pockets, bought, fixed)
	}
	for _, s := range a.Spans {
		if strings.HasPrefix(s.Part, "rail-") && len(s.Supports) != 1 {
			t.Errorf("%s has %v", s.Part, s.Supports)
		}
	}
}
