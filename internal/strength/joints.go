package strength

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/joinery"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

// CarcassJoint: the joints that carry what stands in a wall case to its sides, and its sides to
// the rails it hangs by, are too weak.
const CarcassJoint finding.Code = "carcass-joint"

const jointSource = "screws: NDS 2018 12.3.1A (yield limit), 12.1.4 (least penetration), 12.5.2 (end grain), below it APA E830 Table 1; dowels: shear along the grain, Wood Handbook Table 5-3a; dados: bearing on plywood's face, APA Plywood Design Specification (from memory)"

func joints() Rule {
	return Rule{Name: "joints", Codes: []finding.Code{CarcassJoint},
		Doc: "The way of the load through a case: what stands on the bottom and on fixed shelves, partitions and what they bear too, goes by their joints to the sides and to the partitions that they end at, each by its distance from the other, unless a base or the floor lies under them; and of a wall case half of everything, with its pull, goes by the rails' joints from each side to the rails. " +
			"Screws are counted by the yield-limit equations, × 0.67 as in end grain, since one of the two boards is met in its edge. The standard gives no value where a screw reaches less than six diameters; there, in plywood and from 1/2 in of thread on, its equations are lowered in proportion to the reach and held below a fifth of the mean of APA's tests. " +
			"Glued dowels are counted in shear along their grain, as the weakest birch; a dado by the bearing of its lower shoulder. Nothing is counted for glue between an edge and a face, and nothing is known of screws of short reach or dowels in MDF, particleboard and OSB.",
		Source:  jointSource,
		Example: "A bottom held to each side by one screw under 100 kg.",
		Run:     checkJoints}
}

// Figures for joints.
const (
	testThread = unit.Inch / 2         // APA E830 Table 1: threaded penetration
	testShank  = 0.164 * unit.Inch     // its No. 8
	testMean   = 415 * unit.PoundForce // mean at failure
	workShare  = 0.2                   // a fifth of the mean: common practice with APA's test data
	dowelShear = 8.3                   // MPa, paper birch, Wood Handbook Table 5-3a
	faceBears  = 160 * unit.PSI        // plywood of the softest group, on its face, dry
	provedBy   = 1 / (countedOn * 0.9) // a trial joint must fail at no less than this many times the load
)

// hold is what one joint carries across its fasteners' length, N.
type hold struct {
	all    float64
	words  []string
	source string
}

// layered says that a board is of veneers, or solid: crossed plies keep an edge from splitting.
func (s *Scene) layered(p *part.Part) bool {
	if p.Material == part.Stick {
		return true
	}
	b, _ := s.Job.Catalogue.Board(p.Stock)
	m, _ := s.Job.Catalogue.Material(b.Material)
	return strings.Contains(m.ID+m.Name, "ply")
}

