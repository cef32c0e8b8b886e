package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// order is the order in which boards of a carcass go together; common practice, no source.
func order() []part.Role {
	return []part.Role{part.CounterEdge, part.Side, part.Bottom, part.Partition, part.FixedShelf, part.Stretcher, part.Top,
		part.HangRail, part.Cleat, part.ToeBoard, part.Blocking, part.BackPanel, part.Spacer}
}

// rank places a part in that order. A back in grooves all round goes in before what closes it.
func (s *steps) rank(p part.Part) int {
	list := order()
	if p.Role == part.BackPanel {
		for _, j := range s.Assembly.Joints {
			if j.Kind != part.Loose || j.A != p.Mark && j.B != p.Mark {
				continue
			}
			for _, m := range []string{j.A, j.B} {
				if s.parts[m].Role == part.Top {
					return slices.Index(list, part.Top)*2 - 1
				}
			}
		}
	}
	if i := slices.Index(list, p.Role); i >= 0 {
		return i * 2
	}
	return len(list) * 2
}

// assemble derives the steps of one owner from its joints: the carcass in the order in which
// what is still open can be reached, squared; feet while it is upside down; then what moves,
// what is loose, and the fronts.
func (s *steps) assemble(o part.Owner) {
	var own []part.Part
	for _, p := range s.Assembly.Parts {
		if p.Owner == o.ID {
			own = append(own, p)
		}
	}
	if len(own) == 0 {
		return
	}
	name := cmp.Or(o.Name, o.ID)
	slices.SortStableFunc(own, func(a, b part.Part) int { return cmp.Compare(s.rank(a), s.rank(b)) })
	joined := s.carcass(o, name, own)
	if joined && o.Kind == "case" {
		c := o.Carcass.Size()
		s.add(Step{Phase: Assemble, Owner: o.ID, Tool: "tape", Text: fmt.Sprintf("%s: square it before the glue sets. Both diagonals of the face, %s by %s, should read %s; they may differ by 1.5 mm (1/16 in) at most, front and back (common practice). Push the longer one in by half of the difference.", name, s.in(c.X), s.in(c.Z), s.in(diagonal(c.X, c.Z)))})
	}
	s.feet(o, name)
	s.moving(o, name, own)
	var loose []string
	for _, p := range own {
		if p.Removable {
			loose = append(loose, p.Mark)
		}
	}
	if len(loose) > 0 {
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: loose, Text: fmt.Sprintf("%s: try the loose pieces in their places (%s).", name, strings.Join(s.names(loose), ", "))})
	}
	s.fronts(o, name)
}

// diagonal gives the diagonal of a by b to the nearest half millimetre.
func diagonal(a, b length.Length) length.Length {
	half := length.MM / 2
	return length.Length(math.Round(math.Hypot(float64(a), float64(b))/float64(half))) * half
}

// carcass brings in one board after the other; like boards that go in alike are one step.
func (s *steps) carcass(o part.Owner, name string, own []part.Part) (joined bool) {
	done := map[string]bool{}
	type step struct {
		role  part.Role
		how   string
		marks []string
		to    []string
	}
	var list []step
	for _, p := range own {
		if p.Moves != "" || p.Removable {
			continue
		}
		done[p.Mark] = true
		var js []part.Joint
		for _, j := range s.Assembly.Joints {
			if (j.A == p.Mark && done[j.B] || j.B == p.Mark && done[j.A]) && s.parts[j.A].Moves == "" && s.parts[j.B].Moves == "" {
				js = append(js, j)
			}
		}
		if len(js) == 0 {
			continue
		}
		to := s.otherMarks(js, p.Mark)
		how := s.how(js)
		if n := len(list); n > 0 && list[n-1].role == p.Role && list[n-1].how == how && !meets(to, list[n-1].marks) {
			list[n-1].marks = append(list[n-1].marks, p.Mark)
			for _, m := range to {
				if !slices.Contains(list[n-1].to, m) {
					list[n-1].to = append(list[n-1].to, m)
				}
			}
			continue
		}
		list = append(list, step{p.Role, how, []string{p.Mark}, to})
	}
	for _, x := range list {
		what := s.called(x.marks)
		each := ""
		if len(x.marks) > 1 {
			each = " Each: " + strings.ToLower(x.how[:1]) + x.how[1:]
		} else {
			each = " " + x.how
		}
		text := fmt.Sprintf("%s: bring in %s to %s.%s", name, what, s.called(x.to), each)
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: append(slices.Clone(x.marks), x.to...), Text: text, Tool: "drill"})
	}
	return len(list) > 0
}

