package assemble

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/stock"
)

// Codes of findings that assembling gives.
const (
	// NoStud: a rail crosses fewer than two studs.
	// Example: a wall case of 14 in between studs at 16 in.
	NoStud finding.Code = "no-stud"
	// WallNotKnown: nothing says what a wall is made of, or where its studs are.
	// Example: a wall of kind not-known with a wall case on it.
	WallNotKnown finding.Code = "wall-not-known"
	// LiningNotKnown: nothing says how thick the lining is that screws pass on their way to a stud.
	// Example: a wall of studs without lining: with a wall case on it.
	LiningNotKnown finding.Code = "lining-not-known"
	// NoScrew: no wall screw sold is long enough, or an anchor ends before it is deep enough in its wall.
	// Example: 3-1/4 in are needed, the longest wall screw is 3 in.
	NoScrew finding.Code = "no-screw"
	// Packed: a rail is packed out where the wall is hollow.
	// Example: 1/4 in behind the upper rail at 110 in along.
	Packed finding.Code = "packed"
	// FootRange: a foot cannot reach the floor, or cannot be turned down far enough.
	// Example: 5-1/2 in at a foot that goes from 3-3/4 to 5 in.
	FootRange finding.Code = "foot-range"
	// ShimMost: shims would be thicker than the practice allows.
	// Example: 7/8 in where 3/4 in is the most.
	ShimMost finding.Code = "shim-most"
	// JoinLong: a joining screw is too long for the two sides.
	// Example: 1-1/2 in through two sides of 0.705 in.
	JoinLong finding.Code = "join-long"
	// JoinAssumed: the sides of a neighbour that stands already were not measured.
	// Example: an old case without board-measures beside a new one.
	JoinAssumed finding.Code = "join-assumed"
	// JoinOther: the family's joining screw is too long here and another is used.
	// Example: 1-1/4 in where two sides of 0.703 in take 1.248 in.
	JoinOther finding.Code = "join-other"
	// JoinFew: neighbours share fewer joining screws than they need.
	// Example: two screws where three are the least.
	JoinFew finding.Code = "join-few"
	// JoinNone: neighbours touch over too little of their sides for any screw between them.
	// Example: an old case 4 in deep beside a new one of 18 in.
	JoinNone finding.Code = "join-none"
	// CounterRaw: edges of a counter that can be seen have no edging.
	// Example: the right end of a counter above a lower neighbour.
	CounterRaw finding.Code = "counter-raw"
	// CounterHollow: too few places where a screw from a case up into its counter finds wood.
	// Example: stretchers that lie between the strips of a counter's blocking.
	CounterHollow finding.Code = "counter-hollow"
	// FixingCovered: screws to the wall that no driver comes to are left out.
	// Example: a stud behind a partition.
	FixingCovered finding.Code = "fixing-covered"
	// JoinByHand: neighbours touch but do not stand alike: holes of their own are bored for what joins them.
	// Example: a case of 34-1/2 in beside one of 27-1/4 in.
	JoinByHand finding.Code = "join-by-hand"
)

// Anchors stand no further apart than anchorPitch (common practice, no source).
const (
	rocks       = 3 * length.MM // what a castor's case takes by twisting
	anchorPitch = 400 * length.MM
	anchorIn    = 25 * length.MM  // further from the ends of a rail than screws in studs
	railWood    = length.Inch / 2 // thickness of what it passes, when nothing says
)

