package packet

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/view"
)

// owner sets the chapter of one thing that is built: its views, the same drawn apart, the table of
// its parts, a card for every board that is worked, and the steps.
func (b *book) owner(o part.Owner) {
	title := b.called(o)
	body := view.BodyOf(&b.Assembly, o, b.units())
	f := b.flow
	if len(body.Parts) > 1 {
		b.opening(o, title, body)
	} else {
		if f.Left() < 70 {
			f.Break()
		}
		if f.Left() > 0 {
			b.shares(title)
		}
		b.title, b.kind = title, "Parts"
		f.Heading(1, title, b.toOwner(o.ID))
		b.enter(0, title, b.toOwner(o.ID), false)
		f.Para(b.partsNote(o))
		b.parts(o)(f)
	}
	b.aliases(o.ID)
	steps := b.stepCells(o)
	b.ownSteps(o, steps, b.cards(o.ID, len(steps) > 0 && b.columns() == b.stepColumns()))
}

var largestView = draw.Scale{Paper: 1, Real: 5}

// views is an owner's views in rows, at the scale at which they take so much height.
type views struct {
	rows  [][]view.Figure
	scale draw.Scale
	foot  float64
	plan  *view.Figure // stands beside what is drawn apart, not among them
	wide  float64      // that the plan takes there
	high  float64
}

// planGap is between a plan and what is drawn apart beside it, in mm.
const planGap = 4.0

// opening sets the views of an owner, what it is made of drawn apart, and the table of parts: on
// one sheet, the one that is open where it has room, with the pictures as large as that allows.
func (b *book) opening(o part.Owner, title string, body view.Body) {
	f := b.flow
	wide, whole := f.Width(), f.Height()
	picture := view.NewApart(body.Parts, body.Owner.Carcass, b.leaders(o, body.Parts))
	aparts, share := []float64{96, 85, 75, 66, 58}, 0.7
	if o.Kind != "case" { // simple things, drawn smaller
		aparts, share = []float64{70, 62, 54}, 0.36
	}
	ways := b.views(body, wide, whole*share)
	note := func(v views) string { return b.partsNote(o) + " Views at " + v.scale.String() + "." }
	table := b.parts(o)
	heads := f.Measure(func(f *draw.Flow) { f.Heading(1, title, ""); f.Para(note(ways[0])) }) + 2
	rest := f.Measure(table)
	apart := map[[2]float64]float64{} // how high the picture is, which is looked up for several rooms
	apartHigh := func(wide, most float64) float64 {
		key := [2]float64{wide, most}
		if _, ok := apart[key]; !ok {
			apart[key] = picture.High(wide, most)
		}
		return apart[key]
	}
	// larger gives the largest picture of the parts that stands in a height with so much below it
	larger := func(v views, room, below float64) (high float64, ok bool) {
		for _, most := range aparts {
			if high = max(v.high, apartHigh(wide-v.wide, most)); high+2+below <= room {
				return high, true
			}
		}
		return high, false
	}
	// pick gives the largest views that stand in a height with the parts and so much below them
	pick := func(room, below float64) (views, bool) {
		for _, v := range ways {
			if _, ok := larger(v, room-heads-v.foot, below); ok {
				return v, true
			}
		}
		return ways[len(ways)-1], false
	}
	const some = 36.0 // of a table: its head and a few rows
	alone := func(room float64) (views, bool) {
		i := slices.IndexFunc(ways, func(v views) bool {
			return heads+v.foot <= room && (v.scale.Real <= aloneLeast*v.scale.Paper || v.scale == ways[0].scale)
		})
		return ways[max(i, 0)], i >= 0
	}
	choose := func(room float64) (views, bool) { // alone: what is drawn apart has the next sheet to itself
		for _, below := range []float64{rest, min(rest, some), 0} {
			if v, ok := pick(room, below); ok {
				return v, true
			}
		}
		return alone(room)
	}
	v, ok := choose(f.Left())
	over := 0 // how many rows of views stand on the next sheet
	if !ok && f.Left() >= whole*partedLeast {
		v, over = b.parted(ways, f.Left()-heads, func(v views, used float64) bool {
			_, ok := larger(v, whole-used, min(rest, some))
			return ok
		})
		ok = over > 0
	}
	if !ok {
		f.Break()
		v, _ = choose(whole)
	}
	fresh := f.Left() == 0
	b.title, b.kind = title, "Views, parts"
	f.Heading(1, title, b.toOwner(o.ID))
	if !fresh {
		b.shares(b.title)
	}
	b.enter(0, title, b.toOwner(o.ID), false)
	f.Para(note(v))
	put := func(rows [][]view.Figure) {
		foot := v.foot
		if over > 0 {
			foot = b.rowsHigh(v.scale, rows)
		}
		f.Block(foot, func(s *draw.Sheet, r draw.Rect) {
			r.H = whole // the scale is chosen
			view.Pack(s, r, b.units(), v.scale, rows...)
		})
	}
	put(v.rows[:len(v.rows)-over])
	if over > 0 {
		f.Break()
		put(v.rows[len(v.rows)-over:])
	}
	high, ok := larger(v, f.Left(), rest)
	if !ok {
		high, ok = larger(v, f.Left(), min(rest, some))
	}
	if !ok {
		if high, ok = larger(v, f.Left(), 0); !ok {
			f.Break()
			high, _ = larger(v, whole, rest)
		}
	}
	f.Block(high, func(s *draw.Sheet, r draw.Rect) {
		if v.plan != nil {
			view.Put(s, draw.Pt(r.X, r.Y+(high-v.high)/2), v.scale, *v.plan)
			r.X, r.W = r.X+v.wide, r.W-v.wide
		}
		picture.Draw(s, r, b.toPart)
		s.Anchor("parts "+o.ID, draw.Pt(r.X, r.Y))
	})
	b.enter(1, title+": parts and drilling", "parts "+o.ID, false)
	f.Space(2)
	table(f)
}

