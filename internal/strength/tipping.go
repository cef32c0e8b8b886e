package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength/tip"
	"stowright/internal/strength/unit"
)

// TipOver: a floor case falls forward with its drawers open and somebody leaning on one, and
// nothing holds it to the wall.
const TipOver finding.Code = "tip-over"

const tipSource = "statics, after the idea of ASTM F2057 (open loaded drawers, a child of 50 lb at one); that standard is for clothing storage, and workshop cases are outside its scope"

func tipping() Rule {
	return Rule{Name: "tipping", Codes: []finding.Code{TipOver},
		Doc:     "A floor case stands with every drawer that can be open at once open and loaded, its doors open with their racks full, all else empty, and 222 N (50 lb) on the front edge of what is furthest out. One in which nothing opens, and that no wall holds, stands empty when it is pulled at its top with 44.5 N (10 lb), no higher than 56 in, unless it rolls, or when 222 N step on its front. Where it would not stand, screws in studs hold it at the top. On swivel castors it turns about the wheels as they have swung in. A counter over cases stands, they and it empty and with their screws in the wall, with a person of 100 kg on an edge of it that is past what they stand on. A hook board on its frame is pushed with 222 N at its top: screws in the wall hold it, or those down into its counter, with feet and plates where it has a brace. A free bench stands, empty, with a person of 100 kg who sits on any edge of it, and, with a hook board on it that no wall holds, when that is pushed with 222 N at its top; steel angles at its legs hold it to the floor as their rating allows.",
		Source:  tipSource,
		Example: "A case of four deep drawers that stands free.",
		Run:     checkTipping}
}

// lean is the load on the open drawer or door, N: 50 lbf (ASTM F2057).
const lean = 50 * unit.PoundForce

// A pull at the top of what nothing opens in, N, and how high it is at most, mm: 10 lbf at up to 56 in (ASTM
// F2057-23, from memory).
const (
	pullTop  = 10 * unit.PoundForce
	pullHigh = 56 * unit.Inch
)

func checkTipping(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: TipOver, source: tipSource}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		switch {
		case o.Kind == "counter" && s.legged(o.ID):
			s.satOn(o, &f, &unknown)
		case o.Kind == "counter":
			s.stoodOut(o, &f, &unknown)
		case o.Kind == "case" && !o.Hung && !o.Standing:
			s.tips(o, &f, &unknown)
		case o.Kind == "hutch" && !o.Standing:
			s.pushed(o, &f, &unknown)
		}
	}
	f.Add(unknown.findings("Whether it stands", finding.Warning)...)
	return f
}

// fulcrum is the line on which a case would turn: its foremost feet, its toe board, its base's
// front, or its own front edge.
func (s *Scene) fulcrum(o *part.Owner) float64 {
	front := math.Inf(1)
	for _, x := range s.of(o.ID).Feet {
		front = math.Min(front, mm(x.At.Y)+s.trail(x))
	}
	if b := s.baseOf(o.ID); b != nil && math.IsInf(front, 1) {
		front = mm(b.Carcass.Min.Y)
	}
	for _, p := range s.of(o.ID).Parts {
		if p.Role == part.ToeBoard && math.IsInf(front, 1) {
			front = mm(p.Box().Min.Y)
		}
	}
	if math.IsInf(front, 1) {
		front = mm(o.Carcass.Min.Y)
	}
	return front
}

// trail is how far a swivel castor's wheel stands beside its bolt when it has swung round: the circle
// it swings in less half of its wheel; all of the circle where the wheel is not known. 0 for feet.
func (s *Scene) trail(f part.Foot) float64 {
	h, _ := s.Job.Catalogue.Item(f.Hardware)
	if f.Kind != "castor" {
		return 0
	}
	return math.Max(mm(h.Swivel-h.Dia/2), 0)
}

// rolls says that an owner stands on castors.
func (s *Scene) rolls(owner string) bool {
	return slices.ContainsFunc(s.of(owner).Feet, func(f part.Foot) bool { return f.Kind == "castor" })
}

// swings names the castors under an owner whose swing is not known.
func (s *Scene) swings(owner string) (lacks []string) {
	for _, x := range s.of(owner).Feet {
		if h, _ := s.Job.Catalogue.Item(x.Hardware); x.Kind == "castor" && h.Swivel <= 0 && len(lacks) == 0 {
			lacks = append(lacks, "the circle that "+x.Hardware+" swings in")
		}
	}
	return lacks
}

