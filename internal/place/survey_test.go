package place_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/place"
	"stowright/internal/schema"
)

const (
	in = length.Inch
	mm = length.MM
)

func p(v length.Length) *length.Length { return &v }

func wall(w job.Wall) place.Wall {
	return place.Survey(job.Named[job.Wall]{ID: "w", Value: w})
}

// laundry is an inch wall with a falling floor, a window, a lean and a hollow.
func laundry() job.Wall {
	return job.Wall{
		Length: 160 * in, Height: p(98 * in), Kind: "stud", Lean: p(3 * in / 8), Hollow: []job.Hollow{{At: 110 * in, By: in / 4}},
		Lining: &job.Lining{Thickness: p(in / 2)},
		Studs:  &job.Studs{First: p(15 * in / 2), Spacing: p(16 * in), Width: p(3 * in / 2)},
		Floor: job.Floor{Every: p(32 * in), AtWall: []length.Length{0, -in / 8, -3 * in / 8, -5 * in / 8, -3 * in / 4, -3 * in / 4},
			FallsOut: &job.Fall{By: in / 4, In: 24 * in}},
		Openings: schema.Map[job.Opening]{{Key: "window", Value: job.Opening{Kind: "window", From: 62 * in, To: 98 * in, Sill: p(50 * in), Head: p(80 * in),
			Framing: []length.Length{239 * in / 4, 245 * in / 4, 395 * in / 4, 401 * in / 4}, Header: &job.Header{Height: 3 * in}}}},
		Clear: schema.Map[job.Keep]{
			{Key: "panel", Value: job.Keep{Kind: "electrical-panel", From: p(545 * in / 4), To: p(603 * in / 4), Bottom: p(42 * in), Top: p(72 * in)}},
			{Key: "outlet", Value: job.Keep{Kind: "outlet", At: p(31 * in), Up: p(44 * in), Width: p(3 * in), Height: p(9 * in / 2)}},
		},
	}
}

// Heights worked by hand from the survey's figures.
func TestFloorByHand(t *testing.T) {
	w := wall(laundry())
	for _, c := range []struct{ x, y, want length.Length }{
		{0, 0, 0}, {16 * in, 0, -in / 16}, {48 * in, 0, -in / 4}, {48 * in, -12 * in, -3 * in / 8},
		{160 * in, -24 * in, -in}, {128 * in, -48 * in, -5 * in / 4}, {144 * in, 0, -3 * in / 4},
	} {
		if got := w.FloorAt(c.x, c.y); got != c.want {
			t.Errorf("floor at %s, %s = %s, want %s", c.x.Exact(0), c.y.Exact(0), got.Exact(0), c.want.Exact(0))
		}
	}
	if got := w.High(32*in, 64*in, -18*in, 0); got != -in/8 {
		t.Errorf("high point %s, want -1/8 in", got.Exact(0))
	}
	if lo, _ := w.Range(32*in, 64*in, -24*in, 0); lo != -5*in/8 {
		t.Errorf("low point %s, want -5/8 in", lo.Exact(0))
	}
}

func TestStepInTheFloor(t *testing.T) {
	w := wall(job.Wall{Length: 4850 * mm, Floor: job.Floor{Points: []job.Height{{At: 0}, {At: 3200 * mm}, {At: 3200 * mm, Z: 18 * mm}, {At: 4850 * mm, Z: 18 * mm}}}})
	for _, c := range []struct{ lo, hi, want length.Length }{
		{0, 3200 * mm, 0}, {3100 * mm, 3300 * mm, 18 * mm}, {3200 * mm, 4000 * mm, 18 * mm}, {0, 3199 * mm, 0},
	} {
		if got := w.High(c.lo, c.hi, -500*mm, 0); got != c.want {
			t.Errorf("high point from %v to %v = %v, want %v", c.lo, c.hi, got, c.want)
		}
	}
	if lo, hi := w.Range(3200*mm, 4000*mm, -500*mm, 0); lo != 18*mm || hi != 18*mm {
		t.Errorf("beyond the step: %v to %v", lo, hi)
	}
}

