package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/beam"
	"stowright/internal/strength/plate"
)

// DrawerBottom: the bottom of a drawer sags or is stressed too much.
const DrawerBottom finding.Code = "drawer-bottom"

func bottoms() Rule {
	return Rule{Name: "drawer bottoms", Codes: []finding.Code{DrawerBottom},
		Doc:     "The bottom of a drawer, held along four edges, sags no more than 1/16 in for a foot of its shorter side and 1/4 in in all after years, and its stress is within what can be counted on. An assumed load is no more than the slides carry.",
		Source:  "orthotropic plate, Navier's series (Huber; Timoshenko and Woinowsky-Krieger, ch. 11); limit ANSI/KCMA A161.1; " + strengthSource,
		Example: "A bottom of 6 mm plywood, 800 mm by 500 mm, with 40 kg on it.",
		Run:     checkBottoms}
}

// tub is the bottom of a drawer made ready.
type tub struct {
	part       *part.Part
	wood       wood // along x
	t, a, b    float64
	kg         float64
	ex, ey     float64
	fx, fy     float64
	g          float64
	oneWay     bool // carries along x alone, because the other way is not known
	unitStress bool
}

// bend gives the first sag and the greatest stress over what can be counted on. A plate whose
// torsion is weaker than the mean of its two stiffnesses, as plywood's is, sags up to a
// twenty-fifth more at some length than at any greater one: the waves from its two short edges
// add there (Timoshenko and Woinowsky-Krieger, ch. 11: the roots of its equation are complex).
// That is no strength to count on, so the worst of all lengths up to its own is taken.
func (d tub) bend() (sag, ratio float64) {
	q := newtons(d.kg) / (d.a * d.b)
	if d.oneWay {
		// A strip of it as a beam: from above.
		l, e, f := d.a, d.ex, d.fx
		if e <= 0 {
			l, e, f = d.b, d.ey, d.fy
		}
		m := q * l * l / 8
		return 5 * q * l * l * l * l / (32 * e * d.t * d.t * d.t), 6 * m / (d.t * d.t) / (f * countedOn * permanent)
	}
	short, long := math.Min(d.a, d.b), math.Max(d.a, d.b)
	for l := short; ; l *= 1.08 {
		l = math.Min(l, long)
		a, b := l, short
		if d.b > d.a {
			a, b = short, l
		}
		r := plate.Uniform(plate.Board{T: d.t, Ex: d.ex, Ey: d.ey, G: d.g}, a, b, q)
		st := r.At(a/2, b/2)
		sag = math.Max(sag, st.Sag)
		ratio = math.Max(ratio, math.Max(r.Stress(st.Mx)/(d.fx*countedOn*permanent), r.Stress(st.My)/(d.fy*countedOn*permanent)))
		if l == long {
			return sag, ratio
		}
	}
}

// limit is the sag that is allowed.
func (d tub) limit() float64 { return beam.KCMALimit(math.Min(d.a, d.b)) }

// ratio is the worse of sag and stress; creep is of the board.
func (d tub) ratio() float64 {
	sag, stress := d.bend()
	return math.Max(sag*(1+d.wood.creep)/d.limit(), stress)
}

// tubOf measures a drawer's bottom.
func (s *Scene) tubOf(p *part.Part, stockID string, t float64) tub {
	q := *p
	q.Stock = stockID
	x, y := s.wood(&q, 0, false), s.wood(&q, 1, false)
	v := p.Box().Size()
	d := tub{part: p, wood: x, t: t, a: mm(v.X), b: mm(v.Y), ex: x.e, ey: y.e, fx: x.f, fy: y.f, g: x.g}
	if !d.wood.crept {
		d.wood.creep = 0
	}
	if d.g <= 0 && d.ex > 0 {
		d.g = d.ex / 100
	}
	d.oneWay = d.ex <= 0 || d.ey <= 0
	return d
}