// partedLeast is the share of a sheet's height from which it is worth beginning a chapter there whose views go on on the next.
const partedLeast = 0.3

// parted gives the largest views whose first rows stand in a height, and how many rows are left for the next sheet, where the
// picture of the parts must have room below them; none where no row has room.
func (b *book) parted(ways []views, room float64, fits func(v views, used float64) bool) (v views, over int) {
	for _, v := range ways {
		if v.plan != nil || v.scale.Real > aloneLeast*v.scale.Paper {
			continue
		}
		for over := 1; over < len(v.rows); over++ {
			n := len(v.rows) - over
			if b.rowsHigh(v.scale, v.rows[:n]) <= room && fits(v, b.rowsHigh(v.scale, v.rows[n:])) {
				return v, over
			}
		}
	}
	return v, 0
}

// rowsHigh is how high rows of views are at a scale at which they have room.
func (b *book) rowsHigh(c draw.Scale, rows [][]view.Figure) float64 {
	_, foot := view.Fit(draw.Rect{W: b.flow.Width(), H: b.flow.Height()}, b.units(), c, rows...)
	return foot
}

// views gives an owner's views at the largest scale that a height has room for and at the next smaller
// ones, each in the rows, of the usual ones, that take the least height, and with the plan beside what is
// drawn apart, below them.
func (b *book) views(body view.Body, wide, most float64) []views {
	front, side, plan, closed := body.Figures()
	b.ready(front, side, plan, closed)
	ways := [][][]view.Figure{{{*front, *side}, {*plan}}, {{*front}, {*plan}, {*side}}, {{*front}, {*plan, *side}}, {{*front, *side, *plan}}}
	apart := [][][]view.Figure{{{*front, *side}}}
	if closed != nil {
		ways = [][][]view.Figure{{{*front, *side}, {*plan, *closed}}, {{*front}, {*plan}, {*side}, {*closed}}, {{*front, *side, *closed}, {*plan}}, {{*front, *side, *plan}, {*closed}}, {{*front, *side, *plan, *closed}}}
		apart = [][][]view.Figure{{{*front, *side, *closed}}, {{*front}, {*side, *closed}}}
	}
	lowest := func(c draw.Scale, ways [][][]view.Figure, foot float64) (best views, ok bool) {
		best.foot = foot
		for _, rows := range ways {
			if at, foot := view.Fit(draw.Rect{W: wide, H: most}, b.units(), c, rows...); at == c && foot < best.foot {
				best, ok = views{rows: rows, scale: c, foot: foot}, true
			}
		}
		return best, ok
	}
	var out []views
	foot := most // of the larger ones
	for _, c := range view.Scales(b.units()) {
		if c.Paper*largestView.Real > c.Real*largestView.Paper {
			continue
		}
		if n := len(out); n > 0 && c.Real*out[0].scale.Paper*10 > out[0].scale.Real*c.Paper*viewLess {
			break
		}
		all, ok := lowest(c, ways, foot)
		if ok {
			out, foot = append(out, all), all.foot-3
		}
		if v, some := lowest(c, apart, foot); some && len(out) > 0 {
			v.plan = plan
			v.wide, v.high = view.Put(&draw.Sheet{}, draw.Pt(0, 0), c, *plan)
			if v.wide += planGap; v.wide <= wide*planMost {
				out = append(out, v)
			}
		}
	}
	if len(out) == 0 { // too much for the height: as small as it goes
		c, foot := view.Fit(draw.Rect{W: wide, H: most}, b.units(), largestView, ways[0]...)
		out = append(out, views{rows: ways[0], scale: c, foot: foot})
	}
	return out
}