func TestFaceAndCeilingByHand(t *testing.T) {
	w := wall(laundry())
	for _, c := range []struct{ x, z, want length.Length }{
		{110 * in, 0, in / 4}, {110 * in, 98 * in, -in / 8}, {55 * in, 0, in / 8}, {135 * in, 0, in / 8}, {0, 98 * in, -3 * in / 8},
	} {
		if got := w.Face(c.x, c.z); got != c.want {
			t.Errorf("face at %s, %s up = %s, want %s", c.x.Exact(0), c.z.Exact(0), got.Exact(0), c.want.Exact(0))
		}
	}
	if got := w.Proudest(0, 160*in, 0, 98*in); got != -3*in/8 {
		t.Errorf("proudest %s", got.Exact(0))
	}
	s := wall(job.Wall{Length: 4850 * mm, Ceiling: []job.Height{{At: 0, Z: 2600 * mm}, {At: 4850 * mm, Z: 1950 * mm}}})
	if z, ok := s.CeilingAt(2425 * mm); !ok || z != 2275*mm {
		t.Errorf("ceiling in the middle %v, want 2275 mm", z)
	}
	if z, _ := s.LowestCeiling(0, 4850*mm); z != 1950*mm {
		t.Errorf("lowest ceiling %v", z)
	}
	bare := wall(job.Wall{Length: in})
	if _, ok := bare.CeilingAt(0); ok {
		t.Error("a height that nobody measured is known")
	}
	up := wall(job.Wall{Length: 100 * in, Height: p(100 * in), Hollow: []job.Hollow{{At: 50 * in, Up: p(40 * in), By: in}}})
	if got := up.Face(50*in, 20*in); got != in/2 {
		t.Errorf("half way up to a hollow at 40 in: %s, want 1/2 in", got.Exact(0))
	}
}

// Studs by spacing from 7-1/2 in at 16 in: 7.5 23.5 39.5 55.5 | 71.5 87.5 in the window | 103.5
// 119.5 135.5 151.5, and the four that frame the window.
func TestStuds(t *testing.T) {
	w := wall(laundry())
	want := []length.Length{30, 94, 158, 222, 239, 245, 395, 401, 414, 478, 542, 606} // quarter inches
	if len(w.Studs) != len(want) {
		t.Fatalf("%d studs, want %d: %v", len(w.Studs), len(want), w.Studs)
	}
	for i, s := range w.Studs {
		if s.At != want[i]*in/4 {
			t.Errorf("stud %d at %s, want %s", i+1, s.At.Exact(0), (want[i] * in / 4).Exact(0))
		}
	}
	// A rail from 50 to 62 in crosses the stud at 55-1/2 and the pair at 59-3/4 and 61-1/4, which touch.
	h := w.Holds(50*in, 62*in, 30*in, 16*in)
	if len(h) != 3 || place.Groups(h) != 2 {
		t.Errorf("holds %v in %d groups, want 3 in 2", h, place.Groups(h))
	}
	// Cover: a rail that ends at 55-1/8 in reaches the stud at 55-1/2 on its left half: 54-3/4 + 3/8 = 55-1/8.
	if h := w.Holds(50*in, 441*in/8, 30*in, 16*in); len(h) != 1 || h[0].X != 441*in/8 {
		t.Errorf("a rail that just reaches a stud: %v", h)
	}
	// A span that begins at a stud's centre: the stud lets the screw stand a little further in, though not 5 mm.
	if h := w.Holds(111*in/2, 70*in, 30*in, 16*in); len(h) == 0 || h[0].X <= 111*in/2 || h[0].X > 111*in/2+5*length.MM {
		t.Errorf("a span that begins at a stud's centre: %+v", h)
	}
	if h := w.Holds(50*in, 441*in/8-1, 30*in, 16*in); len(h) != 0 {
		t.Errorf("a rail that misses the cover: %v", h)
	}
	// In the header over the window, and nowhere else above it.
	if h := w.Holds(64*in, 96*in, 163*in/2, 16*in); len(h) != 3 {
		t.Errorf("holds in a header of 32 in at 16 in: %v, want 3", h)
	}
	if h := w.Holds(64*in, 96*in, 90*in, 16*in); len(h) != 0 {
		t.Errorf("nothing is known above the header: %v", h)
	}
	listed := wall(job.Wall{Length: 2900 * mm, Kind: "stud", Studs: &job.Studs{Width: p(45 * mm), Listed: []length.Length{130 * mm, 735 * mm, 1310 * mm}, First: p(130 * mm), Spacing: p(600 * mm), Missing: []length.Length{1930 * mm}}})
	for _, s := range listed.Studs {
		if s.At == 1930*mm || s.At == 730*mm {
			t.Errorf("a stud at %v that is missing, or twice", s.At)
		}
	}
}

