package joinery_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/carcass/carcasstest"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/stock"
)

type L = length.Length

const (
	mm = length.MM
	in = length.Inch
)

func shop(e fitting.Env) joinery.Shop {
	return joinery.Shop{Practice: e.Practice, Catalogue: e.Catalogue, Owner: "c"}
}

// corner gives an upright side and a level bottom whose left end meets it, of boards so thick, the
// joint so long from front to back.
func corner(t, deep, wide L) (side, bottom part.Part, contact geom.Box) {
	side = part.New("side", part.Side, "side", "m18", geom.B(0, 0, 0, t, deep, 700*mm), geom.Up, geom.Back)
	bottom = part.New("bottom", part.Bottom, "bottom", "m18", geom.B(t, 0, 100*mm, t+wide, deep, 100*mm+t), geom.Right, geom.Back)
	return side, bottom, geom.B(t, 0, 100*mm, t, deep, 100*mm+t)
}

func between(a, b *part.Part, c geom.Box) joinery.Between {
	return joinery.Between{A: a, B: b, To: geom.Left, Contact: c, Pockets: []geom.Dir{geom.Down}, Heads: true, Butt: true}
}

func ops(p part.Part, k part.OpKind) (list []part.Op) {
	for _, o := range p.Ops {
		if o.Kind == k {
			list = append(list, o)
		}
	}
	return list
}

// Pocket screws, panel to panel: first 2 in (50 mm) from each edge, then 6 in (150 mm) on centre,
// at 15 degrees (manuals of jig makers); n = 1 + ceil((len-100)/150), at least two (common
// practice, no source): 5 for 24 in, 3 for 12 in.
func TestPocketScrews(t *testing.T) {
	s := shop(carcasstest.Inch())
	for _, c := range []struct {
		deep L
		n    int
	}{{24 * in, 5}, {12 * in, 3}, {560 * mm, 5}} {
		a, b, at := corner(18*mm, c.deep, 500*mm)
		r := s.Make("pocket-screw", between(&a, &b, at))
		list := ops(b, part.Pocket)
		if r.Joint.Kind != part.PocketScrew || len(list) != c.n || r.Joint.Count != c.n || r.Change != nil {
			t.Errorf("%v: %s, %d pockets, %d screws, want %d", c.deep, r.Joint.Kind, len(list), r.Joint.Count, c.n)
			continue
		}
		if first := list[0].Y; first != 2*in || list[c.n-1].Y != c.deep-2*in {
			t.Errorf("%v: first %v, last %v", c.deep, first, list[c.n-1].Y)
		}
		for i, o := range list {
			if o.Angle != 15 || o.Towards != part.Start || o.Face != part.Lower {
				t.Errorf("pocket %+v", o)
			}
			if i > 0 && o.Y-list[i-1].Y > 6*in {
				t.Errorf("pockets %v apart", o.Y-list[i-1].Y)
			}
		}
		if len(a.Ops) != 0 {
			t.Errorf("%d workings where pocket screws need none", len(a.Ops))
		}
	}
}

// Lengths of pocket screws by board, as jig makers publish: 1/2 in takes 1 in, 3/4 in takes
// 1 1/4 in, 1 1/2 in takes 2 1/2 in; the thinner of two boards counts (common practice, no source).
func TestPocketLength(t *testing.T) {
	for _, c := range []struct{ board, screw L }{{12 * mm, 25 * mm}, {18 * mm, 32 * mm}, {183 * mm / 10, 32 * mm}, {22 * mm, 38 * mm}, {25 * mm, 38 * mm}, {28 * mm, 45 * mm}, {32 * mm, 50 * mm}, {38 * mm, 63 * mm}} {
		if got := joinery.PocketLength(c.board); got != c.screw {
			t.Errorf("%v: %v, want %v", c.board, got, c.screw)
		}
	}
}

