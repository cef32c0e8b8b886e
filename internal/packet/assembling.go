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
		gap     = 5.0
		picture = 28.0 // beside the text, square
		pitch   = 4.2
	)
	columns := max(2, int(f.Width()/84))
	wide := (f.Width() - gap*float64(columns-1)) / float64(columns)
	type cell struct {
		parts  []view.Part
		fresh  map[string]bool
		lines  []string
		warn   []string
		beside float64 // room that the picture takes beside the text
		long   bool    // over the whole width
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
		c.beside = 0
		if len(c.parts) > 0 {
			c.beside = picture + 1
		}
		say(wide - c.beside)
		if c.long = len(c.lines)+len(c.warn) > 14; c.long {
			say(f.Width() - c.beside)
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
		high := 0.0
		for _, c := range row {
			high = max(high, float64(len(c.lines)+len(c.warn))*pitch)
			if len(c.parts) > 0 {
				high = max(high, picture)
			}
		}
		high += 3.5
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
				view.Adding(s, draw.Rect{X: x, Y: r.Y + 1, W: picture, H: picture - 2}, c.parts, c.fresh)
				x += c.beside
				y := r.Y + 1 + draw.BodyCap
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
