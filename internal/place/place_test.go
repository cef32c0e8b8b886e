package place_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/place"
	"stowright/internal/schema"
	"stowright/internal/stock"
)

func aCase(id string, w, h, d length.Length) job.CheckedCase {
	return job.CheckedCase{ID: id, Spec: carcass.Spec{Name: id, Level: "floor", Width: &w, Height: &h, Depth: &d, Stands: carcass.Stands{Kind: "feet"}}}
}

func named[T any](id string, v T) job.Named[T] { return job.Named[T]{ID: id, Value: v} }

// bench is a wall of 100 in with cases a, b, c of 30 in in a run.
func bench(r job.Run) job.Checked {
	c := job.Checked{Print: length.Inches, Practice: stock.Practice{Clearance: in / 8}}
	c.Walls = []job.Named[job.Wall]{named("w", job.Wall{Length: 100 * in, Height: p(96 * in), Kind: "stud"})}
	for _, id := range []string{"a", "b", "c"} {
		c.Cases = append(c.Cases, aCase(id, 30*in, 34*in, 18*in))
		r.Order = append(r.Order, job.Entry{Case: id})
	}
	c.Runs = []job.Named[job.Run]{named("r", r)}
	return c
}

func xs(r place.Room) (list []length.Length) {
	for _, s := range r.Seats {
		if s.Kind == place.Case {
			list = append(list, s.Box.Min.X)
		}
	}
	return list
}

func TestRunsFromEveryEnd(t *testing.T) {
	for _, c := range []struct {
		name string
		run  job.Run
		want [3]length.Length
	}{
		{"left", job.Run{From: "left", Start: p(2 * in)}, [3]length.Length{2 * in, 32 * in, 62 * in}},
		{"right", job.Run{From: "right", Start: p(2 * in)}, [3]length.Length{8 * in, 38 * in, 68 * in}},
		{"centre", job.Run{From: "centre"}, [3]length.Length{5 * in, 35 * in, 65 * in}},
		{"equal fillers", job.Run{From: "left", Fill: "both"}, [3]length.Length{5 * in, 35 * in, 65 * in}},
		{"equal fillers from the right", job.Run{From: "right", Fill: "both", Filler: p(6 * in)}, [3]length.Length{5 * in, 35 * in, 65 * in}},
		{"a filler as wide as the start", job.Run{From: "left", Fill: "both", Start: p(2 * in)}, [3]length.Length{2 * in, 32 * in, 62 * in}},
		{"between", job.Run{From: "between", Start: p(4 * in), To: p(98 * in), Fill: "both"}, [3]length.Length{6 * in, 36 * in, 66 * in}},
	} {
		j := bench(c.run)
		r, f := place.All(&j)
		if got := xs(r); len(got) != 3 || [3]length.Length(got) != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		if len(f.With(place.RunTooLong)) > 0 {
			t.Errorf("%s: %v", c.name, f)
		}
		a, b := r.Seat("a"), r.Seat("b")
		if a.Right != "b" || b.Left != "a" || !a.Joins[1] || !b.Joins[0] || a.Joins[0] {
			t.Errorf("%s: neighbours %q %q", c.name, a.Right, b.Left)
		}
	}
	j := bench(job.Run{From: "left", Start: p(12 * in)})
	_, f := place.All(&j)
	if l := f.With(place.RunTooLong); len(l) != 1 || !strings.Contains(l[0].Text, "by 2 in") {
		t.Errorf("90 in from 12 in on a wall of 100: %v", l)
	}
}

func TestAroundAWindow(t *testing.T) {
	j := bench(job.Run{From: "left", Around: true})
	w := laundry()
	w.Clear = nil
	w.Openings[0].Value.Sill = p(20 * in)
	j.Walls[0].Value = w
	r, _ := place.All(&j)
	if got := xs(r); got[0] != 0 || got[1] != 30*in || got[2] != 98*in {
		t.Errorf("around a window from 62 to 98 in: %v", got)
	}
}

