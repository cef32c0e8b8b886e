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
	for _, p := range s.of(o.ID).Parts {
		if p.Role == part.Leg {
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
	var ways []overturn
	for _, e := range []struct {
		name      string
		axis      int
		line, to  float64 // that it turns about, and 1 where it stands behind that towards higher places, -1 towards lower ones
		out, back float64 // of the edge past the line of the legs; of the bench's centre behind it
	}{
		{"front edge", 1, mm(stand.Min.Y) + in, 1, mm(stand.Min.Y-top.Min.Y) + in, c.y - mm(stand.Min.Y) - in},
		{"left end", 0, mm(stand.Min.X) + in, 1, mm(stand.Min.X-top.Min.X) + in, c.x - mm(stand.Min.X) - in},
		{"right end", 0, mm(stand.Max.X) - in, -1, mm(top.Max.X-stand.Max.X) + in, mm(stand.Max.X) - in - c.x},
	} {
		arm := func(v geom.Vec) float64 { return e.to * (mm(v.At(e.axis)) - e.line) }
		_, hold, count := s.inFloor(o, arm)
		x := finding.Finding{Code: TipOver, At: at, Demand: newtons(personKg) * math.Max(e.out, 0) / 1000, Capacity: (newtons(c.kg)*e.back + hold) / 1000, Unit: "N·m", Source: "statics; a person of 100 kg on the edge, common practice, no source"}
		slab := mm(top.Min.At(e.axis)+top.Max.At(e.axis)) / 2
		ways = append(ways, overturn{x.Demand, x.Capacity, e.to * (slab - e.line), c.kg, e.axis == 1, arm})
		if worst.Code != "" && worst.Ratio() >= x.Ratio() {
			continue
		}
		worst = verdict(x, finding.Error)
		worst.Text = fmt.Sprintf("%s with a person of %s on its %s, %s past its legs, tips with %s; its own weight holds %s.", o.Name, s.kg(personKg), e.name, s.long(e.out), s.turning(x.Demand), s.turning(newtons(c.kg)*e.back/1000))
		worst.Working = []string{
			fmt.Sprintf("%s × %s = %s.", s.force(newtons(personKg)), s.exact(e.out), s.turning(x.Demand)),
			fmt.Sprintf("It weighs %s empty, its centre %s behind that line: %s × %s = %s. Ratio %.2f.", s.kg(c.kg), s.exact(e.back), s.force(newtons(c.kg)), s.exact(e.back), s.turning(newtons(c.kg)*e.back/1000), worst.Ratio())}
		s.angled(&worst, hold, count)
	}
	list := finding.List{worst}
	more := s.shoved(o, stand, in, c, &list, unknown)
	for i := range list { // what mends the one is to mend the other
		if list[i].Verdict == finding.Fails {
			list[i].Hint = hint(append(append(s.heavierTop(o, append(ways, more...)), s.wider(o, append(ways, more...))...), s.angles(o, append(ways, more...))...))
		}
	}
	f.Add(list...)
}

// overturn is one way in which a bench would go over, N·m: what tips it, what its weight and its angles hold, how far its
// top's centre stands behind the line it turns about, mm, what it weighs, kg, whether that is from front to back, and how
// far a place is behind that line.
type overturn struct {
	tips, holds, slab, kg float64
	deep                  bool
	arm                   func(geom.Vec) float64
}

// overAll is the worst ratio of all ways, each changed.
func overAll(ways []overturn, change func(overturn) overturn) float64 {
	worst := 0.0
	for _, w := range ways {
		w = change(w)
		worst = math.Max(worst, w.tips/math.Max(w.holds, 1e-9))
	}
	return worst
}

// nearWall is how far before a wall a bench still leans on it when it is pushed there, mm: common practice, no source.
const nearWall = 100.0

// shoved judges a free bench whose hook board is pushed at its top with 222 N, into the room or from it, or along: the
// frame may hold to the bench and both go over together. Nothing where it has no hook board, or a wall holds that. It gives
// the ways in which they would.
func (s *Scene) shoved(o *part.Owner, stand geom.Box, in float64, bench body, f *finding.List, unknown *blank) (ways []overturn) {
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
			arm := func(v geom.Vec) float64 { return e.to * (mm(v.At(e.axis)) - e.line) }
			grips, hold, count := s.inFloor(o, arm)
			x := finding.Finding{Code: TipOver, At: at, Demand: lean * high / 1000, Capacity: (newtons(all.kg)*back + hold) / 1000, Unit: "N·m", Source: tipSource}
			if missing := x.Demand - x.Capacity; hold == 0 && grips > 0 && missing > 0 {
				need = math.Max(need, missing*1000/grips)
			}
			ways = append(ways, overturn{x.Demand, x.Capacity, e.to * (slab - e.line), all.kg, e.axis == 1, arm})
			if worst.Code != "" && worst.Ratio() >= x.Ratio() {
				continue
			}
			worst = verdict(x, finding.Error)
			worst.Text = fmt.Sprintf("%s with %s on it, pushed %s with %s at its top, %s over the floor, tips with %s; the weight of both, empty, holds %s.", o.Name, h.Name, e.way, s.pounds(lean), s.long(high), s.turning(x.Demand), s.turning(newtons(all.kg)*back/1000))
			worst.Working = []string{
				fmt.Sprintf("%s × %s over the floor = %s.", s.pounds(lean), s.exact(high), s.turning(x.Demand)),
				fmt.Sprintf("Both weigh %s, their centre %s from the line that they turn about: %s × %s = %s. Ratio %.2f.", s.kg(all.kg), s.exact(back), s.force(newtons(all.kg)), s.exact(back), s.turning(newtons(all.kg)*back/1000), worst.Ratio())}
			s.angled(&worst, hold, count)
		}
		if need > 0 { // it is held by what nobody knows
			unknown.add(fmt.Sprintf("what the angles at its legs hold in the floor, with %s on it pushed with %s at its top,", h.Name, s.pounds(lean)),
				fmt.Sprintf("Give rating: of floor-angle and of what holds it to the floor: each must hold %s, upwards. Until it is known nobody leans on the board.", s.force(need)), o.Name, at)
			continue
		}
		f.Add(worst)
	}
	return ways
}

