package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
)

// FootLoad: a foot or castor carries more than it is rated for.
const FootLoad finding.Code = "foot-load"

// CastorBrake: a case with drawers, trays or doors rolls away from the hand that opens it.
const CastorBrake finding.Code = "castor-brake"

const brakeSource = "common practice, no source"

func feet() Rule {
	return Rule{Name: "feet", Codes: []finding.Code{FootLoad, CastorBrake},
		Doc:     "Every foot and castor carries its share of the case, its contents and the counter over it, as under a stiff case, within its rating; under a base each case goes to the feet nearest to its sides. A castor counts for a third more, because three of four stand on an uneven floor. A case on castors has brakes on at least two of them; see tipping for its drawers.",
		Source:  "statics; the rating of the foot, as the list gives it; brakes " + brakeSource,
		Example: "A case with 300 kg on four feet rated at 50 kg.",
		Run:     checkFeet}
}

// underPartition gives what the feet right under a partition take of it, each an equal share, in kg: more than their
// share of the whole where the bottom brings it to them. The name is the partition's.
func (s *Scene) underPartition(owner string, list []part.Foot) (most float64, where int, by string, known bool) {
	for _, p := range s.of(owner).Parts {
		if p.Role != part.Bottom || p.Moves != "" {
			continue
		}
		on, of := s.partitionsOn(p)
		if len(of.lacks) > 0 {
			return 0, 0, "", false
		}
		for _, x := range on {
			var under []int
			for k, f := range list {
				if math.Abs(mm(f.At.X-p.Box().Min.X)-x.at) < oneTwo {
					under = append(under, k)
				}
			}
			if n := len(under); n > 0 && x.force/newtons(1)/float64(n) > most {
				most, where, by = x.force/newtons(1)/float64(n), under[0], x.name
			}
		}
	}
	return most, where, by, most > 0
}

func checkFeet(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: FootLoad, source: "the rating of the foot"}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "case" && o.Kind != "counter" && o.Kind != "base" || o.Standing {
			continue
		}
		var list []part.Foot
		for _, x := range s.of(o.ID).Feet {
			if x.Kind != "shim" {
				list = append(list, x)
			}
		}
		if len(list) == 0 {
			continue
		}
		at := s.at(o.ID, "")
		if list[0].Kind == "castor" && o.Kind == "case" {
			f.Add(s.braked(o, list))
		}
		if list[0].Rating <= 0 {
			unknown.add("the rating of "+list[0].Hardware, "Give rating: to the foot or castor under hardware:.", o.Name, at)
			continue
		}
		if o.Kind == "base" {
			s.underBase(o, list, &f, &unknown)
			continue
		}
		l := s.gross(o.ID)
		what := "Case, contents and the counter over it"
		if o.Kind == "counter" {
			l, what = s.bench(o), "Bench, what stands on it and the hook board"
		}
		if !l.known {
			for _, x := range l.lacks {
				unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", o.Name, at)
			}
			continue
		}
		own, _ := s.bodies(o.ID, false)
		in, _, _ := s.contents(o.ID, false)
		c := sum(append(own, in...))
		worst, where := 0.0, 0
		for k, share := range planted(list, c.x, c.y) {
			if share > worst {
				worst, where = share, k
			}
		}
		demand := l.kg * worst
		note, more := "", ""
		if list[0].Kind == "castor" {
			demand, note, more = demand*4/3, ", on three of four castors", " × 4 / 3"
		}
		took := fmt.Sprintf("%s × %.3f%s = %s", s.kg(l.kg), worst, more, s.kg(demand))
		if kg, k, by, known := s.underPartition(o.ID, list); known && kg > demand {
			demand, where, note = kg, k, ", under a partition"
			took = fmt.Sprintf("the %s that stands there brings %s, between the feet under it", by, s.kg(kg))
		}
		may := list[where].Rating.Kilograms()
		x := verdict(finding.Finding{Code: FootLoad, At: at, Demand: demand, Capacity: may, Unit: "kg", Source: s.sourceOf(list[where].Hardware) + "; statics"}, overload(demand/may, l.assumed))
		x.Text = fmt.Sprintf("The most loaded of %d feet of %s carries %s of %s; it is rated at %s.", len(list), o.Name, s.kg(demand), s.carries(l), s.kg(may))
		x.Working = []string{fmt.Sprintf("%s: %s.", what, s.kg(l.kg)), fmt.Sprintf("The foot at %s along takes its share%s: %s. Ratio %.2f.", s.exact(mm(list[where].At.X)), note, took, x.Ratio())}
		if l.assumed {
			x.Working = append([]string{"Some of its load is assumed, by the practice."}, x.Working...)
		}
		if x.Verdict == finding.Fails {
			var words []string
			if o.Kind == "case" && list[0].Kind == "foot" {
				// More pairs, evenly between the outer ones.
				for k := len(list)/2 - 1; k <= carcass.MostPairs-2; k++ {
					n := inPairs(list, k)
					if mm(n[2].At.X-n[0].At.X) < mm(footRoom) {
						break
					}
					if r := l.kg * slices.Max(planted(n, c.x, c.y)) / may; r <= 1 {
						words = append(words, fmt.Sprintf("put it on %d feet, pairs: %d under stands-on: (ratio %.2f)", len(n), len(n)/2, r))
						break
					}
				}
			}
			for _, h := range s.Job.Catalogue.Hardware {
				if h.Kind == list[where].Kind && h.Rating != nil && h.Rating.Kilograms() >= demand && (h.Sold == "both" || h.Sold == s.Job.Practice.Unit) {
					word := fmt.Sprintf("foot: %s under stands-on:", h.ID)
					if o.Kind == "counter" {
						word = fmt.Sprintf("feet: %s under free:", h.ID)
					}
					words = append(words, fmt.Sprintf("take %s, %s (ratio %.2f)", h.Name, word, demand/h.Rating.Kilograms()))
					break
				}
			}
			if o.Kind == "case" {
				if less := s.lighterOn(o, list, may, l.kg); less > 0 {
					words = append(words, fmt.Sprintf("put %s less into it (ratio 1.00)", s.kg(less)))
				}
			}
			x.Hint = hint(words)
		}
		f.Add(x)
	}
	f.Add(unknown.findings("What its feet carry", finding.Note)...)
	return f
}

