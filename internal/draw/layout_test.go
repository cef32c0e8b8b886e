package draw_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/hidden"
	"stowright/internal/draw/pdf"
	"stowright/internal/geom"
	"stowright/internal/length"
)

func texts(s *draw.Sheet) []string {
	var out []string
	for _, it := range s.Items {
		if t, ok := it.(*draw.Text); ok {
			out = append(out, t.Text)
		}
	}
	return out
}

// TestDimensionsNeverOverlap: random chains, overalls, baselines and running rows on all
// four sides; no number over another or on a line, and each size printed once, at its place.
func TestDimensionsNeverOverlap(t *testing.T) {
	tried := 400
	if testing.Short() {
		tried = 80
	}
	bad := 0
	for seed := range uint64(tried) {
		r := rand.New(rand.NewPCG(seed, 2))
		s := draw.A3().Sheet(true)
		view := draw.Rect{X: 120, Y: 90, W: 120 + r.Float64()*60, H: 70 + r.Float64()*40}
		d := draw.Dims{View: view}
		n := 0
		for side := draw.Below; side <= draw.Above; side++ {
			lo, hi := view.X, view.Right()
			if side == draw.Left || side == draw.Right {
				lo, hi = view.Y, view.Bottom()
			}
			pick := func(k int) []float64 {
				at := []float64{lo, hi}
				for range k {
					at = append(at, math.Round(lo+r.Float64()*(hi-lo)))
				}
				slices.Sort(at)
				return slices.Compact(at)
			}
			name := func(k int) []string {
				var out []string
				for range k {
					n++
					out = append(out, []string{"18", "363", "30 1/4", "1219"}[r.IntN(4)]+fmt.Sprintf(".%d", n))
				}
				return out
			}
			at := pick(r.IntN(6))
			d.Chain(side, at, name(len(at)-1))
			d.Single(side, lo, hi, name(1)[0])
			if r.IntN(2) == 0 {
				at := pick(r.IntN(5))
				d.Running(side, lo, at[1:], name(len(at)-1))
			}
			if r.IntN(2) == 0 {
				at := pick(2)
				d.Baseline(side, hi, at[:len(at)-1], name(len(at)-1))
			}
		}
		box := d.Draw(s)
		seen := map[string]bool{}
		for _, x := range texts(s) {
			if seen[x] {
				t.Fatalf("seed %d: %q printed twice", seed, x)
			}
			seen[x] = true
		}
		for _, it := range s.Items {
			if x, ok := it.(*draw.Text); ok && !box.Inset(-0.6).Has(x.Box()) {
				t.Errorf("seed %d: %q stands outside the area returned", seed, x.Text)
			}
		}
		if f := drawtest.Strikes(s); len(f) > 0 {
			bad++
			if bad <= 4 {
				t.Logf("seed %d: %s", seed, strings.Join(f, "; "))
				if *keep != "" {
					s.Rect(draw.Visible, view)
					out, _ := pdf.Write(&draw.Document{Pages: []draw.Sheet{*s}})
					os.WriteFile(filepath.Join(*keep, fmt.Sprintf("bad%d.pdf", bad)), out, 0o644)
				}
			}
		}
	}
	if bad > 0 {
		t.Errorf("%d of %d layouts have a number over a number or a line", bad, tried)
	}
}

// TestEachSizeOnce: the same two places on opposite sides are one size; a chain of one
// piece and an overall are one.
func TestEachSizeOnce(t *testing.T) {
	var s draw.Sheet
	d := draw.Dims{View: draw.Rect{X: 50, Y: 50, W: 100, H: 100}}
	d.Single(draw.Below, 50, 150, "first")
	d.Single(draw.Above, 150, 50, "second")
	d.Chain(draw.Below, []float64{50, 150}, []string{"third"})
	d.Running(draw.Above, 50, []float64{150}, []string{"fourth"})
	d.Single(draw.Left, 50, 150, "height")
	d.Draw(&s)
	if got := fmt.Sprint(texts(&s)); got != "[first height]" {
		t.Errorf("printed %s", got)
	}
}

