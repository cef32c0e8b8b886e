package place

import (
	"cmp"
	"fmt"
	"strings"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
)

// neighbours finds whose sides touch. A machine, a counter or whatever else stands there has no side to join.
func (l *layout) neighbours() {
	seats := l.room.Seats
	for i := range seats {
		for j := range seats {
			a, b := &seats[i], &seats[j]
			solid := func(s *Seat) bool { return s.Kind == Case || s.Kind == Standing && s.Sides }
			if i == j || !solid(a) || !solid(b) || a.Wall != b.Wall || a.Wall == "" || a.Moves || b.Moves || a.Hung != b.Hung {
				continue
			}
			gap := b.Box.Min.X - a.Box.Max.X
			reach := L(0)
			if a.Kind == Standing || b.Kind == Standing || a.Reserve != "" || b.Reserve != "" {
				reach = 15 * length.MM // a clearance that a strip fills
			}
			if gap < 0 || gap > reach || a.Box.Max.Z <= b.Box.Min.Z || b.Box.Max.Z <= a.Box.Min.Z || a.Box.Max.Y <= b.Box.Min.Y || b.Box.Max.Y <= a.Box.Min.Y {
				continue
			}
			a.Right, b.Left = b.ID, a.ID
		}
	}
}

// sites tells every case about where it stands.
func (l *layout) sites() {
	for i := range l.room.Seats {
		s := &l.room.Seats[i]
		if s.Kind == Counter {
			s.Site.Notches = l.roundCounter(s)
		}
		if s.Kind != Case {
			continue
		}
		s.Row = joining(l.family(l.cases[s.ID].Family).Joining)
		for k, id := range []string{s.Left, s.Right} {
			s.Odd[k], s.Joins[k] = l.alike(s, id)
		}
		for _, c := range l.room.Seats {
			if c.Kind == Counter && !c.Moves {
				for _, p := range c.Pieces {
					s.Site.TopUnder = s.Site.TopUnder || p.ID == s.ID
				}
			}
		}
		w := l.room.Wall(s.Wall)
		if w == nil {
			continue
		}
		bottom := s.Box.Min.Z
		if !s.Hung {
			bottom += s.Site.Base
		}
		body := geom.B(s.Box.Min.X, s.Box.Min.Y, bottom, s.Box.Max.X, s.Box.Max.Y, s.Box.Max.Z)
		origin := Vec{X: body.Min.X, Y: s.Rear - *s.Spec.Depth + l.frontOf(s), Z: bottom}
		local := func(b Box) Box { return b.Shift(Vec{}.Sub(origin)) }
		for _, z := range w.Clear {
			if !z.MayCut || !z.Known {
				continue
			}
			behind := geom.B(z.Body.Min.X, s.Box.Min.Y, z.Body.Min.Z, z.Body.Max.X, s.Rear, z.Body.Max.Z).Grow(0)
			if behind.Meets(body) {
				cut := geom.B(z.Body.Min.X-cutRoom, s.Rear-length.Inch, z.Body.Min.Z-cutRoom, z.Body.Max.X+cutRoom, s.Rear, z.Body.Max.Z+cutRoom)
				s.Site.Cutouts = append(s.Site.Cutouts, local(cut))
			}
		}
		if s.Spec.Loose == "" || s.Spec.Loose == "no" {
			// End panels reach to the wall too.
			body.Min.X -= l.job.EndPanel(s.Spec, "left")
			body.Max.X += l.job.EndPanel(s.Spec, "right")
			for _, o := range w.Obstacles {
				if o.MayCut || !Notchable(o.Kind) {
					continue
				}
				for _, b := range o.Boxes(w) {
					if b.Meets(body) {
						b.Min = b.Min.Sub(Vec{X: notchRoom, Y: notchRoom})
						b.Max = b.Max.Add(Vec{X: notchRoom, Z: notchRoom})
						c := b.And(body)
						c.Max.Y = s.Rear
						s.Site.Notches = append(s.Site.Notches, local(c))
					}
				}
			}
		}
		if s.Hung && s.Spec.Hangs.Ledger != "" {
			s.Site.Studs = ledgered(w, s.Box.Min.X, s.Box.Max.X)
			s.Site.Studs.EndsLeft, s.Site.Studs.EndsRight = s.Left != "", s.Right != ""
		}
		if s.Hung {
			if z, ok := w.LowestCeiling(max(0, s.Box.Min.X), max(0, min(s.Box.Max.X, w.Length))); ok {
				s.Site.RoomAbove = z - s.Box.Max.Z
			}
		}
	}
}

