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
	if own, _ := s.Job.Catalogue.Board(b.part.Stock); b.wood.other > 0 && own.Grain == "none" {
		n := b
		n.wood.e, n.wood.f, n.wood.across, n.wood.crossF = b.wood.other, b.wood.otherF, b.wood.e, b.wood.f
		try(n, fmt.Sprintf("lay its grain along the span, grain: along-length of %s under boards:", own.ID))
	}
	s.tryStrip(b, try)
	s.tryThicker(b, try)
	if o := s.owners[b.part.Owner]; b.part.Role == part.Bottom && len(b.supports) == 2 && o != nil && s.onFeet(o) {
		n := b
		n.supports = halved(b.supports)
		n.reach = way(n.supports)
		try(n, "put a pair of feet under its middle, pairs: 3 under stands-on:")
	}
	if b.part.Role == part.CounterLayer {
		s.counterRemedies(b, try)
	}
	switch b.part.Role {
	case part.BaseRail:
		n := b
		n.supports = halved(b.supports)
		n.reach = way(n.supports)
		try(n, fmt.Sprintf("put its rungs closer, rungs: %s under bases:", s.long(math.Floor(b.reach/2/s.step())*s.step())))
	case part.Shelf:
		if r := s.bearsPartition(b, ratio); r <= 1 {
			half := s.parted(b)
			if n := math.Max(ratio(half), r); n <= 1 {
				words = append(words, fmt.Sprintf("put a partition in the middle, and a shelf on each side of it, across: of the bay (ratio %.2f)", n))
			}
		}
	case part.FixedShelf:
		n := b
		n.supports = halved(b.supports)
		n.reach = way(n.supports)
		try(n, "put a partition under its middle, across: of the bay below")
	}
	s.shorterSpan(b, ratio, try)
	switch b.part.Role {
	case part.RackShelf, part.TrayBase, part.Bottom, part.FixedShelf, part.Shelf:
		if len(words) == 0 && b.thing == 0 && len(b.points)+len(b.stands) == 0 {
			if kg := lessLine(b, ratio); kg > 0 {
				words = append(words, fmt.Sprintf("keep no more than %s on it (ratio 1.00)", s.atMost(kg)))
			}
		}
	}
	return words
}

// shorterSpan looks for the longest span at which a board is enough, where the job has a word for its width.
func (s *Scene) shorterSpan(b board, ratio func(board) float64, try func(board, string) bool) {
	bench := b.part.Role == part.CounterLayer && s.legged(b.part.Owner)
	switch b.part.Role {
	case part.Shelf, part.FixedShelf, part.Bottom:
	default:
		if !bench {
			return
		}
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
			} else if b.load.full > b.load.kg { // no more than is assumed for one board, but no less for its area
				n.line = b.own + (b.line-b.own)*math.Min(b.load.full/b.load.kg, b.length/n.length)
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
			reach := math.Floor(lo*b.reach/s.step()) * s.step()
			tape, word := 0.5, "width"
			if s.inch() {
				tape = unit.Inch / 32
			}
			if bench {
				word = "length"
			}
			try(short(reach/b.reach), fmt.Sprintf("make its span %s, %s: %s less", s.long(reach), word, s.long(math.Ceil((b.reach-reach)/tape-0.01)*tape)))
		}
	}
}

// step is by what an advised size is rounded, mm: 5 mm or 1/4 in.
func (s *Scene) step() float64 {
	if s.inch() {
		return unit.Inch / 4
	}
	return 5
}