// fix turns every wanted stretch into screws at studs, or anchors.
func (w *work) fix(s *place.Seat, a *part.Assembly) {
	wall := w.room.Wall(s.Wall)
	if wall == nil && !s.Moves && !s.Hung {
		w.offer(s, a)
	}
	for i := range a.Fixings { // to its ledgers, which the carcass has placed
		if a.Fixings[i].Kind == part.ToLedger {
			w.boreThrough(a, &a.Fixings[i])
		}
	}
	if wall == nil || len(a.Wanted) == 0 || s.Moves {
		return
	}
	at := string(s.Kind) + "/" + s.ID
	if wall.Kind == "not-known" || (wall.Kind == "stud" || wall.Kind == "steel-stud") && !wall.StudsKnown {
		w.unknown[wall.ID] = append(w.unknown[wall.ID], s.Name)
		return
	}
	if !wall.LiningKnown {
		w.bare[wall.ID] = append(w.bare[wall.ID], s.Name)
	}
	packed := L(0)
	for _, want := range a.Wanted {
		lo, hi := min(want.From, want.To), max(want.From, want.To)
		var holds []place.Hold
		masonry := wall.Kind == "masonry" || wall.Kind == "concrete"
		if masonry {
			holds = anchors(lo, hi)
			if in := anchorIn; hi-lo > 8*in { // a drill has room beside the sides
				holds = anchors(lo+in, hi-in)
			}
		} else {
			holds = wall.Holds(lo, hi, want.Z, length.Foot+4*length.Inch)
		}
		spots := map[int][][2]L{} // by the place of a hold among those that are left
		var behind []string
		holds = slices.DeleteFunc(holds, func(h place.Hold) bool {
			list, none := reached(a, want, h, rows(a, want, s.Site.Hold, masonry), masonry)
			behind = append(behind, none...)
			if len(list) > 0 {
				spots[len(spots)] = list
			}
			return len(list) == 0
		})
		w.sayBehind(s, want, behind, at)
		crosses := "crosses no stud"
		if len(behind) > 0 {
			crosses += " that a driver comes to"
		}
		if n := place.Groups(holds); n < 2 && !masonry && s.Hung {
			text := fmt.Sprintf("The %s rail of %s, from %s to %s along, %s.", want.Row, s.Name, w.in(lo), w.in(hi), crosses)
			if n == 1 {
				text = fmt.Sprintf("The %s rail of %s, from %s to %s along, crosses one stud only, at %s.", want.Row, s.Name, w.in(lo), w.in(hi), w.in(holds[0].X))
			}
			w.found.Add(finding.Finding{Code: NoStud, Severity: finding.Error, Verdict: finding.Fails, At: at, Source: "common practice, no source",
				Demand: 2, Capacity: float64(n), Unit: "studs", Text: text, Hint: w.reachStuds(s, wall) + w.nearStuds(wall, lo, hi) + "."})
		}
		first := len(a.Fixings)
		for i, h := range holds {
			for _, spot := range spots[i] {
				one := want
				h.X, one.Z = spot[0], spot[1]
				if f, ok := w.fixing(s, wall, one, h, masonry, at); ok {
					w.boreThrough(a, &f)
					a.Fixings = append(a.Fixings, f)
					packed = max(packed, f.Packing)
				}
			}
		}
		w.shallow(s, wall, a.Fixings[first:], at)
		if len(holds) == 0 && !masonry && !s.Hung {
			x := finding.Finding{Code: NoStud, Severity: finding.Warning, Verdict: finding.Fails, At: at, Source: "common practice, no source",
				Demand: 1, Capacity: 0, Unit: "studs", Text: fmt.Sprintf("The %s rail of %s, from %s to %s along, %s: it is held by its neighbours alone.", want.Row, s.Name, w.in(lo), w.in(hi), crosses),
				Hint: "Fix it to a neighbour that is fixed, or move it: " + w.nearStuds(wall, lo, hi) + "."}
			if s.Left != "" || s.Right != "" { // whether they hold it is for tip-over to say
				x.Severity, x.Verdict, x.Demand, x.Unit = finding.Note, finding.None, 0, ""
			}
			w.found.Add(x)
		}
	}
	if s.Kind == place.Hutch {
		unscrew(a)
		w.offHeads(a)
	}
	w.screws(s, a)
	if packed > 0 {
		n := 0
		for _, f := range a.Fixings {
			if f.Kind == part.ToStud || f.Kind == part.ToWall {
				n += part.Packers(f.Packing, w.job.Print)
			}
		}
		w.packs(s, a, n, part.PackingUse, "packing")
		w.found.Add(finding.Finding{Code: Packed, Severity: finding.Note, At: at, Source: "arithmetic",
			Text: fmt.Sprintf("%s is packed out from the wall by up to %s at its fixings.", s.Name, w.in(packed)), Hint: "Pack at each screw before it goes to the wall."})
	}
}

