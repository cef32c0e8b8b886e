package packet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/view"
)

// card is one drawing of a piece with the list of all that is worked on it under it, several
// to a sheet in columns. Mirror images share a card.
type card struct {
	group int
	head  string   // what it is
	heads []string // the same, wrapped
	lines []line
	rows  [][]view.Figure
	scale draw.Scale
	foot  float64 // height of the drawing
	high  float64 // of the whole card
	more  bool    // goes on with one that a sheet had no room for
	small []card  // the same drawn smaller, for the foot of a column
	at    int     // place in the chapter
	wide  bool    // over all columns
	words float64 // width of its words, where its drawing stands beside them; 0 where it stands over them
}

type line struct {
	text   string
	letter string
	in     float64
}

// toCard gives the anchor of a group's card.
func (b *book) toCard(group int) string {
	g := b.groups[group]
	if g.Mirror != "" && b.group[g.Mirror] < group {
		group = b.group[g.Mirror]
	}
	return fmt.Sprintf("card %d", group)
}

// cards sets the drawings of those pieces of a chapter that are worked and not drawn yet. What is left of their
// last sheet it leaves to what follows them in the same columns, where something does.
func (b *book) cards(owner string, follows bool) cardTail {
	f := b.flow
	var elsewhere []string
	var list []card
	for _, a := range b.alike(owner) {
		if len(a.part.Ops) == 0 || a.group < 0 {
			continue
		}
		i := a.group
		if m := b.groups[i].Mirror; m != "" && b.group[m] < i {
			i = b.group[m]
		}
		if b.drawn[i] {
			if p := b.groups[i].Part; p.Owner != owner && b.first[p.Owner] != owner {
				like := "as"
				if i != a.group {
					like = "the mirror image of"
				}
				elsewhere = append(elsewhere, fmt.Sprintf("%s %s %s", strings.Join(a.marks, ", "), like, b.groups[i].ID))
			}
			continue
		}
		b.drawn[i] = true
		made := b.fitted(i, b.column())
		if p, c := b.groups[i].Part, made[0].scale; len(made) == 1 && p.Size[0] > narrow*p.Size[1] && c.Real > small*c.Paper || c.Real > smallest*c.Paper || c.Real >= tiny*c.Paper && len(view.Works(p, b.units())) >= many {
			over := b.card(i, f.Width(), b.faceHigh(p))
			most := c.Real // the least that it gains by, unless it is as small as no board should be
			if c.Real <= smallest*c.Paper && p.Size[0] <= narrow*p.Size[1] {
				most /= 2
			}
			if over.wide = true; over.scale.Real*c.Paper <= most*over.scale.Paper && over.scale != c && over.high <= f.Height() {
				made = []card{over}
			}
		}
		list = append(list, made...)
	}
	for i := range list {
		list[i].at = i
		for k := range list[i].small {
			list[i].small[k].at = i
		}
	}
	var across []card
	list = slices.DeleteFunc(list, func(c card) bool {
		if c.wide {
			across = append(across, c)
		}
		return c.wide
	})
	for _, c := range across {
		if len(list) > 0 && c.high > f.Left() && f.Left() >= f.Height()*partedLeast { // those that have room stand before it
			if sheet := stackCards(list, b.columns(), 1, f.Left(), f.Height())[0]; !sheet.fresh {
				b.putCards(sheet)
				list = without(list, sheet)
			}
		}
		b.putWide(c)
	}
	if len(elsewhere) > 0 {
		f.Para("Drawn in an earlier chapter: " + strings.Join(elsewhere, "; ") + ".")
	}
	return b.layCards(list, follows)
}

// cardTail is the cards of the last sheet of a chapter's, down the first column and then the next, with something to
// follow them there; none where that has a sheet or the width to itself.
type cardTail struct {
	columns [][]card
	used    []float64 // of each column
	sheet   cardSheet // the same with nothing to follow
}

