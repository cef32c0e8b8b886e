package packet_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// Every rail of a case is seen and has its mark where the case is drawn apart, though its back stands before it.
func TestRailsAreMarkedApart(t *testing.T) {
	n := 0
	for _, name := range names {
		r := plantest.Result(t, name)
		for _, o := range r.Assembly.Owners {
			parts := view.Of(&r.Assembly, o.ID)
			if len(parts) == 0 {
				continue
			}
			var s draw.Sheet
			view.NewApart(parts, o.Box, nil).Draw(&s, draw.Rect{W: 170, H: 120}, func(string) string { return "" })
			for _, p := range parts {
				if p.Role != part.HangRail {
					continue
				}
				n++
				if !slices.ContainsFunc(s.Items, func(it draw.Item) bool { x, ok := it.(*draw.Text); return ok && x.Text == p.Mark }) {
					t.Errorf("%s: %s has no mark", name, p.Mark)
				}
			}
		}
	}
	if n < 10 {
		t.Errorf("%d rails", n)
	}
}

// The leader of a height on the map of levelling runs through no case but its own, and an elevation has sizes.
func TestMapsAndElevations(t *testing.T) {
	heights, elevations := 0, 0
	for _, name := range some() {
		doc := set(t, name)
		for i := range doc.Pages {
			var cases []draw.Rect
			var titles []*draw.Text
			for _, it := range doc.Pages[i].Items {
				switch x := it.(type) {
				case *draw.Path:
					if x.Layer == "Levels" && x.Line == draw.Edge && len(x.Steps) == 5 && x.Steps[1].Op == draw.Go {
						a, b := x.Steps[0].P[0], x.Steps[2].P[0]
						if r := (draw.Rect{X: a.X, Y: a.Y, W: b.X - a.X, H: b.Y - a.Y}); r.W > 3 && r.H > 3 {
							cases = append(cases, r)
						}
					}
				case *draw.Text:
					if x.Bold && x.Size == draw.BodyCap {
						titles = append(titles, x)
					}
				}
			}
			for _, it := range doc.Pages[i].Items {
				x, ok := it.(*draw.Path)
				if !ok || x.Layer != "Levels" || x.Line != draw.Fine || len(x.Steps) != 2 {
					continue
				}
				a, b := x.Steps[0].P[0], x.Steps[1].P[0]
				own := slices.IndexFunc(cases, func(r draw.Rect) bool { return r.Inset(-0.5).Has(draw.Rect{X: a.X, Y: a.Y}) })
				if own < 0 {
					continue // hatching
				}
				heights++
				for _, r := range cases {
					if !r.Inset(-0.5).Has(draw.Rect{X: a.X, Y: a.Y}) && r.Inset(0.5).Struck(a, b) {
						t.Errorf("%s, sheet %d: the leader from %.0f,%.0f runs through another case", name, i+1, a.X, a.Y)
					}
				}
			}
			for _, x := range titles {
				if !strings.HasPrefix(x.Text, "Elevation of wall") {
					continue
				}
				elevations++
				top := 0.0 // the title of the drawing above it
				for _, y := range titles {
					if y.At.Y < x.At.Y-1 {
						top = max(top, y.At.Y)
					}
				}
				if !slices.ContainsFunc(doc.Pages[i].Items, func(it draw.Item) bool {
					y, ok := it.(*draw.Text)
					return ok && y.Layer == "Dimensions" && y.At.Y > top && y.At.Y < x.At.Y
				}) {
					t.Errorf("%s, sheet %d: %q has no size", name, i+1, x.Text)
				}
			}
		}
	}
	if heights < 10 || elevations < 4 {
		t.Errorf("%d heights, %d elevations", heights, elevations)
	}
}
