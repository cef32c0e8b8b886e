package base_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/base"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/strength/nds"
)

func far(l L) float64 { return float64(l) / float64(mm) }

// Rails of several sticks: no screw through a rail or its plate, or in a rung's end, stands nearer to an end or an edge than
// NDS 2018 advises for number 8 in bored holes (commentary C12.1: end 5 D, edge 2.5 D). And the base can be carried by its two
// ends: under its own weight (southern pine at 0.55 and 19 % of moisture, NDS Supplement Table 12.3.3A, from memory) the
// screws of the plates hold what turns at the joint (yield limit, NDS 2018 12.3.1A, x 1.6 for a short load).
func TestLongRailsAreJoinedFarFromTheirEnds(t *testing.T) {
	no8, _ := nds.Screw(8)
	d := no8.Spacing(true, false)
	side := 3 * float64(25.4) / 2
	each := 1.6 * nds.Joint{Fastener: no8, Side: nds.Member{G: 0.55, Bearing: side}, Main: nds.Member{G: 0.55, Bearing: no8.MainBearing(63.5 - side)}}.Lateral().Z
	seams := 0
	rapid.Check(t, func(t *rapid.T) {
		e := shop()
		e.Practice.ShimMost = 3 * in / 4
		w, deep := L(rapid.Int64Range(2450, 4800).Draw(t, "length"))*mm, L(rapid.Int64Range(350, 600).Draw(t, "depth"))*mm
		fall := L(rapid.Int64Range(-40, 40).Draw(t, "fall")) * mm
		s := base.Spec{Box: geom.B(0, -deep, 0, w, 0, 7*in/2), Stock: "2x4", How: rapid.SampledFrom([]string{"shims", "taper", "steps"}).Draw(t, "how")}
		s.Floor = func(x, y L) L { return fall.MulDiv(int64(x), int64(w)) - max(fall, 0) }
		for x := L(0); x < w; {
			c := L(rapid.Int64Range(300, 900).Draw(t, "case")) * mm
			if w-x-c < 250*mm {
				c = w - x
			}
			s.Under = append(s.Under, base.Piece{ID: "c", From: x, To: x + c})
			x += c
		}
		a, _ := base.Build(e, "b", s)
		for _, bad := range parttest.Check(a, parttest.Options{}) {
			t.Error(bad)
		}
		for _, p := range a.Parts {
			for _, o := range p.Ops {
				if o.Kind != part.Hole || o.For != string(part.WoodScrew) {
					continue
				}
				at, z := o.Face.Point(o.X, o.Y, p.Size), p.Size
				end, edge := min(at.X, z[0]-at.X), min(at.Y, z[1]-at.Y)
				switch o.Face {
				case part.Start, part.End:
					end, edge = d1, min(edge, at.Z, z[2]-at.Z)
				case part.Near, part.Far:
					edge = min(at.Z, z[2]-at.Z)
				}
				if far(end) < d.EndAway || far(edge) < d.Edge {
					t.Errorf("%s: a screw %s from an end and %s from an edge", p.Local, end.Exact(length.Millimetres), edge.Exact(length.Millimetres))
				}
			}
		}
		kg := 0.0
		for _, p := range a.Parts {
			v := p.Box().Size()
			kg += 0.65e-6 * far(v.X) * far(v.Y) * far(v.Z)
		}
		for _, p := range a.Parts {
			if !strings.HasPrefix(p.Local, "plate-") {
				continue
			}
			seams++
			x := far((p.Box().Min.X + p.Box().Max.X) / 2)
			turning := kg * 9.81 * x * (far(w) - x) / (2 * far(w)) / 2 // N mm, of two plates
			for _, j := range a.Joints {
				r := slices.IndexFunc(a.Parts, func(q part.Part) bool { return q.Local == j.B && q.Role == part.BaseRail })
				if j.A != p.Local || r < 0 {
					continue
				}
				var at []geom.Vec
				for _, o := range p.Ops {
					if v := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)); j.Contact.Min.X <= v.X && v.X <= j.Contact.Max.X && (v.X-(p.Box().Min.X+p.Box().Max.X)/2).Abs() > 20*mm {
						at = append(at, v)
					}
				}
				if len(at) != j.Count || len(at) < 2 {
					t.Fatalf("%s: %d screws bored, %d told", p.Local, len(at), j.Count)
				}
				var mx, mz, sum, most float64
				for _, v := range at {
					mx, mz = mx+far(v.X)/float64(len(at)), mz+far(v.Z)/float64(len(at))
				}
				for _, v := range at {
					r := math.Hypot(far(v.X)-mx, far(v.Z)-mz)
					sum, most = sum+r*r, math.Max(most, r)
				}
				if has := each * sum / most; has < turning {
					t.Errorf("%s: %.0f N m turn at the joint, its screws hold %.0f", p.Local, turning/1000, has/1000)
				}
			}
		}
	})
	if seams == 0 {
		t.Error("no rail is of two pieces")
	}
}

// d1 is further from an end than any screw need be.
const d1 = 100 * mm
