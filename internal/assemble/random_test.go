package assemble_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"
	"stowright/internal/assemble"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/rules"
	"stowright/internal/schema"
)

// Whatever the wall, screws are in studs with their cover and outside openings, go no further than
// what they pass and their thread say, marks are unique, and all of it comes out the same twice.
func TestAnyWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, lo, hi int64) length.Length {
			return length.Length(rapid.Int64Range(lo, hi).Draw(t, name)) * mm
		}
		c := laundry()
		w := &c.Walls[0].Value
		w.Length = size("length", 3000, 6000)
		w.Lean = p(size("lean", -20, 20))
		w.Studs.First, w.Studs.Spacing = p(size("first", 0, 600)), p(size("spacing", 100, 700))
		w.Hollow = []job.Hollow{{At: size("hollow", 0, 6000), By: size("by", -15, 15)}}
		w.From = rapid.SampledFrom([]string{"left", "right"}).Draw(t, "from")
		from := size("window", 0, 2500)
		w.Openings = schema.Map[job.Opening]{{Key: "window", Value: job.Opening{Kind: "window", From: from, To: from + 900*mm, Sill: p(900 * mm), Head: p(2000 * mm)}}}
		for i := range c.Cases {
			width := size("width", 300, 1200)
			c.Cases[i].Spec.Width = &width
		}
		r, a, f := make(c)
		g := rules.Check(&c, &r, &a)
		_, b, _ := make(c)
		if !reflect.DeepEqual(a, b) {
			t.Fatal("twice is not the same")
		}
		seen := map[string]bool{}
		for _, x := range a.Parts {
			if seen[x.Mark] {
				t.Fatalf("mark %s twice", x.Mark)
			}
			seen[x.Mark] = true
		}
		screws := map[string]int{}
		wall := r.Wall("back")
		for _, x := range a.Fixings {
			if x.Kind != part.ToStud {
				continue
			}
			screws[x.Owner]++
			ok := false
			for _, s := range wall.Studs {
				ok = ok || s.ID == x.Stud && (x.At.X-s.At).Abs() <= s.Width/2-in/4
			}
			if o := wall.Openings[0].Box; !ok || o.Min.X < x.At.X && x.At.X < o.Max.X {
				t.Fatalf("a screw at %v in %s", x.At.X, x.Stud)
			}
			through := length.Length(0)
			for _, l := range x.Layers {
				through += l.Thickness
			}
			if x.Length != through+x.Into || len(f.With(assemble.NoScrew)) == 0 && x.Into < 3*in/2 {
				t.Fatalf("%v long through %v, %v in the stud", x.Length, through, x.Into)
			}
			if x.At.Y+x.Packing != max(x.At.Y, wall.Face(x.At.X, x.At.Z)) {
				t.Fatalf("packed %v from %v to %v", x.Packing, x.At.Y, wall.Face(x.At.X, x.At.Z))
			}
		}
		// A wall case with fewer than two screws is said so.
		for _, id := range []string{"high one", "high two"} {
			said := false
			for _, x := range f.With(assemble.NoStud) {
				said = said || x.At == "case/"+id
			}
			if screws[id] < 2 && !said {
				t.Fatalf("%s hangs on %d screws and nothing says so", id, screws[id])
			}
		}
		// What reaches past the wall's end is said by placing or by a rule.
		for _, s := range r.Seats {
			if s.Kind == place.Case && s.Box.Max.X > wall.Length && len(g.With(rules.PastWall)) == 0 {
				t.Fatalf("%s ends at %v on a wall of %v", s.ID, s.Box.Max.X, wall.Length)
			}
		}
	})
}
