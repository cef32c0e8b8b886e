package plan_test

import (
	"fmt"
	"math"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// sideways is a screw across a side: where it is in the height and depth of the room, from x to x.
type sideways struct {
	of       string
	from, to float64
	y, z     float64
	lean     float64 // of y, for each mm of x
}

// acrossSides gives the screws in pockets towards a side, which lean by 15 degrees away from the face of their pocket and go
// 15 mm in (a screw of 1 1/4 in from 3/4 in board: common practice, no source), and the holes through sides, in mm.
func acrossSides(r plan.Result) (list []sideways) {
	mm := func(l length.Length) float64 { return float64(l) / float64(length.MM) }
	lean := math.Tan(15 * math.Pi / 180)
	walls := map[string]int{}
	shift := map[string]float64{} // of the walls from each other, which are frames of their own
	for _, o := range r.Assembly.Owners {
		if _, ok := walls[o.Wall]; !ok {
			walls[o.Wall] = len(walls)
		}
		shift[o.ID] = float64(walls[o.Wall]) * 1e6
		if o.Wall == "" {
			shift[o.ID] = float64(len(shift)+1) * 1e7
		}
	}
	for _, p := range r.Assembly.Parts {
		for _, o := range p.Ops {
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			switch {
			case o.Kind == part.Pocket && p.Pose.Dir(o.Towards.Normal()).Axis() == 0 && p.Pose.Dir(o.Face.Normal()).Axis() == 1 && p.Moves == "":
				way, back := float64(p.Pose.Dir(o.Towards.Normal()).Sign()), float64(p.Pose.Dir(o.Face.Normal()).Sign())
				s := sideways{of: p.Mark, y: mm((p.Box().Min.Y + p.Box().Max.Y) / 2), z: mm(at.Z), lean: -back * lean * way}
				s.from, s.to = mm(at.X), mm(at.X)+15*way
				s.y -= s.lean * s.from
				s.from, s.to, s.y = min(s.from, s.to)+shift[p.Owner], max(s.from, s.to)+shift[p.Owner], s.y-s.lean*shift[p.Owner]
				list = append(list, s)
			case o.Kind == part.Hole && p.Role == part.Side && o.Face <= part.Lower && p.Pose.W().Axis() == 0 && (o.For == part.JoiningScrew || o.For == part.JoiningBolt || o.For == part.BoltedRail):
				b := p.Box()
				list = append(list, sideways{of: p.Mark, from: mm(b.Min.X) + shift[p.Owner], to: mm(b.Max.X) + shift[p.Owner], y: mm(at.Y), z: mm(at.Z)})
			}
		}
	}
	return list
}

// meeting gives a sentence for every two screws that meet in a side: less than 5.5 mm from middle to middle, where those of
// number 8 are 4.2 mm thick (ASME B18.6.1).
func meeting(r plan.Result) (bad []string, n int) {
	list := acrossSides(r)
	for i, a := range list {
		for _, b := range list[:i] {
			from, to := max(a.from, b.from), min(a.to, b.to)
			if to-from < 1 || a.of == b.of || math.Abs(a.z-b.z) > 60 {
				continue
			}
			n++
			least := math.Inf(1)
			for _, x := range []float64{from, (from + to) / 2, to} {
				least = min(least, math.Hypot(a.y+a.lean*x-b.y-b.lean*x, a.z-b.z))
			}
			if least < 5.5 {
				bad = append(bad, fmt.Sprintf("a screw of %s is %.1f mm from one of %s, %.0f mm up", a.of, least, b.of, a.z))
			}
		}
	}
	return bad, n
}

// Screws that come into one side from both of its faces pass each other.
func TestScrewsIntoSidesPassEachOther(t *testing.T) {
	inExamples(t, shipped, meeting, "no two screws are near each other")
}
