package strength

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/carcass"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/unit"
)

// load is what a bay or top carries, in kg. From says where the figure comes from, in words.
type load struct {
	kg      float64
	full    float64 // what it would be without the most that is assumed for one board, kg; 0 where that changes nothing
	known   bool
	assumed bool
	bare    bool // the practice's: nothing is said of what is there
	from    string
	lacks   []string // what is missing, when it is not known
}

// stored is one kind of goods in one bay, or on one top, as the job says.
type stored struct {
	goods *stock.Goods
	bay   *part.Bay // nil on a top
	owner string
	share float64 // of all of them
	count int     // of them, where they find room; what finds none counts in share only
	how   posture // of those

	put, even float64 // so many are reckoned with here: as they are put away, and shared out
	counted   float64 // the one of the two that its place is proved with
}

// Figures for loads that nobody stated.
const (
	booksKg   = 50 * unit.PSF / unit.Gravity * 1e6 // kg/m²: Architectural Woodwork Standards 2009, 50 lb/ft²
	hookKg    = 24.4                               // kg/m² of hook board, 5 lb/ft²: common practice, no source
	hungKg    = 40.0                               // kg/m of hanging rail, coats of 2 kg, one every 50 mm: common practice, no source
	mostKg    = 200 * unit.Pound                   // on one shelf: Architectural Woodwork Standards 2009
	personKg  = 100.0                              // somebody standing on a counter: common practice, no source
	personWay = 250.0                              // mm square on which they stand
)

// node is a bay of the tree of bays, or a top, on which goods are listed.
type node struct {
	owner, path string // path "" for a top
	goods       []string
	rack        bool // on a door
}

// nodes lists every place of the job that names goods.
func (s *Scene) nodes() []node {
	var list []node
	for _, c := range s.Job.Cases {
		list = append(list, tree(c.ID, "in", c.Spec.Inside)...)
	}
	for _, c := range s.Job.Counters {
		list = append(list, node{c.ID, "", c.Value.Goods, false})
	}
	for _, c := range s.Job.Hutches {
		list = append(list, node{c.ID, "hooks", c.Value.Goods, false})
	}
	for _, c := range s.Job.Standing {
		list = append(list, node{c.ID, "", c.Value.Goods, false})
	}
	for _, g := range s.Job.Goods {
		if o := s.owners[g.Place]; o != nil {
			path := ""
			switch o.Kind {
			case "case":
				path = "in"
			case "hutch":
				path = "hooks"
			}
			if !slices.ContainsFunc(list, func(n node) bool { return n.owner == g.Place && slices.Contains(n.goods, g.ID) }) {
				list = append(list, node{g.Place, path, []string{g.ID}, false})
			}
		}
	}
	return list
}

func tree(owner, path string, b carcass.Bay) []node {
	list := []node{{owner, path, b.Goods, false}}
	for _, kids := range [][]carcass.Bay{b.Across, b.Up} {
		for i, k := range kids {
			list = append(list, tree(owner, fmt.Sprintf("%s-%d", path, i+1), k)...)
		}
	}
	if b.Doors != nil {
		for i, r := range b.Doors.Left {
			list = append(list, node{owner, fmt.Sprintf("%s-left-rack-%d", path, i+1), r.Goods, true})
		}
		for i, r := range b.Doors.Right {
			list = append(list, node{owner, fmt.Sprintf("%s-right-rack-%d", path, i+1), r.Goods, true})
		}
	}
	return list
}

// under gives the bays of a node: those of its path and below it, racks only for a rack.
func (s *Scene) under(n node) []*part.Bay {
	var list []*part.Bay
	id := n.owner + "/" + n.path
	if n.path == "" {
		return nil
	}
	for _, b := range s.of(n.owner).Bays {
		if m := s.motions[b.Moves]; m != nil && m.Kind == part.Swing && !n.rack {
			continue
		}
		if b.ID == id || strings.HasPrefix(b.ID, id+"-") || strings.HasPrefix(b.ID, id+"/") {
			list = append(list, b)
		}
	}
	return list
}

// area is the floor of a bay in m²; of a hook board, its face.
func area(b *part.Bay) float64 {
	v := b.Box.Size()
	if b.Kind == "hook-board" {
		return mm(v.X) * mm(v.Z) / 1e6
	}
	return mm(v.X) * mm(v.Y) / 1e6
}

