package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// GoodsRoom: goods do not go into what the job puts them in.
// Example: thirty planks of 90 in, in a case of 30 in.
const GoodsRoom finding.Code = "goods-room"

// GoodsHeight: goods lie higher than their below: says, or lower than their above:.
// Example: children's toys with below: 30 on a shelf at 40 in.
const GoodsHeight finding.Code = "goods-height"

// GoodsWith: goods are not kept with those that their with: names.
const GoodsWith finding.Code = "goods-with"

const goodsSource = "the job; arithmetic: rows of equal boxes, and the area of the floor as what no arrangement can pass"

func keeping() Rule {
	return Rule{Name: "goods", Codes: []finding.Code{GoodsRoom, GoodsHeight, GoodsWith},
		Doc:     "Every thing that the job puts in a bay goes into it, turned as its lies: allows: upright, flat, on edge, on end or hung it is only turned round, else on any side, with 10 mm free over it for its lid, a size that is a little off and the sag of the board above, 3 mm where it comes out with a drawer, tray or door, and 2 mm beside a row. All of them do, standing on each other as stack: allows: when rows of them take the count it holds; when the floor's area does not it fails; between the two it is to be tried, and not known. On a rail things hang side by side, on a hook board beside and below each other; a bored hole takes one, and no bay more than the load stated for it. Goods that share bays are put away together, in strips from front to back beside each other: first where it keeps below: and above:, its lock and the reach of the shortest user, and evenly there. What no bay holds and has a place: is looked for along the surveyed walls: on the floor or in the open where nothing stands, opens or must stay clear, on the wall for a hook, bracket or rail, on the counters for a bench; where too little is found there, whether the room has more is not known. When all find room it holds; when they are more than the bays hold by volume it fails. They are no higher and no lower there than below: and above: say, and in one case with what with: names.",
		Source:  goodsSource + "; what is left free, common practice, no source",
		Example: "46 tins of 4-1/4 in on two shelves that have room for 24.",
		Run:     checkKeeping}
}

// Play is what is left free where goods stand: it takes up lids, sizes that are a little off, and the sag of the board over
// them, so that they come in and out. Common practice, no source.
const (
	PlayOver   = 10 * length.MM // over what stands in a case that stays
	PlayUnder  = 3 * length.MM  // over what comes out with its drawer, tray or door
	PlayBeside = 2 * length.MM  // of a floor's width and of its depth
)

// spot is one place where goods may be; the height is endless on a counter.
type spot struct {
	stored
	clear [3]float64 // width, depth, height, mm
	size  [3]float64 // what goods may take of it, mm: less by the play that they need
	solid bool       // a standing thing, of which the outside is known only
	// upright is set where the goods that room is looked for here are to stand upright, since they can.
	upright bool
}

// sizes are the ways of putting one of some goods down here.
func (p *spot) sizes(g *stock.Goods) [][3]float64 {
	all := sizes(g)
	if p.upright {
		return all[:min(2, len(all))]
	}
	return all
}

// sizes are the ways of putting one thing down, as its lies: allows: width, depth and height, mm, the two upright ones
// first; none where a size is not known.
func sizes(g *stock.Goods) (list [][3]float64) {
	var w, d, h float64
	switch {
	case g.Tall == nil:
		return nil
	case g.Dia != nil:
		w, d, h = mm(*g.Dia), mm(*g.Dia), mm(*g.Tall)
	case g.Wide != nil && g.Deep != nil:
		w, d, h = mm(*g.Wide), mm(*g.Deep), mm(*g.Tall)
	default:
		return nil
	}
	list = [][3]float64{{w, d, h}, {d, w, h}}
	if g.Lies == "" || g.Lies == "any" || g.Lies == "rolled" {
		list = append(list, [3]float64{w, h, d}, [3]float64{h, w, d}, [3]float64{d, h, w}, [3]float64{h, d, w})
	}
	return list
}

// slack is what is taken as equal, mm.
const slack = 0.5

