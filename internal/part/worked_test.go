package part_test

import (
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
)

// What meets what, worked out by hand in a board of 600 x 300 x 18 mm.
func TestWorkingsMeet(t *testing.T) {
	mm := length.MM
	size := [3]length.Length{600 * mm, 300 * mm, 18 * mm}
	hole := func(f part.Face, x, y, dia, deep length.Length) part.Op {
		return part.Op{Kind: part.Hole, Face: f, X: x * mm, Y: y * mm, Dia: dia * mm, Depth: deep * mm}
	}
	pocket := func(to part.Face, x, y length.Length) part.Op {
		return part.Op{Kind: part.Pocket, Face: part.Lower, X: x * mm, Y: y * mm, Dia: 9 * mm, Depth: 12 * mm, Towards: to}
	}
	for _, c := range []struct {
		name string
		a, b part.Op
		want bool
	}{
		{"opposite, 10 + 10 in 18", hole(part.Upper, 50, 50, 5, 10), hole(part.Lower, 50, 50, 5, 10), true},
		{"opposite, 8 + 8 in 18", hole(part.Upper, 50, 50, 5, 8), hole(part.Lower, 50, 50, 5, 8), false},
		{"beside each other", hole(part.Upper, 50, 50, 5, 10), hole(part.Upper, 56, 50, 5, 10), false},
		{"corners of boxes only", hole(part.Upper, 50, 50, 6, 18), hole(part.Upper, 55, 55, 6, 18), false},
		{"dowel under a shallow hole", hole(part.Start, 50, 9, 8, 30), hole(part.Upper, 20, 50, 5, 4), false},
		{"dowel under a deep one", hole(part.Start, 50, 9, 8, 30), hole(part.Upper, 20, 50, 5, 8), true},
		{"pockets of an end and an edge that cross, 2 3/4 in long in 3/4 in", pocket(part.Start, 0, 12), pocket(part.Near, 60, 0), true},
		{"the same past it", pocket(part.Start, 0, 12), pocket(part.Near, 76, 0), false},
		{"groove in what a notch takes", part.Op{Kind: part.Groove, Y: 280 * mm, L: 600 * mm, W: 5 * mm, Depth: 6 * mm}, part.Op{Kind: part.Notch, Y: 275 * mm, L: 300 * mm, W: 25 * mm, Depth: 18 * mm}, true},
		{"grooves that cross", part.Op{Kind: part.Groove, Y: 280 * mm, L: 600 * mm, W: 5 * mm, Depth: 6 * mm}, part.Op{Kind: part.Groove, X: 10 * mm, L: 5 * mm, W: 300 * mm, Depth: 6 * mm}, false},
	} {
		if got := c.a.Meets(c.b, size, 0); got != c.want || c.b.Meets(c.a, size, 0) != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
	if got := part.OppositeDepth(length.Inch*715/1000, length.Inch/32); got != length.Inch*5/16 {
		t.Errorf("opposite holes in 0.715 in: %v", got)
	}
}

// A hole is the round end of a notch only where it is as wide, for the same, and in its middle.
func TestAHoleEndsItsNotch(t *testing.T) {
	const mm = part.L(40_000)
	size := [3]part.L{400 * mm, 300 * mm, 6 * mm}
	notch := part.Op{Kind: part.Notch, Face: part.Upper, X: 90 * mm, Y: 250 * mm, L: 20 * mm, W: 50 * mm, Depth: 6 * mm, For: "cable"}
	hole := part.Op{Kind: part.Hole, Face: part.Upper, X: 100 * mm, Y: 250 * mm, Dia: 20 * mm, Depth: 6 * mm, For: "cable"}
	if notch.Meets(hole, size, 0) || hole.Meets(notch, size, mm) {
		t.Error("the hole at its end meets it")
	}
	for name, o := range map[string]func(o *part.Op){"off its middle": func(o *part.Op) { o.X += mm }, "in it": func(o *part.Op) { o.Y += 9 * mm }, "wider": func(o *part.Op) { o.Dia += mm }, "for something else": func(o *part.Op) { o.For = "screw" }} {
		q := hole
		if o(&q); !notch.Meets(q, size, 0) {
			t.Errorf("a hole %s does not meet it", name)
		}
	}
}
