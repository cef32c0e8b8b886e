package carcass_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"stowright/internal/carcass"
	"stowright/internal/carcass/carcasstest"
	"stowright/internal/fitting"
	"stowright/internal/fittings/dividers"
	"stowright/internal/fittings/drawers"
	"stowright/internal/fittings/hanging"
	"stowright/internal/fittings/open"
	"stowright/internal/fittings/shelves"
	"stowright/internal/fittings/trays"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
)

type L = length.Length

const (
	mm = length.MM
	in = length.Inch
)

func kinds() fitting.Set {
	return fitting.Set{shelves.Kind(), dividers.Kind(), drawers.Kind(), trays.Kind(), hanging.Kind(), open.Kind()}
}

// margin is the least wood beside a hole: a 6 mm dowel in the middle of a corner of 11.8 leaves 2.9.
const margin = 2500 * mm / 1000

// envelope is what the sizes of a case allow: what is stated is what stands. End panels are beside
// the stated width.
func envelope(c carcasstest.Case) geom.Box {
	p := c.Env.Practice
	b, _ := c.Env.Catalogue.Board(p.FrontBoard)
	front, beside := b.Thickness+p.DoorAir, L(0)
	if len(c.Spec.EndPanels) > 0 {
		beside = b.Thickness
	}
	rear := *c.Spec.Depth
	if c.Spec.CountsFronts() {
		rear -= front
	}
	return geom.B(-beside, -front, 0, *c.Spec.Width+beside, rear, *c.Spec.Height-c.Site.Base)
}

func TestAnyCase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := carcasstest.Draw(t, kinds())
		a, f := carcass.Build(c.Env, "c", c.Spec, c.Site)
		for _, s := range append(parttest.Check(a, parttest.Options{Margin: margin, Envelope: envelope(c)}), parttest.Moves(a)...) {
			t.Errorf("%s", s)
		}
		for _, x := range f {
			if x.Code == "" || x.At == "" || x.Text == "" {
				t.Errorf("finding without code, place or text: %+v", x)
			}
		}
		b, g := carcass.Build(c.Env, "c", c.Spec, c.Site)
		if d := cmp.Diff(a, b); d != "" {
			t.Errorf("building twice differs: %s", d)
		}
		if d := cmp.Diff(f, g); d != "" {
			t.Errorf("findings of building twice differ: %s", d)
		}
		for _, o := range a.Owners {
			if !o.Box.Has(o.Carcass) {
				t.Errorf("carcass %v outside box %v", o.Carcass, o.Box)
			}
			// What is stated is what stands: overall sizes (the glossary's envelope).
			if len(c.Spec.EndPanels) == 0 && o.Box.Max.X-o.Box.Min.X != *c.Spec.Width {
				t.Errorf("width %d, asked for %d", o.Box.Max.X-o.Box.Min.X, *c.Spec.Width)
			}
			if o.Box.Max.Z != *c.Spec.Height-c.Site.Base {
				t.Errorf("height %d, asked for %d", o.Box.Max.Z, *c.Spec.Height-c.Site.Base)
			}
			if o.Box.Max.Y > *c.Spec.Depth {
				t.Errorf("depth %v, asked for %d", o.Box, *c.Spec.Depth)
			}
		}
	})
}

// TestGeneratorReachesAll fails when something never comes up in 2000 cases.
func TestGeneratorReachesAll(t *testing.T) {
	seen := map[string]bool{}
	g := rapid.Custom(func(t *rapid.T) carcasstest.Case { return carcasstest.Draw(t, kinds()) })
	for i := range 2000 {
		for k := range g.Example(i).Seen {
			seen[k] = true
		}
	}
	for _, w := range carcasstest.Words(kinds()) {
		if !seen[w] {
			t.Errorf("%s never came up in 2000 cases", w)
		}
	}
}

// A case on a cleat comes off: its half of the cleat stands clear of the wall's when the case is lifted, and nothing of the case is
// between the wall's half and the wall, whatever its back (geometry).
func TestCaseComesOffItsCleat(t *testing.T) {
	for _, shop := range []struct {
		name string
		env  fitting.Env
	}{{"metric", carcasstest.Metric()}, {"inch", carcasstest.Inch()}, {"one saw", carcasstest.OneSaw()}} {
		for _, back := range []string{"captured", "applied", "full", "none"} {
			for _, width := range []L{600 * mm, 900 * mm} {
				spec := carcass.Spec{Width: size(width), Height: size(720 * mm), Depth: size(320 * mm), Level: "wall", Back: back}
				spec.Hangs.Kind = "cleat"
				a, f := carcass.Build(shop.env, "c", spec, carcass.Site{})
				if f.Blocking() {
					t.Fatal(shop.name, back, f)
				}
				var wall geom.Box
				rear := L(0)
				for _, p := range a.Parts {
					if p.Role == part.WallCleat {
						wall = p.Box()
					}
					rear = max(rear, p.Box().Max.Y)
				}
				if wall.Max.Y == 0 || rear > wall.Max.Y {
					t.Fatalf("%s, %s: no wall cleat at the wall: %v, rear %v", shop.name, back, wall, rear)
				}
				thick := wall.Max.Y - wall.Min.Y
				out := wall // as the case sees it: lifted off, then drawn forward
				out.Min.Z, out.Max.Z, out.Max.Y = wall.Min.Z-thick-3*mm, wall.Max.Z-thick-3*mm, wall.Max.Y+2*thick
				for _, p := range a.Parts {
					if p.Role != part.WallCleat && p.Box().Meets(out) {
						t.Errorf("%s, back %s: %s stands in the way of the wall's half, %v meets %v", shop.name, back, p.Name, p.Box(), out)
					}
				}
			}
		}
	}
}
