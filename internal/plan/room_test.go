package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// everywhere gives the examples and some made-up jobs, worked out.
func everywhere(t *testing.T, each func(name string, r plan.Result)) {
	for _, name := range shipped {
		each(name, plantest.Result(t, name))
	}
	n := uint64(many)
	if testing.Short() {
		n = short
	}
	for seed := range n {
		_, r := madeUp(t, seed)
		each(fmt.Sprint("seed ", seed), r)
	}
}

// inExamples prints what a judge finds bad in some examples, and fails when it saw nothing to judge.
func inExamples(t *testing.T, names []string, judge func(plan.Result) (bad []string, seen int), nothing string) {
	t.Helper()
	seen := 0
	for _, name := range names {
		bad, n := judge(plantest.Result(t, name))
		for _, s := range bad {
			t.Errorf("%s: %s", name, s)
		}
		seen += n
	}
	if seen == 0 {
		t.Error(nothing)
	}
}

// A panel that is slid into grooves on three sides or more has air before and behind it to every board
// that does not hold it (common practice, no source: two coats of varnish on each face are about 0.3 mm),
// and no loose shelf touches it.
func TestAPanelSlidesInFreely(t *testing.T) {
	const air = 4 * length.MM / 10
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, p := range r.Assembly.Parts {
			if p.Role != part.BackPanel || p.Name != "back" || grooved(p, r.Assembly.Parts) < 3 {
				continue
			}
			seen++
			box := p.Box()
			box.Min.Y, box.Max.Y = box.Min.Y-air, box.Max.Y+air
			for _, q := range r.Assembly.Parts {
				holds := slices.ContainsFunc(q.Ops, func(o part.Op) bool {
					return o.Kind == part.Groove && q.Pose.Box(o.Removed(q.Size)).Meets(p.Box())
				})
				if q.Owner == p.Owner && q.Mark != p.Mark && q.Moves == "" && !holds && q.Box().Meets(box) {
					t.Errorf("%s: %s, %s, leaves no air to %s", name, q.Mark, q.Name, p.Mark)
				}
			}
		}
	})
	if seen < 20 {
		t.Errorf("only %d panels were looked at", seen)
	}
}

// The head of a joining screw lies clear of every hinge's plate and of every slide on that face of the
// side, and no shelf hole is under a plate: the outline of a plate is worked out here from its door, of a
// slide from what is bought (a plate of 54 by 60 mm about its middle: common practice, no source).
func TestHolesAreClearOfHardware(t *testing.T) {
	const head = 5 * length.MM
	heads, plates, rows := 0, 0, 0
	everywhere(t, func(name string, r plan.Result) {
		a := r.Assembly
		at := byMark(a)
		type cover struct {
			owner  string
			x      length.Length // of the face
			y0, y1 length.Length
			z0, z1 length.Length
			looks  int // where the face does, 1 to the right; 0 either way
		}
		var list []cover
		carcass := map[string]geom.Box{}
		for _, o := range a.Owners {
			carcass[o.ID] = o.Carcass
		}
		for _, f := range a.Fronts {
			p := at[f.Part]
			for _, up := range f.Hinges {
				plates++
				x, looks := p.Box().Min.X, 1 // a partition may carry doors on both faces
				if f.Hinge == geom.Right {
					x, looks = p.Box().Max.X, -1
				}
				y, z := carcass[p.Owner].Min.Y, p.Box().Min.Z+up
				list = append(list, cover{p.Owner, x, y + 7*length.MM, y + 67*length.MM, z - 27*length.MM, z + 27*length.MM, looks})
			}
		}
		for _, p := range a.Parts {
			if p.Moves != "" {
				continue
			}
			for _, o := range p.Ops {
				if o.For != "slide" {
					continue
				}
				half := length.Length(0)
				for _, h := range a.Hardware {
					if x, ok := r.Job.Catalogue.Item(h.ID); ok && h.Owner == p.Owner && h.Kind == "slide" {
						half = max(half, x.Height/2)
					}
				}
				rows++
				q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
				list = append(list, cover{p.Owner, q.X, q.Y - 30*length.MM, q.Y + 30*length.MM, q.Z - half, q.Z + half, 0})
			}
		}
		for _, p := range a.Parts {
			for _, o := range p.Ops {
				half := head
				if o.For == "shelf pin" {
					half = o.Dia / 2
				} else if o.For != part.JoiningScrew && o.For != part.JoiningBolt || o.Depth < p.Size[2] {
					continue
				} else {
					heads++
				}
				q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
				in := p.Pose.Dir(o.Face.Normal())
				for _, c := range list {
					// Plates lie on the face that looks at their door.
					off := (q.X - c.x) * length.Length(in.Sign())
					if in.Axis() != 0 || c.owner != p.Owner || c.looks == -int(in.Sign()) || off < -25*length.MM || off > 25*length.MM || o.For == "shelf pin" && c.y1-c.y0 != 60*length.MM || o.For == "shelf pin" && c.z1-c.z0 != 54*length.MM {
						continue
					}
					if q.Y+half > c.y0 && q.Y-half < c.y1 && q.Z+half > c.z0 && q.Z-half < c.z1 {
						t.Errorf("%s: a hole for a %s in %s is under hardware, at %s behind the front and %s up", name, o.For, p.Mark, q.Y-carcass[p.Owner].Min.Y, q.Z-carcass[p.Owner].Min.Z)
					}
				}
			}
		}
	})
	if heads < 100 || plates < 100 || rows < 100 {
		t.Errorf("only %d joining screws, %d plates and %d slides' screws were looked at", heads, plates, rows)
	}
}

