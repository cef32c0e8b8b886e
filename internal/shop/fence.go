package shop

import (
	"slices"

	"stowright/internal/length"
	"stowright/internal/part"
)

// A groove runs at one distance from an edge, and the fence is set to that: grooves of one width and depth that lie
// at several distances are several settings.

// fence is how far from which edge the nearer side of a groove is.
type fence struct {
	edge string
	at   length.Length
}

// fenced gives the fence of every long groove, rabbet and slot, by part and working: of the edges that one may be
// measured from, that which takes the fewest settings for all that the tool is set for alike; the front or the
// first named where two take as many.
func (s *steps) fenced() map[[2]int]fence {
	type work struct {
		key [2]int
		may []fence
	}
	sets := map[setup][]work{}
	var order []setup
	for i, p := range s.Assembly.Parts {
		names := s.around.Called(p)
		for j, o := range p.Ops {
			k := set(p, o)
			if k.wide == 0 || o.Face > part.Lower {
				continue
			}
			b := o.Removed(p.Size)
			axis, low, high := 1, part.Near, part.Far
			if b.Max.X-b.Min.X < b.Max.Y-b.Min.Y {
				axis, low, high = 0, part.Start, part.End
			}
			if sets[k] == nil {
				order = append(order, k)
			}
			may := []fence{{names[low], b.Min.At(axis)}, {names[high], p.Size[axis] - b.Max.At(axis)}}
			if may[1].edge == "front edge" {
				may[0], may[1] = may[1], may[0]
			}
			sets[k] = append(sets[k], work{[2]int{i, j}, may})
		}
	}
	out := map[[2]int]fence{}
	for _, k := range order {
		list := sets[k]
		for len(list) > 0 {
			count := map[fence]int{}
			var best fence
			for _, w := range list {
				for _, f := range w.may {
					count[f]++
				}
			}
			for _, w := range list {
				for _, f := range w.may {
					if count[f] > count[best] {
						best = f
					}
				}
			}
			list = slices.DeleteFunc(list, func(w work) bool {
				if slices.Contains(w.may, best) {
					out[w.key] = best
					return true
				}
				return false
			})
		}
	}
	return out
}
