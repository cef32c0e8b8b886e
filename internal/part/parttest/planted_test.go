package parttest_test

import (
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
)

const mm = length.MM

// thing is a side with a groove, a level board in the groove, a loose shelf, a drawer before it and
// a door with a rack: everything that the judge looks at, and nothing wrong with it.
func thing() part.Assembly {
	side := part.New("side", part.Side, "side", "ply", geom.B(0, 0, 0, 18*mm, 400*mm, 600*mm), geom.Up, geom.Back)
	side.Recess(part.Groove, side.Facing(geom.Right), geom.B(12*mm, 0, 100*mm, 18*mm, 400*mm, 118*mm), "saw", "dado")
	side.Bore(part.Hole, side.Facing(geom.Right), geom.V(18*mm, 50*mm, 300*mm), 5*mm, 10*mm, "5 mm bit", "shelf pin")
	side.Bore(part.Hole, side.Facing(geom.Right), geom.V(18*mm, 350*mm, 300*mm), 5*mm, 10*mm, "5 mm bit", "shelf pin")
	bottom := part.New("bottom", part.Bottom, "bottom", "ply", geom.B(12*mm, 0, 100*mm, 500*mm, 400*mm, 118*mm), geom.Right, geom.Back)
	shelf := part.New("shelf", part.Shelf, "shelf", "ply", geom.B(19*mm, 100*mm, 302500*mm/1000, 499*mm, 400*mm, 320500*mm/1000), geom.Right, geom.Back)
	drawer := part.New("drawer", part.BoxBottom, "drawer", "ply", geom.B(60*mm, 100*mm, 200*mm, 400*mm, 390*mm, 212*mm), geom.Right, geom.Back)
	drawer.Moves = "c/drawer"
	door := part.New("door", part.Door, "door", "ply", geom.B(5*mm, -20*mm, 105*mm, 500*mm, -2*mm, 595*mm), geom.Up, geom.Right)
	door.Moves = "c/door"
	rack := part.New("rack", part.RackShelf, "rack", "ply", geom.B(80*mm, -2*mm, 400*mm, 440*mm, 70*mm, 412*mm), geom.Right, geom.Back)
	rack.Moves = "c/door"
	a := part.Assembly{
		Parts:  []part.Part{side, bottom, shelf, drawer, door, rack},
		Joints: []part.Joint{{Kind: part.Dado, A: "side", B: "bottom", Contact: geom.B(12*mm, 0, 100*mm, 18*mm, 400*mm, 118*mm)}},
		Spans:  []part.Span{{Part: "shelf", Along: geom.Right, Supports: []part.Support{{At: 4 * mm, Width: 8 * mm}, {At: 470 * mm, Width: 8 * mm}}}},
		Bays:   []part.Bay{{ID: "c/in", Owner: "c", Box: geom.B(18*mm, 100*mm, 330*mm, 500*mm, 400*mm, 600*mm), Floor: "shelf"}},
		Fronts: []part.Front{{Part: "door", Kind: part.DoorFront, Hinge: geom.Left, Hinges: []length.Length{80 * mm, 400 * mm}, Motion: "c/door"}},
		Motions: []part.Motion{
			{ID: "c/door", Owner: "c", Kind: part.Swing, Parts: []string{"door", "rack"}, Closed: door.Box(), Pivot: geom.V(18*mm, -2*mm, 105*mm), Hinge: geom.Left, Angle: 110, Swept: geom.B(-100*mm, -500*mm, 105*mm, 500*mm, 0, 595*mm)},
			{ID: "c/drawer", Owner: "c", Kind: part.Slide, Parts: []string{"drawer"}, Closed: drawer.Box(), Dir: geom.Front, Travel: 280 * mm, Swept: drawer.Box().Or(drawer.Box().Shift(geom.V(0, -280*mm, 0))), Needs: "c/door"},
		},
	}
	for i := range a.Parts {
		a.Parts[i].Owner = "c"
	}
	return a
}