// TestMarksNeverCross: leaders of random marks do not cross, marks do not cover each other.
func TestMarksNeverCross(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 5))
		s := draw.A3().Sheet(true)
		view := draw.Rect{X: 100, Y: 80, W: 80 + r.Float64()*120, H: 40 + r.Float64()*100}
		var marks []draw.Mark
		for i := range 1 + r.IntN(45) {
			marks = append(marks, draw.Mark{Text: fmt.Sprintf("B%d-%d", r.IntN(12), i), At: draw.Pt(view.X+r.Float64()*view.W, view.Y+r.Float64()*view.H)})
		}
		s.Marks(view, marks)
		type leader struct{ a, b draw.Point }
		var ls []leader
		for _, it := range s.Items {
			if p, ok := it.(*draw.Path); ok && p.Line == draw.Narrow && len(p.Steps) == 2 {
				ls = append(ls, leader{p.Steps[0].P[0], p.Steps[1].P[0]})
			}
		}
		if len(ls) != len(marks) {
			t.Fatalf("seed %d: %d leaders, %d marks", seed, len(ls), len(marks))
		}
		side := func(p, q, r draw.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
		for i, a := range ls {
			for _, b := range ls[i+1:] {
				if side(a.a, a.b, b.a)*side(a.a, a.b, b.b) < -1e-6 && side(b.a, b.b, a.a)*side(b.a, b.b, a.b) < -1e-6 {
					t.Fatalf("seed %d: leaders cross", seed)
				}
			}
		}
		if f := drawtest.Strikes(s); len(f) > 0 {
			t.Fatalf("seed %d, %d marks: %s", seed, len(marks), f[0])
		}
	}
}

// TestLanes: texts of a lane cover nothing, their leaders do not cross, and each text stands at its leader's end.
func TestLanes(t *testing.T) {
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 6))
		for _, side := range []draw.Side{draw.Above, draw.Below} {
			s := draw.A3().Sheet(true)
			var marks []draw.Mark
			for i := range 1 + r.IntN(30) {
				marks = append(marks, draw.Mark{Text: fmt.Sprintf("2 %d/32", i), At: draw.Pt(100+math.Round(r.Float64()*40)*4, 120+r.Float64()*10)})
			}
			y := 110.0
			if side == draw.Below {
				y = 140
			}
			s.Lane(side, y, marks, true)
			for _, f := range drawtest.Strikes(s) {
				t.Fatalf("seed %d: %s", seed, f)
			}
			from := map[string]draw.Point{}
			for _, m := range marks {
				from[m.Text] = m.At
			}
			turn := func(p, q, r draw.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
			for i, it := range s.Items {
				for _, other := range s.Items[i+1:] {
					a, ok := it.(*draw.Path)
					b, too := other.(*draw.Path)
					if ok && too {
						p, q, m, n := a.Steps[0].P[0], a.Steps[1].P[0], b.Steps[0].P[0], b.Steps[1].P[0]
						if turn(p, q, m)*turn(p, q, n) < -1e-6 && turn(m, n, p)*turn(m, n, q) < -1e-6 {
							t.Fatalf("seed %d: leaders cross", seed)
						}
					}
				}
			}
			for i, it := range s.Items {
				x, ok := it.(*draw.Text)
				if !ok {
					continue
				}
				p := s.Items[i-1].(*draw.Path)
				if p.Steps[0].P[0] != from[x.Text] || math.Abs(p.Steps[1].P[0].X-x.Box().Mid().X) > 0.5 {
					t.Errorf("seed %d: %s does not stand at the end of its leader", seed, x.Text)
				}
			}
		}
	}
}

