// Package joinery knows how boards are fastened to each other: where the fasteners of a joint
// go, what is bored in both boards, which screws are bought, and with which of the shop's own
// tools it is done. It knows nothing of cases; it is handed two boards and the area where they
// touch. What cannot be made becomes another joint and a finding that says so.
package joinery

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// NoTool: the shop has nothing that makes what was asked for, and it is made another way.
	// Example: "no tool makes a groove: the back is applied instead of captured".
	NoTool finding.Code = "no-tool"
	// NoBit: no bit or hole saw of this diameter is owned. Example: "no 35 mm bit for hinge cups".
	NoBit finding.Code = "no-bit"
	// NoScrew: the catalogue has no screw for a use. Example: "no pocket screw of 32 mm".
	NoScrew finding.Code = "no-screw"
	// JointElsewhere: joints could not go where they were asked for, so another kind is used.
	// Example: "connecting-screw instead of pocket-screw (a pocket would show): bottom to left side, bottom to right side".
	JointElsewhere finding.Code = "joint-changed"
	// JointShows: heads or pockets can be seen because no joint of the shop hides.
	JointShows finding.Code = "joint-shows"
	// BoardThin: a board is thinner than its joint asks for.
	BoardThin finding.Code = "board-too-thin"
)

// Common practice, no source: figures of the joints.
const (
	narrowFirst   = 12 * mm // first fastener of a rail too narrow for the practice's own
	thinConnect   = 15 * mm // thinnest board edge a connecting screw goes in
	thinDowel     = 16 * mm // thinnest board edge an 8 mm dowel goes in: its own radius left on both sides
	dowelDia      = 8 * mm
	dowelLength   = 30 * mm
	dowelFace     = 11 * mm // a third of the dowel
	dowelEdge     = 21 * mm // two thirds; 32 with the other, 2 for glue
	dowelStep     = 32 * mm
	connectDia    = 7 * mm
	connectPilot  = 5 * mm
	connectLength = 50 * mm
	connectHead   = 10 * mm
	connectBite   = 15 * mm // least of it in the edge
	woodLength    = 50 * mm
	thinEdge      = mm // least wood beside a screw's hole in an edge
	woodPilot     = 3 * mm
	woodClear     = 4500 * length.MM / 1000
	PocketAngle   = 15
	// PocketRoom is what a driver in a pocket needs from its axis to a board that lies along it: half of
	// a chuck, and a little.
	PocketRoom = 25 * mm
	PocketDia  = 9500 * length.MM / 1000
)

// GrooveRoom is what a groove is wider than the measured board that goes in it.
const GrooveRoom = 150 * length.MM / 1000

// Shop is what joinery may know of the shop.
type Shop struct {
	Practice  stock.Practice
	Catalogue stock.Catalogue
	Owner     string // id of the case, for findings
}

// Tool gives the id of the first machine of one of the kinds, in the order of the kinds.
func (s Shop) Tool(kinds ...string) (string, bool) {
	for _, k := range kinds {
		for _, t := range s.Practice.Tools {
			if t.Kind == k {
				return t.ID, true
			}
		}
	}
	return "", false
}

// Groover gives the tool that makes grooves, rabbets and dados.
func (s Shop) Groover() (string, bool) {
	for _, t := range s.Practice.Tools {
		if t.Grooves {
			return t.ID, true
		}
	}
	return "", false
}

// Saw gives the tool that saws notches, bevels and cut-outs.
func (s Shop) Saw() string {
	if id, ok := s.Tool("track-saw", "circular-saw", "table-saw", "panel-saw", "mitre-saw", "router", "hand"); ok {
		return id
	}
	return HandSaw
}

// roundReach is how far before the end of its cut, at full depth, a round blade is through a board; common
// practice, no source: 55 mm of a blade of 180 mm that stands 2 mm out of a board of 18.
const roundReach = 60 * mm

// Notcher gives the tool that saws a notch of two sides in a board's edge: by hand where a round blade would be
// through hardly any of it without sawing on into the corner.
func (s Shop) Notcher(a, c L) string {
	if min(a, c) < roundReach {
		return HandSaw
	}
	return s.Saw()
}

// HandSaw is the name of what every shop has.
const HandSaw = "hand saw"

// Jigsaw is the name of what saws an opening inside a board: no blade of a table begins there.
const Jigsaw = "jigsaw or keyhole saw"