// stance is a case weighed about its fulcrum.
type stance struct {
	tip.Balance
	own, drawers, edge, far float64
	ballast                 float64
	name                    string // of what is furthest out
	assumed                 bool
	lacks                   []string
	opens                   bool
	pull                    float64    // N·mm, of a pull at the top where nothing opens
	before, behind          tip.Weight // what stands before the line it turns about, and behind it: in all, with its middle
}

// moments weighs a case about its fulcrum; one says that only one drawer comes out at a time: the
// one that tips most.
func (s *Scene) moments(o *part.Owner, one bool) stance {
	if !one {
		return s.standing(o, "")
	}
	var worst stance
	for _, m := range s.of(o.ID).Motions {
		if m.Kind == part.Slide {
			if t := s.standing(o, m.ID); !worst.opens || t.Ratio(1) > worst.Ratio(1) {
				worst = t
			}
		}
	}
	if !worst.opens {
		return s.standing(o, "")
	}
	return worst
}

// standing weighs a case with its doors open and one drawer out, or with all of them out for "".
func (s *Scene) standing(o *part.Owner, drawer string) stance {
	t := stance{edge: s.fulcrum(o), far: math.Inf(-1), lacks: s.swings(o.ID)}
	place := func(y float64) float64 { return t.edge - y } // in front is positive
	var weights []tip.Weight
	out := map[string]bool{}
	var open []*part.Motion
	for _, m := range s.of(o.ID).Motions {
		if m.Kind != part.Slide && m.Kind != part.Swing {
			continue
		}
		open = append(open, m)
		out[m.ID] = m.Kind == part.Swing || drawer == "" || drawer == m.ID
	}
	t.opens = len(open) > 0
	put := func(b body, m *part.Motion) {
		y := b.y
		if m != nil && out[m.ID] {
			if m.Kind == part.Swing {
				y = swung(b, m).y
			} else {
				y -= mm(m.Travel)
			}
		}
		weights = append(weights, tip.Weight{Mass: b.kg, X: place(y)})
	}
	for _, p := range s.of(o.ID).Parts {
		kg, ok := s.weight(p)
		if !ok {
			t.lacks = append(t.lacks, weightOf(p))
			continue
		}
		t.own += kg
		put(centre(p.Box(), kg), s.mover(p))
	}
	for _, b := range s.of(o.ID).Bays {
		if kg := b.Ballast.Kilograms(); kg > 0 {
			// In the middle of the rear half.
			y := mm(b.Box.Max.Y) - mm(b.Box.Max.Y-b.Box.Min.Y)/4
			weights = append(weights, tip.Weight{Mass: kg, X: place(y)})
			t.ballast += kg
		}
		if !out[b.Moves] {
			continue // what does not come out holds it down: counted as empty
		}
		l := s.loads[b.ID]
		t.lacks = append(t.lacks, l.lacks...)
		t.assumed = t.assumed || l.assumed
		kg := l.kg
		if l.assumed && b.Most > 0 {
			kg = math.Min(kg, b.Most.Kilograms())
		}
		t.drawers += kg
		put(centre(b.Box, kg), s.motions[b.Moves])
	}
	for _, m := range open {
		if !out[m.ID] {
			continue
		}
		y := mm(m.Closed.Min.Y) - mm(m.Travel)
		if m.Kind == part.Swing {
			y = mm(m.Pivot.Y) - mm(m.Closed.Max.X-m.Closed.Min.X)
		}
		if place(y) > t.far {
			t.far, t.name = place(y), s.opening(m.ID)
		}
	}
	t.Balance = tip.About(0, weights, nil)
	for _, w := range weights {
		side := &t.behind
		if w.X > 0 {
			side = &t.before
		}
		side.Mass += w.Mass
		side.X += w.Mass * math.Abs(w.X)
	}
	for _, side := range []*tip.Weight{&t.before, &t.behind} {
		if side.Mass > 0 {
			side.X /= side.Mass
		}
	}
	if !t.opens { // somebody steps on its lowest shelf, or pulls at its top
		t.far, t.name = place(mm(o.Box.Min.Y)), "its front"
		if !s.rolls(o.ID) { // what rolls comes along
			t.pull = pullTop * math.Min(mm(o.Carcass.Max.Z-o.Box.Min.Z), pullHigh)
		}
		t.Tipping += math.Max(lean*math.Max(t.far, 0), t.pull)
		return t
	}
	t.Tipping += lean * math.Max(t.far, 0)
	return t
}