// TestTableKeepsItsPromises: every cell is printed whole and in its column, the head on
// every sheet, nothing below the free area.
func TestTableKeepsItsPromises(t *testing.T) {
	var area draw.Rect
	f := draw.Flow{Page: func(int) (*draw.Sheet, draw.Rect) {
		s := draw.Letter().Sheet(false)
		area = s.FreeStrip()
		return s, area
	}}
	tab := draw.Table{Columns: []draw.Column{{Head: "Mark"}, {Head: "What it is for, in words"}, {Head: "Qty", Align: draw.End}, {Head: "Note", Grow: true}}}
	want := map[string]int{}
	for i := range 150 {
		a, b := fmt.Sprintf("K%03d", i), fmt.Sprintf("item%d", i)
		tab.Rows = append(tab.Rows, draw.Texts(a, strings.Repeat("long text that wraps ", 1+i%9)+b, "7", strings.Repeat("Xylophon-screws", i%3)))
		want[a]++
		want[b]++
	}
	f.Table(tab)
	if len(f.Sheets()) < 3 {
		t.Fatalf("%d sheets", len(f.Sheets()))
	}
	for i, s := range f.Sheets() {
		heads := 0
		for _, it := range s.Items {
			x, ok := it.(*draw.Text)
			if !ok {
				continue
			}
			if x.Text == "Mark" {
				heads++
			}
			for _, word := range strings.Fields(x.Text) {
				want[word]--
			}
			if !area.Has(x.Box()) {
				t.Errorf("sheet %d: %q leaves the free area", i+1, x.Text)
			}
		}
		if heads != 1 {
			t.Errorf("sheet %d has %d heads", i+1, heads)
		}
		for _, f := range drawtest.Strikes(s) {
			t.Errorf("sheet %d: %s", i+1, f)
		}
	}
	for w, n := range want {
		if (strings.HasPrefix(w, "K") || strings.HasPrefix(w, "item")) && n != 0 {
			t.Errorf("%q: %d too few", w, n)
		}
	}
}

// TestWrap: nothing is lost, nothing too wide.
func TestWrap(t *testing.T) {
	for _, c := range []string{"", "one", "a few words that wrap here", "Donaudampfschifffahrtsgesellschaftskapitän", "x\ny", "ab Donaudampfschifffahrtsgesellschaft cd"} {
		for _, w := range []float64{1, 12, 20, 100} {
			lines := draw.Wrap(c, 2.5, false, w)
			strip := func(s string) string { return strings.Join(strings.Fields(s), "") }
			if strip(strings.Join(lines, "")) != strip(c) {
				t.Errorf("%q at %v: %q", c, w, lines)
			}
			for _, l := range lines {
				x := draw.Text{Text: l, Size: 2.5}
				if x.Width() > w && len([]rune(l)) > 1 {
					t.Errorf("%q is wider than %v", l, w)
				}
			}
		}
	}
}

// TestFullPacketIsQuick: eighty dense sheets are written in a share of the four seconds
// that a packet may take, under 5 MB.
func TestFullPacketIsQuick(t *testing.T) {
	doc := &draw.Document{Title: "many", Lang: "en"}
	for range 20 {
		one := sample(draw.A4())
		for _, p := range one.Pages {
			var kept []draw.Item
			for _, it := range p.Items {
				switch it.(type) {
				case *draw.Link, *draw.Anchor:
				default:
					kept = append(kept, it)
				}
			}
			p.Items = kept
			doc.Pages = append(doc.Pages, p)
		}
	}
	out, err := pdf.Write(doc)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d sheets, %d KB", len(doc.Pages), len(out)/1024)
	if len(out) > 5<<20 {
		t.Errorf("%d bytes", len(out))
	}
	if bytes.Contains(out, []byte("NaN")) {
		t.Error("NaN in the file")
	}
}