// A run steps over what its cases meet at the height at which they stand, not at that of the wall's left end. The counter
// over it has rails where the cases stand apart, as it has over a knee space.
func TestAroundAtItsLevel(t *testing.T) {
	for name, up := range map[string]length.Length{"a step up": 10 * in, "level": 0} {
		j := bench(job.Run{From: "left", Around: true})
		w := &j.Walls[0].Value
		w.Length = 120 * in
		w.Floor = job.Floor{Points: []job.Height{{At: 0}, {At: 20 * in}, {At: 20 * in, Z: up}, {At: 120 * in, Z: up}}}
		w.Clear = schema.Map[job.Keep]{{Key: "valve", Value: job.Keep{Kind: "valve", From: p(40 * in), To: p(50 * in), Bottom: p(36 * in), Top: p(50 * in)}}}
		j.Counters = []job.Named[job.Counter]{named("k", job.Counter{Over: []string{"r"}})}
		r, _ := place.All(&j)
		want, gaps := 30*in, 0
		if up > 0 {
			want, gaps = 50*in, 1
		}
		if got := xs(r); got[1] != want {
			t.Errorf("%s: b stands at %v, want %v", name, got[1], want)
		}
		knees := r.Seat("k").Knees
		if len(knees) != gaps || gaps > 0 && (!knees[0].Gap || knees[0].From != 30*in || knees[0].To != 50*in) {
			t.Errorf("%s: gaps under the counter: %v", name, knees)
		}
	}
}

// A run that stands off its wall is clear of the skirting there and not notched; the counter over it reaches the wall.
func TestOffTheWall(t *testing.T) {
	for _, off := range []length.Length{0, in} {
		r := job.Run{From: "left"}
		if off > 0 {
			r.Off = &off
		}
		j := bench(r)
		j.Walls[0].Value.Obstacles = schema.Map[job.Obstacle]{{Key: "skirting", Value: job.Obstacle{Kind: "skirting", Height: p(5 * in), Out: in}}}
		j.Counters = []job.Named[job.Counter]{named("k", job.Counter{Over: []string{"r"}})}
		room, _ := place.All(&j)
		a, k := room.Seat("a"), room.Seat("k")
		if a.Rear != -off || a.Box.Min.Y != -off-18*in || (len(a.Site.Notches) == 0) != (off > 0) {
			t.Errorf("%s off: rear %s, %d notches", off.Exact(1), a.Rear.Exact(1), len(a.Site.Notches))
		}
		if k.Rear != 0 || k.Box.Max.Y != 0 || k.Box.Min.Y != a.Box.Min.Y-k.Over {
			t.Errorf("%s off: the counter lies from %s to %s", off.Exact(1), k.Box.Min.Y.Exact(1), k.Box.Max.Y.Exact(1))
		}
	}
}

func TestLevelFromTheHighPoint(t *testing.T) {
	j := bench(job.Run{From: "left"})
	j.Walls[0].Value.Floor = job.Floor{Points: []job.Height{{At: 0}, {At: 45 * in, Z: in / 2}, {At: 100 * in, Z: -in}}}
	r, _ := place.All(&j)
	for _, s := range r.Seats {
		if s.Level != in/2 || s.Top != 69*in/2 || s.Box.Min.Z != in/2 {
			t.Errorf("%s: level %v, top %v", s.ID, s.Level, s.Top)
		}
	}
}

func TestGapTakesTheSmallestWidth(t *testing.T) {
	j := job.Checked{Print: length.Millimetres, Practice: stock.Practice{Clearance: 3 * mm}}
	j.Walls = []job.Named[job.Wall]{named("w", job.Wall{Length: 5200 * mm})}
	j.Standing = []job.Named[job.Standing]{
		named("two", job.Standing{Kind: "case", From: 762 * mm, To: 1524 * mm, Depth: 515 * mm, Top: 868 * mm}),
		named("three", job.Standing{Kind: "case", From: 2441 * mm, To: 3203 * mm, Depth: 515 * mm, Top: 868 * mm}),
		named("over", job.Standing{Kind: "counter", From: 762 * mm, To: 3203 * mm, Depth: 515 * mm, Clear: p(800 * mm), Top: 908 * mm}),
	}
	c := aCase("new", 700*mm, 700*mm, 500*mm)
	c.Case.Gap = &job.Gap{Left: "two", Right: "three", Widths: []length.Length{917 * mm, 912 * mm, 910 * mm}}
	j.Cases = []job.CheckedCase{c}
	r, f := place.All(&j)
	s := r.Seat("new")
	if *s.Spec.Width != 907*mm || *s.Spec.Height != 797*mm || *s.Spec.Depth != 515*mm {
		t.Errorf("%v wide, %v high, %v deep", *s.Spec.Width, *s.Spec.Height, *s.Spec.Depth)
	}
	if s.Left != "two" || s.Right != "three" || len(f.With(place.GapSize)) != 1 || len(f.With(place.UnfixNeighbour)) != 0 {
		t.Errorf("neighbours %q %q, %v", s.Left, s.Right, f)
	}
	if *j.Cases[0].Spec.Width != 700*mm {
		t.Error("the job was changed")
	}
	j.Cases[0].Case.Gap.Clearance = p(mm)
	if _, f := place.All(&j); len(f.With(place.UnfixNeighbour)) != 1 {
		t.Errorf("1 mm of clearance needs no neighbour unfixed: %v", f)
	}
}

