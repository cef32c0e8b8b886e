package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/order"
	"stowright/internal/part"
)

// WallStuds: what hangs is held by fewer than two studs, or a hutch by none.
const WallStuds finding.Code = "wall-studs"

// WallFixing: the screws that hold a wall case to the wall are too few, too thin or too short
// for its weight.
const WallFixing finding.Code = "wall-fixing"

const fixingSource = "NDS 2018 12.3.1A with AWC TR12 (lateral, lining as a gap), 12.2 (withdrawal, pull-through), 12.4 (combined), 11.3.6.1 (screws below 1/4 in share alike), CD 0.9 for permanent load; statics"

func studs() Rule {
	return Rule{Name: "studs", Codes: []finding.Code{WallStuds},
		Doc:     "What hangs on a wall of studs is screwed to at least two of them, or to a ledger that is: one stud never passes. A hutch is tied to studs too.",
		Source:  "common practice, no source",
		Example: "A wall case of 14 in between studs at 16 in.",
		Run:     checkStuds}
}

func fixings() Rule {
	return Rule{Name: "wall fixing", Codes: []finding.Code{WallFixing},
		Doc:     "Every screw that holds a wall case carries its share of the weight, contents included, and of the pull that comes from the weight's distance from the wall, about the lower rail, doors open, and drawers out, all that can be at once, with 222 N (50 lb) on the outermost, which is a short load; shares go by where the studs are. The rail is the side member, everything between it and the stud a gap. A case on ledgers is held twice: by the screws from its rails into them, and by theirs in the studs, each of which takes no less than a beam on unyielding supports would bring it. Nothing is counted for drywall screws, nor for what holds in the lining alone. In masonry and in steel studs the anchor's own rating is used, as its maker publishes it; a wood screw counts for nothing in steel. What is put on a bracket, a rail or a hook on the wall itself, which the job does not make, is not known to hold.",
		Source:  fixingSource,
		Example: "A wall case with 120 kg in it on two screws in each of two studs.",
		Run:     checkFixings}
}

// anchorHint says what to find out about masonry.
const anchorHint = "Give anchor: {shear: …, tension: …, source: …} of the wall, as its maker publishes it for this masonry."

// hung are the owners that a wall carries.
func (s *Scene) hung() []*part.Owner {
	var list []*part.Owner
	for i := range s.All.Owners {
		if o := &s.All.Owners[i]; o.Hung && !o.Standing && o.Kind == "case" {
			list = append(list, o)
		}
	}
	return list
}

// held are the fixings of an owner to its wall.
func (s *Scene) held(owner string) []part.Fixing { return slices.Clip(s.of(owner).held) }

// inLedgers are the screws from an owner's rails into the ledgers behind them.
func (s *Scene) inLedgers(owner string) []part.Fixing { return slices.Clip(s.of(owner).ledger) }

func checkStuds(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: WallStuds, source: "common practice, no source"}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		hutch := o.Kind == "hutch" && !o.Moves
		if !(o.Hung && o.Kind == "case") && !hutch || o.Standing {
			continue
		}
		if fact, find := s.unknownWall(o); fact != "" {
			unknown.add(fact, find, o.Name, s.at(o.ID, ""))
			continue
		}
		if w := s.Room.Wall(o.Wall); w.Kind != "stud" && w.Kind != "steel-stud" {
			continue
		}
		n := s.studsOf(o)
		least := 2
		if hutch {
			least = 1
		}
		x := finding.Finding{Code: WallStuds, At: s.at(o.ID, ""), Demand: float64(least), Capacity: float64(n), Unit: "studs", Source: "common practice, no source",
			Text: fmt.Sprintf("%s is screwed to %s.", o.Name, many(n, "stud")), Working: []string{fmt.Sprintf("%s of its wall; %d is the least.", many(n, "stud"), least)}}
		sev := finding.Error
		if hutch {
			sev = finding.Warning
		}
		if x = verdict(x, sev); x.Verdict == finding.Fails {
			x.Text = fmt.Sprintf("%s is screwed to %s; %d is the least.", o.Name, many(n, "stud"), least)
			x.Hint = hint(s.nearStuds(o, least))
		}
		f.Add(x)
	}
	f.Add(unknown.findings("What holds it", finding.Warning)...)
	return f
}

