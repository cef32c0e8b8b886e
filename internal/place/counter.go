package place

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/counter"
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/order"
)

// members gives the seated cases of a list of runs and cases, from left to right.
func (l *layout) members(list []string) []Seat {
	var r []Seat
	for _, s := range l.room.Seats {
		if (s.Kind == Case || s.Kind == Standing) && (slices.Contains(list, s.ID) || s.Run != "" && slices.Contains(list, s.Run) && s.Kind == Case) && !s.Hung {
			r = append(r, s)
		}
	}
	for _, n := range l.job.Runs { // standing cases that are part of a run
		if slices.Contains(list, n.ID) {
			for _, e := range n.Value.Order {
				if s := l.room.Seat(e.Stand); e.Stand != "" && s != nil && !slices.ContainsFunc(r, func(o Seat) bool { return o.ID == s.ID }) {
					r = append(r, *s)
				}
			}
		}
	}
	order.Stable(r, func(a, b Seat) int { return cmp.Compare(a.Box.Min.X, b.Box.Min.X) })
	return r
}

// asStick is how far the height stated of a base may be from its stick's width to be meant for it: half a millimetre,
// what is lost where 3 1/2 in is written as 89 mm.
const asStick = length.MM / 2

// baseHeight gives the height of a base at the floor's high point.
func (l *layout) baseHeight(n job.Named[job.Base], under []Seat) L {
	b := n.Value
	if b.Height != nil {
		s, ok := l.job.Catalogue.Stick(cmp.Or(b.Stock, l.job.Practice.BaseStick))
		if d := *b.Height - s.Width; ok && d != 0 && d.Abs() <= asStick {
			l.found.Add(finding.Finding{Code: BaseAsStick, Severity: finding.Note, At: "base/" + n.ID, Source: "the job",
				Text: fmt.Sprintf("The base %s is as high as its stick is wide, %s, not %s.", n.ID, s.Width.Exact(l.job.Print), b.Height.Exact(l.job.Print)), Hint: "Say the stick's own width."})
			return s.Width
		}
		return *b.Height
	}
	for _, s := range under {
		if s.Spec.Stands.Height != nil {
			return *s.Spec.Stands.Height
		}
	}
	id := cmp.Or(b.Stock, l.job.Practice.BaseStick)
	if s, ok := l.job.Catalogue.Stick(id); ok {
		return s.Width
	}
	return 4 * length.Inch // a usual toe height (common practice, no source)
}

// bases seats separate bases and tells the cases on them how high they stand.
func (l *layout) bases() {
	for _, n := range l.job.Bases {
		under := l.members(n.Value.Under)
		if len(under) == 0 {
			l.found.Add(finding.Finding{Code: NothingUnder, Severity: finding.Error, At: "base/" + n.ID, Source: "the job",
				Text: fmt.Sprintf("No case stands on base %s.", n.ID), Hint: "Name runs or cases in under:."})
			continue
		}
		height := l.baseHeight(n, under)
		// One base for each stretch of cases without a gap.
		from := 0
		for i := 1; i <= len(under); i++ {
			if i < len(under) && under[i].Wall == under[from].Wall && under[i].Box.Min.X-under[i-1].Box.Max.X < length.MM {
				continue
			}
			id := n.ID
			if from > 0 {
				id += " " + itoa(i)
			}
			l.base(id, n, under[from:i], height)
			from = i
		}
	}
}

// base seats one stretch of a base.
func (l *layout) base(id string, n job.Named[job.Base], under []Seat, height L) {
	first := under[0]
	s := Seat{ID: id, Of: n.ID, Kind: Base, Name: id, Wall: first.Wall, Run: first.Run, Stage: cmp.Or(n.Value.Stage, first.Stage), Level: first.Level, Top: first.Level + height, Rear: first.Rear}
	recess := 3 * length.Inch
	if n.Value.Recess != nil {
		recess = *n.Value.Recess
	}
	front := first.Box.Min.Y
	for _, u := range under {
		s.Pieces = append(s.Pieces, Piece{u.ID, u.Box.Min.X, u.Box.Max.X})
		s.Rear, front = min(s.Rear, u.Rear), min(front, u.Box.Min.Y)
		if c := l.room.Seat(u.ID); c != nil {
			c.Site.Base = height
		}
	}
	if n.Value.Clears != nil {
		s.Rear = min(s.Rear, -*n.Value.Clears)
	}
	s.Box = geom.B(s.Pieces[0].From, front+recess, s.Level, s.Pieces[len(s.Pieces)-1].To, s.Rear, s.Top)
	l.add(s)
}

