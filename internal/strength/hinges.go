package strength

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/nds"
)

// HingeCount: a door has too few hinges for its weight, its racks and what is in them, or for its
// height.
const HingeCount finding.Code = "hinge-count"

// DoorWide: a door is wider than cup hinges carry, or wider than its hinges stand apart.
const DoorWide finding.Code = "door-wide"

// DoorHeavy: a door with its racks is too heavy for cup hinges at all.
const DoorHeavy finding.Code = "door-heavy"

// HingeScrews: the door's moment pulls the plates' screws out of the side.
const HingeScrews finding.Code = "hinge-screws"

const hingeSource = "published hinge charts, the lesser of each two: 6, 12, 18, 23 kg and 1000, 1524, 2000, 2400 mm for 2, 3, 4, 5 hinges"

func hinges() Rule {
	return Rule{Name: "hinges", Codes: []finding.Code{HingeCount},
		Doc:     "A door has as many hinges as its height and its weight ask for, whichever is more; racks on it and what is in them count as weight.",
		Source:  hingeSource,
		Example: "A door of 9 kg with two hinges.",
		Run:     checkHinges}
}

func doors() Rule {
	return Rule{Name: "doors", Codes: []finding.Code{DoorWide, DoorHeavy, HingeScrews},
		Doc:     "A door on cup hinges is no wider than 600 mm and no wider than its outer hinges stand apart, weighs no more than 15 kg with racks and contents, and its moment, racks included, does not pull the plates' screws out of the side.",
		Source:  "published hinge charts (600 mm; spacing over width); 15 kg common practice, no source; withdrawal NDS 2018 12.2, permanent load",
		Example: "A door 450 mm wide with a rack of 18 kg.",
		Run:     checkDoors}
}

// Limits of cup hinges.
const (
	doorMost = 600.0 // mm wide
	doorKg   = 15.0
)

// leaf is a door as the checks see it.
type leaf struct {
	front        *part.Front
	part         *part.Part
	at, name     string
	wide, high   float64
	hinges       int
	spacing      float64
	kg, rack, in float64 // door, its racks, what is in them
	arm          float64 // of racks and contents behind the door's middle plane
	load         load
	lacks        []string
}

func (l leaf) all() float64 { return l.kg + l.rack + l.in }

// leaves are the doors that swing on upright hinges.
func (s *Scene) leaves() []leaf {
	var list []leaf
	for i := range s.All.Fronts {
		f := &s.All.Fronts[i]
		p := s.parts[f.Part]
		if f.Kind != part.DoorFront || p == nil || len(f.Hinges) == 0 {
			continue
		}
		v := p.Box().Size()
		l := leaf{front: f, part: p, at: s.at(p.Owner, p.Mark), name: s.name(p), wide: mm(v.X), high: mm(v.Z), hinges: len(f.Hinges)}
		l.spacing = mm(slices.Max(f.Hinges) - slices.Min(f.Hinges))
		kg, ok := s.weight(p)
		if !ok {
			l.lacks = append(l.lacks, weightOf(p))
		}
		l.kg = kg
		if h, ok := s.Job.Catalogue.Item(f.Handle); ok && h.Mass != nil {
			l.kg += h.Mass.Kilograms()
		}
		mid := mm(p.Box().Min.Y+p.Box().Max.Y) / 2
		moment := 0.0
		for _, q := range s.riding[f.Motion] {
			if q.Mark == p.Mark {
				continue
			}
			kg, ok := s.weight(q)
			if !ok {
				l.lacks = append(l.lacks, weightOf(q))
			}
			l.rack += kg
			moment += kg * math.Abs(mm(q.Box().Min.Y+q.Box().Max.Y)/2-mid)
		}
		for _, b := range s.inside[f.Motion] {
			x := s.loads[b.ID]
			l.lacks = append(l.lacks, x.lacks...)
			l.in += x.kg
			l.load.assumed = l.load.assumed || x.assumed
			l.load.from += ", " + x.from
			moment += x.kg * math.Abs(mm(b.Box.Min.Y+b.Box.Max.Y)/2-mid)
		}
		if l.rack+l.in > 0 {
			l.arm = moment / (l.rack + l.in)
		}
		list = append(list, l)
	}
	return list
}