// studsOf counts the studs that take an owner's screws, twin studs as one.
func (s *Scene) studsOf(o *part.Owner) int {
	var at []float64
	for _, x := range s.held(o.ID) {
		at = append(at, mm(x.At.X))
	}
	order.Up(at)
	n := 0
	for i, x := range at {
		if i == 0 || x-at[i-1] > 80 {
			n++
		}
	}
	return n
}

// hang is a wall case's load on its wall.
type hang struct {
	all        body    // with contents and hardware, doors open
	loads      []body  // what all is the sum of
	face       float64 // y of the wall's face at its screws, mm
	own        float64
	assumed    bool
	reach      float64 // of its centre from the wall, mm
	bear       float64 // height of the lower bearing, mm
	pull       float64 // on all upper screws, N
	upper, low []part.Fixing
	cleat      bool // all its weight hangs on the upper row
	ledger     bool // all its weight stands on a ledger
	brought    []bring
	more       float64 // what its drawers ask for besides when they are out, N·mm, and where along they are, mm
	moreAt     float64
	lacks      []string
	from       []string
}

// bring is what a screw of a rail brings to a ledger: N down and out, at a place in mm along.
type bring struct {
	ledger  string
	x, v, t float64
}

// hanging works out what a wall case asks of its wall.
func (s *Scene) hanging(o *part.Owner) hang {
	h := s.hangingBy(o, s.held(o.ID))
	if list := s.inLedgers(o.ID); len(list) > 0 {
		rails := s.hangingBy(o, list)
		carry, v, t := rails.asked()
		for i, x := range carry {
			if p := s.ledgerAt(x); p != nil {
				h.brought = append(h.brought, bring{p.Mark, mm(x.At.X), v[i], t[i]})
			}
		}
	}
	return h
}

// hangingBy is hanging by some of its screws: those in its wall, or those in its ledgers.
func (s *Scene) hangingBy(o *part.Owner, held []part.Fixing) hang {
	var h hang
	own, lacks := s.bodies(o.ID, true)
	in, missing, assumed := s.contents(o.ID, true)
	h.lacks = append(h.lacks, lacks...)
	h.lacks = append(h.lacks, missing...)
	t := sum(own)
	t.kg += s.hardware(o.ID, t.kg)
	h.own, h.assumed = t.kg, assumed
	h.loads = append(in, t)
	h.all = sum(h.loads)
	guessed := len(held) == 0
	if guessed { // nobody knows where its screws find anything: it pulls at its rails all the same
		held = s.wanted(o.ID)
	}
	face := math.Inf(-1)
	for _, x := range held {
		face = math.Max(face, mm(x.At.Y))
	}
	low := mm(o.Carcass.Min.Z)
	for _, x := range held {
		if x.Row != "lower" {
			h.upper = append(h.upper, x)
			if p := s.parts[x.Part]; p != nil && p.Role == part.WallCleat {
				h.cleat = true
			}
			continue
		}
		h.low = append(h.low, x)
		low = math.Max(low, mm(x.At.Z))
	}
	if len(h.upper) == 0 {
		return h
	}
	h.face = face
	h.reach = math.Max(face-h.all.y, 0)
	h.bear = low
	_, sum, squares := h.arms()
	h.pull = newtons(h.all.kg) * h.reach * sum / squares
	var out string
	still := h.pull
	if h.more, h.moreAt, out = s.pulledOut(o, face, newtons(h.all.kg)*h.reach); h.more > 0 {
		h.pull += h.more * sum / squares
	}
	h.from = []string{
		fmt.Sprintf("It weighs %s with its hardware and holds %s: %s in all, its centre %s from the wall with doors open.", s.kg(h.own), s.kg(h.all.kg-h.own), s.kg(h.all.kg), s.exact(h.reach)),
		fmt.Sprintf("Pull on the upper screws, about the lower bearing, each by its height above it: %s × %s / %s = %s.", s.force(newtons(h.all.kg)), s.exact(h.reach), s.exact(squares/sum), s.force(still)),
	}
	if out != "" {
		h.from = append(h.from, out+fmt.Sprintf(" Together the pull is %s.", s.force(h.pull)))
	}
	if assumed {
		h.from = append([]string{"Some of its load is assumed, by the practice."}, h.from...)
	}
	if guessed {
		h.upper, h.low = nil, nil
	}
	return h
}

