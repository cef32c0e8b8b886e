package cutlist_test

import (
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

const (
	mm = length.MM
	in = length.Inch
)

func shop(kind string, kerf length.Length) stock.Practice {
	return stock.Practice{Tools: []stock.Tool{{ID: "saw", Kind: kind, Kerf: &kerf}}}
}

func stick(mark string, l length.Length) part.Part {
	return part.Part{Mark: mark, Material: part.Stick, Stock: "2x4", Size: [3]length.Length{l, 89 * mm, 38 * mm}}
}

var yard = stock.Catalogue{Sticks: []stock.Stick{{ID: "2x4", Thickness: 38 * mm, Width: 89 * mm, Length: 96 * in}}}

// Arithmetic: squaring takes a kerf, each piece but the last another; 3 × 31 in + 3 × 1/8 in
// is within 96 in, four are not.
func TestSticksKeepEveryKerf(t *testing.T) {
	var parts []part.Part
	for _, m := range []string{"a", "b", "c", "d"} {
		parts = append(parts, stick(m, 31*in))
	}
	got, unfit := cutlist.Sticks(parts, yard, shop("table-saw", in/8))
	if len(unfit) != 0 || len(got) != 2 || len(got[0].Pieces) != 3 {
		t.Fatalf("got %+v, unfit %v; want 3 and 1", got, unfit)
	}
	if want := 96*in - 4*in/8 - 93*in; got[0].Left != want {
		t.Errorf("left %v, want %v", got[0].Left, want)
	}
}

func TestLongerThanAStickIsSaid(t *testing.T) {
	_, unfit := cutlist.Sticks([]part.Part{stick("a", 97*in)}, yard, shop("table-saw", in/8))
	if len(unfit) != 1 || unfit[0].Over != in {
		t.Errorf("got %+v, want a over by 1 in", unfit)
	}
	got, unfit := cutlist.Sticks([]part.Part{stick("a", 96*in)}, yard, shop("table-saw", in/8))
	if len(unfit) != 0 || len(got) != 1 {
		t.Errorf("a whole stick as it is bought: got %v, unfit %v", got, unfit)
	}
}

// Any parts: each once, none over another, the kerf between, sums exact.
// A part has to lie in its stick's section as well, flat or on edge.
func TestWiderThanAStickIsSaid(t *testing.T) {
	for _, x := range []struct{ v, w, over length.Length }{{3 * in, 3 * in / 4, 3 * in / 2}, {in, in, in / 4}, {3 * in / 2, 3 * in / 4, 0}, {3 * in / 4, 3 * in / 2, 0}, {in / 2, 3 * in / 2, 0}} {
		p := stick("a", 20*in)
		p.Size[1], p.Size[2] = x.v, x.w
		got, unfit := cutlist.Sticks([]part.Part{p}, stock.Catalogue{Sticks: []stock.Stick{{ID: p.Stock, Thickness: 3 * in / 4, Width: 3 * in / 2, Length: 96 * in}}}, shop("table-saw", in/8))
		if x.over > 0 != (len(unfit) == 1 && unfit[0].Across && unfit[0].Over == x.over && len(got) == 0) {
			t.Errorf("%v: %v, unfit %v", x, got, unfit)
		}
	}
}

func TestSticksAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kerf := length.Length(rapid.IntRange(0, 5).Draw(t, "kerf")) * mm
		n := rapid.IntRange(1, 30).Draw(t, "n")
		var parts []part.Part
		for i := range n {
			parts = append(parts, stick(string(rune('A'+i)), length.Length(rapid.IntRange(50, 2400).Draw(t, "l"))*mm))
		}
		got, unfit := cutlist.Sticks(parts, yard, shop("table-saw", kerf))
		seen := len(unfit)
		for _, s := range got {
			at := length.Length(0)
			for _, p := range s.Pieces {
				if p.At < at {
					t.Fatalf("%v begins at %v, before %v", p.Marks, p.At, at)
				}
				at = p.At + p.Len + kerf
				seen += len(p.Marks)
			}
			if at-kerf > s.Length {
				t.Fatalf("pieces reach %v on a stick of %v", at-kerf, s.Length)
			}
		}
		if seen != n {
			t.Fatalf("%d of %d parts", seen, n)
		}
	})
}