// inOrder fills n columns of a height with cards in their order; false when they have no room so.
func inOrder(list []card, n int, high float64) (t cardTail, ok bool) {
	slices.SortStableFunc(list, func(x, y card) int { return cmp.Compare(x.at, y.at) })
	for range n {
		used := 0.0
		var column []card
		for len(list) > 0 && used+list[0].high <= high {
			used += list[0].high
			column, list = append(column, list[0]), list[1:]
		}
		t.columns, t.used = append(t.columns, column), append(t.used, used)
	}
	return t, len(list) == 0
}

const (
	cardFace  = 24.0 // most height of the faces on paper without their sizes, in mm
	cardMore  = 6.0  // and more for each working, so that its letter has room
	cardPitch = 4.0  // from line to line
	cardGap   = 7.0  // between columns
	narrow    = 12   // boards that are so many times longer than wide have the whole width
	small     = 16   // where a column draws them smaller than this
	tiny      = 30   // those with many workings where it draws them no larger than this and the whole width twice as large,
	many      = 4    // letters
	smallest  = 32   // and others where it draws them smaller than this, which none is for the sake of others
)

// columns is how many cards stand beside each other.
func (b *book) columns() int { return max(2, int((b.Paper.W-30)/88)) }

// column is how wide a column of cards is.
func (b *book) column() float64 {
	n := float64(b.columns())
	return (b.flow.Width() - cardGap*(n-1)) / n
}

// cardSmall is how much of their height cards keep that are drawn smaller because more of them
// stand in a column then.
var cardSmall = []float64{0.75, 0.6}

// cardWords is what a sheet keeps free for the first words of a card, in mm.
const cardWords = 40

// faceHigh is the most height of a part's faces on paper, so that every working's letter has room.
func (b *book) faceHigh(p part.Part) float64 {
	full := cardFace + cardMore*float64(len(view.Works(p, b.units())))
	if p.Size[1] > p.Size[0] { // it stands on paper
		full *= 1.5
	}
	return min(full, b.flow.Height()-cardWords)
}

// fitted makes the card of a group for a column, drawn smaller where one more like it fits into
// a column then, and parted in two where it is higher than a sheet.
func (b *book) fitted(i int, wide float64) []card {
	most := b.flow.Height()
	full := b.faceHigh(b.groups[i].Part)
	c := b.card(i, wide, full)
	small := c
	for _, face := range cardSmall {
		s := b.card(i, wide, face*full)
		switch {
		case s.high > small.high-1 || s.scale.Real > smallest*s.scale.Paper:
			continue
		case int(most/s.high) > int(most/c.high):
			c, c.small = s, nil
		default:
			c.small = append(c.small, s)
		}
		small = s
	}
	out := []card{c}
	for c := &out[0]; c.high > most; c = &out[len(out)-1] {
		n := max(len(c.lines)-int((c.high-most)/cardPitch)-2, 1) // one for the note that it goes on
		for n > 1 && c.lines[n].letter == "" {                   // a working is not parted
			n--
		}
		next := card{group: c.group, heads: draw.Wrap(b.Say.Of(c.head+", continued"), 2.8, true, wide), head: c.head, lines: c.lines[n:], more: true}
		c.lines = append(slices.Clone(c.lines[:n]), line{text: b.Say.Of(goesOn(c.lines[n:]))})
		c.measure()
		next.measure()
		out = append(out, next)
	}
	return out
}

// goesOn says under a card that is parted which workings follow elsewhere.
func goesOn(rest []line) string {
	var letters []string
	for _, l := range rest {
		if l.letter != "" {
			letters = append(letters, l.letter)
		}
	}
	switch len(letters) {
	case 0:
		return "It goes on under \"continued\"."
	case 1:
		return fmt.Sprintf("It goes on with %s under \"continued\".", letters[0])
	}
	return fmt.Sprintf("It goes on with %s to %s under \"continued\".", letters[0], letters[len(letters)-1])
}

// measure says how high a card is.
func (c *card) measure() {
	if c.words > 0 {
		c.high = float64(len(c.heads))*5.2 + 3 + max(c.foot, float64(len(c.lines))*cardPitch) + 3
		return
	}
	c.high = float64(len(c.heads))*5.2 + 3 + c.foot + float64(len(c.lines))*cardPitch + 3
}