// No blind hole is deeper than the flutes of an ordinary bit of its diameter are long (DIN 338, from
// memory), every hole says its depth, and one through a board that is thicker says that its bit is a long one.
func TestBitsReach(t *testing.T) {
	mm := length.MM
	flutes := []struct{ dia, long length.Length }{{2 * mm, 24 * mm}, {5 * mm / 2, 30 * mm}, {3 * mm, 33 * mm}, {7 * mm / 2, 39 * mm}, {4 * mm, 43 * mm}, {9 * mm / 2, 47 * mm}, {5 * mm, 52 * mm}, {6 * mm, 57 * mm}, {7 * mm, 69 * mm}, {8 * mm, 75 * mm}, {10 * mm, 87 * mm}}
	seen, long := 0, 0
	everywhere(t, func(name string, r plan.Result) {
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if o.Kind != part.Hole {
					continue
				}
				seen++
				most := flutes[0].long
				for _, f := range flutes {
					if f.dia <= o.Dia+mm/10 {
						most = f.long
					}
				}
				if _, _, thick := o.Face.Extent(p.Size); o.Depth == thick && o.Depth > most && strings.HasPrefix(o.Tool, "long ") {
					long++
					continue
				}
				if o.Depth <= 0 || o.Depth > most {
					t.Errorf("%s: %s has a hole of %s for a %s, %s deep; a bit reaches %s", name, p.Mark, o.Dia, o.For, o.Depth, most)
				}
			}
		}
	})
	if seen < 3000 || long == 0 {
		t.Errorf("only %d holes were looked at, %d of a long bit", seen, long)
	}
}