// planMost is the most of the width that a plan takes beside what is drawn apart.
const planMost = 0.34

// aloneLeast is the scale below which none are drawn only to stand at the foot of a sheet, without the parts.
const aloneLeast = 32

// viewLess is how much smaller views are drawn, in tenths, than a whole sheet has room for, so that the parts
// stand beside them.
const viewLess = 20

// partsNote says what the sizes of an owner's parts are, what its edging adds, and its weight.
func (b *book) partsNote(o part.Owner) string {
	note := fmt.Sprintf("Sizes in %s, finished, along the grain and across it.", b.unitWord())
	if n := b.alone[o.ID]; n > 1 {
		note += fmt.Sprintf(" The parts are those of all %d.", n)
	}
	type on struct{ in, over bool } // edging that is in the sizes, and that comes over them
	var edgings []string
	edged, thick := map[string]on{}, map[string]L{}
	onWall := mass.Mass(0)
	for _, p := range view.Of(&b.Assembly, o.ID) {
		if p.Role == part.WallCleat || p.Role == part.Ledger {
			onWall += b.Bill.Parts[p.Mark]
		}
		for _, x := range p.Bands {
			if x.Edging == "" {
				continue
			}
			if !slices.Contains(edgings, x.Edging) {
				edgings = append(edgings, x.Edging)
			}
			e := edged[x.Edging]
			edged[x.Edging] = on{e.in || x.Deduct, e.over || !x.Deduct}
			thick[x.Edging] = x.Thickness
		}
	}
	for _, id := range edgings {
		name := id
		if e, ok := b.Catalogue.Edging(id); ok && e.Name != "" {
			name = e.Name
		}
		told := fmt.Sprintf(" The %s is %s thick", name, b.thickIn(thick[id]))
		switch edged[id] {
		case on{in: true}:
			told += " and is in these sizes: boards are sawn smaller by it."
		case on{over: true}:
			told += ", over the size that is told of an edge that has it."
		default:
			told += ": in the sizes of doors and drawer fronts, which are sawn smaller by it; over the size that is told of any other edge."
		}
		if at, ok := b.told[told]; !ok || at == o.ID { // each once in a set
			b.told[told] = o.ID
			note += told
		}
	}
	if t := b.toldWith(o.ID); t != "" {
		note += " " + t
	}
	if view.Levelled(&b.Assembly, o.ID) {
		note += " Sizes are without what is under it, at heights told where it is set up."
	}
	if list := b.otherWay(o.ID); len(list) > 0 {
		note += fmt.Sprintf(" On its sheet the grain of %s runs across, not along, as its label has it: either way does.", b.marks(list))
	}
	for _, w := range b.Bill.Weights {
		if w.Owner == o.ID {
			word := ""
			if !w.Whole {
				word = "at least "
			}
			note += fmt.Sprintf(" Weight of one, empty: %s%s", word, b.mass(w.Mass-onWall))
			if onWall > 0 {
				note += fmt.Sprintf(", and %s that is screwed to the wall before it", b.mass(onWall))
			}
			note += "."
		}
	}
	return note
}

