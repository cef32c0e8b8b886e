package joinery

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Wood that is left beside a screw where there is room: between those of a row and others, four diameters
// from middle to middle (NDS 2018 Table 12.5.1B, from memory; its heads do not meet either), and to screws
// that cross it.
const (
	rowWeb   = 12500 * length.MM / 1000
	screwWeb = 6 * mm
)

// Flat is one board lying on another, screwed through the first into the second.
type Flat struct {
	First, Second *part.Part
	Between       []*part.Part // boards that lie between the two
	Behind        *part.Part   // board glued behind the second, which the screw may go into; nil for none
	To            geom.Dir     // from the first into the second, in the frame of the parts
	Contact       geom.Box     // where they touch
	At            []geom.Vec   // places of the screws, in the contact
	Kind          part.JointKind
	Glue          bool
	For           string // what the screws are for, as it is bought
}

// Screwed makes such a joint: the longest wood screw sold that goes through the first board and
// stays in the second, a clearance hole through the first and a pilot in the second. Where none is
// long enough the joint is glued, and it is said.
func (s Shop) Screwed(f Flat) Result {
	n := f.To.Axis()
	first, second := f.First.Box().Size().At(n), f.Second.Box().Size().At(n)
	for _, p := range f.Between {
		first += p.Box().Size().At(n)
	}
	near := second
	if f.Behind != nil {
		second += f.Behind.Box().Size().At(n)
	}
	r := Result{Joint: part.Joint{Kind: f.Kind, A: f.First.Local, B: f.Second.Local, Contact: f.Contact, Glue: f.Glue}}
	h, ok := s.ScrewFor("wood", first, second)
	if !ok {
		s.glued(&r, f.First.Name, f.Second.Name, first, second)
		return r
	}
	bit := func(d L) (string, L) {
		tool, dia, ok := s.Pilot(d)
		if !ok {
			s.noBit(&r, d)
		}
		return tool, dia
	}
	tool, dia := bit(cmp.Or(h.Clearance, woodClear))
	ptool, pilot := bit(cmp.Or(h.Pilot, woodPilot))
	step := 10 * mm // one stop for screws that go in by nearly the same
	if s.Practice.Unit == "in" {
		step = length.Inch / 2
	}
	deep := PilotDepth(min(max(h.Length-first+mm, 8*mm).Up(step), second-3*mm), pilot)
	hole := func(p *part.Part, dia, depth L, tool, use string) bore {
		return bore{p, part.Op{Kind: part.Hole, Face: p.Facing(f.To.Not()), Dia: dia, Depth: depth, Tool: tool, For: use}}
	}
	var bores []bore // of every screw
	for _, p := range append([]*part.Part{f.First}, f.Between...) {
		bores = append(bores, hole(p, dia, p.Box().Size().At(n), LongBit(tool, dia, p.Box().Size().At(n)), string(part.WoodScrew)))
	}
	own := deep
	if f.Behind != nil {
		own = min(deep, near)
	}
	bores = append(bores, hole(f.Second, pilot, own, ptool, string(part.WoodScrew)))
	if deep > own {
		bores = append(bores, hole(f.Behind, pilot, deep-own, ptool, "point of a wood screw"))
	}
	at := f.At
	for _, web := range []L{rowWeb, screwWeb, part.Web} {
		to, ok := inside(f.At, f.Contact, func(v geom.Vec) bool {
			return !slices.ContainsFunc(bores, func(o bore) bool { return !o.part.Clear(o.at(v), web) })
		})
		if ok {
			at = to
			break
		}
	}
	for _, v := range at {
		for _, o := range bores {
			o.part.Ops = append(o.part.Ops, o.at(v))
		}
	}
	r.Joint.Fastener, r.Joint.Count = h.ID, len(f.At)
	r.Items = append(r.Items, part.Item{Owner: s.Owner, ID: h.ID, Kind: "screw", Count: len(f.At), Length: h.Length, For: f.For})
	return r
}