// wanted is one screw at each place where a case is to be screwed to its wall, whatever is there.
func (s *Scene) wanted(owner string) (list []part.Fixing) {
	for _, x := range s.All.Wanted {
		if p := s.parts[x.Part]; p != nil && p.Owner == owner {
			list = append(list, part.Fixing{Owner: owner, Part: x.Part, Row: x.Row, At: geom.V((x.From+x.To)/2, x.Y, x.Z)})
		}
	}
	return list
}

// arms are the heights of the upper screws above the lower bearing, their sum and the sum of
// their squares: the case turns about the bearing as a stiff body, so that a screw halfway up is
// pulled half as hard.
func (h hang) arms() (z []float64, sum, squares float64) {
	for _, f := range h.upper {
		a := math.Max(mm(f.At.Z)-h.bear, 1)
		z = append(z, a)
		sum += a
		squares += a * a
	}
	return z, sum, squares
}

// shares is how a load with its centre at x is shared by screws at their places, as by a stiff
// rail on equal springs.
func shares(list []part.Fixing, x float64) []float64 {
	out := make([]float64, len(list))
	mean, spread := 0.0, 0.0
	for _, f := range list {
		mean += mm(f.At.X) / float64(len(list))
	}
	for _, f := range list {
		spread += (mm(f.At.X) - mean) * (mm(f.At.X) - mean)
	}
	for i, f := range list {
		out[i] = 1 / float64(len(list))
		if spread > 1 {
			out[i] += (x - mean) * (mm(f.At.X) - mean) / spread
		}
	}
	return out
}

func checkFixings(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: WallFixing, source: fixingSource}
	for _, o := range s.hung() {
		at := s.at(o.ID, "")
		if fact, find := s.unknownWall(o); fact != "" {
			unknown.add(fact, find, o.Name, at)
			continue
		}
		h := s.hanging(o)
		for _, x := range h.lacks {
			unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", o.Name, at)
		}
		if len(h.lacks) > 0 {
			continue
		}
		if len(h.upper) == 0 {
			f.Add(finding.Finding{Code: WallFixing, Severity: finding.Error, Verdict: finding.Fails, At: at, Source: fixingSource, Demand: round(newtons(h.all.kg)), Unit: "N", Working: []string{"No screw of an upper rail finds a stud."},
				Text: fmt.Sprintf("%s, %s with what is in it, has no screw in its upper rail that finds a stud.", o.Name, s.kg(h.all.kg)), Hint: hint(s.nearStuds(o, 2))})
			continue
		}
		if off := s.unborne(o, h); off > bearsOff {
			unknown.add(fmt.Sprintf("what its lower edge bears on, %s off the wall,", s.long(off)),
				"Give it a lower rail, lower-rail: yes, which is packed out and screwed there.", o.Name, at)
			continue
		}
		if w := s.Room.Wall(o.Wall); w.Kind != "stud" {
			s.anchored(o, h, &f, &unknown)
			continue
		}
		s.screwed(o, h, &f, &unknown)
	}
	s.ledgered(&f, &unknown)
	s.onTheWall(&unknown)
	f.Add(unknown.findings("What holds it to the wall", finding.Warning)...)
	return f
}