// holdOf works out a joint of an edge of b on a face of a; fact says what is not known.
func (s *Scene) holdOf(j part.Joint, a, b *part.Part) (h hold, fact, find string) {
	const prove = "Give the case another joint, or prove one by test."
	run := 1 // along the joint: from front to back, but up a rail that stands
	if v := j.Contact.Size(); v.Z > v.Y {
		run = 2
	}
	wa, wb := s.wood(a, 2, false), s.wood(b, 0, false)
	switch j.Kind {
	case part.Dowel:
		item, ok := s.Job.Catalogue.Item(j.Fastener)
		switch {
		case !ok || item.Dia <= 0 || j.Count == 0:
			return h, "the thickness and number of its dowels", "Give diameter: to the dowel under hardware:."
		case !j.Glue:
			return h, "what a joint by dowels without glue holds", prove
		case !s.layered(a) || !s.layered(b):
			return h, "what dowels in an edge of " + wb.what + " hold before it splits", prove
		}
		d := mm(item.Dia)
		each := 0.75 * math.Pi / 4 * d * d * dowelShear * countedOn * permanent
		h.all = each * float64(j.Count)
		h.source = "shear along the grain of paper birch 8.3 MPa, Wood Handbook Table 5-3a; × 0.737 / 2.1 (ASTM D245, from memory) × 0.9 (NDS 2018 2.3.2)"
		h.words = []string{fmt.Sprintf("A dowel of %s in shear: 3/4 × %s × %s × 0.737 / 2.1 × 0.9 = %s; %d of them %s. The wood of the dowels is not said: counted as paper birch.", s.exact(d), s.flat(math.Pi/4*d*d), s.stress(dowelShear), s.force(each), j.Count, s.force(h.all))}
		return h, "", ""
	case part.Dado:
		if !s.layered(a) || !s.layered(b) {
			return h, "what the shoulder of a dado in " + wa.what + " bears", prove
		}
		v := j.Contact.Size()
		deep, long := mm(v.X), mm(v.At(run))
		if deep <= 0 || long <= 0 {
			return h, "how deep its dado is", prove
		}
		h.all = faceBears * deep * long
		h.source = "bearing on the face of plywood, softest group, 160 psi: APA Plywood Design Specification (from memory)"
		h.words = []string{fmt.Sprintf("The dado's lower shoulder bears %s × %s × %s = %s, as long as screws, a back or clamped glue keep the sides from spreading.", s.exact(deep), s.exact(long), s.stress(faceBears), s.force(h.all))}
		return h, "", ""
	case part.PocketScrew, part.WoodScrew, part.ConnectingScrew:
		fast, long, ok := s.screw(j.Fastener)
		if !ok || j.Count == 0 {
			return h, "the size of screw " + j.Fastener, "Give diameter, root and length of the screw under hardware:."
		}
		if wa.sg <= 0 || wb.sg <= 0 {
			w := wa
			if wa.sg > 0 {
				w = wb
			}
			return h, "the specific gravity of " + w.what, "Give specific-gravity of its material under materials:."
		}
		// Heads outside a side pass it and reach into the edge; pockets come out of the edge and
		// reach into the side.
		ta := mm(a.Size[2])
		side, main, thick, into := wa.sg, wb.sg, ta, long-ta
		if j.Kind == part.PocketScrew {
			side, main, into = wb.sg, wa.sg, math.Min(ta, long/2)
			thick = long - into
		}
		if into <= 0 || thick <= 0 {
			return h, fmt.Sprintf("what a joint by %s holds that does not reach the board behind", j.Kind), "Take longer screws."
		}
		each, words, source, known := s.lateralOf(fast, side, main, thick, into, s.layered(a) && s.layered(b))
		if !known {
			return h, fmt.Sprintf("a published strength of a joint by %s that reaches %s", j.Kind, s.long(into)), prove
		}
		h.all, h.source = each*float64(j.Count), source
		h.words = append(words, fmt.Sprintf("%d screws hold %s.", j.Count, s.force(h.all)))
		return h, "", ""
	}
	return h, "a published strength of a joint by " + string(j.Kind), prove
}

// lateralOf is one screw in shear between an edge and a face, N. Members are given by specific
// gravity, thick is the length in the side member, plies says that both are plywood or solid.
func (s *Scene) lateralOf(fast nds.Fastener, side, main, thick, into float64, plies bool) (each float64, words []string, source string, known bool) {
	return s.shearOf(fast, nds.Member{G: side, Bearing: thick, Angle: 90}, main, into, plies, true)
}