// inside draws screws in from the ends of a contact, evenly, as little as keeps all off what is
// worked there already, or each by itself where that does not do; false when nothing does.
func inside(at []geom.Vec, c geom.Box, free func(geom.Vec) bool) ([]geom.Vec, bool) {
	run := longest(c)
	mid := (c.Min.At(run) + c.Max.At(run)) / 2
	half := c.Size().At(run) / 2
	for in := L(0); in < half/2; in += aside {
		try := slices.Clone(at)
		for i, v := range at {
			d := v.At(run) - mid
			try[i] = v.With(run, v.At(run)-d.MulDiv(int64(in), int64(half)))
		}
		if !slices.ContainsFunc(try, func(v geom.Vec) bool { return !free(v) }) {
			return try, true
		}
	}
	// No even row is clear: each goes to the nearest place that is.
	var moved []geom.Vec
	for _, v := range at {
		x := v.At(run) - c.Min.At(run)
	search:
		for off := L(0); ; off += aside {
			if off > half/2 {
				return at, false
			}
			for _, y := range inwards(x, off, 2*half) {
				to := v.With(run, c.Min.At(run)+y)
				near := func(w geom.Vec) bool { return (w.At(run) - to.At(run)).Abs() < least }
				if y >= leastEdge && y <= 2*half-leastEdge && free(to) && !slices.ContainsFunc(moved, near) {
					moved = append(moved, to)
					break search
				}
			}
		}
	}
	return moved, true
}

// longest gives the axis along the longer side of a contact.
func longest(c geom.Box) int {
	s, run := c.Size(), 0
	for i := range 3 {
		if s.At(i) > s.At(run) {
			run = i
		}
	}
	return run
}

// Told gathers what the joints of one thing have to say, so that it says each once.
type Told struct {
	changes []Change
	list    finding.List
}

// Add takes what one joint says.
func (t *Told) Add(r Result) {
	if r.Change != nil {
		t.changes = append(t.changes, *r.Change)
	}
	for _, f := range r.Findings {
		if f.Code != JointElsewhere && f.Code != JointShows && !slices.ContainsFunc(t.list, func(g finding.Finding) bool { return g.Code == f.Code && g.Text == f.Text }) {
			t.list = append(t.list, f)
		}
	}
}

// List gives it all, for a place in the job.
func (t *Told) List(at string) finding.List {
	var out finding.List
	for _, f := range t.list {
		f.At = at
		out.Add(f)
	}
	return append(out, Tell(at, t.changes)...)
}

// Grip is how many diameters a screw should hold in the last board: with less, nothing is published
// for what it carries across its length (NDS 2018 12.1.4 to 12.1.6, least penetration).
const Grip = 6

// Reaching gives the shortest screw, of those for wood and of long construction screws, that passes a
// first board and holds Grip diameters in a second without coming out of it.
func (s Shop) Reaching(first, second L) (stock.Hardware, bool) {
	var best stock.Hardware
	ok := false
	for _, h := range s.Catalogue.Hardware {
		if h.Kind == "screw" && (h.Use == "wood" || h.Use == "floor") && s.Sold(h) && h.Length >= first+Grip*h.Dia && h.Length <= first+second-4*mm && (!ok || h.Length < best.Length) {
			best, ok = h, true
		}
	}
	return best, ok
}

// reach gives a longer screw where the one found does not hold enough in the second board of a joint,
// and says so where there is none.
func (s Shop) reach(r *Result, j Between, first, second L, h stock.Hardware, ok bool) (stock.Hardware, bool) {
	if !ok || h.Length >= first+Grip*h.Dia {
		return h, ok
	}
	if x, is := s.Reaching(first, second); is {
		return x, true
	}
	r.Findings.Add(finding.Finding{Code: NoScrew, Severity: finding.Warning, At: s.at(),
		Text: fmt.Sprintf("no screw of the catalogue passes %s of %s and holds %d diameters in %s", s.text(first), j.A.Name, Grip, j.B.Name),
		Hint: "add one to hardware, with use: floor and its length", Source: "NDS 2018 12.1.4 to 12.1.6 (least penetration)"})
	return h, ok
}

// Along gives n places in a row along the longer side of a contact, in the middle of its other
// side, the first and the last so far from its ends.
func Along(c geom.Box, n int, first L) []geom.Vec {
	s, run := c.Size(), longest(c)
	mid := geom.V((c.Min.X+c.Max.X)/2, (c.Min.Y+c.Max.Y)/2, (c.Min.Z+c.Max.Z)/2)
	first = min(first, s.At(run)/4)
	if n < 2 {
		return []geom.Vec{mid}
	}
	at := make([]geom.Vec, n)
	for i := range at { // the same from both ends, so that a mirrored board is a true mirror
		d := first + (s.At(run)-2*first).MulDiv(int64(min(i, n-1-i)), int64(n-1))
		at[i] = mid.With(run, c.Min.At(run)+d)
		if 2*i > n-1 {
			at[i] = mid.With(run, c.Max.At(run)-d)
		}
	}
	return at
}