// Blocking gives the blocking that a job asks for under a counter, nil for none.
func Blocking(c job.Counter) *counter.Blocking {
	if c.Blocking == nil {
		return nil
	}
	b := &counter.Blocking{Board: c.Blocking.Board}
	if c.Blocking.Width != nil {
		b.Width = *c.Blocking.Width
	}
	if c.Blocking.Every != nil {
		b.Every = *c.Blocking.Every
	}
	return b
}

// thickness of a counter: its layers as they measure, and blocking under a single one.
func (l *layout) thickness(c job.Counter) L {
	var boards []string
	for _, y := range c.Layers {
		boards = append(boards, y.Board)
	}
	return counter.Thickness(l.job.Catalogue, boards, Blocking(c))
}

// usualRail is the height of a rail that carries a counter over a knee space when the job
// says none (common practice, no source).
const usualRail = 3 * length.Inch

// leastSpan is the widest gap between cases that a counter bridges without rails though rails are wanted
// (common practice, no source).
const leastSpan = 6 * length.Inch

func (l *layout) railHeight(c job.Counter) L {
	if c.Rails == nil {
		return 0
	}
	if c.Rails.Height != nil {
		return *c.Rails.Height
	}
	if s, ok := l.job.Catalogue.Stick(c.Rails.Stick); ok {
		return s.Width
	}
	return usualRail
}

// Common practice, no source: what is left free at an end of a counter that goes in between what stands there, and
// at one that meets a wall across it.
const (
	counterPlay = 3 * length.MM / 2
	wallPlay    = 3 * length.MM
)

// playOf shortens a counter at the ends where it would touch what reaches over its lower face, cases and the walls
// across its own, so that it goes in; not where the job says where it ends.
func (l *layout) playOf(s *Seat, c job.Counter) {
	off := [2]L{}
	w := l.wallOf(s.Wall)
	if w != &l.nowhere {
		if s.Box.Min.X.Abs() < wallPlay {
			off[0] = wallPlay - s.Box.Min.X
		}
		if (s.Box.Max.X - w.Length).Abs() < wallPlay {
			off[1] = wallPlay - (w.Length - s.Box.Max.X)
		}
	}
	for _, o := range l.room.Seats {
		if o.Kind != Case && o.Kind != Standing || o.Wall != s.Wall || o.Top <= s.Box.Min.Z || o.Box.Min.Z >= s.Box.Max.Z || o.Box.Min.Y >= s.Box.Max.Y || o.Box.Max.Y <= s.Box.Min.Y {
			continue
		}
		if d := counterPlay - (s.Box.Min.X - o.Box.Max.X); d > 0 && d <= counterPlay {
			off[0] = max(off[0], d)
		}
		if d := counterPlay - (o.Box.Min.X - s.Box.Max.X); d > 0 && d <= counterPlay {
			off[1] = max(off[1], d)
		}
	}
	if c.From == nil && c.OverLeft == nil {
		s.Box.Min.X += off[0]
	}
	if c.To == nil && c.OverRight == nil {
		s.Box.Max.X -= off[1]
	}
}