// unscrew takes the screws into its counter out of a hook board that the wall holds: beside a wall no drill
// stands upright over them, and what is fixed to a wall needs none.
func unscrew(a *part.Assembly) {
	held := map[string]bool{}
	for _, f := range a.Fixings {
		if f.Kind == part.ToStud || f.Kind == part.ToWall {
			held[f.Part] = true
		}
	}
	if len(held) < 2 {
		return
	}
	a.Fixings = slices.DeleteFunc(a.Fixings, func(f part.Fixing) bool { return f.Kind == part.ToCase && f.Row == "counter" })
	a.Hardware = slices.DeleteFunc(a.Hardware, func(h part.Item) bool { return h.For == part.HutchToCounter })
	for i := range a.Parts {
		p := &a.Parts[i]
		p.Ops = slices.DeleteFunc(p.Ops, func(o part.Op) bool { return o.For == part.ScrewToCounter })
	}
}

// offer lists the screws that fix a case to a wall which nobody has surveyed: one in each of two studs,
// through a lining of half an inch (common practice, no source).
func (w *work) offer(s *place.Seat, a *part.Assembly) {
	for _, want := range a.Wanted {
		need := length.Inch/2 + w.job.Practice.LeastThread + part.Thick(want.Layers)
		screw, ok := w.screw(need, w.job.Practice.WallScrew)
		if want.Row != "upper" || !ok {
			continue
		}
		a.Hardware = append(a.Hardware, part.Item{Owner: s.ID, ID: screw.ID, Kind: "screw", Count: 2, Length: screw.Length, For: part.WhereItStands, Stage: s.Stage})
		w.packs(s, a, 2*2, part.PackingUse, "packing") // where a skirting board holds it off, before pieces of board
		return
	}
}

// rows gives the heights of the screws in one stud: about the middle of a rail, as many as it is
// high enough for; from where it is wanted inwards in a board that is the back itself.
func rows(a *part.Assembly, want part.Wanted, hold part.Hold, masonry bool) []L {
	if hold.Screws < 2 || masonry {
		return []L{want.Z}
	}
	n, from := hold.Screws, want.Z
	for _, p := range a.Parts {
		if p.Mark != want.Part {
			continue
		}
		box := p.Box()
		if p.Role == part.BackPanel {
			if want.Row == "lower" {
				return stepped(from, hold.Pitch, n)
			}
			return stepped(from, -hold.Pitch, n)
		}
		n = min(n, 1+int((box.Max.Z-box.Min.Z-2*screwEdge)/hold.Pitch))
		high := hold.Pitch * L(n-1)
		low, up := box.Min.Z+screwEdge, box.Max.Z-screwEdge
		if want.High-want.Low >= high {
			low, up = want.Low, want.High
		}
		return stepped(min(max(from-high/2, low), up-high), hold.Pitch, n)
	}
	return stepped(from-hold.Pitch*L(n-1)/2, hold.Pitch, n)
}

// screwEdge is the least wood between a screw's centre and the edge of its rail (NDS commentary
// C12.1: two and a half diameters, of 6 mm).
const screwEdge = 15 * length.MM

func stepped(from, by L, n int) []L {
	list := []L{from}
	for len(list) < n {
		list = append(list, list[len(list)-1]+by)
	}
	return list
}