// weigh says what a leaf weighs, for the working.
func (s *Scene) weigh(l leaf) string {
	t := fmt.Sprintf("The door weighs %s", s.kg(l.kg))
	if l.rack+l.in > 0 {
		t += fmt.Sprintf(", its racks %s, what is in them %s (%s): %s in all", s.kg(l.rack), s.kg(l.in), strings.TrimPrefix(l.load.from, ", "), s.kg(l.all()))
	}
	return t + "."
}

func (s *Scene) lacking(u *blank, l leaf) bool {
	for _, x := range l.lacks {
		u.add(x, "Give density of the material, weighs: to the goods, or load: to the rack.", l.name, l.at)
	}
	return len(l.lacks) > 0
}

// carried is what n hinges carry in kg and the height in mm that they are enough for.
func carried(n int, wide float64) (kg, high float64) {
	h, m := joinery.HingesCarry(n, L(wide*float64(length.MM)))
	return m.Kilograms(), mm(h)
}

// grams is a mass, rounded up to a gram.
func grams(kg float64) mass.Mass { return mass.Mass(math.Ceil(kg*1000-1e-6)) * mass.Gram }

// lighten says what makes a door that is too heavy for its hinges hang on them: less in its racks where the door and
// the empty racks alone are not too heavy, no racks where the door alone is not, or two leaves in place of one.
func (s *Scene) lighten(l leaf, most float64) string {
	var words []string
	if room := most - l.kg - l.rack; room >= 0.05 && l.in > 0 {
		words = append(words, fmt.Sprintf("put no more than %s in its racks (ratio 1.00)", s.atMost(room)))
	} else if l.rack+l.in > 0 && l.kg <= most {
		words = append(words, fmt.Sprintf("leave its racks away, for they alone bring it to %s (ratio %.2f)", s.kg(l.kg+l.rack), l.kg/most))
	}
	if r := l.all() / 2 / most; s.leavesOf(l) == 1 && r <= 1 {
		words = append(words, l.halves(r))
	}
	if len(words) == 0 {
		words = s.lightest(l, func(k float64) float64 { return (l.kg*k + l.rack + l.in) / most })
	}
	return hint(words)
}

// leastDoor is the thinnest board that takes a hinge's cup: 13 mm and 3 mm of wood behind it (common practice, no source).
const leastDoor = 15.9

// lightest is the remedy of a door of a lighter board, else of a narrower one, by a method that gives the ratio at so many
// times its own weight; nothing where neither is enough.
func (s *Scene) lightest(l leaf, ratio func(k float64) float64) []string {
	own, _ := s.Job.Catalogue.Board(l.part.Stock)
	heavy := func(x stock.Board) float64 {
		m, _ := s.Job.Catalogue.Material(x.Material)
		d, _ := m.Density.Float()
		return d * mm(x.Thickness)
	}
	best, kg := "", heavy(own)
	for _, x := range s.Job.Catalogue.Boards {
		if k := heavy(x); k > 0 && k < kg && mm(x.Thickness) >= leastDoor {
			best, kg = x.ID, k
		}
	}
	if r := ratio(kg / heavy(own)); best != "" && r <= 1 {
		return []string{fmt.Sprintf("make it of %s, board: under doors: (ratio %.2f)", best, r)}
	}
	lo, hi := 0.3, 1.0
	if ratio(lo) > 1 {
		return nil
	}
	for range 30 {
		if mid := (lo + hi) / 2; ratio(mid) <= 1 {
			lo = mid
		} else {
			hi = mid
		}
	}
	less := math.Ceil((1-lo)*l.wide*float64(s.leavesOf(l))/s.step()) * s.step()
	return []string{fmt.Sprintf("make its case narrower, width: %s less (ratio %.2f)", s.long(less), ratio(1-less/l.wide/float64(s.leavesOf(l))))}
}