// angled says in a finding what so many angles in the floor hold, N·mm, where they hold anything.
func (s *Scene) angled(x *finding.Finding, hold float64, count int) {
	if hold > 0 {
		x.Text += fmt.Sprintf(" The angles at its legs hold %s more.", s.turning(hold/1000))
		x.Working = append(x.Working, fmt.Sprintf("%s in the floor, each by its distance from that line: %s.", many(count, "angle"), s.turning(hold/1000)))
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

// angles is the remedy of angles at the legs of a bench that stands on them and has none: what they are to be rated for, so
// that it goes over in no way; nothing where no anchor is listed. Their holes are taken to be at the legs.
func (s *Scene) angles(o *part.Owner, ways []overturn) []string {
	if _, _, n := s.inFloor(o, func(geom.Vec) float64 { return 0 }); n > 0 || !s.onLegs(o) {
		return nil
	}
	need := 0.0
	for _, w := range ways {
		var list []screwed
		for _, p := range s.of(o.ID).Parts {
			if p.Role == part.Leg {
				b := p.Box()
				list = append(list, screwed{math.Min(w.arm(b.Min), w.arm(b.Max)), 1})
			}
		}
		if missing := (w.tips - w.holds) * 1000; missing > 0 {
			need = math.Max(need, missing/math.Max(turned(list, func(x screwed) float64 { return math.Max(x.at, 0) }), 1e-9))
		}
	}
	for _, h := range s.Job.Catalogue.Hardware {
		if kg := need / newtons(1); h.Kind == "anchor" && h.Use == "anchor" && (h.Sold == "both" || h.Sold == "") && kg < mostAngle {
			return []string{fmt.Sprintf("hold its legs to the floor by steel angles, floor: %s under free:, it and floor-angle with rating: %s or more (ratio 1.00)", h.ID, s.kg(math.Ceil(kg*10)/10))}
		}
	}
	return nil
}

// mostAngle is more than an angle or its anchor is rated for, kg: common practice, no source.
const mostAngle = 500.0

// onLegs reports whether a bench stands on its legs themselves.
func (s *Scene) onLegs(o *part.Owner) bool {
	for _, x := range s.of(o.ID).Feet {
		if x.Kind != "shim" {
			return false
		}
	}
	return true
}

// wider are the remedies of a bench that stands on legs further apart, deeper or longer by as much as brings its centre far
// enough behind the lines that it turns about; what it weighs more then is not counted. None past half as wide again.
func (s *Scene) wider(o *part.Owner, ways []overturn) (words []string) {
	for _, deep := range []bool{true, false} {
		axis, word := 0, "length"
		if deep {
			axis, word = 1, "depth"
		}
		size := mm(o.Carcass.Size().At(axis))
		for wide := math.Ceil(size/s.step()+1e-6) * s.step(); wide <= 1.5*size; wide += s.step() {
			r := overAll(ways, func(w overturn) overturn {
				if w.deep == deep {
					w.holds += newtons(w.kg) * (wide - size) / 2 / 1000
				}
				return w
			})
			if r <= 1 {
				words = append(words, fmt.Sprintf("make it larger, %s: %s (ratio %.2f)", word, s.long(wide), r))
				break
			}
		}
	}
	return words
}

// heavierTop is the remedy of more layers of the board that a bench's top is of, three at the most, which hold it down by
// their weight; nothing where they are not enough or what they weigh is not known.
func (s *Scene) heavierTop(o *part.Owner, ways []overturn) []string {
	kg, layers, board := 0.0, map[L]bool{}, ""
	for _, p := range s.of(o.ID).Parts {
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
	if len(layers) == 0 {
		return nil
	}
	kg /= float64(len(layers))
	for n := 1; n <= 3; n++ {
		r := overAll(ways, func(w overturn) overturn {
			w.holds += float64(n) * newtons(kg) * w.slab / 1000
			return w
		})
		if r <= 1 {
			return []string{fmt.Sprintf("glue %s of %s under its top, layers: (ratio %.2f)", many(n, "more layer"), board, r)}
		}
	}
	return nil
}