// Connecting screws of 7 x 50: 5 mm in the edge to 52 mm in all, 7 mm through the face; 37 to 50 mm
// from the ends, no further apart than 128 to 192; at least three over 300 mm (common practice,
// no source).
func TestConnectingScrews(t *testing.T) {
	s := shop(carcasstest.Metric())
	a, b, at := corner(18*mm, 560*mm, 500*mm)
	r := s.Make("connecting-screw", between(&a, &b, at))
	face, edge := ops(a, part.Hole), ops(b, part.Hole)
	if r.Joint.Kind != part.ConnectingScrew || r.Joint.Fastener != "connect-50" || len(face) < 4 || len(face) != len(edge) {
		t.Fatalf("%+v, %d and %d holes", r.Joint, len(face), len(edge))
	}
	for i, o := range face {
		if o.Dia != 7*mm || o.Depth != 18*mm {
			t.Errorf("through the face: %v, %v deep", o.Dia, o.Depth)
		}
		if e := edge[i]; e.Dia != 5*mm || o.Depth+e.Depth < 50*mm || o.Depth+e.Depth > 53*mm || e.Y != 9*mm {
			t.Errorf("in the edge: %v, %v deep, %v from its face", e.Dia, e.Depth, e.Y)
		}
	}
	if first := face[0].Y; first < 37*mm || first > 50*mm {
		t.Errorf("the first is %v from the front", first)
	}
}

// Dowels of 8 x 30: a third in the face, two thirds in the edge, 2 mm of glue room; on a pitch of
// 32 mm; their centre at half the board, so that no less than their radius is left beside them
// (common practice, no source).
func TestDowels(t *testing.T) {
	s := shop(carcasstest.Metric())
	a, b, at := corner(18*mm, 560*mm, 500*mm)
	r := s.Make("dowel", between(&a, &b, at))
	face, edge := ops(a, part.Hole), ops(b, part.Hole)
	if r.Joint.Kind != part.Dowel || !r.Joint.Glue || len(face) < 4 || len(face) != len(edge) {
		t.Fatalf("%+v, %d and %d holes", r.Joint, len(face), len(edge))
	}
	for i, o := range face {
		e := edge[i]
		if o.Depth < 10*mm || o.Depth > 12*mm || e.Depth < 20*mm || e.Depth > 22*mm || o.Depth+e.Depth != 32*mm {
			t.Errorf("%v in the face, %v in the edge", o.Depth, e.Depth)
		}
		if o.Dia != 8*mm || e.Y-4*mm < 4*mm || 18*mm-e.Y-4*mm < 4*mm {
			t.Errorf("%v across at %v in the edge", o.Dia, e.Y)
		}
		if i > 0 && (o.Y-face[i-1].Y)%(16*mm) != 0 {
			t.Errorf("dowels %v apart", o.Y-face[i-1].Y)
		}
	}
}

// A dado is as deep as the practice says and no deeper than a third of the board, as wide as the
// measured board and 0.1 to 0.2 mm more (common practice, no source).
func TestDado(t *testing.T) {
	s := shop(carcasstest.Metric())
	tk := 17700 * mm / 1000
	d := s.Depth("dado", tk)
	if d > tk/3 || d < 5*mm {
		t.Fatalf("%v deep in %v", d, tk)
	}
	a, b, at := corner(tk, 500*mm, 400*mm)
	b = part.New("bottom", part.Bottom, "bottom", "m18", geom.B(tk-d, 0, 100*mm, tk+400*mm, 500*mm, 100*mm+tk), geom.Right, geom.Back)
	at.Min.X = tk - d
	j := between(&a, &b, at)
	j.Butt = false
	if r := s.Make("dado", j); r.Joint.Kind != part.Dado || !r.Joint.Glue {
		t.Fatalf("%+v", r.Joint)
	}
	g := ops(a, part.Groove)
	if len(g) != 1 || g[0].Depth != d || min(g[0].L, g[0].W)-tk < 100*mm/1000 || min(g[0].L, g[0].W)-tk > 200*mm/1000 {
		t.Errorf("groove %+v for a board of %v", g, tk)
	}
}

