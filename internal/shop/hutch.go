package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// standUp puts the frame of a hook board in its place: its board is not on it yet, so that every screw to the
// wall and to the counter is reached from the front. The board goes on last, and what is fixed to it.
func (s *steps) standUp(o part.Owner) {
	name := s.called(o)
	on := ""
	down := s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToCase && f.Row == "counter" })
	for _, f := range down {
		on = s.under(o, f)
	}
	list := s.fixings(o, toRoom)
	where := fmt.Sprintf("left end %s, lower side %s up%s", s.along(o, o.Box.Min.X), s.in(o.Box.Min.Z), s.fromWall(o, o.Box, o.Box.Min.Z, " at its foot"))
	for _, c := range s.owners("counter") {
		if len(down) > 0 && c.ID == on && len(list) == 0 {
			where = s.onCounter(o, c)
		}
	}
	text := fmt.Sprintf("Put the frame of %s (%s with its board) in its place, %s.", name, s.weight(o), where)
	tool := "drill, driver bits, level, tape"
	fits := s.take(o.ID, func(h part.Item) bool { return h.For == part.HutchToCounter })
	if len(down) > 0 {
		told, tools := s.downInto(o, down, on)
		text, tool = text+told, tool+tools
	}
	s.packBehind(o, list)
	points, more := s.driven(o, list)
	c := s.tooHeavy(o)
	if len(points) > 0 {
		over := "the rail"
		if boards(list[0])[0] == "the spacer" {
			over = "the spacer"
		}
		flat, deep := s.headRecess(list)
		middle := "before any other hole; its point leaves the middle for the other bits"
		if slices.ContainsFunc(list, part.Fixing.AtBench) {
			middle = "a tight bit of dowel in the hole that is there gives its point wood"
		}
		text += fmt.Sprintf(" Fix it to the wall. The board goes over the heads: bore a recess into %s for each with the %s, %s deep or as deep as the head is high (measure one first: where its head is wider, take the next wider bit), %s.", over, flat, s.in(deep), middle) + s.marked(list, "", "Take it away", "Stand it there again") + s.pilots(list)
		beside, long := s.besideSide(o, slices.DeleteFunc(slices.Clone(list), anchored))
		text += beside
		tool += ", " + flat + s.roomBits(list) + long
		c += wall
	} else {
		c += leaned
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: tool, Text: text, Points: points, Fits: append(fits, more...), Caution: c})
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role != part.HookBoard {
			continue
		}
		lit := slices.ContainsFunc(p.Ops, func(h part.Op) bool { return h.For == part.LightCable })
		if lit {
			s.wire(o, *p)
		}
		w := s.maker(o, name, Install)
		var js []part.Joint
		for _, j := range w.own.Joints {
			if j.A == p.Mark || j.B == p.Mark {
				js = append(js, j)
			}
		}
		st := Step{Parts: append([]string{p.Mark}, w.across(js, p.Mark)...), New: []string{p.Mark}, Tool: w.driver(js)}
		w.fits(&st, js)
		st.Text, st.Points = w.join(*p, js)
		w.step(st)
		s.hooks(o)
		if lit {
			s.light(o, *p)
		}
	}
}

// onCounter says where a hook board that no wall holds stands on its counter: by the counter's own edges, which are there
// to be measured from, whatever the wall does behind them.
func (s *steps) onCounter(o, c part.Owner) string {
	name := s.called(c)
	from := func(d length.Length, it, edge, in, out string) string {
		switch {
		case d.Abs() < length.MM/10:
			return fmt.Sprintf("%s flush with %s", it, edge)
		case d > 0:
			return fmt.Sprintf("%s %s %s %s", it, s.in(d), in, edge)
		}
		return fmt.Sprintf("%s %s %s %s", it, s.in(-d), out, edge)
	}
	return fmt.Sprintf("on %s, %s, %s", name,
		from(o.Box.Min.X-c.Box.Min.X, "its left end", "the left end of that", "to the right of", "to the left of"),
		from(c.Box.Max.Y-o.Box.Max.Y, "its rear", "its rear edge", "in front of", "behind"))
}

// headRecess gives the bit for the recesses of the heads of wall screws which a board goes over, and how deep they are: common practice, no source, for a head no higher than two fifths of its width.
func (s *steps) headRecess(list []part.Fixing) (bit string, deep length.Length) {
	head := length.Length(0)
	for _, f := range list {
		h, _ := s.Catalogue.Item(f.Screw)
		head = max(head, cmp.Or(h.Head, 2*h.Dia))
	}
	step := s.step(2*length.MM, length.Inch/16)
	return s.in((head + step/2).Up(step)) + " flat bit", (head * 2 / 5).Up(s.easy())
}

// wire leads the cable of a light behind a hook board before that is screwed on.
func (s *steps) wire(o part.Owner, board part.Part) {
	out := "along its edge, with clips: nothing leads it out behind the board"
	marks := []string{board.Mark}
	for _, p := range s.whose.Of(o.ID).Parts {
		switch {
		case p.Role == part.Frame && slices.ContainsFunc(p.Ops, func(h part.Op) bool { return h.For == part.LightCable }):
			out = fmt.Sprintf("along behind it, and out through the groove in %s (%s), on the side of the outlet", p.Name, p.Mark)
			marks = append(marks, p.Mark)
		case p.Role == part.Spacer:
			out = "along behind it, and out between the board and the upright, where the spacers leave room"
		}
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "tape", Parts: marks,
		Text: fmt.Sprintf("Before %s (%s) is screwed on: lay the cable of its light into the slot in it from the upper edge, the light before the board and the plug behind it (no plug goes through the slot), %s. Leave as much in front as reaches the light's place along the upper rail, and see that the rest reaches the outlet.", board.Name, board.Mark, out)})
}