// A counter is notched no deeper than a quarter of its depth, and along no more than half of its length, so that what is
// left carries as it did (common practice, no source).
const (
	notchDeep = 4
	notchLong = 2
)

// CounterNotchable reports whether a counter's rear edge is notched round such an obstacle.
func CounterNotchable(kind string) bool {
	return kind == "pipe" || kind == "casing" || kind == "duct" || kind == "column" || kind == "other"
}

// roundCounter gives the notches of a counter's rear edge, in its wall's frame: round what stands out from the wall and
// goes on above and below it. None where one of them would be too deep or too long, or goes along it: that is a clash.
func (l *layout) roundCounter(s *Seat) (list []Box) {
	w := l.room.Wall(s.Wall)
	if w == nil || s.Moves {
		return nil
	}
	long := L(0)
	for _, o := range w.Obstacles {
		if o.MayCut || !CounterNotchable(o.Kind) {
			continue
		}
		for _, b := range o.Boxes(w) {
			if !b.Meets(s.Box) {
				continue
			}
			through := b.Min.Z <= s.Box.Min.Z && b.Max.Z >= s.Box.Max.Z
			b.Min, b.Max = b.Min.Sub(Vec{X: notchRoom, Y: notchRoom}), b.Max.Add(Vec{X: notchRoom})
			c := b.And(s.Box)
			long += c.Max.X - c.Min.X
			if size := s.Box.Size(); !through || (c.Max.Y-c.Min.Y)*notchDeep > size.Y || long*notchLong > size.X {
				return nil
			}
			list = append(list, c)
		}
	}
	return list
}

// ledgered gives the first and the last stud that the ledgers of a case reach, seen from its left side: the
// nearest on either side of it, or the outermost there are. Zero where its wall has none that are known.
func ledgered(w *Wall, left, right L) carcass.Studs {
	if w.Kind != "stud" && w.Kind != "steel-stud" || !w.StudsKnown || len(w.Studs) == 0 {
		return carcass.Studs{}
	}
	first, last := w.Studs[0].At, w.Studs[len(w.Studs)-1].At
	for _, s := range w.Studs {
		if s.At <= left {
			first = max(first, s.At)
		}
		if s.At >= right {
			last = min(last, s.At)
		}
	}
	return carcass.Studs{First: first - left, Last: last - left}
}

// joining gives the places of joining screws of a family, and common practice where it is silent.
func joining(j *job.Joining) Joining {
	if j == nil {
		j = &job.Joining{}
	}
	or := func(p *L, usual L) L {
		if p != nil {
			return *p
		}
		return usual
	}
	return Joining{Front: or(j.Front, 50*length.MM), Rear: or(j.Rear, 50*length.MM), Low: or(j.Low, 100*length.MM), High: or(j.High, 100*length.MM), Screw: j.Screw}
}

// alike reports whether a neighbour stands as high and as low, and as near to the wall, so that
// the joining holes of both meet; where it does not, odd says what differs. A standing one takes screws wherever its
// side is, which must be behind all of them: at least half as far past each as they are from the edges.
func (l *layout) alike(s *Seat, id string) (odd string, ok bool) {
	o := l.room.Seat(id)
	if id == "" || o == nil {
		return "", false
	}
	var list []string
	differ := func(yes bool, how string) {
		if yes {
			list = append(list, how)
		}
	}
	if o.Kind == Standing {
		j := s.Row
		bottom := s.Box.Min.Z + s.Site.Base
		differ(o.Top < s.Top, o.Name+" is lower")
		differ(o.Box.Min.Z > bottom+j.Low/2, o.Name+" begins higher up")
		differ(o.Box.Min.Y > s.Rear-*s.Spec.Depth+l.frontOf(s)+j.Front/2, "the front of "+o.Name+" is further back")
		differ(o.Box.Max.Y < s.Rear-j.Rear/2, o.Name+" ends before the rear of "+s.Name)
	} else {
		differ(o.Top != s.Top, "their tops are not of one height")
		differ(o.Box.Min.Z != s.Box.Min.Z, "they do not begin at one height")
		differ(o.Rear != s.Rear, "their rears are not in one plane")
		differ(o.Site.Base != s.Site.Base, "what they stand on is not of one height")
	}
	return strings.Join(list, ", and "), len(list) == 0
}

