package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/beam"
)

// remedies are the cheapest changes that bring a board's ratio to 1 or below, each worked out
// by the same method: a strip along its front, its grain turned, one more support, a thicker
// board, a shorter span. Ratio is that method.
func (s *Scene) remedies(b board, ratio func(board) float64) []string {
	var words []string
	try := func(n board, what string) bool {
		r := ratio(n)
		if r <= 1 {
			words = append(words, fmt.Sprintf("%s (ratio %.2f)", what, r))
			return true
		}
		return false
	}
	if b.wood.other > 0 {
		n := b
		n.wood.e, n.wood.f, n.wood.across = b.wood.other, b.wood.otherF, b.wood.e
		try(n, "turn its grain to run along the span")
	}
	s.tryStrip(b, try)
	s.tryThicker(b, try)
	if o := s.owners[b.part.Owner]; b.part.Role == part.Bottom && len(b.supports) == 2 && !b.back {
		n := b
		n.back = true
		try(n, "glue and screw its rear edge to the lower rail or to a back of full thickness")
		if o != nil && !o.Hung {
			n := b
			n.supports = halved(b.supports)
			n.reach = way(n.supports)
			try(n, "put a foot or a block under its middle")
		}
	}
	if b.part.Role == part.Shelf || b.part.Role == part.FixedShelf || b.part.Role == part.CounterLayer {
		n := b
		n.supports = halved(b.supports)
		n.reach = way(n.supports)
		what := "put a partition under its middle"
		if b.part.Role == part.CounterLayer {
			what = "put a support under the middle of its longest way"
		}
		try(n, what)
	}
	if len(b.supports) == 2 && !b.across {
		lo, hi := 0.2, 1.0
		short := func(k float64) board {
			n := b
			n.length, n.supports, n.reach = b.length*k, []float64{0, b.reach * k}, b.reach*k
			n.length = math.Max(n.length, n.reach)
			n.points = nil
			return n
		}
		if len(b.points) == 0 && ratio(short(lo)) <= 1 {
			for range 24 {
				if mid := (lo + hi) / 2; ratio(short(mid)) <= 1 {
					lo = mid
				} else {
					hi = mid
				}
			}
			step := 5.0
			if s.inch() {
				step = 6.35
			}
			reach := math.Floor(lo*b.reach/step) * step
			try(short(reach/b.reach), "make its span "+s.long(reach))
		}
	}
	return words
}

// halved puts one more support in the middle of the longest way.
func halved(at []float64) []float64 {
	w := way(at)
	out := slices.Clone(at)
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] == w {
			return slices.Insert(out, i, (at[i]+at[i-1])/2)
		}
	}
	return out
}

// tryStrip looks for the lowest strip of the practice's stick, glued under the front edge, that
// is enough.
func (s *Scene) tryStrip(b board, try func(board, string) bool) {
	st, ok := s.Job.Catalogue.Stick(s.Job.Practice.StripStick)
	sp, known := s.Job.Catalogue.SpeciesOf(st.Species)
	e, has := sp.E.Float()
	if !ok || !known || !has || len(b.front) > 0 || b.across || b.part.Role == part.BaseRail {
		return
	}
	f, _ := sp.F.Float()
	wide := mm(min(st.Thickness, st.Width))
	step := 5.0
	if s.inch() {
		step = 6.35
	}
	for h := math.Ceil(b.t/step)*step + step; h <= 120; h += step {
		n := b
		// Beside the front edge, upper faces flush.
		n.front = []strip{{name: "strip", wide: wide, high: h, drop: h/2 - b.t/2, e: e, f: f * countedOn * permanent, g: beam.ShearModulus(e)}}
		if try(n, fmt.Sprintf("glue a strip of %s %s by %s along its front edge, flush above", sp.Name, s.long(wide), s.long(h))) {
			return
		}
	}
}

// tryThicker looks for the thinnest board of the same family of materials that is enough, else
// two of the same glued together.
func (s *Scene) tryThicker(b board, try func(board, string) bool) {
	if b.part.Material != part.Board || b.part.Pose.W().Axis() != 2 {
		return
	}
	own, _ := s.Job.Catalogue.Board(b.part.Stock)
	var list []stock.Board
	for _, x := range s.Job.Catalogue.Boards {
		if mm(x.Thickness) > b.t+0.5 && family(x.Material) == family(own.Material) {
			list = append(list, x)
		}
	}
	slices.SortStableFunc(list, func(a, c stock.Board) int { return int(a.Thickness - c.Thickness) })
	axis := 0
	if b.across {
		axis = 1
	}
	for _, x := range list {
		p := *b.part
		p.Stock = x.ID
		n := b
		n.wood, n.t = s.wood(&p, axis, false), mm(x.Thickness)
		if n.wood.e <= 0 || !n.wood.crept {
			continue
		}
		n.line += (n.t - b.t) * b.depth * 1e-9 * 700 * 9.81 // the greater weight, at 700 kg/m³
		if try(n, fmt.Sprintf("make it of %s, %s thick", x.ID, s.long(n.t))) {
			return
		}
	}
	n := b
	n.t *= 2
	n.line += b.t * b.depth * 1e-9 * 700 * 9.81
	try(n, fmt.Sprintf("glue two boards together, %s", s.long(n.t)))
}

// family is a material's name without its thickness.
func family(id string) string { return strings.TrimRight(id, "-0123456789") }