// light screws a light on the board, into the rail behind.
func (s *steps) light(o part.Owner, board part.Part) {
	lights := s.take(o.ID, func(h part.Item) bool { return h.For == part.LightOnBoard })
	var rail part.Part
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role == part.HangRail && (rail.Mark == "" || p.Box().Min.Z > rail.Box().Min.Z) {
			rail = *p
		}
	}
	b := rail.Box()
	line := b.Min.Z + (b.Max.Z-b.Min.Z)/4 // below those of the board and the wall, which are about the middle
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, tape", Parts: []string{board.Mark, rail.Mark}, Fits: lights, Caution: wires,
		Text: fmt.Sprintf("Screw the light of %s (%s) to the face of %s (%s), along its upper edge, in the middle of its length, with screws that go through the board into %s (%s) behind it: their line %s up, %s above the board's lower edge, clear of the screws that are there, and no longer than %s under the light, or they come out behind.",
			s.called(o), cmp.Or(s.things(lights), "not on the shopping list"), board.Name, board.Mark, rail.Name, rail.Mark, s.in(line), s.in(line-board.Box().Min.Z), s.in((b.Max.Y - board.Box().Min.Y - length.MM).Down(s.easy())))})
}

// wires is the caution beside what is wired.
const wires = "A light that plugs in only: leave fixed wiring to the licensed, and unplug it while you work."

// downInto tells the screws from a hook board's frame down into its counter, those of its feet by themselves, and
// the tools for them. The holes in the counter are bored when the frame is off it: through the frame an ordinary
// bit does not reach.
func (s *steps) downInto(o part.Owner, list []part.Fixing, on string) (text, tools string) {
	type kind struct {
		screw string
		feet  bool
	}
	count := map[kind]int{}
	deep := map[string]length.Length{}
	var order []kind
	braced := false
	for _, f := range list {
		k := kind{f.Screw, s.parts[f.Part].Role == part.Frame}
		if count[k] == 0 {
			order = append(order, k)
		}
		count[k]++
		deep[f.Screw] = max(deep[f.Screw], f.Into)
		braced = braced || k.feet
	}
	js := s.joiner()
	var out, pilots []string
	clear, least := "", length.Length(0)
	for _, k := range order {
		where := "down through the holes in its lowest rail"
		if k.feet {
			where = "down through those in its feet"
		}
		out = append(out, fmt.Sprintf("%d × %s %s", count[k], s.fastener(k.screw), where))
		if h, ok := s.Catalogue.Item(k.screw); ok && h.Pilot > 0 {
			clear, _, _ = js.Pilot(cmp.Or(h.Clearance, h.Dia))
			pilot, _, _ := js.Pilot(h.Pilot)
			if pilot = "the " + pilot; !slices.Contains(pilots, pilot) {
				pilots = append(pilots, pilot)
			}
			if d := deep[k.screw]; least == 0 || d < least {
				least = d
			}
		}
		if t := s.bits(k.screw); !strings.Contains(tools, t) {
			tools += t
		}
	}
	if clear != "" {
		text = fmt.Sprintf(" Mark %s through its holes with the tip of the %s, take the frame off again and bore at the marks with %s, %s deep; set it back.", on, clear, and(pilots), s.in(least.Down(s.easy())))
	}
	text += fmt.Sprintf(" Screw it with %s: %d into %s.", and(out), len(list), on)
	for _, k := range order {
		if t := s.sink(k.screw); t != "" {
			text, tools = text+t, tools+", countersink"
			break
		}
	}
	if braced {
		text += " Those in its feet stand close beside its braces: drive them with a long driver bit."
		tools += ", " + longBit
		for _, f := range list {
			foot := s.parts[f.Part]
			if foot.Role != part.Frame {
				continue
			}
			drill := []chuck{chuckAt(f.At, geom.Up, foot.Box().Max.Z)}
			for _, p := range s.whose.Of(o.ID).Parts {
				if p.Mark != f.Part {
					s.far(longBit, beyond(drill, p.Solid()))
				}
			}
		}
	}
	if o.Wall != "" && o.Box.Max.Y > -drillHalf/2 {
		text += " So near a wall the drill does not stand upright: lean it a little into the room."
	}
	return text, tools
}

// hooks puts on the hooks for what hangs on a board.
func (s *steps) hooks(o part.Owner) {
	fits := s.take(o.ID, func(h part.Item) bool { return h.For == part.HangsOnBoard })
	if len(fits) == 0 {
		return
	}
	var board part.Part
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role == part.HookBoard {
			board = *p
		}
	}
	st := Step{Phase: Install, Owner: o.ID, Tool: "hand", Parts: []string{board.Mark}, Fits: fits,
		Text: fmt.Sprintf("Put the hooks on %s (%s) where they are wanted: %s, one for each thing that is to hang there.", board.Name, board.Mark, s.things(fits))}
	if len(fits) > 1 {
		js := s.joiner()
		h, _ := s.Catalogue.Item(fits[1].ID)
		pilot, _, _ := js.Pilot(cmp.Or(h.Pilot, h.Root))
		st.Tool = "drill, driver bits, " + pilot
		st.Text += fmt.Sprintf(" Bore for their screws through the board with the %s; the points stand in the air behind it.", pilot)
	}
	s.add(st)
}
