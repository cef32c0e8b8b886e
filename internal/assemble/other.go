package assemble

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/base"
	"stowright/internal/counter"
	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/hutch"
	"stowright/internal/job"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/stock"
)

// buildOther builds counters, bases and hutches, in their wall's frame.
func (w *work) buildOther(s *place.Seat) (part.Assembly, finding.List) {
	env := fitting.Env{Practice: w.job.Practice, Catalogue: w.job.Catalogue, Owner: s.ID}
	switch s.Kind {
	case place.Counter:
		for _, n := range w.job.Counters {
			if n.ID == s.ID {
				spec := w.counter(s, n.Value)
				spec.Clear, spec.Crossed = w.clearSide, w.crossed
				a, f := counter.Build(env, s.ID, spec)
				if bead, ok := w.job.Catalogue.Item(bedding); ok && s.Butt != "" {
					a.Hardware = append(a.Hardware, part.Item{Owner: s.ID, ID: bead.ID, Kind: bead.Kind, Count: 1, For: part.ButtsInCorner, Stage: s.Stage})
				}
				w.boltRails(a)
				return a, f
			}
		}
	case place.Base:
		for _, n := range w.job.Bases {
			if n.ID == s.Of {
				return base.Build(env, s.ID, w.base(s, n.Value))
			}
		}
	case place.Hutch:
		for _, n := range w.job.Hutches {
			if n.ID == s.ID {
				a, f := hutch.Build(env, s.ID, w.hutch(s, n.Value))
				if n.Value.Light != nil { // the one of its length, where the shop's hardware has one
					for _, h := range w.job.Catalogue.Hardware {
						if h.Kind == "light" && h.Length == n.Value.Light.Length {
							a.Hardware = append(a.Hardware, part.Item{Owner: s.ID, ID: h.ID, Kind: h.Kind, Count: 1, For: part.LightOnBoard, Stage: s.Stage})
							a.Hardware = append(a.Hardware, lightScrews(env, a, h, s)...)
							break
						}
					}
				}
				return a, f
			}
		}
	}
	panic("assemble: " + string(s.Kind) + " " + s.ID + " has a seat and no entry in the job")
}

// hutch states a hutch in its wall's frame.
func (w *work) hutch(s *place.Seat, h job.Hutch) hutch.Spec {
	r := hutch.Spec{Name: s.Name, Box: s.Box, Board: h.Board, Frame: h.Frame}
	for _, g := range w.job.Goods {
		if slices.Contains(h.Goods, g.ID) {
			r.Hooks += g.Count * max(g.Hooks, 1)
		}
	}
	if on := w.room.Seat(s.On); on != nil {
		r.Under = on.Box.Size().Z
	}
	for _, c := range w.job.Counters { // without blocking, which is not everywhere
		if c.ID == s.On {
			var layers []string
			for _, y := range c.Value.Layers {
				layers = append(layers, y.Board)
			}
			r.Under = counter.Thickness(w.job.Catalogue, layers, nil)
		}
	}
	if h.Spacer != nil {
		r.Spacer = *h.Spacer
	}
	if h.Brace != nil {
		r.Brace = *h.Brace
	}
	if h.Pitch != nil {
		r.Pitch = *h.Pitch
	}
	if h.Light != nil {
		r.Light = &hutch.Light{Length: h.Light.Length}
		if h.Light.Cable != nil {
			r.Light.Cable = *h.Light.Cable
		}
		r.Light.Left = w.outletLeft(s)
	}
	return r
}

// outletLeft reports whether the outlet nearest to a thing on its wall is to its left, or nearer to its left end.
func (w *work) outletLeft(s *place.Seat) bool {
	wall := w.room.Wall(s.Wall)
	if wall == nil {
		return false
	}
	least, left := L(-1), false
	for _, z := range wall.Clear {
		if x := (z.Body.Min.X + z.Body.Max.X) / 2; z.Kind == "outlet" && z.Known {
			l, r := (x - s.Box.Min.X).Abs(), (x - s.Box.Max.X).Abs()
			if near := min(l, r); least < 0 || near < least {
				least, left = near, l < r
			}
		}
	}
	return left
}