// sayUnknown says once for each wall what is not known to hold.
func (w *work) sayUnknown() {
	for _, wall := range w.room.Walls {
		if names := w.bare[wall.ID]; len(names) > 0 {
			what, bare := "the screws of %s are counted for bare studs, and are too short by its thickness.", "the studs are bare"
			if wall.Kind == "masonry" || wall.Kind == "concrete" {
				what, bare = "the anchors of %s are counted for a bare wall, and are less deep in it by its thickness.", "there is none"
			}
			w.found.Add(finding.Finding{Code: LiningNotKnown, Severity: finding.Warning, Verdict: finding.NotKnown, At: "wall/" + wall.ID, Source: "the job",
				Text: fmt.Sprintf("Nothing says how thick the lining of wall %s is: "+what, wall.ID, strings.Join(names, ", ")),
				Hint: "Measure it at an outlet or in a hole and say lining: {thickness: …}; thickness 0 where " + bare + "."})
		}
		names := w.unknown[wall.ID]
		if len(names) == 0 {
			continue
		}
		what := "what wall " + wall.ID + " is made of"
		if wall.Kind != "not-known" {
			what = "where the studs of wall " + wall.ID + " are"
		}
		w.found.Add(finding.Finding{Code: WallNotKnown, Severity: finding.Warning, Verdict: finding.NotKnown, At: "wall/" + wall.ID, Source: "the job",
			Text: fmt.Sprintf("Nothing says %s: what holds %s is not known.", what, strings.Join(names, ", ")), Hint: "Find the studs with a magnet or a fine drill and list their centres."})
	}
}

func (w *work) in(v L) string { return v.In(w.job.Print) }

// reachStuds is the advice to a case whose rails cross too few studs: ledgers, where they reach two, which end with the
// case beside a neighbour; else another place.
func (w *work) reachStuds(s *place.Seat, wall *place.Wall) string {
	n := 0
	for _, x := range wall.Studs {
		if (s.Left == "" || x.At >= s.Box.Min.X+40*length.MM) && (s.Right == "" || x.At <= s.Box.Max.X-40*length.MM) {
			n++
		}
	}
	if n < 2 {
		return "Move it: "
	}
	return "Hang it on ledgers across two studs or more, hangs-by: {ledger: two-by-four}, or move it: "
}

// nearStuds names the studs around a stretch.
func (w *work) nearStuds(wall *place.Wall, lo, hi L) string {
	var list []string
	for _, s := range wall.Studs {
		if s.At > lo-24*length.Inch && s.At < hi+24*length.Inch {
			list = append(list, w.in(s.At))
		}
	}
	if len(list) == 0 {
		return "no stud is near"
	}
	return "studs near it are at " + strings.Join(list, ", ")
}

// anchors gives the places of anchors in a wall that takes them anywhere: at both ends and no
// further apart than anchorPitch.
func anchors(lo, hi L) []place.Hold {
	if hi < lo {
		return nil
	}
	n := max(2, 1+int((hi-lo).DivUp(int64(anchorPitch))))
	var r []place.Hold
	for i := range n {
		r = append(r, place.Hold{X: lo + (hi-lo).MulDiv(int64(i), int64(n-1)), Group: i})
	}
	return r
}