// parted is one of two loose shelves with a partition between them.
func (s *Scene) parted(b board) board {
	n := b
	t := b.t
	for _, p := range s.of(b.part.Owner).Parts {
		if p.Role == part.Side {
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
	if b.load.full > b.load.kg {
		n.line = b.own + (n.line-b.own)*math.Min(b.load.full/b.load.kg, b.length/n.length)
	}
	return n
}

// bearsPartition is the ratio of the board that a partition in the middle of a loose shelf's bay would stand on, with what that
// brings it: its own weight, and of each shelf half; 0 where that board lies on the floor.
func (s *Scene) bearsPartition(b board, ratio func(board) float64) float64 {
	shelf := b.part.Box()
	if s.boards == nil {
		s.boards = s.carriers(&blank{})
	}
	var below *board
	for _, x := range s.boards {
		c := x.part.Box()
		if x.part.Owner != b.part.Owner || x.part.Role != part.Bottom && x.part.Role != part.FixedShelf || c.Max.Z > shelf.Min.Z || c.Min.X > shelf.Min.X || c.Max.X < shelf.Max.X {
			continue
		}
		if below == nil || c.Max.Z > below.part.Box().Max.Z {
			n := x
			below = &n
		}
	}
	if below == nil {
		for _, p := range s.of(b.part.Owner).Parts {
			if p.Role == part.Bottom && s.spanning(p) {
				return math.Inf(1) // what it bears is not known
			}
		}
		return 0
	}
	force, top := 0.0, mm(shelf.Max.Z)
	for _, x := range s.boards {
		c := x.part.Box()
		if x.part.Owner != b.part.Owner || x.part.Role != part.Shelf || c.Min.Z < below.part.Box().Max.Z || c.Min.X != shelf.Min.X || c.Max.X != shelf.Max.X {
			continue
		}
		force += (x.line*x.length + x.thing) / 2
		top = math.Max(top, mm(c.Max.Z))
	}
	stock := ""
	for _, p := range s.of(b.part.Owner).Parts {
		if p.Role == part.Side {
			stock = p.Stock
		}
	}
	board, _ := s.Job.Catalogue.Board(stock)
	t := mm(board.Thickness)
	// It goes up to the next board, which is no further than as much again.
	force += newtons(1.5 * (top - mm(below.part.Box().Max.Z)) * mm(shelf.Max.Y-shelf.Min.Y) * t * s.heavy(stock) * 1e-9)
	n := *below
	n.stands = append(slices.Clone(below.stands), stand{at: mm((shelf.Min.X+shelf.Max.X)/2 - below.part.Box().Min.X), wide: math.Max(t, 1), force: force, name: "partition"})
	return ratio(n)
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
	for h := 2 * s.step(); h <= 120; h += s.step() {
		n := b
		n.front = []strip{{name: "strip", wide: wide, high: h, drop: (h + b.t) / 2, e: e, f: f * countedOn * permanent, g: beam.ShearModulus(e)}}
		n.line += newtons(wide * h * heavy * 1e-9)
		if try(n, fmt.Sprintf("glue a strip of %s %s by %s under its front edge, such a stick under sticks:, strip: under practice: and strip: yes under shelves:", sp.Name, s.long(wide), s.long(h))) {
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
	if len(b.cuts)+len(b.layers) > 0 {
		s.unjointed(b, try)
		if len(b.cuts) == 0 { // where the joints of more would come only the counter's own layout tells
			s.moreLayers(b, try)
		}
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
	case part.Shelf, part.CounterLayer:
	case part.FixedShelf:
		if s.splits(b.part) {
			return // it is of the case's board
		}
	default:
		return // the whole case would be twice as thick
	}
	n := b
	n.t *= 2
	n.line += newtons(b.t * s.heavy(b.part.Stock) * b.depth * 1e-9)
	if b.part.Role == part.CounterLayer {
		s.severalLayers(b, append([]stock.Board{own}, list...), axis, try)
		return
	}
	try(n, fmt.Sprintf("glue two boards together, %s, as a board of its own under boards:", s.long(2*b.t)))
}

// moreLayers looks for how many more layers of its board a counter of several layers needs, three at the most.
func (s *Scene) moreLayers(b board, try func(board, string) bool) {
	n := b
	for k := 1; k <= 3; k++ {
		bottom := -b.t
		for _, x := range n.layers {
			bottom = math.Min(bottom, x.bottom-b.t)
		}
		n.layers = append(slices.Clone(n.layers), layer{name: "another layer", wide: b.depth, high: b.t, bottom: bottom, e: b.wood.e, g: b.wood.shear(), f: b.wood.strength(permanent)})
		n.line += newtons(b.t * s.heavy(b.part.Stock) * b.depth * 1e-9)
		if try(n, fmt.Sprintf("glue %s of %s under it, layers:", many(k, "more layer"), b.part.Stock)) {
			return
		}
	}
}

// unjointed looks for the thinnest board that comes long enough for a jointed counter to need no joints, as many layers
// of it as there are.
func (s *Scene) unjointed(b board, try func(board, string) bool) {
	if len(b.cuts) == 0 {
		return
	}
	trim := 2 * mm(s.Job.Practice.Trim)
	var list []stock.Board
	for _, x := range s.Job.Catalogue.Boards {
		if x.Grain != "along-width" && mm(x.Length)-trim >= b.length && mm(x.Width)-trim >= b.depth && x.Thickness > 0 && mm(x.Thickness) >= 0.9*b.t {
			list = append(list, x)
		}
	}
	order.Stable(list, func(a, c stock.Board) int { return int(a.Thickness - c.Thickness) })
	for _, x := range list {
		p := *b.part
		p.Stock = x.ID
		n := b
		n.cuts = nil
		n.wood, n.t = s.wood(&p, 0, false), mm(x.Thickness)
		if n.wood.e <= 0 || !n.wood.crept || n.wood.f <= 0 {
			continue
		}
		n.layers = nil
		for k := range b.layers {
			n.layers = append(n.layers, layer{name: "layer", wide: b.depth, high: n.t, bottom: -float64(k+1) * n.t, e: n.wood.e, g: n.wood.shear(), f: n.wood.strength(permanent)})
		}
		n.line += newtons((n.t*s.heavy(x.ID) - b.t*s.heavy(b.part.Stock)) * b.depth * float64(1+len(b.layers)) * 1e-9)
		if try(n, fmt.Sprintf("make it without joints, all layers of %s, layers:", x.ID)) {
			return
		}
	}
}

// severalLayers looks for the fewest layers, four at the most, of the thinnest board that is enough for a counter of one.
func (s *Scene) severalLayers(b board, list []stock.Board, axis int, try func(board, string) bool) {
	for k := 2; k <= 4; k++ {
		for _, x := range list {
			p := *b.part
			p.Stock = x.ID
			n := b
			n.wood, n.t = s.wood(&p, axis, false), float64(k)*mm(x.Thickness)
			if n.wood.e <= 0 || !n.wood.crept {
				continue
			}
			n.line += newtons((n.t*s.heavy(x.ID) - b.t*s.heavy(b.part.Stock)) * b.depth * 1e-9)
			if try(n, fmt.Sprintf("glue %s boards of %s together, %s, layers:", few(k), x.ID, s.long(n.t))) {
				return
			}
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
	for _, x := range s.of(o.ID).Feet {
		if x.Kind == "foot" {
			n++
		}
	}
	return n == 4
}
