package packet

import (
	"cmp"
	"fmt"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/view"
)

// A card is one drawing of a piece with all that is worked on it, several to a sheet: the
// drawing at the left, the list of workings at its right. Mirror images share a card.

// toCard gives the anchor of a group's card.
func (b *book) toCard(group int) string {
	g := b.groups[group]
	if g.Mirror != "" && b.group[g.Mirror] < group {
		group = b.group[g.Mirror]
	}
	return fmt.Sprintf("card %d", group)
}

// cards sets the drawings of those pieces of a chapter that are worked and not drawn yet.
func (b *book) cards(owner string) {
	f := b.flow
	var elsewhere []string
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
		b.card(f, i)
	}
	if len(elsewhere) > 0 {
		f.Para("Drawn in an earlier chapter: " + strings.Join(elsewhere, "; ") + ".")
	}
}

const (
	cardText = 66.0 // width of the list of workings in mm
	cardFace = 50.0 // most height of one face with its sizes
)

// card sets one card.
func (b *book) card(f *draw.Flow, i int) {
	g := b.groups[i]
	p := g.Part
	head := fmt.Sprintf("%s: %s", strings.Join(g.Marks, ", "), g.Name)
	if n := len(g.Marks); n > 1 {
		head += fmt.Sprintf(", %d alike", n)
	}
	var notes []string
	notes = append(notes, fmt.Sprintf("%s, %s. Edging: %s.", b.sizes(p.Size), b.stockName(p), cmp.Or(b.bands(p), "none")))
	if c := p.Cut(); c != p.Size {
		notes = append(notes, "As sawn "+b.sure(c[0])+" × "+b.sure(c[1])+".")
	}
	if p.Grain == part.Across {
		notes = append(notes, "The grain runs across.")
	}
	if g.Mirror != "" {
		m := b.groups[b.group[g.Mirror]]
		notes = append(notes, fmt.Sprintf("Mirror image, %d of it: %s (%s): the same sizes from the same corner, upper and lower face changed over.", len(m.Marks), strings.Join(m.Marks, ", "), m.Name))
	}
	width := f.Width()
	left := width - cardText - 5
	type line struct {
		text string
		bold bool
		in   float64
	}
	var lines []line
	put := func(text string, bold bool, in float64) {
		for _, l := range draw.Wrap(text, draw.BodyCap, bold, cardText-in) {
			lines = append(lines, line{l, bold, in})
		}
	}
	put(strings.Join(notes, " "), false, 0)
	for _, w := range view.Works(p, b.Print) {
		t := w.Text() + ". " + strings.ToUpper(view.FaceName(w.Face)[:1]) + view.FaceName(w.Face)[1:]
		if w.Tool != "" {
			t += ", " + w.Tool
		}
		n := len(lines)
		put(t+".", false, 4)
		lines[n].text = w.Letter + "\x00" + lines[n].text
		if at := w.Places(); at != "" {
			put(at, false, 4)
		}
	}
	const pitch = 4.3
	rows, scale, foot := b.arrange(view.Board(p, b.Print), left, float64(len(lines))*pitch)
	head += ", scale " + scale.String()
	heads := draw.Wrap(head, 3, true, width)
	top := float64(len(heads))*5.8 + 1
	h := top + max(foot, float64(len(lines))*pitch+1) + 4
	f.Block(h, func(s *draw.Sheet, r draw.Rect) {
		s.Anchor(fmt.Sprintf("card %d", i), draw.Pt(r.X, r.Y))
		s.Poly(draw.Rule, draw.Pt(r.X, r.Y), draw.Pt(r.X+r.W, r.Y)).Ink = draw.Light
		y := r.Y + 1
		for _, l := range heads {
			y += 4.2
			s.Text(draw.Pt(r.X, y), 3, l, draw.Start).Bold = true
			y += 1.6
		}
		view.Pack(s, draw.Rect{X: r.X, Y: y, W: left, H: 1000}, b.Print, scale, rows...)
		y += 1
		for _, l := range lines {
			text := l.text
			if k := strings.IndexByte(text, 0); k >= 0 {
				s.Text(draw.Pt(r.X+left+5, y+draw.BodyCap+0.4), draw.BodyCap, text[:k], draw.Start).Bold = true
				text = text[k+1:]
			}
			s.Text(draw.Pt(r.X+left+5+l.in, y+draw.BodyCap+0.4), draw.BodyCap, text, draw.Start)
			y += pitch
		}
	})
}

// arrange finds the larger scale for the faces of a board: one under the other, or side by
// side.
func (b *book) arrange(faces []view.Figure, width, free float64) (rows [][]view.Figure, scale draw.Scale, foot float64) {
	var down [][]view.Figure
	for _, x := range faces {
		down = append(down, []view.Figure{x})
	}
	for i, try := range [][][]view.Figure{down, {faces}} {
		if i == 1 && len(faces) == 1 {
			break
		}
		var scratch draw.Sheet
		c, h := view.Pack(&scratch, draw.Rect{W: width, H: max(free, cardFace*float64(len(try)))}, b.Print, draw.Scale{Paper: 1, Real: 2}, try...)
		larger := c.Paper*scale.Real > scale.Paper*c.Real
		if i == 0 || larger || c == scale && h < foot {
			rows, scale, foot = try, c, h
		}
	}
	return rows, scale, foot
}

// unitWord gives the paper's unit in words.
func (b *book) unitWord() string {
	if b.Print == length.Millimetres {
		return "mm"
	}
	return "inches"
}