// asked is the shear and pull on each screw that carries, N: the upper ones first, then the lower
// ones, which are not pulled. A ledger gives each stud no less than a beam on unyielding supports would. Each load counts by itself and only where it adds: goods that stand so
// as to lighten a screw can be taken out again.
func (h hang) asked() (carry []part.Fixing, v, t []float64) {
	carry = slices.Clone(h.upper)
	if !h.cleat && !h.ledger {
		carry = append(carry, h.low...)
	}
	z, _, squares := h.arms()
	n := float64(len(h.upper))
	v, t = make([]float64, len(carry)), make([]float64, len(carry))
	for _, l := range h.loads {
		weight := newtons(l.kg)
		moment := weight * math.Max(h.face-l.y, 0)
		by, pull := shares(carry, l.x), shares(h.upper, l.x)
		for i := range carry {
			if !h.ledger {
				v[i] += weight * math.Max(by[i], 0)
			}
			if i < len(h.upper) {
				t[i] += moment * z[i] / squares * n * math.Max(pull[i], 0)
			}
		}
	}
	if h.more > 0 {
		pull := shares(h.upper, h.moreAt)
		for i := range h.upper {
			t[i] += h.more * z[i] / squares * n * math.Max(pull[i], 0)
		}
	}
	reaction := h.reactions(carry)
	for i, x := range carry {
		down, out, many := reaction(x)
		v[i] = math.Max(v[i], down/many)
		t[i] = math.Max(t[i], out/many)
	}
	return carry, v, t
}

// strain is the most loaded screw.
type strain struct {
	ratio float64
	screw part.Fixing
	grip  grip
	v, t  float64
}

// strained finds the most loaded screw; fact says what is not known. A screw beside which the others would be loaded less
// without it, because it only turns the case, is not counted: screws yield before they break, so that any sharing that
// balances the load is safe.
func (s *Scene) strained(h hang) (worst strain, fact, find string) {
	all := append(slices.Clone(h.upper), h.low...)
	grips := make([]grip, len(all))
	for i, x := range all {
		if grips[i], fact, find = s.gripOf(x); fact != "" {
			return strain{ratio: -1}, fact, find
		}
	}
	worst = h.most(grips)
	for again := len(h.brought) == 0; again && worst.ratio > 0; { // a ledger brings each stud what a beam would
		again = false
		from, g := h, grips
		for i := range g {
			n := from
			if i < len(from.upper) {
				n.upper = slices.Delete(slices.Clone(from.upper), i, i+1)
			} else {
				n.low = slices.Delete(slices.Clone(from.low), i-len(from.upper), i-len(from.upper)+1)
			}
			if len(single(n.upper)) < 2 || len(from.low) > 0 && len(single(n.low)) < 2 {
				continue // it hangs in two studs at least
			}
			left := slices.Delete(slices.Clone(g), i, i+1)
			if w := n.most(left); w.ratio < worst.ratio*(1-1e-9) {
				worst, h, grips, again = w, n, left, true
			}
		}
	}
	return worst, "", ""
}

// most is the most loaded screw, of grips for the upper ones first and then the lower ones.
func (h hang) most(grips []grip) (worst strain) {
	carry, v, t := h.asked()
	worst.ratio = -1
	for i, x := range carry {
		y, r := grips[i], math.Inf(1)
		if !y.none {
			r = y.fast.Ratio(v[i], t[i], y.z, y.w)
		}
		if r > worst.ratio {
			worst = strain{r, x, y, v[i], t[i]}
		}
	}
	return worst
}

