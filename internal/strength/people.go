package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength/lift"
	"stowright/internal/strength/reach"
	"stowright/internal/strength/unit"
)

// OutOfReach: goods that are used often lie where a user does not get at them.
const OutOfReach finding.Code = "out-of-reach"

// LiftIndex: a thing is too heavy for one person to lift where it lies.
const LiftIndex finding.Code = "lift-index"

// OnePerson: a case is too heavy for one person to carry or hang.
const OnePerson finding.Code = "one-person-lift"

const reachSource = "shares of the body's height, common practice, no source; with a wheelchair ADA 2010 308.2 and 308.3"

func reaching() Rule {
	return Rule{Name: "reach", Codes: []finding.Code{OutOfReach},
		Doc:     "Goods that the job puts in a bay lie where the shortest user gets at them: daily ones between knee and eye, weekly and monthly ones within the reach of a stretched arm; with a wheelchair daily and weekly ones within the range of ADA 308, forward or from beside, over what stands before them. Seasonal ones may need a step.",
		Source:  reachSource,
		Example: "Drills that are used daily on a shelf at 1900 mm, for a user of 1600 mm.",
		Run:     checkReach}
}

// up is how high a height in the frame of a wall, which counts from the floor at its left end, is above the floor
// under the middle of a box, mm.
func (s *Scene) up(wall string, b part.Box, z L) float64 {
	w := s.Room.Wall(wall)
	if w == nil {
		return mm(z)
	}
	return mm(z - w.FloorAt(min(max(0, (b.Min.X+b.Max.X)/2), w.Length), min(0, (b.Min.Y+b.Max.Y)/2)))
}

// hold is the height of the hands on goods in a bay above the floor, mm: half their height above the bay's own.
func (s *Scene) hold(w stored) (z float64, ok bool) {
	o := s.owners[w.owner]
	base := 0.0
	switch {
	case o == nil:
		return 0, false
	case w.bay != nil:
		box := w.bay.Box
		if w.bay.Hung {
			return s.up(o.Wall, box, (box.Min.Z+box.Max.Z)/2), true
		}
		base = s.up(o.Wall, box, box.Min.Z)
	case o.Kind == "counter":
		base = s.up(o.Wall, o.Box, o.Box.Max.Z)
	default:
		return 0, false
	}
	if w.goods.Tall != nil {
		base += mm(*w.goods.Tall) / 2
	}
	return base, true
}

// arm is how high goods lie, and between which heights somebody gets at them, mm; words says who.
type arm struct {
	z, low, most float64
	words        string
}

// reached gives the reach that goods in a place ask for: asked is no where they may lie anywhere, known is no
// where nobody says how tall the shortest user is.
func (s *Scene) reached(w stored) (a arm, asked, known bool) {
	z, ok := s.hold(w)
	switch w.goods.Used {
	case "daily", "weekly", "monthly":
	default: // seasonal, or nobody says how often: a step may be needed
		return a, false, true
	}
	p := s.Job.File.People
	a.z = z
	switch {
	case !ok:
		return a, false, true
	case p.Wheelchair && w.goods.Used != "monthly":
		depth, over := s.before(w)
		r, ok := reach.Forward(depth)
		if !ok {
			r.High = 0
		}
		a.most, a.low, a.words = r.High, r.Low, "ADA 2010 308.2, over "+s.long(depth)
		if r, ok := reach.Side(over, depth); ok && r.High > a.most {
			a.most, a.low, a.words = r.High, r.Low, "ADA 2010 308.3, from beside, over "+s.long(depth)
		}
	case p.Shortest == nil:
		return a, true, false
	case w.goods.Used == "daily":
		a.most, a.low, a.words = 0.93*mm(*p.Shortest), 0.285*mm(*p.Shortest), "between knee and eye of the shortest user"
	default:
		a.most, a.words = 1.2*mm(*p.Shortest), "the stretched arm of the shortest user"
	}
	return a, true, true
}

func checkReach(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: OutOfReach, source: reachSource}
	seen := map[string]bool{}
	for _, w := range s.where {
		r, asked, known := s.reached(w)
		if !asked {
			continue
		}
		at := s.at(w.owner, "") + "/" + w.goods.ID
		if w.bay != nil {
			at = s.at(w.owner, w.bay.ID) + "/" + w.goods.ID
		}
		if seen[at] {
			continue
		}
		seen[at] = true
		name := fmt.Sprintf("%s in %s", called(w.goods), s.called(w.owner))
		if !known {
			unknown.add("how tall the shortest user is", "Say people: {shortest: …}.", name, at)
			continue
		}
		x := finding.Finding{Code: OutOfReach, At: at, Demand: r.z, Capacity: r.most, Unit: "mm", Source: reachSource}
		if r.z < r.low {
			x.Demand, x.Capacity = r.low, r.z
		}
		x = verdict(x, finding.Warning)
		x.Text = fmt.Sprintf("%s, used %s, are at %s; %s goes from %s to %s.", name, w.goods.Used, s.long(r.z), r.words, s.long(r.low), s.long(r.most))
		x.Working = []string{x.Text}
		if x.Verdict == finding.Fails {
			x.Hint = fmt.Sprintf("Keep them between %s and %s above the floor.", s.long(r.low), s.long(r.most))
		}
		f.Add(x)
	}
	f.Add(unknown.findings("Reach", finding.Note)...)
	return f
}

