package place_test

import (
	"testing"

	"pgregory.net/rapid"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/place"
	"stowright/internal/schema"
	"stowright/internal/stock"
)

// Surveys that make no sense are placed all the same: nothing panics or hangs, every case that
// has a place gets one seat, and twice gives the same.
func TestBrokenSurveysArePlaced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string) length.Length {
			return length.Length(rapid.Int64Range(-2000, 9000).Draw(t, name)) * mm
		}
		opt := func(name string) *length.Length {
			if rapid.Bool().Draw(t, name+"?") {
				return p(size(name))
			}
			return nil
		}
		w := job.Wall{Length: size("length").Abs() + 1, Height: opt("height"), Kind: rapid.SampledFrom([]string{"", "stud", "masonry"}).Draw(t, "kind"),
			From: rapid.SampledFrom([]string{"left", "right"}).Draw(t, "from"), Lean: opt("lean"),
			Studs:    &job.Studs{First: opt("first"), Spacing: opt("spacing"), Width: opt("stud"), Listed: []length.Length{size("listed")}},
			Hollow:   []job.Hollow{{At: size("at"), Up: opt("up"), By: size("by")}, {At: size("at"), Up: opt("up"), By: size("by")}},
			Floor:    job.Floor{Every: opt("every"), AtWall: []length.Length{size("z"), size("z")}, Points: []job.Height{{At: size("x"), Z: size("z")}}, Out: opt("out"), AtOut: []length.Length{size("z")}, Falls: opt("falls"), FallsOut: &job.Fall{By: size("by"), In: size("in")}},
			Ceiling:  []job.Height{{At: size("x"), Z: size("z")}},
			Openings: schema.Map[job.Opening]{{Key: "o", Value: job.Opening{Kind: "door", From: size("x"), To: size("x"), Sill: opt("sill"), Head: opt("head"), Swings: "in", Hinge: "right", Header: &job.Header{Height: size("h")}, Framing: []length.Length{size("x")}}}},
			Clear: schema.Map[job.Keep]{
				{Key: "p", Value: job.Keep{Kind: "electrical-panel", From: opt("x"), To: opt("x"), At: opt("x"), Width: opt("x"), Beside: opt("b")}},
				{Key: "q", Value: job.Keep{Kind: "outlet", At: opt("x"), Up: opt("z")}}},
			Obstacles: schema.Map[job.Obstacle]{{Key: "c", Value: job.Obstacle{Kind: "curb", From: opt("x"), To: opt("x"), Height: opt("h"), Out: size("o"), FollowsFloor: rapid.Bool().Draw(t, "follows")}}},
		}
		j := job.Checked{Practice: stock.Practice{Clearance: mm}}
		if rapid.Bool().Draw(t, "walls") {
			j.Walls = []job.Named[job.Wall]{named("w", w), named("v", job.Wall{Length: 3000 * mm, Corner: &job.Corner{With: rapid.SampledFrom([]string{"w", "v", "none"}).Draw(t, "with"), Angle: rapid.SampledFrom([]string{"90", "135", "x", ""}).Draw(t, "angle")}})}
		}
		run := func(id string) job.Run {
			return job.Run{Level: rapid.SampledFrom([]string{"floor", "wall"}).Draw(t, "level"), From: rapid.SampledFrom([]string{"left", "right", "centre", "between"}).Draw(t, "end"), Start: opt("start"), To: opt("to"),
				Around: rapid.Bool().Draw(t, "around"), Align: rapid.SampledFrom([]string{"", "r", "s"}).Draw(t, "align"), Fill: rapid.SampledFrom([]string{"none", "left", "both"}).Draw(t, "fill")}
		}
		r, s := run("r"), run("s")
		for i := range rapid.IntRange(0, 4).Draw(t, "cases") {
			c := aCase(string(rune('a'+i)), 600*mm, 800*mm, 500*mm)
			j.Cases = append(j.Cases, c)
			switch i % 3 {
			case 0:
				r.Order = append(r.Order, job.Entry{Case: c.ID}, job.Entry{Knee: &job.Knee{Width: 700 * mm, For: "b"}})
			case 2:
				s.Order = append(s.Order, job.Entry{Case: c.ID}, job.Entry{Machine: "m"})
			}
		}
		j.Runs = []job.Named[job.Run]{named("r", r), named("s", s)}
		j.Counters = []job.Named[job.Counter]{named("k", job.Counter{Over: []string{"r", "s"}, Height: opt("kh")}), named("f", job.Counter{Free: &job.FreeBench{Length: size("free")}})}
		j.Bases = []job.Named[job.Base]{named("base", job.Base{Under: []string{"r"}})}
		j.Hutches = []job.Named[job.Hutch]{named("h", job.Hutch{On: "k", To: "o"})}
		j.Machines = []job.Named[job.Machine]{named("m", job.Machine{Width: 300 * mm, Bed: opt("bed"), SwingWidth: opt("swing")})}
		a, fa := place.All(&j)
		b, fb := place.All(&j)
		if len(a.Seats) != len(b.Seats) || len(fa) != len(fb) {
			t.Fatal("twice is not the same")
		}
		seen := map[string]int{}
		for i, s := range a.Seats {
			seen[s.ID]++
			if s.Box != b.Seats[i].Box {
				t.Fatalf("%s: %v, then %v", s.ID, s.Box, b.Seats[i].Box)
			}
		}
		for _, c := range j.Cases {
			if seen[c.ID] != 1 {
				t.Fatalf("case %s has %d seats", c.ID, seen[c.ID])
			}
		}
	})
}