// counter states a counter in its wall's frame.
func (w *work) counter(s *place.Seat, c job.Counter) counter.Spec {
	r := counter.Spec{Name: s.Name, Box: s.Box, Front: s.Box.Min.Y, Use: part.Work, Blocking: place.Blocking(c)}
	for _, y := range c.Layers {
		r.Layers = append(r.Layers, y.Board)
	}
	r.Notches = s.Site.Notches
	if c.Edge != nil {
		r.Edge = &counter.Edge{Stick: c.Edge.Stick, Butt: c.Edge.Corners == "butt", Sides: w.edged(s, c.Edge.Sides)}
	}
	w.raw(s, c, r.Edge)
	if c.Rails != nil {
		r.Rails = &counter.Rails{Stick: c.Rails.Stick}
		if c.Rails.Height != nil {
			r.Rails.Height = *c.Rails.Height
		}
	}
	if c.Free != nil {
		r.Free = &counter.Free{Legs: c.Free.Legs, Brace: c.Free.Brace, Feet: c.Free.Feet, Floor: c.Free.Floor, Bottom: s.Level}
	}
	first := true
	for _, p := range s.Pieces {
		u := counter.Under{ID: p.ID, From: p.From, To: p.To}
		if q, ok := w.side(p.ID, geom.Left); ok {
			u.Side = q.Size[2]
		} else if b, ok := w.job.Catalogue.Board(w.job.Practice.Case); ok {
			u.Side = b.Thickness
		}
		for _, q := range w.all.Parts {
			if q.Owner == p.ID && (q.Role == part.Stretcher || q.Role == part.Top) && (q.Box().Max.Z-s.Box.Min.Z).Abs() <= length.MM/10 && (u.Top == 0 || q.Size[2] < u.Top) {
				u.Top = q.Size[2]
			}
		}
		for _, n := range w.job.Standing { // boards of a thing that stands already, as measured
			if n.ID == p.ID && n.Value.Board != nil {
				u.Side, u.Top = *n.Value.Board, *n.Value.Board
			}
		}
		r.Under = append(r.Under, u)
		for _, o := range w.all.Owners {
			if o.ID == p.ID && (first || o.Carcass.Min.Y < r.Front) {
				r.Front, first = o.Carcass.Min.Y, false
			}
		}
	}
	for _, k := range s.Knees {
		r.Knees = append(r.Knees, counter.Knee{From: max(k.From, s.Box.Min.X), To: min(k.To, s.Box.Max.X), Gap: k.Gap})
	}
	return r
}

// raw says which edges of a counter can be seen and get no edging.
func (w *work) raw(s *place.Seat, c job.Counter, e *counter.Edge) {
	var bare []string
	for _, d := range w.edged(s, nil) {
		if e == nil || !slices.Contains(e.Sides, d) {
			bare = append(bare, d.String())
		}
	}
	if len(bare) == 0 {
		return
	}
	w.found.Add(finding.Finding{Code: CounterRaw, Severity: finding.Note, At: "counter/" + s.ID, Source: "common practice, no source",
		Text: fmt.Sprintf("Edges of %s that can be seen get no edging: %s. They show the board's layers, and are eased and finished like its face.", s.Name, strings.Join(bare, ", ")),
		Hint: "Write edge: {stick: ...}, without sides, to have all that show edged."})
}

// clearSide reports whether a hole through a side of a case is within it and clear of what is worked in it and
// of what is fixed to its inside.
func (w *work) clearSide(id string, outside geom.Dir, at geom.Vec, dia L) bool {
	q, ok := w.side(id, outside)
	if !ok {
		return true
	}
	p := w.inJob(q.Mark)
	if box := p.Box(); at.Y-dia < box.Min.Y || at.Y+dia > box.Max.Y || at.Z-dia < box.Min.Z || at.Z+dia > box.Max.Z {
		return false
	}
	return w.clearInside(p, outside, at, dia) && !w.covered(p, outside, at) && !w.passed(p, outside, at, dia)
}

// headRoom is how far the head of a joining bolt stands into a case, its nut outside; common practice, no source.
const headRoom = 7 * length.MM

// passed reports whether something that slides out of a case runs past the head of a bolt in its side.
func (w *work) passed(side *part.Part, outside geom.Dir, at geom.Vec, dia L) bool {
	head := geom.B(side.Box().Max.X, at.Y-dia, at.Z-dia, side.Box().Max.X+headRoom, at.Y+dia, at.Z+dia)
	if outside == geom.Right {
		head.Min.X, head.Max.X = side.Box().Min.X-headRoom, side.Box().Min.X
	}
	for _, i := range w.of[side.Owner] {
		if o := &w.all.Parts[i]; o.Moves != "" && o.Role != part.Door {
			b := o.Box()
			b.Min.Y = min(b.Min.Y, side.Box().Min.Y) // on its way out
			if b.Meets(head) {
				return true
			}
		}
	}
	return false
}

