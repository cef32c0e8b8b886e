package pages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/plan"
	"stowright/internal/rules"
	"stowright/internal/view"
)

// round gives what stands at the walls round the corners of one, in its frame, with doors open as far as they go.
func round(r *plan.Result, w *place.Wall, stops map[string]int) (list []view.Round) {
	for _, o := range r.Assembly.Owners {
		other := r.Room.Wall(o.Wall)
		if other == nil || other.ID == w.ID || other.ID != w.Corner(0) && other.ID != w.Corner(1) || o.Kind == "filler" || o.Kind == "base" || o.Kind == "hutch" {
			continue
		}
		see := func(x, y length.Length) geom.Vec { return w.Frame.SeePoint(other.Frame, geom.Vec{X: x, Y: y}) }
		b := o.Box
		n := view.Round{Name: view.Code(&r.Assembly, o.ID), Hung: o.Hung, Outline: []geom.Vec{see(b.Min.X, b.Min.Y), see(b.Max.X, b.Min.Y), see(b.Max.X, b.Max.Y), see(b.Min.X, b.Max.Y)}}
		for _, m := range r.Assembly.Motions {
			if m.Owner != o.ID || m.Kind != part.Swing || m.Hinge != geom.Left && m.Hinge != geom.Right {
				continue
			}
			opens, sign := m.Angle, 1.0
			if a, ok := stops[m.ID]; ok {
				opens = a
			}
			if m.Hinge == geom.Right {
				sign = -1
			}
			end := func(degrees float64) geom.Vec {
				sin, cos := math.Sincos(degrees * math.Pi / 180)
				l := float64(m.Leaf())
				return see(m.Pivot.X+length.Length(math.Round(sign*l*cos)), m.Pivot.Y-length.Length(math.Round(l*sin)))
			}
			n.Leaves = append(n.Leaves, []geom.Vec{see(m.Pivot.X, m.Pivot.Y), end(float64(opens))})
			var way []geom.Vec
			const step = 24
			for i := range step + 1 {
				way = append(way, end(float64(opens*i)/step))
			}
			n.Ways = append(n.Ways, way)
		}
		list = append(list, n)
	}
	return list
}

// together says which doors and drawers at a wall are in each other's way, or in that of those round its corners: by case pairs.
func together(list []rules.Meeting, wall string) (lines []string) {
	var order [][2]string
	by := map[[2]string][]rules.Meeting{}
	for _, x := range list {
		if x.First.Wall != wall && x.Second.Wall != wall || x.First.Mark == "" || x.Second.Mark == "" {
			continue
		}
		k := [2]string{x.First.Owner, x.Second.Owner}
		if by[k] == nil {
			order = append(order, k)
		}
		by[k] = append(by[k], x)
	}
	for _, k := range order {
		var pairs []string
		wide := true
		for _, x := range by[k] {
			wide = wide && x.By == 0
			if t := x.First.Mark + " and " + x.Second.Mark; !slices.Contains(pairs, t) {
				pairs = append(pairs, t)
			}
		}
		const most = 3
		if n := len(pairs); n > most {
			pairs = append(pairs[:most-1], fmt.Sprintf("%d more pairs of the same cases", n-most+1))
		}
		how := "one at a time"
		if wide {
			how = "both to 90°, or one at a time"
		}
		lines = append(lines, how+": "+strings.Join(pairs, ", "))
		if told := rules.Told(by[k]); !wide {
			lines = append(lines, told...)
		}
	}
	return lines
}
