package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/part"
	"stowright/internal/stock"
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
	f.Add(worst)
	s.shoved(o, stand, in, c, f, unknown)
}

// nearWall is how far before a wall a bench still leans on it when it is pushed there, mm: common practice, no source.
const nearWall = 100.0

// shoved judges a free bench whose hook board is pushed at its top with 222 N, into the room or from it, or along: the
// frame may hold to the bench and both go over together. Nothing where it has no hook board, or a wall holds that.
func (s *Scene) shoved(o *part.Owner, stand geom.Box, in float64, bench body, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	for _, n := range s.Job.Hutches {
		h := s.owners[n.ID]
		if n.Value.On != o.ID || h == nil || h.Standing || len(s.held(h.ID)) > 0 {
			continue
		}
		own, lacks := s.bodies(h.ID, false)
		if len(lacks) > 0 {
			for _, x := range lacks {
				unknown.add(x, "Give density of the material.", o.Name, at)
			}
			continue
		}
		all, top := sum(append(own, bench)), o.Carcass
		high := mm(h.Box.Max.Z - o.Box.Min.Z)
		var worst finding.Finding
		need := 0.0 // of the angle that pulls most, N
		for _, e := range []struct {
			way  string
			axis int
			line float64 // that they turn about
			to   float64 // 1 where they stand behind it towards higher places, -1 towards lower ones
		}{
			{"into the room", 1, mm(stand.Min.Y) + in, 1},
			{"from the room", 1, mm(stand.Max.Y) - in, -1},
			{"to the left", 0, mm(stand.Min.X) + in, 1},
			{"to the right", 0, mm(stand.Max.X) - in, -1},
		} {
			if e.way == "from the room" && o.Wall != "" && mm(o.Box.Max.Y) > -nearWall {
				continue // the wall is there
			}
			centre, slab := all.y, mm(top.Min.Y+top.Max.Y)/2
			if e.axis == 0 {
				centre, slab = all.x, mm(top.Min.X+top.Max.X)/2
			}
			back := math.Max(e.to*(centre-e.line), 0)
			grips, hold, count := s.inFloor(o, func(v geom.Vec) float64 { return e.to * (mm(v.At(e.axis)) - e.line) })
			x := finding.Finding{Code: TipOver, At: at, Demand: lean * high / 1000, Capacity: (newtons(all.kg)*back + hold) / 1000, Unit: "N·m", Source: tipSource}
			if missing := x.Demand - x.Capacity; hold == 0 && grips > 0 && missing > 0 {
				need = math.Max(need, missing*1000/grips)
			}
			if worst.Code != "" && worst.Ratio() >= x.Ratio() {
				continue
			}
			worst = verdict(x, finding.Error)
			worst.Text = fmt.Sprintf("%s with %s on it, pushed %s with %s at its top, %s over the floor, tips with %s; the weight of both, empty, holds %s.", o.Name, h.Name, e.way, s.pounds(lean), s.long(high), s.turning(x.Demand), s.turning(newtons(all.kg)*back/1000))
			worst.Working = []string{
				fmt.Sprintf("%s × %s over the floor = %s.", s.pounds(lean), s.exact(high), s.turning(x.Demand)),
				fmt.Sprintf("Both weigh %s, their centre %s from the line that they turn about: %s × %s = %s. Ratio %.2f.", s.kg(all.kg), s.exact(back), s.force(newtons(all.kg)), s.exact(back), s.turning(newtons(all.kg)*back/1000), worst.Ratio())}
			if hold > 0 {
				worst.Text += fmt.Sprintf(" The angles at its legs hold %s more.", s.turning(hold/1000))
				worst.Working = append(worst.Working, fmt.Sprintf("%s in the floor, each by its distance from that line: %s.", many(count, "angle"), s.turning(hold/1000)))
			}
			if worst.Verdict == finding.Fails {
				words := s.heavierTop(o, x, e.to*(slab-e.line))
				if count == 0 && s.onLegs(o) {
					words = append(words, s.angles(o, (x.Demand-x.Capacity)*1000, func(v geom.Vec) float64 { return e.to * (mm(v.At(e.axis)) - e.line) })...)
				}
				worst.Hint = hint(words)
			}
		}
		if need > 0 { // it is held by what nobody knows
			unknown.add(fmt.Sprintf("what the angles at its legs hold in the floor, with %s on it pushed with %s at its top,", h.Name, s.pounds(lean)),
				fmt.Sprintf("Give rating: of floor-angle and of what holds it to the floor: each must hold %s, upwards. Until it is known nobody leans on the board.", s.force(need)), o.Name, at)
			continue
		}
		f.Add(worst)
	}
}

// inFloor measures the angles that hold a bench's legs to the floor about a line, which they are arm from: the moment, N·mm,
// of one newton at the farthest, what they hold by their rating, 0 where that is not known, and how many there are.
func (s *Scene) inFloor(o *part.Owner, arm func(geom.Vec) float64) (one, holds float64, count int) {
	angle, _ := s.Job.Catalogue.Item(part.FloorAngle)
	known, least := true, math.Inf(1)
	var list []screwed
	for _, x := range s.All.Fixings {
		if x.Owner != o.ID || x.Kind != part.ToFloor {
			continue
		}
		count++
		list = append(list, screwed{arm(x.At), 1})
		item, _ := s.Job.Catalogue.Item(x.Screw)
		for _, r := range []*stock.Mass{angle.Rating, item.Rating} {
			if known = known && r != nil; r != nil {
				least = math.Min(least, newtons(r.Kilograms()))
			}
		}
	}
	if len(list) == 0 {
		return 0, 0, 0
	}
	one = turned(list, func(x screwed) float64 { return x.at })
	if known {
		holds = one * least
	}
	return one, holds, count
}

// angles is the remedy of angles at the legs of a bench that hold a moment, N·mm, about a line which places are arm from,
// and what they are to be rated for; nothing where no anchor is listed. Their holes are taken to be at the legs.
func (s *Scene) angles(o *part.Owner, missing float64, arm func(geom.Vec) float64) []string {
	var list []screwed
	for _, p := range s.of(o.ID).parts {
		if p.Role == part.Leg {
			b := p.Box()
			list = append(list, screwed{math.Min(arm(b.Min), arm(b.Max)), 1})
		}
	}
	grips := turned(list, func(x screwed) float64 { return math.Max(x.at, 0) })
	for _, h := range s.Job.Catalogue.Hardware {
		if h.Kind == "anchor" && h.Use == "anchor" && (h.Sold == "both" || h.Sold == "") && grips > 0 {
			return []string{fmt.Sprintf("hold its legs to the floor by steel angles, floor: %s under free:, it and floor-angle with rating: %s or more", h.ID, s.kg(math.Ceil(missing/grips/newtons(1)*10)/10))}
		}
	}
	return nil
}

// onLegs reports whether a bench stands on its legs themselves.
func (s *Scene) onLegs(o *part.Owner) bool {
	for _, x := range s.All.Feet {
		if x.Owner == o.ID && x.Kind != "shim" {
			return false
		}
	}
	return true
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
