package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// counterRemedies are what makes a counter carry more over a gap or a knee space besides thicker layers: rails, or a case
// under its middle.
func (s *Scene) counterRemedies(b board, try func(board, string) bool) {
	if b.across {
		return
	}
	start := s.whole(b.part).Min.X
	lo, hi := b.middle()-b.reach/2, b.middle()+b.reach/2
	at := func(x float64) L { return start + L(math.Round(x*float64(length.MM))) }
	n := b
	n.supports = halved(b.supports)
	n.reach = way(n.supports)
	if s.legged(b.part.Owner) || s.caseUnder(b, at(lo), at(hi)) != nil {
		return // a partition ends under the stretchers or the top of its case, which it does not bear
	}
	s.tryRails(b, at(lo), at(hi), try)
	try(n, "stand a case under the middle of that way, in the order: of the run")
}

// caseUnder is the case over which a way of a counter lies from side to side, nil for none.
func (s *Scene) caseUnder(b board, lo, hi L) *part.Owner {
	top := s.owners[b.part.Owner]
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind == "case" && !o.Standing && !o.Hung && o.Wall == top.Wall && o.Carcass.Min.X <= lo+oneTwo*length.MM/2 && o.Carcass.Max.X >= hi-oneTwo*length.MM/2 && over(top.Box, o.Carcass) {
			return o
		}
	}
	return nil
}

// besideSide is how far past the middle of a side a rail begins, mm: no less than half of its thickness.
const besideSide = 8.0

// tryRails looks for the lowest pair of rails, of the shop's sticks or of the board of its cases, that is enough under
// a way of a counter between two cases.
func (s *Scene) tryRails(b board, lo, hi L, try func(board, string) bool) {
	if _, jig := (joinery.Shop{Practice: s.Job.Practice, Catalogue: s.Job.Catalogue}).Tool("pocket-jig"); !jig {
		return // by blocks and bolts: what those hold is proved when they are there
	}
	type size struct {
		id       string
		material part.Material
		t, h     L
		words    string
	}
	var list []size
	for _, x := range s.Job.Catalogue.Sticks {
		if (x.Length%length.Inch == 0) != s.inch() || x.Length < hi-lo {
			continue // the other shops' sticks, and those that are too short
		}
		list = append(list, size{x.ID, part.Stick, min(x.Thickness, x.Width), max(x.Thickness, x.Width), fmt.Sprintf("rails: {stick: %s}", x.ID)})
	}
	if x, ok := s.Job.Catalogue.Board(s.Job.Practice.Case); ok && max(x.Length, x.Width) >= hi-lo+2*s.Job.Practice.Trim {
		for h := 90 * length.MM; h <= 250*length.MM; h += 20 * length.MM {
			high := h
			if s.inch() {
				high = h.Up(length.Inch / 2)
			}
			list = append(list, size{x.ID, part.Board, x.Thickness, high, fmt.Sprintf("rails: {height: %s}", s.long(mm(high)))})
		}
	}
	slices.SortStableFunc(list, func(a, b size) int { return int(a.h - b.h) })
	for _, x := range list {
		z := L(s.underside(b.part.Owner) * float64(length.MM))
		q := part.New("rail", part.Rail, "rail", x.id, geom.B(lo, 0, z-x.h, hi, x.t, z), geom.Right, geom.Up)
		q.Material = x.material
		w := s.wood(&q, 0, true)
		heavy := s.heavyStick(&q)
		if w.e <= 0 || heavy <= 0 {
			continue
		}
		ends := s.pocketed(b, &q, lo, hi)
		n := b
		n.railed = [2]float64{b.middle() - b.reach/2 + besideSide, b.middle() + b.reach/2 - besideSide}
		r := layer{name: "rail", wide: mm(x.t), high: mm(x.h), e: w.e, g: w.shear(), f: w.strength(permanent), ends: ends}
		n.beside = []layer{r, r}
		n.line += newtons(2 * mm(x.t) * mm(x.h) * heavy * 1e-9)
		if try(n, fmt.Sprintf("carry it there by rails in front and behind, %s by %s, %s", s.long(mm(x.t)), s.long(mm(x.h)), x.words)) {
			return
		}
	}
}

// heavyStick is the density of a rail's wood in kg/m³, 0 where that is not known.
func (s *Scene) heavyStick(q *part.Part) float64 {
	if q.Material == part.Board {
		return s.heavy(q.Stock)
	}
	st, _ := s.Job.Catalogue.Stick(q.Stock)
	sp, _ := s.Job.Catalogue.SpeciesOf(st.Species)
	d, _ := sp.Density.Float()
	return d
}

// pocketed is what the end of a rail between two cases holds by its two pocket screws in their sides, N: 0 where that
// is not known.
func (s *Scene) pocketed(b board, q *part.Part, lo, hi L) float64 {
	shop := joinery.Shop{Practice: s.Job.Practice, Catalogue: s.Job.Catalogue}
	screw, _ := shop.Screw("pocket", joinery.PocketLength(q.Size[2]))
	least, ends := math.Inf(1), 0
	for i := range s.All.Parts {
		a := &s.All.Parts[i]
		if a.Role != part.Side || s.owners[a.Owner] == nil || s.owners[a.Owner].Wall != s.owners[b.part.Owner].Wall || math.Abs(mm(a.Box().Max.Z)-s.underside(b.part.Owner)) > touching {
			continue
		}
		c := a.Box()
		if m := (c.Min.X + c.Max.X) / 2; min((m-lo).Abs(), (m-hi).Abs()) > oneTwo*length.MM {
			continue
		}
		h, fact, _ := s.holdOf(part.Joint{Kind: part.PocketScrew, Fastener: screw.ID, Count: 2}, a, q)
		if fact != "" {
			return 0
		}
		least, ends = math.Min(least, h.all), ends+1
	}
	if ends < 2 {
		return 0
	}
	return least
}

// lessLine is the load in kg that may stay on a board whose load is spread, by a method that gives its ratio; 0 where
// even its own weight is too much.
func lessLine(b board, ratio func(board) float64) float64 {
	with := func(k float64) board {
		n := b
		n.line = b.own + (b.line-b.own)*k
		n.uneven = slices.Clone(b.uneven)
		for i := range n.uneven {
			n.uneven[i].Line *= k
		}
		return n
	}
	if ratio(with(0)) > 1 {
		return 0
	}
	lo, hi := 0.0, 1.0
	for range 24 {
		if mid := (lo + hi) / 2; ratio(with(mid)) <= 1 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo * b.load.kg
}