func board(mark string, l, w length.Length, g part.Grain) part.Part {
	return part.Part{Mark: mark, Stock: "ply", Size: [3]length.Length{l, w, 18 * mm}, Grain: g}
}

func TestEqualSizesAreOnePartOfTheProblem(t *testing.T) {
	cat := stock.Catalogue{Boards: []stock.Board{{ID: "ply", Length: 2440 * mm, Width: 1220 * mm, Grain: "along-length", OnHand: 2,
		Damaged: []stock.Damage{{Corner: "end-far", Length: 100 * mm, Width: 200 * mm}},
		Offcuts: []stock.Offcut{{Length: 600 * mm, Width: 500 * mm, Grain: "along-length", Count: 1}}}}}
	p, sizes := cutlist.Sheets([]part.Part{board("A1", 700*mm, 500*mm, part.Along), board("A2", 700*mm, 500*mm, part.Along), board("A3", 700*mm, 500*mm, part.Across)}, cat, shop("panel-saw", 32*mm/10), 1)
	if len(p.Parts) != 2 || p.Parts[0].Count != 2 || p.Parts[1].Lay != cutting.Across {
		t.Errorf("parts %+v", p.Parts)
	}
	if len(p.Stocks) != 4 {
		t.Fatalf("stocks %+v; want an offcut, a spoilt sheet, one on hand, and sheets to buy", p.Stocks)
	}
	if d := p.Stocks[1].Damage[0]; d.X != 2340*mm || d.Y != 1020*mm {
		t.Errorf("the spoilt corner is at %v, %v", d.X, d.Y)
	}
	plan := cutting.Plan{Sheets: []cutting.Sheet{{Pieces: []cutting.Piece{{Part: "A1"}, {Part: "A3"}}}, {Pieces: []cutting.Piece{{Part: "A1"}}}}}
	m := sizes.Marks(plan)
	if m[0][0] != "A1" || m[0][1] != "A3" || m[1][0] != "A2" {
		t.Errorf("marks %v", m)
	}
}

func TestAMirrorImageIsAnotherGroup(t *testing.T) {
	a, b := board("A1", 700*mm, 500*mm, part.Along), board("A2", 700*mm, 500*mm, part.Along)
	a.Ops = []part.Op{{Kind: part.Hole, X: 100 * mm, Y: 37 * mm, Dia: 5 * mm, Depth: 12 * mm}}
	b.Ops = []part.Op{{Kind: part.Hole, X: 100 * mm, Y: 463 * mm, Dia: 5 * mm, Depth: 12 * mm}}
	if g := cutlist.Groups([]part.Part{a, b, a}); len(g) != 2 || len(g[0].Marks) != 2 {
		t.Errorf("groups %+v", g)
	}
}

// A part 19 by 12 from a stick 19 thick is ripped to 12, the size that is not the stick's own: two
// of them come side by side from a stick 38 wide with a kerf of 3 (2 × 12 + 3 = 27, arithmetic).
func TestASquareCutOnEdgeIsRippedToItsLesserSize(t *testing.T) {
	sticks := stock.Catalogue{Sticks: []stock.Stick{{ID: "strip", Thickness: 19 * mm, Width: 38 * mm, Length: 96 * in}}}
	var parts []part.Part
	for _, m := range []string{"a", "b"} {
		parts = append(parts, part.Part{Mark: m, Material: part.Stick, Stock: "strip", Size: [3]length.Length{500 * mm, 12 * mm, 19 * mm}})
	}
	got, _ := cutlist.Sticks(parts, sticks, shop("table-saw", 3*mm))
	if len(got) != 1 || len(got[0].Pieces) != 1 || got[0].Pieces[0].Rip != 12*mm || len(got[0].Pieces[0].Marks) != 2 {
		t.Errorf("%+v, want one length ripped to two of 12 mm", got)
	}
}