// takes gives how many of some goods a place holds in rows, and the most that its floor's area could hold however
// they stood. A rail and bored holes hold no more than rows, a hook board no more than its face, and no bay more than the load
// stated for it.
func (p *spot) takes(g *stock.Goods) (rows, most float64) {
	if p.bay != nil {
		defer func() {
			n := float64(p.bears(g, p.bay.Load.Kilograms()))
			rows, most = math.Min(rows, n), math.Min(most, n)
		}()
	}
	c := p.column(g)
	if c.each == 0 {
		return 0, 0
	}
	if rows = float64(c.holds(c.all)); p.bay != nil && (len(p.bay.Places) > 0 || p.bay.Hung && !p.hooks()) {
		return rows, rows
	}
	most = rows
	for _, v := range sizes(g) {
		if !p.fits(v) {
			continue
		}
		if p.hooks() {
			most = math.Max(most, math.Floor(p.size[0]*p.size[2]/(v[0]*v[2])))
			continue
		}
		levels := math.Floor((p.size[2] + slack) / v[2])
		if !p.solid { // which may have shelves
			levels = math.Min(levels, float64(max(g.Stack, 1)))
		}
		foot := v[0] * v[1]
		if g.Dia != nil && v[0] == v[1] {
			foot *= math.Sqrt(3) / 2 // round things stand closest in rows that are shifted by half
		}
		most = math.Max(most, math.Floor(levels*p.size[0]*p.size[1]/foot))
	}
	if p.solid {
		rows = most
	}
	return rows, most
}

// spots are the places that the job lists each kind of goods under.
func (s *Scene) spots(g *stock.Goods) []spot { return s.spotsOf[g] }

// spot gives a place its clear size.
func (s *Scene) spot(w stored) (p spot, ok bool) {
	o := s.owners[w.owner]
	if o == nil {
		return p, false
	}
	p.stored = w
	box := o.Box
	if w.bay != nil {
		box = w.bay.Box
	}
	v := box.Size()
	p.size = [3]float64{mm(v.X), mm(v.Y), mm(v.Z)}
	if w.bay == nil {
		if p.solid = o.Kind != "counter"; !p.solid {
			p.size[2] = math.Inf(1)
		}
	}
	if p.clear = p.size; w.bay != nil && !w.bay.Hung && len(w.bay.Places) == 0 {
		over := PlayOver
		if w.bay.Moves != "" {
			over = PlayUnder
		}
		for i, play := range [3]L{PlayBeside, PlayBeside, over} {
			p.size[i] = math.Max(p.size[i]-mm(play), 0)
		}
	}
	return p, true
}

// high gives between which heights above the floor a thing of a height can be in a place, mm: where its foot can be at
// most, and its top at least.
func (s *Scene) high(p *spot, tall float64) (foot, top float64) {
	o := s.owners[p.owner]
	switch {
	case p.bay != nil && p.bay.Kind == "hook-board":
		return s.up(o.Wall, p.bay.Box, p.bay.Box.Max.Z) - tall, s.up(o.Wall, p.bay.Box, p.bay.Box.Min.Z) + tall
	case p.bay != nil && p.bay.Hung:
		z := s.up(o.Wall, p.bay.Box, p.bay.Box.Max.Z)
		return z - tall, z
	case p.bay != nil:
		z := s.up(o.Wall, p.bay.Box, p.bay.Box.Min.Z)
		return z, z + tall
	case p.solid: // wherever inside
		return s.up(o.Wall, o.Box, o.Box.Min.Z), s.up(o.Wall, o.Box, o.Box.Max.Z)
	}
	z := s.up(o.Wall, o.Box, o.Box.Max.Z)
	return z, z + tall
}

