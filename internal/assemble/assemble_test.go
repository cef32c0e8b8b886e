package assemble_test

import (
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stowright/internal/assemble"
	"stowright/internal/builtin"
	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/source/json"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

const (
	in = length.Inch
	mm = length.MM
)

func p(v length.Length) *length.Length { return &v }

// box stands in for a carcass: two sides, a shelf, a rail that wants screws, and a foot.
func box(env fitting.Env, id string, spec carcass.Spec, site carcass.Site) (part.Assembly, finding.List) {
	const t = 18 * mm
	w, h, d := *spec.Width, *spec.Height, *spec.Depth
	board := func(local string, role part.Role, b geom.Box, u, v geom.Dir) part.Part {
		s, x := b.Size(), geom.Around(b, u, v)
		return part.Part{Local: local, Owner: id, Role: role, Name: local, Stock: "ply", Pose: x,
			Size: [3]length.Length{s.At(u.Axis()), s.At(v.Axis()), s.At(x.W().Axis())}}
	}
	a := part.Assembly{Owners: []part.Owner{{ID: id, Kind: "case", Name: id, Box: geom.B(0, 0, 0, w, d, h), Carcass: geom.B(0, 0, 0, w, d, h), Hollow: geom.B(t, 0, t, w-t, d, h-t)}}}
	left, right := board("side-l", part.Side, geom.B(0, 0, 0, t, d, h), geom.Up, geom.Back), board("side-r", part.Side, geom.B(w-t, 0, 0, w, d, h), geom.Up, geom.Back)
	a.Parts = []part.Part{left, right,
		board("rail", part.HangRail, geom.B(t, d-t, h-75*mm, w-t, d, h), geom.Right, geom.Up),
		board("s2", part.Shelf, geom.B(t, 0, 400*mm, w-t, d-t, 418*mm), geom.Right, geom.Back),
		board("s1", part.Shelf, geom.B(t, 0, 200*mm, w-t, d-t, 218*mm), geom.Right, geom.Back)}
	a.Wanted = []part.Wanted{{Part: "rail", From: t + 13*mm, To: w - t - 13*mm, Y: d, Z: h - 37*mm, Row: "upper", Layers: []part.Layer{{Name: "rail", Stock: "ply", Thickness: t}}}}
	if spec.Level != "wall" {
		a.Feet = []part.Foot{{Kind: "foot", At: geom.V(50*mm, 50*mm, 100*mm), Least: 90 * mm, Greatest: 125 * mm}}
	}
	a.Bays = []part.Bay{{ID: "in", Box: geom.B(t, 0, 0, w-t, d, h), Floor: "s1"}}
	return a, nil
}

// job of two wall cases of 30 in and a floor case under them, on a laundry's wall.
func laundry() job.Checked {
	c := job.Checked{Print: length.Inches, Practice: stock.Practice{WallScrew: "w3", LeastThread: 3 * in / 2}}
	for _, l := range []int64{40, 50, 60, 70, 80} {
		c.Catalogue.Hardware = append(c.Catalogue.Hardware, stock.Hardware{ID: "w" + string(rune('0'+l/10)), Kind: "screw", Use: "wall", Dia: 5 * mm, Length: length.Length(l) * mm})
	}
	c.Catalogue.Hardware = append(c.Catalogue.Hardware, stock.Hardware{ID: "j30", Kind: "screw", Use: "joining", Length: 30 * mm}, stock.Hardware{ID: "j40", Kind: "screw", Use: "joining", Length: 40 * mm})
	c.Walls = []job.Named[job.Wall]{{ID: "back", Value: job.Wall{Length: 160 * in, Height: p(96 * in), Kind: "stud", Lining: &job.Lining{Name: "drywall", Thickness: p(in / 2)},
		Studs: &job.Studs{First: p(15 * in / 2), Spacing: p(16 * in), Width: p(3 * in / 2)},
		Floor: job.Floor{Points: []job.Height{{At: 0}, {At: 160 * in, Z: -2 * in}}}}}}
	add := func(id, level string, w length.Length) {
		h, d := 30*in, 12*in
		c.Cases = append(c.Cases, job.CheckedCase{ID: id, Spec: carcass.Spec{Name: id, Level: level, Width: &w, Height: &h, Depth: &d}})
	}
	add("high one", "wall", 30*in)
	add("high two", "wall", 30*in)
	add("low", "floor", 30*in)
	c.Runs = []job.Named[job.Run]{
		{ID: "up", Value: job.Run{Level: "wall", Order: []job.Entry{{Case: "high one"}, {Case: "high two"}}}},
		{ID: "down", Value: job.Run{Level: "floor", Start: p(100 * in), Order: []job.Entry{{Case: "low"}}}},
	}
	return c
}

func make(c job.Checked) (place.Room, part.Assembly, finding.List) {
	r, _ := place.All(&c)
	a, f := assemble.All(&c, &r, box)
	return r, a, f
}

func TestMarks(t *testing.T) {
	_, a, _ := make(laundry())
	by := map[string]part.Part{}
	for _, x := range a.Parts {
		if _, twice := by[x.Mark]; twice || x.Mark == "" {
			t.Errorf("mark %q twice or empty", x.Mark)
		}
		by[x.Mark] = x
	}
	for mark, want := range map[string][2]string{"A.left": {"low", "side-l"}, "B.right": {"high one", "side-r"}, "C.shelf1": {"high two", "s1"}, "C.shelf2": {"high two", "s2"}, "B.hang": {"high one", "rail"}} {
		if x := by[mark]; x.Owner != want[0] || x.Local != want[1] {
			t.Errorf("%s is %s of %s, want %s of %s", mark, x.Local, x.Owner, want[1], want[0])
		}
	}
	for _, b := range a.Bays {
		if !strings.HasPrefix(b.ID, b.Owner+"/") || by[b.Floor].Owner != b.Owner {
			t.Errorf("bay %s stands on %s", b.ID, b.Floor)
		}
	}
}

// Studs at 7-1/2, 23-1/2, 39-1/2, 55-1/2: two behind each rail of 30 in from 0 and 30 in. Through
// 18 mm of rail and 12.7 mm of drywall with 38.1 mm of thread: 68.8 mm, so 70 mm.
func TestScrewsFindStuds(t *testing.T) {
	_, a, f := make(laundry())
	at := map[string][]length.Length{}
	for _, x := range a.Fixings {
		if x.Kind == part.ToStud {
			at[x.Owner] = append(at[x.Owner], x.At.X)
			if x.Length != 70*mm || x.Screw != "w7" || x.Into != 70*mm-18*mm-in/2 {
				t.Errorf("screw of %v, %v in the stud", x.Length, x.Into)
			}
		}
	}
	if want := []length.Length{15 * in / 2, 47 * in / 2}; !reflect.DeepEqual(at["high one"], want) {
		t.Errorf("high one at %v", at["high one"])
	}
	if want := []length.Length{79 * in / 2, 111 * in / 2}; !reflect.DeepEqual(at["high two"], want) {
		t.Errorf("high two at %v", at["high two"])
	}
	if len(f.With(assemble.NoStud)) != 0 {
		t.Errorf("%v", f)
	}
	for _, h := range a.Hardware {
		if h.For == "wall fixing" && h.Owner == "high one" && h.Count != 2 {
			t.Errorf("%d screws bought for two places", h.Count)
		}
	}
}

func TestRailsThatMiss(t *testing.T) {
	c := laundry()
	w := 14 * in
	c.Cases[0].Spec.Width = &w // from 0 to 14 in: the stud at 7-1/2 alone
	_, _, f := make(c)
	if l := f.With(assemble.NoStud); len(l) != 1 || !strings.Contains(l[0].Text, "one stud only, at 7 1/2 in") || l[0].Severity != finding.Error {
		t.Errorf("%v", l)
	}
	c = laundry()
	c.Catalogue.Hardware = c.Catalogue.Hardware[:2]
	if _, _, f := make(c); len(f.With(assemble.NoScrew)) == 0 {
		t.Error("50 mm is long enough for 68.8 mm")
	}
	c = laundry()
	c.Walls[0].Value.Studs = nil
	if _, a, f := make(c); len(f.With(assemble.WallNotKnown)) != 1 || len(a.Fixings) != 4 { // the joining ones
		t.Errorf("%v, %d fixings", f, len(a.Fixings))
	}
	c = laundry()
	c.Walls[0].Value.Kind, c.Walls[0].Value.Studs = "masonry", nil
	if _, a, _ := make(c); len(a.Fixings) == 0 || a.Fixings[len(a.Fixings)-5].Kind != part.ToWall {
		t.Errorf("anchors: %v", a.Fixings)
	}
}

// The wall is hollow by 1/4 in everywhere from 20 in on: each screw there is packed and longer.
func TestPackingWhereHollow(t *testing.T) {
	c := laundry()
	c.Walls[0].Value.Hollow = []job.Hollow{{At: 20 * in, By: 0}, {At: 23 * in, By: in / 4}, {At: 160 * in, By: in / 4}}
	_, a, f := make(c)
	for _, x := range a.Fixings {
		if x.Owner == "high one" && x.Kind == part.ToStud {
			want, long := length.Length(0), 70*mm
			if x.At.X > 23*in {
				want, long = in/4, 80*mm // 68.8 + 6.35 = 75.2
			}
			if x.Packing != want || x.Length != long {
				t.Errorf("at %s packed %s, screw %v", x.At.X.Exact(0), x.Packing.Exact(0), x.Length)
			}
		}
	}
	if len(f.With(assemble.Packed)) == 0 {
		t.Error("nothing says that it is packed")
	}
}

// The floor falls 2 in in 160 in. The case stands from 100 to 130 in, its level is the floor's at
// 100 in; its foot is 50 mm further along: 100 mm + 50 mm · 2/160.
func TestFeetReachTheFloor(t *testing.T) {
	r, a, f := make(laundry())
	if r.Seat("low").Level != -5*in/4 {
		t.Errorf("level %v", r.Seat("low").Level)
	}
	if want := 100*mm + 625*mm/1000; len(a.Feet) != 1 || a.Feet[0].Height != want {
		t.Errorf("feet %v, want %v", a.Feet, want)
	}
	if len(f.With(assemble.FootRange)) != 0 {
		t.Errorf("%v", f)
	}
	c := laundry()
	c.Walls[0].Value.Floor.Points = []job.Height{{At: 0}, {At: 100 * in}, {At: 100*in + 50*mm, Z: -26 * mm}}
	if _, _, f := make(c); len(f.With(assemble.FootRange)) != 1 || !strings.Contains(f.With(assemble.FootRange)[0].Text, "more than its greatest by") || !strings.Contains(f.With(assemble.FootRange)[0].Hint, "longer foot, make the height of what it stands on less") {
		t.Errorf("126 mm from a foot of 125: %v", f)
	}
}

// Two sides of 18 mm take 32 mm at most: the 30 mm screw, not the 40.
func TestNeighboursAreScrewed(t *testing.T) {
	r, a, f := make(laundry())
	n := 0
	for _, x := range a.Fixings {
		if x.Kind == part.ToCase {
			n++
			if x.Screw != "j30" || x.Stud != "high two" || x.At.X != 30*in-18*mm || x.At.Z < r.Seat("high one").Box.Min.Z {
				t.Errorf("%+v", x)
			}
		}
	}
	if n != 4 || len(f.With(assemble.JoinFew))+len(f.With(assemble.JoinLong)) != 0 {
		t.Errorf("%d joining screws, %v", n, f)
	}
	c := laundry()
	c.Catalogue.Hardware = append(c.Catalogue.Hardware[:5:5], c.Catalogue.Hardware[6])
	if _, _, f := make(c); len(f.With(assemble.JoinLong)) != 1 {
		t.Errorf("40 mm through 36: %v", f)
	}
}

// Every case stands where it was put: left side, rear plane and top agree with its seat, parts lie
// in the wall's frame, and doing it twice gives the same.
func TestEverythingIsWhereItsSeatIs(t *testing.T) {
	r, a, _ := make(laundry())
	for _, o := range a.Owners {
		s := r.Seat(o.ID)
		if o.Carcass.Min.X != s.Box.Min.X || o.Carcass.Max.Y != s.Rear || o.Carcass.Max.Z != s.Top || o.Wall != "back" {
			t.Errorf("%s: %v in seat %v", o.ID, o.Carcass, s.Box)
		}
		for _, x := range a.Parts {
			if x.Owner == o.ID && !o.Carcass.Has(x.Box()) {
				t.Errorf("%s at %v is outside %v", x.Mark, x.Box(), o.Carcass)
			}
		}
	}
	if _, b, _ := make(laundry()); !reflect.DeepEqual(a, b) {
		t.Error("twice is not the same")
	}
}

// The shipped examples: marks unique, every screw in a stud that is there with 1/4 in of wood on both
// sides and none in an opening, reckoned from the survey alone.
func TestExamples(t *testing.T) {
	shipped, mistakes := json.Read("shipped", stock.Shipped())
	if len(mistakes) > 0 {
		t.Fatal(mistakes)
	}
	files, _ := filepath.Glob("../../examples/*/job.yaml")
	if len(files) == 0 {
		t.Fatal("no examples found")
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		tree, _ := yaml.Read(name, data)
		c, _ := job.Read(job.Sources{Shipped: shipped, Job: tree}, builtin.Fittings())
		r, _ := place.All(&c)
		a, _ := assemble.All(&c, &r, carcass.Build)
		seen := map[string]bool{}
		for _, x := range a.Parts {
			if seen[x.Mark] || x.Mark == "" {
				t.Errorf("%s: mark %q twice or empty", name, x.Mark)
			}
			seen[x.Mark] = true
			if len(x.Mark) > 20 {
				t.Errorf("%s: mark %q is no short mark", name, x.Mark)
			}
		}
		for _, j := range a.Joints {
			if !seen[j.A] || !seen[j.B] {
				t.Errorf("%s: a joint of %q and %q", name, j.A, j.B)
			}
		}
		for _, x := range a.Fixings {
			w := r.Wall(x.Wall)
			if x.Kind != part.ToStud || strings.HasPrefix(x.Stud, "header") {
				continue
			}
			ok := false
			for _, s := range w.Studs {
				if s.ID == x.Stud {
					ok = (x.At.X - s.At).Abs() <= s.Width/2-in/4
				}
			}
			if !ok {
				t.Errorf("%s: a screw of %s at %v misses %s", name, x.Owner, x.At.X, x.Stud)
			}
			for _, o := range w.Openings {
				if o.Box.Min.X < x.At.X && x.At.X < o.Box.Max.X {
					t.Errorf("%s: a screw of %s in the opening %s", name, x.Owner, o.ID)
				}
			}
		}
	}
}

// What stands on the floor reaches it: the height of every foot and shim of the shipped examples is
// the distance from its top to the surveyed floor there, whoever worked it out.
func TestFeetOfTheExamples(t *testing.T) {
	shipped, _ := json.Read("shipped", stock.Shipped())
	files, _ := filepath.Glob("../../examples/*/job.yaml")
	feet := 0
	for _, name := range files {
		data, _ := os.ReadFile(name)
		tree, _ := yaml.Read(name, data)
		c, _ := job.Read(job.Sources{Shipped: shipped, Job: tree}, builtin.Fittings())
		r, _ := place.All(&c)
		a, _ := assemble.All(&c, &r, carcass.Build)
		for _, f := range a.Feet {
			w := r.Wall(r.Seat(f.Owner).Wall)
			if w == nil || f.Kind == "castor" {
				continue
			}
			feet++
			if want := f.At.Z - w.FloorAt(f.At.X, f.At.Y); f.Height != want {
				t.Errorf("%s: %s of %s at %v, %v is %v high, the floor is %v under it", name, f.Kind, f.Owner, f.At.X, f.At.Y, f.Height, want)
			}
		}
	}
	if feet == 0 {
		t.Error("no example stands on feet or shims")
	}
}

// Nothing is screwed into thin steel with wood screws: anchors go into steel studs, the survey's own before a listed one,
// and anchors for masonry are no such thing.
func TestSteelStudsTakeAnchors(t *testing.T) {
	for own, want := range map[string]string{"": "toggle", "mine": "mine"} {
		c := laundry()
		w := &c.Walls[0].Value
		w.Kind = "steel-stud"
		if own != "" {
			w.Anchor = &job.Anchor{Hardware: own}
		}
		c.Catalogue.Hardware = append(slices.Clone(c.Catalogue.Hardware),
			stock.Hardware{ID: "sleeve", Kind: "anchor", Use: "anchor", Length: 100 * mm},
			stock.Hardware{ID: "toggle", Kind: "anchor", Use: "steel-stud", Length: 75 * mm},
			stock.Hardware{ID: "mine", Kind: "anchor", Use: "steel-stud", Length: 60 * mm})
		_, a, _ := make(c)
		n := 0
		for _, x := range a.Fixings {
			if x.Kind == part.ToCase {
				continue
			}
			n++
			if x.Kind != part.ToWall || x.Screw != want || x.Stud == "" {
				t.Errorf("%+v", x)
			}
		}
		if n == 0 {
			t.Error("nothing is fixed")
		}
	}
}
