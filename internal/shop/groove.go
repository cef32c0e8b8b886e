package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Narrow parts with a groove along them are sawn as long strips that are crosscut: where everything that comes off a
// strip has the same groove, the strip is grooved; otherwise each part by itself, or the groove would run on into its
// neighbours of the strip.

// Common practice, no source.
const narrowBlank = 100 * length.MM // parts narrower than this are grooved as strips where that can be

// carried reports whether a part or strip so long is grooved under a longer offcut that carries it along the fence: nothing
// under cutlist.LeastHeld goes along a fence by itself, at whatever tool.
func carried(long length.Length) bool { return long < cutlist.LeastHeld }

// long reports whether a working is a groove or rabbet along its part.
func long(p part.Part, o part.Op) bool {
	return (o.Kind == part.Groove || o.Kind == part.Rabbet) && o.Face <= part.Lower && o.L > o.W && o.L >= p.Size[0]-o.W
}

// narrow reports whether a part is grooved along and narrow.
func narrow(p part.Part) bool {
	return p.Size[1] < narrowBlank && p.Material == part.Board && slices.ContainsFunc(p.Ops, func(o part.Op) bool { return long(p, o) })
}

// profile is what grooves along a part make of it seen from its end, whichever way it is turned; "" without any, and
// for one with a groove that ends in it.
func profile(p part.Part) string {
	var ways []string
	for turn := range 4 {
		var list []string
		for _, o := range p.Ops {
			if !long(p, o) {
				continue
			}
			if o.X > 0 || o.L < p.Size[0] {
				return ""
			}
			y, face := o.Y, o.Face
			if turn&1 != 0 {
				y = p.Size[1] - o.Y - o.W
			}
			if turn&2 != 0 {
				face = face.Not()
			}
			list = append(list, fmt.Sprint(face, y, o.W, o.Depth))
		}
		slices.Sort(list)
		ways = append(ways, strings.Join(list, " "))
	}
	return slices.Min(ways)
}

// grooves parts the narrow grooved parts of a sheet into those that come off one strip in which all have that groove, strip
// by strip, and those that are grooved by themselves.
func (s *steps) grooves(sheet int) (strips [][]string, alone []string) {
	sh := s.Plan.Sheets[sheet]
	at := map[cutting.Rect]int{} // of a strip in strips
	for k, m := range s.Marks[sheet] {
		p := s.parts[m]
		if !narrow(p) {
			continue
		}
		strip, ok := cutting.Rect{}, false
		if k < len(sh.Pieces) && profile(p) != "" {
			strip, ok = s.strip(sheet, k)
			ok = ok && !carried(max(strip.L, strip.W))
		}
		if !ok {
			alone = append(alone, m)
			continue
		}
		i, has := at[strip]
		if !has {
			i, at[strip] = len(strips), len(strips)
			strips = append(strips, nil)
		}
		strips[i] = append(strips[i], m)
	}
	return strips, alone
}

// strip gives the longest piece of a sheet that is as wide as one of its parts and crosscut to it, when all parts that come
// off it have that one's grooves and width.
func (s *steps) strip(sheet, k int) (strip cutting.Rect, ok bool) {
	sh := s.Plan.Sheets[sheet]
	across := sh.Pieces[k].Turned // its length runs up the sheet
	p := turned(sh.Pieces[k].Rect, across)
	for _, c := range sh.Cuts {
		of := turned(c.Of, across)
		if (c.Axis == cutting.X) != across && of.Y == p.Y && of.W == p.W && of.X <= p.X && of.X+of.L >= p.X+p.L && of.L > strip.L {
			strip, ok = of, true
		}
	}
	if !ok {
		return strip, false
	}
	want := profile(s.parts[s.Marks[sheet][k]])
	for i, q := range sh.Pieces {
		r := turned(q.Rect, across)
		if r.X < strip.X || r.X+r.L > strip.X+strip.L || r.Y < strip.Y || r.Y+r.W > strip.Y+strip.W {
			continue
		}
		if r.W != p.W || q.Turned != sh.Pieces[k].Turned || profile(s.parts[s.Marks[sheet][i]]) != want {
			return strip, false
		}
	}
	return turned(strip, across), true
}

// grooveSteps tells when and how the narrow parts of a sheet are grooved.
func (s *steps) grooveSteps(sheet int) (points []string) {
	strips, alone := s.grooves(sheet)
	if len(strips) > 0 {
		var list []string
		for _, x := range strips {
			list = append(list, brief(x))
		}
		points = append(points, fmt.Sprintf("Narrow, and all that comes off their strip is grooved alike: %s. Groove each of these strips (the setting stands under boring and grooving) when it has its width and before its pieces are cut off it: %s.", strings.Join(list, "; "), s.grooveBy(false)))
	}
	var short []string
	alone = slices.DeleteFunc(alone, func(m string) bool {
		if carried(s.parts[m].Size[0]) {
			short = append(short, m)
			return true
		}
		return false
	})
	if len(alone) > 0 {
		points = append(points, fmt.Sprintf("Narrow, and grooved one by one when they have their size, for what lies beside them in the sheet has no such groove: %s. %s.", brief(alone), capital(s.grooveBy(false))))
	}
	if len(short) > 0 {
		points = append(points, fmt.Sprintf("Narrow and under %s, grooved one by one: %s. %s.", s.in(cutlist.LeastHeld), brief(short), capital(s.grooveBy(true))))
	}
	return points
}

// grooveBy says how a narrow piece is held while it is grooved (common practice, no source).
func (s *steps) grooveBy(short bool) string {
	switch cutlist.BreakDown(s.Practice).Kind {
	case "table-saw", "panel-saw":
		if short {
			return "stick each with double-sided tape under a longer straight offcut, their edges flush, and push that along the fence"
		}
		return "hold it to the fence with a featherboard, and push it through with two push blocks that lie on it, never with bare hands: the blade is under it"
	}
	return fmt.Sprintf("it carries no tool by itself: lay it between two offcuts as thick as it, all stuck down with double-sided tape, so that the %s and what guides it lie on them", cmp.Or(s.groover(), "tool"))
}

// groover names what grooves are made with.
func (s *steps) groover() string {
	for _, p := range s.Assembly.Parts {
		for _, o := range p.Ops {
			if long(p, o) {
				return s.tool(o.Tool)
			}
		}
	}
	return ""
}
