package plan_test

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// handed gives a made-up job of one wall, or its mirror: surveyed from the other end, what stands
// and what is built from right to left, hinges and clean sides on the other side.
func handed(seed uint64, mirror bool) string {
	w := random(seed)
	w.handed, w.mirror = true, mirror
	return w.job()
}

// A mirrored job gives mirrored parts: the same boards at the mirrored places, each with the
// mirrored workings. What a shop does on one side only is compared by number: the screws that
// join neighbours, which go through the right side of the left one; what is in a board between two
// bays, where the second keeps clear of the first; holes for feet, of which a middle one moves aside;
// slots of dividers and staggered holes, which start at the left. Where a board longer than its stock is divided starts from the left too.
func TestMirroredJobs(t *testing.T) {
	last := uint64(200)
	if testing.Short() {
		last = 2
	}
	failed := 0
	each(0, last, func(seed uint64) string {
		a := plan.Make(context.Background(), parse(t, "job", []byte(handed(seed, false))), plan.Want{})
		b := plan.Make(context.Background(), parse(t, "mirror", []byte(handed(seed, true))), plan.Want{})
		w := a.Room.Walls[0]
		flip := func(v geom.Vec) geom.Vec {
			return geom.V(w.Length-v.X, v.Y, v.Z-w.FloorAt(w.Length, 0))
		}
		want, got := shapes(a.Assembly.Parts, flip), shapes(b.Assembly.Parts, func(v geom.Vec) geom.Vec { return v })
		lost, more := differ(want, got)
		if len(lost)+len(more) == 0 {
			return ""
		}
		return fmt.Sprintf("the mirror lacks\n\t%s\nand has\n\t%s\n%s", strings.Join(lost[:min(4, len(lost))], "\n\t"), strings.Join(more[:min(4, len(more))], "\n\t"), handed(seed, false))
	}, func(seed uint64, bad string) {
		if bad != "" {
			t.Errorf("seed %d: %s", seed, bad)
			if failed++; failed > 5 {
				t.Fatal("and so on")
			}
		}
	})
}

// shapes describes parts by what they are and where their corners and workings lie, in order.
func shapes(parts []part.Part, at func(geom.Vec) geom.Vec) []string {
	var list []string
	box := func(b geom.Box) geom.Box {
		p, q := at(b.Min), at(b.Max)
		return geom.B(min(p.X, q.X), min(p.Y, q.Y), min(p.Z, q.Z), max(p.X, q.X), max(p.Y, q.Y), max(p.Z, q.Z))
	}
	divided := map[string]bool{}
	for _, p := range parts {
		if strings.Contains(p.Name, "piece") {
			divided[p.Owner] = true
		}
	}
	for _, p := range parts {
		if divided[p.Owner] || p.Role == part.Divider { // a middle one may stand a slot to the left
			continue
		}
		size := p.Size
		between := p.Role == part.Partition || p.Role == part.FixedShelf
		s := []string{}
		for _, o := range p.Ops {
			if o.For == part.ToBases && len(divided) > 0 {
				continue // they stand clear of where the rails under them meet
			}
			if o.For == part.JoiningScrew || o.For == part.JoiningBolt {
				continue // pilot or clearance
			}
			if between || o.For == "foot" || o.For == part.TurnsFoot || o.For == "divider slot" || o.For == "bored place" {
				s = append(s, fmt.Sprint(o.Kind, o.Dia, o.For))
				continue
			}
			n := p.Pose.Dir(o.Face.Normal())
			d := at(n.Vec(1)).Sub(at(geom.Vec{}))
			var where any
			switch o.Kind {
			case part.Hole, part.Cup, part.Countersink, part.Pocket:
				v := at(p.Pose.Point(o.Face.Point(o.X, o.Y, size)))
				mid := (box(p.Box()).Min.X + box(p.Box()).Max.X) / 2
				if strings.HasPrefix(o.For, "screw to the ") && (v.X-mid).Abs() <= 100*length.MM {
					v = v.With(0, (v.X - mid).Abs()) // one in the middle that has to move may move to either side
				}
				where = v
			case part.Bevel, part.Taper:
				continue // their box is the board's
			default:
				where = box(p.Pose.Box(o.Removed(size)))
				if o.Kind == part.Notch || o.Kind == part.Cutout {
					d = geom.Vec{} // through: from either face
				}
			}
			s = append(s, fmt.Sprint(o.Kind, " ", where, d, o.Dia, o.Depth, o.For))
		}
		slices.Sort(s)
		list = append(list, fmt.Sprint(p.Role, " ", p.Stock, " ", size, box(p.Box()), p.Grain, s))
	}
	slices.SortFunc(list, cmp.Compare)
	return list
}

// differ gives what is only in one of two sorted lists.
func differ(a, b []string) (onlyA, onlyB []string) {
	for len(a) > 0 || len(b) > 0 {
		switch {
		case len(b) == 0 || len(a) > 0 && a[0] < b[0]:
			onlyA, a = append(onlyA, a[0]), a[1:]
		case len(a) == 0 || b[0] < a[0]:
			onlyB, b = append(onlyB, b[0]), b[1:]
		default:
			a, b = a[1:], b[1:]
		}
	}
	return onlyA, onlyB
}