// otherWay gives the parts of an owner whose grain may run either way, and runs across on their sheets.
func (b *book) otherWay(owner string) (list []string) {
	free := map[string]bool{}
	for _, p := range view.Of(&b.Assembly, owner) {
		free[p.Mark] = p.Grain == part.Free && p.Material == part.Board
	}
	for i, s := range b.Plan.Sheets {
		for k, x := range s.Pieces {
			if i < len(b.Marks) && k < len(b.Marks[i]) && free[b.Marks[i][k]] && s.Grain != cutting.NoGrain && x.Turned == (s.Grain == cutting.GrainX) {
				list = append(list, b.Marks[i][k])
			}
		}
	}
	return list
}

// parts gives what sets an owner's table of parts, by stock.
func (b *book) parts(o part.Owner) func(*draw.Flow) {
	list := b.alike(o.ID)
	var sizes []string // to which boards are sawn that are smaller then than the table tells
	sawn := map[string][]string{}
	t := draw.Table{Columns: []draw.Column{{Head: "Mark", Most: 60}, {Head: "Name", Grow: true}, {Head: "No.", Align: draw.End}, {Head: "Along"}, {Head: "Across"}}}
	t.Columns = append(t.Columns, draw.Column{Head: "Edging on", Most: 34})
	var stocks []string
	of := func(p part.Part) string { return fmt.Sprint(p.Material, p.Stock, p.Size[2]*L(1-p.Material/2)) }
	for _, a := range list {
		if k := of(a.part); !slices.Contains(stocks, k) {
			stocks = append(stocks, k)
		}
	}
	for _, k := range stocks {
		head := false
		for _, a := range list {
			p := a.part
			if of(p) != k {
				continue
			}
			if !head {
				text := b.stockName(p)
				if p.Material == part.Bought {
					text += ", bought"
				} else {
					text += ", " + b.thick(p.Size[2]) + " thick"
				}
				t.Rows = append(t.Rows, draw.Row{Group: text})
				head = true
			}
			row := draw.Row{Name: b.toPart(a.marks[0]), Cells: []draw.Cell{
				{Text: b.marks(a.marks), Bold: true}, {Text: a.name + grainNote(p)}, {Text: fmt.Sprint(len(a.marks))}, {Text: b.sure(p.Size[0])}, {Text: b.sure(p.Size[1])}}}
			if c := p.Cut(); p.Material != part.Bought && c != p.Size {
				size := b.sure(c[0]) + " × " + b.sure(c[1])
				if sawn[size] == nil {
					sizes = append(sizes, size)
				}
				sawn[size] = append(sawn[size], a.marks...)
			}
			row.Cells = append(row.Cells, draw.Cell{Text: b.bands(p, b.faces(p, a.marks))})
			if len(p.Ops) > 0 && a.group >= 0 {
				row.Cells[0].Link = b.toCard(a.group)
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return func(f *draw.Flow) {
		f.Table(t)
		var said []string
		for _, size := range sizes {
			said = append(said, fmt.Sprintf("%s %s sawn %s.", b.marks(sawn[size]), map[bool]string{true: "is", false: "are"}[len(sawn[size]) == 1], size))
		}
		if len(said) > 0 {
			f.Para("Before edging: " + strings.Join(said, " "))
		}
	}
}
