package packet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// stepCells gives an owner's own assembly steps: a picture a step, the new pieces drawn strong.
func (b *book) stepCells(o part.Owner) []stepCell {
	var list []shop.Step
	for _, s := range b.Steps {
		if s.Owner == o.ID && s.Phase.Bench() {
			list = append(list, s)
		}
	}
	stood := map[string]bool{}
	made := map[string]bool{} // of the drawer, tray or rack that is put together
	var cells []stepCell
	before := ""
	over := false // it lies upside down
	for _, s := range list {
		c := stepCell{n: s.N, fresh: map[string]bool{}}
		var pieces []string // of this owner: those that are built like it are not drawn again
		if s.Phase != shop.Ready {
			for _, m := range s.Parts {
				if b.part[m].Owner == o.ID {
					pieces = append(pieces, m)
				}
			}
		}
		moving := len(pieces) > 0
		for _, m := range pieces {
			moving = moving && b.part[m].Moves != "" && b.part[m].Role != part.Door
		}
		one := ""
		for _, m := range pieces {
			if moving { // a drawer or tray by itself: one of those that are alike
				if one == "" {
					one = b.part[m].Moves
				}
				if b.part[m].Moves != one {
					continue
				}
			}
			c.fresh[m] = !stood[m]
			if moving {
				c.fresh[m] = !made[m]
				made[m] = true
			}
		}
		if door := b.rackOn(pieces); door != "" { // the whole rack, on its door alone
			rack := b.held(pieces, made)
			for _, p := range view.Of(&b.Assembly, o.ID) {
				if made[p.Mark] && rack[p.Mark] {
					c.fresh[p.Mark] = true
					c.parts = append(c.parts, p)
				}
			}
			c.fresh[door] = false
			c.parts = append(c.parts, b.part[door])
			pieces = nil
		}
		there := stood
		if moving {
			there = b.held(pieces, made)
		} else if s.Phase == shop.Assemble { // a top that is made already is not on the frame before its step
			there = b.held(pieces, stood)
		}
		for _, p := range view.Of(&b.Assembly, o.ID) {
			if len(pieces) == 0 {
				break
			}
			_, now := c.fresh[p.Mark]
			if now || there[p.Mark] {
				c.parts = append(c.parts, p)
			}
		}
		turned := strings.Contains(s.Text, "top face down") || strings.Contains(s.Text, "upside down")
		over = s.Phase == shop.Assemble && (turned || over && !strings.Contains(s.Text, "egin with"))
		if c.over = over; over && len(pieces) > 0 && !slices.Contains(slices.Collect(maps.Values(c.fresh)), true) {
			c.fresh[pieces[0]] = true
		}
		over = over && !strings.Contains(s.Text, "turn the whole over")
		if !moving {
			for _, m := range pieces {
				stood[m] = true
			}
		}
		c.say(fmt.Sprintf("%d. %s", s.N, b.Say.Of(s.Text)), false)
		for _, p := range s.Points {
			c.say("– "+b.Say.Of(p), false)
		}
		if s.Caution != "" && s.Caution != before {
			c.say(b.Say.Of(s.Caution), true)
		}
		before = s.Caution
		cells = append(cells, c)
	}
	return cells
}

// rackOn gives the door that a step screws a rack to, "" where it screws none.
func (b *book) rackOn(pieces []string) (door string) {
	for _, m := range pieces {
		if b.part[m].Role == part.Door && slices.ContainsFunc(pieces, func(o string) bool { return o != m && b.part[o].Moves == b.part[m].Moves }) {
			return m
		}
	}
	return ""
}

// held gives those of the boards that are put together which joints hold to those that a step handles and that are
// there, over others: all of them where no joint is known of what it handles.
func (b *book) held(pieces []string, stood map[string]bool) map[string]bool {
	if b.near == nil {
		b.near = map[string][]string{}
		for _, j := range b.Assembly.Joints {
			b.near[j.A], b.near[j.B] = append(b.near[j.A], j.B), append(b.near[j.B], j.A)
		}
	}
	near := b.near
	out := map[string]bool{}
	if !slices.ContainsFunc(pieces, func(m string) bool { return len(near[m]) > 0 }) {
		return stood
	}
	for list := slices.DeleteFunc(slices.Clone(pieces), func(m string) bool { return !stood[m] }); len(list) > 0; list = list[1:] {
		for _, m := range near[list[0]] {
			if stood[m] && !out[m] {
				out[m], list = true, append(list, m)
			}
		}
	}
	return out
}