// TestPictorial: an exploded case with hidden lines and marks is sound paper.
func TestPictorial(t *testing.T) {
	mm := length.MM
	b := func(x0, y0, z0, x1, y1, z1 length.Length) geom.Box {
		return geom.B(x0*mm, y0*mm, z0*mm, x1*mm, y1*mm, z1*mm)
	}
	groove := hidden.Cut(b(0, 0, 0, 18, 560, 700), b(12, 540, 0, 18, 546, 700))
	other := hidden.Cut(b(744, 0, 0, 762, 560, 700), b(744, 540, 0, 750, 546, 700))
	solids := []hidden.Solid{
		{ID: 0, Boxes: groove, Shift: geom.V(-250*mm, 0, 0)},
		{ID: 1, Boxes: other, Shift: geom.V(250*mm, 0, 0)},
		{ID: 2, Boxes: []geom.Box{b(18, 0, 0, 744, 560, 18)}},
		{ID: 3, Boxes: []geom.Box{b(18, 0, 682, 744, 100, 700)}, Shift: geom.V(0, 0, 200*mm)},
		{ID: 4, Boxes: []geom.Box{b(18, 20, 340, 744, 540, 358)}},
		{ID: 5, Boxes: []geom.Box{b(12, 540, 0, 750, 546, 700)}, Shift: geom.V(0, 350*mm, 0)},
	}
	for k := range 12 {
		solids[0].Curves = append(solids[0].Curves, hidden.Circle(geom.V(18*mm, 37*mm, length.Length(150+32*k)*mm), 0, 5*mm/2, 16))
	}
	s := draw.A4().Sheet(false)
	free, _ := s.Frame(draw.TitleBlock{Title: "Low case", Subtitle: "Taken apart", DocType: "Exploded view", Number: "SW-3", SheetNo: 3, Sheets: 9, Owner: "A. Maker", Creator: "A. Maker", Approver: "A. Maker", Date: "2026-11-25", Status: "For building", Scale: "1:12", Unit: "mm", Lang: "en", Revision: "A"})
	v := draw.View{Scale: draw.Scale{Paper: 1, Real: 12}}
	lines := hidden.Lines(hidden.Isometric(true), solids, true)
	lo, hi := draw.Pt(1e9, 1e9), draw.Pt(-1e9, -1e9)
	for _, l := range lines {
		for _, q := range []hidden.Point{l.A, l.B} {
			p := v.Real(q.X, q.Y)
			lo, hi = draw.Pt(min(lo.X, p.X), min(lo.Y, p.Y)), draw.Pt(max(hi.X, p.X), max(hi.Y, p.Y))
		}
	}
	v.Zero = free.Mid().Sub(draw.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}.Mid())
	marks := map[int]draw.Point{}
	longest := map[int]float64{}
	for _, l := range lines {
		a, b := v.Real(l.A.X, l.A.Y), v.Real(l.B.X, l.B.Y)
		kind := draw.Edge
		if l.Hidden {
			kind = draw.Hidden
		} else if d := b.Sub(a).Len(); d > longest[l.ID] {
			longest[l.ID] = d
			marks[l.ID] = a.Add(b.Sub(a).Times(0.35))
		}
		s.Poly(kind, a, b)
	}
	var list []draw.Mark
	for id := range solids {
		list = append(list, draw.Mark{Text: fmt.Sprintf("B1-%d", id+1), At: marks[id]})
	}
	box := draw.Rect{X: lo.X + v.Zero.X, Y: lo.Y + v.Zero.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
	if got := s.Marks(box, list); !free.Has(got) {
		t.Errorf("the picture takes %+v of %+v", got, free)
	}
	doc := &draw.Document{Title: "Exploded", Pages: []draw.Sheet{*s}}
	out, err := pdf.Write(doc)
	if err != nil || len(doc.Faults()) > 0 {
		t.Fatal(err, doc.Faults())
	}
	for _, f := range drawtest.Strikes(s) {
		t.Error(f)
	}
	if *keep != "" {
		os.WriteFile(filepath.Join(*keep, "exploded.pdf"), out, 0o644)
	}
}