func checkKeeping(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: GoodsRoom, source: goodsSource}
	levels := blank{code: GoodsHeight, source: goodsSource}
	var rest []apart // what no bay takes
	for i := range s.Job.Goods {
		g := &s.Job.Goods[i]
		all := s.spots(g)
		if len(all) == 0 {
			rest = append(rest, apart{goods: g, n: max(g.Count, 1), at: "goods/" + g.ID})
			continue
		}
		at, also := s.ats(g, all)
		if g.Below != nil || g.Above != nil {
			all = s.within(g, all, at, &f, &levels)
		}
		if len(sizes(g)) == 0 && !slices.ContainsFunc(all, func(p spot) bool { return p.bay != nil && len(p.bay.Places) > 0 }) {
			unknown.add("the size of "+called(g), "Measure one: width, depth and height, or diameter and height.", called(g), at)
			continue
		}
		s.room(g, all, at, also, &f, &unknown)
		if n := s.left(g, all); n > 0 && s.elseKept(g) {
			rest = append(rest, apart{g, n, at, true})
		}
		if other := slices.IndexFunc(s.Job.Goods, func(x stock.Goods) bool { return x.ID == g.Group }); g.Group != "" && other >= 0 {
			s.together(g, &s.Job.Goods[other], at, &f)
		}
	}
	s.elsewhere(rest, &f, &unknown, &levels)
	s.shared(&f)
	f.Add(unknown.findings("Whether there is room", finding.Note)...)
	f.Add(levels.findings("How high they are kept", finding.Note)...)
	return f
}

// elseKept says whether what finds no room where goods are listed is put somewhere that no bay is.
func (s *Scene) elseKept(g *stock.Goods) bool {
	return g.Place != "" && s.owners[g.Place] == nil
}

// kept says in words where the job puts what no bay holds.
func kept(place string) string {
	switch place {
	case "open":
		return "in the open"
	case "bench", "floor":
		return "on the " + place
	}
	return "on a " + place
}

// level compares where a thing is with what its below: and above: say.
func (s *Scene) level(g *stock.Goods, foot, top float64, at, where string) finding.Finding {
	x := finding.Finding{Code: GoodsHeight, At: at, Unit: "mm", Source: goodsSource}
	switch {
	case g.Above != nil && (g.Below == nil || foot+slack < mm(*g.Above)):
		x.Demand, x.Capacity = mm(*g.Above), foot
		x.Text = fmt.Sprintf("%s %s stand at %s above the floor; they are to be no lower than %s.", called(g), where, s.long(foot), s.long(mm(*g.Above)))
	default:
		x.Demand, x.Capacity = top, mm(*g.Below)
		x.Text = fmt.Sprintf("%s %s reach up to %s above the floor; they are to be no higher than %s.", called(g), where, s.long(top), s.long(mm(*g.Below)))
	}
	x.Demand -= slack
	x.Capacity = math.Max(x.Capacity, 0)
	x = verdict(x, finding.Warning)
	x.Working = []string{x.Text}
	if x.Verdict == finding.Fails {
		x.Hint = "List them under another bay, or move the shelf."
	}
	return x
}

// within keeps the places that lie as high as below: and above: ask, and says so; all of them where none does.
func (s *Scene) within(g *stock.Goods, all []spot, at string, f *finding.List, levels *blank) []spot {
	if g.Tall == nil && g.Below != nil {
		levels.add("how high one of "+called(g)+" is", "Measure it and say height:.", called(g), at)
		return all
	}
	tall := 0.0
	if g.Tall != nil {
		tall = mm(*g.Tall)
	}
	off := func(foot, top float64) float64 {
		d := 0.0
		if g.Below != nil {
			d = math.Max(d, top-mm(*g.Below))
		}
		if g.Above != nil {
			d = math.Max(d, mm(*g.Above)-foot)
		}
		return d
	}
	var kept []spot
	best, near := math.Inf(1), 0
	for i := range all {
		d := off(s.high(&all[i], tall))
		if d <= slack {
			kept = append(kept, all[i])
		}
		if d < best {
			best, near = d, i
		}
	}
	foot, top := s.high(&all[near], tall)
	if all[near].solid && len(kept) == 0 {
		levels.add("how high they are kept in "+s.called(all[near].owner), "Keep them where that is known, in a bay.", called(g), at)
		return all
	}
	f.Add(s.level(g, foot, top, at, "in "+s.called(all[near].owner)))
	if len(kept) == 0 {
		return all
	}
	return kept
}

