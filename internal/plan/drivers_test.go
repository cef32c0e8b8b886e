package plan_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// fouled gives a sentence for every screw that goes home while a board that is there already stands in the way of
// the drill, where the step names no long bit. An ordinary bit stands 30 mm out of a chuck of 43 mm (measured on
// a cordless drill, no source). Long are the steps that do name one.
func fouled(r plan.Result) (bad []string, long int) {
	at := byMark(r.Assembly)
	there := map[string]bool{}
	done := make([]bool, len(r.Assembly.Joints))
	with := map[string]string{} // what boards are joined to already, by one of them
	whole := func(m string) string {
		for with[m] != "" {
			m = with[m]
		}
		return m
	}
	for _, s := range r.Steps {
		if s.Phase != shop.Assemble {
			continue
		}
		for _, m := range s.New {
			there[m] = true
		}
		if strings.Contains(s.Tool, "long driver bit") {
			long++
		}
		now := func(i int, j part.Joint) bool {
			return !done[i] && there[j.A] && there[j.B] && slices.Contains(s.Parts, j.A) && slices.Contains(s.Parts, j.B)
		}
		for i, j := range r.Assembly.Joints {
			if now(i, j) && whole(j.A) != whole(j.B) {
				with[whole(j.A)] = whole(j.B)
			}
		}
		for i, j := range r.Assembly.Joints {
			if !now(i, j) || j.Kind == part.Dowel || j.Count == 0 {
				continue
			}
			done[i] = true
			for _, pair := range [][2]string{{j.A, j.B}, {j.B, j.A}} {
				head, into := at[pair[0]], at[pair[1]]
				for _, o := range head.Ops {
					_, _, deep := o.Face.Extent(head.Size)
					v := head.Pose.Point(o.Face.Point(o.X, o.Y, head.Size))
					n := head.Pose.Dir(o.Face.Normal()).Axis()
					if o.Kind != part.Hole || o.Depth < deep || o.For != string(j.Kind) {
						continue
					}
					meets := slices.ContainsFunc(into.Ops, func(q part.Op) bool {
						u := into.Pose.Point(q.Face.Point(q.X, q.Y, into.Size)).With(n, v.At(n))
						d := u.Sub(v)
						return q.Kind == part.Hole && q.Dia < o.Dia && into.Pose.Dir(q.Face.Normal()).Axis() == n && max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < length.MM/10
					})
					if !meets {
						continue
					}
					b, c := head.Box(), into.Box()
					from, to := b.Max.At(n)+30*length.MM, b.Max.At(n)+200*length.MM
					if c.Min.At(n)+c.Max.At(n) > b.Min.At(n)+b.Max.At(n) {
						from, to = b.Min.At(n)-200*length.MM, b.Min.At(n)-30*length.MM
					}
					drill := geom.Box{Min: v, Max: v}.Grow(43 * length.MM / 2)
					drill.Min, drill.Max = drill.Min.With(n, from), drill.Max.With(n, to)
					for m := range there {
						p := at[m]
						if whole(m) != whole(head.Mark) || m == head.Mark || m == into.Mark || strings.Contains(s.Tool, "long driver bit") {
							continue
						}
						if slices.ContainsFunc(p.Solid(), drill.Meets) {
							bad = append(bad, fmt.Sprintf("step %d: %s is in the way of the drill at the screw from %s into %s at %v", s.N, m, head.Mark, into.Mark, v))
						}
					}
				}
			}
		}
	}
	return bad, long
}

// Every screw of an assembly can be driven straight when its step says so, or its step names a long bit.
func TestDrillsHaveRoom(t *testing.T) {
	long := 0
	look := func(name string, r plan.Result) {
		bad, n := fouled(r)
		long += n
		for _, s := range bad {
			t.Errorf("%s: %s", name, s)
		}
	}
	for _, name := range shipped {
		look(name, plantest.Result(t, name))
	}
	for _, brace := range []string{"panel", "rails", "shelf"} {
		for _, layers := range []string{"[{board: birch-18}]", "[{board: birch-18}, {board: birch-18}]"} {
			text := "stowright: 1\nunit: mm\npractice: {from: saw-and-drill}\nwalls: {north: {length: 4000, height: 2500}}\n" +
				"counters: {bench: {layers: " + layers + ", free: {at: 600, out: 1800, length: 1400, legs: spruce-leg, brace: " + brace + "}, depth: 650, height: 900}}\n"
			look(brace+" "+layers, plan.Make(context.Background(), parse(t, "bench", []byte(text)), plan.Want{}))
		}
	}
	if long == 0 {
		t.Error("no step names a long bit: nothing was looked at")
	}
}

// Wherever screws with flat heads go in, the step says that their holes are countersunk, and has the tool for it.
func TestFlatHeadsAreSunk(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		for _, s := range r.Steps {
			for _, f := range s.Fits {
				if h, _ := r.Job.Catalogue.Item(f.ID); !h.Sunk() {
					continue
				}
				seen++
				if !strings.Contains(strings.ToLower(s.Whole()), "countersink") || !strings.Contains(s.Tool, "countersink") {
					t.Errorf("%s: step %d drives %s and sinks none (%s): %s", name, s.N, f.ID, s.Tool, s.Whole())
				}
			}
		}
	}
	if seen < 50 {
		t.Errorf("only %d steps drive flat heads", seen)
	}
}
