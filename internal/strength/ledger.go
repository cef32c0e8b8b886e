package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/stock"
)

// leastLedger is the least thickness of a ledger into which a rail's screws reach six diameters.
const leastLedger = 30 * length.MM

// leastHigh is its least height: common practice, no source.
const leastHigh = 60 * length.MM

// onLedgers says by which ledgers a case would hang so that all holds: the slightest stick that is listed, with
// as many screws in each stud as it takes; "" where there is none, or something is not known.
func (s *Scene) onLedgers(o *part.Owner) string {
	w := s.Room.Wall(o.Wall)
	if p := s.railPart(o); s.trial || p == nil || p.Role == part.WallCleat || w == nil || w.Kind != "stud" || len(w.Studs) < 2 || !w.LiningKnown {
		return ""
	}
	var own stock.Stick
	if p := s.ledgerPart(o.ID); p != nil {
		own, _ = s.Job.Catalogue.Stick(p.Stock)
	}
	var list []stock.Stick
	grid := length.MM
	if s.Job.Practice.InInches() {
		grid = length.Inch / 16
	}
	for _, x := range s.Job.Catalogue.Sticks {
		if min(x.Thickness, x.Width) >= leastLedger && max(x.Thickness, x.Width) >= leastHigh && !x.Treated && max(x.Thickness, x.Width) > max(own.Thickness, own.Width) {
			list = append(list, x)
		}
	}
	foreign := func(x stock.Stick) L { return min(x.Thickness%grid+x.Width%grid, 1) }
	order.Stable(list, func(a, b stock.Stick) int {
		if d := foreign(a) - foreign(b); d != 0 {
			return int(d) // those of the other market last
		}
		return int(max(a.Thickness, a.Width)-max(b.Thickness, b.Width)) + int(min(a.Thickness, a.Width)-min(b.Thickness, b.Width))
	})
	for _, x := range list {
		for k := 1; k <= mostScrews; k++ {
			n, ok := s.hungOn(o, x, k)
			if !ok {
				break
			}
			if r := n.heldRatio(o.ID); r <= inHand || r <= 1 && k == mostScrews {
				off := s.long(mm(min(x.Thickness, x.Width)))
				words := fmt.Sprintf("hang it on ledgers from stud to stud, hangs-by: {ledger: %s}", x.ID)
				if own.ID == "" {
					words += fmt.Sprintf(", and make it %s deeper, for they stand behind it", off)
				}
				return fmt.Sprintf("%s (ratio %.2f)", words, r)
			}
		}
	}
	return ""
}

// ledgerPart is a ledger of a case, nil for none.
func (s *Scene) ledgerPart(owner string) *part.Part {
	for _, p := range s.of(owner).Parts {
		if p.Role == part.Ledger {
			return p
		}
	}
	return nil
}

// heldRatio is the worst of what its wall, its ledgers and its rails are asked for.
func (s *Scene) heldRatio(owner string) float64 {
	worst := 0.0
	for _, f := range append(checkFixings(s), checkRails(s)...) {
		if f.At != s.at(owner, "") && !slices.ContainsFunc(s.All.Parts, func(p part.Part) bool { return p.Owner == owner && f.At == s.at(owner, p.Mark) }) {
			continue
		}
		if f.Verdict == finding.NotKnown {
			return math.Inf(1)
		}
		worst = math.Max(worst, f.Ratio())
	}
	return worst
}

