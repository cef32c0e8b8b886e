package packet_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

var (
	ofSheet = regexp.MustCompile(`^Sheet (\d+) of \d+: `)
	keyed   = regexp.MustCompile(`(?:Letters: |; )([a-z]) [A-Z]`)
)

// around is the box of a circle: the ends and handles of its arcs lie on it.
func around(p *draw.Path) draw.Rect {
	lo, hi := draw.Pt(math.Inf(1), math.Inf(1)), draw.Pt(math.Inf(-1), math.Inf(-1))
	for _, st := range p.Steps {
		if st.Op == draw.Close {
			continue
		}
		for _, q := range st.P {
			if q != (draw.Point{}) {
				lo, hi = draw.Pt(min(lo.X, q.X), min(lo.Y, q.Y)), draw.Pt(max(hi.X, q.X), max(hi.Y, q.Y))
			}
		}
	}
	return draw.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
}

// tall puts all pages of a set below each other.
func tall(doc draw.Document) draw.Document {
	one := draw.Sheet{H: doc.Pages[0].H}
	for i := range doc.Pages {
		for _, it := range doc.Pages[i].Items {
			one.Add(draw.Moved(it, draw.Pt(0, float64(i)*max(doc.Pages[0].H, doc.Pages[0].W))))
		}
	}
	doc.Pages = []draw.Sheet{one}
	return doc
}

// Whoever saws by the pictures of the cutting plans finds in them every number of the order of the cuts, and every
// letter that the words beside them explain: one that has no room for its circle is named there, and no more than one in fifty is.
func TestEveryCutHasItsCircle(t *testing.T) {
	seen, told, without := 0, 0, 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		doc := tall(set(t, name)) // what is drawn larger may stand on the next page
		for i := range doc.Pages {
			page := &doc.Pages[i]
			type title struct {
				y     float64
				sheet int
			}
			var titles []title
			var texts []*draw.Text
			var rings []draw.Rect
			for _, it := range page.Items {
				switch x := it.(type) {
				case *draw.Text:
					texts = append(texts, x)
					if m := ofSheet.FindStringSubmatch(x.Text); m != nil {
						n := 0
						fmt.Sscan(m[1], &n)
						titles = append(titles, title{x.At.Y, n - 1})
					}
				case *draw.Path:
					if b := around(x); x.Filled && x.Fill == draw.White && math.Abs(b.W-b.H) < 0.1 && b.W > 4 && b.W < 12 {
						rings = append(rings, b)
					}
				}
			}
			slices.SortFunc(titles, func(a, b title) int { return int(math.Copysign(1, a.y-b.y)) })
			for k, h := range titles {
				foot := h.y + 3*doc.Pages[0].H // its table and what is drawn larger run on
				if k+1 < len(titles) {
					foot = titles[k+1].y - 5
				}
				in := func(y float64) bool { return y > h.y && y < foot }
				said, letters, words := map[string]bool{}, map[string]bool{}, ""
				var lines [][2]int // of the table
				for _, x := range texts {
					if !in(x.At.Y) {
						continue
					}
					words += x.Text + " "
					a, b := 0, 0
					if n, _ := fmt.Sscanf(x.Text, "%d–%d", &a, &b); n == 2 && x.Text == fmt.Sprintf("%d–%d", a, b) {
						lines = append(lines, [2]int{a, b})
					}
					if x.Bold && len(x.Text) < 6 && strings.Trim(x.Text, "abcdefghijklmnopqrstuvwxyz") == "" {
						for _, c := range x.Text {
							letters[string(c)] = true
						}
					}
					mid := x.Box().Mid()
					if slices.ContainsFunc(rings, func(b draw.Rect) bool { return in(b.Mid().Y) && b.Has(draw.Rect{X: mid.X, Y: mid.Y}) }) {
						said[x.Text] = true
					}
				}
				cuts := 0
				for _, c := range r.Plan.Sheets[h.sheet].Cuts {
					if c.Work != cutting.Trimming {
						cuts++
					}
				}
				if len(said) == 0 { // it is told otherwise
					continue
				}
				seen++
				bare := map[string]bool{}
				if _, after, ok := strings.Cut(words, "for want of room: "); ok {
					list, _, _ := strings.Cut(after, ";")
					for _, w := range strings.Split(list, ", ") {
						bare[strings.TrimSpace(w)] = true
					}
				}
				if told += cuts; len(bare)*4 > cuts {
					t.Errorf("%s: sheet %d has %d of %d cuts without a circle", name, h.sheet+1, len(bare), cuts)
				}
				without += len(bare)
				between := func(n int) bool { // of a long line of the table the ends have circles
					return cuts > view.ManyCuts && slices.ContainsFunc(lines, func(l [2]int) bool { return l[0] < n && n < l[1] })
				}
				for n := 1; n <= cuts; n++ {
					if !between(n) && !said[fmt.Sprint(n)] && !bare[fmt.Sprint(n)] {
						t.Errorf("%s: sheet %d has no circle %d of %d", name, h.sheet+1, n, cuts)
					}
				}
				for _, m := range keyed.FindAllStringSubmatch(words, -1) {
					if !letters[m[1]] {
						t.Errorf("%s: sheet %d has no letter %s, which is explained", name, h.sheet+1, m[1])
					}
				}
			}
		}
	}
	if without*50 > told {
		t.Errorf("%d of %d cuts have no circle", without, told)
	}
	if seen < 6 {
		t.Errorf("only %d pictures were read", seen)
	}
}
