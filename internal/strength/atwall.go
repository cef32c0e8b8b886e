package strength

import (
	"fmt"
	"math"

	"stowright/internal/carcass"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/nds"
)

// What a wall would do for what does not stand at it fixed, or stands between its studs: worked out from the survey.

// studRoom is how far in from an end of a rail a stud's middle must be for a screw in it: common practice, no source.
const studRoom = 30 * length.MM

// wouldGrip is what one screw of the shop's would hold in a stud of an owner's wall, through a board of it against the wall;
// false where that is not known, or the wall has no wooden studs.
func (s *Scene) wouldGrip(o *part.Owner, p *part.Part) (g grip, ok bool) {
	w := s.Room.Wall(o.Wall)
	if p == nil || w == nil || w.Kind != "stud" || !w.StudsKnown || !w.LiningKnown || len(w.Studs) == 0 {
		return g, false
	}
	id := s.Job.Practice.WallScrew
	if id == "" {
		id = s.wallScrew(o)
	}
	item, ok := s.Job.Catalogue.Item(id)
	if !ok {
		return g, false
	}
	off := max(-o.Carcass.Max.Y, 0)
	f := part.Fixing{Owner: o.ID, Kind: part.ToStud, Part: p.Mark, Wall: w.ID, Stud: w.Studs[0].ID, Screw: item.ID, Length: item.Length, Into: item.Length - p.Size[2] - off - w.Lining,
		Layers: []part.Layer{{Name: "rail", Stock: p.Stock, Thickness: p.Size[2]}, {Name: "air", Thickness: off}, {Name: "lining", Thickness: w.Lining}}}
	if f.Into <= 0 {
		return g, false
	}
	g, fact, _ := s.gripOf(f)
	return g, fact == "" && !g.none
}

// wouldHold is what one screw would hold at the top of a case that is fixed to its wall, and in how many studs; none where
// that is not known.
func (s *Scene) wouldHold(o *part.Owner) (n int, g grip) {
	var side *part.Part
	for _, p := range s.of(o.ID).Parts {
		if p.Role == part.Side {
			side = p
		}
	}
	g, ok := s.wouldGrip(o, side)
	if !ok {
		return 0, g
	}
	t := side.Size[2]
	for _, x := range s.Room.Wall(o.Wall).Studs {
		if x.At >= o.Carcass.Min.X+t+studRoom && x.At <= o.Carcass.Max.X-t-studRoom && x.Top == 0 {
			n++
		}
	}
	return n, g
}

// spec is what the job says of a case, nothing of what is none of its cases.
func (s *Scene) spec(id string) carcass.Spec {
	for _, c := range s.Job.Cases {
		if c.ID == id {
			return c.Spec
		}
	}
	return carcass.Spec{}
}

// loose is how a case's job says that it is not fixed: "standing", "rolls", "slides"; "" or "no" where it is.
func (s *Scene) loose(id string) string {
	return s.spec(id).Loose
}

// toWall is the remedy of a case that stands free at a wall of known studs, and is fixed to it, to hold so much at its top;
// nothing where that would not be enough or is not known.
func (s *Scene) toWall(o *part.Owner, need float64) []string {
	if s.loose(o.ID) != "standing" {
		return nil
	}
	n, g := s.wouldHold(o)
	for k := 1; k <= mostScrews && n > 0; k++ { // as many screws in each as are settled then
		if r := need / float64(n*k) / g.w; r <= inHand || r <= 1 && k == mostScrews {
			return []string{fmt.Sprintf("fix its top to the wall, where %s can hold it with %s, without free: (ratio %.2f)", many(n, "stud"), s.force(need), r)}
		}
	}
	return nil
}

// alone says that a case, counter or hook board has a place of its own along the wall, which its job states.
func (s *Scene) alone(id string) bool {
	seat := s.Room.Seat(id)
	return seat != nil && seat.Run == "" && seat.Left+seat.Right == "" && seat.Wall != ""
}

// toStuds is the remedy of a case that stands alone and is moved to the nearest place where its rails cross so many studs;
// "" for none.
func (s *Scene) toStuds(o *part.Owner, least int) string {
	w := s.Room.Wall(o.Wall)
	seat := s.Room.Seat(o.ID)
	if w == nil || seat == nil || !s.alone(o.ID) || o.Kind == "case" && s.Job.File.Cases == nil {
		return ""
	}
	lo, hi := o.Carcass.Min.X, o.Carcass.Max.X
	for _, p := range s.of(o.ID).Parts { // the rails end at the sides
		if p.Role == part.Side {
			lo, hi = max(lo, min(p.Box().Max.X, o.Carcass.Min.X+p.Size[2])), min(hi, o.Carcass.Max.X-p.Size[2])
			break
		}
	}
	step := length.MM
	if s.inch() {
		step = length.Inch / 4
	}
	for d := step; d < length.Inch*24; d += step {
		for _, by := range []L{d, -d} {
			n := 0
			for _, x := range w.Studs {
				if x.Top == 0 && x.At >= lo+by+studRoom && x.At <= hi+by-studRoom {
					n++
				}
			}
			if a, b := o.Carcass.Min.X+by, o.Carcass.Max.X+by; n < least || a < 0 || b > w.Length || !s.vacant(o, a, b) {
				continue
			}
			word := "at"
			if o.Kind == "hutch" {
				word = "from"
			}
			return fmt.Sprintf("move it %s to the %s, %s: %s (ratio %.2f)", s.long(mm(d)), map[bool]string{true: "right", false: "left"}[by > 0], word, s.long(mm(o.Carcass.Min.X+by)), float64(least)/float64(n))
		}
	}
	return ""
}

