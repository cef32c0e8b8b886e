package shop

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"stowright/internal/length"
	"stowright/internal/part"
)

// Edges are banded, eased and sanded, and faces finished, at their time: thick edging before
// boring, which is measured over it; thin edging, easing, sanding and the inside before the boards
// are put together; the outside after that, and before any hardware goes on.

// edging lists the edges to band by what goes on: "front edge: A.left, A.right". Only thick edging
// that the sawn size is less by, or only the other.
func (s *steps) banding(parts []part.Part, deduct bool) (names, points, marks []string) {
	by := map[string][]string{}
	var order []string
	for _, p := range parts {
		var on []string
		name, called := "", s.around.Called(p)
		for i, b := range p.Bands {
			if b.Edging != "" && b.Deduct == deduct {
				on = append(on, called[int(part.Start)+i])
				sort.SliceStable(on, func(a, b int) bool { return on[a] < on[b] })
				name = s.edging(b.Edging)
			}
		}
		if len(on) == 0 {
			continue
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
		k := strings.Join(on, ", ")
		if len(on) == 4 {
			k = "all round"
		}
		if by[k] == nil {
			order = append(order, k)
		}
		by[k] = append(by[k], p.Mark)
		marks = append(marks, p.Mark)
	}
	for _, k := range order {
		points = append(points, k+": "+strings.Join(by[k], ", "))
	}
	return names, points, marks
}

// edge bands edges with what boards are sawn smaller by, before they are bored.
func (s *steps) edge() {
	names, points, marks := s.banding(s.Assembly.Parts, true)
	if len(names) == 0 {
		return
	}
	glue := ""
	if strings.Contains(s.edger(s.Assembly.Parts, true), "clamps") {
		glue = " Glue it on with what its maker names, clamped under a batten or pressed on as that asks."
	}
	s.add(Step{Phase: Saw, Tool: s.edger(s.Assembly.Parts, true) + ", edge trimmer", Parts: marks, Points: points,
		Text: fmt.Sprintf("Put edging (%s) on these edges before anything is bored: the boards are sawn smaller by it, %s on every edge that has it, and finished sizes and all places are measured over it.%s Trim it flush.", and(names), s.edgingThick(s.Assembly.Parts, true), glue)})
}

// edger names what edging is put on with: thin edging is ironed on, thick is glued (common practice,
// no source).
func (s *steps) edger(parts []part.Part, deduct bool) string {
	var thin, thick bool
	for _, p := range parts {
		for _, b := range p.Bands {
			if b.Edging != "" && b.Deduct == deduct {
				thin, thick = thin || b.Thickness < ironed, thick || b.Thickness >= ironed
			}
		}
	}
	switch {
	case thin && thick:
		return "iron, clamps"
	case thin:
		return "iron"
	}
	return "clamps"
}

// ironed is the thickness from which edging is too stiff to be ironed on.
const ironed = 8 * length.MM / 10

// ready bands, eases and sands the boards of an owner, and finishes what lies inside.
func (w *maker) ready(own []part.Part) {
	made := slices.DeleteFunc(slices.Clone(own), func(p part.Part) bool { return p.Material == part.Bought })
	if len(made) == 0 {
		return
	}
	names, points, marks := w.banding(made, false)
	if cut := w.throughEdging(made); len(cut) > 0 {
		points = append(points, "Cut it out again where it lies over a notch or the end of a groove: "+strings.Join(cut, ", "))
	}
	if len(names) > 0 {
		w.step(Step{Phase: Ready, Tool: w.edger(made, false) + ", edge trimmer", Parts: marks, Points: points,
			Text: fmt.Sprintf("Put edging (%s) on these edges, trim it flush and sand its corners round%s.", and(names), w.uncountedEdging(made))})
	}
	var all, glued, loose []string
	for _, p := range made {
		all = append(all, p.Mark)
		if slices.ContainsFunc(w.own.Joints, func(j part.Joint) bool { return j.Glue && (j.A == p.Mark || j.B == p.Mark) }) {
			glued = append(glued, p.Mark)
		}
		if p.Removable || p.Role == part.Door || p.Role == part.DrawerFront || p.Role == part.FalseFront {
			loose = append(loose, p.Mark)
		}
	}
	w.step(Step{Phase: Ready, Tool: "sander, sandpaper", Parts: all, Caution: "Wear a dust mask.",
		Text: w.sanding(made)})
	if w.Practice.Finish == "" || w.owner.Kind == "base" || w.owner.Kind != "case" && len(glued) > 0 {
		return // what has no inside is finished when it is together
	}
	text := fmt.Sprintf("Finish while the boards lie flat, %d coats of %s: ", w.coats(), w.varnish())
	inside := "the faces that lie inside"
	if slices.ContainsFunc(made, func(p part.Part) bool { return p.Role == part.BoxSide }) {
		inside += ", in the drawers too"
	}
	if slices.ContainsFunc(made, func(p part.Part) bool { return p.Role == part.BackPanel }) {
		inside += ", the front of the back"
	}
	var whole []string // what shows all round
	if len(loose) > 0 {
		whole = append(whole, brief(loose))
	}
	for _, x := range []struct {
		role part.Role
		what string
	}{{part.RackSide, "the boards of the racks"}, {part.TrayBase, "the boards of the trays"}} {
		if slices.ContainsFunc(made, func(p part.Part) bool { return p.Role == x.role }) {
			whole = append(whole, x.what)
		}
	}
	switch {
	case len(glued) == 0:
		text += "both faces and all edges."
	case len(whole) > 0:
		text += inside + fmt.Sprintf(", and both faces and all edges of %s. First mask the glue faces with tape: the ends and edges that the steps below glue, the places where they meet other boards%s.", and(whole), w.grooved(made))
	default:
		text += inside + fmt.Sprintf(". First mask the glue faces with tape: the ends and edges that the steps below glue, the places where they meet other boards%s.", w.grooved(made))
	}
	w.step(Step{Phase: Ready, Tool: "brush, masking tape", Parts: all, Caution: wet, Text: text + " Let each coat dry as its can says, and sand lightly between them."})
}

// throughEdging gives the parts that are worked through an edge on which edging goes later.
func (w *maker) throughEdging(made []part.Part) (marks []string) {
	for _, p := range made {
		if slices.ContainsFunc(p.Ops, func(o part.Op) bool {
			switch o.Kind {
			case part.Notch, part.Groove, part.Rabbet:
			default:
				return false
			}
			r := o.Removed(p.Size)
			at := [...]bool{r.Min.X <= 0, r.Max.X >= p.Size[0], r.Min.Y <= 0, r.Max.Y >= p.Size[1]} // of the start, end, near and far edge
			for i, b := range p.Bands {
				if b.Edging != "" && !b.Deduct && at[i] {
					return true
				}
			}
			return false
		}) {
			marks = append(marks, p.Mark)
		}
	}
	return marks
}

// grooved adds what goes into grooves to what is masked, where any board has one.
func (w *maker) grooved(made []part.Part) string {
	if slices.ContainsFunc(made, func(p part.Part) bool {
		return slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Kind == part.Groove || o.Kind == part.Rabbet })
	}) {
		return ", and what goes into grooves"
	}
	return ""
}

