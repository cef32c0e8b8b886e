package strength

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// stow finds room for the goods in the bays and on the tops that the job lists them under. They stand in lanes from
// front to back, as high as they may be stacked; lanes lie side by side, and what a kind leaves of a lane others may
// take. What hangs on a rail hangs side by side, bored holes take one each, and no bay takes more than the load stated
// for it. A kind goes first where all of its
// wants are kept: its size, its below: and above:, a lock, the reach of who uses it; and is spread there evenly. When
// something is left over then, or wants are not kept, the kinds are put away in another order, and bays are filled one
// after the other instead of evenly; the best of these ways counts, and what its rows leave room for is then spread evenly
// over the bays that are as good.
func (s *Scene) stow() {
	s.list()
	s.spotsOf, s.lying = map[*stock.Goods][]spot{}, map[string][]stored{}
	for _, w := range s.listed {
		if p, ok := s.spot(w); ok {
			s.spotsOf[w.goods] = append(s.spotsOf[w.goods], p)
		}
		if w.bay != nil {
			s.lying[w.bay.Floor] = append(s.lying[w.bay.Floor], w)
		}
	}
	s.put = map[*stock.Goods][]stored{}
	for _, group := range s.groups() {
		// Shares do not hang on what is stated to be carried, or heavier goods would make a board's load less.
		by := best(group, false)
		in := by
		if slices.ContainsFunc(group, kind.limited) {
			in = best(group, true)
		}
		for i := range by {
			s.put[by[i].goods] = by[i].stored()
			for n := range in {
				if in[n].goods == by[i].goods {
					s.put[by[i].goods] = in[n].counted(s.put[by[i].goods])
				}
			}
		}
	}
	for i := range s.Job.Goods {
		g := &s.Job.Goods[i]
		s.reckon(g, s.put[g])
		s.where = append(s.where, s.put[g]...)
	}
}

// reckon says how many of some goods each of their places is reckoned with: as they are put away, and shared out. What
// finds no room is shared out in both, so that its weight is not forgotten; not what the job then keeps where no bay is.
func (s *Scene) reckon(g *stock.Goods, list []stored) {
	n, left := max(g.Count, 1), max(g.Count, 1)
	for _, w := range list {
		left -= w.count
	}
	if len(list) > 0 && s.elseKept(g) {
		n, left = n-left, 0
	}
	for i := range list {
		w := &list[i]
		w.put, w.even = float64(w.count)+w.share*float64(left), w.share*float64(n)
	}
}

// best puts kinds away, each upright where it can stand, and only when some find no room so others on their sides too,
// as few kinds as will do; loads says whether stated loads count.
func best(group []kind, loads bool) []kind {
	upright := make([]bool, len(group))
	for i := range upright {
		upright[i] = true
	}
	found, least := tried(group, upright, loads)
	if least < noRoom {
		return found
	}
	lying, n := tried(group, make([]bool, len(group)), loads)
	if n >= noRoom {
		if n < least {
			return lying
		}
		return found
	}
	found, upright = lying, make([]bool, len(group))
	for i := range group {
		upright[i] = true
		if k, n := tried(group, upright, loads); n < noRoom {
			found = k
		} else {
			upright[i] = false
		}
	}
	return found
}

// tried puts kinds away in the best of the ways that are tried, those that are to stand upright where they can, and says how
// bad it is.
func tried(group []kind, upright []bool, loads bool) (found []kind, least int) {
	least = math.MaxInt
	for _, oneByOne := range []bool{false, true} {
		for _, by := range []ordering{byChoice, byUse, byWidth} {
			k := afresh(group, upright)
			inOrder(k, by)
			if n := fill(k, oneByOne, loads); n < least {
				found, least = k, n
			}
			if least == 0 {
				return found, least
			}
		}
	}
	return found, least
}