// stepColumns is how many steps stand beside each other.
func (b *book) stepColumns() int { return max(2, int(b.flow.Width()/84)) }

// builtBy gives an owner and all others that are put together by its steps, in order.
func (b *book) builtBy(owner string) []part.Owner {
	by := map[string]bool{}
	for _, s := range b.Steps {
		if s.Owner == owner && s.Phase.Bench() {
			for _, id := range s.Also {
				by[id] = true
			}
		}
	}
	var first, rest []part.Owner
	for _, o := range b.built() {
		switch {
		case o.ID == owner:
			first = append(first, o)
		case by[o.ID]:
			rest = append(rest, o)
		}
	}
	return append(first, rest...)
}

// toldWith says by which steps an owner is put together that has none of its own: "" for one that has, or where
// the set has no steps.
func (b *book) toldWith(owner string) string {
	from, to, of := 0, 0, ""
	for _, s := range b.Steps {
		switch {
		case !s.Phase.Bench():
		case s.Owner == owner:
			return ""
		case slices.Contains(s.Also, owner):
			if from == 0 {
				from, of = s.N, s.Owner
			}
			to = s.N
		}
	}
	if from == 0 {
		return ""
	}
	ours, theirs := view.Of(&b.Assembly, owner)[0], ""
	for _, p := range view.Of(&b.Assembly, of) {
		if p.Local == ours.Local {
			theirs = p.Mark
		}
	}
	return fmt.Sprintf("It is put together by steps %d to %d, as %s is: %s goes where %s does, and so on.", from, to, b.name(of), ours.Mark, theirs)
}

// ownSteps sets an owner's own assembly steps at the end of its chapter, with a box to tick: in the columns of its
// last cards, below these, or on their own.
func (b *book) ownSteps(o part.Owner, cells []stepCell, cards cardTail) {
	f := b.flow
	if len(cells) == 0 {
		return
	}
	columns := b.stepColumns()
	wide := (f.Width() - stepGap*float64(columns-1)) / float64(columns)
	by := b.builtBy(o.ID)
	name, anchor := b.together(by)+": putting it together", "steps "+o.ID
	note := ""
	if len(by) > 1 {
		var codes []string
		for _, t := range by[1:] {
			codes = append(codes, view.Code(&b.Assembly, t.ID))
		}
		note = fmt.Sprintf("Told with the marks of %s; do the same with the boards of %s.", view.Code(&b.Assembly, o.ID), strings.Join(codes, " and "))
	}
	head := stepCell{title: draw.Wrap(b.Say.Of(name), stepTitle, true, wide), name: anchor, air: 2}
	if note != "" {
		for _, l := range draw.Wrap(b.Say.Of(note), draw.BodyCap, false, wide) {
			head.lines = append(head.lines, stepLine{text: l})
		}
	}
	title := func(f *draw.Flow) {
		f.Heading(2, name, anchor)
		if note != "" {
			f.Para(note)
		}
	}
	// rooms gives the height that is free in every column of the first sheet
	below := func(room float64) []float64 {
		rooms := make([]float64, columns)
		for i := range rooms {
			rooms[i] = room
			if len(cards.used) > i {
				rooms[i] -= cards.used[i]
			}
		}
		for i := range rooms { // nothing stands beside cards that come after it
			if i+1 < len(cards.columns) && len(cards.columns[i+1]) > 0 {
				rooms[i] = 0
			}
		}
		return rooms
	}
	room := f.Left() - stepsBelow
	if cards.sheet.fresh {
		room = f.Height()
	}
	// the pictures as large as they go without one sheet more for it, and air between the steps
	sized := func(list []stepCell, first []float64) (best []stepCell) {
		least := 0
		for _, size := range [][2]float64{{stepLeast, stepAir / 2}, {stepLeast, stepAir}, {(stepLeast + stepPicture) / 2, stepAir}, {stepPicture, stepAir}} {
			try := setSteps(list, wide, size[0], size[1])
			if n := sheetsOf(try, first, f.Height()); least == 0 || n <= least {
				best, least = try, n
			}
		}
		return best
	}
	follows := false
	if len(cards.columns) > 0 {
		try := sized(append([]stepCell{head}, cells...), below(room))
		if now, _ := stand(try, below(room)); len(slices.Concat(now...)) > 1 {
			cells, follows = try, true
		} else {
			b.putCards(cards.sheet)
			cards = cardTail{}
		}
	}
	if !follows {
		cells = sized(cells, below(f.Left()-f.Measure(title)))
	}
	switch {
	case !follows:
		if f.Left() < f.Measure(title)+min(45, 3+cells[0].high()) {
			f.Break()
		}
		title(f)
		b.enter(1, name, anchor, false)
		b.kind = "Steps"
	case cards.sheet.fresh:
		f.Break()
		f.Width()
	default:
		f.Space(stepsBelow)
	}
	for len(cells) > 0 {
		room := f.Left()
		rooms := below(room)
		now, rest := stand(cells, rooms)
		if len(slices.Concat(now...)) == 0 {
			if f.Top() { // one that is higher than a sheet goes on in the next column
				room := f.Height()
				n := int((room - stepAir) / stepPitch)
				more := cells[0].rest(n)
				cells[0].lines = cells[0].lines[:n]
				cells = slices.Insert(cells, 1, more)
			}
			if !f.Top() {
				f.Break()
				f.Width()
			}
			continue
		}
		for len(rest) == 0 && room > max(24, slices.Max(append(cards.used, 0))+2) { // the last columns end at one height
			try, over := stand(cells, below(room-2))
			if len(over) > 0 {
				break
			}
			now, room = try, room-2
		}
		cells = rest
		f.Block(room, func(s *draw.Sheet, r draw.Rect) {
			for i, column := range now {
				at := draw.Pt(r.X+float64(i)*(wide+stepGap), r.Y)
				if i < len(cards.columns) {
					for _, c := range cards.columns[i] {
						b.putCard(s, draw.Rect{X: at.X, Y: at.Y, W: wide, H: c.high}, c)
						at.Y += c.high
					}
				}
				for _, c := range column {
					c.draw(s, at)
					at.Y += c.high()
				}
			}
		})
		if len(cards.columns) > 0 {
			b.enter(1, name, anchor, false)
			b.kind = "Steps"
		}
		cards = cardTail{}
	}
}

