package strength

import (
	"fmt"
	"math"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/nds"
)

const pushSource = "statics; screws NDS 2018 12.2 (withdrawal, pull-through) and 12.3.1A (a group that turns, each screw by its distance from the group's middle), CD 1.6 (2.3.2, a short push); 222 N (50 lb) at the top, common practice, no source"

// footing is how a hook board's frame stands on its counter: heights and places in mm, forces in N.
type footing struct {
	high       float64   // of its top
	out        float64   // of the line it would turn about when it is pulled forward, before its rear
	down       []screwed // into the counter, by their distances before its rear
	plates     float64   // N·mm that the screws of both braces' plates carry into the uprights; +Inf without braces
	feet       float64   // N that the screws of both plates carry into their feet; +Inf without
	own        float64   // N
	centre     float64   // of its own weight, before its rear
	hung, hook float64   // N of what hangs on it, and how far before its rear
}

// screwed is one screw into the counter: its place, and what it holds.
type screwed struct{ at, holds float64 }

// turned is the moment that screws hold about a line: each pulls by its distance from it, so that the farthest
// reaches its own first.
func turned(list []screwed, arm func(screwed) float64) float64 {
	far := 0.0
	for _, x := range list {
		far = math.Max(far, arm(x))
	}
	m := 0.0
	for _, x := range list {
		if a := arm(x); a > 0 {
			m += x.holds * a * a / far
		}
	}
	return m
}

// forward gives what tips it when it is pulled at its top into the room, and what holds it; back the same when it
// is pushed away from there.
func (f footing) forward() (tips, holds float64) {
	tips = lean * f.high
	holds = f.own * (f.out - f.centre)
	if over := f.hook - f.out; over > 0 {
		tips += f.hung * over
	}
	return tips, math.Min(holds+turned(f.down, func(x screwed) float64 { return f.out - x.at }), f.plates)
}

func (f footing) back() (tips, holds float64) {
	arm := func(x screwed) float64 { return x.at }
	return lean * f.high, math.Min(f.own*f.centre+math.Min(turned(f.down, arm), f.feet*f.out), f.plates)
}

// frameOf measures how a hook board's frame stands; lacks names what is not known.
func (s *Scene) frameOf(o *part.Owner) (f footing, lacks []string) {
	rear, z0 := mm(o.Box.Max.Y), mm(o.Box.Min.Z)
	f.high = mm(o.Box.Max.Z) - z0
	f.plates, f.feet = math.Inf(1), math.Inf(1)
	own, missing := s.bodies(o.ID, false)
	lacks = append(lacks, missing...)
	t := sum(own)
	f.own, f.centre = newtons(t.kg), rear-t.y
	in, none, _ := s.contents(o.ID, false)
	if h := sum(in); h.kg > 0 {
		f.hung, f.hook = newtons(h.kg), rear-h.y
	}
	face := 0.0
	for _, p := range s.of(o.ID).Parts {
		if p.Role != part.Frame && p.Role != part.HangRail {
			continue
		}
		if b := p.Box(); mm(b.Min.Z)-z0 < touching {
			face = math.Max(face, rear-mm(b.Min.Y))
		}
	}
	f.out = face
	for _, b := range s.of(o.ID).Bays { // what hangs behind the line it turns about does not tip it
		if rear-mm(b.Box.Min.Y+b.Box.Max.Y)/2 > face {
			lacks = append(lacks, none...)
			break
		}
	}
	for _, x := range s.of(o.ID).Fixings {
		if x.Kind != part.ToCase || x.Row != "counter" {
			continue
		}
		w, fact := s.drawn(o, x)
		if fact != "" {
			lacks = append(lacks, fact)
			continue
		}
		f.down = append(f.down, screwed{rear - mm(x.At.Y), w})
	}
	f.plates, f.feet = s.braces(o)
	return f, lacks
}

// drawn is what a screw down into a counter holds: the lesser of its thread in it and its head in the frame.
func (s *Scene) drawn(o *part.Owner, x part.Fixing) (float64, string) {
	fast, _, ok := s.screw(x.Screw)
	p := s.parts[x.Part]
	if !ok || p == nil {
		return 0, "the size of screw " + x.Screw
	}
	sg := 0.0
	for i := range s.All.Parts {
		q := &s.All.Parts[i]
		if b := q.Box(); q.Role == part.CounterLayer && math.Abs(mm(b.Max.Z-o.Box.Min.Z)) < touching && b.Min.X <= x.At.X && x.At.X <= b.Max.X {
			sg = s.wood(q, 2, false).sg
		}
	}
	frame := s.wood(p, 2, false).sg
	if sg <= 0 || frame <= 0 {
		return 0, "the specific gravity of the counter under it, or of its frame"
	}
	per, _ := fast.Withdrawal(sg)
	thread := math.Min(mm(x.Into), mm(x.Length)*2/3)
	through := per * thread
	if fast.Head > 0 {
		through = nds.PullThrough(fast.Head, mm(x.Length-x.Into), frame)
	}
	return math.Min(per*thread, through) * brief, ""
}

