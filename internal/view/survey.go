package view

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/part"
)

// surveyed gives what was measured at the wall, a line each: openings, what is kept clear, what stands out from it and what
// stands there already, from where to where along it and up; and the heights of the floor. Places along are from the wall's left end, heights
// from the floor there.
func (c Scene) surveyed() (lines []string) {
	w := c.Wall
	in := func(l L) string { return strings.Replace(c.Unit.Mark(l), draw.More, "", 1) }
	place := func(id string, b Box, up, out string) {
		along := in(max(b.Min.X, 0)) + " to " + in(min(b.Max.X, w.Length)) + " along"
		if b.Min.X <= 0 && b.Max.X >= w.Length {
			along = "all along"
		}
		lines = append(lines, fmt.Sprintf("%s: %s, %s to %s %s%s", id, along, in(b.Min.Z), in(b.Max.Z), up, out))
	}
	within := func(b Box) Box {
		b.Min.Z, b.Max.Z = max(b.Min.Z, c.bottom()), min(b.Max.Z, c.top())
		return b
	}
	for _, list := range [][]Area{w.Openings, w.Clear} {
		for _, a := range list {
			place(a.ID, within(a.Box), "up", "")
		}
	}
	told := ""
	for _, a := range w.Obstacles {
		if a.ID == told {
			continue
		}
		told = a.ID
		out := ""
		if a.Whole.Min.Y < 0 {
			out = ", " + in(-a.Whole.Min.Y) + " out"
		}
		if a.Follows {
			place(a.ID, a.Whole, "over the floor", out)
		} else {
			place(a.ID, within(a.Whole), "up", out)
		}
	}
	for _, o := range c.onWall() {
		if o.Standing {
			place(Code(c.Assembly, o.ID)+" (standing)", within(o.Box), "up", ", "+in(-o.Box.Min.Y)+" out")
		}
	}
	floor := func(where string, line []At) {
		var list []string
		flat := true
		for i, p := range line {
			flat = flat && p.Z == 0
			t := in(p.Z) + " at " + in(p.X)
			if i > 0 && line[i-1].X == p.X {
				t = "a step to " + in(p.Z) + " there"
			}
			list = append(list, t)
		}
		for n := 0; n < len(list) && !flat; n += 3 { // a line each three
			t := strings.Join(list[n:min(n+3, len(list))], ", ")
			if n == 0 {
				t = where + ": " + t
			} else {
				t = where + ", then " + t
			}
			lines = append(lines, t)
		}
	}
	floor("floor at the wall", w.Floor)
	floor("floor "+in(w.Out)+" out", w.FloorOut)
	return lines
}

// inRoom gives where things stand in the room before the wall, a line each.
func (c Scene) inRoom() (lines []string) {
	in := func(l L) string { return strings.Replace(c.Unit.Mark(l), draw.More, "", 1) }
	for _, t := range c.Wall.Things {
		lines = append(lines, fmt.Sprintf("%s: %s to %s along, %s to %s from the wall", t.ID, in(t.Box.Min.X), in(t.Box.Max.X), in(-t.Box.Max.Y), in(-t.Box.Min.Y)))
	}
	return lines
}

// shows says how the plan shows what it has: doors, what slides out, what hangs.
func (c Scene) shows() string {
	var list []string
	has := func(kinds ...part.MotionKind) bool {
		return slices.ContainsFunc(c.motions(), func(m part.Motion) bool { return slices.Contains(kinds, m.Kind) && m.Needs == "" })
	}
	if has(part.Swing) {
		list = append(list, "doors open")
	}
	if has(part.Slide, part.Roll) {
		list = append(list, "drawers out")
	}
	t := strings.Join(list, ", ")
	if slices.ContainsFunc(c.onWall(), func(o part.Owner) bool { return o.Hung && o.Kind != "filler" }) {
		if t != "" {
			t += "; "
		}
		t += "dashed: hung above"
	}
	if t == "" {
		return ""
	}
	return ": " + t
}
