package plan_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// bores gives the places of a part's holes for a use.
func bores(p part.Part, use string) (list []geom.Vec) {
	for _, o := range p.Ops {
		if o.Kind == part.Hole && o.For == use {
			list = append(list, p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)))
		}
	}
	return list
}

// meets reports whether one of a list of places is on a line through a point along an axis.
func meets(list []geom.Vec, at geom.Vec, axis int) bool {
	for _, v := range list {
		if d := v.With(axis, at.At(axis)).Sub(at); max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < length.MM/10 {
			return true
		}
	}
	return false
}

// Every screw of a case to its base goes through a hole in its bottom into one in a rail of the base, and
// every case on a base has two or more, or it is said.
func TestCasesAreHeldToTheirBases(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, f := range r.Assembly.Fixings {
			if f.Kind != part.ToBase {
				continue
			}
			seen++
			through, into := false, false
			for _, p := range r.Assembly.Parts {
				through = through || p.Mark == f.Part && meets(bores(p, part.ToBases), f.At, 2)
				into = into || p.Owner == f.Stud && p.Role == part.BaseRail && meets(bores(p, part.ToBases), f.At, 2)
			}
			if !through || !into {
				t.Errorf("%s: the screw through %s at %v has no hole there (bottom %v, rail %v)", name, f.Part, f.At, through, into)
			}
		}
		for _, s := range r.Room.Seats {
			n := 0
			for _, f := range r.Assembly.Fixings {
				if f.Kind == part.ToBase && f.Owner == s.ID {
					n++
				}
			}
			if s.Kind == "case" && s.Spec.Stands.Kind == "base" && n < 2 && !told(r, "base-loose", "case/"+s.ID) {
				t.Errorf("%s: %s is held to its base by %d screws, and nobody says so", name, s.ID, n)
			}
		}
	})
	if seen < 20 {
		t.Errorf("only %d screws were looked at", seen)
	}
}

func told(r plan.Result, code, at string) bool {
	for _, f := range r.Findings {
		if string(f.Code) == code && f.At == at {
			return true
		}
	}
	return false
}

// Every bolt of a rail over a knee space goes through a block behind the rail's end and the side of the case,
// under the case's top or stretcher by more than half a washer of 20 mm, and is long enough for both and its nut.
func TestRailsAreBolted(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, f := range r.Assembly.Fixings {
			if f.Row != part.BoltedRail {
				continue
			}
			seen++
			thick, blocks, sides := length.Length(0), 0, 0
			for _, p := range r.Assembly.Parts {
				if (p.Box().Min.X-f.At.X).Abs() < 60*length.MM && meets(bores(p, part.BoltedRail), f.At, 0) {
					thick += p.Box().Size().X
					if p.Owner == f.Stud && p.Role == part.Side {
						sides++
					} else if p.Owner == f.Owner && p.Role == part.Spacer {
						blocks++
					}
				}
				washer := geom.Box{Min: f.At, Max: f.At}.Grow(10 * length.MM)
				if p.Owner == f.Stud && (p.Role == part.Stretcher || p.Role == part.Top) && p.Box().Max.X > f.At.X-60*length.MM && p.Box().Min.X < f.At.X+60*length.MM && p.Box().Min.Z < washer.Max.Z && p.Box().Max.Z > washer.Min.Z && p.Box().Min.Y < washer.Max.Y && p.Box().Max.Y > washer.Min.Y {
					t.Errorf("%s: the bolt at %v meets %s", name, f.At, p.Mark)
				}
			}
			h, _ := r.Job.Catalogue.Item(f.Screw)
			if blocks != 1 || sides != 1 && standing(r, f.Stud) == false || h.Length < thick+h.Dia {
				t.Errorf("%s: a bolt of %s goes through %d blocks and %d sides, %s of wood", name, h.Length, blocks, sides, thick)
			}
		}
	})
	if seen < 4 {
		t.Errorf("only %d bolts were looked at", seen)
	}
}

func standing(r plan.Result, id string) bool {
	for _, o := range r.Assembly.Owners {
		if o.ID == id {
			return o.Standing
		}
	}
	return false
}

