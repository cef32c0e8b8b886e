package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// A bolt through the sides of two cases that were bored weeks apart has play in its holes: NDS 2018 12.1.3.2 has them 1/32 in to
// 1/16 in larger than the bolt.
func TestBoltsHavePlay(t *testing.T) {
	const least, most = 79 * length.MM / 100, 159 * length.MM / 100
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, f := range r.Assembly.Fixings {
			h, _ := r.Job.Catalogue.Item(f.Screw)
			if h.Kind != "bolt" || f.Kind != part.ToCase {
				continue
			}
			for _, p := range r.Assembly.Parts {
				for _, o := range p.Ops {
					if o.Kind != part.Hole || o.For != part.JoiningBolt && o.For != part.BoltedRail || p.Owner != f.Owner && p.Owner != f.Stud {
						continue
					}
					if at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)); (at.Y-f.At.Y).Abs() > length.MM || (at.Z-f.At.Z).Abs() > length.MM {
						continue
					}
					if seen++; o.Dia < h.Dia+least || o.Dia > h.Dia+most {
						t.Errorf("%s: a hole of %v in %s for a bolt of %v", name, o.Dia, p.Mark, h.Dia)
					}
				}
			}
		}
	})
	if seen == 0 {
		t.Error("nothing is bolted")
	}
}

// A joining bolt is long enough for its washers and its nut behind the boards that it holds, and ends before what slides past
// it. Nuts by ASME B18.2.2 (7/32 in for 1/4 in, read in a seller's table) and ISO 4032 (6.8 mm for M8, from memory).
func TestBoltsClampAndClear(t *testing.T) {
	nut := map[length.Length]length.Length{length.Inch / 4: 7 * length.Inch / 32, 8 * length.MM: 68 * length.MM / 10}
	saw := regexp.MustCompile(`saw each bolt to (.*?) under its head`)
	seen, short := 0, 0
	everywhere(t, func(name string, r plan.Result) {
		for _, f := range r.Assembly.Fixings {
			h, _ := r.Job.Catalogue.Item(f.Screw)
			if h.Kind != "bolt" || f.Kind != part.ToCase || f.Row == part.BoltedRail {
				continue
			}
			high, ok := nut[h.Dia]
			if !ok {
				continue
			}
			grip := f.Packing + f.Into
			for _, l := range f.Layers {
				grip += l.Thickness
			}
			long := f.Length
			for _, s := range r.Steps {
				if m := saw.FindStringSubmatch(s.Text); m != nil && s.Owner == f.Owner && strings.Contains(s.Text, "("+f.Part+")") {
					short++
					var err error
					if long, err = length.Parse(strings.TrimSuffix(strings.TrimSuffix(m[1], " in"), " mm"), r.Job.Print); err != nil {
						t.Fatal(err)
					}
				}
			}
			if seen++; long < grip+3*length.MM+high {
				t.Errorf("%s: a bolt of %s holds %s, which leaves no room for washers and nut", name, long.In(r.Job.Print), grip.In(r.Job.Print))
			}
			for _, p := range r.Assembly.Parts { // the nut is in the other, whose side is behind the gap
				b := p.Box()
				if p.Owner != f.Stud || p.Moves == "" || p.Role == part.Door || b.Min.Z > f.At.Z+h.Dia/2 || b.Max.Z < f.At.Z-h.Dia/2 || b.Max.Y < f.At.Y-h.Dia/2 {
					continue
				}
				room := length.Length(0)
				for _, q := range r.Assembly.Parts {
					if c := q.Box(); q.Owner == f.Stud && q.Role == part.Side && (c.Min.X-f.At.X).Abs() < 60*length.MM {
						room = max(b.Min.X-c.Max.X, c.Min.X-b.Max.X)
					}
				}
				if out := long - grip - length.MM; room > 0 && out > room {
					t.Errorf("%s: %s runs into the end of a bolt, %s out of the side, in %s", name, p.Mark, out.In(r.Job.Print), room.In(r.Job.Print))
				}
			}
		}
	})
	if seen == 0 || short == 0 {
		t.Errorf("%d bolts, %d shortened", seen, short)
	}
}