// ats gives where goods are, as findings name it: the first of the cases that hold them, and the others.
func (s *Scene) ats(g *stock.Goods, all []spot) (at string, also []string) {
	for _, p := range all {
		also = append(also, s.at(p.owner, "")+"/"+g.ID)
	}
	order.Up(also)
	also = slices.Compact(also)
	return also[0], also[1:]
}

// in names the cases that hold goods.
func (s *Scene) in(all []spot) string {
	var names []string
	for _, p := range all {
		if n := s.called(p.owner); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, " and ")
}

// measures prints a size.
func (s *Scene) measures(v [3]float64) string {
	if math.IsInf(v[2], 1) {
		return s.long(v[0]) + " × " + s.long(v[1])
	}
	return s.long(v[0]) + " × " + s.long(v[1]) + " × " + s.long(v[2])
}

// room says whether all of some goods go into the places that the job gives them.
func (s *Scene) room(g *stock.Goods, all []spot, at string, also []string, f *finding.List, unknown *blank) {
	rows, most := 0.0, 0.0
	solid, wide := "", 0
	volume := func(p spot) float64 { return p.clear[0] * p.clear[1] * math.Min(p.clear[2], 1e6) }
	for i := range all {
		p := &all[i]
		r, m := p.takes(g)
		if p.solid && m > 0 {
			solid = s.called(p.owner)
		}
		if !p.solid {
			rows += r
		}
		most += m
		if volume(*p) > volume(all[wide]) {
			wide = i
		}
	}
	n := float64(max(g.Count, 1))
	many := fmt.Sprintf("%.0f × %s", n, called(g))
	if v := sizes(g); len(v) > 0 {
		many += ", " + s.measures(v[0]) + " each"
	}
	x := finding.Finding{Code: GoodsRoom, At: at, Also: also, Demand: n, Unit: "things", Source: goodsSource}
	hangs := g.Lies == "hung" && !slices.ContainsFunc(all, func(p spot) bool { return p.solid || p.bay != nil && (p.bay.Hung || len(p.bay.Places) > 0) })
	switch {
	case hangs:
		x.Severity, x.Verdict = finding.Warning, finding.Fails
		x.Text = fmt.Sprintf("%s: they are to hang, and nothing in %s has a rail or hooks.", many, s.in(all))
		x.Hint = "List them under a hook board or a bay with hanging:, or say how else they may be stored, lies:."
	case s.elseKept(g) && s.left(g, all) > 0:
		return // elsewhere says whether there is room for the others
	case most == 0 && slices.ContainsFunc(all, func(p spot) bool { return p.column(g).each > 0 }):
		x.Severity, x.Verdict = finding.Warning, finding.Fails
		x.Text = fmt.Sprintf("%s: one weighs more than the load stated for %s.", many, s.in(all))
		x.Hint = "State a larger load:, which is proved then, or keep them elsewhere."
	case most == 0:
		x.Severity, x.Verdict = finding.Warning, finding.Fails
		x.Text = fmt.Sprintf("%s: none goes into %s, whose largest place for them is %s.", many, s.in(all), s.measures(all[wide].clear))
		if play := s.tight(g, all); play != "" {
			x.Text = fmt.Sprintf("%s: none comes in and out of %s%s.", many, s.in(all), play)
			x.Source += "; what is left free, common practice, no source"
		}
		x.Hint = "Give them a larger bay, or say how else they may be stored, lies:."
	case most < n:
		x.Capacity = most
		x = verdict(x, finding.Warning)
		x.Text = fmt.Sprintf("%s: the floor of what they are put in, %s, takes %.0f at most; rows take %.0f.", many, s.in(all), most, rows)
		if rows == most {
			x.Text = fmt.Sprintf("%s: what they are put in, %s, has room for %.0f.", many, s.in(all), most)
		}
		x.Hint = fmt.Sprintf("List more bays for them, say stack: where they may stand on each other, or keep %.0f elsewhere.", n-most)
		if slices.ContainsFunc(all, func(p spot) bool { return p.bay != nil && p.bay.Load > 0 }) {
			x.Hint = fmt.Sprintf("List more bays for them, say stack: where they may stand on each other, state a larger load:, or keep %.0f elsewhere.", n-most)
		}
	case solid == "" && rows < n && s.left(g, all) == 0:
		x.Severity, x.Verdict, x.Demand = finding.Note, finding.Holds, 0
		x.Text = fmt.Sprintf("%s: all find room in %s, some turned round beside the rows.", many, s.in(all))
	case rows >= n:
		x.Severity, x.Verdict, x.Demand = finding.Note, finding.Holds, 0 // a full bay is not near anything
		x.Text = fmt.Sprintf("%s: rows of %.0f go into %s.", many, rows, s.in(all))
	case solid != "":
		unknown.add("how "+solid+" is divided inside", "Try it there.", called(g), at)
		return
	default:
		x.Severity, x.Verdict, x.Demand, x.Unit = finding.Note, finding.NotKnown, 0, ""
		x.Text = fmt.Sprintf("%s: rows of %.0f go into %s, and its floor would take %.0f at most: whether the rest finds room is to be tried.", many, rows, s.in(all), most)
		x.Hint = "List more bays for them, or say stack: where they may stand on each other."
	}
	x.Working = []string{x.Text}
	f.Add(x)
}

