// Package labels sets a label for every part on sheets of standard labels, in the order in
// which the parts come off the saw: the mark, large; name and sawn size; how it stands, with
// its grain and the edges to band; which face is out; the steps that it goes through; and a
// code that a phone reads as the mark. The page is package draw's, bytes are the encoders'.
package labels

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/shop"
)

// Input is what the labels tell.
type Input struct {
	Job      string
	Date     string
	Print    length.Unit
	Assembly part.Assembly
	Plan     cutting.Plan
	Marks    [][]string
	Sticks   []cutlist.Stick
	Steps    []shop.Step
	Size     Size
	Skip     int // labels of the first sheet that are used up
	Lang     string
	Say      draw.Language // that language; nil for English
}

// Make gives the sheets of labels, none where nothing is cut.
func Make(in Input) draw.Document {
	doc := draw.Document{Title: in.Job + ": labels", Subject: "Labels for the parts", Lang: cmp.Or(in.Lang, "en"), Date: in.Date}
	list := in.ordered()
	s := in.Size
	for i, p := range list {
		k := i + in.Skip%s.Count()
		if i == 0 || k%s.Count() == 0 {
			doc.Pages = append(doc.Pages, draw.Sheet{W: s.PaperW, H: s.PaperH, Say: in.Say})
		}
		at := k % s.Count()
		sheet := &doc.Pages[len(doc.Pages)-1]
		in.label(sheet, draw.Rect{X: s.Left + float64(at%s.Across)*s.StepX, Y: s.Top + float64(at/s.Across)*s.StepY, W: s.W, H: s.H}, p)
	}
	for i := range doc.Pages {
		if s.Top >= 9 {
			doc.Pages[i].Text(draw.Pt(s.PaperW/2, s.Top-3), draw.LeastCap,
				doc.Pages[i].Said(fmt.Sprintf("%s: labels %d of %d, in the order of the saw. %s, %d to a sheet. Print at 100 %%.", in.Job, i+1, len(doc.Pages), s.SaysInName, s.Count())), draw.Middle)
		}
	}
	return doc
}

// ordered gives the parts as they come off the saw: sheet by sheet as the cuts free them, then
// stick by stick, then what is cut from nothing that is planned.
func (in *Input) ordered() []part.Part {
	by := map[string]part.Part{}
	for _, p := range in.Assembly.Parts {
		by[p.Mark] = p
	}
	var out []part.Part
	done := map[string]bool{}
	take := func(mark string) {
		if p, ok := by[mark]; ok && !done[mark] && p.Material != part.Bought {
			done[mark] = true
			out = append(out, p)
		}
	}
	for i, s := range in.Plan.Sheets {
		if i >= len(in.Marks) {
			break
		}
		for _, c := range s.Cuts {
			for _, k := range c.Frees {
				if k < len(in.Marks[i]) {
					take(in.Marks[i][k])
				}
			}
		}
		for _, m := range in.Marks[i] {
			take(m)
		}
	}
	for _, s := range in.Sticks {
		for _, p := range s.Pieces {
			for _, m := range p.Marks {
				take(m)
			}
		}
	}
	for _, p := range in.Assembly.Parts {
		take(p.Mark)
	}
	return out
}

// out gives the direction in which the outer face of a part looks, in the frame of its pose:
// away from the middle of what it belongs to, the show side of fronts, and the upper face of what things
// stand on.
func (in *Input) out(p part.Part) geom.Dir {
	s := p.Box().Size()
	thin := 0
	for a := 1; a < 3; a++ {
		if s.At(a) < s.At(thin) {
			thin = a
		}
	}
	whole := in.around(p)
	far := p.Box().Min.At(thin)+p.Box().Max.At(thin) >= whole.Min.At(thin)+whole.Max.At(thin)
	switch {
	case thin == 0 && far:
		return geom.Right
	case thin == 0:
		return geom.Left
	case thin == 1 && p.Role != part.Door && p.Role != part.DrawerFront && p.Role != part.FalseFront && far:
		return geom.Back
	case thin == 1:
		return geom.Front
	case p.Role == part.Bottom:
		return geom.Down
	}
	return geom.Up
}

// around is the body that a part belongs to: what moves with it, or its owner's carcass.
func (in *Input) around(p part.Part) part.Box {
	var b part.Box
	if p.Moves != "" {
		for _, q := range in.Assembly.Parts {
			if q.Owner == p.Owner && q.Moves == p.Moves && q.Role != part.Door && q.Role != part.DrawerFront {
				b = b.Or(q.Box())
			}
		}
		if !b.Empty() {
			return b
		}
	}
	for _, o := range in.Assembly.Owners {
		if o.ID == p.Owner {
			if o.Carcass.Empty() {
				return o.Box
			}
			return o.Carcass
		}
	}
	return p.Box()
}

