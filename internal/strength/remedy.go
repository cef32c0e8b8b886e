package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/beam"
	"stowright/internal/strength/unit"
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
		n.wood.e, n.wood.f, n.wood.across, n.wood.crossF = b.wood.other, b.wood.otherF, b.wood.e, b.wood.f
		try(n, "turn its grain to run along the span")
	}
	s.tryStrip(b, try)
	s.tryThicker(b, try)
	if o := s.owners[b.part.Owner]; b.part.Role == part.Bottom && len(b.supports) == 2 && o != nil && s.onFeet(o) {
		n := b
		n.supports = halved(b.supports)
		n.reach = way(n.supports)
		try(n, "put a pair of feet under its middle, pairs: 3 under stands-on:")
	}
	switch b.part.Role {
	case part.Shelf:
		try(s.parted(b), "put a partition in the middle, and a shelf on each side of it, across: of the bay")
	case part.FixedShelf:
		n := b
		n.supports = halved(b.supports)
		n.reach = way(n.supports)
		try(n, "put a partition under its middle, across: of the bay below")
	}
	if len(b.supports) == 2 && !b.across {
		lo, hi := 0.2, 1.0
		short := func(k float64) board {
			n := b
			n.length, n.supports, n.reach = b.length*k, []float64{0, b.reach * k}, b.reach*k
			n.length = math.Max(n.length, n.reach)
			n.points = nil
			n.railed = [2]float64{b.railed[0] * k, b.railed[1] * k}
			n.cuts = slices.Clone(b.cuts)
			for i := range n.cuts {
				n.cuts[i].at *= k
			}
			if !b.load.assumed {
				n.line = b.own + (b.line-b.own)*b.length/n.length // what is put on it stays as much
			}
			return n
		}
		if len(b.points)+len(b.stands)+len(b.uneven) == 0 && ratio(short(lo)) <= 1 {
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
			what := "make its span " + s.long(reach)
			if r := b.part.Role; r == part.Shelf || r == part.FixedShelf || r == part.Bottom {
				tape := 0.5
				if s.inch() {
					tape = unit.Inch / 32
				}
				what += ", width: " + s.long(math.Ceil((b.reach-reach)/tape-0.01)*tape) + " less"
			}
			try(short(reach/b.reach), what)
		}
	}
	return words
}

// parted is one of two loose shelves with a partition between them.
func (s *Scene) parted(b board) board {
	n := b
	t := b.t
	for i := range s.All.Parts {
		if p := &s.All.Parts[i]; p.Owner == b.part.Owner && p.Role == part.Side {
			t = mm(p.Size[2])
		}
	}
	end := mm(s.Job.Practice.ShelfEnd)
	in := b.supports[0] // from the shelf's end
	n.length = (b.length+2*end-t)/2 - 2*end
	n.supports = []float64{in, n.length - in}
	n.reach = way(n.supports)
	n.points = nil
	// Goods stand over the room at a shelf's ends too.
	n.line *= (1 + 2*end/n.length) / (1 + 2*end/b.length)
	return n
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
	heavy, weighed := sp.Density.Float()
	says := b.part.Role == part.Shelf || b.part.Role == part.FixedShelf && !s.splits(b.part) // the job has a word for it
	if !ok || !known || !has || !weighed || len(b.front) > 0 || b.across || !says {
		return
	}
	f, _ := sp.F.Float()
	if d, ok := sp.Design.Float(); ok {
		f = d / countedOn
	}
	wide := mm(min(st.Thickness, st.Width))
	step := 5.0
	if s.inch() {
		step = 6.35
	}
	for h := 2 * step; h <= 120; h += step {
		n := b
		n.front = []strip{{name: "strip", wide: wide, high: h, drop: (h + b.t) / 2, e: e, f: f * countedOn * permanent, g: beam.ShearModulus(e)}}
		n.line += newtons(wide * h * heavy * 1e-9)
		if try(n, fmt.Sprintf("glue a strip of %s %s by %s under its front edge, strip: yes under shelves: and strip: under practice:", sp.Name, s.long(wide), s.long(h))) {
			return
		}
	}
}