// braces is what the screws of a hook board's braces carry: a moment from the plates into the uprights, N·mm, and
// a force into the feet, N; both boundless where it has none, 0 where they are not known.
func (s *Scene) braces(o *part.Owner) (moment, force float64) {
	braced := false
	for _, j := range s.of(o.ID).Joints {
		a, b := s.parts[j.A], s.parts[j.B]
		if b == nil || a.Role != part.Frame || b.Role != part.Frame || j.Count == 0 {
			continue
		}
		if strings.Contains(a.Name, "brace") {
			a, b = b, a
		}
		if !strings.Contains(b.Name, "brace") {
			continue
		}
		braced = true
		fast, long, ok := s.screw(j.Fastener)
		wa, wb := s.wood(a, 0, false), s.wood(b, 0, false)
		if !ok || wa.sg <= 0 || wb.sg <= 0 {
			continue
		}
		t := mm(b.Size[2])
		each, _, _, known := s.lateralOf(fast, wb.sg, wa.sg, t, long-t, s.layered(a) && s.layered(b))
		if !known {
			continue
		}
		each *= brief / permanent
		v := j.Contact.Size()
		if strings.Contains(a.Name, "upright") {
			moment += group(each, j.Count, mm(v.Z))
		} else {
			force += each * float64(j.Count)
		}
	}
	if !braced {
		return math.Inf(1), math.Inf(1)
	}
	return moment, force
}

// group is the moment, N·mm, that n screws in a row of a length carry when it turns about its middle: each by its
// distance from there, so that the outer ones reach their own first.
func group(each float64, n int, long float64) float64 {
	const first = 40.0 // of the row, from the ends
	m, far := 0.0, math.Max(long/2-first, long/4)
	if n < 2 {
		return 0
	}
	for i := range n {
		r := far * (1 - 2*float64(i)/float64(n-1))
		m += each * r * r / far
	}
	return m
}

// pushed judges a hook board that is pulled or pushed at its top.
func (s *Scene) pushed(o *part.Owner, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	stands, lacks := s.frameOf(o)
	if len(lacks) > 0 {
		for _, x := range lacks {
			unknown.add(x, "Give density of the material, weighs: to the goods, or specific-gravity to the counter's.", o.Name, at)
		}
		return
	}
	tips, holds := stands.forward()
	way, by := "into the room", "its screws down into the counter"
	if !math.IsInf(stands.plates, 1) {
		by = "its braces"
	}
	if wall, held, fact, find := s.heldTop(o); fact != "" {
		unknown.add(fact, find, o.Name, at)
		return
	} else if held {
		if wall > holds {
			holds, by = wall, "its screws in the wall"
		}
	} else if t, h := stands.back(); t/math.Max(h, 1) > tips/math.Max(holds, 1) {
		tips, holds, way = t, h, "from the room"
	}
	x := verdict(finding.Finding{Code: TipOver, At: at, Demand: tips / 1000, Capacity: math.Max(holds, 0) / 1000, Unit: "N·m", Source: pushSource}, finding.Error)
	x.Text = fmt.Sprintf("%s, pushed %s at its top with %s, tips with %s; %s hold %s.", o.Name, way, stated(lean), s.turning(tips/1000), by, s.turning(math.Max(holds, 0)/1000))
	x.Working = []string{
		fmt.Sprintf("%s × %s high, with what hangs before its feet: %s.", s.pounds(lean), s.exact(stands.high), s.turning(tips/1000)),
		fmt.Sprintf("%s down into the counter, the farthest %s from the line it turns about.", many(len(stands.down), "screw"), s.exact(stands.out))}
	if !math.IsInf(stands.plates, 1) {
		x.Working = append(x.Working, fmt.Sprintf("The screws of both plates carry %s into the uprights, as groups that turn, and %s into the feet.", s.turning(stands.plates/1000), s.force(stands.feet)))
	}
	x.Working = append(x.Working, fmt.Sprintf("Ratio %.2f.", x.Ratio()))
	if x.Verdict == finding.Fails {
		var words []string
		if !o.Moves {
			if m := s.toStuds(o, 1); m != "" && len(s.held(o.ID)) == 0 {
				var frame *part.Part
				for _, p := range s.of(o.ID).Parts {
					if p.Role == part.HangRail {
						frame = p
					}
				}
				if g, ok := s.wouldGrip(o, frame); ok && tips <= g.w*brief/permanent*(stands.high-50) {
					words = append(words, m)
				}
			}
		}
		if w := s.bracedBy(o, stands); w != "" {
			words = append(words, w)
		}
		if len(words) == 0 {
			if k := lower(stands); k > 0 {
				words = append(words, fmt.Sprintf("make it no higher than %s, height: (ratio 1.00)", s.long(math.Floor(stands.high*k/s.step())*s.step())))
			}
		}
		x.Hint = hint(words)
	}
	f.Add(x)
}