// card makes the card of a group for a column, its faces no higher than most.
func (b *book) card(i int, wide, most float64) card { return b.cardOf(i, wide, wide, most) }

// spread makes the card of a group that is alone: its words in the first column and its drawing in the others.
func (b *book) spread(i int) card {
	column := b.column()
	c := b.cardOf(i, column, b.flow.Width()-column-cardGap, b.faceHigh(b.groups[i].Part))
	c.words, c.wide = column, true
	c.measure()
	return c
}

// cardOf makes the card of a group with words and a drawing of so much width, its faces no higher than most.
func (b *book) cardOf(i int, wide, picture, most float64) card {
	g := b.groups[i]
	p := g.Part
	c := card{group: i}
	head := fmt.Sprintf("%s: %s", b.marks(g.Marks), g.Name)
	if n := len(g.Marks); n > 1 {
		head += fmt.Sprintf(", %d alike", n)
	}
	notes := []string{b.sizes(p.Size) + "."} // its stock, and its size as sawn, stand in the table of parts
	names := b.faces(p, g.Marks)
	if e := b.bands(p, names); e != "" {
		notes = append(notes, "Edging: "+e+".")
	}
	from := fmt.Sprintf("Along is from the %s, across from the %s", names[part.Start], names[part.Near])
	if slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Face > part.Lower && o.Kind != part.Bevel && o.Kind != part.Taper }) {
		from += fmt.Sprintf(", up from the %s", names[part.Lower])
	}
	notes = append(notes, from+".")
	if t := anyhow(p, names); t != "" {
		notes = append(notes, t)
	}
	if d := (p.Size[1] - p.Size[2]).Abs(); d*10 < p.Size[2] { // the old face mark
		notes = append(notes, "As thick as it is wide: pencil a mark on the face that is drawn, and keep to it.")
	}
	switch p.Grain {
	case part.Across:
		notes = append(notes, "The grain runs across.")
	case part.Free:
		notes = append(notes, "The grain may run either way.")
	}
	if p.Note != "" {
		notes = append(notes, strings.ToUpper(p.Note[:1])+p.Note[1:]+".")
	}
	if g.Mirror != "" {
		m := b.groups[b.group[g.Mirror]]
		notes = append(notes, fmt.Sprintf("Mirror image: %s (%s)%s.", b.marks(m.Marks), m.Name, b.mirrored(p, m.Marks, names)))
	}
	put := func(text string, in float64) {
		for _, l := range draw.Wrap(b.Say.Of(text), draw.BodyCap, false, wide-in) {
			c.lines = append(c.lines, line{text: l, in: in})
		}
	}
	called := caller(names)
	faces := view.Board(p, b.units())
	for k := range faces {
		faces[k].Title = called.Replace(faces[k].Title)
	}
	shown := ""
	if len(faces) == 1 { // what is shown need not stand under it
		shown = ", " + faces[0].Title
		faces[0].Title = ""
	}
	c.rows, c.scale, c.foot = b.arrange(faces, picture, most)
	put("Scale "+c.scale.String()+shown+". "+strings.Join(notes, " "), 0)
	for _, w := range view.Works(p, b.units()) {
		face := names[w.Face]
		t := called.Replace(w.Text()) + ". " + strings.ToUpper(face[:1]) + face[1:]
		if w.Tool != "" {
			t += ", " + b.tool(w.Tool)
		}
		if at := w.Places(); at != "" {
			t += ": " + at
		}
		n := len(c.lines)
		put(t+".", 4)
		c.lines[n].letter = w.Letter
	}
	c.head, c.heads = head, draw.Wrap(b.Say.Of(head), 2.8, true, wide)
	c.measure()
	return c
}