// fixing is one screw, or one anchor: as long as what it passes, the packing and the lining, and the least
// thread in wood, or depth of the anchor; the next length sold, the longest where none is long enough. NoScrew
// says so of a screw; of anchors the caller says it once for a rail.
func (w *work) fixing(s *place.Seat, wall *place.Wall, want part.Wanted, h place.Hold, masonry bool, at string) (part.Fixing, bool) {
	p := w.job.Practice
	f := part.Fixing{Owner: s.ID, Kind: part.ToStud, Wall: wall.ID, Part: want.Part, Stud: h.ID, Row: want.Row, Layers: slices.Clone(want.Layers)}
	face := wall.Face(h.X, want.Z)
	f.At.X, f.At.Y, f.At.Z = h.X, want.Y, want.Z
	f.Packing = max(0, face-want.Y)
	through := passing(f.Layers)
	if f.Packing > 0 {
		f.Layers = append(f.Layers, part.Layer{Name: "packing", Thickness: f.Packing})
		through += f.Packing
	}
	if wall.Lining > 0 {
		f.Layers = append(f.Layers, part.Layer{Name: nonEmpty(wall.LiningName, "lining"), Thickness: wall.Lining})
		through += wall.Lining
	}
	need := through + p.LeastThread
	if steel := wall.Kind == "steel-stud"; masonry || steel {
		// A wood screw holds nothing in thin steel: what goes into it, as into masonry, is an anchor with its maker's rating.
		f.Kind, f.Screw = part.ToWall, wall.Anchor
		x, ok := w.job.Catalogue.Item(f.Screw)
		if f.Screw == "" {
			x, ok = w.anchor(through, steel)
			f.Screw = x.ID
		}
		if ok {
			f.Length, f.Into, f.Least = x.Length, max(0, x.Length-through), cmp.Or(wall.AnchorInto, embedded(x))
		}
		return f, true
	}
	screw, ok := w.screw(need, nonEmpty(s.Site.Hold.Screw, p.WallScrew))
	if !ok {
		hint := "List a longer screw with use: wall."
		if f.Packing >= muchPacking {
			hint += fmt.Sprintf(" %s of it is packing: bring the case nearer to the wall (off-wall: of its run), or have less stand out there.", w.in(f.Packing))
		}
		w.found.Add(finding.Finding{Code: NoScrew, Severity: finding.Error, Verdict: finding.Fails, At: at, Source: "arithmetic", Demand: mm(need), Capacity: mm(screw.Length), Unit: "mm",
			Text: fmt.Sprintf("The %s rail of %s needs a wall screw %s long at %s along: %s to pass and %s of thread. None so long is listed.", want.Row, s.Name, w.in(need), w.in(h.X), w.in(through), w.in(p.LeastThread)),
			Hint: hint})
		if screw.ID == "" {
			return f, false
		}
	}
	f.Screw, f.Length, f.Into = screw.ID, screw.Length, screw.Length-through
	return f, true
}

// muchPacking is packing that is told as the reason why a screw is too short.
const muchPacking = 20 * length.MM

// passing is how thick what a fixing passes is before its wall.
func passing(layers []part.Layer) L {
	if len(layers) == 0 {
		return railWood
	}
	return part.Thick(layers)
}

// embedded is how deep an anchor is in what holds it at least, where nobody states for which depth it is rated: half
// of its length (common practice, no source). With less it is not known what it holds.
func embedded(x stock.Hardware) L { return x.Length / 2 }

// anchor gives the first anchor listed for masonry, or for steel studs, that is deep enough in its wall behind
// what it passes; the longest where none is, false where none is listed.
func (w *work) anchor(through L, steel bool) (best stock.Hardware, ok bool) {
	for _, x := range w.job.Catalogue.Hardware {
		if x.Kind != "anchor" || (x.Use == "steel-stud") != steel {
			continue
		}
		if x.Length-through >= embedded(x) {
			return x, true
		}
		if !ok || x.Length > best.Length {
			best, ok = x, true
		}
	}
	return best, ok
}

// shallow says of the anchors of a rail that they are not deep enough in their wall: their rating counts for
// nothing there.
func (w *work) shallow(s *place.Seat, wall *place.Wall, list []part.Fixing, at string) {
	var worst part.Fixing
	for _, f := range list {
		if f.Kind == part.ToWall && f.Least-f.Into > worst.Least-worst.Into {
			worst = f
		}
	}
	if worst.Into >= worst.Least {
		return
	}
	through := passing(worst.Layers)
	name := worst.Screw
	if x, ok := w.job.Catalogue.Item(worst.Screw); ok && x.Name != "" {
		name = x.Name
	}
	x := finding.Finding{Code: NoScrew, Severity: finding.Error, Verdict: finding.Fails, At: at, Source: "arithmetic", Demand: mm(worst.Least), Capacity: mm(worst.Into), Unit: "mm",
		Text: fmt.Sprintf("The %s rail of %s: %s is %s long and has %s to pass, which leaves %s of it in the wall at %s along", worst.Row, s.Name, name, w.in(worst.Length), w.in(through), w.in(worst.Into), w.in(worst.At.X)),
		Hint: "List a longer anchor with kind: anchor, name it and its maker's rating in anchor: of the wall, or make less stand between the rail and the wall."}
	switch {
	case worst.Into == 0:
		x.Text += ": it holds nothing."
	case wall.AnchorInto > 0:
		x.Text += fmt.Sprintf("; its rating is for %s.", w.in(worst.Least))
	default: // its maker may allow so little; nobody says
		x.Severity, x.Verdict, x.Demand, x.Capacity, x.Unit, x.Source = finding.Warning, finding.NotKnown, 0, 0, "", "common practice, no source"
		x.Text += fmt.Sprintf(", less than half of it (%s). Whether its maker rates it so is not known.", w.in(worst.Least))
		x.Hint = "Say the least depth that its maker rates it for, into: of the wall's anchor, or l" + x.Hint[1:]
	}
	w.found.Add(x)
}