// Every kind of fault, planted in a sound thing, is seen by the judge, and named.
func TestPlantedFaultsAreSeen(t *testing.T) {
	judge := func(a part.Assembly, o parttest.Options) []string {
		return append(parttest.Check(a, o), parttest.Moves(a)...)
	}
	all := parttest.Options{Envelope: geom.B(0, -20*mm, 0, 500*mm, 400*mm, 600*mm), Margin: 2 * mm}
	if bad := judge(thing(), all); len(bad) > 0 {
		t.Fatalf("the sound thing is faulted: %q", bad)
	}
	find := func(a *part.Assembly, local string) *part.Part {
		for i := range a.Parts {
			if a.Parts[i].Local == local {
				return &a.Parts[i]
			}
		}
		panic(local)
	}
	hole := part.Op{Kind: part.Hole, Face: part.Upper, X: 200 * mm, Y: 200 * mm, Dia: 8 * mm, Depth: 10 * mm, Tool: "8 mm bit", For: "test"}
	with := func(o part.Op, change func(*part.Op)) func(*part.Assembly) {
		change(&o)
		return func(a *part.Assembly) { p := find(a, "bottom"); p.Ops = append(p.Ops, o) }
	}
	straight := part.Op{Kind: part.Rabbet, Face: part.Upper, X: 0, Y: 0, L: 100 * mm, W: 10 * mm, Depth: 6 * mm, Tool: "saw", For: "test"}
	for name, f := range map[string]struct {
		plant func(*part.Assembly)
		said  string
	}{
		"two boards in one place": {func(a *part.Assembly) { s := find(a, "shelf"); s.Pose = s.Pose.Shift(geom.V(0, 0, -190*mm)) }, "bottom and shelf share"},
		"no groove for a board":   {func(a *part.Assembly) { s := find(a, "side"); s.Ops = s.Ops[1:] }, "side and bottom share"},
		"a groove too narrow":     {func(a *part.Assembly) { shrink(&find(a, "side").Ops[0]) }, "side and bottom share"},
		"a name twice":            {func(a *part.Assembly) { find(a, "shelf").Local = "bottom" }, "used twice"},
		"no name":                 {func(a *part.Assembly) { find(a, "shelf").Local = "" }, "empty"},
		"no size":                 {func(a *part.Assembly) { find(a, "shelf").Size[1] = 0 }, "size"},
		"sawn to nothing": {func(a *part.Assembly) {
			find(a, "shelf").Bands[part.BandNear] = part.Band{Edging: "x", Thickness: 400 * mm, Deduct: true}
		}, "size"},
		"outside the envelope":    {func(a *part.Assembly) { s := find(a, "shelf"); s.Pose = s.Pose.Shift(geom.V(2*mm, 0, 0)) }, "outside the envelope"},
		"a hole over the edge":    {with(hole, func(o *part.Op) { o.X = mm }), "leaves the upper face"},
		"a hole past the end":     {with(hole, func(o *part.Op) { o.X = 600 * mm }), "leaves the upper face"},
		"a hole near the edge":    {with(hole, func(o *part.Op) { o.Y = 5 * mm }), "leaves the upper face"},
		"a hole in an edge, out":  {with(hole, func(o *part.Op) { o.Face, o.Y = part.Start, 2*mm }), "leaves the start face"},
		"a hole deeper than wood": {with(hole, func(o *part.Op) { o.Depth = 19 * mm }), "is 760000 deep in 720000"},
		"a hole of no depth":      {with(hole, func(o *part.Op) { o.Depth = 0 }), "deep in"},
		"a hole of no tool":       {with(hole, func(o *part.Op) { o.Tool = "" }), "names no tool"},
		"holes that meet": {func(a *part.Assembly) {
			p := find(a, "bottom")
			b := hole
			b.X += 7 * mm
			p.Ops = append(p.Ops, hole, b)
		}, "run into each other"},
		"holes that meet from both faces": {func(a *part.Assembly) {
			p := find(a, "bottom")
			b := hole
			b.Face = part.Lower
			p.Ops = append(p.Ops, hole, b)
		}, "run into each other"},
		"a rabbet off the board": {with(straight, func(o *part.Op) { o.L = 500 * mm }), "leaves the upper face"},
		"a groove right through": {with(straight, func(o *part.Op) { o.Kind, o.Depth = part.Groove, 18*mm }), "goes through"},
		"a pocket off its face":  {with(hole, func(o *part.Op) { o.Kind, o.X = part.Pocket, -mm }), "pocket"},
		"a joint that does not touch": {func(a *part.Assembly) {
			a.Joints[0].Contact = a.Joints[0].Contact.Shift(geom.V(0, 0, 50*mm))
		}, "is not in bottom"},
		"a joint of one line": {func(a *part.Assembly) {
			c := &a.Joints[0].Contact
			c.Max.X, c.Max.Z = c.Min.X, c.Min.Z
		}, "has no area"},
		"a joint turned inside out":    {func(a *part.Assembly) { c := &a.Joints[0].Contact; c.Min, c.Max = c.Max, c.Min }, "inside out"},
		"a joint with nothing":         {func(a *part.Assembly) { a.Joints[0].B = "lid" }, "a part is missing"},
		"a span of nothing":            {func(a *part.Assembly) { a.Spans[0].Part = "lid" }, "the part is missing"},
		"a support past the end":       {func(a *part.Assembly) { a.Spans[0].Supports[1].At = 700 * mm }, "a support at"},
		"a support of no width":        {func(a *part.Assembly) { a.Spans[0].Supports[1].Width = 0 }, "a support at"},
		"a bay twice":                  {func(a *part.Assembly) { a.Bays = append(a.Bays, a.Bays[0]) }, "is there twice"},
		"a bay of nothing":             {func(a *part.Assembly) { a.Bays[0].Box.Max.Z = a.Bays[0].Box.Min.Z }, "encloses nothing"},
		"a bay on nothing":             {func(a *part.Assembly) { a.Bays[0].Floor = "lid" }, "which is missing"},
		"a bay in a board":             {func(a *part.Assembly) { a.Bays[0].Box.Min.Z = 310 * mm }, "bay c/in and shelf share"},
		"a motion twice":               {func(a *part.Assembly) { a.Motions = append(a.Motions, a.Motions[1]) }, "is there twice"},
		"a motion of nothing":          {func(a *part.Assembly) { a.Motions[1].Parts = []string{"lid"} }, "carries \"lid\""},
		"a motion that sweeps nothing": {func(a *part.Assembly) { a.Motions[1].Swept = geom.Box{} }, "less than where it rests"},
		"a motion behind no door":      {func(a *part.Assembly) { a.Motions[1].Needs = "c/lid" }, "needs \"c/lid\""},
		"a part that moves with none":  {func(a *part.Assembly) { find(a, "shelf").Moves = "c/lid" }, "moves with"},
		"a front that is not there":    {func(a *part.Assembly) { a.Fronts[0].Part = "lid" }, "front \"lid\" is missing"},
		"a hinge off its door":         {func(a *part.Assembly) { a.Fronts[0].Hinges[1] = 700 * mm }, "a hinge at"},
		"a drawer against a door":      {func(a *part.Assembly) { a.Motions[1].Needs = "" }, "drawer of motion c/drawer meets door"},
		"a drawer against a board": {func(a *part.Assembly) {
			a.Parts = append(a.Parts, owned(part.New("rail", part.Rail, "rail", "ply", geom.B(18*mm, 0, 190*mm, 500*mm, 18*mm, 240*mm), geom.Right, geom.Up)))
		}, "drawer of motion c/drawer meets rail"},
		"a drawer against the rack of an open door": {func(a *part.Assembly) {
			r := find(a, "rack")
			r.Pose = r.Pose.Shift(geom.V(0, 0, -200*mm))
		}, "meets rack on the door"},
		"a rack that strikes the side": {func(a *part.Assembly) {
			a.Parts = append(a.Parts, owned(part.New("far", part.Side, "far side", "ply", geom.B(441*mm, 0, 118*mm, 459*mm, 90*mm, 600*mm), geom.Up, geom.Back)))
			a.Bays = nil
		}, "rack on the door of motion c/door meets far"},
	} {
		a := thing()
		f.plant(&a)
		if bad := strings.Join(judge(a, all), "\n"); !strings.Contains(bad, f.said) {
			t.Errorf("%s: want %q among\n%s", name, f.said, bad)
		}
	}
}

// shrink makes a groove across a board a millimetre narrower.
func shrink(o *part.Op) {
	if o.L < o.W {
		o.L -= mm
	} else {
		o.W -= mm
	}
}

func owned(p part.Part) part.Part {
	p.Owner = "c"
	return p
}