// Beveller gives the tool that saws bevels along a board.
func (s Shop) Beveller() (string, bool) {
	for _, t := range s.Practice.Tools {
		if t.Bevels && t.Kind != "mitre-saw" {
			return t.ID, true
		}
	}
	return "", false
}

// Mitrer gives the tool that saws mitres across the ends of strips: a mitre saw, else what saws bevels.
func (s Shop) Mitrer() (string, bool) {
	if id, ok := s.Tool("mitre-saw"); ok {
		return id, true
	}
	return s.Beveller()
}

// Bit names the bit or hole saw of a diameter, within 0.1 mm; false when none is owned. The
// name is then that of the bit that is needed.
func (s Shop) Bit(dia L) (string, bool) { return s.bit(dia, dia-mm/10, dia+mm/10) }

// Pilot names a bit for a hole that only guides a screw: the nearest one owned within a
// millimetre below and half a millimetre above.
func (s Shop) Pilot(dia L) (string, L, bool) {
	best, ok := L(0), false
	for _, b := range s.Practice.Bits {
		if b >= dia-mm && b <= dia+mm/2 && (!ok || (b-dia).Abs() < (best-dia).Abs()) {
			best, ok = b, true
		}
	}
	if !ok {
		return s.name(dia) + " bit", dia, false
	}
	return s.name(best) + " bit", best, true
}

// Over names the bit for a hole that a bolt passes: the narrowest one owned that is no narrower, and no more than half a
// millimetre wider. NDS 2018 12.1.3.2 has 1/32 in to 1/16 in of play, ISO 273 (medium) 1 mm for M8.
func (s Shop) Over(dia L) (string, L, bool) {
	best, ok := L(0), false
	for _, b := range s.Practice.Bits {
		if b >= dia && b <= dia+mm/2 && (!ok || b < best) {
			best, ok = b, true
		}
	}
	if !ok {
		return s.name(dia) + " bit", dia, false
	}
	return s.name(best) + " bit", best, true
}

func (s Shop) bit(dia, lo, hi L) (string, bool) {
	for i, list := range [][]L{s.Practice.Bits, s.Practice.HoleSaws} {
		for _, b := range list {
			if b >= lo && b <= hi {
				return s.name(b) + [...]string{" bit", " hole saw"}[i], true
			}
		}
	}
	return s.name(dia) + " bit", false
}

func (s Shop) text(l L) string {
	if s.Practice.InInches() {
		return l.In(length.Inches)
	}
	return l.In(length.Millimetres)
}

// name gives a diameter as it is stamped on the bit: millimetres when whole, else inches; in an
// inch shop a fraction first.
func (s Shop) name(d L) string {
	if s.Practice.Unit == "in" && d%(length.Inch/64) == 0 {
		return d.Exact(length.Inches)
	}
	if d%(mm/10) == 0 {
		return d.Exact(length.Millimetres)
	}
	return d.Exact(length.Inches)
}

// InEnd is how far the fasteners of a joint, or its dado, reach into the end of a board so thick that
// it holds.
func (s Shop) InEnd(kind string, thick L) L {
	_, jig := s.Tool("pocket-jig")
	switch {
	case kind == "pocket-screw" && jig:
		return part.PocketRun(thick)
	case kind == "dowel":
		return dowelEdge
	case kind == "dado":
		return 0
	}
	return connectLength - thick + 2*mm
}

// Opposite is how deep a hole may be bored where one from the other face may be at the same place.
func (s Shop) Opposite(thick L) L {
	step := mm / 2
	if s.Practice.Unit == "in" {
		step = length.Inch / 32
	}
	return part.OppositeDepth(thick, step)
}

// Between is a joint to be made: B's end or edge meets A's face over Contact.
type Between struct {
	A, B    *part.Part
	To      geom.Dir // from B into A, in the frame of the parts
	Contact geom.Box // in the frame of the parts: no thickness, or the depth of a dado
	// Pockets are the sides of B, in that frame, where pockets do not show, best first.
	Pockets []geom.Dir
	// Heads: screws through A may be seen from outside.
	Heads bool
	// Shut: a board lies along B at the joint's far end before B comes, and pockets keep PocketRoom from it.
	Shut bool
	// Both: another board may be joined to A's other side at the same place.
	Both bool
	// Shift moves the fasteners along the joint, so that they miss those of a board on the other
	// side of A.
	Shift L
	// Butt: a dado cannot be used here, whatever the practice says.
	Butt bool
	// Most limits the number of fasteners, 0 for no limit. Least is how many screws or dowels there
	// are where there is room for them.
	Most, Least int
	// At are the places of the fasteners along the joint, from its start, where they must miss others;
	// nil for the practice's.
	At []L
}