func meets(a, b []string) bool {
	return slices.ContainsFunc(a, func(m string) bool { return slices.Contains(b, m) })
}

// called names parts with their marks: "left side (A.left), right side (A.right)"; more than
// three of one name by their marks alone.
func (s *steps) called(marks []string) string {
	names := s.names(marks)
	if len(marks) > 3 && len(names) < len(marks) {
		return fmt.Sprintf("%s (%s)", strings.Join(names, ", "), strings.Join(marks, ", "))
	}
	var out []string
	for _, m := range marks {
		out = append(out, fmt.Sprintf("%s (%s)", s.parts[m].Name, m))
	}
	return strings.Join(out, ", ")
}

// feet go on while the carcass is upside down.
func (s *steps) feet(o part.Owner, name string) {
	n, kind, id := 0, "", ""
	for _, f := range s.Assembly.Feet {
		if f.Owner == o.ID && f.Hardware != "" {
			n++
			kind, id = f.Kind, f.Hardware
		}
	}
	if n == 0 {
		return
	}
	s.add(Step{Phase: Assemble, Owner: o.ID, Tool: "drill", Text: fmt.Sprintf("%s: turn it upside down and set %s (%s) into the blocks or the bottom. Their heights are set when it stands in its place.", name, many(n, kind), s.fastener(id))})
}

// moving builds what moves: drawers, trays, racks on doors. Those that are built alike are one
// step.
func (s *steps) moving(o part.Owner, name string, own []part.Part) {
	type thing struct {
		marks []string
		front []string
	}
	list := map[string]*thing{}
	var ids []string
	for _, p := range own {
		if p.Moves == "" {
			continue
		}
		t := list[p.Moves]
		if t == nil {
			t = &thing{}
			list[p.Moves] = t
			ids = append(ids, p.Moves)
		}
		switch p.Role {
		case part.DrawerFront, part.Door, part.FalseFront:
			t.front = append(t.front, p.Mark)
		default:
			t.marks = append(t.marks, p.Mark)
		}
	}
	at := map[string]int{}
	var made []int
	for _, id := range ids {
		t := list[id]
		joints := s.joints(t.marks)
		if len(joints) == 0 {
			continue
		}
		var body geom.Box
		slide := false
		for _, m := range t.marks {
			body = body.Or(s.parts[m].Box())
			r := s.parts[m].Role
			slide = slide || r == part.BoxSide || r == part.TrayBase || r == part.BoxBottom
		}
		var names []string
		for _, m := range t.marks {
			if n := bare(s.parts[m].Name); !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
		text := fmt.Sprintf("build %s. %s", strings.Join(names, ", "), s.how(joints))
		z := body.Size()
		if slide {
			text += fmt.Sprintf(" Both diagonals, %s by %s, should read %s, and differ by 0.8 mm (1/32 in) at most; the bottom is the square.", s.in(z.X), s.in(z.Y), s.in(diagonal(z.X, z.Y)))
		}
		if i, ok := at[text]; ok {
			s.list[i].Parts = append(s.list[i].Parts, t.marks...)
			continue
		}
		at[text] = len(s.list)
		made = append(made, len(s.list))
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: t.marks, Text: text, Tool: "drill"})
	}
	for _, i := range made {
		st := &s.list[i]
		n := map[string]bool{}
		for _, m := range st.Parts {
			n[s.parts[m].Moves] = true
		}
		lead := ""
		if len(n) > 1 {
			lead = fmt.Sprintf("%d alike: ", len(n))
		}
		st.Text = name + ": " + lead + st.Text
	}
}

// bare is a name without its numbers.
func bare(name string) string {
	var out []string
	for _, w := range strings.Fields(name) {
		if strings.Trim(w, "0123456789") != "" {
			out = append(out, w)
		}
	}
	return strings.Join(out, " ")
}