// tips judges one case.
func (s *Scene) tips(o *part.Owner, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	one := s.oneAtATime(o.ID)
	t := s.moments(o, one)
	leans, on, of := s.leaning(o.ID)
	t.lacks = append(t.lacks, of...)
	if !t.opens && leans == 0 && len(of) == 0 && len(s.held(o.ID)) > 0 {
		return // fixed, and nothing opens
	}
	if len(t.lacks) > 0 {
		for _, x := range t.lacks {
			unknown.add(x, "Give density of the material, mass: to bought parts, weighs: to the goods, load: to the bay, or swivel: to the castor.", o.Name, at)
		}
		return
	}
	x := verdict(finding.Finding{Code: TipOver, At: at, Demand: t.Tipping / 1000, Capacity: t.Holding / 1000, Unit: "N·m", Source: tipSource}, finding.Error)
	said := "its drawers and doors open"
	if one {
		said = "one drawer out (a bar keeps the others in)"
	}
	with := fmt.Sprintf("%s in what is out", s.kg(t.drawers))
	if t.assumed {
		with += ", some of it assumed,"
	}
	if !t.opens {
		said, with = "nothing that opens", "empty"
	}
	x.Text = fmt.Sprintf("%s with %s, %s and %s on %s, tips with %s about its front feet; its weight holds %s.", o.Name, said, with, stated(lean), t.name, s.turning(t.Tipping/1000), s.turning(t.Holding/1000))
	weighs := s.kg(t.own) + " empty"
	if t.ballast > 0 {
		weighs += fmt.Sprintf(", and %s of ballast is held down in its rear", s.kg(t.ballast))
	}
	x.Working = []string{fmt.Sprintf("It weighs %s; %s; fixed shelves and what stays in count as empty.", weighs, strings.TrimSuffix(with, ",")),
		fmt.Sprintf("It would turn about a line %s behind its front; %s stands at %s before that line: %s × %s = %s of what tips it.", s.exact(t.edge-mm(o.Box.Min.Y)), stated(lean), s.exact(t.far), s.pounds(lean), s.exact(math.Max(t.far, 0)), s.turning(lean*math.Max(t.far, 0)/1000)),
		fmt.Sprintf("Tipping %s, holding %s. Ratio %.2f.", s.turning(t.Tipping/1000), s.turning(t.Holding/1000), x.Ratio())}
	x.Working = slices.Insert(x.Working, len(x.Working)-1, s.about(t)...)
	if !t.opens {
		x.Text = fmt.Sprintf("%s, in which nothing opens, is pulled at its top or stepped on at its front, empty: that tips it with %s; its weight holds %s.", o.Name, s.turning(t.Tipping/1000), s.turning(t.Holding/1000))
		x.Working = append(x.Working[:1], fmt.Sprintf("A pull of %s × %s up: %s. A step of %s on its front, %s × %s before the line it turns about: %s. The greater counts.", s.pounds(pullTop), s.exact(t.pull/pullTop), s.turning(t.pull/1000), stated(lean), s.pounds(lean), s.exact(t.far), s.turning(lean*math.Max(t.far, 0)/1000)), x.Working[len(x.Working)-2], x.Working[len(x.Working)-1])
	}
	if leans > 0 {
		t.Tipping += leans
		x.Demand = t.Tipping / 1000
		x = verdict(x, finding.Error)
		x.Text += fmt.Sprintf(" It also holds back %s, with %s.", strings.Join(on, " and "), s.turning(leans/1000))
		x.Working = append(x.Working, fmt.Sprintf("Its share of what tips %s: %s more. Ratio %.2f.", strings.Join(on, " and "), s.turning(leans/1000), x.Ratio()))
	}
	if x.Verdict == finding.Fails {
		x = s.restrain(o, t, one, x, unknown)
	}
	if x.Code != "" {
		f.Add(x)
	}
}