// lighterOn is how much less in a case, from each bay alike, lets its most loaded foot carry no more than it may, kg; 0 where
// it is too heavy empty.
func (s *Scene) lighterOn(o *part.Owner, list []part.Foot, may, all float64) float64 {
	own, _ := s.bodies(o.ID, false)
	in, _, _ := s.contents(o.ID, false)
	goods := sum(in).kg
	most := func(k float64) float64 {
		with := append([]body{}, own...)
		for _, b := range in {
			b.kg *= k
			with = append(with, b)
		}
		c := sum(with)
		kg := (all - goods*(1-k)) * slices.Max(planted(list, c.x, c.y))
		if list[0].Kind == "castor" {
			kg *= 4.0 / 3
		}
		return kg
	}
	if most(0) > may {
		return 0
	}
	lo, hi := 0.0, 1.0
	for range 24 {
		if mid := (lo + hi) / 2; most(mid) <= may {
			lo = mid
		} else {
			hi = mid
		}
	}
	return goods * (1 - lo)
}

// underBase judges the most loaded foot of a base: each case brings a half of all that it bears by either side, to the feet
// that are nearest to it in front and behind, shared by where its middle is; the base itself bears on all alike.
func (s *Scene) underBase(o *part.Owner, list []part.Foot, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	own, lacks := s.bodies(o.ID, false)
	took := make([]float64, len(list))
	for i := range took {
		took[i] = sum(own).kg / float64(len(list))
	}
	assumed := false
	var on []string
	for i := range s.All.Owners {
		c := &s.All.Owners[i]
		if b := s.baseOf(c.ID); c.Kind != "case" || c.Standing || b == nil || b.ID != o.ID {
			continue
		}
		l := s.gross(c.ID)
		lacks, assumed = append(lacks, l.lacks...), assumed || l.assumed
		on = append(on, fmt.Sprintf("%s brings %s", c.Name, s.kg(l.kg)))
		near := nearest(list, c.Carcass.Min.X, c.Carcass.Max.X)
		var feet []part.Foot
		for _, k := range near {
			feet = append(feet, list[k])
		}
		own, _ := s.bodies(c.ID, false)
		in, _, _ := s.contents(c.ID, false)
		m := sum(append(own, in...))
		for k, share := range planted(feet, m.x, m.y) {
			took[near[k]] += l.kg * math.Max(share, 0)
		}
	}
	if len(lacks) > 0 {
		for _, x := range lacks {
			unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", o.Name, at)
		}
		return
	}
	all := 0.0
	for _, kg := range took {
		all += kg
	}
	most := slices.Max(took)
	where := list[slices.Index(took, most)]
	may := where.Rating.Kilograms()
	x := verdict(finding.Finding{Code: FootLoad, At: at, Demand: most, Capacity: may, Unit: "kg", Source: s.sourceOf(where.Hardware) + "; statics"}, overload(most/may, assumed))
	some := ""
	if assumed {
		some = ", some of it assumed"
	}
	x.Text = fmt.Sprintf("The most loaded of %d feet of %s carries %s%s; it is rated at %s.", len(list), o.Name, s.kg(most), some, s.kg(may))
	x.Working = []string{fmt.Sprintf("%s; the base %s.", joined(on), s.kg(sum(own).kg)), fmt.Sprintf("Each case by the feet nearest to its sides. The foot at %s along takes %s. Ratio %.2f.", s.exact(mm(where.At.X)), s.kg(most), x.Ratio())}
	if x.Verdict == finding.Fails {
		var words []string
		for _, h := range s.Job.Catalogue.Hardware {
			if h.Kind == "foot" && h.Rating != nil && h.Rating.Kilograms() >= most && (h.Sold == "both" || h.Sold == s.Job.Practice.Unit) {
				words = append(words, fmt.Sprintf("take %s, foot: %s under practice: (ratio %.2f)", h.Name, h.ID, most/h.Rating.Kilograms()))
				break
			}
		}
		x.Hint = hint(append(words, fmt.Sprintf("put %s less into what stands on it (ratio 1.00)", s.kg((most-may)/most*all))))
	}
	f.Add(x)
}

