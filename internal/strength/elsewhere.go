package strength

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/place"
	"stowright/internal/stock"
)

// mostLooks bounds how many things in the way are looked at, over all goods.
const mostLooks = 5_000_000

// doorStep is how far before a door the floor stays free of what is put down (common practice, no source).
const doorStep = 24 * length.Inch

// elsewhere says whether there is room for goods that no bay, counter or standing thing holds: along the walls on the floor
// or in the open, on the walls for what hangs from a hook, bracket or rail, and on the benches. The largest are put down
// first, each in the shortest stretch that takes all of them, or in as many as it needs; what the first ones take is not
// there for the others. Where too little is found, whether the rest of the room has more is not known.
func (s *Scene) elsewhere(list []apart, f *finding.List, unknown, levels *blank) {
	order.Stable(list, func(a, b apart) int { return cmp.Compare(b.bulk(), a.bulk()) })
	taken := map[string][]geom.Box{}
	for _, a := range list {
		g, at := a.goods, a.at
		switch {
		case g.Place == "": // said of all of them in one line
			continue
		case len(sizes(g)) == 0:
			unknown.add("the size of "+called(g), "Measure one: width, depth and height, or diameter and height.", called(g), at)
		case g.Place == "bench" && !slices.ContainsFunc(s.Room.Seats, func(x place.Seat) bool { return x.Kind == place.Counter }):
			unknown.add("which bench "+called(g)+" stand on", "Say the counter, or the standing thing, in place:.", called(g), at)
		case len(s.Room.Walls) == 0:
			unknown.add("which wall there is for what is put "+kept(g.Place), "Survey the wall, or list them under a bay, a counter or a hook board.", called(g), at)
		case s.looked > mostLooks:
			unknown.add("where there is room for all that no bay holds: they are too many kinds, and no more of them are looked for", "List them under a bay, a counter or a hook board.", called(g), at)
		default:
			if left := s.putApart(a, taken, f); left == 0 && g.Place != "floor" && g.Place != "open" && g.Place != "bench" {
				continue // as high as below: and above: ask
			}
		}
		if a.over || g.Below == nil && g.Above == nil {
			continue
		}
		if g.Place != "floor" || g.Tall == nil {
			levels.add("where on the "+g.Place+" they are", "List them under a bay, a counter or a hook board.", called(g), at)
			continue
		}
		f.Add(s.level(g, 0, mm(*g.Tall), at, "on the floor"))
	}
}

// apart is so many of some goods that are put where no bay is.
type apart struct {
	goods *stock.Goods
	n     int
	at    string
	over  bool // others of the kind are in bays
}

// bulk is how much room they take in all, mm3.
func (a apart) bulk() float64 {
	v := sizes(a.goods)
	if len(v) == 0 {
		return 0
	}
	return v[0][0] * v[0][1] * v[0][2] * float64(a.n)
}

// outMost is how far out from a wall what is hung edge on may reach (common practice, no source).
const outMost = 600.0

// onWall gives the ways in which one hangs against a wall, mm: as it is stored, and edge on where that does not reach far
// into the room; what is round and flat hangs with its face to the wall.
func onWall(g *stock.Goods) [][3]float64 {
	if g.Dia != nil && g.Tall != nil && *g.Tall < *g.Dia {
		d, t := mm(*g.Dia), mm(*g.Tall)
		if d > outMost {
			return [][3]float64{{d, t, d}}
		}
		return [][3]float64{{d, t, d}, {t, d, d}}
	}
	all := sizes(g)
	if all[1][1] > outMost {
		return all[:1]
	}
	return all[:2]
}

// stretch is where some goods can stand or hang side by side.
type stretch struct {
	where    string // of what: a wall or a counter
	wall     string
	from, to L
	y0, y1   L // out from the wall, and its rear
	z0       L
	wide     L // of one
	high     L
	levels   int // on each other
}

// holds is how many go there, none in the zero stretch.
func (t stretch) holds() int {
	if t.wide == 0 {
		return 0
	}
	return int((t.to-t.from+1)/t.wide) * t.levels
}

