// Package counter builds worktops: layers of board, hardwood edging, blocking under a top of one
// layer, rails that carry it over a knee space, and the legs of a bench that stands free. Where a
// counter lies and how high is decided by others, who hand it the box that it fills.
//
// Parts are in the frame of that box: x along the wall, y towards it, z up.
package counter

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// NoStock: a board or stick is not known, so what is made of it is left out.
	// Example: "layer 2 of counter bench is to be of board \"ply\", which is not known".
	NoStock finding.Code = "counter-no-stock"
	// Small: there is nothing left of the top inside its edging.
	// Example: a counter of 100 mm with edging of 70 mm at its front and at its back.
	Small finding.Code = "counter-small"
	// JointLoose: a joint in a layer falls where nothing carries it.
	JointLoose finding.Code = "counter-joint-loose"
	// TooDeep: the counter is deeper than its sheet is wide.
	TooDeep finding.Code = "counter-too-deep"
	// NoBlocking: there is no room for blocking, or not for strips as wide or as near as the job says.
	// Example: strips of 330 mm under a top 620 mm deep.
	NoBlocking finding.Code = "counter-no-blocking"
	// NoMitre: no saw of the shop tilts, so the edging meets square.
	NoMitre finding.Code = "counter-no-mitre"
	// Overhang: the top stands out further than it should without a bracket.
	Overhang finding.Code = "counter-overhang"
	// EdgeLow: the edging is lower than what it should cover.
	EdgeLow finding.Code = "counter-edge-low"
	// Rolls: the castors of a bench have no brake.
	// Example: a bench of 900 mm on castors without brakes.
	Rolls finding.Code = "counter-rolls"
	// Racks: nothing keeps a free bench from racking.
	Racks finding.Code = "counter-racks"
	// OnFeet: what stands on feet or castors is to be held to the floor as well.
	// Example: free: {feet: foot-100, floor: anchor-sleeve-10}.
	OnFeet finding.Code = "on-feet"
	// TopLoose: nothing screws the top of a free bench to its frame.
	// Example: blocking leaves the cleats along the rails nothing to be screwed to.
	TopLoose finding.Code = "counter-top-loose"
	// NoScrew: no screw sold goes up through what a counter lies on and stays in it.
	// Example: a counter of 9 mm on stretchers of 18 mm.
	NoScrew finding.Code = "counter-no-screw"
)

// Common practice, no source.
const (
	strapWidth  = 150 * mm // of a block under a joint
	strapPlay   = 5 * mm   // between it and the rails, for it comes down between them
	stagger     = 300 * mm // joints of two layers keep this apart
	screwGrid   = 250 * mm // screws between layers no further apart
	leastHeld   = 16 * mm  // boards that meet over less are not screwed
	stripWidth  = 75 * mm
	stripEvery  = 500 * mm
	stripApart  = 10 * mm  // between two strips at least
	leastStrip  = 20 * mm  // strips are no narrower
	mostOver    = 150 * mm // overhang without a bracket
	railBehind  = 20 * mm  // rails behind the front of the carcasses
	usualRail   = 75 * mm
	legInset    = 40 * mm
	lowRail     = 150 * mm // height of the lower rails of a free bench
	cleatWidth  = 30 * mm  // of the cleats that hold a bench's top to its rails
	cleatScrews = 300 * mm // their screws no further apart
	cleatClear  = 80 * mm  // from a rail's end, past the points of the screws in it
	common      = "common practice, no source"
	joinScrews  = 4  // that hold a counter to one case
	longestFree = 16 // sheets in one layer, to end a search
)

// Spec is a counter with every size stated.
type Spec struct {
	Name     string
	Box      geom.Box // overall, edging included; between its lower face and the layers there may be room for blocking
	Layers   []string // boards from the top down
	Edge     *Edge
	Blocking *Blocking
	Under    []Under // what it lies on, from left to right
	Knees    []Knee
	Rails    *Rails
	Free     *Free
	Notches  []geom.Box // at its rear edge, round what stands out from the wall
	Front    L          // y of the carcasses' front plane; the box's front where there is none
	Use      part.Use
	// Clear says whether a hole through a side of a case is clear there of what is worked and fixed in it;
	// nil where nothing is known of the cases. The side is that on whose outside the direction points.
	Clear func(id string, outside geom.Dir, at geom.Vec, dia L) bool
	// Crossed says whether a screw from outside into a side of a case comes nearer than that to one in it from inside; nil for
	// never.
	Crossed func(id string, outside geom.Dir, at geom.Vec, near L) bool
}