// anyhow says where the faces of boards that lie in several ways are on their drawing; "" where all
// have a name of their own.
func anyhow(p part.Part, names part.FaceNames) string {
	var out []string
	first := view.FirstFace(p)
	near := "below"
	if first == part.Lower { // turned over about its long edge
		near = "above"
	}
	for _, x := range []struct {
		f     part.Face
		where string
	}{{part.Start, "at the left"}, {part.Near, near}} {
		if names[x.f] == part.Plain()[x.f] {
			out = append(out, "the "+names[x.f]+" is "+x.where)
		}
	}
	if len(out) > 0 {
		return "These boards are alike and go in in several ways, so what is not named by the case is named by the board: where the " + names[first] + " is drawn, " + and(out) + "."
	}
	if names[part.Upper] == part.Plain()[part.Upper] && slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Face <= part.Lower }) {
		return "These boards are alike and go in in several ways: the upper face is the one so drawn, whichever way it looks in the case."
	}
	return ""
}

// tool gives a tool's name, the same as in the table of boring.
func (b *book) tool(id string) string {
	for _, t := range b.Practice.Tools {
		if t.ID == id {
			return cmp.Or(t.Name, id)
		}
	}
	return id
}

// layCards fills columns with cards, sheet by sheet: in order, but a card that has no room
// waits for the next sheet while smaller ones go before it; or the highest first, where that takes
// less paper.
func (b *book) layCards(list []card, follows bool) cardTail {
	if len(list) == 0 {
		return cardTail{}
	}
	f := b.flow
	n, whole := b.columns(), f.Height()
	if c, ok := b.only(list); ok && (!follows || list[0].high > f.Left() && c.high <= f.Left()) {
		b.putWide(c)
		return cardTail{}
	}
	high := slices.Clone(list)
	slices.SortStableFunc(high, func(x, y card) int { return cmp.Compare(y.high, x.high) })
	best := stackCards(list, n, n, f.Left(), whole)
	for _, least := range []int{n, 1} { // on the sheet that is open: in every column one, or any
		for _, order := range [][]card{list, high} {
			try := stackCards(order, n, least, f.Left(), whole)
			fresh := func(x []cardSheet) (k int) {
				for _, s := range x {
					if s.fresh {
						k++
					}
				}
				return k
			}
			if a, b := fresh(try), fresh(best); a < b || a == b && try[len(try)-1].high < best[len(best)-1].high-8 {
				best = try
			}
		}
	}
	for k, sheet := range best {
		if sheet.fresh && f.Left() >= whole*partedLeast { // no column has room for any, but the whole width may
			rest := without(list, best[:k]...)
			for i, c := range rest {
				if c.more || i+1 < len(rest) && rest[i+1].more {
					continue
				}
				if over := b.spread(c.group); over.high <= f.Left() {
					b.putWide(over)
					return b.layCards(slices.Delete(rest, i, i+1), follows)
				}
			}
		}
		if follows && k == len(best)-1 {
			room := whole
			if !sheet.fresh {
				room = f.Left() - stepsBelow
			}
			if t, ok := inOrder(slices.Concat(sheet.columns...), n, room); ok {
				t.sheet = sheet
				return t
			}
		}
		if c, ok := b.only(slices.Concat(sheet.columns...)); ok && sheet.fresh {
			b.putWide(c)
			continue
		}
		b.putCards(sheet)
	}
	return cardTail{}
}

// only gives the one card that a list is, with its drawing beside its words where that is lower.
func (b *book) only(list []card) (c card, ok bool) {
	if len(list) != 1 || list[0].more {
		return c, false
	}
	c = b.spread(list[0].group)
	return c, c.high < list[0].high && c.high <= b.flow.Height()
}

// putWide draws a card that takes the whole width.
func (b *book) putWide(c card) {
	b.flow.Block(c.high, func(s *draw.Sheet, r draw.Rect) { b.putCard(s, r, c) })
}