func (l *layout) counters() {
	list := slices.Clone(l.job.Counters) // what others butt against comes before them
	order.Stable(list, func(a, b job.Named[job.Counter]) int {
		return cmp.Compare(min(1, len(a.Value.Butts)), min(1, len(b.Value.Butts)))
	})
	for _, n := range list {
		c := n.Value
		if c.Free != nil {
			l.freeBench(n)
			continue
		}
		under := l.members(c.Over)
		if len(under) == 0 && (c.Wall == "" || c.Height == nil || c.From == nil || c.To == nil) {
			l.found.Add(finding.Finding{Code: NothingUnder, Severity: finding.Error, At: "counter/" + n.ID, Source: "the job",
				Text: fmt.Sprintf("Counter %s lies on no case.", n.ID), Hint: "Name runs or cases in over:."})
			continue
		}
		thick := l.thickness(c)
		s := Seat{ID: n.ID, Kind: Counter, Name: n.ID, Stage: c.Stage, Wall: c.Wall}
		var lo, hi, front L
		if len(under) == 0 {
			w := l.wallOf(c.Wall)
			s.Wall = w.ID
			lo, hi = *c.From, *c.To
			deep := 24 * length.Inch
			if c.Depth != nil {
				deep = *c.Depth
			}
			s.Level = w.High(max(0, lo), min(hi, w.Length), -deep, 0)
			s.Top = s.Level + *c.Height
			s.Rear = w.Proudest(max(0, lo), min(hi, w.Length), s.Top-thick, s.Top).Down(l.job.Print.Step())
			front = s.Rear - deep
		} else {
			first := under[0]
			s.Wall, s.Run, s.Level, s.Rear, s.Stage = first.Wall, first.Run, first.Level, first.Rear, cmp.Or(c.Stage, first.Stage)
			lo, hi = first.Box.Min.X, first.Box.Max.X
			front = first.Box.Min.Y
			highest := first
			var apart []string
			for _, u := range under {
				if u.Wall != s.Wall {
					apart = append(apart, u.Name+" on wall "+u.Wall)
					continue
				}
				lo, hi, front, s.Rear = min(lo, u.Box.Min.X), max(hi, u.Box.Max.X), min(front, u.Box.Min.Y), max(s.Rear, u.Rear)
				if u.Top > highest.Top {
					highest = u
				}
				s.Pieces = append(s.Pieces, Piece{u.ID, u.Box.Min.X, u.Box.Max.X})
			}
			if len(apart) > 0 {
				l.found.Add(finding.Finding{Code: CounterWalls, Severity: finding.Error, Verdict: finding.Fails, At: "counter/" + n.ID, Source: "the job",
					Text: fmt.Sprintf("Counter %s lies along wall %s and does not reach %s.", n.ID, s.Wall, strings.Join(apart, ", ")),
					Hint: "Make one counter for each wall; in the corner one butts against the other's front."})
			}
			for _, u := range under {
				if d := highest.Top - u.Top; d > 0 && u.Wall == s.Wall {
					l.found.Add(finding.Finding{Code: TopsDiffer, Severity: finding.Error, At: "counter/" + n.ID, Source: "arithmetic",
						Text: fmt.Sprintf("Counter %s lies on %s and %s, whose tops differ by %s.", n.ID, highest.ID, u.ID, l.in(d)), Hint: fmt.Sprintf("Make %s %s higher.", u.ID, l.in(d)),
						Verdict: finding.Fails, Demand: mm(d), Unit: "mm"})
				}
			}
			s.Top = highest.Top + thick
			s.Over = l.job.Practice.CounterOverhang
			if c.OverFront != nil {
				s.Over = *c.OverFront
			}
			front -= s.Over
			for _, k := range l.knees {
				if l.kneeOf(n, k, s.Wall, under) {
					whole := slices.Contains(c.Over, k.Run) || l.keeps(n.ID, k)
					if c.From == nil && whole {
						lo = min(lo, k.From)
					}
					if c.To == nil && whole {
						hi = max(hi, k.To)
					}
				}
			}
			if c.OverLeft != nil {
				lo -= *c.OverLeft
			}
			if c.OverRight != nil {
				hi += *c.OverRight
			}
			if c.From != nil {
				lo = *c.From
			}
			if c.To != nil {
				hi = *c.To
			}
			if c.Depth != nil {
				front = s.Rear - *c.Depth
			}
		}
		if c.Height != nil && (s.Top-s.Level-*c.Height).Abs() > l.job.Print.Step()/2 {
			d := s.Top - s.Level - *c.Height
			how := "lower"
			if d < 0 {
				how = "higher"
			}
			l.found.Add(finding.Finding{Code: CounterHeight, Severity: finding.Warning, At: "counter/" + n.ID, Source: "arithmetic",
				Text: fmt.Sprintf("The top of counter %s is %s above the floor's high point where %s is wanted.", n.ID, l.in(s.Top-s.Level), l.in(*c.Height)),
				Hint: fmt.Sprintf("Make the cases under it %s %s.", l.in(d.Abs()), how), Verdict: finding.Fails, Demand: mm(s.Top - s.Level), Capacity: mm(*c.Height), Unit: "mm"})
		}
		// Where the wall stands out at its height, or beyond the cases, it stands off the wall.
		w := l.wallOf(s.Wall)
		if y := w.Proudest(max(0, lo), max(0, min(hi, w.Length)), s.Top-thick, s.Top).Down(l.job.Print.Step()); (y < s.Rear || l.setOff(under)) && w != &l.nowhere {
			if c.Depth != nil {
				front -= s.Rear - y
			}
			s.Rear = y
		}
		if hi <= lo || s.Rear <= front {
			l.found.Add(finding.Finding{Code: NothingUnder, Severity: finding.Error, At: "counter/" + n.ID, Source: "arithmetic",
				Text: fmt.Sprintf("There is no counter %s: it would be %s long and %s deep.", n.ID, l.in(hi-lo), l.in(s.Rear-front)), Hint: "See where from:, to:, depth:, over-front:, over-left: and over-right: say that it is."})
			continue
		}
		s.Box = geom.B(lo, front, s.Top-thick, hi, s.Rear, s.Top)
		l.playOf(&s, c)
		l.butt(&s, c)
		lo, hi = s.Box.Min.X, s.Box.Max.X
		rail := l.railHeight(c)
		for _, k := range l.knees {
			if k.From >= hi || k.To <= lo || !l.kneeOf(n, k, s.Wall, under) {
				continue
			}
			k.Clear = s.Top - thick - rail - s.Level
			s.Knees = append(s.Knees, k)
			l.kneeSpace(n, s, k)
		}
		// Cases that stand apart, with a keep-clear area or an empty width between them: rails carry it there too.
		for i, p := range s.Pieces[:max(0, len(s.Pieces)-1)] {
			q := s.Pieces[i+1]
			if q.From-p.To < leastSpan || slices.ContainsFunc(s.Knees, func(k Knee) bool { return k.From < q.From && k.To > p.To }) {
				continue
			}
			s.Knees = append(s.Knees, Knee{Run: s.Run, From: p.To, To: q.From, Gap: true, Clear: s.Top - thick - rail - s.Level})
		}
		l.add(s)
	}
}