const (
	stepGap     = cardGap // between columns of steps
	stepPicture = 28.0    // beside the text, square
	stepLeast   = 21.0    // the same where that saves a sheet
	stepPitch   = 4.0     // from line to line
	stepAir     = 3.5     // from step to step
	stepTitle   = 3.2     // capitals of the name above them, in a column
	titlePitch  = 4.8     // from line to line of that
	titleAbove  = 4.5     // above it
	stepsBelow  = 4.0     // between a table and steps in a column under it
)

// stepCell is a step of putting something together: its picture and, beside and below that, its
// text.
type stepCell struct {
	n       int // of the step
	parts   []view.Part
	fresh   map[string]bool
	paras   []stepLine
	picture float64
	wide    float64 // of its column
	air     float64 // below it
	lines   []stepLine
	over    bool     // what it shows lies upside down
	more    bool     // goes on with a step that a column had no room for
	title   []string // the name above the steps, which has no picture
	name    string   // and its anchor
}

type stepLine struct {
	text string
	in   float64
	warn bool
	head bool // begins a paragraph
}

// say adds a paragraph.
func (c *stepCell) say(text string, warn bool) {
	c.paras = append(c.paras, stepLine{text: text, warn: warn})
}

// setSteps sets the text of steps in a column beside pictures of a size: all of it beside its
// picture, unless it is much shorter when it runs on below it.
func setSteps(cells []stepCell, wide, picture, air float64) []stepCell {
	var out []stepCell
	for _, c := range cells {
		if len(c.title) > 0 {
			out = append(out, c)
			continue
		}
		c.picture, c.air, c.wide = picture, air, wide
		set := func(beside bool) (lines []stepLine) {
			for _, p := range c.paras {
				from := len(lines)
				for text := p.text; text != ""; {
					in := 5.0
					if len(c.parts) > 0 && (beside || float64(len(lines))*stepPitch < picture) {
						in += picture + 1
					}
					l := draw.Wrap(text, draw.BodyCap, p.warn, wide-in)
					if in == 5 && len(l) == 1 && len(lines) > from && len(c.parts) > 0 { // a last line alone would read as the picture's name
						in += picture + 1
						for _, t := range draw.Wrap(text, draw.BodyCap, p.warn, wide-in) {
							lines = append(lines, stepLine{t, in, p.warn, false})
						}
						break
					}
					if beside || in == 5 { // no line further on has another width
						for _, t := range l {
							lines = append(lines, stepLine{t, in, p.warn, false})
						}
						break
					}
					lines = append(lines, stepLine{l[0], in, p.warn, false})
					text = strings.Join(l[1:], " ")
				}
				if from < len(lines) {
					lines[from].head = true
				}
			}
			return lines
		}
		c.lines = set(true)
		if round := set(false); len(c.lines) > len(round)+2 {
			c.lines = round
		}
		out = append(out, c)
	}
	return out
}