// shearOf is lateralOf, or the same of a screw through one face into another where neither is met in its edge.
func (s *Scene) shearOf(fast nds.Fastener, side nds.Member, main, into float64, plies, edge bool) (each float64, words []string, source string, known bool) {
	bears := fast.MainBearing(into)
	if bears <= 0 {
		return 0, nil, "", false
	}
	share, end, source := 1.0, "", "NDS 2018 12.3.1A, 2.3.2"
	if edge {
		share, end, source = nds.EndGrainLateral, " × 0.67 (end grain)", "NDS 2018 12.3.1A, 12.5.2, 2.3.2"
	}
	lat := nds.Joint{Fastener: fast, Side: side, Main: nds.Member{G: main, Bearing: bears, Angle: 90}}.Lateral()
	each = lat.Z * share * float64(nds.Permanent)
	words = []string{fmt.Sprintf("%s reaches %s: yield mode %v, Z %s%s × 0.9 (load that stays) = %s.", fast.Name, s.exact(into), lat.Mode, s.force(lat.Z), end, s.force(each))}
	if _, allowed := fast.PenetrationFactor(into); allowed {
		return each, words, source, true
	}
	if !plies || into < testThread {
		return 0, nil, "", false
	}
	least := fast.LeastPenetration()
	tested := testMean * math.Min(fast.D/testShank, 1.4) * workShare * share * float64(nds.Permanent)
	short := each * into / least
	words = append(words, fmt.Sprintf("The standard gives no value for a reach below %s (6 diameters): lowered to %s × %s / %s = %s, and held below a fifth of APA's tests of a No. 8 screw with 1/2 in of thread in plywood (415 lb), by diameter,%s × 0.9 = %s.",
		s.exact(least), s.force(each), s.exact(into), s.exact(least), s.force(short), strings.Replace(end, " (end grain)", "", 1), s.force(tested)))
	return math.Min(short, tested), words, source + "; below 6 diameters (12.1.4) in proportion and by APA E830 Table 1 over 5", true
}

func checkJoints(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: CarcassJoint, source: jointSource}
	for _, o := range s.hung() {
		h := s.hanging(o)
		if len(h.lacks) > 0 {
			continue // said with its fixing
		}
		for _, b := range s.of(o.ID).Parts {
			s.ended(o, h, b, &f, &unknown)
		}
	}
	f.Add(unknown.findings("The strength of the joint", finding.Warning)...)
	below := blank{code: CarcassJoint, source: jointSource}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "case" || o.Hung || o.Standing {
			continue
		}
		for _, b := range s.of(o.ID).Parts {
			if (b.Role == part.Bottom || b.Role == part.FixedShelf) && s.spanning(b) {
				s.ended(o, hang{assumed: s.gross(o.ID).assumed}, b, &f, &below)
			}
		}
	}
	f.Add(below.findings("The strength of the joint", finding.Note)...)
	return f
}

// spanning says that a board hangs between its ends: nothing lies under it all along.
func (s *Scene) spanning(b *part.Part) bool {
	return s.spans[b.Mark]
}

// ended judges both ends of a board between sides or partitions and keeps the worse.
func (s *Scene) ended(o *part.Owner, h hang, b *part.Part, f *finding.List, unknown *blank) {
	worst, ratio := finding.Finding{}, -1.0
	for _, j := range s.of(o.ID).Joints {
		a := s.parts[j.A]
		if j.B != b.Mark || j.Kind == part.Loose || a.Role != part.Side && a.Role != part.Partition {
			continue
		}
		down, out, words, carries := s.passes(o, h, a, b)
		if !carries {
			return
		}
		x, known := s.joined(*j, a, b, math.Hypot(down, out), math.Hypot(down/2, out), words, h.assumed, unknown)
		if !known {
			return
		}
		if x.Ratio() > ratio {
			worst, ratio = x, x.Ratio()
		}
	}
	if ratio >= 0 {
		f.Add(worst)
	}
}

// ending is what a board ends at, in words.
func ending(a *part.Part) string {
	if a.Role == part.Partition {
		return fmt.Sprintf("%s (%s)", a.Name, a.Mark)
	}
	return "its side"
}