// screw gives the shortest wall screw of the named one's diameter that is long enough; the
// longest and false when none is.
func (w *work) screw(need L, like string) (stock.Hardware, bool) {
	own, known := w.job.Catalogue.Item(like)
	var best, longest stock.Hardware
	for _, h := range w.job.Catalogue.Hardware {
		if h.Kind != "screw" || h.Use != "wall" && h.ID != own.ID || known && h.Dia != own.Dia {
			continue
		}
		if h.Length > longest.Length {
			longest = h
		}
		if h.Length >= need && (best.ID == "" || h.Length < best.Length) {
			best = h
		}
	}
	if best.ID == "" {
		return longest, false
	}
	return best, true
}

// screws counts the fixings of an owner as hardware.
func (w *work) screws(s *place.Seat, a *part.Assembly) {
	for _, f := range a.Fixings {
		if f.Screw == "" || f.Kind != part.ToStud && f.Kind != part.ToWall {
			continue
		}
		kind := "screw"
		if f.Kind == part.ToWall {
			kind = "anchor"
		}
		i := slices.IndexFunc(a.Hardware, func(h part.Item) bool { return h.ID == f.Screw && h.For == "wall fixing" })
		if i < 0 {
			a.Hardware = append(a.Hardware, part.Item{Owner: s.ID, ID: f.Screw, Kind: kind, For: "wall fixing", Stage: s.Stage, Length: f.Length})
			i = len(a.Hardware) - 1
		}
		a.Hardware[i].Count++
	}
	w.batten(s, a)
}

// battenScrews is how many screws hold the batten under a wall case.
const battenScrews = 2

// batten counts the screws of the batten that wall cases are propped on, with the first that hangs in studs: they
// serve again at the others.
func (w *work) batten(s *place.Seat, a *part.Assembly) {
	is := func(k part.FixKind) func(part.Fixing) bool {
		return func(f part.Fixing) bool { return f.Kind == k && f.Screw != "" }
	}
	i := slices.IndexFunc(a.Fixings, is(part.ToStud))
	if !s.Hung || s.Kind != place.Case || i < 0 || slices.ContainsFunc(a.Fixings, is(part.ToWall)) ||
		slices.ContainsFunc(a.Parts, func(p part.Part) bool { return p.Role == part.WallCleat }) ||
		slices.ContainsFunc(w.all.Hardware, func(h part.Item) bool { return h.For == part.BattenUse }) {
		return
	}
	f := a.Fixings[i]
	a.Hardware = append(a.Hardware, part.Item{Owner: s.ID, ID: f.Screw, Kind: "screw", Count: battenScrews, For: part.BattenUse, Stage: s.Stage, Length: f.Length})
}

func nonEmpty(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

func mm(v L) float64 { return float64(v) / float64(length.MM) }

// at names the place of an owner: "case/a", "hutch/hook board".
func (w *work) at(owner string) string {
	if s := w.room.Seat(owner); s != nil {
		return string(s.Kind) + "/" + s.ID
	}
	return "case/" + owner
}