// Wood screws of 4 x 50: 3 mm in the edge, 4.2 to 4.5 mm through the face, 50 mm from the ends
// (common practice, no source).
func TestWoodScrews(t *testing.T) {
	s := shop(carcasstest.OneSaw())
	s.Practice.JointFirst, s.Practice.JointPitch = 50*mm, 150*mm
	a, b, at := corner(18*mm, 560*mm, 500*mm)
	s.Make("wood-screw", between(&a, &b, at))
	face, edge := ops(a, part.Hole), ops(b, part.Hole)
	if len(face) != 5 || face[0].Y != 50*mm || face[0].Dia < 42*mm/10 || face[0].Dia > 45*mm/10 || edge[0].Dia != 3*mm {
		t.Errorf("%+v and %+v", face, edge)
	}
}

// What the shop cannot make is made otherwise, and said once for all joints of a kind.
func TestAnotherJoint(t *testing.T) {
	s := shop(carcasstest.OneSaw())
	var told joinery.Told
	for range 3 {
		a, b, at := corner(18*mm, 400*mm, 400*mm)
		r := s.Make("pocket-screw", between(&a, &b, at))
		if r.Joint.Kind == part.PocketScrew || r.Change == nil {
			t.Errorf("a shop without a jig makes a %s", r.Joint.Kind)
		}
		told.Add(r)
	}
	list := told.List("case/c")
	if len(list) != 1 || list[0].Code != joinery.JointElsewhere || !strings.Contains(list[0].Text, "no pocket jig") {
		t.Errorf("%v", list)
	}
	// An edge of 12 mm takes no 8 mm dowel: less than its radius would be left.
	a, b, at := corner(12*mm, 400*mm, 400*mm)
	if r := shop(carcasstest.Metric()).Make("dowel", between(&a, &b, at)); r.Joint.Kind == part.Dowel {
		t.Error("an 8 mm dowel in the edge of 12 mm")
	}
}

// A screw through one board into another stays in it: at most the sum less 4 mm (common practice,
// no source), and both are bored.
func TestScrewed(t *testing.T) {
	s := shop(carcasstest.Metric())
	under := part.New("rail", part.Rail, "rail", "m18", geom.B(0, 0, 0, 600*mm, 40*mm, 40*mm), geom.Right, geom.Back)
	over := part.New("shelf", part.Shelf, "shelf", "m18", geom.B(0, 0, 40*mm, 600*mm, 40*mm, 58*mm), geom.Right, geom.Back)
	c := geom.B(0, 0, 40*mm, 600*mm, 40*mm, 40*mm)
	r := s.Screwed(joinery.Flat{First: &over, Second: &under, To: geom.Down, Contact: c, At: joinery.Along(c, 4, 60*mm), Kind: part.WoodScrew})
	h, ok := s.Catalogue.Item(r.Joint.Fastener)
	if !ok || h.Length <= 18*mm || h.Length > 54*mm || r.Joint.Count != 4 || len(over.Ops) != 4 || len(under.Ops) != 4 {
		t.Fatalf("%+v of %v, %d and %d holes", r.Joint, h.Length, len(over.Ops), len(under.Ops))
	}
	if over.Ops[0].Depth != 18*mm || under.Ops[0].Depth >= 40*mm || under.Ops[0].Dia >= over.Ops[0].Dia {
		t.Errorf("%+v and %+v", over.Ops[0], under.Ops[0])
	}
	// Nothing is long enough for 90 mm: it is glued, and said.
	tall := part.New("block", part.Spacer, "block", "m18", geom.B(0, 0, 40*mm, 600*mm, 40*mm, 130*mm), geom.Right, geom.Back)
	r = s.Screwed(joinery.Flat{First: &tall, Second: &under, To: geom.Down, Contact: c, At: joinery.Along(c, 2, 60*mm), Kind: part.WoodScrew})
	if r.Joint.Kind != part.GlueOnly || r.Joint.Fastener != "" || len(r.Findings) != 1 || len(r.Items) != 0 {
		t.Errorf("%+v %v", r.Joint, r.Findings)
	}
}