// tight says what keeps things out that are no larger than a place, in words after its name: the play that they need; "" where they are larger.
func (s *Scene) tight(g *stock.Goods, all []spot) string {
	for _, p := range all {
		for _, v := range sizes(g) {
			if v[0] <= p.clear[0]+slack && v[1] <= p.clear[1]+slack && v[2] <= p.clear[2]+slack {
				return fmt.Sprintf(", where their place is %s: they need %s free over them and %s beside and behind them", s.measures(p.clear), s.long(p.clear[2]-p.size[2]), s.long(p.clear[0]-p.size[0]))
			}
		}
	}
	return ""
}

// together says whether goods are in one case with those that they are to be with.
func (s *Scene) together(g, other *stock.Goods, at string, f *finding.List) {
	a, b := s.spots(g), s.spots(other)
	x := finding.Finding{Code: GoodsWith, At: at, Source: "the job", Severity: finding.Note, Verdict: finding.Holds, Text: fmt.Sprintf("%s are in one case with %s.", called(g), called(other))}
	if len(b) > 0 && !slices.ContainsFunc(a, func(p spot) bool { return slices.ContainsFunc(b, func(q spot) bool { return p.owner == q.owner }) }) {
		x.Severity, x.Verdict = finding.Warning, finding.Fails
		x.Text = fmt.Sprintf("%s are to be kept with %s, which are in %s.", called(g), called(other), s.in(b))
		x.Hint = "List both under one case."
	} else if len(b) == 0 {
		x.Severity, x.Verdict = finding.Note, finding.NotKnown
		x.Text = fmt.Sprintf("%s are to be kept with %s, of which nothing says where they are kept.", called(g), called(other))
		x.Hint = "List " + called(other) + " under the same case."
	}
	x.Unit, x.Working = "case", []string{x.Text}
	if x.Demand = 1; x.Verdict == finding.Holds { // yes or no: nothing is near
		x.Demand, x.Capacity = 0, 1
	}
	f.Add(x)
}

// left is how many of some goods find no room in some of the places that they are listed under, beside what else is
// there.
func (s *Scene) left(g *stock.Goods, in []spot) int {
	type at struct {
		bay   *part.Bay
		owner string
	}
	places := map[at]bool{}
	for _, p := range in {
		places[at{p.bay, p.owner}] = true
	}
	n := max(g.Count, 1)
	for _, w := range s.put[g] {
		if places[at{w.bay, w.owner}] {
			n -= w.count
		}
	}
	return n
}