// limited says whether a load is stated for a place that a kind may go to.
func (k kind) limited() bool {
	return slices.ContainsFunc(k.spots, func(p spot) bool { return p.bay != nil && p.bay.Load > 0 })
}

// counted says how many of a kind are in each place of a list, and adds those that are not in it.
func (k *kind) counted(list []stored) []stored {
	for i := range list {
		list[i].count, list[i].how = 0, posture{}
	}
	type place struct {
		bay   *part.Bay
		owner string
	}
	first := map[place]int{}
	for i, w := range list {
		if _, ok := first[place{w.bay, w.owner}]; !ok {
			first[place{w.bay, w.owner}] = i
		}
	}
	for n, p := range k.spots {
		i, ok := first[place{p.bay, p.owner}]
		switch {
		case ok:
			list[i].count += k.counts[n]
			list[i].how.add(k.how[n])
		case k.counts[n] > 0:
			w := p.stored
			w.share, w.count, w.how = 0, k.counts[n], k.how[n]
			first[place{p.bay, p.owner}] = len(list)
			list = append(list, w)
		}
	}
	return list
}

// list finds every bay and top that the job lists goods under; shares are by area.
func (s *Scene) list() {
	nodes := s.nodes()
	bays := make([][]*part.Bay, len(nodes))
	named := map[string][]int{} // nodes by the goods that they name
	for i, n := range nodes {
		bays[i] = s.under(n)
		for _, g := range n.goods {
			if list := named[g]; len(list) == 0 || list[len(list)-1] != i {
				named[g] = append(list, i)
			}
		}
	}
	for i := range s.Job.Goods {
		g := &s.Job.Goods[i]
		first, all := len(s.listed), 0.0
		seen := map[*part.Bay]bool{}
		for _, k := range named[g.ID] {
			n, bays := nodes[k], bays[k]
			for _, b := range bays {
				if !seen[b] {
					seen[b] = true
					s.listed = append(s.listed, stored{goods: g, bay: b, owner: n.owner, share: area(b)})
				}
			}
			if o := s.owners[n.owner]; len(bays) == 0 && o != nil {
				v := o.Box.Size()
				s.listed = append(s.listed, stored{goods: g, owner: n.owner, share: mm(v.X) * mm(v.Y) / 1e6})
			}
		}
		for _, w := range s.listed[first:] {
			all += w.share
		}
		if all <= 0 {
			s.listed = s.listed[:first]
		}
		for k := range s.listed[first:] {
			s.listed[first+k].share /= all
		}
	}
}

// column is how most of some goods stand in a place by themselves: side by side in lanes of a width, each of them
// holding so many. A hole is a lane of width 1 for one thing.
type column struct {
	wide, all float64 // mm; all of what the place has
	each      int     // in one lane; 0 when none goes in
	levels    int     // of these, on each other
	deep      float64 // of one thing, mm
	lying     bool    // on its side
	up        float64 // of one thing as it is put down, mm
}

// holds is how many things go in while so much width is free.
func (c column) holds(free float64) int {
	switch {
	case c.each == 0 || c.wide > 0 && free+slack < c.wide:
		return 0
	case c.wide == 0:
		return c.each
	}
	return int((free+slack)/c.wide) * c.each
}

func (p *spot) column(g *stock.Goods) (best column) {
	if p.bay != nil && len(p.bay.Places) > 0 {
		n := 0
		for _, x := range p.bay.Places {
			if g.Dia == nil || x.Dia == 0 || mm(x.Dia)+slack >= mm(*g.Dia) {
				n++
			}
		}
		if n == 0 || g.Tall != nil && !slices.ContainsFunc(sizes(g), p.fits) {
			return best
		}
		return column{wide: 1, all: float64(n), each: 1}
	}
	for _, v := range p.sizes(g) {
		if !p.fits(v) {
			continue
		}
		c := column{wide: v[0], all: p.size[0]}
		switch {
		case p.solid: // how it is divided is not known
			return column{each: math.MaxInt32}
		case p.hooks():
			c.each = int((p.size[2] + slack) / v[2])
		case p.bay != nil && p.bay.Hung:
			c.each = 1
		default:
			c.levels, c.deep, c.lying, c.up = p.levels(g, v), v[1], lying(g, v), v[2]
			c.each = c.levels * int((p.size[1]+slack)/v[1])
		}
		if a, b := c.holds(c.all), best.holds(best.all); a > b || a == b && c.wide < best.wide {
			best = c
		}
	}
	return best
}