// notchRoom is left round what a case is notched round: a pipe is never where it was measured
// (common practice, no source).
const notchRoom = length.Inch / 4

// cutRoom is left round a plate behind a case (common practice, no source).
const cutRoom = length.Inch / 2

// Notchable reports whether a case is notched round an obstacle of this kind: what runs
// along the foot of a wall. Others are clashes.
func Notchable(kind string) bool { return kind == "curb" || kind == "pipe" || kind == "skirting" }

// frontOf gives how far the carcass's front edge is behind the front of the case.
func (l *layout) frontOf(s *Seat) L {
	if !s.Spec.CountsFronts() {
		return 0
	}
	b, ok := l.job.Catalogue.Board(cmp.Or(s.Spec.FrontBoard, l.job.Practice.FrontBoard, s.Spec.Board, l.job.Practice.Case))
	if !ok {
		return 0
	}
	return b.Thickness + l.job.Practice.DoorAir
}

// missing sums up in one line what the survey does not say.
func (l *layout) missing() {
	var list []string
	for i := range l.room.Walls {
		w := &l.room.Walls[i]
		lack := func(what string) { list = append(list, what+" of wall "+w.ID) }
		if w.Kind == "not-known" {
			lack("kind")
		}
		if (w.Kind == "stud" || w.Kind == "steel-stud") && !w.StudsKnown {
			lack("studs")
		}
		if (w.Kind == "masonry" || w.Kind == "concrete" || w.Kind == "steel-stud") && w.Anchor == "" {
			lack("anchor and its rating")
		}
		if !w.LiningKnown {
			lack("lining")
		}
		if !w.FloorKnown {
			lack("floor heights")
		}
		if n := len(w.floor); n > 0 { // beyond the last height it is taken to go on level
			lo, hi, out := Far, -Far, L(0)
			for _, s := range l.room.At(w.ID) {
				if !s.Hung && s.Kind != Filler && s.Kind != Hutch {
					lo, hi = min(lo, s.Box.Min.X), max(hi, s.Box.Max.X)
					if s.Kind != Standing && s.Kind != Machine {
						out = max(out, -s.Box.Min.Y)
					}
				}
			}
			if w.FloorDrawnOn(out) {
				lack(fmt.Sprintf("floor heights from %s to %s out", l.in(w.SurveyedOut()), l.in(out)))
			}
			if hi > w.floor[n-1].At+length.Foot {
				lack("floor heights from " + l.in(w.floor[n-1].At) + " on")
			}
			if lo < w.floor[0].At-length.Foot && lo < hi {
				lack("floor heights up to " + l.in(w.floor[0].At))
			}
		}
		if w.Height == 0 && len(w.ceiling) == 0 {
			lack("height")
		}
		for _, o := range w.Openings {
			if !o.Framed && w.StudsKnown {
				list = append(list, "framing of "+o.ID)
			}
			if o.Kind == "door" && (!o.Known || o.In && !o.Hinged) {
				list = append(list, "swing of "+o.ID)
			}
		}
		for _, z := range w.Clear {
			if !z.Known {
				list = append(list, "place of "+z.ID)
			}
		}
	}
	if len(list) == 0 {
		return
	}
	l.found.Add(finding.Finding{Code: SurveyLacks, Severity: finding.Note, At: "walls", Verdict: finding.NotKnown, Source: "the job",
		Text: "The survey does not say: " + strings.Join(list, "; ") + ".", Hint: "What depends on these is reported as not known."})
}