// shared adds up the goods that share bays. More than all of them hold by volume fails; where stow puts all of them
// away it holds; between the two, whether all find room is to be tried. It is said once, of the least bays.
func (s *Scene) shared(f *finding.List) {
	type group struct {
		at, names, owner  string
		used, room, share float64 // litres, litres, of the floors
		left              int     // that find no room beside the others
		unsized           string  // one that is there too, of no known size
	}
	var groups []group
	first := map[*part.Bay][]int{} // goods by the first bay that they are listed under
	for i := range s.Job.Goods {
		if all := s.spots(&s.Job.Goods[i]); len(all) > 0 {
			first[all[0].bay] = append(first[all[0].bay], i)
		}
	}
	type sum struct {
		rows float64
		left int
	}
	sums := map[int]sum{} // of all places of a kind
	for _, n := range s.nodes() {
		bays := s.under(n)
		if len(bays) == 0 || slices.ContainsFunc(bays, func(b *part.Bay) bool { return b.Hung || len(b.Places) > 0 }) {
			continue
		}
		g := group{at: s.at(n.owner, n.owner+"/"+n.path) + "/goods", owner: n.owner}
		for _, b := range bays {
			v := b.Box.Size()
			g.room += mm(v.X) * mm(v.Y) * mm(v.Z) / 1e6
		}
		var names []string
		var here []int
		for _, b := range bays {
			here = append(here, first[b]...)
		}
		order.Up(here)
		for _, i := range here {
			x := &s.Job.Goods[i]
			all := s.spots(x)
			if slices.ContainsFunc(all, func(p spot) bool { return !slices.Contains(bays, p.bay) }) {
				continue
			}
			each, ok := litres(x)
			t, known := sums[i]
			if !known {
				for k := range all {
					r, _ := all[k].takes(x)
					t.rows += r
				}
				t.left = s.left(x, all)
				sums[i] = t
			}
			if !ok {
				g.unsized = called(x)
			}
			if !ok || t.rows == 0 { // said of it alone
				continue
			}
			count := float64(max(x.Count, 1))
			g.used, g.share, g.left = g.used+each*count, g.share+count/t.rows, g.left+t.left
			names = append(names, called(x))
		}
		if len(names) < 2 {
			continue
		}
		order.Up(names)
		g.names = strings.Join(names, ", ")
		if i := slices.IndexFunc(groups, func(o group) bool { return o.owner == g.owner && o.names == g.names }); i < 0 {
			groups = append(groups, g)
		} else if g.room < groups[i].room {
			groups[i] = g
		}
	}
	for _, g := range groups {
		x := verdict(finding.Finding{Code: GoodsRoom, At: g.at, Demand: g.used, Capacity: g.room, Unit: "l", Source: goodsSource}, finding.Warning)
		x.Text = fmt.Sprintf("%s share %s: as boxes and rounds they fill %s of %s.", g.names, s.called(g.owner), s.volume(g.used), s.volume(g.room))
		switch {
		case x.Verdict == finding.Fails:
			x.Hint = "List more bays for them, or keep some elsewhere."
		case g.unsized != "":
			x.Severity, x.Verdict, x.Demand, x.Capacity, x.Unit = finding.Note, finding.NotKnown, 0, 0, ""
			x.Text = fmt.Sprintf("%s share %s with %s, whose size is not known: whether all find room is not known.", g.names, s.called(g.owner), g.unsized)
			x.Hint = "Measure one: width, depth and height, or diameter and height."
		case g.left == 0:
			x.Demand, x.Capacity, x.Unit = 0, g.room, "l" // all of it is put away: a full bay is not near anything
			x.Verdict = finding.Holds
			x.Text = fmt.Sprintf("%s share %s: all find room there, in rows beside and behind each other.", g.names, s.called(g.owner))
		default:
			x.Severity, x.Verdict, x.Demand, x.Capacity, x.Unit = finding.Note, finding.NotKnown, 0, 0, ""
			x.Text = fmt.Sprintf("%s share %s: in rows beside and behind each other %d find no room; each kind by itself they would take %.2f times the floors there: whether all find room is to be tried.", g.names, s.called(g.owner), g.left, g.share)
			x.Hint = "List more bays for them, or say stack: where they may stand on each other."
		}
		x.Working = []string{x.Text}
		f.Add(x)
	}
}