// halves is the remedy of two leaves in place of one, each with half of what hangs on it, and the ratio then.
func (l leaf) halves(r float64) string {
	shared := ""
	if l.rack+l.in > 0 {
		shared = ", half of its racks on each, left: and right:"
	}
	return fmt.Sprintf("make it two leaves, count: 2%s (ratio %.2f)", shared, r)
}

// leavesOf counts the doors before the opening of one: those of its owner whose edges meet it at its height.
func (s *Scene) leavesOf(l leaf) int {
	n, box := 1, l.part.Box()
	for _, f := range s.of(l.part.Owner).Fronts {
		p := s.parts[f.Part]
		if f.Kind != part.DoorFront || p == l.part {
			continue
		}
		if c := p.Box(); c.Min.Z == box.Min.Z && c.Max.Z == box.Max.Z && (math.Abs(mm(c.Min.X-box.Max.X)) < beside || math.Abs(mm(box.Min.X-c.Max.X)) < beside) {
			n++
		}
	}
	return n
}

func checkHinges(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: HingeCount, source: hingeSource}
	for _, l := range s.leaves() {
		if s.lacking(&unknown, l) {
			continue
		}
		may, high := carried(l.hinges, l.wide)
		x := finding.Finding{Code: HingeCount, At: l.at, Demand: l.all(), Capacity: may, Unit: "kg", Source: hingeSource}
		x.Text = fmt.Sprintf("%s weighs %s with what hangs on it; %d hinges carry %s.", l.name, s.kg(l.all()), l.hinges, s.kg(may))
		if l.high/high > l.all()/may {
			x.Demand, x.Capacity, x.Unit = l.high, high, "mm"
			x.Text = fmt.Sprintf("%s is %s high; %d hinges are enough for %s.", l.name, s.long(l.high), l.hinges, s.long(high))
		}
		x = verdict(x, overload(x.Demand/x.Capacity, l.load.assumed))
		x.Working = []string{s.weigh(l), fmt.Sprintf("%d hinges carry %s and are enough for a door %s high; the worse ratio is %.2f.", l.hinges, s.kg(may), s.exact(high), x.Ratio())}
		if x.Verdict == finding.Fails {
			n := joinery.HingeCount(L(math.Ceil(l.high)*float64(length.MM)), L(math.Ceil(l.wide)*float64(length.MM)), grams(l.all()))
			m, h := carried(n, l.wide)
			x.Hint = fmt.Sprintf("Hang it on %d hinges (ratio %.2f).", n, math.Max(l.all()/m, l.high/h))
			if n > 5 || l.all() > doorKg {
				most, _ := carried(5, l.wide)
				x.Hint = s.lighten(l, math.Min(most, doorKg))
			}
		}
		f.Add(x)
	}
	f.Add(unknown.findings("Whether its hinges are enough", finding.Warning)...)
	return f
}