// putCards draws the cards of a sheet.
func (b *book) putCards(sheet cardSheet) {
	f, n := b.flow, len(sheet.columns)
	if sheet.fresh {
		f.Break()
		f.Width()
	}
	for i := range sheet.columns { // the order of the table, as far as columns keep it
		slices.SortStableFunc(sheet.columns[i], func(x, y card) int { return cmp.Compare(x.at, y.at) })
	}
	parted := func(column []card) bool { return slices.ContainsFunc(column, func(c card) bool { return c.more }) }
	slices.SortStableFunc(sheet.columns, func(x, y []card) int {
		if slices.ContainsFunc(sheet.columns, parted) { // they stand in the order in which they go on
			return 0
		}
		if len(x) == 0 || len(y) == 0 {
			return len(y) - len(x)
		}
		return cmp.Compare(x[0].at, y[0].at)
	})
	f.Block(min(sheet.high, f.Left()), func(s *draw.Sheet, r draw.Rect) {
		wide := (r.W - cardGap*float64(n-1)) / float64(n)
		for i, column := range sheet.columns {
			y := r.Y
			for _, c := range column {
				b.putCard(s, draw.Rect{X: r.X + float64(i)*(wide+cardGap), Y: y, W: wide, H: c.high}, c)
				y += c.high
			}
		}
	})
}

// putCard draws a card.
func (b *book) putCard(s *draw.Sheet, r draw.Rect, c card) {
	if !c.more {
		s.Anchor(fmt.Sprintf("card %d", c.group), draw.Pt(r.X, r.Y))
	}
	s.Poly(draw.Rule, draw.Pt(r.X, r.Y), draw.Pt(r.X+r.W, r.Y)).Ink = draw.Light
	y := r.Y + 0.6
	for _, l := range c.heads {
		y += 5.2
		s.Text(draw.Pt(r.X, y-1.2), 2.8, l, draw.Start).Bold = true
	}
	y += 1.4
	at := draw.Rect{X: r.X, Y: y, W: r.W, H: 1000}
	if c.words > 0 {
		at.X, at.W = r.X+c.words+cardGap, r.W-c.words-cardGap
	} else {
		y += c.foot
	}
	if !c.more {
		view.Pack(s, at, b.units(), c.scale, c.rows...)
	}
	y += 0.5
	for _, l := range c.lines {
		if l.letter != "" {
			s.Text(draw.Pt(r.X, y+draw.BodyCap+0.4), draw.BodyCap, l.letter, draw.Start).Bold = true
		}
		s.Text(draw.Pt(r.X+l.in, y+draw.BodyCap+0.4), draw.BodyCap, l.text, draw.Start)
		y += cardPitch
	}
}

// arrange finds the largest scale at which the faces of a board fit into a column, one under
// the other, or side by side where that is no smaller and lower.
func (b *book) arrange(faces []view.Figure, width, high float64) (rows [][]view.Figure, scale draw.Scale, foot float64) {
	var down [][]view.Figure
	for i := range faces {
		b.ready(&faces[i])
	}
	for _, x := range faces {
		down = append(down, []view.Figure{x})
	}
	most := draw.Scale{Paper: 1, Real: 4}
	for _, c := range view.Scales(b.units()) {
		if c.Paper*most.Real > c.Real*most.Paper || c.Real > smallest*c.Paper {
			continue
		}
		if most = c; c.MM(faces[0].Z1-faces[0].Z0)*float64(len(faces)) <= high {
			break
		}
	}
	room := draw.Rect{W: width, H: b.flow.Height() - cardWords}
	for i, try := range [][][]view.Figure{down, {faces}} {
		if i == 1 && len(faces) == 1 {
			break
		}
		c, h := view.Fit(room, b.units(), most, try...)
		if c.Real == 0 {
			if i > 0 {
				break
			}
			c, h = view.Pack(&draw.Sheet{}, room, b.units(), most, try...) // as small as it goes
		}
		larger := c.Paper*scale.Real > scale.Paper*c.Real
		if i == 0 || larger || c == scale && h < foot {
			rows, scale, foot = try, c, h
		}
	}
	return rows, scale, foot
}

// unitWord gives the paper's unit in words.
func (b *book) unitWord() string {
	return [2]string{length.Inches: "inches", length.Millimetres: "mm"}[b.Print] + map[bool]string{true: ", " + [2]string{"mm", "inches"}[b.Print] + " in brackets"}[b.Both]
}