// hungOn is the scene with a case on ledgers of a stick, k screws in each stud; false where so many have no room
// or none is long enough.
func (s *Scene) hungOn(o *part.Owner, stick stock.Stick, k int) (*Scene, bool) {
	w := s.Room.Wall(o.Wall)
	off, high := min(stick.Thickness, stick.Width), max(stick.Thickness, stick.Width)
	own, ok := s.Job.Catalogue.Item(s.wallScrew(o))
	if !ok {
		return nil, false
	}
	pitch := s.pitch(own.ID)
	if L(k-1)*pitch+2*15*length.MM > high {
		return nil, false
	}
	need, screw := off+w.Lining+s.Job.Practice.LeastThread, stock.Hardware{}
	for _, h := range s.Job.Catalogue.Hardware {
		if h.Kind == "screw" && h.Use == "wall" && h.Dia == own.Dia && h.Length >= need && (screw.ID == "" || h.Length < screw.Length) {
			screw = h
		}
	}
	if screw.ID == "" {
		return nil, false
	}
	first, last := w.Studs[0].At, w.Studs[len(w.Studs)-1].At
	for _, st := range w.Studs {
		if st.At <= o.Carcass.Min.X {
			first = max(first, st.At)
		}
		if st.At >= o.Carcass.Max.X {
			last = min(last, st.At)
		}
	}
	// From stud to stud; where it has a neighbour, no further than its own side.
	x0, x1 := min(o.Carcass.Min.X, first-50*length.MM), max(o.Carcass.Max.X, last+50*length.MM)
	if seat := s.Room.Seat(o.ID); seat != nil && seat.Left != "" {
		x0 = o.Carcass.Min.X
	}
	if seat := s.Room.Seat(o.ID); seat != nil && seat.Right != "" {
		x1 = o.Carcass.Max.X
	}
	const end = 40 * length.MM // of a ledger, where no screw goes
	reached := slices.DeleteFunc(slices.Clone(w.Studs), func(st place.Stud) bool {
		return st.At < first || st.At > last || st.At < x0+end || st.At > x1-end
	})
	if len(reached) < 2 {
		return nil, false
	}
	in := s.Input
	// The case alone, so that a job of many cases is not proved as many times.
	a := part.Only(*s.All, func(id string) bool { return id == o.ID })
	a.Parts = slices.DeleteFunc(slices.Clone(a.Parts), func(p part.Part) bool { return p.Role == part.Ledger })
	a.Fixings = nil
	js := joinery.Shop{Practice: s.Job.Practice, Catalogue: s.Job.Catalogue, Owner: o.ID}
	y := o.Carcass.Max.Y
	rails := 0
	for _, p := range s.of(o.ID).Parts {
		if p.Role != part.HangRail {
			continue
		}
		rails++
		b := p.Box()
		row := "upper"
		if z := (b.Min.Z + b.Max.Z) / 2; z < (o.Carcass.Min.Z+o.Carcass.Max.Z)/2 {
			row = "lower"
		}
		z := (b.Min.Z + b.Max.Z) / 2
		x := part.New("ledger", part.Ledger, row+" ledger", stick.ID, geom.B(x0, y, z-high/2, x1, y+off, z-high/2+high), geom.Right, geom.Up)
		x.Mark, x.Owner, x.Material = o.ID+" ledger "+row, o.ID, part.Stick
		a.Parts = append(a.Parts, x)
		for _, st := range reached {
			for i := range k {
				f := part.Fixing{Owner: o.ID, Kind: part.ToStud, Wall: w.ID, Part: x.Mark, Stud: st.ID, Screw: screw.ID, Length: screw.Length, Into: screw.Length - off - w.Lining, Row: row,
					Layers: []part.Layer{{Name: "ledger", Stock: stick.ID, Thickness: off}, {Name: "lining", Thickness: w.Lining}}}
				f.At = geom.V(st.At, y+off, z-pitch*L(k-1)/2+pitch*L(i))
				a.Fixings = append(a.Fixings, f)
			}
		}
		var layers []part.Layer
		for _, f := range s.All.Fixings {
			if f.Part == p.Mark && len(layers) == 0 {
				for _, l := range f.Layers {
					if l.Name == "hang rail" || l.Name == "back" {
						layers = append(layers, l)
					}
				}
			}
		}
		if layers == nil {
			layers = []part.Layer{{Name: "hang rail", Stock: p.Stock, Thickness: p.Size[2]}}
		}
		through := L(0)
		for _, l := range layers {
			through += l.Thickness
		}
		hw, ok := js.ScrewFor("wall", through, off)
		if x, is := js.ScrewFor("wood", through, off); is && (!ok || x.Length > hw.Length) {
			hw, ok = x, true
		}
		if !ok {
			return nil, false
		}
		for _, at := range joinery.Places(b.Max.X-b.Min.X, 40*length.MM, 100*length.MM, 2) {
			a.Fixings = append(a.Fixings, part.Fixing{Owner: o.ID, Kind: part.ToLedger, Part: p.Mark, At: geom.V(b.Min.X+at, y, z), Screw: hw.ID, Length: hw.Length, Layers: layers, Into: hw.Length - through, Row: row})
		}
	}
	in.All = &a
	in.Masses = mapWith(in.Masses, a.Parts, o.ID, s, stick)
	n := NewScene(in)
	n.trial = true
	return n, rails > 0
}

// mapWith adds what the ledgers weigh.
func mapWith(was map[string]mass.Mass, parts []part.Part, owner string, s *Scene, stick stock.Stick) map[string]mass.Mass {
	out := map[string]mass.Mass{}
	for k, v := range was {
		out[k] = v
	}
	sp, _ := s.Job.Catalogue.SpeciesOf(stick.Species)
	d, ok := sp.Density.Float()
	for _, p := range parts {
		if p.Owner == owner && p.Role == part.Ledger && ok {
			out[p.Mark] = grams(mm(p.Size[0]) * mm(p.Size[1]) * mm(p.Size[2]) * d * 1e-9)
		}
	}
	return out
}

// railPart is the board by which a wall case hangs.
func (s *Scene) railPart(o *part.Owner) *part.Part {
	var best *part.Part
	for _, p := range s.of(o.ID).Parts {
		if (p.Role == part.HangRail || p.Role == part.WallCleat) && (best == nil || p.Box().Max.Z > best.Box().Max.Z) {
			best = p
		}
	}
	return best
}

// wallScrew is the screw that holds a case to its wall, or the shortest that is listed that holds in a
// stud behind a board of its rail's thickness.
func (s *Scene) wallScrew(o *part.Owner) string {
	for _, f := range s.held(o.ID) {
		return f.Screw
	}
	w, p := s.Room.Wall(o.Wall), s.railPart(o)
	best, id := L(0), ""
	for _, x := range s.Job.Catalogue.Hardware {
		if x.Kind != "screw" || x.Use != "wall" || x.Sold != "both" && x.Sold != s.Job.Practice.Unit || w == nil || p == nil {
			continue
		}
		fast, _, ok := s.screw(x.ID)
		if !ok {
			continue
		}
		if _, allowed := fast.PenetrationFactor(mm(x.Length - p.Size[2] - w.Lining)); allowed && (best == 0 || x.Length < best) {
			best, id = x.Length, x.ID
		}
	}
	return id
}
