package packet_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// pictured is what a picture of a sheet has, as it is drawn: names and letters, rings with the numbers in them, dots, and the
// leaders that end at dots.
type pictured struct {
	names, rings, dots []draw.Rect
	letters            []*draw.Text
	leaders            [][2]draw.Point
	pieces             []draw.Rect
	sheet              draw.Rect
}

func look(d *view.Drawn) (p pictured) {
	s := draw.Sheet{}
	d.Put(&s, draw.Pt(0, 0))
	for _, it := range s.Items {
		switch x := it.(type) {
		case *draw.Text:
			switch letter := strings.Trim(x.Text, "abcdefghijklmnopqrstuvwxyz") == "" || len(x.Text) == 1 && x.Bold; {
			case x.Layer == "Grain", x.Layer == "Cuts":
			case x.Bold && letter:
				p.letters = append(p.letters, x)
			default:
				p.names = append(p.names, x.Box())
			}
		case *draw.Path:
			b := around(x)
			switch round := math.Abs(b.W-b.H) < 0.05; {
			case x.Layer == "Cuts" && x.Filled && x.Fill == draw.White && round:
				p.rings = append(p.rings, b)
			case x.Line == draw.Outline:
				p.sheet = b
			case x.Line == draw.Edge && x.Filled:
				p.pieces = append(p.pieces, b)
			case x.Layer == "Letters" && x.Filled && x.Fill == draw.Black && round && b.W < 2:
				p.dots = append(p.dots, b)
			case x.Layer == "Letters" && x.Line == draw.Fine && !x.Filled:
				p.leaders = append(p.leaders, [2]draw.Point{x.Steps[0].P[0], x.Steps[1].P[0]})
			}
		}
	}
	return p
}

// Every piece of a sheet has its mark or its letter in the picture or in what is drawn larger beside it, at every scale at which
// it is said to tell all: a letter lies in its own piece, or outside the sheet at a leader that ends in a dot in its piece, runs
// through no text, crosses no other, and leans where it runs through other pieces. No ring lies on another, on a name, a letter
// or a dot. Letters are none that look like a line, a ring or a figure.
func TestEveryPieceOfASheetIsNamedInItsPicture(t *testing.T) {
	seen, led, larger := 0, 0, 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		for i, sh := range r.Plan.Sheets {
			laid := view.Lay(sh, r.Marks[i], nil, view.Units{Unit: r.Job.Print}, func(string) string { return "" })
			for _, real := range []int{10, 16, 22} {
				c := draw.Scale{Paper: 1, Real: real}
				plate := laid.Plate(c, 180)
				lettered := 0
				for _, k := range plate.Keys.List {
					lettered += max(1, len(k.Pieces))
					if strings.ContainsAny(k.Letter, "ilo") {
						t.Errorf("%s, sheet %d: letter %q", name, i+1, k.Letter)
					}
				}
				drawn := 0
				pictures := []*view.Drawn{plate.Drawn}
				for _, d := range plate.Details {
					pictures = append(pictures, d.Drawn)
					larger++
				}
				for _, d := range pictures {
					p := look(d)
					drawn += len(p.letters)
					led += len(p.leaders)
					fault := func(what string, at draw.Rect) {
						t.Errorf("%s, sheet %d at %s: %s at %.1f, %.1f", name, i+1, d.Scale, what, at.X, at.Y)
					}
					for k, a := range p.rings {
						for _, b := range p.rings[:k] {
							if a.Meets(b) {
								fault("two rings on each other", a)
							}
						}
						for _, b := range p.names {
							if a.Meets(b) {
								fault("a ring on a name", a)
							}
						}
						for _, b := range p.letters {
							if a.Meets(b.Box()) {
								fault("a ring on letter "+b.Text, a)
							}
						}
						for _, b := range p.dots {
							if a.Meets(b) {
								fault("a ring on a dot", a)
							}
						}
					}
					for k, l := range p.leaders {
						from := draw.Rect{X: l[1].X, Y: l[1].Y}
						for _, b := range p.names {
							if b.Struck(l[0], l[1]) {
								fault("a leader through a name", from)
							}
						}
						for _, b := range p.letters {
							if b.Box().Struck(l[0], l[1]) {
								fault("a leader through letter "+b.Text, from)
							}
						}
						for _, o := range p.leaders[:k] {
							if draw.Cross(l[0], l[1], o[0], o[1]) {
								fault("two leaders across each other", from)
							}
						}
					}
					outside := 0
					for _, x := range p.letters {
						b := x.Box()
						if b.Inset(0.05).Meets(p.sheet) && x.Text > "Z" { // what is drawn larger has its letter over all its pieces
							for _, r := range p.pieces {
								if r.Meets(b) && !r.Has(b) {
									fault("letter "+x.Text+" over the edge of a piece", b)
								}
							}
						} else if !b.Inset(0.05).Meets(p.sheet) {
							outside++
						}
						for _, n := range p.names {
							if b.Meets(n) {
								fault("letter "+x.Text+" on a name", b)
							}
						}
					}
					if outside != len(p.leaders) {
						t.Errorf("%s, sheet %d at %s: %d letters outside, %d leaders", name, i+1, d.Scale, outside, len(p.leaders))
					}
					for _, l := range p.leaders {
						at := draw.Rect{X: l[1].X, Y: l[1].Y}
						others := slices.ContainsFunc(p.pieces, func(r draw.Rect) bool { return !r.Has(at) && r.Inset(0.5).Struck(l[0], l[1]) })
						if v := l[1].Sub(l[0]); others && min(math.Abs(v.X), math.Abs(v.Y)) < v.Len()/5 {
							fault("a leader that could be a cut", at)
						}
					}
					if len(p.dots) != len(p.leaders) {
						t.Errorf("%s, sheet %d at %s: %d dots of %d leaders", name, i+1, d.Scale, len(p.dots), len(p.leaders))
					}
				}
				left := 0
				for _, k := range plate.Keys.List {
					if len(k.Pieces) == 0 {
						left++
					}
				}
				if lost := len(plate.Lost); drawn < lettered-lost-left || drawn > lettered-lost+len(sh.Offcuts)+len(plate.Details) {
					t.Errorf("%s, sheet %d at %s: %d letters are drawn for %d pieces, %d without", name, i+1, c, drawn, lettered, lost)
				}
				seen += lettered
			}
		}
	}
	t.Logf("%d pieces have letters, %d of them on leaders, %d details", seen, led, larger)
	if seen == 0 || led == 0 && !testing.Short() {
		t.Error("no letter, or none on a leader")
	}
}