// kneeOf reports whether a knee space is a counter's: one of a run that it lies over, or one kept for a case that says
// so.
func (l *layout) kneeOf(n job.Named[job.Counter], k Knee, wall string, under []Seat) bool {
	if slices.Contains(n.Value.Over, k.Run) || slices.ContainsFunc(under, func(u Seat) bool { return u.Run == k.Run }) {
		return true
	}
	return l.keeps(n.ID, k) && slices.ContainsFunc(l.job.Runs, func(r job.Named[job.Run]) bool { return r.ID == k.Run && l.wallOf(r.Value.Wall).ID == wall })
}

// keeps reports whether a knee space is kept for a case that is to go under this counter.
func (l *layout) keeps(counter string, k Knee) bool {
	cc, ok := l.cases[k.Want.For]
	return ok && cc.Case.Rolls == counter
}

// setOff reports whether cases stand off their wall by their run's wish: the counter over them reaches the wall all
// the same.
func (l *layout) setOff(under []Seat) bool {
	for _, u := range under {
		for _, n := range l.job.Runs {
			if n.Value.Off != nil && n.ID == u.Run {
				return true
			}
		}
	}
	return false
}

// kneeSpace checks a knee space for whoever sits at it, and for a case to come before it exists.
func (l *layout) kneeSpace(n job.Named[job.Counter], s Seat, k Knee) {
	at := "counter/" + n.ID
	lacks := func(what string, has, wants L, whom string) {
		if has >= wants {
			return
		}
		l.found.Add(finding.Finding{Code: KneeSmall, Severity: finding.Error, At: at, Source: "arithmetic",
			Text:    fmt.Sprintf("The knee space under counter %s from %s to %s is %s %s; %s needs %s.", n.ID, l.in(k.From), l.in(k.To), l.in(has), what, whom, l.in(wants)),
			Hint:    fmt.Sprintf("It lacks %s.", l.in(wants-has)),
			Verdict: finding.Fails, Demand: mm(wants), Capacity: mm(has), Unit: "mm"})
	}
	if c := n.Value.Rails; c != nil && c.Clear != nil {
		lacks("high under its rails", k.Clear, *c.Clear, "the job")
	}
	if k.Want.Height != nil {
		lacks("high", k.Clear, *k.Want.Height, "the job")
	}
	if k.Want.Depth != nil {
		lacks("deep", s.Rear-s.Box.Min.Y, *k.Want.Depth, "the job")
	}
	if k.Want.For != "" {
		cc, ok := l.cases[k.Want.For]
		if !ok {
			return
		}
		lacks("wide", k.To-k.From, *cc.Spec.Width+2*pullSide, fmt.Sprintf("%s, %s wide with %s on each side to pull it out,", k.Want.For, l.in(*cc.Spec.Width), l.in(pullSide)))
		lacks("high under its rails", k.Clear, *cc.Spec.Height+pullOver, fmt.Sprintf("%s, %s high with %s over it,", k.Want.For, l.in(*cc.Spec.Height), l.in(pullOver)))
		lacks("deep", s.Rear-s.Box.Min.Y, *cc.Spec.Depth, k.Want.For)
	}
}