func checkBottoms(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: DrawerBottom, source: "orthotropic plate"}
	for i := range s.All.Spans {
		sp := &s.All.Spans[i]
		p, bay := s.parts[sp.Part], s.bays[sp.Bay]
		if p == nil || bay == nil || p.Role != part.BoxBottom {
			continue
		}
		at := s.at(p.Owner, p.Mark)
		d := s.tubOf(p, p.Stock, mm(p.Size[2]))
		across := "the modulus across the grain of " + d.wood.what
		give := "Give modulus-across and strength-across of its material under materials:."
		if d.ex <= 0 && d.ey <= 0 {
			unknown.add("the bending modulus of "+d.wood.what, "Give modulus-along and modulus-across of its material under materials:.", s.name(p), at)
			continue
		}
		if !d.wood.crept {
			unknown.add("the creep of "+d.wood.what, "Give creep of its material under materials:.", s.name(p), at)
			continue
		}
		l := s.loads[bay.ID]
		if !l.known {
			for _, x := range l.lacks {
				unknown.add(x, "Give weighs: to those goods, or load: to the bay.", s.name(p), at)
			}
			continue
		}
		from := l.from
		if l.bare && bay.Most > 0 && l.kg > bay.Most.Kilograms() {
			l.kg = bay.Most.Kilograms()
			from += ", but no more than its slides carry"
		}
		own, ok := s.weight(p)
		if !ok {
			unknown.add(weightOf(p), "Give density of its material under materials:.", s.name(p), at)
			continue
		}
		d.kg = l.kg + own
		sag, stress := d.bend()
		final := sag * (1 + d.wood.creep)
		ratio := math.Max(final/d.limit(), stress)
		if d.oneWay && (round(ratio) > 1 || math.IsInf(ratio, 0) || math.IsNaN(ratio)) {
			unknown.add(across, give, s.name(p), at)
			continue
		}
		if math.IsInf(stress, 0) || math.IsNaN(stress) {
			unknown.add("the bending strength of "+d.wood.what, give, s.name(p), at)
			continue
		}
		x := finding.Finding{Code: DrawerBottom, At: at, Demand: final, Capacity: d.limit(), Unit: "mm", Source: "orthotropic plate, Navier's series; ANSI/KCMA A161.1 (limit); " + d.wood.source}
		x.Text = fmt.Sprintf("%s, %s by %s, %s thick, sags %s under %s after years; %s is allowed.", s.name(p), s.long(d.a), s.long(d.b), s.long(d.t), s.small(final), s.carries(l), s.small(d.limit()))
		if stress > final/d.limit() {
			x.Demand, x.Capacity, x.Unit = stress, 1, "of its strength"
			x.Text = fmt.Sprintf("%s, %s by %s, %s thick, is stressed to %.2f of what can be counted on under %s.", s.name(p), s.long(d.a), s.long(d.b), s.long(d.t), stress, s.carries(l))
		}
		x = verdict(x, finding.Warning)
		how := "A plate held along four edges, free to turn, counted as no stiffer than any shorter one of its width"
		if d.oneWay {
			how = "A strip that carries one way, because the other is not known (from above)"
		}
		x.Working = []string{"Load: " + from + ": " + s.kg(l.kg) + "; own weight " + s.kg(own) + ".",
			fmt.Sprintf("%s, %s thick, E %s from side to side, %s from front to back.", d.wood.what, s.exact(d.t), s.modulus(d.ex), s.modulus(d.ey)), how + ".",
			fmt.Sprintf("First sag %s; after years: %s × (1 + %.2f) = %s; allowed the shorter side over 192, and 1/4 in in all: %s.", s.small(sag), s.small(sag), d.wood.creep, s.small(final), s.small(d.limit())),
			fmt.Sprintf("Stress over what can be counted on: %.2f. Ratio %.2f.", stress, x.Ratio())}
		if x.Verdict == finding.Fails {
			x.Hint = hint(s.stouter(d))
		}
		f.Add(x)
	}
	f.Add(unknown.findings("The bottom", finding.Note)...)
	return f
}

// stouter names the thinnest board of the list that is enough for a drawer's bottom, and two drawers
// in place of one.
func (s *Scene) stouter(d tub) []string {
	var words []string
	stuff, _ := s.Job.Catalogue.Board(d.part.Stock)
	var boards []stock.Board
	for _, x := range s.Job.Catalogue.Boards {
		if mm(x.Thickness) > d.t+0.5 && family(x.Material) == family(stuff.Material) {
			boards = append(boards, x)
		}
	}
	order.Stable(boards, func(a, b stock.Board) int { return int(a.Thickness - b.Thickness) })
	for _, x := range boards {
		n := s.tubOf(d.part, x.ID, mm(x.Thickness))
		n.kg = d.kg
		if r := n.ratio(); !n.oneWay && n.wood.crept && r <= 1 {
			words = append(words, fmt.Sprintf("make it of %s, %s thick, box-bottom: and box-bottom-heavy: under practice: (ratio %.2f)", x.ID, s.long(n.t), r))
			break
		}
	}
	n := d
	n.a, n.kg = d.a/2, d.kg/2
	if r := n.ratio(); r <= 1 {
		words = append(words, fmt.Sprintf("use two drawers side by side, half as wide, across: of the bay (ratio %.2f)", r))
	}
	own, _ := s.weight(d.part)
	// Sag and stress are in proportion to the load.
	if most := d.kg/d.ratio() - own; len(words) == 0 && most > 0 {
		words = append(words, fmt.Sprintf("keep no more than %s in it (ratio 1.00)", s.atMost(most)))
	}
	return words
}