// A screw to the wall through a hang rail has 40 mm above and below it to the boards that reach in before
// it (common practice, no source: half a drill and its chuck, with a hand on it), and its rail has 15 mm of
// wood beside it. Only where the screws of one stud, one above the other, leave a rail no room for that (it
// is as high as its case lets it be) may one come nearer.
func TestADrillHasRoomAtTheWall(t *testing.T) {
	const room, edge, reach = 40 * length.MM, 15 * length.MM, 200 * length.MM
	seen, tight := 0, 0
	everywhere(t, func(name string, r plan.Result) {
		at := byMark(r.Assembly)
		for _, f := range r.Assembly.Fixings {
			rail := at[f.Part]
			if f.Kind != part.ToStud && f.Kind != part.ToWall || rail.Role != part.HangRail {
				continue
			}
			box := rail.Box()
			lo, hi := f.At.Z, f.At.Z
			for _, g := range r.Assembly.Fixings {
				if g.Part == f.Part {
					lo, hi = min(lo, g.At.Z), max(hi, g.At.Z)
				}
			}
			if hi-lo+64*length.MM > box.Max.Z-box.Min.Z { // 19 mm of wood, 45 mm of room
				tight++
				continue
			}
			seen++
			if f.At.Z-box.Min.Z < edge || box.Max.Z-f.At.Z < edge {
				t.Errorf("%s: a screw is %s up in %s, which is from %s to %s", name, f.At.Z, rail.Mark, box.Min.Z, box.Max.Z)
			}
			drill := geom.B(f.At.X-length.MM, box.Min.Y-reach, f.At.Z-room, f.At.X+length.MM, box.Min.Y, f.At.Z+room)
			for _, p := range r.Assembly.Parts {
				// Shelves and partitions are the maker's own choice of bays: a fixed one may be anywhere.
				if p.Owner == rail.Owner && (p.Role == part.Stretcher || p.Role == part.Top || p.Role == part.Bottom) && p.Box().Meets(drill) {
					t.Errorf("%s: %s leaves no room for a drill at the screw in %s, %s up (%s to %s)", name, p.Mark, rail.Mark, f.At.Z, box.Min.Z, box.Max.Z)
				}
			}
		}
	})
	if seen < 100 || tight*4 > seen {
		t.Errorf("only %d screws were looked at, %d had no room to be moved", seen, tight)
	}
}

// The middle of the handle of a door is at the height of a hand, 0.9 to 1.2 m over the floor (common
// practice, no source), wherever the door reaches it and nothing hangs on it; else at the end of the door
// that is nearer to the hand. Every handle has all its screws.
func TestHandlesAreAtHand(t *testing.T) {
	const lo, hi, end = 900 * length.MM, 1200 * length.MM, 300 * length.MM
	seen, tall := 0, 0
	everywhere(t, func(name string, r plan.Result) {
		at := byMark(r.Assembly)
		hung := map[string]part.Owner{}
		for _, o := range r.Assembly.Owners {
			hung[o.ID] = o
		}
		for _, f := range r.Assembly.Fronts {
			p := at[f.Part]
			if f.Kind != part.DoorFront || f.Handle == "" || f.Handle == "none" {
				continue
			}
			h, ok := r.Job.Catalogue.Item(f.Handle)
			var pts []geom.Vec
			for _, o := range p.Ops {
				if o.For == "handle" {
					pts = append(pts, p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)))
				}
			}
			if len(pts) == 0 || !ok { // said as a finding
				continue
			}
			seen++
			want := 1
			if h.Length > 0 {
				want = 2
			}
			if len(pts) != want {
				t.Errorf("%s: %s has %d holes for %s", name, p.Mark, len(pts), h.Name)
				continue
			}
			if d := pts[want-1].Sub(pts[0]); want == 2 && max(d.X.Abs(), d.Z.Abs()) != h.Length {
				t.Errorf("%s: the holes of %s are not %s apart", name, p.Mark, h.Length)
			}
			if len(f.Racks) > 0 || hung[p.Owner].Hung {
				continue
			}
			floor := length.Length(0)
			if w := r.Room.Wall(hung[p.Owner].Wall); w != nil {
				floor = w.FloorAt(pts[0].X, pts[0].Y)
			}
			mid := (pts[0].Z+pts[want-1].Z)/2 - floor
			door := p.Box()
			low, high := door.Min.Z-floor, door.Max.Z-floor
			switch {
			case mid >= lo && mid <= hi:
				if high > 1600*length.MM {
					tall++
				}
			case mid < lo && high-mid > end && door.Size().Z > end, mid > hi && mid-low > end && door.Size().Z > end:
				t.Errorf("%s: the handle of %s, a door from %s to %s over the floor, is at %s", name, p.Mark, low, high, mid)
			}
		}
	})
	if seen < 30 || tall == 0 {
		t.Errorf("only %d handles were looked at, %d of tall doors", seen, tall)
	}
}