// A rail's end takes as many dowels as are asked for, 32 mm apart (the pitch of drilling machines,
// common practice, no source) and half of that from its edges, or as many as there is room for; each
// is bored in both boards and bought.
func TestMoreDowels(t *testing.T) {
	for _, c := range []struct {
		high        L
		least, want int
	}{{96 * mm, 0, 2}, {96 * mm, 3, 3}, {96 * mm, 5, 3}, {160 * mm, 5, 5}, {150 * mm, 5, 4}} {
		a, b, at := corner(18*mm, c.high, 700*mm)
		j := between(&a, &b, at)
		j.Least = c.least
		r := shop(carcasstest.Metric()).Make("dowel", j)
		holes := ops(b, part.Hole)
		if r.Joint.Count != c.want || len(holes) != c.want || len(ops(a, part.Hole)) != c.want || len(r.Items) != 1 || r.Items[0].Count != c.want {
			t.Errorf("%v and %d asked: %+v %+v, %d holes", c.high, c.least, r.Joint, r.Items, len(holes))
		}
		var along []L
		for _, h := range holes {
			along = append(along, h.X)
		}
		slices.Sort(along)
		for i, x := range along {
			if x < 16*mm || x > c.high-16*mm || i > 0 && x-along[i-1] < 32*mm {
				t.Errorf("%v and %d asked: dowels at %v", c.high, c.least, along)
			}
		}
		if n := joinery.Room(part.Dowel, joinery.LengthFor(part.Dowel, c.want)); n != c.want {
			t.Errorf("room for %d in the length for %d", n, c.want)
		}
	}
	for n := 1; n < 9; n++ {
		if got := joinery.Room(part.WoodScrew, joinery.LengthFor(part.WoodScrew, n)); got != n {
			t.Errorf("room for %d screws in the length for %d", got, n)
		}
	}
}

// Any joint of any kind leaves two sound boards: holes in their faces, none in another, the joint
// touching; from both ends the same.
func TestAnyJoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		env := []fitting.Env{carcasstest.Metric(), carcasstest.Inch(), carcasstest.OneSaw()}[rapid.IntRange(0, 2).Draw(t, "shop")]
		kind := rapid.SampledFrom([]string{"pocket-screw", "connecting-screw", "dowel", "dado", "wood-screw"}).Draw(t, "kind")
		size := func(n string, lo, hi L) L { return L(rapid.Int64Range(int64(lo/mm), int64(hi/mm)).Draw(t, n)) * mm }
		a, b, at := corner(size("thick", 9*mm, 25*mm), size("deep", 20*mm, 900*mm), size("wide", 40*mm, 900*mm))
		j := between(&a, &b, at)
		j.Heads = rapid.Bool().Draw(t, "heads")
		j.Least = rapid.IntRange(0, 8).Draw(t, "least")
		if rapid.Bool().Draw(t, "no pockets") {
			j.Pockets = nil
		}
		r := shop(env).Make(kind, j)
		if r.Joint.Count <= 0 || r.Joint.Fastener == "" {
			t.Errorf("%+v holds nothing", r.Joint)
		}
		for _, s := range parttest.Check(part.Assembly{Parts: []part.Part{a, b}, Joints: []part.Joint{r.Joint}}, parttest.Options{}) {
			t.Error(s)
		}
		// A butt joint is never a dado, whatever is wanted.
		if kind != "dado" && string(r.Joint.Kind) != strings.ReplaceAll(kind, "-", " ") && r.Change == nil {
			t.Errorf("%s became %s in silence", kind, r.Joint.Kind)
		}
	})
}

