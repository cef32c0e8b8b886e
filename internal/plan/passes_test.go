package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// blocked gives a sentence for every hole for a handle or a lock of which either side is covered
// by a board that moves with it and has no hole there itself: its bolt cannot be put in or turned.
func blocked(a part.Assembly) (bad []string) {
	const reach = 25 * length.MM
	for _, p := range a.Parts {
		for _, o := range p.Ops {
			if o.Kind != part.Hole || o.For != "handle" && o.For != "lock" {
				continue
			}
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			way := p.Pose.Dir(o.Face.Normal())
			thick := p.Size[2]
			lo, hi := at.Add(way.Vec(-thick-reach)), at.Add(way.Vec(reach))
			room := geom.Box{Min: lo, Max: lo}
			for i := range 3 {
				room.Min, room.Max = room.Min.With(i, min(lo.At(i), hi.At(i))), room.Max.With(i, max(lo.At(i), hi.At(i)))
				if i != way.Axis() {
					room.Min, room.Max = room.Min.With(i, at.At(i)-o.Dia/2), room.Max.With(i, at.At(i)+o.Dia/2)
				}
			}
			for _, q := range a.Parts {
				if q.Mark == p.Mark || q.Owner != p.Owner || q.Moves != p.Moves || !q.Box().Meets(room) {
					continue
				}
				if !slices.ContainsFunc(q.Ops, func(x part.Op) bool {
					d := q.Pose.Point(x.Face.Point(x.X, x.Y, q.Size)).With(way.Axis(), 0).Sub(at.With(way.Axis(), 0))
					return x.For == o.For && max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < length.MM
				}) {
					bad = append(bad, fmt.Sprintf("%s: %s covers a hole for a %s at %s along, %s across", p.Mark, q.Mark, o.For, o.X, o.Y))
				}
			}
		}
	}
	return bad
}

// Nothing that is fixed later lies over a hole that hardware passes through.
func TestHardwarePassesThrough(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, p := range a.Parts {
			for _, o := range p.Ops {
				if o.For == "handle" {
					seen++
				}
			}
		}
		for _, s := range blocked(a) {
			t.Errorf("%s: %s", name, s)
		}
	}
	if seen < 50 {
		t.Errorf("only %d handle holes were looked at", seen)
	}
}

// The cam of the lock of a pair of doors turns free behind them, from upright to level behind the other leaf: nothing
// of the case is in its way, notches taken off.
func TestCamsTurn(t *testing.T) {
	const bite, half, deep = 10 * length.MM, 8 * length.MM, 12 * length.MM // common practice, no source
	seen := 0
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, f := range a.Fronts {
			if f.Kind != part.DoorFront || !f.Lock {
				continue
			}
			door := a.Parts[slices.IndexFunc(a.Parts, func(p part.Part) bool { return p.Mark == f.Part })]
			for _, o := range door.Ops {
				if o.For != "lock" {
					continue
				}
				at := door.Pose.Point(o.Face.Point(o.X, o.Y, door.Size))
				for _, g := range a.Fronts {
					other := a.Parts[slices.IndexFunc(a.Parts, func(p part.Part) bool { return p.Mark == g.Part })]
					c := other.Box()
					if !g.Lock || g.Part == f.Part || other.Owner != door.Owner || c.Min.Z != door.Box().Min.Z {
						continue
					}
					room := geom.B(min(at.X, c.Max.X-bite), c.Max.Y, at.Z-half, max(at.X, c.Min.X+bite), c.Max.Y+deep, at.Z+half)
					if room.Max.X-room.Min.X > 80*length.MM {
						continue // not the leaf that it meets
					}
					if slices.ContainsFunc(other.Ops, func(o part.Op) bool { return o.For == "lock" }) {
						// Each leaf has its own, whose cam turns behind an angle on the board between them, 20 mm of it: short of
						// that board, and past the angle's leg, which is clear of the lock (19 mm across).
						const leg, body = 20 * length.MM, 19 * length.MM / 2
						sign, face := length.Length(1), c.Max.X
						if c.Max.X < at.X {
							sign, face = -1, c.Min.X
						}
						for _, p := range a.Parts {
							if b := p.Box(); p.Owner == door.Owner && p.Role == part.Partition && b.Min.Z < at.Z && b.Max.Z > at.Z {
								for _, x := range []length.Length{b.Min.X, b.Max.X} {
									if sign*(x-at.X) > 0 && sign*(x-face) < 0 {
										face = x
									}
								}
							}
						}
						if d := sign * (face - at.X); d < leg+body || d > 80*length.MM {
							t.Errorf("%s: the lock of %s is %s from the board that its cam is to turn behind an angle on", name, door.Mark, d.In(length.Millimetres))
						}
						room.Min.X, room.Max.X = min(at.X, face), max(at.X, face)
					}
					seen++
					for _, p := range a.Parts {
						if p.Owner != door.Owner || p.Moves != "" {
							continue
						}
						for _, b := range p.Solid() {
							if b.Meets(room) {
								t.Errorf("%s: %s is where the cam of the lock of %s turns", name, p.Mark, door.Mark)
							}
						}
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no lock")
	}
}

// A front can be shifted until its gaps are even: what is screwed through it and the box behind has play in the box's
// holes, 1 mm to each side at least (common practice, no source).
func TestFrontsCanBeSet(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, f := range a.Fronts {
			if f.Kind != part.Drawer {
				continue
			}
			face := a.Parts[slices.IndexFunc(a.Parts, func(p part.Part) bool { return p.Mark == f.Part })]
			for _, o := range face.Ops {
				at := face.Pose.Point(o.Face.Point(o.X, o.Y, face.Size))
				for _, p := range a.Parts {
					if p.Owner != face.Owner || p.Moves != face.Moves || p.Mark == face.Mark || o.For != "handle" && o.For != "front screw" {
						continue
					}
					for _, x := range p.Ops {
						if q := p.Pose.Point(x.Face.Point(x.X, x.Y, p.Size)); x.For == o.For && q.X == at.X && q.Z == at.Z {
							seen++
							if x.Dia < o.Dia+length.MM {
								t.Errorf("%s: %s cannot be shifted on its %ss: holes of %s and %s", name, face.Mark, o.For, o.Dia, x.Dia)
							}
						}
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no front")
	}
}