// putApart finds room for one kind and says what there is; it gives how many find none.
func (s *Scene) putApart(a apart, taken map[string][]geom.Box, f *finding.List) (left int) {
	g := a.goods
	left = a.n
	var places []string
	for left > 0 {
		best, ok := s.stretchFor(g, left, taken)
		if !ok {
			break
		}
		n := min(left, best.holds())
		columns := L((n + best.levels - 1) / best.levels)
		end := best.from + columns*best.wide
		places = append(places, fmt.Sprintf("%d from %s to %s along %s", n, s.long(mm(best.from)), s.long(mm(end)), best.where))
		taken[best.wall] = append(taken[best.wall], geom.B(best.from, best.y0, best.z0, end, best.y1, best.z0+best.high*L(best.levels)))
		left -= n
	}
	if len(places) > 4 {
		places = append(places[:4], "and more")
	}
	many := fmt.Sprintf("%d × %s, %s each, %s", a.n, called(g), s.measures(sizes(g)[0]), kept(g.Place))
	x := finding.Finding{Code: GoodsRoom, At: a.at, Severity: finding.Note, Verdict: finding.Holds, Capacity: float64(a.n - left), Unit: "things", Source: goodsSource}
	switch {
	case left == 0:
		x.Text = fmt.Sprintf("%s: there is room for %s.", many, strings.Join(places, "; "))
	case len(places) == 0:
		x.Text = fmt.Sprintf("%s: nowhere along the surveyed walls is there room for one; whether the room has another place is not known.", many)
	default:
		x.Text = fmt.Sprintf("%s: room is known for %d, %s; whether the room has more is not known.", many, a.n-left, strings.Join(places, "; "))
	}
	if left > 0 {
		x.Verdict, x.Demand, x.Capacity, x.Unit = finding.NotKnown, 0, 0, ""
		x.Hint = "Leave a space for them in a run, space:, list them under a bay, a counter or a hook board, or see that they have their place."
	}
	x.Working = []string{x.Text}
	f.Add(x)
	return left
}

// stretchFor gives the shortest free stretch that takes so many of some goods, the one that takes most where none does.
func (s *Scene) stretchFor(g *stock.Goods, n int, taken map[string][]geom.Box) (best stretch, ok bool) {
	better := func(t stretch) {
		if t.holds() == 0 {
			return
		}
		a, b := t.holds() >= n, ok && best.holds() >= n
		switch {
		case !ok, a && !b, a && b && t.to-t.from < best.to-best.from, !a && !b && t.holds() > best.holds():
			best, ok = t, true
		}
	}
	ways := sizes(g) // as they are stored, turned round, and then as else they may lie
	if g.Place == "hook" || g.Place == "bracket" || g.Place == "rail" {
		ways = onWall(g)
	}
	for _, v := range ways {
		if ok && best.holds() >= n {
			break
		}
		wide, deep, high := ticks(v[0]), ticks(v[1]), ticks(v[2])
		up := max(1, g.Stack)
		switch g.Place {
		case "bench":
			for i := range s.Room.Seats {
				c := &s.Room.Seats[i]
				w := s.Room.Wall(c.Wall)
				if c.Kind != place.Counter || w == nil || c.Box.Max.Y-c.Box.Min.Y < deep {
					continue
				}
				t := stretch{where: s.called(c.ID), wall: w.ID, y0: c.Box.Min.Y, y1: c.Box.Min.Y + deep, z0: c.Box.Max.Z, wide: wide, high: high, levels: up}
				for _, u := range s.free(w, t, c.Box.Min.X, c.Box.Max.X, taken) {
					better(u)
				}
			}
		case "hook", "bracket", "rail":
			for i := range s.Room.Walls {
				w := &s.Room.Walls[i]
				for _, z := range s.levelsOf(w, high, g) {
					t := stretch{where: "wall " + w.ID + ", " + s.long(mm(z)) + " up", wall: w.ID, y0: -deep, z0: z, wide: wide, high: high, levels: 1}
					for _, u := range s.free(w, t, 0, w.Length, taken) {
						better(u)
					}
					if ok && best.wall == w.ID && best.holds() >= n {
						break
					}
				}
			}
		default: // floor, open
			for i := range s.Room.Walls {
				w := &s.Room.Walls[i]
				if s.Room.Depth != nil && s.Room.Aisle != nil && i == 0 && deep > *s.Room.Depth-*s.Room.Aisle {
					continue
				}
				t := stretch{where: "wall " + w.ID, wall: w.ID, y0: -deep, z0: w.High(0, w.Length, -deep, 0), wide: wide, high: high, levels: up}
				for _, u := range s.free(w, t, 0, w.Length, taken) {
					better(u)
				}
			}
		}
	}
	return best, ok
}

func ticks(v float64) L { return L(math.Ceil(v * float64(length.MM))) }

// levelsOf gives how high on a wall the lower end of what hangs can be: over everything that is there, and from the
// floor up every hand's breadth, under the ceiling and as below: and above: say.
func (s *Scene) levelsOf(w *place.Wall, high L, g *stock.Goods) (list []L) {
	floor := w.High(0, w.Length, 0, 0)
	top := w.Height
	if top == 0 {
		top = floor + 84*length.Inch
	}
	if g.Below != nil {
		top = min(top, floor+*g.Below)
	}
	low := floor
	if g.Above != nil {
		low = floor + *g.Above
	}
	// What is looked at first is nearest to a hand that hangs it up (common practice, no source).
	const hand = 48 * length.Inch
	for z := low; z+high <= top; z += 4 * length.Inch {
		list = append(list, z)
	}
	for i := range s.Room.Seats {
		if z := s.Room.Seats[i].Box.Max.Z; s.Room.Seats[i].Wall == w.ID && z >= low && z+high <= top && !slices.Contains(list, z) {
			list = append(list, z)
		}
	}
	order.Stable(list, func(a, b L) int { return cmp.Compare((a + high/2 - hand).Abs(), (b + high/2 - hand).Abs()) })
	return list
}