// screwed judges screws in studs.
func (s *Scene) screwed(o *part.Owner, h hang, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	w, fact, find := s.strained(h)
	if fact != "" {
		unknown.add(fact, find, o.Name, at)
		return
	}
	g := w.grip
	load := math.Hypot(w.v, w.t)
	x := finding.Finding{Code: WallFixing, At: at, Demand: load, Unit: "N", Source: fixingSource}
	x.Working = append(h.from, fmt.Sprintf("The most loaded of %s, at %s along and %s up, takes %s down and %s out.", many(len(h.upper)+len(h.low), "screw"), s.long(mm(w.screw.At.X)), s.long(mm(w.screw.At.Z)), s.force(w.v), s.force(w.t)))
	if h.cleat {
		x.Working = append(x.Working, "It hangs on a cleat: the upper screws carry all of its weight.")
	}
	x.Working = append(x.Working, g.words...)
	if !g.none {
		x.Capacity = load / w.ratio
	}
	x = verdict(x, finding.Error)
	assumed := ""
	if h.assumed {
		assumed = ", some of it assumed"
	}
	if g.none && s.brittle(w.screw.Screw) {
		x.Text = fmt.Sprintf("%s is held by drywall screws, which are hard and brittle and snap under a load in shear: nothing is counted for them.", o.Name)
		if t := s.better(h); t != "" {
			x.Hint = hint([]string{t})
		}
		f.Add(x)
		return
	}
	if g.none {
		x.Text = fmt.Sprintf("The screws of %s reach %s into the studs; %s is the least for any published value.", o.Name, s.long(g.into), s.long(g.least))
		if t := s.better(h); t != "" {
			x.Hint = hint([]string{t})
		}
		f.Add(x)
		return
	}
	if k := len(h.upper) / len(single(h.upper)); k > 1 {
		x.Working = append(x.Working, fmt.Sprintf("%d screws stand in each stud, one above the other.", k))
	}
	x.Working = append(x.Working, s.combined(w)+fmt.Sprintf(" Ratio %.2f.", x.Ratio()))
	of := ""
	if k := len(h.upper) / len(single(h.upper)); k > 1 {
		of = fmt.Sprintf(", one of %s in each stud", few(k))
	}
	x.Text = fmt.Sprintf("The most loaded screw of %s (%s with what is in it%s)%s takes %s, %s down and %s out; it holds %s so.", o.Name, s.kg(h.all.kg), assumed, of, s.force(load), s.force(w.v), s.force(w.t), s.force(x.Capacity))
	if x.Verdict == finding.Fails {
		x.Hint = hint(s.firmer(o, h))
	}
	f.Add(x)
}

// combined is how shear and pull on one screw count together, in words.
func (s *Scene) combined(w strain) string {
	g, load := w.grip, math.Hypot(w.v, w.t)
	if w.t == 0 {
		return fmt.Sprintf("Down alone: %s / %s = %.2f.", s.force(w.v), s.force(g.z), w.v/g.z)
	}
	sin := w.t * w.t / load / load
	may := g.fast.Combined(g.z, g.w, math.Atan2(w.t, w.v)*180/math.Pi)
	t := fmt.Sprintf("Both at once, %.0f degrees from the wood, %s × %s / (%s × %.3f + %s × %.3f) = %s: %s / %s = %.2f.", math.Atan2(w.t, w.v)*180/math.Pi,
		s.force(g.w), s.force(g.z), s.force(g.w), 1-sin, s.force(g.z), sin, s.force(may), s.force(load), s.force(may), load/may)
	switch most := math.Max(w.v/g.z, w.t/g.w); {
	case most <= load/may:
	case w.v/g.z == most:
		t += fmt.Sprintf(" Down alone, %s / %s = %.2f, is more and counts.", s.force(w.v), s.force(g.z), most)
	default:
		t += fmt.Sprintf(" Out alone, %s / %s = %.2f, is more and counts.", s.force(w.t), s.force(g.w), most)
	}
	return t
}

// brittle says that a screw is one for drywall by its name.
func (s *Scene) brittle(id string) bool {
	h, _ := s.Job.Catalogue.Item(id)
	name := strings.ToLower(id + " " + h.Name)
	return strings.Contains(name, "drywall") || strings.Contains(name, "plasterboard")
}

// few is a small number in words.
func few(n int) string {
	if n >= 1 && n <= 4 {
		return [...]string{"one", "two", "three", "four"}[n-1]
	}
	return fmt.Sprint(n)
}
