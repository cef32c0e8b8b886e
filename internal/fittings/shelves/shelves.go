// Package shelves makes shelves in a bay: loose on pins in rows of holes, or fixed in place,
// as deep as the bay or less.
package shelves

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// TooMany: more shelves than the bay has room for. Example: "5 shelves do not fit in 300 mm".
	TooMany finding.Code = "shelves-too-many"
	// NoBoard: the shelf board is not known.
	NoBoard finding.Code = "shelves-no-board"
	// Moved: a loose shelf is more than half a step of its holes from where it was asked for, or on another's hole.
	// Example: "The shelf asked for 1 in up is made 5 7/8 in up".
	Moved finding.Code = "shelves-moved"
	// OneRow: there is no room for a second row of pin holes behind the first.
	OneRow finding.Code = "shelves-one-row"
	// NoStrip: the practice's stick is not known, so the shelves get no strips.
	NoStrip finding.Code = "shelves-no-strip"
)

// Common practice, no source.
const (
	least     = 40 * mm // least clear height between shelves that is built
	pinBehind = 15 * mm // pins behind a shelf's front edge, at least
	rearPlay  = 2 * mm  // between a loose shelf and the back, which may be bowed
)

// Spec is what a job says of shelves.
type Spec struct {
	Count   int    `job:"count" min:"0" max:"40" default:"1" doc:"how many, evenly spread"`
	Heights []L    `job:"heights" doc:"upper sides of the shelves above the bay's floor, instead of a count"`
	Fixed   bool   `job:"fixed" doc:"fastened in place instead of loose on pins"`
	Depth   string `job:"depth" one:"full|half" default:"full" doc:"as deep as the bay, or the rear half of it"`
	Deep    *L     `job:"part-depth" doc:"depth of the shelves instead, from the rear"`
	Board   string `job:"board" doc:"board instead of the practice's"`
	Strip   bool   `job:"strip" doc:"the practice's stick glued under the front edge of each shelf, against sagging"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "shelves", Doc: "shelves, loose on pins or fixed", Where: fitting.InBay, New: func() fitting.Spec { return &Spec{Count: 1, Depth: "full"} }}
}

// Claim wants no room: shelves take what is left.
func (*Spec) Claim(fitting.Env, fitting.Space) fitting.Claim { return fitting.Claim{} }

// Rows gives the front and rear rows of pin holes for a shelf between two depths. The front
// row is the practice's where the shelf covers it, else the first place on its step that it
// covers; the rear row is a whole number of steps behind it where the practice says so.
func Rows(env fitting.Env, y0, y1 L) (front, rear L) {
	p := env.Practice
	front = p.GridFront
	step := p.GridPitch
	if p.GridStep != nil {
		step = *p.GridStep
	}
	if step <= 0 {
		step = 32 * mm
	}
	if front < y0+pinBehind {
		front += (y0 + pinBehind - front).Up(step)
	}
	rear = y1 - p.GridRear
	if p.GridStep != nil && rear > front {
		rear = front + (rear - front).Down(step)
	}
	return front, rear
}

// Build makes the shelves.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	var r fitting.Result
	p := env.Practice
	id := cmp.Or(c.Board, p.ShelfBoard, p.Case)
	board, ok := env.Catalogue.Board(id)
	if !ok {
		r.Findings.Add(finding.Finding{Code: NoBoard, Severity: finding.Error, At: "case/" + env.Owner + "/" + s.ID, Text: fmt.Sprintf("the shelves are to be of board %q, which is not known", id), Hint: "name a board of the job or the catalogue"})
		board.Thickness = 18 * mm
	}
	t := board.Thickness
	var strip stock.Stick
	if c.Strip {
		if strip, ok = env.Catalogue.Stick(p.StripStick); !ok {
			r.Findings.Add(finding.Finding{Code: NoStrip, Severity: finding.Error, At: "case/" + env.Owner + "/" + s.ID, Text: fmt.Sprintf("the shelves are to have strips of %q, which is not known: they have none", p.StripStick), Hint: "name a stick as the practice's strip"})
		}
	}
	hang := strip.Width // below a shelf
	tops := slices.Clone(c.Heights)
	order.Up(tops)
	asked := cmp.Or(len(tops), c.Count)
	if len(tops) == 0 {
		n := asked
		if most := int64((s.Height() - least) / (t + hang + least)); int64(n) > most {
			n = int(max(most, 0))
		}
		for i := range n {
			// Equal clear heights.
			clear := s.Height() - (t+hang)*L(n)
			tops = append(tops, clear.MulDiv(int64(i+1), int64(n+1))+(t+hang)*L(i+1))
		}
	}
	shop := joinery.Shop{Practice: p, Catalogue: env.Catalogue, Owner: env.Owner}
	var rows []L // heights of pin holes above the bay's floor
	if !c.Fixed && p.GridPitch > 0 {
		ends := min(p.GridEnds, s.Height()/4)
		for z := ends; z <= s.Height()-ends; z += p.GridPitch {
			rows = append(rows, z)
		}
	}
	floor := s.Box.Min.Z
	type made struct {
		box   geom.Box
		local string
		strip string
		row   int
	}
	var list []made
	last := floor
	used := -1
	stated := len(c.Heights) > 0
	text := func(l L) string { return l.In(unit(p)) }
	var out []string // heights that are left out
	for _, h := range tops {
		skip := func() {
			if stated {
				out = append(out, text(h))
			}
		}
		if stated && (h <= 0 || h >= s.Height()) {
			skip()
			continue
		}
		under := floor + h - t
		row := -1
		if !c.Fixed {
			for i, z := range rows {
				if i > used && floor+z+p.PinDia/2-hang >= last+least/2 && (row < 0 || (floor+z+p.PinDia/2-under).Abs() < (floor+rows[row]+p.PinDia/2-under).Abs()) {
					row = i
				}
			}
			if row < 0 {
				skip()
				continue
			}
			under = floor + rows[row] + p.PinDia/2
		}
		if under-hang < last+least/2 || under+t > s.Box.Max.Z-least/2 {
			skip()
			continue
		}
		y0 := s.Setback(under-hang, under+t)
		end, y1 := p.ShelfEnd, s.Box.Max.Y
		if c.Fixed {
			end = 0
		} else {
			y1 -= rearPlay
			y0 = max(y0, p.ShelfSetback)
		}
		if c.Depth == "half" {
			y0 = max(y0, s.Box.Min.Y+s.Depth()/2)
		}
		if c.Deep != nil {
			y0 = max(y0, y1-*c.Deep)
		}
		if y1-y0 < 50*mm {
			skip()
			continue
		}
		if got := under + t - floor; stated && 2*(got-h).Abs() > p.GridPitch && !c.Fixed {
			r.Findings.Add(finding.Finding{Code: Moved, Severity: finding.Warning, At: "case/" + env.Owner + "/" + s.ID, Source: "common practice, no source",
				Text: fmt.Sprintf("The shelf asked for %s up is made %s up: no free pin hole is nearer.", text(h), text(got)), Hint: "Ask for a height that the rows of holes reach, or for a fixed shelf."})
		}
		n := len(list) + 1
		local := fmt.Sprintf("%s-shelf-%d", s.ID, n)
		q := part.New(local, part.Shelf, fmt.Sprintf("shelf %d", n), id, geom.B(s.Box.Min.X+end, y0, under, s.Box.Max.X-end, y1, under+t), geom.Right, geom.Back)
		if e, ok := env.Catalogue.Edging(p.Edging); ok {
			fitting.Band(&q, part.Near, e)
		}
		q.Removable = !c.Fixed
		if c.Fixed {
			q.Role = part.FixedShelf
		}
		m := made{box: q.Box(), local: local, row: row}
		r.Parts = append(r.Parts, q)
		if hang > 0 {
			m.strip = local + "-strip"
			e := part.New(m.strip, part.EdgeStrip, fmt.Sprintf("strip of shelf %d", n), strip.ID, geom.B(m.box.Min.X, y0, under-hang, m.box.Max.X, y0+strip.Thickness, under), geom.Right, geom.Up)
			e.Material, e.Removable = part.Stick, q.Removable
			r.Parts = append(r.Parts, e)
			r.Joints = append(r.Joints, part.Joint{Kind: part.GlueOnly, A: local, B: m.strip, Contact: geom.B(m.box.Min.X, y0, under, m.box.Max.X, y0+strip.Thickness, under), Glue: true})
		}
		list = append(list, m)
		last, used = under+t, row
	}
	if len(list) < asked {
		c.few(&r, env, s, asked, len(list), out)
	}
	c.hold(&r, env, s, shop, rows, strip.Thickness)
	// Bays: on the floor, then on each shelf.
	for i := 0; i <= len(list); i++ {
		box := s.Box
		name, on := "", s.Walls[geom.Down].Part
		if i > 0 {
			name, on = fmt.Sprint(i+1), list[i-1].local
			box.Min.Z = list[i-1].box.Max.Z
			box.Min.Y = list[i-1].box.Min.Y
		}
		if i < len(list) {
			box.Max.Z = list[i].box.Min.Z - hang
		}
		box.Min.Y = max(box.Min.Y, s.Setback(box.Min.Z, box.Max.Z))
		b := s.Bay(env, "shelves", name, box)
		b.Floor = on
		if i > 0 && !c.Fixed {
			k := list[i-1].row
			b.Range = [2]L{rows[k] - rows[0], rows[len(rows)-1] - rows[k]}
		}
		r.Bays = append(r.Bays, b)
		if i > 0 {
			w := list[i-1].box.Max.X - list[i-1].box.Min.X
			sp := part.Span{Part: on, Along: geom.Right, Bay: b.ID, Use: s.Use, Stiff: list[i-1].strip}
			if c.Fixed {
				sp.Supports = []part.Support{{At: 0, Width: 1, Fixed: true}, {At: w, Width: 1, Fixed: true}}
			} else {
				sp.Supports = []part.Support{{At: 4 * mm, Width: 8 * mm}, {At: w - 4*mm, Width: 8 * mm}}
			}
			r.Spans = append(r.Spans, sp)
		}
	}
	return r
}

// few says how many of the shelves fit, and which of the stated heights are left out.
func (c *Spec) few(r *fitting.Result, env fitting.Env, s fitting.Space, asked, n int, out []string) {
	f := finding.Finding{Code: TooMany, Severity: finding.Warning, At: "case/" + env.Owner + "/" + s.ID, Text: fmt.Sprintf("Of %d shelves %d fit in the bay and are made.", asked, n), Hint: "Ask for fewer, or a higher bay.", Source: "common practice, no source"}
	if len(out) > 0 {
		u := unit(env.Practice)
		f.Text = fmt.Sprintf("Of %d shelves %d fit in the bay, which is %s high, and are made. Left out: %s up.", asked, n, s.Height().In(u), strings.Join(out, " and "))
		f.Hint = fmt.Sprintf("State heights over the bay's floor and under its top, at least %s clear of each other.", (least / 2).In(u))
	}
	r.Findings.Add(f)
}

// unit is the practice's.
func unit(p stock.Practice) length.Unit {
	if p.InInches() {
		return length.Inches
	}
	return length.Millimetres
}

// hold bores the rows of pin holes, or fastens fixed shelves to the boards beside them.
// Pins stand behind strips so thick.
func (c *Spec) hold(r *fitting.Result, env fitting.Env, s fitting.Space, shop joinery.Shop, rows []L, strip L) {
	p := env.Practice
	var shelves []part.Part
	for _, q := range r.Parts {
		if q.Role != part.EdgeStrip {
			shelves = append(shelves, q)
		}
	}
	if len(shelves) == 0 {
		return
	}
	bore := func(w geom.Dir, y, z, dia, depth L, tool, use string) {
		x := s.Box.Min.X
		if w == geom.Right {
			x = s.Box.Max.X
		}
		r.Bores = append(r.Bores, fitting.Bore{Wall: w, Kind: part.Hole, At: geom.V(x, y, z), Dia: dia, Depth: depth, Tool: tool, For: use})
	}
	if c.Fixed {
		fasten(r, env, s, shop)
		return
	}
	tool, ok := shop.Bit(p.PinDia)
	if !ok {
		r.Findings.Add(finding.Finding{Code: joinery.NoBit, Severity: finding.Warning, At: "case/" + env.Owner, Text: "no " + tool + " for shelf pins is owned", Hint: "add it to the practice's bits, or use another pin"})
	}
	y0 := s.Box.Min.Y
	for _, q := range shelves {
		y0 = max(y0, q.Box().Min.Y)
	}
	if strip > 0 {
		y0 += max(strip+p.PinDia-pinBehind, 0)
	}
	front, rear := Rows(env, y0, s.Box.Max.Y)
	if rear <= front+20*mm {
		r.Findings.Add(finding.Finding{Code: OneRow, Severity: finding.Error, At: "case/" + env.Owner + "/" + s.ID, Text: "the shelves are too shallow for two rows of pins, and one does not hold them", Hint: "deeper shelves, or fixed ones", Source: "common practice, no source"})
	}
	for _, w := range []geom.Dir{geom.Left, geom.Right} {
		depth := joinery.Blind(p.PinDepth, s.Walls[w].Thickness, 5*mm)
		for _, z := range rows {
			bore(w, front, s.Box.Min.Z+z, p.PinDia, depth, tool, "shelf pin")
			if rear > front+20*mm {
				bore(w, rear, s.Box.Min.Z+z, p.PinDia, depth, tool, "shelf pin")
			}
		}
	}
	r.Hardware = append(r.Hardware, part.Item{Owner: env.Owner, ID: p.Pin, Kind: "pin", Count: 4 * len(shelves), For: "shelves"})
}

// fasten joins both ends of fixed shelves to the boards beside them as the case's own boards are joined, pockets below,
// and screw heads on the far side only where they may be seen there.
func fasten(r *fitting.Result, env fitting.Env, s fitting.Space, shop joinery.Shop) {
	var told joinery.Told
	for i := range r.Parts {
		q := &r.Parts[i]
		if q.Role != part.FixedShelf {
			continue
		}
		for _, d := range []geom.Dir{geom.Left, geom.Right} {
			w := s.Walls[d]
			beside, name, shift := s.Box, "the board on its right", L(0)
			if beside.Min.X, beside.Max.X = s.Box.Max.X, s.Box.Max.X+w.Thickness; d == geom.Left {
				beside.Min.X, beside.Max.X, name = s.Box.Min.X-w.Thickness, s.Box.Min.X, "the board on its left"
				if w.Both { // another shelf may end on the other side
					shift = 20 * mm
				}
			}
			a := part.New(w.Part, part.Partition, name, "", beside, geom.Up, geom.Back)
			contact := a.Box().And(q.Box())
			j := shop.Make(cmp.Or(env.Joint, shop.Practice.Joint, "wood-screw"), joinery.Between{A: &a, B: q, To: d, Contact: contact,
				Pockets: []geom.Dir{geom.Down}, Heads: w.Heads && !fitting.Meets(w.Far, d, contact), Butt: true, Both: w.Both, Shift: shift})
			r.Joints = append(r.Joints, j.Joint)
			for _, it := range j.Items {
				it.For = "fixed shelves"
				r.Hardware = append(r.Hardware, it)
			}
			told.Add(j)
			for _, o := range a.Ops {
				at := a.Pose.Point(o.Face.Point(o.X, o.Y, a.Size)).With(0, j.Joint.Contact.Min.X)
				r.Bores = append(r.Bores, fitting.Bore{Wall: d, Kind: o.Kind, At: at, Dia: o.Dia, Depth: o.Depth, Tool: o.Tool, For: o.For})
			}
		}
	}
	r.Findings.Add(told.List("case/" + env.Owner + "/" + s.ID)...)
}