// before is how deep somebody in a wheelchair reaches for goods, from the foremost edge of what stands
// before and below them to their middle, and how high above the floor that is, mm.
func (s *Scene) before(w stored) (depth, over float64) {
	o := s.owners[w.owner]
	if o == nil {
		return 0, 0
	}
	box := o.Box
	if w.bay != nil {
		box = w.bay.Box
	}
	front := box.Min.Y
	for i := range s.All.Owners {
		x := &s.All.Owners[i]
		if x.Wall == o.Wall && x.Box.Min.X < box.Max.X && box.Min.X < x.Box.Max.X && x.Box.Min.Z < box.Min.Z {
			front = min(front, x.Box.Min.Y)
			over = math.Max(over, s.up(o.Wall, x.Box, min(x.Box.Max.Z, box.Min.Z)))
		}
	}
	return mm(box.Min.Y+box.Max.Y)/2 - mm(front), over
}

const liftSource = "NIOSH 94-110 (revised lifting equation), one lift now and then, two hands, a fair grip"

func lifting() Rule {
	return Rule{Name: "lifting", Codes: []finding.Code{LiftIndex},
		Doc:     "A thing of 5 kg or more that the job puts in a bay is lifted out at its real height and depth to knuckle height with a lift index of 1 or less, by the lower of the equation's two sets of constants.",
		Source:  liftSource,
		Example: "A planer of 84 lb on the bottom of a floor case.",
		Run:     checkLifting}
}

// heavyFrom is where lifting is looked at, kg.
const heavyFrom = 5

// oneLift is one lift of a thing out of its place: the lower result of the equation's two sets of constants, that are
// not quite each other's conversion, counts, so that no unit changes a verdict.
type oneLift struct {
	lift.Lift
	other lift.Lift
	set   string // the other's
	z, kg float64
	deep  float64
	guess bool // nobody says how deep it is: as deep as its place
}

func (l *oneLift) index() float64 { return l.kg / l.RWL() }

// lifted gives the lift of a thing; ok is no for what is light, of unknown weight, or at no known height.
func (s *Scene) lifted(w stored) (l oneLift, ok bool) {
	if w.goods.Each == nil || w.goods.Each.Kilograms() < heavyFrom {
		return l, false // an unknown weight is said with the load of its bay
	}
	if l.z, ok = s.hold(w); !ok {
		return l, false
	}
	switch {
	case w.goods.Deep != nil:
		l.deep = mm(*w.goods.Deep)
	case w.goods.Dia != nil:
		l.deep = mm(*w.goods.Dia)
	case w.bay != nil:
		l.deep, l.guess = mm(w.bay.Box.Max.Y-w.bay.Box.Min.Y), true
	default:
		o := s.owners[w.owner]
		l.deep, l.guess = mm(o.Box.Max.Y-o.Box.Min.Y), true
	}
	l.kg = w.goods.Each.Kilograms()
	l.Lift = lift.Lift{Origin: lift.Place{H: lift.Reach(l.deep, l.z), V: l.z}, Destination: lift.Place{H: lift.Reach(l.deep, 30*unit.Inch), V: 30 * unit.Inch},
		Coupling: lift.Fair}
	l.other, l.set = l.Lift, "those for inches"
	l.other.Metric = true
	if l.other.RWL() < l.RWL() {
		l.Lift, l.other = l.other, l.Lift
	} else {
		l.set = "those for millimetres"
	}
	return l, true
}

