package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/part"
)

// satOn judges a free bench with a person on an edge past its legs.
func (s *Scene) satOn(o *part.Owner, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	own, lacks := s.bodies(o.ID, false)
	if lacks = append(lacks, s.swings(o.ID)...); len(lacks) > 0 {
		for _, x := range lacks {
			unknown.add(x, "Give density of the material, or swivel: to the castor.", o.Name, at)
		}
		return
	}
	var stand geom.Box
	for i := range s.All.Parts {
		if p := &s.All.Parts[i]; p.Owner == o.ID && p.Role == part.Leg {
			if stand.Empty() {
				stand = p.Box()
			}
			stand = stand.Or(p.Box())
		}
	}
	in := 0.0
	for _, x := range s.All.Feet {
		if x.Owner == o.ID {
			in = math.Max(in, s.trail(x))
		}
	}
	c, top := sum(own), o.Carcass
	var worst finding.Finding
	for _, e := range []struct {
		name      string
		out, back float64 // of the edge past the line of the legs; of the bench's centre behind it
		slab      float64 // of its top's centre behind it
	}{
		{"front edge", mm(stand.Min.Y-top.Min.Y) + in, c.y - mm(stand.Min.Y) - in, mm(top.Min.Y+top.Max.Y)/2 - mm(stand.Min.Y) - in},
		{"left end", mm(stand.Min.X-top.Min.X) + in, c.x - mm(stand.Min.X) - in, mm(top.Min.X+top.Max.X)/2 - mm(stand.Min.X) - in},
		{"right end", mm(top.Max.X-stand.Max.X) + in, mm(stand.Max.X) - in - c.x, mm(stand.Max.X) - in - mm(top.Min.X+top.Max.X)/2},
	} {
		x := finding.Finding{Code: TipOver, At: at, Demand: newtons(personKg) * math.Max(e.out, 0) / 1000, Capacity: newtons(c.kg) * e.back / 1000, Unit: "N·m", Source: "statics; a person of 100 kg on the edge, common practice, no source"}
		if worst.Code != "" && worst.Ratio() >= x.Ratio() {
			continue
		}
		worst = verdict(x, finding.Error)
		worst.Text = fmt.Sprintf("%s with a person of %s on its %s, %s past its legs, tips with %s; its own weight holds %s.", o.Name, s.kg(personKg), e.name, s.long(e.out), s.turning(x.Demand), s.turning(x.Capacity))
		worst.Working = []string{
			fmt.Sprintf("%s × %s = %s.", s.force(newtons(personKg)), s.exact(e.out), s.turning(x.Demand)),
			fmt.Sprintf("It weighs %s empty, its centre %s behind that line: %s × %s = %s. Ratio %.2f.", s.kg(c.kg), s.exact(e.back), s.force(newtons(c.kg)), s.exact(e.back), s.turning(x.Capacity), worst.Ratio())}
		if worst.Verdict == finding.Fails {
			worst.Hint = hint(append(s.heavierTop(o, x, e.slab), "fix it to the wall or the floor"))
		}
	}
	x, ok, known := s.shoved(o, stand, in, c, unknown)
	if !known {
		return
	}
	if ok && x.Ratio() > worst.Ratio() {
		worst = x
	} else if ok { // what brings both over is worth knowing all the same
		worst.Text += " " + x.Text
		worst.Working = append(worst.Working, x.Working...)
	}
	f.Add(worst)
}

// nearWall is how far before a wall a bench still leans on it when it is pushed there, mm: common practice, no source.
const nearWall = 100.0