// 29 CFR 1910.303, Table S-1: 3 ft deep to 150 V; 30 in wide; 6-1/2 ft high.
func TestKeepClear(t *testing.T) {
	w := wall(laundry())
	z := w.Clear[0].Space
	if z.Min.X != 257*in/2 || z.Max.X != 317*in/2 || z.Min.Y != -36*in {
		t.Errorf("panel's space %v", z)
	}
	if o := w.Clear[1].Body; o.Min.X != 59*in/2 || o.Max.X != 65*in/2 || o.Min.Z != 167*in/4 {
		t.Errorf("outlet's plate %v", o)
	}
}

// 29 CFR 1910.303(g)(1), Table S-1, every cell up to 600 V: the depth in ft before a panel by its
// volts to ground and what is opposite (conditions A, B, C); the deepest where that is not said. The
// space is 30 in wide or as wide as the equipment, and 6-1/2 ft high, whatever is opposite.
func TestTableS1(t *testing.T) {
	for _, row := range []struct {
		volts   int
		a, b, c length.Length
	}{
		{0, 36 * in, 36 * in, 36 * in}, {120, 36 * in, 36 * in, 36 * in}, {150, 36 * in, 36 * in, 36 * in},
		{151, 36 * in, 42 * in, 48 * in}, {277, 36 * in, 42 * in, 48 * in}, {600, 36 * in, 42 * in, 48 * in},
	} {
		for facing, want := range map[string]length.Length{"nothing": row.a, "grounded": row.b, "live": row.c, "": row.c} {
			for _, wide := range []length.Length{29 * in / 2, 40 * in} {
				l := laundry()
				k := &l.Clear[0].Value
				k.Volts, k.Facing, k.To = &row.volts, facing, p(*k.From+wide)
				z := wall(l).Clear[0].Space
				if z.Min.Y != -want || z.Size().X != max(wide, 30*in) || z.Size().Z != 78*in {
					t.Errorf("%d V, %q opposite, %v wide: %v deep, %v wide, %v high; want %v deep", row.volts, facing, wide, -z.Min.Y, z.Size().X, z.Size().Z, want)
				}
			}
		}
	}
}

func TestQuarterCircle(t *testing.T) {
	q := place.Quarter{R: 900 * mm, Right: true, Top: 2000 * mm}
	for _, c := range []struct {
		b    place.Box
		want length.Length
	}{
		{geom.B(700*mm, -100*mm, 0, 800*mm, 0, mm), 200 * mm},
		{geom.B(900*mm, -100*mm, 0, 1000*mm, 0, mm), 0},
		{geom.B(540*mm, -900*mm, 0, 700*mm, -720*mm, mm), 0}, // 540² + 720² = 900²
		{geom.B(0, -800*mm, 0, 10*mm, -700*mm, mm), 200 * mm},
		{geom.B(-100*mm, -800*mm, 0, 0, -700*mm, mm), 0},
		{geom.B(0, -800*mm, 2000*mm, 10*mm, -700*mm, 2001*mm), 0},
	} {
		if got := q.Bite(c.b); got != c.want {
			t.Errorf("bite of %v = %v, want %v", c.b, got, c.want)
		}
	}
	left := q
	left.Right = false
	if got := left.Bite(geom.B(-800*mm, -100*mm, 0, -700*mm, 0, mm)); got != 200*mm {
		t.Errorf("mirrored: %v", got)
	}
}

// Whatever was measured from the right end lands where the same wall measured from the left has it.
func TestSurveyedFromTheRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, lo, hi int64) length.Length {
			return length.Length(rapid.Int64Range(lo, hi).Draw(t, name)) * mm
		}
		l := size("length", 2000, 6000)
		first, spacing := size("first", 50, 500), size("spacing", 300, 700)
		a := job.Wall{Length: l, Kind: "stud", Studs: &job.Studs{First: &first, Spacing: &spacing},
			Floor: job.Floor{Points: []job.Height{{At: 0, Z: 0}, {At: size("at", 100, 1900), Z: size("z", -30, 30)}, {At: l, Z: size("end", -30, 30)}}}}
		from, to := size("from", 100, 900), size("to", 1000, 1900)
		a.Openings = schema.Map[job.Opening]{{Key: "o", Value: job.Opening{Kind: "window", From: from, To: to}}}
		b := a
		b.From = "right"
		wa, wb := wall(a), wall(b)
		d := wb.FloorAt(l, 0) // a's zero is at b's right end
		for range 20 {
			x, y := size("x", 0, 6000)%l, -size("y", 0, 600)
			if got, want := wb.FloorAt(l-x, y)-d, wa.FloorAt(x, y); (got - want).Abs() > 1 {
				t.Fatalf("floor at %v: %v mirrored, %v", x, got, want)
			}
		}
		if len(wa.Studs) != len(wb.Studs) {
			t.Fatalf("%d studs, mirrored %d", len(wa.Studs), len(wb.Studs))
		}
		for i, s := range wa.Studs {
			if m := wb.Studs[len(wb.Studs)-1-i]; m.At != l-s.At {
				t.Fatalf("stud at %v, mirrored %v", s.At, m.At)
			}
		}
		if o := wb.Openings[0].Box; o.Min.X != l-to || o.Max.X != l-from {
			t.Fatalf("opening %v", o)
		}
		if wb.FloorAt(0, 0) != 0 {
			t.Fatal("the floor at the left end is not at 0")
		}
	})
}