// upright gives what is up and what is right when a part is looked at from direction out: up
// is up for what stands; for what lies it is the front.
func upright(out geom.Dir) (right, up geom.Dir) {
	switch out {
	case geom.Left:
		return geom.Front, geom.Up
	case geom.Right:
		return geom.Back, geom.Up
	case geom.Front:
		return geom.Right, geom.Up
	case geom.Back:
		return geom.Left, geom.Up
	case geom.Up:
		return geom.Left, geom.Front
	}
	return geom.Right, geom.Front
}

var dirWords = [...]string{geom.Right: "right", geom.Left: "left", geom.Back: "back", geom.Front: "front", geom.Up: "top", geom.Down: "bottom"}

const air = 2.8 // kept free inside a label, for printers that drift

// label draws one label in its rectangle.
func (in *Input) label(s *draw.Sheet, r draw.Rect, p part.Part) {
	r = r.Inset(air)
	out := in.out(p)
	code := min(r.H, 19)
	if r.W < 70 { // narrow: the sketch stands over the code
		code = min(code, 13)
	}
	s.QR(draw.Rect{X: r.Right() - code + 1, Y: r.Bottom() - code + 1, W: code, H: code}, p.Mark)
	sketch := draw.Rect{X: r.Right() - code - 23, Y: r.Y, W: 22, H: r.H}
	words := draw.Rect{X: r.X, Y: r.Y, W: sketch.X - r.X - 1, H: r.H}
	if r.W < 70 {
		words.W = r.W - code - 1
		sketch = draw.Rect{X: r.Right() - code, Y: r.Y, W: code, H: r.H - code + 1}
	}
	in.sketch(s, sketch, p, out)
	var bands []string
	for i, b := range p.Bands {
		if b.Edging != "" {
			bands = append(bands, dirWords[p.Pose.Dir(edgeFace(i).Normal())])
		}
	}
	cut := p.Cut()
	size := cut[0].Tape(in.Print) + " × " + cut[1].Tape(in.Print) + " × " + strings.TrimSuffix(cut[2].Exact(in.Print), " "+in.Print.String()) + " " + in.Print.String()
	lines := []string{size, p.Name}
	face := "out: " + dirWords[out] + ", tip to the " + dirWords[tip(out)]
	if len(bands) > 0 {
		lines = append(lines, "band: "+strings.Join(bands, ", "))
	}
	lines = append(lines, face)
	if axis := in.grain(p); axis >= 0 {
		lines = append(lines, "grain: "+[3]string{"left to right", "front to back", "up and down"}[axis])
	}
	lines = append(lines, in.next(p.Mark, words.W))
	// the mark as large as it goes
	high := 5.5
	for high > draw.LeastCap && (&draw.Text{Text: p.Mark, Size: high, Bold: true}).Width() > words.W || high > r.H/6 {
		high -= 0.25
	}
	high = max(high, draw.LeastCap)
	y := words.Y + high + 0.3
	s.Text(draw.Pt(words.X, y), high, p.Mark, draw.Start).Bold = true
	row := 3.95
	if high > 3.5 && words.H > 30 {
		y += 0.8 // letters that hang below the line
	}
	for _, l := range lines {
		for i, w := range draw.Wrap(s.Said(l), draw.LeastCap, false, words.W) {
			if y+row > words.Bottom()+0.5 || i > 1 {
				break
			}
			y += row
			s.Text(draw.Pt(words.X, y), draw.LeastCap, w, draw.Start)
		}
	}
}

// grain gives the axis that a part's grain runs along in its case, -1 where it has none: that of
// the part, or, where it may lie either way, as it is cut from its sheet.
func (in *Input) grain(p part.Part) int {
	u, v := p.Pose.U.Axis(), p.Pose.V.Axis()
	switch p.Grain {
	case part.Along:
		return u
	case part.Across:
		return v
	}
	for i, s := range in.Plan.Sheets {
		for k, x := range s.Pieces {
			if i < len(in.Marks) && k < len(in.Marks[i]) && in.Marks[i][k] == p.Mark && s.Grain != cutting.NoGrain {
				if x.Turned == (s.Grain == cutting.GrainX) {
					return v
				}
				return u
			}
		}
	}
	return -1
}

// tip is where the triangle's tip points in the case.
func tip(out geom.Dir) geom.Dir {
	_, up := upright(out)
	return up
}