// sheetsOf tells on how many sheets steps stand, with so much room in the columns of the first.
func sheetsOf(cells []stepCell, first []float64, room float64) int {
	n := 1
	for rooms := first; len(cells) > 0; {
		now, rest := stand(cells, rooms)
		if len(slices.Concat(now...)) == 0 && rooms[0] >= room {
			rest = cells[1:] // one that is higher than a sheet
		}
		cells = rest
		if len(cells) > 0 {
			n++
		}
		rooms = slices.Repeat([]float64{room}, len(first))
	}
	return n
}

func (c stepCell) high() float64 {
	h := float64(len(c.lines)) * stepPitch
	if n := len(c.title); n > 0 {
		h += titleAbove + float64(n)*titlePitch
	}
	if len(c.parts) > 0 {
		h = max(h, c.picture)
	}
	return h + c.air
}

func (c stepCell) draw(s *draw.Sheet, at draw.Point) {
	if len(c.title) > 0 {
		s.Anchor(c.name, draw.Pt(at.X, at.Y+titleAbove-1))
		at.Y += titleAbove
		for _, l := range c.title {
			at.Y += titlePitch
			s.Text(draw.Pt(at.X, at.Y-1.2), stepTitle, l, draw.Start).Bold = true
		}
	} else {
		view.Adding(s, draw.Rect{X: at.X, Y: at.Y + 1, W: c.picture, H: c.picture - 2}, c.parts, c.fresh, c.over)
	}
	y := at.Y + 1 + draw.BodyCap
	for i, l := range c.lines {
		x := at.X + l.in
		if i == 0 && !c.more && len(c.title) == 0 {
			s.Checkbox(draw.Pt(x-4.7, y+0.3), 3.2)
		}
		if l.warn {
			s.Area(draw.Accent, draw.Rect{X: x - 1.8, Y: y - draw.BodyCap - 0.9, W: 0.8, H: stepPitch}.Corners()...)
		}
		text := l.text
		if i == 0 && c.more {
			text = s.Said(text)
		}
		s.Text(draw.Pt(x, y), draw.BodyCap, text, draw.Start).Bold = l.warn
		y += stepPitch
	}
}

// rest gives what follows so many lines of a step, as it goes on in another column.
func (c stepCell) rest(n int) stepCell {
	more := stepCell{n: c.n, air: c.air, more: true, lines: []stepLine{{text: fmt.Sprintf("Step %d, continued:", c.n), in: 5}}}
	done := 0
	for i, l := range c.lines {
		if i >= n && l.head {
			break
		}
		if l.head {
			done++
		}
		if i >= n { // of a paragraph that is parted
			more.lines = append(more.lines, stepLine{l.text, 5, l.warn, false})
		}
	}
	more.paras, more.wide = c.paras[done:], c.wide
	for _, p := range more.paras { // nothing stands beside them
		for i, t := range draw.Wrap(p.text, draw.BodyCap, p.warn, c.wide-5) {
			more.lines = append(more.lines, stepLine{t, 5, p.warn, i == 0})
		}
	}
	return more
}

// partLines is how many lines of a step stand in a column at least that it ends or goes on in.
const partLines = 4

// part parts a step that a column has no room for before one of its points, which go on in the next column.
func (c stepCell) part(room float64) (first, more stepCell, ok bool) {
	n := min(int(room/stepPitch), len(c.lines)-partLines)
	for n > 0 && (!c.lines[n].head || c.lines[n].warn) { // a caution stands with what it warns of
		n--
	}
	if len(c.title) > 0 || n < partLines || len(c.parts) > 0 && c.picture > room {
		return c, c, false
	}
	first, more = c, c.rest(n)
	first.lines, first.air = c.lines[:n], 0
	return first, more, first.high() <= room
}

// stand fills columns of given heights with steps, in order, and gives those that are left. A name stays with the
// step after it.
func stand(cells []stepCell, rooms []float64) (out [][]stepCell, rest []stepCell) {
	for _, high := range rooms {
		used := 0.0
		var column []stepCell
		for len(cells) > 0 {
			need := cells[0].high()
			if len(cells[0].title) > 0 && len(cells) > 1 {
				need += cells[1].high()
			}
			if used+need > high {
				if first, more, ok := cells[0].part(high - used); ok {
					column = append(column, first)
					cells = append([]stepCell{more}, cells[1:]...)
				}
				break
			}
			used += cells[0].high()
			column, cells = append(column, cells[0]), cells[1:]
		}
		out = append(out, column)
	}
	return out, cells
}