// Edge is hardwood edging.
type Edge struct {
	Stick string
	Sides []geom.Dir // edges it goes on
	Butt  bool       // square corners instead of mitres
}

// Blocking is strips under a top of one layer.
type Blocking struct {
	Board string // the top's when empty
	Width L      // 0 for the usual
	Every L      // 0 for the practice's
}

// Under is a case that the counter lies on.
type Under struct {
	ID       string
	From, To L // its outer sides
	Side     L // thickness of a side
	Top      L // least thickness of the boards that the counter lies on and is screwed through, 0 for the practice's case board
}

// Knee is a stretch with nothing under it: a knee space, or a gap between cases that stand apart.
type Knee struct {
	From, To L
	Gap      bool
}

// Rails carry the counter over a knee space.
type Rails struct {
	Stick  string // or strips of the carcass board when empty
	Height L      // 0 for the stick's width, or the usual
}

// Free is the frame of a bench that stands on its own.
type Free struct {
	Legs   string // stick or board
	Brace  string // "panel", "rails", "shelf" or "none"
	Feet   string // feet or castors under its legs, "" for none
	Floor  string // anchor or screw through a steel angle at each leg, "" where nothing holds it to the floor
	Bottom L      // z of the floor's high point
}

// Thickness gives how thick a counter is: its layers as they measure, and the blocking under a
// single layer where it has any.
func Thickness(c stock.Catalogue, layers []string, b *Blocking) L {
	t := L(0)
	for _, id := range layers {
		x, _ := c.Board(id)
		t += x.Thickness
	}
	if b != nil && len(layers) == 1 {
		x, _ := c.Board(cmp.Or(b.Board, layers[0]))
		t += x.Thickness
	}
	return t
}

type build struct {
	fitting.Env
	Spec
	id     string
	shop   joinery.Shop
	a      part.Assembly
	found  finding.List
	told   joinery.Told
	core   geom.Box // inside the edging
	under  L        // lower face of the layers
	block  stock.Board
	top    []int // indices of the pieces of the lowest layer
	edge   string
	straps []L // joints over a knee space that get a block
}

// Build makes a counter. Local names are unique in it.
func Build(env fitting.Env, id string, s Spec) (part.Assembly, finding.List) {
	env.Owner = id
	b := &build{Env: env, Spec: s, id: id, core: s.Box, under: s.Box.Max.Z}
	b.shop = joinery.Shop{Practice: env.Practice, Catalogue: env.Catalogue, Owner: id}
	for i, l := range s.Layers {
		x, ok := env.Catalogue.Board(l)
		if !ok || x.Thickness <= 0 {
			b.say(NoStock, finding.Error, fmt.Sprintf("layer %d is to be of board %q, which is not known", i+1, l), "name a board of the job or the catalogue", 0)
			continue
		}
		b.under -= x.Thickness
	}
	b.edging()
	if z := b.core.Size(); z.X <= 0 || z.Y <= 0 {
		b.say(Small, finding.Error, fmt.Sprintf("a top %s long and %s deep leaves nothing inside its edging: there is none", b.text(s.Box.Max.X-s.Box.Min.X), b.text(s.Box.Max.Y-s.Box.Min.Y)), "make it larger, or take thinner edging", 0)
		b.a.Parts = nil
		return b.made()
	}
	if s.Blocking != nil {
		b.blocking()
	}
	b.layers()
	b.rails()
	b.strap()
	if s.Free != nil {
		b.free()
	}
	b.spans()
	b.hold()
	b.judge()
	return b.made()
}