// byWay gives what goes from a side to a rail by way of the top or the bottom: no more than the
// side's joint with that board holds, nor half of that board's joint with the rail. What is not
// known of it is not counted.
func (s *Scene) byWay(a, rail *part.Part) (hold, bool) {
	for _, j := range s.joints[rail.Mark] {
		over := s.parts[j.A]
		if j.B != rail.Mark || over == nil || over.Role != part.Top && over.Role != part.Bottom {
			continue
		}
		for _, e := range s.joints[a.Mark] {
			if e.A != a.Mark || e.B != over.Mark {
				continue
			}
			first, no, _ := s.holdOf(*e, a, over)
			second, nor, _ := s.holdOf(*j, over, rail)
			if no != "" || nor != "" {
				return hold{}, false
			}
			most := math.Min(first.all, second.all/2)
			if over.Role == part.Bottom {
				// It brings its own goods by the same joint.
				kg, _ := s.toSide(over, a)
				most = math.Max(0, math.Min(first.all-newtons(kg), second.all/2))
			}
			return hold{all: most, source: first.source, words: []string{fmt.Sprintf("By way of the %s: %s hold %s to the side and %s hold %s to the rail, half of it for each side: %s more.",
				over.Name, fastened(*e), s.force(first.all), fastened(*j), s.force(second.all), s.force(most))}}, true
		}
	}
	return hold{}, false
}

// rails counts the rails that a case hangs by.
func (s *Scene) rails(owner string) (n int) {
	for _, p := range s.of(owner).Parts {
		if p.Role == part.HangRail {
			n++
		}
	}
	return n
}

// passes is the load that goes through a joint of b to the side a, down and out of the wall, N.
func (s *Scene) passes(o *part.Owner, h hang, a, b *part.Part) (down, out float64, words []string, carries bool) {
	switch b.Role {
	case part.HangRail, part.Cleat:
		if a.Role == part.Partition {
			return 0, 0, nil, false // what it carries is counted to the sides
		}
		// Each side brings what lies nearer to it; upper and lower rails share by their screws.
		left, right := mm(o.Carcass.Min.X), mm(o.Carcass.Max.X)
		share := 0.5
		if right > left {
			share = (right - h.all.x) / (right - left)
			if mm(a.Box().Min.X+a.Box().Max.X)/2 > h.all.x {
				share = (h.all.x - left) / (right - left)
			}
			share = math.Max(share, 0.5) // doors open and goods move
		}
		rows, pulls := 1.0, false
		n := float64(len(h.upper) + len(h.low))
		upper := h.low == nil || mm(b.Box().Max.Z) > mm(o.Carcass.Min.Z+o.Carcass.Max.Z)/2
		switch {
		case h.cleat && !upper:
			return 0, 0, nil, false
		case n == 0 && s.rails(o.ID) > 1: // what its wall is made of is not known: both are screwed to it all the same
			rows, pulls = 0.5, upper
			if n := float64(s.rails(o.ID)); upper {
				rows = (n - 1) / n
			}
		case h.cleat || n == 0 || len(h.upper) == 0 || len(h.low) == 0:
			pulls = true
		case upper:
			rows, pulls = math.Max(0.5, float64(len(h.upper))/n), true
		default:
			rows = math.Max(0.5, float64(len(h.low))/n)
		}
		down = newtons(h.all.kg) * share * rows
		if pulls {
			out = h.pull * share
		}
		words = []string{fmt.Sprintf("Of %s in all, %.2f goes by this side and %.2f of that by this rail: %s down.", s.kg(h.all.kg), share, rows, s.force(down))}
		if pulls {
			words = append(words, fmt.Sprintf("The same share of the pull on the upper screws: %s out.", s.force(out)))
		}
		return down, out, words, true
	case part.Bottom, part.FixedShelf:
		kg, by := s.toSide(b, a)
		return newtons(kg), 0, []string{fmt.Sprintf("The share of this side of the board and of all that stands on it: %s.", s.kg(kg))}, len(by.lacks) == 0
	}
	return 0, 0, nil, false
}