// levels is how many of some goods stand on each other.
func (p *spot) levels(g *stock.Goods, v [3]float64) int {
	return int(math.Min(math.Floor((p.size[2]+slack)/v[2]), float64(max(g.Stack, 1))))
}

// goesIn says whether one of some goods goes into a place that they are listed under; yes where a size is not known.
func (s *Scene) goesIn(w stored) bool {
	if len(sizes(w.goods)) == 0 {
		return true
	}
	p, ok := s.spot(w)
	return ok && p.column(w.goods).each > 0
}

// bears is how many of some goods the stated load of a place lets lie there.
func (p *spot) bears(g *stock.Goods, kg float64) int {
	if p.bay == nil || p.bay.Load <= 0 || g.Each == nil || *g.Each <= 0 {
		return math.MaxInt32
	}
	return int((kg + hair) / g.Each.Kilograms())
}

// hair is what is taken as equal, kg.
const hair = 0.01

func (p *spot) hooks() bool { return p.bay != nil && p.bay.Kind == "hook-board" }

// fits says whether one thing of a size goes in. On a hook board it may stand out further than the board's space, but
// then no further than it must.
func (p *spot) fits(v [3]float64) bool {
	flat := p.hooks() && v[1] <= math.Min(v[0], v[2])+slack
	return v[0] <= p.size[0]+slack && (v[1] <= p.size[1]+slack || flat) && v[2] <= p.size[2]+slack
}

// kind is one kind of goods while room is looked for.
type kind struct {
	goods  *stock.Goods
	spots  []spot
	wants  []int // of each spot: what is not kept there, least first
	ways   []column
	counts []int
	spare  []int // of each spot: what its rows leave room for
	how    []posture
	left   int
}

// unkept says what of a kind's wants is not kept in a place: the worse, the more.
func (s *Scene) unkept(g *stock.Goods, p *spot) (n int) {
	tall := 0.0
	if g.Tall != nil {
		tall = mm(*g.Tall)
	}
	foot, top := s.high(p, tall)
	if g.Below != nil && top > mm(*g.Below)+slack || g.Above != nil && foot < mm(*g.Above)-slack {
		n += 4
	}
	if g.Locked && p.bay != nil && !p.bay.Locked {
		n += 2
	}
	if r, asked, known := s.reached(p.stored); asked && known && (r.z < r.low || r.z > r.most) {
		n++
	}
	if n *= 2; !s.madeFor(p) {
		n++
	}
	return n
}

// madeFor says whether a place is a rack on a door or has holes, for one thing each: it is filled before shelves.
func (s *Scene) madeFor(p *spot) bool {
	if p.bay == nil {
		return false
	}
	m := s.motions[p.bay.Moves]
	return len(p.bay.Places) > 0 || m != nil && m.Kind == part.Swing
}

// groups gives the goods that are listed somewhere, those together that share a case or a top, if only through others.
func (s *Scene) groups() (groups [][]kind) {
	var owners []map[string]bool
	for i := range s.Job.Goods {
		g := &s.Job.Goods[i]
		k := kind{goods: g, spots: s.spots(g)}
		if len(k.spots) == 0 {
			continue
		}
		mine := map[string]bool{}
		for n := range k.spots {
			p := &k.spots[n]
			k.ways, k.wants = append(k.ways, p.column(g)), append(k.wants, s.unkept(g, p))
			mine[p.owner] = true
		}
		all := []kind{k}
		for n := range groups {
			for o := range mine {
				if owners[n][o] {
					all = append(all, groups[n]...)
					maps.Copy(mine, owners[n])
					groups[n], owners[n] = nil, nil
					break
				}
			}
		}
		groups, owners = append(groups, all), append(owners, mine)
	}
	return groups
}