// made hands on what is built and said.
func (b *build) made() (part.Assembly, finding.List) {
	s, id := b.Spec, b.id
	o := part.Owner{ID: id, Kind: "counter", Name: s.Name, Box: s.Box, Carcass: s.Box, Moves: s.Free != nil}
	for i := range b.a.Parts {
		b.a.Parts[i].Owner = id
		o.Box = o.Box.Or(b.a.Parts[i].Box())
	}
	b.a.Owners = []part.Owner{o}
	b.found.Add(b.told.List("counter/" + id)...)
	for i := range b.found {
		b.found[i].At = "counter/" + id
	}
	joinery.Settle(b.a.Parts)
	return b.a, b.found
}

func (b *build) say(c finding.Code, sev finding.Severity, text, hint string, by L) {
	b.found.Add(finding.Finding{Code: c, Severity: sev, Text: text, Hint: hint, Source: common, Demand: b.num(by), Unit: "mm"})
}

// num gives millimetres to the nearest 0.1 for a finding.
func (b *build) num(l L) float64 { return float64(l.DivNear(int64(mm)/10)) / 10 }

func (b *build) text(l L) string {
	if b.Practice.InInches() {
		return l.In(length.Inches)
	}
	return l.In(length.Millimetres)
}

func (b *build) add(p part.Part) *part.Part {
	b.a.Parts = append(b.a.Parts, p)
	return &b.a.Parts[len(b.a.Parts)-1]
}

// part gives a part by its local name.
func (b *build) part(local string) *part.Part {
	for i := range b.a.Parts {
		if b.a.Parts[i].Local == local {
			return &b.a.Parts[i]
		}
	}
	return nil
}

// edging puts sticks round the layers, ripped to cover layers and blocking, and takes their
// thickness off the core.
func (b *build) edging() {
	if b.Edge == nil {
		return
	}
	st, ok := b.Catalogue.Stick(b.Edge.Stick)
	if !ok {
		b.say(NoStock, finding.Error, fmt.Sprintf("the edging is to be of stick %q, which is not known: there is none", b.Edge.Stick), "name a stick of the job or the catalogue", 0)
		return
	}
	t := st.Thickness
	has := func(d geom.Dir) bool { return slices.Contains(b.Edge.Sides, d) }
	full := b.Box
	low := min(b.under, full.Min.Z)
	if b.Blocking == nil || len(b.Layers) > 1 {
		low = b.under
	}
	if full.Max.Z-low > st.Width {
		b.say(EdgeLow, finding.Warning, fmt.Sprintf("the edging stick is %s wide and the top %s thick: its lower %s shows", b.text(st.Width), b.text(full.Max.Z-low), b.text(full.Max.Z-low-st.Width)), "take a wider stick", full.Max.Z-low-st.Width)
		low = full.Max.Z - st.Width
	}
	mitre := !b.Edge.Butt
	tool, tilts := b.shop.Mitrer()
	corners := has(geom.Front) && (has(geom.Left) || has(geom.Right)) || has(geom.Back) && (has(geom.Left) || has(geom.Right))
	if mitre && corners && !tilts {
		mitre = false
		b.say(NoMitre, finding.Note, fmt.Sprintf("no saw of the shop saws the mitres of %s thick edging: its corners are butted", b.text(t)), "state corners: butt, or add a mitre saw or a saw that bevels", t)
	}
	for _, d := range []geom.Dir{geom.Front, geom.Left, geom.Right, geom.Back} {
		if !has(d) {
			continue
		}
		if d.Sign() > 0 {
			b.core.Max = b.core.Max.With(d.Axis(), b.core.Max.At(d.Axis())-t)
		} else {
			b.core.Min = b.core.Min.With(d.Axis(), b.core.Min.At(d.Axis())+t)
		}
	}
	for _, d := range []geom.Dir{geom.Front, geom.Back, geom.Left, geom.Right} {
		if !has(d) {
			continue
		}
		along, ends := geom.Right, [2]geom.Dir{geom.Left, geom.Right}
		box := geom.B(full.Min.X, full.Min.Y, low, full.Max.X, full.Max.Y, full.Max.Z)
		if d.Axis() == 0 {
			along, ends = geom.Back, [2]geom.Dir{geom.Front, geom.Back}
		}
		if d.Sign() > 0 {
			box.Min = box.Min.With(d.Axis(), box.Max.At(d.Axis())-t)
		} else {
			box.Max = box.Max.With(d.Axis(), box.Min.At(d.Axis())+t)
		}
		if !mitre && d.Axis() == 0 { // side strips stop behind the front and back ones
			box.Min.Y, box.Max.Y = b.core.Min.Y, b.core.Max.Y
		}
		pieces := inSticks(box, along.Axis(), st.Length)
		for i, box := range pieces {
			local, name := "edge-"+d.String(), part.Piece(d.String()+" edging", i, len(pieces), along)
			if len(pieces) > 1 {
				local = fmt.Sprintf("%s-%d", local, i+1)
			}
			p := part.New(local, part.CounterEdge, name, b.Edge.Stick, box, along, geom.Up)
			p.Material = part.Stick
			for k, e := range ends {
				outer := k == 0 && i == 0 || k == 1 && i == len(pieces)-1
				if mitre && outer && has(e) {
					p.Ops = append(p.Ops, part.Op{Kind: part.Bevel, Face: p.Facing(e), L: p.Size[1], W: t, Depth: t, Angle: 45, Towards: p.Facing(d.Not()), Tool: tool, For: part.Mitre})
				}
			}
			b.add(p)
			if d == geom.Front && len(pieces) == 1 { // one in pieces stiffens nothing across its joints
				b.edge = local
			}
		}
	}
}