// nearest gives the places in a list of the feet nearest to two lines across, those at the same place along.
func nearest(list []part.Foot, lines ...L) (at []int) {
	for _, x := range lines {
		best := list[0].At.X
		for _, f := range list {
			if (f.At.X - x).Abs() < (best - x).Abs() {
				best = f.At.X
			}
		}
		for k, f := range list {
			if f.At.X == best && !slices.Contains(at, k) {
				at = append(at, k)
			}
		}
	}
	return at
}

// mostPairs of feet, and footRoom from one to the next: past that a stronger foot is the better answer.
const (
	mostPairs = 5
	footRoom  = 150 * length.MM
)

// pairs is how many pairs of feet a case needs so that the most loaded has something in hand, no more than there is room
// for; 0 where as many as its width asks for are enough, or no number is.
func (s *Scene) pairs(o *part.Owner) int {
	var list []part.Foot
	for _, x := range s.of(o.ID).Feet {
		if x.Kind == "foot" {
			list = append(list, x)
		}
	}
	if len(list) < 4 || list[0].Rating <= 0 {
		return 0
	}
	l := s.gross(o.ID)
	if !l.known {
		return 0
	}
	own, _ := s.bodies(o.ID, false)
	in, _, _ := s.contents(o.ID, false)
	c := sum(append(own, in...))
	lo, hi := list[0].At.X, list[0].At.X
	for _, f := range list {
		lo, hi = min(lo, f.At.X), max(hi, f.At.X)
	}
	enough := 0
	for n := len(list) / 2; n <= mostPairs && (hi-lo)/L(n-1) >= footRoom; n++ {
		r := l.kg * slices.Max(planted(inPairs(list, n-2), c.x, c.y)) / list[0].Rating.Kilograms()
		if r <= inHand {
			return n
		}
		if r <= 1 && enough == 0 {
			enough = n
		}
	}
	return enough
}