// lower is the share of its height at which a hook board stands by itself; 0 where not even half of it would do.
func lower(f footing) float64 {
	for k := 0.98; k >= 0.5; k -= 0.02 {
		n := f
		n.high, n.own, n.hung = f.high*k, f.own*k, f.hung
		a, b := n.forward()
		c, d := n.back()
		if a <= b && c <= d {
			return k
		}
	}
	return 0
}

// heldTop is the moment that screws in the wall hold about the counter; held says that there are some.
func (s *Scene) heldTop(o *part.Owner) (moment float64, held bool, fact, find string) {
	list := s.held(o.ID)
	if len(list) == 0 {
		if !o.Moves {
			if fact, find := s.unknownWall(o); fact != "" {
				return 0, false, fact, find
			}
		}
		return 0, false, "", ""
	}
	for _, x := range list {
		arm := math.Max(mm(x.At.Z-o.Box.Min.Z), 0)
		if x.Kind == part.ToWall {
			w, _ := s.wallOf(o.Wall)
			if w.Anchor == nil || w.Anchor.Tension == nil {
				return 0, true, "the rating of the anchor in wall " + o.Wall, anchorHint
			}
			if fact, find := s.unlined(o); fact != "" {
				return 0, true, fact, find
			}
			if !shallow(x) {
				moment += newtons(w.Anchor.Tension.Kilograms()) * arm
			}
			continue
		}
		if fact, find := s.unknownWall(o); fact != "" {
			return 0, true, fact, find
		}
		g, fact, find := s.gripOf(x)
		if fact != "" {
			return 0, true, fact, find
		}
		if !g.none {
			moment += g.w * brief / permanent * arm
		}
	}
	return moment, true, "", ""
}

// bracedBy is the shortest brace that holds a hook board, "" for none: worked out as it would be built.
func (s *Scene) bracedBy(o *part.Owner, f footing) string {
	plate, ok := s.Job.Catalogue.Board(s.Job.Practice.Case)
	var up *part.Part
	for _, p := range s.of(o.ID).Parts {
		if p.Role == part.Frame && strings.Contains(p.Name, "upright") {
			up = p
		}
	}
	if !ok || up == nil {
		return ""
	}
	var item stock.Hardware
	for _, h := range s.Job.Catalogue.Hardware {
		if h.Kind == "screw" && h.Use == "wood" && (h.Sold == "both" || h.Sold == s.Job.Practice.Unit) && h.Length <= plate.Thickness+up.Size[1]-160_000 && h.Length > item.Length {
			item = h
		}
	}
	fast, long, known := s.screw(item.ID)
	w := s.wood(up, 0, false)
	m, _ := s.Job.Catalogue.Material(plate.Material)
	sg, _ := m.Gravity.Float()
	if !known || w.sg <= 0 || sg <= 0 {
		return ""
	}
	t := mm(plate.Thickness)
	each, _, _, known := s.lateralOf(fast, sg, w.sg, t, long-t, strings.Contains(m.ID, "plywood"))
	if !known {
		return ""
	}
	each *= brief / permanent
	step := 50.0
	if s.inch() {
		step = 2 * 25.4
	}
	board := f.out // of the board's front; the frame's own face is a board behind
	for _, p := range s.of(o.ID).Parts {
		if p.Role == part.HookBoard {
			board = mm(o.Box.Max.Y - p.Box().Min.Y)
		}
	}
	holds := 0.0
	for _, x := range f.down {
		holds = math.Max(holds, x.holds)
	}
	for brace := 3 * step; brace <= 600; brace += step {
		n := f
		n.out = board + brace
		high := math.Min(f.high, math.Max(brace, 3*mm(up.Size[1])))
		k := max(3, 1+int(math.Ceil((high-80)/70)))
		n.plates = 2 * group(each, k, high)
		n.feet = 2 * each * float64(max(3, 1+int(math.Ceil((brace-83)/70))))
		c := max(2, 1+int(math.Ceil((brace-40)/100)))
		n.down = append([]screwed{}, f.down...)
		for i := range c {
			for range 2 {
				n.down = append(n.down, screwed{board + 23 + (brace-43)*float64(i)/float64(c-1), holds})
			}
		}
		a, b := n.forward()
		c1, d := n.back()
		if r := math.Max(a/math.Max(b, 1), c1/math.Max(d, 1)); r <= inHand {
			return fmt.Sprintf("brace it with feet on the counter, brace: %s (ratio %.2f)", s.long(brace), r)
		}
	}
	return ""
}