// Tapered shims are bought for every point that is off the floor, and a leg that may be, and flat packers, 6 mm thick at most, for every
// screw of a rail that is packed out.
func TestShimsAreBought(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		want, got := 0, 0
		for _, f := range r.Assembly.Feet {
			if f.Kind == "shim" && (f.Height >= length.MM/2 || f.Unsure) {
				want += 2
			}
		}
		for _, f := range r.Assembly.Fixings {
			if f.Packing >= length.MM/2 && (f.Kind == part.ToStud || f.Kind == part.ToWall) {
				want += packersOf(f.Packing, r.Job.Print)
			}
		}
		for _, p := range r.Assembly.Parts { // a pair under each leg of a bench that stands on its legs
			footed := slices.ContainsFunc(r.Assembly.Feet, func(f part.Foot) bool { return f.Owner == p.Owner })
			if p.Role == part.Leg && !footed {
				want += 2
			}
		}
		for _, h := range r.Assembly.Hardware {
			if h.Kind == "shim" {
				got += h.Count
			}
			if h.For == part.WhereItStands { // a pair at each, where nobody knows the wall
				want += 2 * h.Count
			}
		}
		if r.Room.Walls == nil {
			return // of its floor nothing is known
		}
		seen += want
		if got != want {
			t.Errorf("%s: %d shims are bought, %d are wanted", name, got, want)
		}
		for _, s := range r.Steps {
			for _, p := range s.Points {
				if strings.Contains(p, "of every shim") && (strings.Contains(p, ": 0 ") || strings.Contains(p, "; 0 ")) {
					t.Errorf("%s: step %d lists shims of nothing", name, s.N)
				}
			}
		}
	})
	if seen < 50 {
		t.Errorf("only %d shims were looked at", seen)
	}
}

// Ballast is bought, has a stop that is screwed down, and a step.
func TestBallastIsReal(t *testing.T) {
	r := plantest.Result(t, "marram-point")
	n := 0
	for _, h := range r.Assembly.Hardware {
		if h.ID == "lead-kg" { // 36 kg of steel have no room there
			n += h.Count
		}
	}
	if n != 36 {
		t.Errorf("%d kg of ballast are bought, the job wants 36", n)
	}
	stop := ""
	for _, p := range r.Assembly.Parts {
		if strings.HasPrefix(p.Name, "ballast stop") {
			stop = p.Mark
		}
	}
	held := 0
	for _, j := range r.Assembly.Joints {
		if j.B == stop {
			held += j.Count
		}
	}
	if stop == "" || held < 3 {
		t.Errorf("the ballast's stop, %q, is held by %d screws", stop, held)
	}
	steps := 0
	for _, s := range r.Steps {
		if strings.Contains(s.Text, "Lay the ballast") && strings.Contains(s.Text, stop) && strings.Contains(s.Text, "36 × ") {
			steps++
		}
	}
	if steps != 1 {
		t.Errorf("%d steps lay the ballast", steps)
	}
}

// A case without a wall says how it is fixed where it will stand, has the screws for it on its list, and no
// caution speaks of drawers that it has not.
func TestOneCaseIsFixedWhereItWillStand(t *testing.T) {
	r := plantest.Result(t, "one-case")
	screws := 0
	for _, h := range r.Assembly.Hardware {
		if h.For == part.WhereItStands {
			screws += h.Count
		}
	}
	steps := 0
	for _, s := range r.Steps {
		if strings.Contains(s.Caution, "drawer") {
			t.Errorf("step %d speaks of drawers: %s", s.N, s.Caution)
		}
		if s.Phase == shop.Install && strings.HasPrefix(s.Text, "Where it will stand") {
			steps++
			for _, w := range []string{"A.hang2", "at least two studs", "the lining alone holds nothing", "thread in the stud"} {
				if !strings.Contains(s.Whole(), w) {
					t.Errorf("step %d does not say %q: %s", s.N, w, s.Whole())
				}
			}
		}
	}
	if screws != 2 || steps != 1 {
		t.Errorf("%d screws and %d steps fix the case to a wall", screws, steps)
	}
	for _, f := range r.Findings {
		if f.Code == "racking" && strings.Contains(f.Hint, "Screw a back") {
			t.Errorf("the back is slid in, and a finding wants it screwed: %s", f.Hint)
		}
	}
}

// A counter that lies on cases is set as high as their tops.
func TestCountersLieOnTheirCases(t *testing.T) {
	r := plantest.Result(t, "marram-point")
	for _, s := range r.Steps {
		if strings.HasPrefix(s.Text, "Put chart table") && !strings.Contains(s.Text, "lower side 722.5 mm up") {
			t.Errorf("the cases are 722.5 mm high: %s", s.Text)
		}
	}
}

// packersOf is how many packers a packing takes as it is told: they are 6 mm or 1/4 in thick at most.
func packersOf(packing length.Length, u length.Unit) int {
	most := 6 * length.MM
	if u == length.Inches {
		most = length.Inch / 4
	}
	return int((packing.Near(u.Step()) + most - 1) / most)
}