func TestReservedKneeSpace(t *testing.T) {
	j := bench(job.Run{From: "left"})
	j.Runs[0].Value.Order = []job.Entry{{Case: "a"}, {Knee: &job.Knee{Width: 30 * in, For: "c"}}, {Case: "b"}}
	j.Catalogue.Boards = []stock.Board{{ID: "ply", Thickness: 3 * in / 4}}
	j.Counters = []job.Named[job.Counter]{named("top", job.Counter{Over: []string{"r"}, Layers: []job.Layer{{Board: "ply"}}, Rails: &job.Rails{Height: p(3 * in)}})}
	_, f := place.All(&j)
	if l := f.With(place.KneeSmall); len(l) != 2 { // 30 in wide for 30 in; 31 in high for 34 in
		t.Errorf("%v", l)
	}
	wide, high := 29*in, 30*in
	j.Cases[2].Spec.Width, j.Cases[2].Spec.Height = &wide, &high
	r, f := place.All(&j)
	if l := f.With(place.KneeSmall); len(l) != 0 {
		t.Errorf("%v", l)
	}
	if s := r.Seat("c"); s == nil || s.Box.Min.X != 61*in/2 || s.Reserve != "top" {
		t.Errorf("the case that rolls in: %v", s)
	}
}

func TestLevelWithABed(t *testing.T) {
	j := bench(job.Run{From: "left"})
	j.Runs[0].Value.Order = []job.Entry{{Case: "a"}, {Machine: "saw"}, {Case: "b"}}
	j.Catalogue.Boards = []stock.Board{{ID: "ply", Thickness: 3 * in / 4}}
	j.Machines = []job.Named[job.Machine]{named("saw", job.Machine{Width: 24 * in, Depth: 20 * in, Bed: p(33 * in / 8), SwingWidth: p(34 * in)})}
	j.Counters = []job.Named[job.Counter]{named("top", job.Counter{Over: []string{"a"}, Layers: []job.Layer{{Board: "ply"}}, Level: "saw"})}
	r, f := place.All(&j)
	// 34 + 3/4 - 4-1/8 = 30-5/8
	if s := r.Seat("saw"); s == nil || s.Box.Min.Z != 245*in/8 || s.Bed != 139*in/4 {
		t.Errorf("the saw stands at %v, %v", s, f)
	}
	if len(f.With(place.MachineStands)) != 1 || len(f.With(place.BedLevel)) != 0 {
		t.Errorf("%v", f)
	}
}

// A planer on a stand of its own: 900 less its bed of 120 is how high its feet are, and benches on both
// sides that ask for one bed are level with each other.
func TestBedOfAMachineOnItsOwnStand(t *testing.T) {
	bench := func(high length.Length) job.Counter {
		return job.Counter{Free: &job.FreeBench{Length: 1200 * mm}, Depth: p(600 * mm), Height: p(high), Layers: []job.Layer{{Board: "ply"}}, Level: "planer"}
	}
	j := job.Checked{Machines: []job.Named[job.Machine]{named("planer", job.Machine{Width: 600 * mm, Depth: 560 * mm, Bed: p(120 * mm)})}}
	j.Catalogue.Boards = []stock.Board{{ID: "ply", Thickness: 18 * mm}}
	j.Counters = []job.Named[job.Counter]{named("infeed", bench(900*mm)), named("outfeed", bench(900*mm))}
	_, f := place.All(&j)
	if l := f.With(place.MachineStands); len(l) != 1 || !strings.Contains(l[0].Text, "must stand 30 23/32 in") || len(f.With(place.BedLevel)) != 0 {
		t.Errorf("%v", f)
	}
	j.Counters[1].Value.Height = p(895 * mm)
	if _, f := place.All(&j); len(f.With(place.BedLevel)) != 1 {
		t.Errorf("5 mm below: %v", f)
	}
}

