// Package hanging makes a space with a rail between two flanges, to hang things from.
package hanging

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// NoRail: the catalogue has no tube or flange.
	NoRail finding.Code = "hanging-no-rail"
	// Low: the bay is too low or too shallow for a rail.
	Low finding.Code = "hanging-no-room"
)

// Spec is what a job says of a hanging space.
type Spec struct {
	Drop   *L     `job:"rail-below-top" doc:"centre of the rail below the bay's top" eg:"2 1/2 in"`
	Rail   string `job:"rail" doc:"tube, a name in hardware" default:"hanging-rail-25"`
	Flange string `job:"flange" doc:"flange, a name in hardware" default:"hang-rail-flange"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "hanging", Doc: "a rail to hang things from", Where: fitting.InBay, New: func() fitting.Spec { return &Spec{Rail: "hanging-rail-25", Flange: "hang-rail-flange"} }}
}

// Claim wants no room of others.
func (*Spec) Claim(fitting.Env, fitting.Space) fitting.Claim { return fitting.Claim{} }

// Build makes the rail.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	var r fitting.Result
	at := "case/" + env.Owner + "/" + s.ID
	y0 := s.Setback(s.Box.Min.Z, s.Box.Max.Z)
	b := s.Bay(env, "hanging", "", s.Box)
	b.Box.Min.Y, b.Hung = y0, true
	drop := 60 * mm
	if c.Drop != nil {
		drop = *c.Drop
	}
	tube, ok := env.Catalogue.Item(cmp.Or(c.Rail, "hanging-rail-25"))
	flange, ok2 := env.Catalogue.Item(cmp.Or(c.Flange, "hang-rail-flange"))
	if !ok || !ok2 {
		r.Findings.Add(finding.Finding{Code: NoRail, Severity: finding.Error, At: at, Text: fmt.Sprintf("the rail %q or its flange %q is not known", c.Rail, c.Flange), Hint: "name hardware of the catalogue"})
	}
	dia := cmp.Or(tube.Dia, 25*mm)
	z, y := s.Box.Max.Z-drop, (y0+s.Box.Max.Y)/2
	if drop < dia || z-dia < s.Box.Min.Z+100*mm || s.Box.Max.Y-y0 < 4*dia || s.Width() < 100*mm {
		r.Findings.Add(finding.Finding{Code: Low, Severity: finding.Error, At: at, Text: "the bay has no room for a rail", Hint: "make it higher or deeper", Source: "common practice, no source"})
		r.Bays = append(r.Bays, b)
		return r
	}
	b.Box.Max.Z = z - dia/2
	if flange.Rating != nil {
		b.Most = 2 * *flange.Rating
	}
	room := mm // each end, in its flange
	q := part.New(s.ID+"-rail", part.Rail, "hanging rail", tube.ID, geom.B(s.Box.Min.X+room, y-dia/2, z-dia/2, s.Box.Max.X-room, y-dia/2+dia, z-dia/2+dia), geom.Right, geom.Back)
	q.Material = part.Bought
	r.Parts = append(r.Parts, q)
	shop := joinery.Shop{Practice: env.Practice, Catalogue: env.Catalogue, Owner: env.Owner}
	screw, short := shop.SlideScrew(min(s.Walls[geom.Left].Thickness, s.Walls[geom.Right].Thickness))
	if !short {
		text, hint := shop.SlideScrewLong(screw, min(s.Walls[geom.Left].Thickness, s.Walls[geom.Right].Thickness))
		r.Findings.Add(finding.Finding{Code: joinery.NoScrew, Severity: finding.Warning, At: at, Text: text, Hint: hint, Source: "common practice, no source"})
	}
	tool, pilot, _ := shop.Pilot(cmp.Or(screw.Pilot, 3*mm))
	n := max(flange.ScrewsEach, 2)
	for _, w := range []geom.Dir{geom.Left, geom.Right} {
		x := s.Box.Min.X
		if w == geom.Right {
			x = s.Box.Max.X
		}
		for i := range n {
			// On a circle outside the tube: above, then to both sides below it.
			d := [...][2]L{{0, 20 * mm}, {-17 * mm, -10 * mm}, {17 * mm, -10 * mm}}[i%3]
			r.Bores = append(r.Bores, fitting.Bore{Wall: w, Kind: part.Hole, At: geom.V(x, y+d[0], z+d[1]), Dia: pilot, Depth: 12 * mm, Tool: tool, For: "flange"})
		}
	}
	r.Hardware = append(r.Hardware,
		part.Item{ID: tube.ID, Kind: "rail", Count: 1, Length: s.Width() - 2*room, For: "hanging"},
		part.Item{ID: flange.ID, Kind: "rail-flange", Count: 2, For: "hanging"},
		part.Item{ID: cmp.Or(screw.ID, "slide-screw"), Kind: "screw", Count: 2 * n, Length: screw.Length, For: "flanges"})
	b.Floor = ""
	r.Bays = append(r.Bays, b)
	w := s.Width() - 2*room
	r.Spans = append(r.Spans, part.Span{Part: q.Local, Along: geom.Right, Bay: b.ID, Use: s.Use, Supports: []part.Support{{At: 5 * mm, Width: 10 * mm}, {At: w - 5*mm, Width: 10 * mm}}})
	return r
}