// vacant says that nothing else takes the room of a case along the wall from a to b.
func (s *Scene) vacant(o *part.Owner, a, b L) bool {
	for i := range s.All.Owners {
		x := &s.All.Owners[i]
		if x.ID == o.ID || x.Wall != o.Wall || x.ID == s.Room.Seat(o.ID).On {
			continue
		}
		if c := x.Box; c.Min.X < b && c.Max.X > a && c.Min.Z < o.Box.Max.Z && c.Max.Z > o.Box.Min.Z {
			return false
		}
	}
	return true
}

// mostBeside is more fasteners than there is ever room for at a shelf's end: as many as go in are taken.
const mostBeside = 20

// fixedEnds is the ratio of a loose shelf that is fastened to the sides, by as many fasteners of the joint that the practice
// makes as have room, which is what is settled where fewer do not hold; 0 where that is not known.
func (s *Scene) fixedEnds(shelf *part.Part, kg float64) float64 {
	shop := joinery.Shop{Practice: s.Job.Practice, Catalogue: s.Job.Catalogue}
	kind := shop.Practice.Joint
	if kind == "" {
		kind = "wood-screw"
	}
	if own := s.spec(shelf.Owner).Joint; own != "" {
		kind = own
	}
	for _, side := range s.of(shelf.Owner).Parts {
		if side.Role != part.Side || side.Box().Min.X < shelf.Box().Min.X {
			continue
		}
		c := shelf.Box()
		c.Max.X = side.Box().Min.X
		q := part.New("shelf", part.FixedShelf, "shelf", shelf.Stock, c, shelf.Pose.U, shelf.Pose.V)
		q.Grain = shelf.Grain
		a := part.New("side", part.Side, "side", side.Stock, side.Box(), geom.Up, geom.Back)
		c.Min.X = c.Max.X
		j := shop.Make(kind, joinery.Between{A: &a, B: &q, To: geom.Right, Contact: c, Pockets: []geom.Dir{geom.Down}, Butt: true, Least: mostBeside})
		a.Mark, q.Mark = side.Mark, shelf.Mark
		h, fact, _ := s.holdOf(j.Joint, &a, &q)
		if fact != "" || h.all <= 0 {
			return 0
		}
		return newtons(kg) / 2 / h.all
	}
	return 0
}

// carryingScrews are the wall screws of the list that the shop can buy, the shortest first, for a case held by worse.
func (s *Scene) carryingScrews() (list []stock.Hardware) {
	for _, x := range s.Job.Catalogue.Hardware {
		if x.Kind == "screw" && x.Use == "wall" && !s.brittle(x.ID) && (x.Sold == "both" || x.Sold == s.Job.Practice.Unit) {
			list = append(list, x)
		}
	}
	return list
}

// better names the first wall screw that holds a case, among those that carry; "" for none.
func (s *Scene) better(h hang) string {
	for _, x := range s.carryingScrews() {
		if w, fact, _ := s.strained(s.driven(h, x)); fact == "" && w.ratio >= 0 && w.ratio <= 1 {
			return fmt.Sprintf("take %s, wall-screw: %s under practice: (ratio %.2f)", x.Name, x.ID, w.ratio)
		}
	}
	return ""
}

// thinner names a thinner wall screw that may stand as near to an edge, and still holds the case; "" for none.
func (s *Scene) thinner(o *part.Owner, worst float64, dia float64) string {
	h := s.hanging(o)
	for _, x := range s.carryingScrews() {
		fast, _, ok := s.screw(x.ID)
		own, known := s.Job.Catalogue.Item(s.wallScrew(o))
		if !ok || !known || mm(x.Dia) >= dia || x.Length < own.Length || fast.Kind == nds.Bolt {
			continue
		}
		// The distances go by the diameter.
		r := worst * fast.D / dia
		if w, fact, _ := s.strained(s.driven(h, x)); r <= 1 && (len(h.upper) == 0 || fact == "" && w.ratio <= 1) {
			return fmt.Sprintf("take %s, wall-screw: %s under practice: (ratio %.2f)", x.Name, x.ID, math.Ceil(r*100)/100)
		}
	}
	return ""
}

// nearStuds are the ways to have a case or a hook board in so many studs: on ledgers, or elsewhere along the wall.
func (s *Scene) nearStuds(o *part.Owner, least int) (words []string) {
	if o.Kind == "case" {
		if l := s.onLedgers(o); l != "" {
			words = append(words, l)
		}
	}
	if m := s.toStuds(o, least); m != "" {
		words = append(words, m)
	}
	return words
}