// about is what stands before the line a case turns about, and behind it, in words.
func (s *Scene) about(t stance) (words []string) {
	if t.before.Mass > 0 {
		words = append(words, fmt.Sprintf("Of case and contents %s stand before that line, in the middle %s: %s × %s = %s.", s.kg(t.before.Mass), s.exact(t.before.X), s.force(newtons(t.before.Mass)), s.exact(t.before.X), s.turning(newtons(t.before.Mass)*t.before.X/1000)))
	}
	return append(words, fmt.Sprintf("Behind it stand %s, in the middle %s: %s × %s = %s hold.", s.kg(t.behind.Mass), s.exact(t.behind.X), s.force(newtons(t.behind.Mass)), s.exact(t.behind.X), s.turning(t.Holding/1000)))
}

// oneDrawer is the hardware that keeps all drawers in but one.
const oneDrawer = "lock-one-drawer"

// oneAtATime says that a bar keeps all drawers of a case in but one.
func (s *Scene) oneAtATime(owner string) bool {
	return slices.ContainsFunc(s.of(owner).Hardware, func(h part.Item) bool { return h.ID == oneDrawer })
}

// mover is the motion that carries a part.
func (s *Scene) mover(p *part.Part) *part.Motion {
	if m := s.motions[p.Moves]; m != nil {
		return m
	}
	for _, m := range s.of(p.Owner).Motions {
		if slices.Contains(m.Parts, p.Mark) {
			return m
		}
	}
	return nil
}

// restrain asks whether screws in the wall hold what would tip. It gives an empty finding when
// that is not known, and notes it.
func (s *Scene) restrain(o *part.Owner, t stance, one bool, x finding.Finding, unknown *blank) finding.Finding {
	at := s.at(o.ID, "")
	held := s.held(o.ID)
	height := 0.0
	for _, h := range held {
		height = math.Max(height, mm(h.At.Z-o.Box.Min.Z))
	}
	bar := func(what string) []string {
		if one {
			return nil
		}
		n := s.moments(o, true)
		if r := n.Ratio(1); r <= 1 {
			return []string{fmt.Sprintf("fit a bar that lets out one drawer at a time, one-at-a-time: yes (ratio %.2f%s)", r, what)}
		}
		if n.opens && len(n.lacks) == 0 && n.Tipping < t.Tipping {
			if more := s.ballast(o, n, 0); len(more) > 0 {
				return []string{"fit a bar that lets out one drawer at a time, one-at-a-time: yes, and " + more[0]}
			}
		}
		return nil
	}
	if o.Moves || len(held) == 0 {
		if fact, find := s.unknownWall(o); !o.Moves && fact != "" {
			unknown.add(fact, find+" Until then fix its top to the wall before it is loaded, as its steps say.", o.Name, at)
			return finding.Finding{}
		}
		words := s.toWall(o, t.Restraint(1, mm(o.Carcass.Max.Z-o.Box.Min.Z)-50))
		if !o.Moves {
			if y, ok := s.beside(o, t, x); ok {
				return y
			}
			if b := s.bolted(o, t); b != "" {
				words = append(words, b)
			}
		}
		words = append(words, s.ballast(o, t, 0)...)
		x.Hint = hint(append(append(words, bar("")...), s.emptier(o, one, 0)...))
		return x
	}
	hold := 0.0
	for _, h := range held {
		if h.Kind == part.ToWall {
			w, _ := s.wallOf(o.Wall)
			if w.Anchor == nil || w.Anchor.Tension == nil {
				unknown.add("the rating of the anchor in wall "+o.Wall, anchorHint, o.Name, at)
				return finding.Finding{}
			}
			if fact, find := s.unlined(o); fact != "" {
				unknown.add(fact, find, o.Name, at)
				return finding.Finding{}
			}
			if !shallow(h) {
				hold += newtons(w.Anchor.Tension.Kilograms()) * mm(h.At.Z-o.Box.Min.Z) / height
			}
			continue
		}
		if fact, find := s.unknownWall(o); fact != "" {
			unknown.add(fact, find, o.Name, at)
			return finding.Finding{}
		}
		g, fact, find := s.gripOf(h)
		if fact != "" {
			unknown.add(fact, find, o.Name, at)
			return finding.Finding{}
		}
		if !g.none {
			hold += g.w * mm(h.At.Z-o.Box.Min.Z) / height // a lower screw has less of a lever
		}
	}
	need := t.Restraint(1, height)
	x.Demand, x.Capacity, x.Unit, x.Source = need, hold, "N", tipSource+"; "+fixingSource
	x = verdict(x, finding.Error)
	x.Text += fmt.Sprintf(" The wall must hold %s at %s; its %s would hold %s.", s.force(need), s.long(height), many(len(held), "screw"), s.force(hold))
	x.Working = append(x.Working, fmt.Sprintf("Missing: %s / %s = %s. %s out of the wall: %s. Ratio %.2f.", s.turning((t.Tipping-t.Holding)/1000), s.exact(height), s.force(need), many(len(held), "screw"), s.force(hold), x.Ratio()))
	if x.Verdict == finding.Fails {
		x.Hint = hint(append(append(s.ballast(o, t, hold*height), bar(", standing free")...), s.emptier(o, one, hold*height)...))
	}
	return x
}