// A west wall whose right end meets the north wall's left end: a point 400 mm before its right end
// and 300 out is 300 along and 400 out of the north wall.
func TestSquareCorner(t *testing.T) {
	j := job.Checked{}
	j.Walls = []job.Named[job.Wall]{
		named("north", job.Wall{Length: 4850 * mm}),
		named("west", job.Wall{Length: 2900 * mm, Corner: &job.Corner{With: "north", At: "right", Angle: "90"}}),
	}
	r, _ := place.All(&j)
	w := r.Wall("west")
	if got, want := w.Frame.Point(geom.V(2500*mm, -300*mm, 0)), geom.V(300*mm, -400*mm, 0); got != want {
		t.Errorf("%v, want %v", got, want)
	}
	b := geom.B(0, -300*mm, 0, 100*mm, 0, mm)
	if w.Frame.Back(w.Frame.Box(b)) != b {
		t.Error("there and back is not the same")
	}
	if w.Corner(1) != "north" || r.Wall("north").Corner(0) != "west" {
		t.Error("the corner is not known on both walls")
	}
}

func TestMissingFactsAreOneLine(t *testing.T) {
	j := bench(job.Run{})
	_, f := place.All(&j)
	if l := f.With(place.SurveyLacks); len(l) != 1 || l[0].Verdict != finding.NotKnown || !strings.Contains(l[0].Text, "studs of wall w") {
		t.Errorf("%v", l)
	}
}

func TestOneCaseWithoutAWall(t *testing.T) {
	j := job.Checked{Cases: []job.CheckedCase{aCase("a", 30*in, 34*in, 18*in)}}
	r, f := place.All(&j)
	if len(r.Seats) != 1 || len(f) != 0 {
		t.Errorf("%v %v", r.Seats, f)
	}
}

// Runs add up exactly, whatever the widths; a mirrored job has mirrored seats.
func TestMirroredRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, lo, hi int64) length.Length {
			return length.Length(rapid.Int64Range(lo, hi).Draw(t, name)) * length.Tick * 7919
		}
		n := rapid.IntRange(1, 6).Draw(t, "cases")
		wide := size("wall", 40_000, 60_000)
		make := func() job.Checked {
			return job.Checked{Print: length.Millimetres, Walls: []job.Named[job.Wall]{named("w", job.Wall{Length: wide})}}
		}
		a, b := make(), make()
		from := rapid.SampledFrom([]string{"left", "right"}).Draw(t, "from")
		start := size("start", 0, 500)
		ra, rb := job.Run{From: from, Start: &start}, job.Run{From: "left", Start: &start}
		if from == "left" {
			rb.From = "right"
		}
		for i := range n {
			c := aCase(string(rune('a'+i)), size("width", 1500, 5000), 800*mm, 500*mm)
			a.Cases, b.Cases = append(a.Cases, c), append(b.Cases, c)
			ra.Order = append(ra.Order, job.Entry{Case: c.ID})
			rb.Order = append([]job.Entry{{Case: c.ID}}, rb.Order...)
		}
		a.Runs, b.Runs = []job.Named[job.Run]{named("r", ra)}, []job.Named[job.Run]{named("r", rb)}
		rooma, _ := place.All(&a)
		roomb, _ := place.All(&b)
		at := length.Length(-1)
		for _, s := range rooma.Seats {
			if at >= 0 && s.Box.Min.X != at {
				t.Fatalf("%s starts at %v, its neighbour ends at %v", s.ID, s.Box.Min.X, at)
			}
			at = s.Box.Max.X
			m := roomb.Seat(s.ID)
			if m.Box.Min.X != wide-s.Box.Max.X || m.Box.Max.X != wide-s.Box.Min.X || m.Left != s.Right || m.Right != s.Left {
				t.Fatalf("%s: %v, mirrored %v", s.ID, s.Box, m.Box)
			}
		}
	})
}