// Room that a case needs to be pulled out of a knee space (common practice, no source).
const (
	pullSide = length.Inch / 8
	pullOver = length.Inch / 4
)

// freeBench seats a bench that stands on its own.
func (l *layout) freeBench(n job.Named[job.Counter]) {
	c := n.Value
	w := l.wallOf(c.Wall)
	lo, out, deep := L(0), L(0), 24*length.Inch
	switch {
	case c.Free.At != nil:
		lo = *c.Free.At
	case c.Free.Out == nil && c.Wall == "": // anywhere in the room
		w = &l.nowhere
		for _, x := range l.room.Seats {
			if x.Wall == "" {
				lo = max(lo, x.Box.Max.X+12*length.Inch)
			}
		}
	}
	if c.Free.Out != nil {
		out = *c.Free.Out
	}
	if c.Depth != nil {
		deep = *c.Depth
	}
	height := 36 * length.Inch
	if c.Height != nil {
		height = *c.Height
	}
	s := Seat{ID: n.ID, Kind: Counter, Name: n.ID, Stage: c.Stage, Moves: true}
	hi := lo + c.Free.Length
	if w != nil {
		s.Wall = w.ID
		s.Level = w.High(max(0, lo), max(0, min(hi, w.Length)), -out-deep, -out)
		s.Rear = min(-out, w.Proudest(max(0, lo), max(0, min(hi, w.Length)), s.Level, s.Level+height).Down(l.job.Print.Step()))
	}
	s.Top = s.Level + height
	s.Box = geom.B(lo, s.Rear-deep, s.Top-l.thickness(c), hi, s.Rear, s.Top)
	l.add(s)
}

// rolling seats the cases that slide or roll into knee spaces.
func (l *layout) rolling() {
	for _, cc := range l.job.Cases {
		if l.room.Seat(cc.ID) != nil || cc.Case.Gap != nil {
			continue
		}
		var knee *Knee
		var under Seat
		for _, s := range l.room.Seats {
			for i := range s.Knees {
				if k := &s.Knees[i]; k.Want.For == cc.ID || knee == nil && cc.Case.Rolls == s.ID {
					knee, under = k, s
				}
			}
		}
		if knee == nil && cc.Case.Rolls != "" {
			if s := l.room.Seat(cc.Case.Rolls); s != nil && len(s.Pieces) == 0 { // a bench of its own: it stands in the middle
				u := l.underBench(*s)
				knee, under = &Knee{From: u.Min.X, To: u.Max.X, Clear: u.Max.Z - s.Level}, *s
				under.Rear = u.Max.Y
			}
		}
		if knee == nil {
			continue
		}
		w := l.wallOf(under.Wall)
		spec := cc.Spec
		x := knee.From + (knee.To-knee.From)/2 - *spec.Width/2
		front := under.Box.Min.Y + under.Over
		rear := min(front+*spec.Depth, under.Rear)
		// What rolls or slides stands on the floor as it is there, not on the level line.
		level := under.Level
		if loose := spec.Loose == "rolls" || spec.Loose == "slides" || spec.Stands.Kind == "castors"; loose && w != nil {
			level = w.High(max(0, x), max(0, min(x+*spec.Width, w.Length)), front, rear)
		}
		l.seat(cc, w, knee.Run, cmp.Or(cc.Case.Stage, under.Stage), x, rear, level, level, level+*spec.Height, false)
		l.room.Seats[len(l.room.Seats)-1].Reserve = under.ID
		if spec.Loose == "rolls" || spec.Loose == "slides" || spec.Stands.Kind == "castors" {
			l.room.Seats[len(l.room.Seats)-1].Moves = true
		}
		if knee.Want.For == "" { // not checked as a reservation
			l.kneeSpace(job.Named[job.Counter]{ID: under.ID}, under, Knee{Run: knee.Run, From: knee.From, To: knee.To, Clear: knee.Clear, Want: job.Knee{For: cc.ID}})
		}
	}
}