// inSticks divides a box along an axis into equal pieces, each to be had from a stick of which both
// ends are squared; they are butted and glued to the layers, whose own joints are elsewhere or above.
func inSticks(box geom.Box, axis int, stick L) []geom.Box {
	const squared = 10 * mm // of both ends together
	lo, hi := box.Min.At(axis), box.Max.At(axis)
	n := L(1)
	if hi-lo > stick && stick > squared {
		n = (hi - lo).DivUp(int64(stick - squared))
	}
	var r []geom.Box
	for i := range n {
		p := box
		p.Min = p.Min.With(axis, lo+(hi-lo).MulDiv(int64(i), int64(n)))
		p.Max = p.Max.With(axis, lo+(hi-lo).MulDiv(int64(i+1), int64(n)))
		r = append(r, p)
	}
	return r
}

// notched saws a board round what stands out from the wall, where enough of it is left in front of that.
func (b *build) notched(p part.Part) part.Part {
	for _, n := range b.Notches {
		box := p.Box()
		cut := box.And(geom.B(n.Min.X, n.Min.Y, box.Min.Z, n.Max.X, box.Max.Y, box.Max.Z))
		if s := cut.Size(); !cut.Empty() && box.Max.Y-box.Min.Y-s.Y >= leastHeld {
			p.Recess(part.Notch, part.Upper, cut, b.shop.Notcher(s.X, s.Y), part.RoundWall)
		}
	}
	return p
}

// joinEdges joins the edging to the piece of a layer that it touches.
func (b *build) joinEdges(piece part.Part) {
	for _, e := range b.a.Parts {
		if e.Role != part.CounterEdge {
			continue
		}
		x, y := e.Box(), piece.Box()
		c := geom.Box{
			Min: geom.V(max(x.Min.X, y.Min.X), max(x.Min.Y, y.Min.Y), max(x.Min.Z, y.Min.Z)),
			Max: geom.V(min(x.Max.X, y.Max.X), min(x.Max.Y, y.Max.Y), min(x.Max.Z, y.Max.Z)),
		}
		if s := c.Size(); s.Z > 0 && (s.X == 0 && s.Y > 0 || s.Y == 0 && s.X > 0) {
			b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.GlueOnly, A: piece.Local, B: e.Local, Contact: c, Glue: true})
		}
	}
}

// judge checks the overhang.
func (b *build) judge() {
	if o := b.Front - b.Box.Min.Y; len(b.Under) > 0 && o > mostOver {
		b.say(Overhang, finding.Warning, fmt.Sprintf("the top stands out %s past the cases; without brackets, which are not made here, it should not pass %s", b.text(o), b.text(mostOver)), fmt.Sprintf("let it stand out no more than %s, over-front: or depth:", b.text(mostOver)), o)
	}
}