// heavy is the density of a part's material in kg/m³; where it is not known, that of the densest
// plywood.
func (s *Scene) heavy(stockID string) float64 {
	b, _ := s.Job.Catalogue.Board(stockID)
	m, _ := s.Job.Catalogue.Material(b.Material)
	if d, ok := m.Density.Float(); ok {
		return d
	}
	return 710
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
	order.Stable(list, func(a, c stock.Board) int { return int(a.Thickness - c.Thickness) })
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
		n.line += newtons((n.t*s.heavy(x.ID) - b.t*s.heavy(b.part.Stock)) * b.depth * 1e-9)
		if try(n, fmt.Sprintf("make it of %s, %s thick, %s", x.ID, s.long(n.t), s.boardWord(b.part))) {
			return
		}
	}
	switch b.part.Role {
	case part.Shelf, part.FixedShelf, part.CounterLayer:
	default:
		return // the whole case would be twice as thick
	}
	n := b
	if len(b.cuts) > 0 { // the other runs on where the one is butted
		n.layers = append(slices.Clone(b.layers), layer{name: "another layer", wide: b.depth, high: b.t, bottom: -b.t, e: b.wood.e, g: b.wood.shear(), f: b.wood.strength(permanent)})
		for _, x := range b.layers {
			n.layers[len(b.layers)].bottom = math.Min(n.layers[len(b.layers)].bottom, x.bottom-b.t)
		}
	} else {
		n.t *= 2
	}
	n.line += newtons(b.t * s.heavy(b.part.Stock) * b.depth * 1e-9)
	if b.part.Role == part.CounterLayer && len(b.cuts)+len(b.layers) == 0 {
		s.twoLayers(b, append([]stock.Board{own}, list...), axis, try)
		return
	}
	what := fmt.Sprintf("glue two boards together, %s, as a board of its own under boards:", s.long(2*b.t))
	if len(b.cuts) > 0 {
		what = fmt.Sprintf("glue one more layer of %s under it, its joints away from these, layers:", b.part.Stock)
	}
	try(n, what)
}

// twoLayers looks for the thinnest board of which two layers are enough for a counter of one.
func (s *Scene) twoLayers(b board, list []stock.Board, axis int, try func(board, string) bool) {
	for _, x := range list {
		p := *b.part
		p.Stock = x.ID
		n := b
		n.wood, n.t = s.wood(&p, axis, false), 2*mm(x.Thickness)
		if n.wood.e <= 0 || !n.wood.crept {
			continue
		}
		n.line += newtons((n.t*s.heavy(x.ID) - b.t*s.heavy(b.part.Stock)) * b.depth * 1e-9)
		if try(n, fmt.Sprintf("glue two boards of %s together, %s, layers:", x.ID, s.long(n.t))) {
			return
		}
	}
}

// family is a material's name without its thickness.
func family(id string) string { return strings.TrimRight(id, "-0123456789") }

// boardWord is where a job says what board a part is made of.
func (s *Scene) boardWord(p *part.Part) string {
	switch {
	case p.Role == part.Shelf, p.Role == part.FixedShelf && !s.splits(p):
		return "board: under shelves:"
	case p.Role == part.TrayBase:
		return "board: under trays:"
	case p.Role == part.RackShelf:
		return "board: of the rack"
	case p.Role == part.CounterLayer:
		return "layers:"
	}
	return "board: of the case"
}

// splits says that a fixed shelf is the one between two bays, not one of a bay's shelves.
func (s *Scene) splits(p *part.Part) bool { return strings.HasSuffix(p.Local, "-fixed-shelf") }

// onFeet says that a case stands on two pairs of feet.
func (s *Scene) onFeet(o *part.Owner) bool {
	n := 0
	for _, x := range s.All.Feet {
		if x.Owner == o.ID && x.Kind == "foot" {
			n++
		}
	}
	return n == 4
}