// Result is a joint with what must be bought for it.
type Result struct {
	Joint    part.Joint
	Items    []part.Item
	Findings finding.List // all that is to be said of this joint, its change included
	Change   *Change      // what became of it, nil when it is as it was wanted
}

// Make makes a joint of the wanted kind, or of the practice's other kind where it cannot go,
// and works both boards.
func (s Shop) Make(want string, j Between) Result {
	r := Result{Joint: part.Joint{A: j.A.Local, B: j.B.Local, Contact: j.Contact, Glue: s.Practice.Glue}}
	tried := []string{want, s.Practice.JointElse, "pocket-screw", "dowel", "connecting-screw", "wood-screw"}
	if want == "dado" && j.Butt {
		tried = tried[1:]
	}
	var why []string
	for _, k := range tried {
		if k == "" || k == "dado" && (j.Butt || len(why) > 0) {
			continue
		}
		if reason := s.cannot(k, j); reason != "" {
			if !slices.Contains(why, reason) {
				why = append(why, reason)
			}
			continue
		}
		s.make(k, j, &r)
		if len(why) > 0 {
			s.changed(&r, Change{From: tried[0], To: k, Why: why[0], A: j.A.Name, B: j.B.Name})
		}
		return r
	}
	// Nothing hides: wood screws with their heads seen, which every shop can drive.
	s.make("wood-screw", j, &r)
	s.changed(&r, Change{From: tried[0], To: "wood-screw", Why: why[0], A: j.A.Name, B: j.B.Name, Shows: true})
	return r
}

func (s Shop) changed(r *Result, c Change) {
	r.Change = &c
	r.Findings = append(r.Findings, Tell(s.at(), []Change{c})...)
}

func (s Shop) at() string { return "case/" + s.Owner }

// Depth gives how deep a board goes into another by a joint kind: the dado's depth, at most a
// third of the thinner board, and 0 for butt joints or when nothing makes a groove.
func (s Shop) Depth(kind string, thinner L) L {
	if _, ok := s.Groover(); kind != "dado" || !ok {
		return 0
	}
	d := s.Practice.DadoDepth
	if d == 0 {
		d = 6 * mm
	}
	return min(d, (thinner / 3).Down(mm/10))
}

// half is how far a screw may go into a board that one in its other end may meet.
func half(deep L) L { return deep/2 - mm }

// cannot says why a joint cannot go somewhere, "" when it can.
func (s Shop) cannot(kind string, j Between) string {
	g := s.measure(j)
	thick := j.B.Size[2]
	switch kind {
	case "pocket-screw":
		if _, ok := s.Tool("pocket-jig"); !ok {
			return "no pocket jig"
		}
		if len(j.Pockets) == 0 {
			return "a pocket would show"
		}
		if g.deep < 60*mm {
			return "the board is too short for a pocket"
		}
		if min(thick, j.A.Size[2]) < 11*mm {
			return "a board is too thin for pocket screws"
		}
	case "connecting-screw":
		if thick < thinConnect {
			return "the edge is too thin"
		}
		if !j.Heads {
			return "heads would show"
		}
		if g.deep < 60*mm || g.through != j.A.Size[2] {
			return "the board is too short"
		}
		if most := g.through + half(g.deep); most < connectLength {
			if h, ok := s.Screw("connecting", most-over); !ok || h.Length < g.through+connectBite {
				return "the board is too short: screws from both ends would meet"
			}
		}
		for _, d := range []L{connectDia, connectPilot} {
			if _, ok := s.Bit(d); !ok {
				return "no " + s.name(d) + " bit"
			}
		}
	case "dowel":
		if _, ok := s.Tool("dowel-jig", "drill-press", "drill"); !ok {
			return "no tool for dowels"
		}
		if _, ok := s.Bit(dowelDia); !ok {
			return "no 8 mm bit"
		}
		if thick < thinDowel || j.A.Size[2] < dowelFace+3*mm {
			return "the board is too thin for 8 mm dowels"
		}
		if g.through != j.A.Size[2] {
			return "an edge does not take a dowel's short end"
		}
	case "dado":
		if _, ok := s.Groover(); !ok {
			return "no tool makes a groove"
		}
		if g.sunk == 0 {
			return "the boards only touch"
		}
	case "wood-screw":
		if !j.Heads {
			return "heads would show"
		}
	default:
		return "not known"
	}
	return ""
}