// sanding says what is eased and sanded before boards are put together.
func (w *maker) sanding(made []part.Part) string {
	ease := w.coarse(length.MM, length.Inch/32)
	if w.owner.Kind == "base" {
		t := "try the parts together dry, on a flat floor where it can lie at its full length. Take off splinters; nothing else is sanded, nobody sees it."
		if w.treated(made) {
			t += " Its wood is treated: all screws that go into it, those of the cases too, are stainless or coated for treated wood; plain ones rust in it."
		}
		return t
	}
	t := "try the parts together dry."
	if w.owner.Kind == "case" && w.owner.Wall == "" && !w.owner.Hung && !w.owner.Moves {
		t += " Where a skirting board will be behind the case, saw its shape out of the lower rear corners of the sides now."
	}
	t += " Ease the bare edges that hands touch by " + ease
	if slices.ContainsFunc(made, func(p part.Part) bool {
		return slices.ContainsFunc(p.Bands[:], func(b part.Band) bool { return b.Edging != "" })
	}) {
		t += ", edging no more than its corners"
	}
	return t + ", and sand faces through 120 to 180 grit with the grain; leave joint faces as they are."
}

// treated reports whether any of some parts is of preservative-treated wood.
func (s *steps) treated(parts []part.Part) bool {
	return slices.ContainsFunc(parts, func(p part.Part) bool { return s.Catalogue.Treated(p.Stock) })
}