// A wall run takes the upper edge of the one it aligns with, whatever its own heights; a floor run
// takes the level line of the one it aligns with, the higher of both.
func TestAlignedTops(t *testing.T) {
	j := bench(job.Run{From: "left"})
	j.Walls[0].Value.Floor = job.Floor{Points: []job.Height{{At: 0}, {At: 60 * in}, {At: 70 * in, Z: in}, {At: 100 * in, Z: in}}}
	j.Runs[0].Value.Order = []job.Entry{{Case: "a"}}
	j.Runs = append(j.Runs, named("s", job.Run{From: "left", Start: p(70 * in), Order: []job.Entry{{Case: "b"}}, Align: "r"}))
	r, _ := place.All(&j)
	if a, b := r.Seat("a"), r.Seat("b"); a.Level != in || b.Level != in || a.Top != b.Top {
		t.Errorf("levels %v and %v, tops %v and %v", a.Level, b.Level, a.Top, b.Top)
	}
	high := 20 * in
	j.Cases[1].Spec.Height = &high
	for i := range j.Runs {
		j.Runs[i].Value.Level = "wall"
	}
	j.Runs[0].Value.Top = p(80 * in)
	r, _ = place.All(&j)
	if a, b := r.Seat("a"), r.Seat("b"); a.Top != b.Top || b.Box.Min.Z != b.Top-20*in || !b.Hung {
		t.Errorf("wall tops %v and %v", a.Top, b.Top)
	}
}

// Two stretches of cases with a knee space between them stand on two bases, each as high as the job
// says; the carcasses on them are told.
func TestBasesLeaveTheKneeSpaceFree(t *testing.T) {
	j := bench(job.Run{From: "left"})
	j.Runs[0].Value.Order = []job.Entry{{Case: "a"}, {Knee: &job.Knee{Width: 30 * in}}, {Case: "b"}}
	j.Bases = []job.Named[job.Base]{named("base", job.Base{Under: []string{"r"}, Height: p(7 * in / 2), Clears: p(in)})}
	r, _ := place.All(&j)
	var n int
	for _, s := range r.Seats {
		if s.Kind == place.Base {
			n++
			if s.Box.Max.X-s.Box.Min.X != 30*in || s.Box.Max.Y != -in || s.Box.Max.Z != 7*in/2 || s.Of != "base" {
				t.Errorf("%s: %v", s.ID, s.Box)
			}
		}
	}
	if n != 2 || r.Seat("a").Site.Base != 7*in/2 || r.Seat("b").Site.Base != 7*in/2 {
		t.Errorf("%d bases", n)
	}
}

// Two walls meet; the west wall's floor rises 30 mm towards the corner, so its level 0, at its
// left end, is 30 lower than the north wall's. Tops that are aligned are at one height in the
// room, not at one figure (arithmetic).
func TestTopsAlignRoundACorner(t *testing.T) {
	j := job.Checked{Print: length.Millimetres}
	j.Walls = []job.Named[job.Wall]{
		named("north", job.Wall{Length: 4000 * mm, Height: p(2500 * mm)}),
		named("west", job.Wall{Length: 3000 * mm, Height: p(2500 * mm), Corner: &job.Corner{With: "north", At: "right", Angle: "90"},
			Floor: job.Floor{Points: []job.Height{{At: 0}, {At: 3000 * mm, Z: 30 * mm}}}}),
	}
	j.Cases = []job.CheckedCase{aCase("a", 600*mm, 900*mm, 500*mm), aCase("b", 600*mm, 900*mm, 500*mm), aCase("c", 600*mm, 800*mm, 500*mm)}
	j.Runs = []job.Named[job.Run]{
		named("n", job.Run{Wall: "north", Start: p(1000 * mm), Order: []job.Entry{{Case: "a"}}}),
		named("w", job.Run{Wall: "west", From: "right", Start: p(1000 * mm), Align: "n", Order: []job.Entry{{Case: "b"}, {Case: "c"}}}),
	}
	j.Counters = []job.Named[job.Counter]{named("top", job.Counter{Over: []string{"n", "w"}})}
	r, f := place.All(&j)
	up := func(id string) length.Length {
		s := r.Seat(id)
		return s.Top + r.Wall(s.Wall).Frame.Origin.Z
	}
	// The floor's high point is the north wall's: 0. West of it the floor is below.
	if up("a") != 900*mm || up("b") != 900*mm {
		t.Errorf("tops at %s and %s in the room, want 900 mm", up("a").Exact(1), up("b").Exact(1))
	}
	if s := r.Seat("b"); s.Level != 30*mm {
		t.Errorf("the line is %s above the west wall's level 0, want 30 mm", s.Level.Exact(1))
	}
	// c is 100 mm lower than the line it is to share, and the counter cannot go round the corner.
	if l := f.With(place.TopsDiffer); !slices.ContainsFunc(l, func(x finding.Finding) bool { return x.At == "case/c" && x.Demand == 100 }) {
		t.Errorf("c is 100 mm lower and nothing says so: %v", l)
	}
	if l := f.With(place.CounterWalls); len(l) != 1 || l[0].At != "counter/top" {
		t.Errorf("a counter over two walls: %v", l)
	}
}

