package rack

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

const mm = length.MM

// Codes of the findings of racks.
const (
	// NoBoard: the board of a rack is not known. Example: `the rack is to be of board "oak", which is not known`.
	NoBoard finding.Code = "rack-no-board"
	// Narrow: not one of the things goes in. Example: "60 mm are left between the rack's sides and one needs 68 mm".
	Narrow finding.Code = "rack-too-narrow"
	// Fewer: less goes in than was asked for. Example: "9 holes were asked for and 5 go in 360 mm by 78 mm".
	Fewer finding.Code = "rack-fewer"
	// Loose: the only hole that can be bored is much wider than what stands in it. Example: "a hole of 68 mm for 50 mm".
	Loose finding.Code = "rack-hole-loose"
)

const practice = "common practice, no source"

// looseMost is how much wider than its thing a hole may be before it is worth a word; common
// practice, no source.
const looseMost = 8 * mm

// Work is one rack in making.
type Work struct {
	Env    fitting.Env
	Space  fitting.Space
	Shop   joinery.Shop
	Board  string
	T      L // thickness of the board
	Result fitting.Result
}

// Board gives what a rack is made of and how thick that is: what the job says, else the
// practice's board for racks, or for shelves.
func Board(env fitting.Env, asked string) (id string, t L, ok bool) {
	p := env.Practice
	id = cmp.Or(asked, p.RackSide, p.ShelfBoard, p.Case)
	if b, ok := env.Catalogue.Board(id); ok && b.Thickness > 0 {
		return id, b.Thickness, true
	}
	return id, 12 * mm, false
}

// Begin starts a rack of a board.
func Begin(env fitting.Env, s fitting.Space, asked string) *Work {
	w := &Work{Env: env, Space: s, Shop: joinery.Shop{Practice: env.Practice, Catalogue: env.Catalogue, Owner: env.Owner}}
	ok := false
	if w.Board, w.T, ok = Board(env, asked); !ok {
		w.Say(NoBoard, finding.Error, fmt.Sprintf("the rack is to be of board %q, which is not known: %s is taken for it", w.Board, w.Text(w.T)), "name a board of the job or the catalogue")
	}
	return w
}

// Say reports a finding at the rack's place, once.
func (w *Work) Say(code finding.Code, sev finding.Severity, text, hint string) {
	w.add(finding.Finding{Code: code, Severity: sev, At: "case/" + w.Env.Owner + "/" + w.Space.ID, Text: text, Hint: hint, Source: practice})
}

func (w *Work) add(list ...finding.Finding) {
	for _, f := range list {
		if !slices.ContainsFunc(w.Result.Findings, func(g finding.Finding) bool { return g.Code == f.Code && g.At == f.At && g.Text == f.Text }) {
			w.Result.Findings.Add(f)
		}
	}
}

// Text gives a length as the practice's tape shows it.
func (w *Work) Text(l L) string {
	if w.Env.Practice.InInches() {
		return l.In(length.Inches)
	}
	return l.In(length.Millimetres)
}

// Put adds a board of the rack and gives its name.
func (w *Work) Put(name, called string, role part.Role, b geom.Box, u, v geom.Dir) string {
	q := part.New(w.Space.ID+"-"+name, role, called, w.Board, b, u, v)
	w.Result.Parts = append(w.Result.Parts, q)
	return q.Local
}

// Part gives a board of the rack; the pointer is good until the next [Work.Put].
func (w *Work) Part(local string) *part.Part {
	i := slices.IndexFunc(w.Result.Parts, func(p part.Part) bool { return p.Local == local })
	return &w.Result.Parts[i]
}

// Screw fastens board b, whose edge meets a face of board a in a direction, with screws through
// a; the contact is where their boxes touch, or a part of that.
func (w *Work) Screw(a, b string, to geom.Dir, contact geom.Box) {
	r := w.Shop.Make("wood-screw", joinery.Between{A: w.Part(a), B: w.Part(b), To: to, Contact: contact, Heads: true, Butt: true})
	w.Result.Joints = append(w.Result.Joints, r.Joint)
	for _, it := range r.Items {
		it.For = "racks"
		w.Result.Hardware = append(w.Result.Hardware, it)
	}
	w.add(r.Findings...)
}

// Touch gives where the boxes of two boards meet.
func (w *Work) Touch(a, b string) geom.Box { return w.Part(a).Box().And(w.Part(b).Box()) }

// wallSkin is how much nearer to the face of a door a rack's screws come than others come to a face: half a millimetre
// (common practice, no source), so that they reach the half inch from which their strength in plywood is published.
const wallSkin = mm / 2

