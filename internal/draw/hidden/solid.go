package hidden

import (
	"math"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
)

// edge runs along an axis.
type edge struct {
	axis     int
	from, to geom.Vec
}

// edges gives the edges of the union of boxes: where the four quarters around a line are
// neither all full nor all empty, nor full in two neighbours (a flat face, a seam).
func edges(boxes []geom.Box) []edge {
	type ray struct {
		axis int
		u, v length.Length // along the two other axes, in turn
	}
	var rays []ray
	seen := map[ray]bool{}
	for _, b := range boxes {
		for axis := range 3 {
			i, j := (axis+1)%3, (axis+2)%3
			for c := range 4 {
				r := ray{axis, b.Min.At(i), b.Min.At(j)}
				if c&1 == 1 {
					r.u = b.Max.At(i)
				}
				if c&2 == 2 {
					r.v = b.Max.At(j)
				}
				if !seen[r] {
					seen[r] = true
					rays = append(rays, r)
				}
			}
		}
	}
	var out []edge
	var stops []length.Length
	var by []geom.Box
	for _, r := range rays {
		i, j := (r.axis+1)%3, (r.axis+2)%3
		stops, by = stops[:0], by[:0]
		for _, b := range boxes {
			if b.Min.At(i) <= r.u && r.u <= b.Max.At(i) && b.Min.At(j) <= r.v && r.v <= b.Max.At(j) {
				stops = append(stops, b.Min.At(r.axis), b.Max.At(r.axis))
				by = append(by, b)
			}
		}
		slices.Sort(stops)
		stops = slices.Compact(stops)
		open := false
		for k := 0; k+1 < len(stops); k++ {
			var full [4]bool // quarters in turn around the line
			for _, b := range by {
				if b.Min.At(r.axis) > stops[k] || b.Max.At(r.axis) < stops[k+1] {
					continue
				}
				up, vp := r.u < b.Max.At(i), r.v < b.Max.At(j)
				um, vm := r.u > b.Min.At(i), r.v > b.Min.At(j)
				full[0] = full[0] || up && vp
				full[1] = full[1] || um && vp
				full[2] = full[2] || um && vm
				full[3] = full[3] || up && vm
			}
			n := 0
			for _, f := range full {
				if f {
					n++
				}
			}
			real := n == 1 || n == 3 || n == 2 && full[0] == full[2]
			if !real {
				open = false
				continue
			}
			end := geom.Vec{}.With(i, r.u).With(j, r.v).With(r.axis, stops[k+1])
			if open {
				out[len(out)-1].to = end
				continue
			}
			out = append(out, edge{r.axis, end.With(r.axis, stops[k]), end})
			open = true
		}
	}
	return out
}

// Cut gives a box less the boxes cut away, as boxes that share no inside.
func Cut(b geom.Box, away ...geom.Box) []geom.Box {
	left := []geom.Box{b}
	for _, a := range away {
		var next []geom.Box
		for _, p := range left {
			in := p.And(a)
			if in.Empty() {
				next = append(next, p)
				continue
			}
			for k := range 3 {
				if p.Min.At(k) < in.Min.At(k) {
					next = append(next, geom.Box{Min: p.Min, Max: p.Max.With(k, in.Min.At(k))})
				}
				if in.Max.At(k) < p.Max.At(k) {
					next = append(next, geom.Box{Min: p.Min.With(k, in.Max.At(k)), Max: p.Max})
				}
				p.Min, p.Max = p.Min.With(k, in.Min.At(k)), p.Max.With(k, in.Max.At(k))
			}
		}
		left = next
	}
	return left
}

// Circle gives a closed curve of n sides around c in the plane across an axis, to the
// nearest tick.
func Circle(c geom.Vec, axis int, r length.Length, n int) []geom.Vec {
	i, j := (axis+1)%3, (axis+2)%3
	var out []geom.Vec
	for k := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		p := c.With(i, c.At(i)+length.Length(math.Round(float64(r)*cos)))
		out = append(out, p.With(j, c.At(j)+length.Length(math.Round(float64(r)*sin))))
	}
	return append(out, out[0])
}