// What names no stage is built in the first.
func TestNoStageIsTheFirst(t *testing.T) {
	j := bench(job.Run{From: "left"})
	j.File.Stages = []job.Stage{{ID: "one"}, {ID: "two"}}
	j.Cases[2].Case.Stage = "two"
	r, _ := place.All(&j)
	if a, c := r.Seat("a"), r.Seat("c"); a.Stage != "one" || c.Stage != "two" {
		t.Errorf("stages %q and %q", a.Stage, c.Stage)
	}
}

// The wall stands 10 mm proud at the height of the counter, over the cases, and beyond their end:
// a counter straight through would be 10 mm in it (arithmetic).
func TestACounterClearsAProudWall(t *testing.T) {
	j := bench(job.Run{From: "left"})
	j.Print = length.Millimetres
	j.Walls[0].Value.Hollow = []job.Hollow{{At: 0, By: 0}, {At: 90 * in, By: 0}, {At: 95 * in, By: -10 * mm}}
	j.Catalogue.Boards = []stock.Board{{ID: "ply", Thickness: 3 * in / 4}}
	j.Counters = []job.Named[job.Counter]{named("top", job.Counter{Over: []string{"r"}, OverRight: p(5 * in), Layers: []job.Layer{{Board: "ply"}}})}
	r, _ := place.All(&j)
	w := r.Wall("w")
	s := r.Seat("top")
	if s.Rear != -10*mm || s.Rear > w.Proudest(s.Box.Min.X, s.Box.Max.X, s.Box.Min.Z, s.Box.Max.Z) {
		t.Errorf("the counter's rear is at %s, want 10 mm off the wall's line", s.Rear.Exact(1))
	}
	if a := r.Seat("a"); a.Rear != 0 {
		t.Errorf("the cases' is at %s, want 0", a.Rear.Exact(1))
	}
}

// A gap wider than the widest filler stays open, and is told of: a strip of 10 in is no filler.
func TestNoFillerWiderThanWanted(t *testing.T) {
	j := bench(job.Run{From: "left", Fill: "right", Filler: p(3 * in)})
	r, f := place.All(&j)
	if r.Seat("r-filler-right") != nil || len(f.With(place.FillerWide)) != 1 {
		t.Errorf("10 in left, 3 in the widest: %v, %v", r.Seat("r-filler-right"), f.With(place.FillerWide))
	}
}

// In a corner of 80 degrees the other wall stands 18 / tan 80° = 3.17 in into the run's stretch at its front (trigonometry): the
// filler is so much narrower, and as much wider at 100 degrees. All to within 0.1 mm.
func TestFillerInASlantedCorner(t *testing.T) {
	for angle, want := range map[string]length.Length{"80": 10*in - 80617*mm/1000, "90": 10 * in, "100": 10*in + 80617*mm/1000} {
		j := bench(job.Run{From: "left", Fill: "right", Filler: p(20 * in)})
		j.Walls = append(j.Walls, named("v", job.Wall{Length: 100 * in, Height: p(96 * in), Corner: &job.Corner{With: "w", At: "left", Angle: angle}}))
		r, f := place.All(&j)
		s := r.Seat("r-filler-right")
		if s == nil {
			t.Fatal(angle, f)
		}
		if d := (s.Box.Size().X - want).Abs(); d > mm/5 {
			t.Errorf("%s degrees: the filler is %s wide, want %s", angle, s.Box.Size().X.Exact(1), want.Exact(1))
		}
	}
}