// afresh gives kinds of which none is put away; those that are to stand upright do in the places where they can.
func afresh(group []kind, upright []bool) []kind {
	list := slices.Clone(group)
	for i := range list {
		if upright[i] {
			list[i].stand()
		}
		list[i].counts, list[i].how, list[i].left = make([]int, len(list[i].ways)), make([]posture, len(list[i].ways)), max(list[i].goods.Count, 1)
	}
	return list
}

// stand has a kind stand upright in the places where it can.
func (k *kind) stand() {
	k.spots, k.ways = slices.Clone(k.spots), slices.Clone(k.ways)
	for n := range k.spots {
		p := &k.spots[n]
		if all := sizes(k.goods); len(all) > 2 && slices.ContainsFunc(all[:2], p.fits) {
			p.upright = true
			k.ways[n] = p.column(k.goods)
		}
	}
}

// ordering is which kinds are put away first: those that have the fewest places to go, are used most often, or are widest.
type ordering int

const (
	byChoice ordering = iota
	byUse
	byWidth
)

// inOrder puts kinds in an order, then by what the other orders go by.
func inOrder(list []kind, by ordering) {
	often := map[string]int{"daily": 0, "weekly": 1, "monthly": 2, "seasonal": 3, "not-known": 4, "": 4}
	good := func(k kind) (n int) {
		for i, c := range k.ways {
			if c.each > 0 && k.wants[i] == 0 {
				n++
			}
		}
		return n
	}
	wide := func(k kind) (w float64) {
		for _, c := range k.ways {
			w = math.Max(w, c.wide)
		}
		return w
	}
	order.Stable(list, func(a, b kind) int {
		if use := cmp.Compare(often[a.goods.Used], often[b.goods.Used]); by == byUse && use != 0 {
			return use
		}
		if w := cmp.Compare(wide(b), wide(a)); by == byWidth && w != 0 {
			return w
		}
		return cmp.Or(cmp.Compare(good(a), good(b)), cmp.Compare(often[a.goods.Used], often[b.goods.Used]), cmp.Compare(wide(b), wide(a)), cmp.Compare(a.goods.ID, b.goods.ID))
	})
}

// noRoom is how bad it is that a thing finds no room.
const noRoom = 1 << 20

// fill puts kinds away, evenly over the places that are as good or one place after the other, and says how bad it is:
// a thing that finds no room is worse than any number of wants of things that do.
func fill(kinds []kind, oneByOne, loads bool) (bad int) {
	bays, tops := map[*part.Bay]*floorRoom{}, map[string]*floorRoom{}
	room := func(p *spot) *floorRoom {
		if p.bay == nil {
			if tops[p.owner] == nil {
				tops[p.owner] = &floorRoom{wide: p.size[0]}
			}
			return tops[p.owner]
		}
		if bays[p.bay] == nil {
			bays[p.bay] = &floorRoom{wide: p.size[0], holes: len(p.bay.Places), kg: p.bay.Load.Kilograms()}
		}
		return bays[p.bay]
	}
	for n := range kinds {
		k := &kinds[n]
		ranks := slices.Clone(k.wants)
		order.Up(ranks)
		full := make([]bool, len(k.ways))
		k.spare = make([]int, len(k.ways))
		for _, rank := range slices.Compact(ranks) {
			for k.left > 0 {
				best, load := -1, 0.0
				for i, c := range k.ways {
					if full[i] || k.wants[i] != rank || c.each == 0 {
						continue
					}
					l := float64(k.counts[i]) / math.Max(float64(c.holds(c.all)), 1)
					if oneByOne {
						l = room(&k.spots[i]).wide
					}
					if best < 0 || l < load {
						best, load = i, l
					}
				}
				if best < 0 {
					break
				}
				p := &k.spots[best]
				put := k.left
				if loads {
					put = min(put, p.bears(k.goods, room(p).kg))
				}
				if put > 0 {
					row, how := room(p).take(p, k.goods)
					put = min(put, row)
					k.how[best].add(how)
					k.spare[best] += row - put
				}
				if full[best] = put == 0; k.goods.Each != nil {
					room(p).kg -= float64(put) * k.goods.Each.Kilograms()
				}
				k.counts[best] += put
				k.left -= put
				bad += put * rank
			}
		}
		bad += k.left * noRoom
	}
	for n := range kinds {
		kinds[n].level(room, loads)
	}
	return bad
}