func checkLifting(s *Scene) finding.List {
	var f finding.List
	seen := map[string]bool{}
	for _, w := range s.where {
		l, ok := s.lifted(w)
		if !ok {
			continue
		}
		what := ""
		if w.bay != nil {
			what = w.bay.ID
		}
		at := s.at(w.owner, what) + "/" + w.goods.ID
		if seen[at] {
			continue
		}
		seen[at] = true
		m := l.At(l.Origin)
		rwl := l.RWL()
		x := verdict(finding.Finding{Code: LiftIndex, At: at, Demand: l.kg, Capacity: rwl, Unit: "kg", Source: liftSource}, finding.Warning)
		x.Text = fmt.Sprintf("%s in %s, %s each at %s above the floor: one person should lift %s there.", called(w.goods), s.called(w.owner), s.kg(l.kg), s.long(l.z), s.kg(rwl))
		x.Working = []string{fmt.Sprintf("RWL = LC %s × HM %.2f (H %s) × VM %.2f (V %s) × DM %.2f (D %s) × AM %.2f × FM %.2f × CM %.2f = %s.", s.kg(m.LC), m.H, s.exact(l.Origin.H), m.V, s.exact(l.z), m.D, s.exact(math.Abs(l.z-30*unit.Inch)), m.A, m.F, m.C, s.kg(rwl)),
			fmt.Sprintf("The equation's other constants, %s, give %s: the lower counts.", l.set, s.kg(l.other.RWL())),
			fmt.Sprintf("Lift index %.2f; the target is 1, over 3 many are at risk.", l.index())}
		if l.guess {
			x.Working = append([]string{fmt.Sprintf("Its depth is not stated: it is assumed to be as deep as its place, %s.", s.exact(l.deep))}, x.Working...)
		}
		if x.Verdict == finding.Fails {
			best := l.Lift
			best.Origin = lift.Place{H: lift.Reach(l.deep, 30*unit.Inch), V: 30 * unit.Inch}
			x.Hint = fmt.Sprintf("Keep it at about %s above the floor, pulled to the front (index %.2f)", s.long(30*unit.Inch), l.kg/best.RWL())
			if l.kg > best.RWL() {
				x.Hint += ", and lift it with two people or a hoist"
			}
			x.Hint += "."
		}
		f.Add(x)
	}
	return f
}

func carrying() Rule {
	return Rule{Name: "carrying", Codes: []finding.Code{OnePerson},
		Doc:     "A case without its doors, drawers and loose shelves is no heavier than what the practice says that one person lifts; where it is, two people set or hang it.",
		Source:  "the practice; NIOSH 94-110: 23 kg (51 lb) at best",
		Example: "A wall case whose box weighs 34 kg.",
		Run:     checkCarrying}
}

func checkCarrying(s *Scene) finding.List {
	var f finding.List
	may := s.Job.Practice.Lift.Kilograms()
	unknown := blank{code: OnePerson, source: "the practice"}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "case" || o.Standing {
			continue
		}
		at := s.at(o.ID, "")
		if may <= 0 {
			unknown.add("what one person lifts", "Say one-person-lift: under practice:.", o.Name, at)
			continue
		}
		bare, all, lacks := 0.0, 0.0, 0
		for _, p := range s.of(o.ID).Parts {
			if p.Role == part.WallCleat || p.Role == part.Ledger {
				continue
			}
			kg, ok := s.weight(p)
			if !ok {
				lacks++
				unknown.add(weightOf(p), "Give density of its material, or mass: of what is bought.", o.Name, at)
				continue
			}
			all += kg
			if m := s.mover(p); !p.Removable && p.Role != part.Shelf && (m == nil || m.Kind != part.Slide && m.Kind != part.Swing) {
				bare += kg
			}
		}
		if lacks > 0 || all == 0 {
			continue
		}
		for _, h := range s.of(o.ID).Hardware { // as the bill weighs the whole
			if x, ok := s.Job.Catalogue.Item(h.ID); ok && x.Mass != nil {
				all += x.Mass.Kilograms() * float64(h.Count)
			}
		}
		sev := finding.Note
		if o.Hung || s.Job.File.People.Alone != nil && *s.Job.File.People.Alone {
			sev = finding.Warning
		}
		x := verdict(finding.Finding{Code: OnePerson, At: at, Demand: bare, Capacity: may, Unit: "kg", Source: "the practice; NIOSH 94-110: 23 kg (51 lb) at best"}, sev)
		x.Text = fmt.Sprintf("The bare box of %s weighs %s (%s with what comes out); one person lifts %s.", o.Name, s.kg(bare), s.kg(all), s.kg(may))
		x.Working = []string{fmt.Sprintf("Boards that are fastened together %s, with doors, drawers, shelves and hardware %s; against %s. Ratio %.2f.", s.kg(bare), s.kg(all), s.kg(may), x.Ratio())}
		if x.Verdict == finding.Fails {
			x.Hint = fmt.Sprintf("%d people", int(math.Ceil(bare/may)))
			if o.Hung {
				x.Hint += ", or a ledger under it and a prop, when it is hung"
			}
			x.Hint += "."
		}
		f.Add(x)
	}
	f.Add(unknown.findings("Whether one person can carry it", finding.Note)...)
	return f
}