// OnWall screws a board flat to a board that bounds the space, the heads inside, at places
// in the case's frame on the side of the board away from that wall.
func (w *Work) OnWall(local string, d geom.Dir, at []geom.Vec) {
	q := w.Part(local)
	wall := w.Space.Walls[d]
	t := q.Box().Size().At(d.Axis())
	h, ok := w.Shop.ScrewFor("wood", t, wall.Thickness+wallSkin)
	if !ok {
		w.Say(joinery.NoScrew, finding.Warning, fmt.Sprintf("no wood screw longer than %s and at most %s holds %s on %s", w.Text(t), w.Text(t+wall.Thickness+wallSkin-4*mm), w.Text(t), w.Text(wall.Thickness)), "add one to hardware, with its use and length")
	}
	bit := func(d L) (string, L) {
		tool, dia, ok := w.Shop.Pilot(d)
		if !ok {
			w.Say(joinery.NoBit, finding.Warning, fmt.Sprintf("no %s for the rack's screws is owned", tool), "add it to the practice's bits")
		}
		return tool, dia
	}
	tool, dia := bit(cmp.Or(h.Clearance, 4500*length.MM/1000))
	ptool, pilot := bit(cmp.Or(h.Pilot, 3*mm))
	deep := joinery.Blind(max(h.Length-t+mm, 8*mm), wall.Thickness, 3*mm)
	f := q.Facing(d.Not())
	box := q.Box()
	plane := box.Min.At(d.Axis())
	if d.Sign() > 0 {
		plane = box.Max.At(d.Axis())
	}
	for _, v := range at {
		q.Bore(part.Hole, f, v, dia, t, tool, "wood screw")
		w.Result.Bores = append(w.Result.Bores, fitting.Bore{Wall: d, Kind: part.Hole, At: v.With(d.Axis(), plane), Dia: pilot, Depth: deep, Tool: ptool, For: "rack screw"})
	}
	c := box
	c.Min, c.Max = c.Min.With(d.Axis(), plane), c.Max.With(d.Axis(), plane)
	id := cmp.Or(h.ID, "wood-screw")
	w.Result.Joints = append(w.Result.Joints, part.Joint{Kind: part.WoodScrew, A: wall.Part, B: local, Contact: c, Fastener: id, Count: len(at)})
	w.Result.Hardware = append(w.Result.Hardware, part.Item{ID: id, Kind: "screw", Count: len(at), Length: h.Length, For: "racks"})
}

// Borer gives the smallest bit or hole saw of the shop that makes a hole for something of a
// diameter with room around it; false, and a finding with the nearest one owned, when there is
// none.
func (w *Work) Borer(dia, room L) (tool string, hole L, ok bool) {
	least, nearest := dia+room, L(0)
	p := w.Env.Practice
	for _, list := range [][]L{p.Bits, p.HoleSaws} {
		for _, b := range list {
			if b >= least && (hole == 0 || b < hole) {
				hole = b
			}
			if (b - least).Abs() < (nearest - least).Abs() {
				nearest = b
			}
		}
	}
	if hole == 0 {
		text := fmt.Sprintf("no bit or hole saw of %s or more is owned for %s across", w.Text(least), w.Text(dia))
		if nearest > 0 {
			text += fmt.Sprintf(": the nearest is %s", w.Text(nearest))
		}
		w.Say(joinery.NoBit, finding.Warning, text+": nothing is bored", fmt.Sprintf("add a hole saw of %s to the practice's hole saws", w.Text(least)))
		return "", 0, false
	}
	if hole > dia+looseMost {
		w.Say(Loose, finding.Note, fmt.Sprintf("the smallest hole for %s that the shop bores is %s across: things will lean", w.Text(dia), w.Text(hole)), fmt.Sprintf("own a hole saw nearer to %s", w.Text(least)))
	}
	tool, _ = w.Shop.Bit(hole)
	return tool, hole, true
}

// Web is the least wood between two bored holes and between a hole and an edge.
func (w *Work) Web() L { return web(w.Env) }

func web(env fitting.Env) L { return max(env.Practice.LeastMargin, 6*mm) }

// Holes bores a board that lies flat with holes for round things: within an area of its upper
// side, at most most, 0 for as many as go in. It gives the places for the things on a floor.
func (w *Work) Holes(local string, area geom.Box, floor, hole L, tool string, most int) []part.Place {
	size := area.Size()
	at := Lay(size.X, size.Y, hole, w.Web(), w.Web(), most).At
	q := w.Part(local)
	var places []part.Place
	flip := len(w.Space.Doors) == 1 && w.Space.Doors[0].Hinge == geom.Right
	for _, p := range at {
		if flip {
			p.X = size.X - p.X
		}
		v := geom.V(area.Min.X+p.X, area.Min.Y+p.Y, q.Box().Max.Z)
		q.Bore(part.Hole, q.Facing(geom.Up), v, hole, q.Size[2], tool, part.BoredPlace)
		v.Z = floor
		places = append(places, part.Place{At: v, Dia: hole})
	}
	if len(at) == 0 || len(at) < most {
		w.Say(Fewer, finding.Warning, fmt.Sprintf("%d holes of %s were asked for and %d go in %s by %s", max(most, 1), w.Text(hole), len(at), w.Text(size.X), w.Text(size.Y)), "ask for fewer, or more room")
	}
	return places
}