// free gives the stretches between two places of a wall in which nothing meets what is put there.
func (s *Scene) free(w *place.Wall, t stretch, lo, hi L, taken map[string][]geom.Box) (list []stretch) {
	type span struct{ from, to L }
	var full []span
	high := t.z0 + t.high*L(t.levels)
	if c, ok := w.CeilingAt(lo); ok && t.levels > 1 { // a stack is no higher than the room
		t.levels = max(1, min(t.levels, int((c-t.z0)/t.high)))
		high = t.z0 + t.high*L(t.levels)
	}
	all := slices.Concat(s.inTheWay(w), taken[w.ID])
	s.looked += len(all)
	for _, b := range all {
		if b.Max.Z > t.z0+slackTicks && b.Min.Z < high-slackTicks && b.Max.Y > t.y0+slackTicks && b.Min.Y < t.y1-slackTicks {
			full = append(full, span{b.Min.X, b.Max.X})
		}
	}
	order.Stable(full, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	at := lo
	put := func(from, to L) {
		if to-from >= t.wide {
			u := t
			u.from, u.to = from, to
			list = append(list, u)
		}
	}
	for _, x := range full {
		put(at, min(x.from, hi))
		at = max(at, x.to)
	}
	put(at, hi)
	return list
}

// slackTicks is what may overlap.
const slackTicks = length.MM

// inTheWay gives all that takes room at a wall, in its frame: what stands and hangs there and round the corner, what doors
// and drawers sweep, openings and the step before a door, areas to be kept clear, what stands out of the wall, and things
// and cars in the room.
func (s *Scene) inTheWay(w *place.Wall) (list []geom.Box) {
	if s.ways == nil {
		s.ways = map[string][]geom.Box{}
	}
	if b, ok := s.ways[w.ID]; ok {
		return b
	}
	see := func(wall string, b geom.Box) {
		if o := s.Room.Wall(wall); o != nil {
			list = append(list, w.Frame.See(o.Frame, b)...)
		}
	}
	for i := range s.Room.Seats {
		x := &s.Room.Seats[i]
		b := x.Box
		if x.Kind == place.Counter && len(x.Pieces) == 0 { // legs
			b.Min.Z = x.Level
		}
		if !x.Hung && x.Kind != place.Counter && x.Kind != place.Hutch && x.Kind != place.Machine {
			b.Min.Z = min(b.Min.Z, x.Level-12*length.Inch)
		}
		see(x.Wall, b)
		for _, k := range x.Knees {
			if k.Want.Sits || k.Want.For != "" {
				see(x.Wall, geom.B(k.From, x.Box.Min.Y, x.Level-12*length.Inch, k.To, x.Rear, x.Box.Max.Z))
			}
		}
	}
	for i := range s.All.Motions {
		m := &s.All.Motions[i]
		if o := s.owners[m.Owner]; o != nil {
			see(o.Wall, m.Swept)
		}
	}
	for i := range s.Room.Walls {
		o := &s.Room.Walls[i]
		for _, x := range o.Openings {
			b := x.Box
			b.Min.X, b.Max.X = b.Min.X-x.Casing, b.Max.X+x.Casing
			b.Min.Y, b.Max.Y = -6*length.Inch, 0
			if x.Kind != "window" {
				b.Min.Y = -doorStep
				if x.In {
					b.Min.Y = min(b.Min.Y, -(x.Box.Max.X - x.Box.Min.X))
				}
				b.Min.Z -= 12 * length.Inch
			}
			see(o.ID, b)
		}
		for _, x := range o.Clear {
			see(o.ID, x.Body)
			see(o.ID, x.Space)
		}
		for _, x := range o.Obstacles {
			if x.Kind == "skirting" || x.Kind == "casing" { // no thicker than what is put before it gives way
				continue
			}
			for _, b := range x.Boxes(o) {
				see(o.ID, b)
			}
		}
	}
	for _, e := range s.Job.File.Room.Fixed {
		t := e.Value
		if o := s.wallNamed(t.Wall); o != nil {
			h := t.Across / 2
			see(o.ID, geom.B(t.At-h, -t.Out-h, -length.Foot, t.At+h, -t.Out+h, place.Far))
		}
	}
	for _, e := range s.Job.File.Room.Cars {
		c := e.Value
		if o := s.wallNamed(c.Wall); o != nil {
			see(o.ID, geom.B(c.From, -c.Out-c.Width, -length.Foot, c.From+c.Length, -c.Out, 80*length.Inch))
		}
	}
	s.ways[w.ID] = list
	return list
}

// wallNamed gives a wall, the first one for none.
func (s *Scene) wallNamed(id string) *place.Wall {
	if id == "" && len(s.Room.Walls) > 0 {
		return &s.Room.Walls[0]
	}
	return s.Room.Wall(id)
}