// shoved judges a free bench whose hook board is pulled at its top, into the room or from it, or along, as any case
// that stands free and in which nothing opens: the frame may hold to the bench and both go over together. The push
// that brings them over is told. Nothing where it has no hook board, or a wall holds that; known is false where the
// weight of one is not.
func (s *Scene) shoved(o *part.Owner, stand geom.Box, in float64, bench body, unknown *blank) (worst finding.Finding, ok, known bool) {
	for _, n := range s.Job.Hutches {
		h := s.owners[n.ID]
		if n.Value.On != o.ID || h == nil || h.Standing {
			continue
		}
		if len(s.held(h.ID)) > 0 {
			continue
		}
		own, lacks := s.bodies(h.ID, false)
		if len(lacks) > 0 {
			for _, x := range lacks {
				unknown.add(x, "Give density of the material.", o.Name, s.at(o.ID, ""))
			}
			return worst, false, false
		}
		all := sum(append(own, bench))
		high := mm(h.Box.Max.Z - o.Box.Min.Z)
		for _, e := range []struct {
			way  string
			back float64 // of the centre of both behind the line that they turn about
			slab float64 // of its top's centre behind it
		}{
			{"into the room", all.y - mm(stand.Min.Y) - in, mm(o.Carcass.Min.Y+o.Carcass.Max.Y)/2 - mm(stand.Min.Y) - in},
			{"from the room", mm(stand.Max.Y) - in - all.y, mm(stand.Max.Y) - in - mm(o.Carcass.Min.Y+o.Carcass.Max.Y)/2},
			{"to the left", all.x - mm(stand.Min.X) - in, mm(o.Carcass.Min.X+o.Carcass.Max.X)/2 - mm(stand.Min.X) - in},
			{"to the right", mm(stand.Max.X) - in - all.x, mm(stand.Max.X) - in - mm(o.Carcass.Min.X+o.Carcass.Max.X)/2},
		} {
			if e.way == "from the room" && o.Wall != "" && mm(o.Box.Max.Y) > -nearWall {
				continue // the wall is there
			}
			x := finding.Finding{Code: TipOver, At: s.at(o.ID, ""), Demand: pullTop * math.Min(high, pullHigh) / 1000, Capacity: newtons(all.kg) * math.Max(e.back, 0) / 1000, Unit: "N·m", Source: tipSource}
			if ok && worst.Capacity <= x.Capacity {
				continue
			}
			worst, ok = verdict(x, finding.Error), true
			worst.Text = fmt.Sprintf("%s with %s on it, pulled %s at its top, tips with %s; the weight of both, empty, holds %s.", o.Name, h.Name, e.way, s.turning(x.Demand), s.turning(x.Capacity))
			over := x.Capacity * 1000 / high
			if over < lean {
				worst.Text += fmt.Sprintf(" A push of %s at the top brings both over: where somebody may lean on the board, fix the bench to the wall or the floor.", s.force(over))
			}
			worst.Working = []string{
				fmt.Sprintf("%s × %s over the floor = %s.", s.pounds(pullTop), s.exact(math.Min(high, pullHigh)), s.turning(x.Demand)),
				fmt.Sprintf("At its top, %s over the floor, a push of %s brings both over.", s.exact(high), s.force(over)),
				fmt.Sprintf("Both weigh %s, their centre %s from the line that they turn about: %s × %s = %s. Ratio %.2f.", s.kg(all.kg), s.exact(e.back), s.force(newtons(all.kg)), s.exact(e.back), s.turning(x.Capacity), worst.Ratio())}
			if worst.Verdict == finding.Fails {
				worst.Hint = hint(append(s.heavierTop(o, x, e.slab), "fix the bench or its hook board to the wall, or its legs to the floor"))
			}
		}
	}
	return worst, ok, true
}

// heavierTop is the remedy of more layers of the board that a bench's top is of, three at the most, which hold it down by
// their weight, slab mm behind the line that it turns about; nothing where they are not enough or what they weigh is not known.
func (s *Scene) heavierTop(o *part.Owner, x finding.Finding, slab float64) []string {
	kg, layers, board := 0.0, map[L]bool{}, ""
	for _, p := range s.of(o.ID).parts {
		if p.Role != part.CounterLayer {
			continue
		}
		m, ok := s.weight(p)
		if !ok {
			return nil
		}
		kg, board = kg+m, p.Stock
		layers[p.Box().Min.Z] = true
	}
	if len(layers) == 0 || slab <= 0 {
		return nil
	}
	kg /= float64(len(layers))
	for n := 1; n <= 3; n++ {
		if r := x.Demand / (x.Capacity + float64(n)*newtons(kg)*slab/1000); r <= 1 {
			return []string{fmt.Sprintf("glue %s of %s under its top, layers: (ratio %.2f)", many(n, "more layer"), board, r)}
		}
	}
	return nil
}