// carried gives every bay and top its load: stated, else its goods, else the practice's.
func (s *Scene) carried() {
	s.loads, s.tops = map[string]load{}, map[string]load{}
	inBay, onTop := map[string][]*stored{}, map[string][]*stored{}
	for i := range s.where {
		w := &s.where[i]
		if w.bay != nil {
			inBay[w.bay.ID] = append(inBay[w.bay.ID], w)
		} else {
			onTop[w.owner] = append(onTop[w.owner], w)
		}
	}
	for i := range s.All.Bays {
		b := &s.All.Bays[i]
		switch {
		case b.Load > 0:
			s.loads[b.ID] = load{kg: b.Load.Kilograms(), known: true, from: s.stated(b)}
		case len(inBay[b.ID]) > 0:
			s.loads[b.ID] = s.goods(inBay[b.ID])
		case b.Ballast > 0:
			s.loads[b.ID] = load{known: true, from: "nothing but its ballast"}
		default:
			s.loads[b.ID] = s.usual(b)
		}
		if l := s.loads[b.ID]; b.Ballast > 0 {
			l.kg += b.Ballast.Kilograms()
			l.from += ", and ballast of " + s.kg(b.Ballast.Kilograms())
			s.loads[b.ID] = l
		}
	}
	for _, o := range s.All.Owners {
		if list := onTop[o.ID]; len(list) > 0 {
			s.tops[o.ID] = s.goods(list)
		} else {
			s.tops[o.ID] = load{known: true, from: "nothing is put on it"}
		}
	}
}

// goods adds up what is stored in one place. Where they are put away is one way that fits: of it and of an equal share
// for every place that is as good, the heavier counts.
func (s *Scene) goods(list []*stored) load {
	l := load{known: true}
	put, even := 0.0, 0.0
	for _, w := range list {
		if w.goods.Each != nil {
			put += w.put * w.goods.Each.Kilograms()
			even += w.even * w.goods.Each.Kilograms()
		}
	}
	shared := even > put+hair
	var words []string
	for _, w := range list {
		if w.counted = w.put; shared {
			w.counted = w.even
		}
		if w.goods.Each == nil {
			l.known = false
			l.lacks = append(l.lacks, "the weight of "+called(w.goods))
			continue
		}
		if len(sizes(w.goods)) == 0 && w.share < 1 { // of several places any may hold more than its share
			l.known = false
			l.lacks = append(l.lacks, "the size of "+called(w.goods)+", and so how many are put here,")
		}
		l.kg += w.counted * w.goods.Each.Kilograms()
		if w.counted == 0 && len(list) > 1 {
			continue
		}
		words = append(words, fmt.Sprintf("%s × %s at %s", three(w.counted), called(w.goods), s.kg(w.goods.Each.Kilograms())))
		if w.goods.Count < 1 {
			l.assumed = true
			words[len(words)-1] += " (assumed: one, for nobody says how many)"
		}
	}
	l.from = "its goods, as they are put away: "
	if shared {
		l.from = "its goods, shared out: "
	}
	l.from += strings.Join(words, ", ")
	return l
}

func called(g *stock.Goods) string { return cmp.Or(g.Name, g.ID) }

// stated says what a load: of the job means for a bay.
func (s *Scene) stated(b *part.Bay) string {
	switch {
	case s.slid(b):
		return "an equal share of what is stated for all " + b.Kind + " of the bay together"
	case b.Kind == "shelves":
		return "stated, as much on each shelf of the bay"
	}
	return "stated for the bay"
}

// usual is the practice's load on a bay whose goods nobody stated.
func (s *Scene) usual(b *part.Bay) load {
	p := s.Job.Practice
	per, what, source := float64(p.ShelfLoad)/1e9, "shelf-load", "the practice"
	switch {
	case b.Kind == "hook-board":
		per, what, source = hookKg, "hook board", "common practice, no source"
	case b.Moves != "" && b.Most > 0, s.slid(b):
		per, what = float64(p.DrawerLoad)/1e9, "drawer-load"
	case b.Use == part.Books:
		per, what, source = max(per, booksKg), "books", "Architectural Woodwork Standards 2009"
	case b.Use == part.Work:
		per, what = float64(p.CounterLoad)/1e9, "counter-load"
	}
	if per <= 0 {
		return load{lacks: []string{"the load (the practice's " + what + ")"}}
	}
	a := area(b)
	l := load{kg: per * a, known: true, assumed: true, bare: true, from: fmt.Sprintf("assumed: %s of %s on %s (%s)", what, s.perArea(per), s.floor(a), source)}
	if l.kg > mostKg && b.Use != part.Work {
		l.full, l.kg = l.kg, mostKg
		l.from += fmt.Sprintf(", no more than %s on one board (Architectural Woodwork Standards 2009)", s.kg(mostKg))
	}
	return l
}

func (s *Scene) slid(b *part.Bay) bool {
	m := s.motions[b.Moves]
	return m != nil && m.Kind == part.Slide
}

// floor prints an area given in m².
func (s *Scene) floor(a float64) string {
	if s.inch() {
		return three(a*1e6/unit.Foot/unit.Foot) + " ft²"
	}
	return three(a) + " m²"
}

func (s *Scene) perArea(kg float64) string {
	if s.inch() {
		return three(kg*unit.Gravity/1e6/unit.PSF) + " lb/ft²"
	}
	return three(kg) + " kg/m²"
}