func checkDoors(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: HingeScrews, source: "NDS 2018 12.2"}
	for _, l := range s.leaves() {
		limit := math.Min(doorMost, l.spacing)
		x := verdict(finding.Finding{Code: DoorWide, At: l.at, Demand: l.wide, Capacity: limit, Unit: "mm", Source: "published hinge charts"}, finding.Warning)
		x.Text = fmt.Sprintf("%s is %s wide; cup hinges take %s.", l.name, s.long(l.wide), s.long(doorMost))
		if l.spacing < doorMost {
			x.Text = fmt.Sprintf("%s is %s wide; its outer hinges stand %s apart, and a door wider than that sags.", l.name, s.long(l.wide), s.long(l.spacing))
		}
		x.Working = []string{fmt.Sprintf("%s against the lesser of %s and %s. Ratio %.2f.", s.exact(l.wide), s.exact(l.spacing), s.exact(doorMost), x.Ratio())}
		if x.Verdict == finding.Fails {
			x.Hint = fmt.Sprintf("Use two leaves, count: 2 (ratio %.2f).", l.wide/2/limit)
			if s.paired(l) || l.wide/2/limit > 1 {
				x.Hint = ""
				n := 4.0
				if s.paired(l) {
					n = 2
				}
				if r := l.wide / n / limit; r <= 1 { // the partition makes them narrower yet
					x.Hint = fmt.Sprintf("Split the bay by a partition, a pair of doors before each half, across: (ratio %.2f).", r)
				}
			}
		}
		f.Add(x)
		if s.lacking(&unknown, l) {
			continue
		}
		x = verdict(finding.Finding{Code: DoorHeavy, At: l.at, Demand: l.all(), Capacity: doorKg, Unit: "kg", Source: "common practice, no source"}, overload(l.all()/doorKg, l.load.assumed))
		x.Text = fmt.Sprintf("%s weighs %s with what hangs on it; cup hinges take %s.", l.name, s.kg(l.all()), s.kg(doorKg))
		x.Working = []string{s.weigh(l), fmt.Sprintf("%s against %s. Ratio %.2f.", s.kg(l.all()), s.kg(doorKg), x.Ratio())}
		if x.Verdict == finding.Fails {
			x.Hint = s.lighten(l, doorKg)
		}
		f.Add(x)
		s.plates(l, &f, &unknown)
	}
	f.Add(unknown.findings("Whether its hinges hold", finding.Note)...)
	return f
}

// paired says that a leaf is one of two that meet.
func (s *Scene) paired(l leaf) bool {
	box := l.part.Box()
	for _, f := range s.of(l.part.Owner).Fronts {
		q := s.parts[f.Part]
		if f.Kind != part.DoorFront || q.Mark == l.part.Mark || f.Hinge == l.front.Hinge {
			continue
		}
		if b := q.Box(); b.Min.Z == box.Min.Z && (b.Min.X > box.Max.X && b.Min.X-box.Max.X < 10*length.MM || box.Min.X > b.Max.X && box.Min.X-b.Max.X < 10*length.MM) {
			return true
		}
	}
	return false
}

// plates judges the pull of the upper hinge on its plate's two screws with the door closed:
// the moment of everything about the hinge line, over the hinges' spacing, and the moment of the
// racks behind the door beside it.
func (s *Scene) plates(l leaf, f *finding.List, unknown *blank) {
	var side *part.Part
	for _, p := range s.of(l.part.Owner).Parts {
		if p.Role != part.Side && p.Role != part.Partition {
			continue
		}
		m := s.motions[l.front.Motion]
		if m == nil {
			return
		}
		if b := p.Box(); m.Pivot.X >= b.Min.X-8*length.MM && m.Pivot.X <= b.Max.X+8*length.MM && b.Min.Z < l.part.Box().Max.Z && b.Max.Z > l.part.Box().Min.Z {
			side = p
		}
	}
	screw := ""
	for _, h := range s.of(l.part.Owner).Hardware {
		if h.For == "hinges" {
			screw = h.ID
		}
	}
	fast, long, ok := s.screw(screw)
	if side == nil || !ok {
		unknown.add("which screws hold its hinge plates", "Give hinge screws with diameter, root and length under hardware:.", l.name, l.at)
		return
	}
	w := s.wood(side, 2, false)
	if w.sg <= 0 {
		unknown.add("the specific gravity of "+w.what, "Give specific-gravity of its material under materials:.", l.name, l.at)
		return
	}
	if l.spacing <= 0 {
		return
	}
	into := math.Min(long-1.5, mm(side.Size[2]))
	per, _ := fast.Withdrawal(w.sg)
	pull := newtons(l.all()) * l.wide / 2 / l.spacing
	twist := newtons(l.rack+l.in) * l.arm / l.spacing
	may := 2 * per * into * float64(nds.Permanent)
	demand := math.Hypot(pull, twist)
	x := verdict(finding.Finding{Code: HingeScrews, At: l.at, Demand: demand, Capacity: may, Unit: "N", Source: "withdrawal NDS 2018 12.2, CD 0.9 (2.3.2); statics"}, overload(demand/may, l.load.assumed))
	x.Text = fmt.Sprintf("The upper hinge of %s is pulled with %s; its plate's two screws hold %s.", l.name, s.force(demand), s.force(may))
	x.Working = []string{s.weigh(l),
		fmt.Sprintf("Pull, by the distance of the outer hinges: %s × %s / 2 / %s = %s.", s.force(newtons(l.all())), s.exact(l.wide), s.exact(l.spacing), s.force(pull)),
		fmt.Sprintf("Racks, by their distance behind the door: %s × %s / %s = %s.", s.force(newtons(l.rack+l.in)), s.exact(l.arm), s.exact(l.spacing), s.force(twist)),
		fmt.Sprintf("Two screws of %s, %s in %s (G %.2f): 2 × %s × %s × 0.9 = %s. Both pulls together by Pythagoras: %s; shear is not counted. Ratio %.2f.", fast.Name, s.exact(into), w.what, w.sg, s.perLong(per), s.exact(into), s.force(may), s.force(demand), x.Ratio())}
	if x.Verdict == finding.Fails {
		x.Hint = hint(s.lighter(l, may))
	}
	f.Add(x)
}