// boltRails bores the sides of cases for the bolts of a counter's rails.
func (w *work) boltRails(a part.Assembly) {
	shop := joinery.Shop{Practice: w.job.Practice, Catalogue: w.job.Catalogue}
	for _, f := range a.Fixings {
		if f.Row != part.BoltedRail {
			continue
		}
		for _, d := range []geom.Dir{geom.Left, geom.Right} {
			q, ok := w.side(f.Stud, d)
			if !ok || (q.Box().Min.X-f.At.X).Abs() > length.MM && (q.Box().Max.X-f.At.X).Abs() > length.MM {
				continue
			}
			h, _ := w.job.Catalogue.Item(f.Screw)
			tool, dia, _ := shop.Over(cmp.Or(h.Clearance, h.Dia))
			p := w.inJob(q.Mark)
			p.Bore(part.Hole, p.Facing(d), f.At, dia, p.Size[2], tool, part.BoltedRail)
		}
	}
}

// edged gives the edges that get edging: those named, else the front and the ends that neither a
// wall nor another counter covers; all round a bench that stands free.
func (w *work) edged(s *place.Seat, named []string) []geom.Dir {
	dirs := map[string]geom.Dir{"front": geom.Front, "left": geom.Left, "right": geom.Right, "back": geom.Back}
	var r []geom.Dir
	if len(named) > 0 {
		for _, n := range named {
			r = append(r, dirs[n])
		}
		return r
	}
	r = append(r, geom.Front)
	wall := w.room.Wall(s.Wall)
	shut := func(at L, end int) bool {
		if o := w.room.Seat(s.Butt); o != nil && wall != nil && wall.Corner(end) == o.Wall {
			return true
		}
		if wall != nil && !s.Moves && wall.Corner(end) != "" && (at < length.Inch || at > wall.Length-length.Inch) {
			return true
		}
		for _, o := range w.room.Seats {
			if o.ID == s.ID || o.Wall != s.Wall || o.Box.Min.Z > s.Box.Min.Z || o.Box.Max.Z < s.Box.Max.Z || o.Kind != place.Counter && o.Kind != place.Standing && o.Kind != place.Case {
				continue
			}
			if end == 0 && (o.Box.Max.X-at).Abs() < endsShut || end == 1 && (o.Box.Min.X-at).Abs() < endsShut {
				return true
			}
		}
		return false
	}
	if !shut(s.Box.Min.X, 0) {
		r = append(r, geom.Left)
	}
	if !shut(s.Box.Max.X, 1) {
		r = append(r, geom.Right)
	}
	if s.Moves {
		r = append(r, geom.Back)
	}
	return r
}

// endsShut: an end of a counter so near to what stands beside it is not seen.
const endsShut = 5 * length.MM

// base states a base in its wall's frame, with the floor under it.
func (w *work) base(s *place.Seat, b job.Base) base.Spec {
	r := base.Spec{Name: s.Name, Box: s.Box, Stock: cmp.Or(b.Stock, w.job.Practice.BaseStick), Damp: b.Damp, Strip: b.Strip, How: b.How}
	if b.Rungs != nil {
		r.Rungs = *b.Rungs
	}
	for _, p := range s.Pieces {
		r.Under = append(r.Under, base.Piece{ID: p.ID, From: p.From, To: p.To})
	}
	wall := w.room.Wall(s.Wall)
	if wall == nil {
		return r
	}
	for _, n := range w.job.Walls {
		if n.ID == wall.ID {
			r.Slab = n.Value.Floor.Slab
		}
	}
	if wall.FloorKnown {
		r.Floor = func(x, y L) L { return wall.FloorAt(min(max(0, x), wall.Length), min(0, y)) }
	}
	return r
}

// lightScrews are those that hold a light to a hook board, through the board into the highest rail behind it: with the
// widest head, and no longer than stays in the rail.
func lightScrews(env fitting.Env, a part.Assembly, light stock.Hardware, s *place.Seat) []part.Item {
	var board, rail geom.Box
	for _, p := range a.Parts {
		switch b := p.Box(); {
		case p.Role == part.HookBoard:
			board = b
		case p.Role == part.HangRail && (rail.Empty() || b.Min.Z > rail.Min.Z):
			rail = b
		}
	}
	shop := joinery.Shop{Practice: env.Practice, Catalogue: env.Catalogue, Owner: s.ID}
	h, ok := shop.Screw("slide", rail.Max.Y-board.Min.Y-3*length.MM)
	if !ok || h.Length < rail.Min.Y-board.Min.Y+joinery.Bite {
		return nil
	}
	return []part.Item{{Owner: s.ID, ID: h.ID, Kind: h.Kind, Count: max(light.ScrewsEach, 2), Length: h.Length, For: part.LightOnBoard, Stage: s.Stage}}
}