// Where nobody has measured the floor under a case, that is said: it is not level because nothing says otherwise.
func TestFloorMeasuredInPart(t *testing.T) {
	for reach, want := range map[length.Length]string{50 * in: "floor heights from 50 in on of wall w", 100 * in: ""} {
		j := bench(job.Run{From: "left"})
		j.Walls[0].Value.Floor = job.Floor{Points: []job.Height{{At: 0}, {At: reach, Z: -in}}}
		_, f := place.All(&j)
		text := ""
		for _, x := range f.With(place.SurveyLacks) {
			text += x.Text
		}
		if (want == "") == strings.Contains(text, "floor heights") || !strings.Contains(text, want) {
			t.Errorf("measured to %s: %s", reach.Exact(0), text)
		}
	}
}

// Cases that stand in no run are set from one line when a counter or a base joins them, the higher of what each alone
// would have; without one each goes by its own floor (arithmetic).
func TestCasesUnderOneCounterAreLevel(t *testing.T) {
	at := func(id string, x length.Length) job.CheckedCase {
		c := aCase(id, 30*in, 34*in, 18*in)
		c.Case = job.Case{Wall: "w", At: p(x)}
		return c
	}
	j := bench(job.Run{})
	j.Runs, j.Cases = nil, []job.CheckedCase{at("a", 0), at("b", 70*in)}
	j.Walls[0].Value.Floor = job.Floor{Falls: p(2 * in)}
	tops := func() length.Length {
		r, _ := place.All(&j)
		return r.Seat("a").Top - r.Seat("b").Top
	}
	if d := tops(); d != 2*in*70/100 {
		t.Errorf("alone they differ by %v", d)
	}
	j.Counters = []job.Named[job.Counter]{named("top", job.Counter{Over: []string{"a", "b"}, Layers: []job.Layer{{Board: "ply"}}})}
	if d := tops(); d != 0 {
		t.Errorf("under one counter they differ by %v", d)
	}
	j.Counters = nil
	j.Bases = []job.Named[job.Base]{named("base", job.Base{Under: []string{"a", "b"}})}
	if d := tops(); d != 0 {
		t.Errorf("on one base they differ by %v", d)
	}
}

// A case that is to roll under a counter goes into the knee space that is kept for it, in whatever run that is, and
// never before a case that the counter lies on.
func TestARollingCaseGoesToItsOwnKneeSpace(t *testing.T) {
	roll := aCase("roll", 24*in, 26*in, 16*in)
	roll.Case = job.Case{Rolls: "top"}
	j := bench(job.Run{})
	j.Cases = append(j.Cases, roll)
	j.Walls[0].Value.Length = 130 * in
	j.Runs = append(j.Runs, named("end", job.Run{Start: p(90 * in), Order: []job.Entry{{Knee: &job.Knee{Width: 30 * in, For: "roll"}}}}))
	j.Counters = []job.Named[job.Counter]{named("top", job.Counter{Over: []string{"a", "b", "c"}, Layers: []job.Layer{{Board: "ply"}}})}
	r, found := place.All(&j)
	if x := r.Seat("roll").Box.Min.X; x != 93*in {
		t.Errorf("it stands at %v", x)
	}
	if hi := r.Seat("top").Box.Max.X; hi < 120*in {
		t.Errorf("the counter ends at %v", hi)
	}
	j.Runs = j.Runs[:1]
	r, found = place.All(&j)
	if !slices.ContainsFunc(found, func(f finding.Finding) bool {
		return f.Code == place.NotPlaced && strings.Contains(f.Text, "no knee space")
	}) {
		t.Error("nothing says that there is no knee space", r.Seat("roll").Box, found)
	}
}
