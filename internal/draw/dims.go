package draw

import (
	"math"
	"slices"
	"strings"

	"stowright/internal/draw/font"
)

// Side is the side of a view that dimensions stand on.
type Side uint8

// The sides.
const (
	Below Side = iota
	Left
	Right
	Above
)

// Dims lays out the dimensions of one view after ISO 129-1. Requests give places along a
// side in mm on paper and the texts to print; the layout puts shorter ones nearer the view,
// each request in one row, no row over another, every size (the same two places along the
// same direction) once: the first request keeps it. Numbers stand above their line and are
// read from the bottom or the right; where a gap is too small for its number, the number
// stands outside on a short leader. Numbers of running dimensions stand at the ends of their
// extension lines, so that it is plain what each belongs to.
type Dims struct {
	View Rect    // the outline on paper that the rows keep away from
	Size float64 // height of capitals; 0 means LeastCap

	groups []group
}

// group is what stands in one row: ticks ascending, piece i between ticks i and i+1.
type group struct {
	side    Side
	ticks   []float64
	pieces  []piece
	running bool // numbers belong to ticks and count from the origin
	level   bool // numbers stand upright beside the line, each level with its piece
	origin  float64
	row     int
}

type piece struct {
	text string // empty: not drawn
	w    float64
	more string // printed behind it where that has room
	wide float64
}

// More parts a text of a dimension from what is printed behind it only where it has room: the
// size in another unit.
const More = "\v"

func (d *Dims) piece(text string) piece {
	text, more, _ := strings.Cut(text, More)
	p := piece{text: text, w: font.Width(text, false, d.size())}
	if text != "" && more != "" {
		p.more, p.wide = more, font.Width(text+more, false, d.size())
	}
	return p
}

func (d *Dims) size() float64 { return max(d.Size, LeastCap) }

// Chain asks for a row of adjoining dimensions: texts[i] between at[i] and at[i+1]. An
// empty text leaves its piece out.
func (d *Dims) Chain(side Side, at []float64, texts []string) { d.chain(side, at, texts, false) }

// Level is Chain on the left or the right of a view with its numbers upright beside the line, each level with its piece as far as they
// have room: for pieces that are lower than their numbers are wide (ISO 129-1 lets numbers be read from the bottom alone).
func (d *Dims) Level(side Side, at []float64, texts []string) {
	n := len(d.groups)
	d.Chain(side, at, texts)
	for i := range d.groups[n:] {
		d.groups[n+i].level = true
	}
}

// Whole is Chain for one that is read by itself, and adds up: it says a size again that stands
// elsewhere.
func (d *Dims) Whole(side Side, at []float64, texts []string) { d.chain(side, at, texts, true) }

func (d *Dims) chain(side Side, at []float64, texts []string, again bool) {
	if len(at) < 2 {
		return
	}
	if len(texts) != len(at)-1 {
		panic("draw: a chain of dimensions needs one text a gap")
	}
	at, texts = slices.Clone(at), slices.Clone(texts)
	if at[0] > at[len(at)-1] {
		slices.Reverse(at)
		slices.Reverse(texts)
	}
	g := group{side: side, ticks: at}
	some := false
	for i, t := range texts {
		if at[i+1]-at[i] < 0.005 || !again && d.taken(side, at[i], at[i+1], g.pieces, at) {
			t = ""
		}
		some = some || t != ""
		g.pieces = append(g.pieces, d.piece(t))
	}
	if some {
		d.groups = append(d.groups, g)
	}
}

// Single asks for one dimension.
func (d *Dims) Single(side Side, from, to float64, text string) {
	d.Chain(side, []float64{from, to}, []string{text})
}

// Baseline asks for dimensions that all start at origin, each in a row of its own.
func (d *Dims) Baseline(side Side, origin float64, at []float64, texts []string) {
	for i, a := range at {
		d.Single(side, origin, a, texts[i])
	}
}

// Running asks for one row in which every number is the distance from origin, where the
// tape is hooked (superimposed running dimensions of ISO 129-1): a small circle at the
// origin, an arrow at every place. All places lie on one side of the origin.
func (d *Dims) Running(side Side, origin float64, at []float64, texts []string) {
	g := group{side: side, running: true, origin: origin}
	type stop struct {
		at   float64
		text string
	}
	var stops []stop
	for i, a := range at {
		if math.Abs(a-origin) >= 0.005 && !d.taken(side, min(a, origin), max(a, origin), nil, nil) {
			stops = append(stops, stop{a, texts[i]})
		}
	}
	if len(stops) == 0 {
		return
	}
	slices.SortStableFunc(stops, func(a, b stop) int { return cmpFloat(a.at, b.at) })
	up := stops[0].at > origin
	if up {
		g.ticks = append(g.ticks, origin)
	}
	for _, s := range stops {
		g.ticks = append(g.ticks, s.at)
		g.pieces = append(g.pieces, d.piece(s.text))
	}
	if !up {
		g.ticks = append(g.ticks, origin)
	}
	d.groups = append(d.groups, g)
}

func cmpFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// taken tells whether the size between a and b is already asked for along this direction.
func (d *Dims) taken(side Side, a, b float64, own []piece, at []float64) bool {
	same := func(x, y float64) bool { return math.Abs(x-y) < 0.02 }
	lying := func(s Side) bool { return s == Below || s == Above }
	for _, g := range d.groups {
		if lying(g.side) != lying(side) {
			continue
		}
		for i, p := range g.pieces {
			if p.text == "" {
				continue
			}
			lo, hi := g.span(i)
			if same(lo, a) && same(hi, b) {
				return true
			}
		}
	}
	for i, p := range own {
		if p.text != "" && same(at[i], a) && same(at[i+1], b) {
			return true
		}
	}
	return false
}

// span gives the two places whose distance piece i states.
func (g *group) span(i int) (lo, hi float64) {
	if !g.running {
		return g.ticks[i], g.ticks[i+1]
	}
	if g.ticks[0] == g.origin {
		return g.origin, g.ticks[i+1]
	}
	return g.ticks[i], g.origin
}