// underBench gives the room between the legs of a free bench; all under its top where it has no legs that are known.
func (l *layout) underBench(s Seat) Box {
	all := geom.B(s.Box.Min.X, s.Box.Min.Y, s.Level, s.Box.Max.X, s.Rear, s.Box.Min.Z)
	c := l.counter(s.ID)
	if c == nil || c.Free == nil {
		return all
	}
	u := counter.UnderBench(l.job.Catalogue, l.job.Practice.Case, counter.Free{Legs: c.Free.Legs, Brace: c.Free.Brace, Feet: c.Free.Feet, Bottom: s.Level}, s.Box)
	if u.Empty() {
		return all
	}
	return u
}

func (l *layout) counter(id string) *job.Counter {
	for i := range l.job.Counters {
		if l.job.Counters[i].ID == id {
			return &l.job.Counters[i].Value
		}
	}
	return nil
}

// hutchPlay is left over a frame that goes in between its counter and what hangs or is framed over it; common practice,
// no source.
const hutchPlay = 2 * length.MM

// hutches seats hook boards on their counters.
func (l *layout) hutches() {
	for _, n := range l.job.Hutches {
		h := n.Value
		on := l.room.Seat(h.On)
		if on == nil {
			l.found.Add(finding.Finding{Code: NothingUnder, Severity: finding.Error, At: "hutch/" + n.ID, Source: "the job",
				Text: fmt.Sprintf("Hutch %s stands on %s, which has no place.", n.ID, h.On), Hint: "Name a counter in on:."})
			continue
		}
		c := *on
		lo, wide := c.Box.Min.X, c.Box.Max.X-c.Box.Min.X
		if h.From != nil {
			lo = *h.From
			wide = c.Box.Max.X - lo
		}
		if h.Width != nil {
			wide = *h.Width
		}
		high := 24 * length.Inch
		if h.Height != nil {
			high = *h.Height
		}
		if h.To != "" {
			if z, ok := l.lowerEdge(c.Wall, h.To); ok {
				high = z - c.Top - hutchPlay
				if h.Height != nil {
					high = min(high, *h.Height)
				}
			}
		}
		if wide <= 0 || high <= 0 {
			l.found.Add(finding.Finding{Code: NothingUnder, Severity: finding.Error, At: "hutch/" + n.ID, Source: "the job",
				Text: fmt.Sprintf("There is no room for %s on %s: it would be %s wide and %s high.", n.ID, h.On, l.in(wide), l.in(high)), Hint: "See where from:, width:, height: and up-to: say that it is."})
			continue
		}
		thick := usualHutch
		rear := c.Rear
		if w := l.wallOf(c.Wall); w != nil {
			rear = min(rear, w.Proudest(max(0, lo), max(0, min(lo+wide, w.Length)), c.Top, c.Top+high).Down(l.job.Print.Step()))
		}
		l.add(Seat{ID: n.ID, Kind: Hutch, Name: n.ID, Wall: c.Wall, Run: c.Run, Stage: cmp.Or(h.Stage, c.Stage), On: c.ID, Level: c.Level, Top: c.Top + high, Rear: rear, Moves: c.Moves,
			Box: geom.B(lo, rear-thick, c.Top, lo+wide, rear, c.Top+high)})
	}
}

// usualHutch is about how deep a hook board on its frame is; its parts say exactly.
const usualHutch = 2 * length.Inch

// lowerEdge gives the lower edge of an opening on a wall, or of a run of wall cases.
func (l *layout) lowerEdge(wall, id string) (L, bool) {
	if w := l.wallOf(wall); w != nil {
		for _, o := range w.Openings {
			if o.ID == id {
				return o.Box.Min.Z, true
			}
		}
	}
	z, ok := Far, false
	for _, s := range l.room.Seats {
		if s.Kind == Case && (s.Run == id || s.ID == id) && s.Box.Min.Z < z {
			z, ok = s.Box.Min.Z, true
		}
	}
	return z, ok
}