// level moves things one by one from the fullest bay to the emptiest of those that keep as much of a kind's wants, while
// that makes the fullest less full: into rows that are not full, and into new ones while there is floor. A kind comes into
// no more bays so than it was put in, or things of it would stand everywhere; but into every drawer and tray.
func (k *kind) level(room func(*spot) *floorRoom, loads bool) {
	full := make([]bool, len(k.ways))
	takes := func(i int) bool {
		p := &k.spots[i]
		if full[i] || loads && p.bears(k.goods, room(p).kg) < 1 || k.counts[i] == 0 && p.bay.Moves == "" {
			return false
		}
		if k.spare[i] == 0 {
			var how posture
			k.spare[i], how = room(p).take(p, k.goods)
			k.how[i].add(how)
			full[i] = k.spare[i] == 0
		}
		return !full[i]
	}
	move := func(i, by int) {
		k.counts[i] += by
		k.spare[i] -= by
		if k.goods.Each != nil {
			room(&k.spots[i]).kg -= float64(by) * k.goods.Each.Kilograms()
		}
	}
	part := func(i, more int) float64 { return float64(k.counts[i]+more) / float64(k.ways[i].holds(k.ways[i].all)) }
	ranks := slices.Clone(k.wants)
	order.Up(ranks)
	for _, rank := range slices.Compact(ranks) {
		for {
			from, to := -1, -1
			for i, c := range k.ways {
				if k.wants[i] != rank || c.holds(c.all) == 0 || k.spots[i].bay == nil {
					continue
				}
				if k.counts[i] > 0 && (from < 0 || part(i, 0) > part(from, 0)) {
					from = i
				}
			}
			for i, c := range k.ways {
				if from < 0 || i == from || k.wants[i] != rank || c.holds(c.all) == 0 || k.spots[i].bay == nil || part(i, 1) >= part(from, 0) {
					continue
				}
				if (to < 0 || part(i, 1) < part(to, 1)) && takes(i) {
					to = i
				}
			}
			if to < 0 {
				break
			}
			move(from, -1)
			move(to, 1)
		}
	}
}

// stored gives where a kind is. Shares are by area, over the places that it is put in and those that keep as much of
// its wants, for there it may stand as well. What finds no room counts wherever one goes in, so that its weight is not
// forgotten.
func (k *kind) stored() (list []stored) {
	worst := math.MaxInt
	if k.left == 0 {
		worst = 0
		for i, n := range k.counts {
			if n > 0 {
				worst = max(worst, k.wants[i])
			}
		}
	}
	none := !slices.ContainsFunc(k.ways, func(c column) bool { return c.each > 0 })
	all := 0.0
	for i, p := range k.spots {
		if (k.ways[i].each > 0 || none) && k.wants[i] <= worst {
			w := p.stored
			w.count, w.how = k.counts[i], k.how[i]
			all += w.share
			list = append(list, w)
		}
	}
	for i := range list {
		list[i].share /= all
	}
	return list
}
