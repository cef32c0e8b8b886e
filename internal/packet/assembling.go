package packet

import (
	"fmt"

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
	const (
		columns = 3
		gap     = 5.0
		picture = 34.0
		pitch   = 4.3
	)
	wide := (f.Width() - gap*(columns-1)) / columns
	type cell struct {
		parts []view.Part
		fresh map[string]bool
		lines []string
		warn  []string
		long  bool // its text stands beside its picture, over the whole width
	}
	stood := map[string]bool{}
	var cells []cell
	before := ""
	for _, s := range list {
		c := cell{fresh: map[string]bool{}}
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
			c.fresh[m] = !stood[m] || moving
		}
		for _, p := range view.Of(&b.Assembly, o.ID) {
			if len(pieces) == 0 {
				break
			}
			_, now := c.fresh[p.Mark]
			if now || stood[p.Mark] && !moving {
				c.parts = append(c.parts, p)
			}
		}
		if !moving {
			for _, m := range pieces {
				stood[m] = true
			}
		}
		say := func(wide float64) {
			c.lines = draw.Wrap(fmt.Sprintf("%d. %s", s.N, s.Text), draw.BodyCap, false, wide-5)
			for _, p := range s.Points {
				c.lines = append(c.lines, draw.Wrap("– "+p, draw.BodyCap, false, wide-5)...)
			}
			if s.Caution != "" && s.Caution != before {
				c.warn = draw.Wrap(s.Caution, draw.BodyCap, true, wide-5)
			}
		}
		say(wide)
		if c.long = len(c.lines)+len(c.warn) > 12 && len(c.parts) > 0; c.long {
			say(f.Width() - wide - gap)
		}
		before = s.Caution
		cells = append(cells, c)
	}
	for first := true; len(cells) > 0; first = false {
		n := 1
		for !cells[0].long && n < min(columns, len(cells)) && !cells[n].long {
			n++
		}
		row := cells[:n]
		cells = cells[n:]
		most, pic := 0, 0.0
		for _, c := range row {
			most = max(most, len(c.lines)+len(c.warn))
			if len(c.parts) > 0 {
				pic = picture
			}
		}
		high := pic + float64(most)*pitch + 6
		if row[0].long {
			high = max(pic, float64(most)*pitch) + 6
		}
		if first {
			if f.Left() < high+14 {
				f.Break()
			}
			f.Heading(2, b.called(o)+": putting it together", "steps "+o.ID)
			b.enter(1, b.name(o.ID)+": putting it together", "steps "+o.ID, false)
		}
		f.Block(high, func(s *draw.Sheet, r draw.Rect) {
			for i, c := range row {
				x := r.X + float64(i)*(wide+gap)
				view.Adding(s, draw.Rect{X: x + 1, Y: r.Y + 1, W: wide - 2, H: pic - 2}, c.parts, c.fresh)
				y := r.Y + pic + 1 + draw.BodyCap
				if c.long {
					x, y = r.X+wide+gap, r.Y+1+draw.BodyCap
				}
				s.Checkbox(draw.Pt(x+0.3, y+0.3), 3.2)
				for _, l := range c.lines {
					s.Text(draw.Pt(x+5, y), draw.BodyCap, l, draw.Start)
					y += pitch
				}
				for _, l := range c.warn {
					s.Area(draw.Accent, draw.Rect{X: x + 3.2, Y: y - draw.BodyCap - 0.9, W: 0.8, H: pitch}.Corners()...)
					s.Text(draw.Pt(x+5, y), draw.BodyCap, l, draw.Start).Bold = true
					y += pitch
				}
			}
		})
	}
}