// emptier is the remedy of less in what opens, beside a moment that something else holds, N·mm; nothing where even empty it
// tips, or nothing is in it.
func (s *Scene) emptier(o *part.Owner, one bool, held float64) []string {
	with := func(k float64) stance {
		n := *s
		n.loads = map[string]load{}
		for id, l := range s.loads {
			if b := s.bays[id]; b != nil && b.Owner == o.ID && b.Moves != "" {
				l.kg *= k
			}
			n.loads[id] = l
		}
		return n.moments(o, one)
	}
	stands := func(k float64) bool { t := with(k); return t.Tipping <= t.Holding+held }
	if t := with(1); !t.opens || t.drawers <= 0 || !stands(0) {
		return nil
	}
	lo, hi := 0.0, 1.0
	for range 24 {
		if mid := (lo + hi) / 2; stands(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	all := 0.0
	for id, l := range s.loads {
		if b := s.bays[id]; b != nil && b.Owner == o.ID && b.Moves != "" {
			all += l.kg
		}
	}
	if all*lo < 1 {
		return nil
	}
	return []string{fmt.Sprintf("keep no more than %s in all that opens (ratio 1.00)", s.atMost(all*lo))}
}

// mostBallast is what anybody would hold down in a case, kg: common practice, no source.
const mostBallast = 100.0

// feetBear says that the feet or castors of a case would carry so much more, spread over them.
func (s *Scene) feetBear(o *part.Owner, more float64) bool {
	n, may := 0.0, 0.0
	for _, x := range s.of(o.ID).Feet {
		if x.Kind != "shim" && x.Rating > 0 {
			n, may = n+1, x.Rating.Kilograms()
			if x.Kind == "castor" {
				may *= 0.75
			}
		}
	}
	l := s.gross(o.ID)
	return n == 0 || !l.known || (l.kg+more)/n <= may
}

// ballast is the remedy of a weight held down in the rear half of a bay, in whose middle it is counted, beside a
// moment that something else holds, N·mm.
func (s *Scene) ballast(o *part.Owner, t stance, held float64) []string {
	lever := mm(o.Carcass.Min.Y+3*o.Carcass.Max.Y)/4 - t.edge
	for _, b := range s.of(o.ID).Bays {
		if b.Moves == "" {
			lever = math.Min(lever, mm(b.Box.Min.Y+3*b.Box.Max.Y)/4-t.edge)
		}
	}
	more := (t.Tipping - t.Holding - held) / newtons(1) / math.Max(lever, 1)
	whole := 1.0
	if s.inch() {
		whole = unit.Pound
	}
	more = (math.Ceil(more/whole) + 1) * whole
	after := t.Tipping / (t.Holding + newtons(more)*lever)
	if held > 0 {
		after = (t.Tipping - t.Holding - newtons(more)*lever) / held
	}
	of := "of ballast down in its rear half, as ballast: of a bay"
	if t.ballast > 0 {
		of = "more of ballast down in its rear half"
	}
	if !slices.ContainsFunc(s.of(o.ID).Bays, func(b *part.Bay) bool { return b.Moves == "" }) {
		return nil // nothing but drawers: it has no place for it
	}
	if more > mostBallast || !s.feetBear(o, more) {
		return nil
	}
	return []string{fmt.Sprintf("hold %s %s (ratio %.2f)", s.kg(more), of, after)}
}