// lighter are the changes that keep a door's hinge plates in the side: less in its racks, or two leaves.
func (s *Scene) lighter(l leaf, may float64) (words []string) {
	pull := func(in, spacing float64) float64 {
		return math.Hypot(newtons(l.kg+l.rack+in)*l.wide/2, newtons(l.rack+in)*l.arm) / spacing
	}
	if l.in > 0 && pull(0, l.spacing) < may {
		lo, hi := 0.0, l.in
		for range 40 {
			if mid := (lo + hi) / 2; pull(mid, l.spacing) <= may {
				lo = mid
			} else {
				hi = mid
			}
		}
		words = append(words, fmt.Sprintf("put no more than %s in its racks (ratio 1.00)", s.atMost(lo)))
	}
	half := math.Hypot(newtons(l.all())/2*l.wide/4, newtons(l.rack+l.in)/2*l.arm) / l.spacing
	if s.leavesOf(l) == 1 && half <= may {
		words = append(words, l.halves(half/may))
	}
	if len(words) == 0 {
		words = s.lightest(l, func(k float64) float64 {
			// Narrower it has less of a lever too, which is not counted.
			return math.Hypot(newtons(l.kg*k+l.rack+l.in)*l.wide/2, newtons(l.rack+l.in)*l.arm) / l.spacing / may
		})
	}
	return words
}

// screw gives a screw or bolt of the list as the method needs it, and its length in mm; false when
// it has no diameter. Bolts bear on their threads (NDS 2018 12.3.7).
func (s *Scene) screw(id string) (nds.Fastener, float64, bool) {
	h, ok := s.Job.Catalogue.Item(id)
	if !ok || h.Length <= 0 {
		return nds.Fastener{}, 0, false
	}
	if h.Kind == "bolt" {
		f := nds.FullBolt(mm(cmp.Or(h.Root, h.Dia)))
		f.Name = h.Name
		return f, mm(h.Length), h.Dia > 0
	}
	if f, ok := nds.Screw(h.Gauge); ok {
		if h.Head > 0 {
			f.Head = mm(h.Head)
		}
		return f, mm(h.Length), true
	}
	f := nds.Fastener{Kind: nds.WoodScrew, Name: h.Name, D: mm(h.Dia), Root: mm(h.Root), Head: mm(h.Head), Tip: 2 * mm(h.Dia)}
	fyb, known := nds.BendingYield(f.D)
	f.Fyb = fyb
	return f, mm(h.Length), known && f.Root > 0
}