// joined judges one joint; false when something is not known, which is then noted. Shared is the load
// where a second rail carries half of the weight.
func (s *Scene) joined(j part.Joint, a, b *part.Part, demand, shared float64, words []string, assumed bool, unknown *blank) (finding.Finding, bool) {
	at := s.at(b.Owner, b.Mark)
	name := s.name(b) + " to " + ending(a)
	hold, fact, find := s.holdOf(j, a, b)
	if fact != "" {
		if add := s.screwsBeside(a, b, demand, 0); add != "" {
			find = fmt.Sprintf("%s, or prove a trial joint: it must carry %.1f times the load. %s", strings.ToUpper(add[:1])+add[1:], provedBy, find)
		}
		unknown.add(fact, find, name, at)
		return finding.Finding{}, false
	}
	all, by := hold.all, fastened(j)
	if j.Kind == part.Dado {
		by = "a dado"
	}
	if assumed {
		words = append([]string{"Some of its load is assumed, by the practice."}, words...)
	}
	words = append(words, hold.words...)
	if more, ok := s.byWay(a, b); ok {
		all += more.all
		by += " and its neighbours"
		words = append(words, more.words...)
	}
	x := verdict(finding.Finding{Code: CarcassJoint, At: at, Demand: demand, Capacity: all, Unit: "N", Source: hold.source}, finding.Error)
	some := ""
	if assumed {
		some = ", some of it assumed,"
	}
	x.Text = fmt.Sprintf("%s carries %s%s by %s; %s can be counted on.", name, s.force(demand), some, by, s.force(all))
	x.Working = append(words, fmt.Sprintf("Ratio %.2f.", x.Ratio()))
	if x.Verdict == finding.Fails {
		var more []string // how many it has is settled already, as far as there is room
		if add := s.screwsBeside(a, b, demand, all-hold.all); add != "" {
			more = append(more, add)
		}
		switch b.Role {
		case part.Cleat:
			if r := shared / all; r <= 1 {
				more = append(more, fmt.Sprintf("hang it by an upper and a lower rail that share its weight, hangs-by: {kind: rail} (ratio %.2f)", r))
			}
			more = append(more, s.lessIn(s.hanging(s.owners[b.Owner]), demand/all)...)
		case part.HangRail:
			more = append(more, s.lessIn(s.hanging(s.owners[b.Owner]), demand/all)...)
		default:
			more = append(more, fmt.Sprintf("put %s less on it (ratio 1.00)", s.kg(2*(demand-all)/newtons(1))))
		}
		x.Hint = hint(more)
	}
	return x, true
}

func fastened(j part.Joint) string { return many(j.Count, string(j.Kind)) }

// screwsBeside is the remedy that every shop can make: wood screws through the side into the
// edge, as many as carry all of it.
func (s *Scene) screwsBeside(a, b *part.Part, demand, besides float64) string {
	wa, wb := s.wood(a, 2, false), s.wood(b, 0, false)
	if a.Role == part.Partition || wa.sg <= 0 || wb.sg <= 0 || demand <= 0 { // a board may end opposite, over the heads
		return ""
	}
	ta := mm(a.Size[2])
	var best stock.Hardware
	for _, h := range s.Job.Catalogue.Hardware {
		if h.Kind != "screw" || h.Use != "wood" {
			continue
		}
		fast, long, ok := s.screw(h.ID)
		if !ok || long-ta < fast.LeastPenetration() || best.ID != "" && h.Length >= best.Length {
			continue
		}
		best = h
	}
	fast, long, ok := s.screw(best.ID)
	if !ok {
		return ""
	}
	each, _, _, known := s.lateralOf(fast, wa.sg, wb.sg, ta, long-ta, true)
	if !known {
		return ""
	}
	n := max(2, int(math.Ceil((demand-besides)/each)))
	if n > max(2, joinery.Room(part.WoodScrew, b.Size[1])) {
		return "" // no room for so many
	}
	return fmt.Sprintf("drive %d × %s through the side into its edge at each end instead, joint: wood-screw (ratio %.2f)", n, cmp.Or(best.Name, best.ID), demand/(besides+each*float64(n)))
}