// Nothing shorter than a foot is ripped (common practice, no source): blocks 100 long come from a blank
// of three with their kerfs, 306, which is ripped first; their strips lie side by side while 20 is left to
// hold. Every part is there once, and no strip is wider or longer than its blank gives (arithmetic).
func TestShortPartsAreRippedFromABlank(t *testing.T) {
	sticks := stock.Catalogue{Sticks: []stock.Stick{{ID: "stud", Thickness: 38 * mm, Width: 89 * mm, Length: 96 * in}}}
	var parts []part.Part
	want := map[string]bool{}
	for i, w := range []length.Length{7, 8, 12, 12, 12, 12, 20, 30, 35} {
		m := string(rune('a' + i))
		want[m] = true
		parts = append(parts, part.Part{Mark: m, Material: part.Stick, Stock: "stud", Size: [3]length.Length{100 * mm, w * mm, 38 * mm}})
	}
	got, _ := cutlist.Sticks(parts, sticks, shop("table-saw", 3*mm))
	for _, s := range got {
		for _, p := range s.Pieces {
			if p.Rip > 0 && p.Len < 12*in || len(p.Strips) == 0 || p.Len < 12*in {
				t.Errorf("%+v is ripped", p)
			}
			wide := length.Length(0)
			for _, x := range p.Strips {
				wide += x.Rip + 3*mm
				if long := length.Length(len(x.Marks))*(x.Each+3*mm) - 3*mm; x.Each != 100*mm || long > p.Len {
					t.Errorf("%+v from a blank of %v", x, p.Len)
				}
				for _, m := range x.Marks {
					if !want[m] {
						t.Errorf("%s is cut twice", m)
					}
					delete(want, m)
				}
			}
			if wide > (89-20)*mm {
				t.Errorf("%+v: %v of strips from 89 mm", p, wide)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not cut: %v", want)
	}
}

// A piece turned end for end, or over, is the same piece; the solid geometry of half turns is
// all that is used.
func TestATurnedPieceIsTheSame(t *testing.T) {
	a := board("A1", 700*mm, 500*mm, part.Along)
	a.Ops = []part.Op{
		{Kind: part.Hole, X: 100 * mm, Y: 37 * mm, Dia: 5 * mm, Depth: 12 * mm},
		{Kind: part.Pocket, X: 700 * mm, Y: 60 * mm, Dia: 9 * mm, Depth: 12 * mm, Towards: part.End},
	}
	a.Bands[part.BandNear] = part.Band{Edging: "birch"}
	for axis := range 3 {
		m := cutlist.Reflect(a, axis)
		m.Mark = "M"
		turned := cutlist.Reflect(m, (axis+1)%3)
		turned.Mark, turned.Name = "T", "another"
		g := cutlist.Groups([]part.Part{a, m, turned})
		if len(g) != 2 || len(g[0].Marks) != 2 || g[0].Marks[1] != "T" || g[0].Mirror != "M" || g[1].Mirror != "A1" {
			t.Errorf("axis %d: groups %+v", axis, g)
		}
		if back := cutlist.Reflect(m, axis); back.Ops[0] != a.Ops[0] || back.Ops[1] != a.Ops[1] || back.Bands != a.Bands {
			t.Errorf("axis %d: twice is not once: %+v", axis, back)
		}
	}
}

// Names that a group has in common follow its marks as these are told: those that differ in a number only by that.
func TestNamesFollowTheirMarks(t *testing.T) {
	for _, x := range []struct {
		marks, names []string
		want         string
	}{
		{[]string{"Top.rail3", "Top.rail6", "Top.rail1", "Top.rail2"}, []string{"upper-left rail", "upper-right rail", "lower-left rail", "lower-right rail"}, "lower-left rail, lower-right rail, upper-left rail and others"},
		{[]string{"A.rail10", "A.rail9"}, []string{"far rail", "near rail"}, "near rail, far rail"},
		{[]string{"B.right", "A.left"}, []string{"right side", "left side"}, "right side, left side"},
		{[]string{"A.1side", "A.2side"}, []string{"side of drawer 1", "side of drawer 2"}, "side of drawer"},
	} {
		if got := cutlist.Common(x.marks, x.names); got != x.want {
			t.Errorf("%v: %q, want %q", x.marks, got, x.want)
		}
	}
}