// The narrowest joints: two fasteners stand beside each other with wood between, or there is one.
func TestNarrowJointsDoNotMeet(t *testing.T) {
	for wide := 20 * mm; wide < 60*mm; wide += mm / 2 {
		for _, kind := range []string{"pocket-screw", "connecting-screw", "dowel", "wood-screw"} {
			a, b, at := corner(15*mm, wide, 60*mm)
			j := between(&a, &b, at)
			j.Heads = true
			r := shop(carcasstest.Metric()).Make(kind, j)
			for _, s := range parttest.Check(part.Assembly{Parts: []part.Part{a, b}, Joints: []part.Joint{r.Joint}}, parttest.Options{}) {
				t.Errorf("%s %s wide: %s", kind, wide, s)
			}
		}
	}
}

// Dowels go the same from both ends, on half steps of 32 mm.
func TestDowelPlacesAreSymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		long := L(rapid.Int64Range(30, 1500).Draw(t, "long")) * mm
		at := joinery.DowelPlaces(long, 37*mm, L(rapid.SampledFrom([]int64{64, 96, 128}).Draw(t, "pitch"))*mm)
		if !slices.IsSorted(at) || at[0] < 8*mm || at[len(at)-1] > long-8*mm {
			t.Fatalf("%v in %v", at, long)
		}
		for i := range at {
			if a, b := at[i]-at[0], at[len(at)-1]-at[len(at)-1-i]; a != b {
				t.Errorf("%v: %v from one end, %v from the other", at, a, b)
			}
			if i > 0 && at[i]-at[i-1] > 144*mm {
				t.Errorf("%v apart in %v", at[i]-at[i-1], at)
			}
		}
	})
}

// Screws into both ends of a short board do not meet in it: they are shorter, or another joint is made.
func TestScrewsFromBothEndsDoNotMeet(t *testing.T) {
	for _, kind := range []string{"connecting-screw", "wood-screw"} {
		used := map[part.JointKind]bool{}
		for _, short := range []bool{false, true} {
			e := carcasstest.Metric()
			if short {
				c := *findScrew(e.Catalogue.Hardware, "connecting")
				c.ID, c.Length = "connect-40", 40*mm
				e.Catalogue.Hardware = append(e.Catalogue.Hardware, c)
			}
			for wide := 60 * mm; wide < 110*mm; wide += mm {
				a, b, at := corner(17700*mm/1000, 400*mm, wide)
				r := shop(e).Make(kind, between(&a, &b, at))
				used[r.Joint.Kind] = true
				if k := r.Joint.Kind; k != part.ConnectingScrew && k != part.WoodScrew {
					continue
				}
				for _, h := range e.Catalogue.Hardware {
					if h.ID == r.Joint.Fastener && 2*(h.Length-17700*mm/1000) >= wide {
						t.Errorf("%s in a board of %s: two of %s meet", kind, wide, h.ID)
					}
				}
			}
		}
		if !used[part.JointKind(strings.ReplaceAll(kind, "-", " "))] {
			t.Errorf("%s is never made: %v", kind, used)
		}
	}
}

func findScrew(list []stock.Hardware, use string) *stock.Hardware {
	for i := range list {
		if list[i].Use == use {
			return &list[i]
		}
	}
	return nil
}

// A screw that is chosen goes some way into the last board, and stays in it.
func TestChosenScrewsBite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cat := stock.Catalogue{Hardware: []stock.Hardware{}}
		for _, l := range rapid.SliceOf(rapid.Int64Range(10, 80)).Draw(t, "lengths") {
			cat.Hardware = append(cat.Hardware, stock.Hardware{ID: fmt.Sprint(l), Kind: "screw", Use: "wood", Length: length.Length(l) * length.MM})
		}
		first, second := length.Length(rapid.Int64Range(3, 40).Draw(t, "first"))*length.MM, length.Length(rapid.Int64Range(3, 40).Draw(t, "second"))*length.MM
		h, ok := joinery.Shop{Catalogue: cat}.ScrewFor("wood", first, second)
		if ok && (h.Length < first+6*length.MM || h.Length > first+second-4*length.MM) {
			t.Fatalf("%v through %v into %v", h.Length, first, second)
		}
	})
}