// A trimmer carries the header and ends under it; the king stud beside it goes all the way up
// (IRC 2021, R602.7.5 and Table R602.7(1), from memory). Over the laundry's window, head at 80 in
// and header 3 in high, a rail at 93 in finds the kings at 59-3/4 and 100-1/4 in alone; in the
// header's height there is wood over the trimmers too.
func TestTrimmersEndUnderTheHeader(t *testing.T) {
	w := wall(laundry())
	at := func(z length.Length) (r []length.Length) {
		for _, h := range w.Holds(58*in, 102*in, z, 160*in) {
			r = append(r, h.X)
		}
		return r
	}
	if got := at(93 * in); len(got) != 2 || got[0] != 239*in/4 || got[1] != 401*in/4 {
		t.Errorf("over the header a rail holds at %v, want the kings at 59-3/4 and 100-1/4 in", got)
	}
	if got := at(40 * in); len(got) != 4 {
		t.Errorf("under the sill a rail holds at %v, want kings and trimmers", got)
	}
	if h := w.Headers[0]; h.From != 241*in/4+in/4 || h.To != 199*in/2 {
		t.Errorf("the header reaches from %s to %s, want 60-1/2 to 99-1/2 in, over its trimmers", h.From.Exact(0), h.To.Exact(0))
	}
	for _, h := range w.Holds(58*in, 102*in, 163*in/2, 16*in) {
		if h.ID == "stud 6" || h.ID == "stud 7" {
			t.Errorf("a trimmer is found at %s within the header", h.X.Exact(0))
		}
	}
}

// A wall leans over its height, however that is said: by height:, or by the ceiling at its left end.
func TestLeanGoesByTheCeilingToo(t *testing.T) {
	for _, from := range []string{"left", "right"} {
		base := job.Wall{Length: 160 * in, From: from, Lean: p(2 * in)}
		high, sloped := base, base
		high.Height = p(96 * in)
		sloped.Ceiling = []job.Height{{At: 0, Z: 96 * in}, {At: 160 * in, Z: 90 * in}}
		if from == "right" { // the left end as seen from the room is the far one
			sloped.Ceiling = []job.Height{{At: 0, Z: 90 * in}, {At: 160 * in, Z: 96 * in}}
		}
		a, b := wall(high), wall(sloped)
		for _, z := range []length.Length{0, 48 * in, 96 * in} {
			if x, y := a.Face(40*in, z), b.Face(40*in, z); x != y || x != -2*z/96 {
				t.Errorf("from %s, %s up: %s by its height, %s by its ceiling", from, z.Exact(0), x.Exact(0), y.Exact(0))
			}
		}
	}
}

// The line of a ceiling bends where the survey says, and nowhere else.
func TestCeilingLine(t *testing.T) {
	w := place.Survey(named("w", job.Wall{Length: 162 * in, Height: p(98 * in), Ceiling: []job.Height{{At: 0, Z: 98 * in}, {At: 90 * in, Z: 98 * in}, {At: 162 * in, Z: 62 * in}}}))
	want := []job.Height{{At: 0, Z: 98 * in}, {At: 90 * in, Z: 98 * in}, {At: 162 * in, Z: 62 * in}}
	if got := w.CeilingLine(); !slices.Equal(got, want) {
		t.Error(got)
	}
	level := place.Survey(named("w", job.Wall{Length: 100 * in, Height: p(96 * in)}))
	if got := level.CeilingLine(); !slices.Equal(got, []job.Height{{At: 0, Z: 96 * in}, {At: 100 * in, Z: 96 * in}}) {
		t.Error(got)
	}
	if got := place.Survey(named("w", job.Wall{Length: 100 * in})); got.CeilingLine() != nil {
		t.Error("a height that is not known is drawn")
	}
}
