package rules

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/place"
)

// Codes of the rule on what stands out from a wall.
const (
	// ClashObstacle: something stands where a pipe, curb, track, platform or casing is.
	ClashObstacle finding.Code = "clash-obstacle"
	// CutAway: something that may be cut away must be, from here to there.
	CutAway finding.Code = "cut-away"
	// Notched: cases are notched round something at the foot of the wall.
	Notched finding.Code = "notched"
)

func obstacles() Rule {
	return Rule{
		Name: "obstacles", Codes: []finding.Code{ClashObstacle, CutAway, Notched},
		Doc:     "Nothing stands where a curb, pipe, casing, door track or platform is, unless it is notched round it, which is told; skirting that may be cut is cut.",
		Source:  "geometry",
		Example: "A wall case 12 in deep under a door track that runs 9 in out from 82 in up.",
		Check:   checkObstacles,
	}
}

// aside are the ways in which something can be made clear of what stands out from a wall: along, out, or lower.
var aside = []geom.Dir{geom.Left, geom.Right, geom.Front, geom.Down}

func checkObstacles(s *Scene) finding.List {
	var f finding.List
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for _, o := range w.Obstacles {
			bs := o.Boxes(w)
			cutFrom, cutTo := L(place.Far), -L(place.Far)
			var notched []string
			for _, x := range s.Solids {
				if x.Owner.Standing || x.Owner.Wall != w.ID && !touches(s, w, bs, x) {
					continue
				}
				var parts, blocks []Box // that meet, in the frame of the obstacle's wall
				for _, b := range bs {
					if !w.Frame.Box(b).Meets(x.World) {
						continue
					}
					blocks = append(blocks, b)
					for _, p := range w.Frame.See(x.Frame, x.against(o)...) {
						if overlap(p, b) > touch {
							parts = append(parts, p)
							if x.Owner.Wall == w.ID {
								cutFrom, cutTo = min(cutFrom, max(o.Box.Min.X, x.Box.Min.X)), max(cutTo, min(o.Box.Max.X, x.Box.Max.X))
							}
						}
					}
				}
				worst := L(0)
				if len(parts) > 0 {
					worst = apart(parts, blocks, aside)
				}
				if !o.MayCut && x.notchedRound(o) && x.Owner.Wall == w.ID && !slices.Contains(notched, x.Name) && meet([]Box{whole(x.Parts)}, bs) {
					notched = append(notched, x.Name)
				}
				if worst == 0 || o.MayCut {
					continue
				}
				hint := "Make it less deep or less high there, set it out from the wall, or end it before."
				if x.Owner.Kind == "counter" && place.CounterNotchable(o.Kind) {
					hint += " A counter is notched by itself round what passes it from below to above, a quarter of its depth at most and half of its length."
				}
				f.Add(finding.Finding{Code: ClashObstacle, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: "geometry", Demand: mm(worst), Unit: "mm",
					Text: fmt.Sprintf("%s reaches %s into %s (%s on wall %s, %s out).", x.Name, s.in(worst), o.ID, o.Kind, w.ID, s.in(-o.Box.Min.Y)),
					Hint: hint})
			}
			if len(notched) > 0 {
				are := "is"
				if len(notched) > 1 {
					are = "are"
				}
				f.Add(finding.Finding{Code: Notched, Severity: finding.Note, At: "wall/" + w.ID, Source: "geometry",
					Text: fmt.Sprintf("%s %s notched round %s (%s, %s out).", strings.Join(notched, ", "), are, o.ID, o.Kind, s.in(-o.Box.Min.Y)),
					Hint: fmt.Sprintf("Or write off-wall: %s of the run: the cases stand clear of it without notches, as much further into the room, and packed at their screws.", s.in(-o.Box.Min.Y))})
			}
			if o.MayCut && cutTo > cutFrom {
				f.Add(finding.Finding{Code: CutAway, Severity: finding.Note, At: "wall/" + w.ID, Source: "geometry",
					Text: fmt.Sprintf("Cut away %s (%s) from %s to %s along.", o.ID, o.Kind, s.in(cutFrom), s.in(cutTo))})
			}
		}
	}
	return f
}

// notchedRound reports whether it is notched round obstacles of a kind.
func (x Solid) notchedRound(o place.Obstacle) bool {
	if x.Owner.Kind == "counter" {
		return x.notched() && place.CounterNotchable(o.Kind)
	}
	return x.notched() && place.Notchable(o.Kind)
}

// notched reports whether placing has asked for notches in a case.
func (x Solid) notched() bool { return x.Seat != nil && len(x.Seat.Site.Notches) > 0 }

// touches reports whether something of another wall meets any of the boxes.
func touches(s *Scene, w *place.Wall, bs []Box, x Solid) bool {
	if s.Room.Wall(x.Owner.Wall) == nil {
		return false
	}
	for _, b := range bs {
		if w.Frame.Box(b).Meets(x.World) {
			return true
		}
	}
	return false
}

// against gives the parts of a solid that an obstacle is held against: all, and only what moves
// where the case is notched round it.
func (x Solid) against(o place.Obstacle) []Box {
	if x.notchedRound(o) {
		return x.Carried
	}
	return x.Parts
}