// edgingThick says how thick edging is, that which boards are sawn smaller by or the other.
func (s *steps) edgingThick(parts []part.Part, deduct bool) string {
	var list []string
	for _, p := range parts {
		for _, b := range p.Bands {
			if t := s.size(b.Thickness); b.Edging != "" && b.Deduct == deduct && b.Thickness > 0 && !slices.Contains(list, t) {
				list = append(list, t)
			}
		}
	}
	return and(list)
}

// uncountedEdging says what thin edging means for sizes.
func (w *maker) uncountedEdging(made []part.Part) string {
	t := w.edgingThick(made, false)
	if t == "" {
		t = "thin"
	} else {
		t += " thick"
	}
	return "; it is " + t + " and lies on edges that nothing is fitted to: there sawn and finished sizes are one, and places are measured from the bare edge"
}

// finish gives the outside its coats once it is put together, before hardware goes on.
func (w *maker) finish(own []part.Part) {
	if w.Practice.Finish == "" || w.owner.Kind == "base" || !slices.ContainsFunc(own, func(p part.Part) bool {
		return p.Material != part.Bought && slices.ContainsFunc(w.own.Joints, func(j part.Joint) bool { return j.Glue && (j.A == p.Mark || j.B == p.Mark) })
	}) {
		return
	}
	where := "sand the outside, and give it, with the front edges and the rear of the back,"
	if w.owner.Kind != "case" {
		where = "sand it, and give all its sides, the underside too,"
	}
	if i := slices.IndexFunc(own, func(p part.Part) bool { return p.Role == part.HookBoard }); w.owner.Kind == "hutch" && i >= 0 {
		where = fmt.Sprintf("sand it, and give all its sides, and both faces and all edges of %s (%s), which goes on last,", own[i].Name, own[i].Mark)
	}
	w.step(Step{Phase: Finish, Tool: "scraper, sander, sandpaper, brush", Caution: wet,
		Text: fmt.Sprintf("Scrape off glue that came out, %s %d coats of %s. Let each dry and the last harden as its can says, before hardware goes on or anything stands on it.", where, w.coats(), w.varnish())})
}

func (w *maker) coats() int {
	if w.owner.Kind == "counter" {
		return w.Practice.CoatsTop
	}
	return w.Practice.Coats
}

// varnish names the finish without the size of its can.
func (w *maker) varnish() string {
	n, _, _ := strings.Cut(w.fastener(w.Practice.Finish), ",")
	return n
}

// brief lists marks, those of one owner under its code once: "A.left, right, 1bottom".
func brief(marks []string) string {
	var out []string
	last := ""
	for _, m := range marks {
		code, rest, ok := strings.Cut(m, ".")
		if ok && code == last {
			out = append(out, rest)
			continue
		}
		last = code
		out = append(out, m)
	}
	return strings.Join(out, ", ")
}

const wet = rags + " Ventilate; no flames or sparks while it dries."

func (s *steps) edging(id string) string {
	if id == "" {
		return ""
	}
	for _, e := range s.Catalogue.Edgings {
		if e.ID == id {
			if e.Name != "" {
				return e.Name
			}
		}
	}
	return id
}
