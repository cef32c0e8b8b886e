package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// blocked gives a sentence for every hole for a handle or a lock of which either side is covered
// by a board that moves with it and has no hole there itself: its bolt cannot be put in or turned.
func blocked(a part.Assembly) (bad []string) {
	const reach = 25 * length.MM
	for _, p := range a.Parts {
		for _, o := range p.Ops {
			if o.Kind != part.Hole || o.For != "handle" && o.For != "lock" {
				continue
			}
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			way := p.Pose.Dir(o.Face.Normal())
			thick := p.Size[2]
			lo, hi := at.Add(way.Vec(-thick-reach)), at.Add(way.Vec(reach))
			room := geom.Box{Min: lo, Max: lo}
			for i := range 3 {
				room.Min, room.Max = room.Min.With(i, min(lo.At(i), hi.At(i))), room.Max.With(i, max(lo.At(i), hi.At(i)))
				if i != way.Axis() {
					room.Min, room.Max = room.Min.With(i, at.At(i)-o.Dia/2), room.Max.With(i, at.At(i)+o.Dia/2)
				}
			}
			for _, q := range a.Parts {
				if q.Mark == p.Mark || q.Owner != p.Owner || q.Moves != p.Moves || !q.Box().Meets(room) {
					continue
				}
				if !slices.ContainsFunc(q.Ops, func(x part.Op) bool {
					d := q.Pose.Point(x.Face.Point(x.X, x.Y, q.Size)).With(way.Axis(), 0).Sub(at.With(way.Axis(), 0))
					return x.For == o.For && max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < length.MM
				}) {
					bad = append(bad, fmt.Sprintf("%s: %s covers a hole for a %s at %s along, %s across", p.Mark, q.Mark, o.For, o.X, o.Y))
				}
			}
		}
	}
	return bad
}

// Nothing that is fixed later lies over a hole that hardware passes through.
func TestHardwarePassesThrough(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, p := range a.Parts {
			for _, o := range p.Ops {
				if o.For == "handle" {
					seen++
				}
			}
		}
		for _, s := range blocked(a) {
			t.Errorf("%s: %s", name, s)
		}
	}
	if seen < 50 {
		t.Errorf("only %d handle holes were looked at", seen)
	}
}