// braked says whether a case on castors stands still when its brakes are on.
func (s *Scene) braked(o *part.Owner, list []part.Foot) finding.Finding {
	n := 0
	for _, x := range list {
		if h, ok := s.Job.Catalogue.Item(x.Hardware); ok && h.Locks {
			n++
		}
	}
	x := verdict(finding.Finding{Code: CastorBrake, At: s.at(o.ID, ""), Demand: 2, Capacity: float64(n), Unit: "brakes", Source: brakeSource}, finding.Warning)
	bar := ""
	if s.oneAtATime(o.ID) {
		bar = " A bar lets out one drawer at a time."
	}
	x.Text = fmt.Sprintf("%d of the %d castors of %s have brakes; two are the least.%s", n, len(list), o.Name, bar)
	x.Working = []string{"Put the brakes on before a drawer is pulled. " + x.Text}
	if x.Verdict == finding.Fails {
		for _, h := range s.Job.Catalogue.Hardware {
			if h.Kind == "castor" && h.Locks && h.Rating != nil && h.Rating.Kilograms() >= list[0].Rating.Kilograms() && (h.Sold == "both" || h.Sold == s.Job.Practice.Unit) {
				x.Hint = fmt.Sprintf("Take %s, foot: %s under stands-on: (ratio %.2f).", h.Name, h.ID, 2/float64(len(list)))
				break
			}
		}
	}
	return x
}

// inPairs are the feet at the corners of a case with so many pairs more between them.
func inPairs(list []part.Foot, pairs int) []part.Foot {
	lo, hi := list[0].At, list[0].At
	for _, f := range list {
		lo.X, hi.X = min(lo.X, f.At.X), max(hi.X, f.At.X)
		lo.Y, hi.Y = min(lo.Y, f.At.Y), max(hi.Y, f.At.Y)
	}
	var out []part.Foot
	for k := range pairs + 2 {
		f := list[0]
		f.At.X = lo.X + (hi.X-lo.X)*L(k)/L(pairs+1)
		for _, y := range []L{lo.Y, hi.Y} {
			f.At.Y = y
			out = append(out, f)
		}
	}
	return out
}

// bench is all that a free bench bears on its feet: itself, the practice's load on it or its goods,
// whichever is more, the loads at points, and what stands on it.
func (s *Scene) bench(o *part.Owner) load {
	l := load{known: true, assumed: true}
	ids := []string{o.ID}
	for i := range s.Room.Seats {
		if x := &s.Room.Seats[i]; x.On == o.ID {
			ids = append(ids, x.ID)
		}
	}
	for _, id := range ids {
		own, lacks := s.bodies(id, false)
		in, missing, _ := s.contents(id, false)
		t := sum(own)
		l.kg += t.kg + s.hardware(id, t.kg) + sum(in).kg
		l.lacks = append(l.lacks, lacks...)
		l.lacks = append(l.lacks, missing...)
	}
	v := o.Carcass.Size()
	top := s.tops[o.ID]
	l.lacks = append(l.lacks, top.lacks...)
	l.kg += math.Max(float64(s.Job.Practice.CounterLoad)/1e9*mm(v.X)*mm(v.Y)/1e6, top.kg)
	for _, c := range s.Job.Counters {
		if c.ID == o.ID {
			for _, x := range c.Value.PointLoads {
				l.kg += x.Mass.Kilograms()
			}
		}
	}
	l.known = len(l.lacks) == 0
	return l
}

// planted is how a load with its centre at (x, y) is shared by feet under a stiff case.
func planted(list []part.Foot, x, y float64) []float64 {
	n := float64(len(list))
	var mx, my float64
	for _, f := range list {
		mx += mm(f.At.X) / n
		my += mm(f.At.Y) / n
	}
	var xx, yy float64
	for _, f := range list {
		xx += (mm(f.At.X) - mx) * (mm(f.At.X) - mx)
		yy += (mm(f.At.Y) - my) * (mm(f.At.Y) - my)
	}
	out := make([]float64, len(list))
	for i, f := range list {
		out[i] = 1 / n
		if xx > 1 {
			out[i] += (x - mx) * (mm(f.At.X) - mx) / xx
		}
		if yy > 1 {
			out[i] += (y - my) * (mm(f.At.Y) - my) / yy
		}
	}
	return out
}