// geometry of a joint.
type geometry struct {
	to      geom.Dir // from B into A
	run     int      // axis along the joint
	thick   int      // axis of B's thickness
	sunk    L        // depth of a dado
	deep    L        // B's size away from the joint
	through L        // A's size along the joint's normal
	a, b    part.Face
	out     part.Face // A's face away from B
}

func (s Shop) measure(j Between) geometry {
	n, bw := j.To.Axis(), j.B.Pose.W().Axis()
	if n == bw {
		panic("joinery: " + j.B.Local + " meets " + j.A.Local + " with its face, not with an edge")
	}
	ab, bb := j.A.Box(), j.B.Box()
	g := geometry{to: j.To, thick: bw, run: 3 - n - bw, sunk: j.Contact.Size().At(n)}
	g.deep = bb.Size().At(n)
	g.through = ab.Size().At(n)
	g.b = j.B.Facing(g.to)
	g.a = j.A.Facing(g.to.Not())
	g.out = g.a.Not()
	return g
}

func (s Shop) make(kind string, j Between, r *Result) {
	g := s.measure(j)
	along := j.Contact.Size().At(g.run)
	if kind == "pocket-screw" && j.Shut && along > 2*PocketRoom {
		along -= PocketRoom
	}
	pr := s.Practice
	first, pitch := pr.JointFirst, pr.JointPitch
	if first == 0 {
		first = 50 * mm
	}
	if pitch == 0 {
		pitch = 150 * mm
	}
	at := Places(along, first, pitch, max(pr.JointLeast, 2))
	if kind == "dowel" {
		at = DowelPlaces(along, first, pitch)
		if rest := along - at[len(at)-1] - at[0]; g.run == 0 {
			for i := range at { // across a case what the pitch leaves is shared by both ends
				at[i] += rest / 2
			}
		}
	}
	if n := min(j.Least, Room(part.JointKind(kind), along)); n > len(at) {
		first, step := narrowFirst, int64(n-1)
		if kind == "dowel" { // all on 32 mm, about the middle
			first = (along - dowelStep*L(n-1)) / 2
		}
		at = at[:0]
		for i := range n {
			at = append(at, first+(along-2*first).MulDiv(int64(i), step))
		}
	}
	if j.Most > 0 && len(at) > j.Most {
		at = at[:j.Most]
	}
	if len(j.At) > 0 {
		at = j.At
	}
	if n := len(at); n > 0 && at[n-1]+j.Shift <= along-8*mm && at[0]+j.Shift >= 8*mm {
		at = slices.Clone(at)
		for i := range at {
			at[i] += j.Shift
		}
	}
	mid := func(a int) L { return (j.Contact.Min.At(a) + j.Contact.Max.At(a)) / 2 }
	spot := func(x L) geom.Vec {
		return geom.V(mid(0), mid(1), mid(2)).With(g.run, j.Contact.Min.At(g.run)+x)
	}
	var bores []bore // of every fastener
	var bought func(n int)
	ta := g.through
	tb := j.B.Size[2]
	switch kind {
	case "pocket-screw":
		r.Joint.Kind = part.PocketScrew
		tool, _ := s.Tool("pocket-jig")
		f := j.B.Facing(j.Pockets[0])
		bores = []bore{{j.B, part.Op{Kind: part.Pocket, Face: f, Dia: PocketDia, Depth: tb * 2 / 3, Angle: PocketAngle, Towards: g.b, Tool: tool, For: "pocket screw"}}}
		bought = func(n int) { s.fasten(r, "pocket", PocketLength(min(ta, tb)), n) }
	case "connecting-screw", "wood-screw":
		dia, pilot, long, use := connectDia, connectPilot, connectLength, "connecting"
		r.Joint.Kind = part.ConnectingScrew
		if kind == "wood-screw" {
			dia, pilot, long, use = woodClear, woodPilot, woodLength, "wood"
			r.Joint.Kind = part.WoodScrew
			// An edge of A between B and the head: take the longest that leaves a thread.
			long = max(long, ta+25*mm)
		}
		// Not so long that it meets one in the other end.
		long = min(long, ta+half(g.deep)-over)
		h, ok := s.Screw(use, long)
		if kind == "wood-screw" {
			h, ok = s.reach(r, j, ta-g.sunk, half(g.deep)+4*mm, h, ok)
		}
		if ok {
			long = h.Length
			if h.Clearance > 0 {
				dia = h.Clearance
			}
			if h.Pilot > 0 {
				pilot = h.Pilot
			}
		}
		clearTool, clearDia, ok := s.Pilot(dia)
		if !ok {
			s.noBit(r, dia)
		}
		pilotTool, pilotDia, ok := s.Pilot(pilot)
		if !ok {
			s.noBit(r, pilot)
		}
		if tb < pilotDia+2*thinEdge {
			r.Findings.Add(finding.Finding{Code: BoardThin, Severity: finding.Error, At: s.at(), Source: "common practice, no source",
				Text: fmt.Sprintf("The edge of a board of %s takes no screw: it splits.", s.text(tb)), Hint: "Use a thicker board there."})
		}
		bores = []bore{{j.A, part.Op{Kind: part.Hole, Face: g.out, Dia: clearDia, Depth: ta - g.sunk, Tool: LongBit(clearTool, clearDia, ta-g.sunk), For: string(r.Joint.Kind)}}}
		if deep := PilotDepth(min(long-ta+2*mm+g.sunk, g.deep/2-mm), pilotDia); deep > 0 {
			bores = append(bores, bore{j.B, part.Op{Kind: part.Hole, Face: g.b, Dia: pilotDia, Depth: deep, Tool: pilotTool, For: string(r.Joint.Kind)}})
		}
		bought = func(n int) {
			if h.ID == "" {
				s.fasten(r, use, long, n)
			} else {
				s.buy(r, h, use, n)
			}
		}
	case "dowel":
		r.Joint.Kind = part.Dowel
		r.Joint.Glue = true
		tool, _ := s.Bit(dowelDia)
		face := min(dowelFace, ta-3*mm)
		if j.Both {
			face = min(face, s.Opposite(ta))
		}
		edge := min(dowelEdge+dowelFace-face, g.deep/2)
		bores = []bore{
			{j.A, part.Op{Kind: part.Hole, Face: g.a, Dia: dowelDia, Depth: face, Tool: tool, For: "dowel"}},
			{j.B, part.Op{Kind: part.Hole, Face: g.b, Dia: dowelDia, Depth: edge, Tool: tool, For: "dowel"}},
		}
		bought = func(n int) {
			id := "dowel-8-30"
			for _, h := range s.Catalogue.Hardware {
				if h.Kind == "dowel" && h.Dia == dowelDia && h.Length == dowelLength {
					id = h.ID
					break
				}
			}
			r.Joint.Fastener, r.Joint.Count = id, n
			r.Items = append(r.Items, part.Item{Owner: s.Owner, ID: id, Kind: "dowel", Count: n, For: "carcass joints"})
		}
	case "dado":
		r.Joint.Kind, r.Joint.Glue = part.Dado, true
		tool, _ := s.Groover()
		b := j.Contact
		below, above := L(0), GrooveRoom
		if g.thick == 0 { // half on either side, so that a mirrored board is a true mirror
			below, above = GrooveRoom/2, GrooveRoom-GrooveRoom/2
		}
		b.Min = b.Min.With(g.thick, max(b.Min.At(g.thick)-below, j.A.Box().Min.At(g.thick)))
		b.Max = b.Max.With(g.thick, min(b.Max.At(g.thick)+above, j.A.Box().Max.At(g.thick)))
		j.A.Recess(part.Groove, g.a, b, tool, "dado")
		return
	}
	if len(j.At) == 0 {
		for _, web := range []L{screwWeb, part.Web, mm} { // with less where a low board has no more
			free := func(x L) bool {
				return !slices.ContainsFunc(bores, func(o bore) bool { return !o.part.Clear(o.at(spot(x)), web) })
			}
			if to, ok := apart(at, along, free); ok && (web < screwWeb || len(to) == len(at)) {
				at = to
				break
			}
		}
	}
	for _, x := range at {
		for _, o := range bores {
			o.part.Ops = append(o.part.Ops, o.at(spot(x)))
		}
	}
	bought(len(at))
}

// bore is what one fastener asks of one board.
type bore struct {
	part *part.Part
	op   part.Op
}

// at gives the working at a point, in the frame the part is posed in.
func (o bore) at(q geom.Vec) part.Op {
	x, y := o.part.OnFace(o.op.Face, q)
	op := o.op
	op.X, op.Y = x, y
	return op
}

func (s Shop) noBit(r *Result, dia L) {
	r.Findings.Add(finding.Finding{Code: NoBit, Severity: finding.Warning, At: s.at(),
		Text: fmt.Sprintf("no %s bit is owned", s.name(dia)), Hint: "add it to the practice's bits", Source: "common practice, no source"})
}