func (s *steps) fronts(o part.Owner, name string) {
	var doors, drawers, fixed []string
	for _, f := range s.Assembly.Fronts {
		p := s.parts[f.Part]
		if p.Owner != o.ID {
			continue
		}
		switch f.Kind {
		case part.DoorFront:
			doors = append(doors, f.Part)
		case part.Drawer:
			drawers = append(drawers, f.Part)
		default:
			fixed = append(fixed, f.Part)
		}
	}
	lowest := func(list []string) {
		slices.SortStableFunc(list, func(a, b string) int {
			return cmp.Compare(s.parts[a].Box().Min.Z, s.parts[b].Box().Min.Z)
		})
	}
	gap := s.in(s.Practice.FrontGap)
	if s.slides(o) {
		s.add(Step{Phase: Assemble, Owner: o.ID, Tool: "drill", Caution: tips, Text: name + ": measure each opening at its front and its back before the slides go in, and pack out what is more than 0.8 mm (1/32 in) wide. Screw the slides on their lines of holes and hang the boxes."})
	}
	if len(drawers) > 0 {
		lowest(drawers)
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: drawers, Tool: "drill", Text: fmt.Sprintf("%s: set the fronts from the lowest up (%s) on spacers of %s, clamp, and screw them from inside.", name, strings.Join(drawers, ", "), gap)})
	}
	if len(fixed) > 0 {
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: fixed, Tool: "drill", Text: fmt.Sprintf("%s: screw on what does not open (%s), gaps of %s.", name, strings.Join(fixed, ", "), gap)})
	}
	if len(doors) > 0 {
		s.add(Step{Phase: Assemble, Owner: o.ID, Parts: doors, Tool: "drill", Text: fmt.Sprintf("%s: press the hinges into their cups, screw the plates on their holes, hang the doors (%s) and adjust them to gaps of %s.", name, strings.Join(doors, ", "), gap)})
	}
}

// slides tells whether an owner has boxes or trays on slides.
func (s *steps) slides(o part.Owner) bool {
	return slices.ContainsFunc(s.Assembly.Motions, func(m part.Motion) bool { return m.Owner == o.ID && m.Kind == part.Slide })
}

func (s *steps) joints(marks []string) []part.Joint {
	var out []part.Joint
	for _, j := range s.Assembly.Joints {
		if slices.Contains(marks, j.A) && slices.Contains(marks, j.B) {
			out = append(out, j)
		}
	}
	return out
}

func (s *steps) names(marks []string) []string {
	var out []string
	for _, m := range marks {
		if n := bare(s.parts[m].Name); !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

func (s *steps) otherMarks(js []part.Joint, mark string) []string {
	var out []string
	for _, j := range js {
		m := j.A
		if m == mark {
			m = j.B
		}
		if !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out
}

// how says how joints are made: "Glue and 12 pocket screws (…)".
func (s *steps) how(js []part.Joint) string {
	type kind struct {
		k    part.JointKind
		f    string
		glue bool
	}
	n := map[kind]int{}
	var order []kind
	for _, j := range js {
		k := kind{j.Kind, j.Fastener, j.Glue}
		if _, ok := n[k]; !ok {
			order = append(order, k)
		}
		n[k] += j.Count
	}
	var out []string
	for _, k := range order {
		w := ""
		switch {
		case k.k == part.GlueOnly:
			w = "glue and clamps"
		case k.k == part.Loose:
			w = "slid into its groove, no glue"
		case n[k] == 0:
			w = string(k.k)
		default:
			w = fmt.Sprintf("%d × %s", n[k], cmp.Or(s.fastener(k.f), string(k.k)))
		}
		if k.glue && k.k != part.GlueOnly {
			w = "glue and " + w
		}
		out = append(out, w)
	}
	t := strings.Join(out, "; ")
	if t == "" {
		return ""
	}
	return strings.ToUpper(t[:1]) + t[1:] + "."
}

func (s *steps) fastener(id string) string {
	h, ok := s.Catalogue.Item(id)
	if !ok {
		return id
	}
	return cmp.Or(h.Name, id)
}
