// Package dividers makes removable upright dividers that stand in slots in the boards below
// and above a bay: lifted into the upper slot, then dropped into the lower one.
package dividers

import (
	"cmp"
	"fmt"
	"slices"

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
	// NoSlots: no tool makes the slots, or there is no board for them. Nothing is built.
	NoSlots finding.Code = "dividers-no-slots"
	// TooMany: more dividers than slots.
	TooMany finding.Code = "dividers-too-many"
)

// Common practice, no source.
const (
	low   = 4 * mm                  // slot in the board below
	lift  = 4500 * length.MM / 1000 // what it is lifted to come out
	loose = 1 * mm                  // slot wider than the divider
	web   = 8 * mm                  // least wood between slots
)

// Spec is what a job says of dividers.
type Spec struct {
	Count int    `job:"count" min:"0" max:"60" default:"3" doc:"how many dividers"`
	Pitch *L     `job:"pitch" doc:"between slots; the practice's pitch of shelf holes when not stated"`
	Board string `job:"board" doc:"board instead of the practice's for drawer sides"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "dividers", Doc: "removable upright dividers in slots", Where: fitting.InBay, New: func() fitting.Spec { return &Spec{Count: 3} }}
}

// Slots says that the boards above and below are slotted: stretchers are not enough.
func (*Spec) Slots() bool { return true }

// Claim wants no room.
func (*Spec) Claim(fitting.Env, fitting.Space) fitting.Claim { return fitting.Claim{} }

// Build makes slots and dividers.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	var r fitting.Result
	p := env.Practice
	at := "case/" + env.Owner + "/" + s.ID
	shop := joinery.Shop{Practice: p, Catalogue: env.Catalogue, Owner: env.Owner}
	id := cmp.Or(c.Board, p.BoxSide, p.ShelfBoard)
	board, ok := env.Catalogue.Board(id)
	tool, groove := shop.Groover()
	up, down := s.Walls[geom.Up], s.Walls[geom.Down]
	y0 := s.Setback(s.Box.Min.Z-down.Thickness, s.Box.Max.Z+up.Thickness) // the slots reach no further forward than their boards
	whole := func() fitting.Result {
		b := s.Bay(env, "dividers", "", s.Box)
		b.Box.Min.Y, b.Floor = y0, down.Part
		r.Bays = append(r.Bays, b)
		return r
	}
	high := low + lift
	why, hint := "", ""
	switch {
	case !ok:
		why, hint = fmt.Sprintf("board %q is not known", id), "name a board that is listed"
	case !groove:
		why, hint = "no tool of the shop makes slots", "list one with grooves: yes, or put partitions in, across:"
	case up.Part == "" || down.Part == "":
		why, hint = "there is no board above or below the bay for slots", "put a fixed shelf there"
	case up.Thickness < high+low+4*mm || down.Thickness < 2*low:
		why, hint = "the boards are too thin for slots", "take thicker boards for the carcass"
	}
	if why != "" {
		r.Findings.Add(finding.Finding{Code: NoSlots, Severity: finding.Error, At: at, Text: why + ": the dividers are left out", Hint: hint, Source: "common practice, no source"})
		return whole()
	}
	t := board.Thickness
	pitch := p.GridPitch
	if c.Pitch != nil {
		pitch = *c.Pitch
	}
	pitch = max(pitch, t+loose+web)
	var slots []L // left edges
	for x := pitch; x+t+loose <= s.Width()-web; x += pitch {
		slots = append(slots, x-(t+loose)/2)
	}
	// What the pitch leaves is shared by both sides, which keeps the outer slots clear of hinges.
	if k := len(slots); k > 0 {
		shift := (s.Width() - t - loose - slots[k-1] - slots[0]) / 2
		for i := range slots {
			slots[i] += shift
		}
	}
	// What holds the ends of the boards above and below lies in their ends.
	thin := min(up.Thickness, down.Thickness)
	ends := max(shop.InEnd(cmp.Or(env.Joint, p.Joint), thin), shop.InEnd(p.JointElse, thin), shop.InEnd("pocket-screw", thin)) + part.Web
	slots = slices.DeleteFunc(slots, func(x L) bool { return x < ends || x+t+loose > s.Width()-ends })
	n := c.Count
	if n > len(slots) {
		r.Findings.Add(finding.Finding{Code: TooMany, Severity: finding.Warning, At: at, Text: fmt.Sprintf("%d dividers and %d slots: %d are made", n, len(slots), len(slots)), Hint: "ask for fewer, or a smaller pitch", Source: "common practice, no source"})
		n = len(slots)
	}
	if len(slots) == 0 {
		return whole()
	}
	deep := s.Box.Max.Y - y0
	for _, x := range slots {
		for _, w := range []struct {
			d    geom.Dir
			z, h L
		}{{geom.Down, s.Box.Min.Z, low}, {geom.Up, s.Box.Max.Z, high}} {
			r.Bores = append(r.Bores, fitting.Bore{Wall: w.d, Kind: part.Groove, At: geom.V(s.Box.Min.X+x, y0, w.z), Size: geom.V(t+loose, deep, 0), Depth: w.h, Tool: tool, For: "divider slot"})
		}
	}
	left := s.Box.Min.X
	for i := 0; i <= n; i++ {
		box := geom.B(left, y0, s.Box.Min.Z, s.Box.Max.X, s.Box.Max.Y, s.Box.Max.Z)
		name := ""
		if i > 0 {
			name = fmt.Sprint(i + 1)
		}
		if i < n {
			k := spread(i, n, len(slots))
			x := s.Box.Min.X + slots[k] + loose/2
			local := fmt.Sprintf("%s-divider-%d", s.ID, i+1)
			q := fitting.Standing(local, part.Divider, fmt.Sprintf("divider %d", i+1), id, geom.B(x, y0, s.Box.Min.Z-low, x+t, s.Box.Max.Y, s.Box.Max.Z+low), geom.Back, s.Grain)
			q.Removable = true
			r.Parts = append(r.Parts, q)
			for _, w := range []struct {
				a      string
				z0, z1 L
			}{{down.Part, s.Box.Min.Z - low, s.Box.Min.Z}, {up.Part, s.Box.Max.Z, s.Box.Max.Z + low}} {
				r.Joints = append(r.Joints, part.Joint{Kind: part.Loose, A: w.a, B: local, Contact: geom.B(x, y0, w.z0, x+t, s.Box.Max.Y, w.z1)})
			}
			box.Max.X = x
			left = x + t
		}
		b := s.Bay(env, "dividers", name, box)
		b.Floor = down.Part
		r.Bays = append(r.Bays, b)
	}
	return r
}

// spread gives the slot, of so many, of the i-th of n dividers: evenly, the same from both sides.
func spread(i, n, slots int) int {
	if 2*i >= n {
		return slots - 1 - spread(n-1-i, n, slots)
	}
	return max(min((i+1)*(slots+1)/(n+1), slots-(n-i))-1, i)
}
