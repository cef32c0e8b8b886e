package packet

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// ownSteps sets an owner's own assembly steps at the end of its chapter: a picture a step, the
// new pieces drawn strong, with a box to tick.
func (b *book) ownSteps(o part.Owner) {
	f := b.flow
	var list []shop.Step
	for _, s := range b.Steps {
		if s.Owner == o.ID && s.Phase.Bench() {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		return
	}
	columns := max(2, int(f.Width()/84))
	wide := (f.Width() - stepGap*float64(columns-1)) / float64(columns)
	stood := map[string]bool{}
	made := map[string]bool{} // of the drawer, tray or rack that is put together
	var cells []stepCell
	before := ""
	for _, s := range list {
		c := stepCell{fresh: map[string]bool{}}
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
		if moving && strings.Contains(s.Text, "egin with") {
			clear(made)
		}
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
		for _, p := range view.Of(&b.Assembly, o.ID) {
			if len(pieces) == 0 {
				break
			}
			_, now := c.fresh[p.Mark]
			if now || stood[p.Mark] && !moving || made[p.Mark] && moving {
				c.parts = append(c.parts, p)
			}
		}
		if !moving {
			for _, m := range pieces {
				stood[m] = true
			}
		}
		c.say(fmt.Sprintf("%d. %s", s.N, s.Text), false)
		for _, p := range s.Points {
			c.say("– "+p, false)
		}
		if s.Caution != "" && s.Caution != before {
			c.say(s.Caution, true)
		}
		before = s.Caution
		cells = append(cells, c)
	}
	title := func(f *draw.Flow) { f.Heading(2, b.called(o)+": putting it together", "steps "+o.ID) }
	// the pictures as large as they go without one sheet more for it, and air between the steps
	least := 0
	for _, size := range [][2]float64{{stepLeast, stepAir / 2}, {stepLeast, stepAir}, {(stepLeast + stepPicture) / 2, stepAir}, {stepPicture, stepAir}} {
		try := setSteps(cells, wide, size[0], size[1])
		if n := sheetsOf(try, columns, f.Left()-f.Measure(title), f.Height()); least == 0 || n <= least {
			cells, least = try, n
		}
	}
	if f.Left() < f.Measure(title)+min(45, 3+cells[0].high()) {
		f.Break()
	}
	title(f)
	b.enter(1, b.name(o.ID)+": putting it together", "steps "+o.ID, false)
	if twins := b.alikeOwners(o.ID); len(twins) > 1 {
		var codes []string
		for _, t := range twins[1:] {
			codes = append(codes, view.Code(&b.Assembly, t.ID))
		}
		f.Para(fmt.Sprintf("Told with the marks of %s; do the same with the boards of %s.", view.Code(&b.Assembly, o.ID), strings.Join(codes, " and ")))
	}
	for len(cells) > 0 {
		room := f.Left()
		now, rest := stand(cells, columns, room)
		if len(now[0]) == 0 {
			if f.Top() { // one that is higher than a sheet goes on in the next column
				room := f.Height()
				n := int((room - stepAir) / stepPitch)
				more := stepCell{lines: cells[0].lines[n:], more: true}
				cells[0].lines = cells[0].lines[:n]
				cells = slices.Insert(cells, 1, more)
			}
			if !f.Top() {
				f.Break()
				f.Width()
			}
			continue
		}
		for len(rest) == 0 && room > 24 { // the last columns end at one height
			try, over := stand(cells, columns, room-2)
			if len(over) > 0 {
				break
			}
			now, room = try, room-2
		}
		cells = rest
		f.Block(room, func(s *draw.Sheet, r draw.Rect) {
			for i, column := range now {
				at := draw.Pt(r.X+float64(i)*(wide+stepGap), r.Y)
				for _, c := range column {
					c.draw(s, at)
					at.Y += c.high()
				}
			}
		})
	}
}

const (
	stepGap     = 6.0  // between columns of steps
	stepPicture = 28.0 // beside the text, square
	stepLeast   = 21.0 // the same where that saves a sheet
	stepPitch   = 4.0  // from line to line
	stepAir     = 3.5  // from step to step
)

// stepCell is a step of putting something together: its picture and, beside and below that, its
// text.
type stepCell struct {
	parts   []view.Part
	fresh   map[string]bool
	paras   []stepLine
	picture float64
	air     float64 // below it
	lines   []stepLine
	more    bool // goes on with a step that a column had no room for
}

type stepLine struct {
	text string
	in   float64
	warn bool
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
		c.picture, c.air = picture, air
		set := func(beside bool) (lines []stepLine) {
			for _, p := range c.paras {
				for text := p.text; text != ""; {
					in := 5.0
					if len(c.parts) > 0 && (beside || float64(len(lines))*stepPitch < picture) {
						in += picture + 1
					}
					l := draw.Wrap(text, draw.BodyCap, p.warn, wide-in)
					if beside || in == 5 { // no line further on has another width
						for _, t := range l {
							lines = append(lines, stepLine{t, in, p.warn})
						}
						break
					}
					lines = append(lines, stepLine{l[0], in, p.warn})
					text = strings.Join(l[1:], " ")
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

// sheetsOf tells on how many sheets steps stand, the first with less room.
func sheetsOf(cells []stepCell, columns int, first, room float64) int {
	n := 1
	for high := first; len(cells) > 0; high = room {
		now, rest := stand(cells, columns, high)
		if len(now[0]) == 0 && high >= room {
			rest = cells[1:] // one that is higher than a sheet
		}
		cells = rest
		if len(cells) > 0 {
			n++
		}
	}
	return n
}

func (c stepCell) high() float64 {
	h := float64(len(c.lines)) * stepPitch
	if len(c.parts) > 0 {
		h = max(h, c.picture)
	}
	return h + c.air
}

func (c stepCell) draw(s *draw.Sheet, at draw.Point) {
	view.Adding(s, draw.Rect{X: at.X, Y: at.Y + 1, W: c.picture, H: c.picture - 2}, c.parts, c.fresh)
	y := at.Y + 1 + draw.BodyCap
	for i, l := range c.lines {
		x := at.X + l.in
		if i == 0 && !c.more {
			s.Checkbox(draw.Pt(x-4.7, y+0.3), 3.2)
		}
		if l.warn {
			s.Area(draw.Accent, draw.Rect{X: x - 1.8, Y: y - draw.BodyCap - 0.9, W: 0.8, H: stepPitch}.Corners()...)
		}
		s.Text(draw.Pt(x, y), draw.BodyCap, l.text, draw.Start).Bold = l.warn
		y += stepPitch
	}
}

// stand fills columns of a height with steps, in order, and gives those that are left.
func stand(cells []stepCell, columns int, high float64) (out [][]stepCell, rest []stepCell) {
	for range columns {
		used := 0.0
		var column []stepCell
		for len(cells) > 0 && used+cells[0].high() <= high {
			used += cells[0].high()
			column, cells = append(column, cells[0]), cells[1:]
		}
		out = append(out, column)
	}
	return out, cells
}