func edgeFace(band int) part.Face {
	return [...]part.Face{part.BandStart: part.Start, part.BandEnd: part.End, part.BandNear: part.Near, part.BandFar: part.Far}[band]
}

// sketch draws the part as it is in its case, seen from outside: the old triangle with its tip
// up or to the front, the grain as an arrow, banded edges as a thick line. It keeps the part's
// proportions as far as its room goes.
func (in *Input) sketch(s *draw.Sheet, r draw.Rect, p part.Part, out geom.Dir) {
	right, up := upright(out)
	size := p.Box().Size()
	w, h := float64(size.At(right.Axis())), float64(size.At(up.Axis()))
	room := r.Inset(1.4)
	k := min(room.W/w, room.H/h)
	w, h = max(w*k, min(9, room.W)), max(h*k, min(9, room.H))
	m := r.Mid()
	b := draw.Rect{X: m.X - w/2, Y: m.Y - h/2, W: w, H: h}
	s.Rect(draw.Edge, b)
	for i, x := range p.Bands {
		if x.Edging == "" {
			continue
		}
		const d = 0.75
		switch p.Pose.Dir(edgeFace(i).Normal()) {
		case right:
			s.Poly(draw.Outline, draw.Pt(b.Right()+d, b.Y), draw.Pt(b.Right()+d, b.Bottom()))
		case right.Not():
			s.Poly(draw.Outline, draw.Pt(b.X-d, b.Y), draw.Pt(b.X-d, b.Bottom()))
		case up:
			s.Poly(draw.Outline, draw.Pt(b.X, b.Y-d), draw.Pt(b.Right(), b.Y-d))
		case up.Not():
			s.Poly(draw.Outline, draw.Pt(b.X, b.Bottom()+d), draw.Pt(b.Right(), b.Bottom()+d))
		}
	}
	// the triangle in one half, the grain in the other
	c, g := draw.Pt(b.X+w/2, b.Y+h*0.28), draw.Pt(b.X+w/2, b.Y+h*0.72)
	t := min(4, h*0.2, w*0.4)
	if h < w {
		c, g = draw.Pt(b.X+w*0.25, b.Y+h/2), draw.Pt(b.X+w*0.7, b.Y+h/2)
		t = min(4, w*0.17, h*0.4)
	}
	s.Shape(draw.Edge, c.Add(draw.Pt(0, -t)), c.Add(draw.Pt(t, t*0.8)), c.Add(draw.Pt(-t, t*0.8)))
	along := in.grain(p)
	var d draw.Point
	switch {
	case along == right.Axis():
		half := min(w/2-1, 8)
		if h < w {
			half = min(w*0.24, 8)
		}
		d = draw.Pt(half, 0)
	case along == up.Axis():
		half := min(h/2-1, 8)
		if h >= w {
			half = min(h*0.24, 8)
		}
		d = draw.Pt(0, half)
	default:
		return
	}
	s.Poly(draw.Visible, g.Sub(d), g.Add(d))
	arrow(s, g, g.Add(d))
	arrow(s, g, g.Sub(d))
}

// arrow draws a broad head, to be seen at arm's length.
func arrow(s *draw.Sheet, from, tip draw.Point) {
	d := tip.Sub(from)
	long := min(2.6, d.Len()*0.8)
	d = d.Times(1 / d.Len())
	side := draw.Pt(-d.Y, d.X).Times(long * 0.42)
	b := tip.Sub(d.Times(long))
	s.Area(draw.Black, tip, b.Add(side), b.Sub(side))
}

// next says which steps come after the saw, as many as fit in a line.
func (in *Input) next(mark string, width float64) string {
	var n []string
	for _, s := range in.Steps {
		edged := s.Phase == shop.Saw && s.Owner == "" && len(s.Points) > 0 && strings.HasPrefix(s.Text, "Put edging")
		if (edged || s.Phase == shop.Bore || s.Phase == shop.Ready || s.Phase == shop.Assemble || s.Phase == shop.FitOut) && slices.Contains(s.Parts, mark) {
			n = append(n, fmt.Sprint(s.N))
		}
	}
	switch len(n) {
	case 0:
		return "next: see its case"
	case 1:
		return "next: step " + n[0]
	}
	line := "next: steps " + strings.Join(n, ", ")
	for k := len(n) - 1; k > 0 && (&draw.Text{Text: line, Size: draw.LeastCap}).Width() > width; k-- {
		line = "next: steps " + strings.Join(n[:k], ", ") + " ..."
	}
	return line
}
