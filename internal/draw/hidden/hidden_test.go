package hidden_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"stowright/internal/draw/hidden"
	"stowright/internal/geom"
	"stowright/internal/length"
)

const mm = length.MM

func random(r *rand.Rand, n int, snap length.Length) []hidden.Solid {
	var out []hidden.Solid
	for i := range n {
		p := geom.V(length.Length(r.IntN(40))*snap, length.Length(r.IntN(20))*snap, length.Length(r.IntN(30))*snap)
		d := geom.V(length.Length(1+r.IntN(12))*snap, length.Length(1+r.IntN(12))*snap, length.Length(1+r.IntN(12))*snap)
		out = append(out, hidden.Solid{ID: i, Boxes: []geom.Box{{Min: p, Max: p.Add(d)}}})
	}
	return out
}

// blocked walks from a point of the model towards the eye and tells whether it enters a
// box: the plain slab test, sharing nothing with the package.
func blocked(v hidden.View, p [3]float64, solids []hidden.Solid) bool {
	for _, s := range solids {
		for _, b := range s.Boxes {
			b = b.Shift(s.Shift)
			s0, s1 := 1.0, math.Inf(1)
			in := true
			for k := range 3 {
				lo, hi := float64(b.Min.At(k))+40, float64(b.Max.At(k))-40
				w := v.To[k]
				if w == 0 {
					in = in && lo < p[k] && p[k] < hi
					continue
				}
				a, c := (lo-p[k])/w, (hi-p[k])/w
				s0, s1 = max(s0, min(a, c)), min(s1, max(a, c))
			}
			if in && s0 < s1 {
				return true
			}
		}
	}
	return false
}

// TestAgainstRays: sampled points of every edge are seen or hidden as rays say.
func TestAgainstRays(t *testing.T) {
	seeds := uint64(12)
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		r := rand.New(rand.NewPCG(seed, 1))
		solids := random(r, 25, 7*mm+13)
		for _, v := range []hidden.View{hidden.Isometric(false), hidden.Isometric(true), hidden.Cabinet(false), hidden.Cabinet(true)} {
			segs := hidden.Lines(v, solids, true)
			checked := 0
			for _, s := range solids {
				b := s.Boxes[0]
				for axis := range 3 {
					for c := range 4 {
						from := b.Min
						if c&1 == 1 {
							from = from.With((axis+1)%3, b.Max.At((axis+1)%3))
						}
						if c&2 == 2 {
							from = from.With((axis+2)%3, b.Max.At((axis+2)%3))
						}
						for k := range 9 {
							f := (float64(k) + 0.37) / 9
							p := [3]float64{float64(from.X), float64(from.Y), float64(from.Z)}
							p[axis] += f * float64(b.Size().At(axis))
							hid := blocked(v, p, solids)
							q := v.Project(geom.V(length.Length(p[0]), length.Length(p[1]), length.Length(p[2])))
							near, end, seen := false, false, false
							for _, g := range segs {
								d, u := distance(q, g)
								if d > 0.03 {
									continue
								}
								near = true
								end = end || u < 0.2
								seen = seen || !g.Hidden
							}
							if !near {
								t.Fatalf("seed %d: a point of solid %d is on no line at all", seed, s.ID)
							}
							if end {
								continue // at the end of a piece: rounding decides
							}
							checked++
							if !hid && !seen {
								t.Fatalf("seed %d: a point of solid %d is seen but drawn hidden", seed, s.ID)
							}
							if hid && seen && !coincident(v, q, solids) {
								t.Fatalf("seed %d: a point of solid %d is hidden but drawn seen", seed, s.ID)
							}
						}
					}
				}
			}
			if checked < 1000 {
				t.Errorf("only %d points could be checked", checked)
			}
		}
	}
}

// coincident tells whether some other edge that is seen runs through q in the picture.
func coincident(v hidden.View, q hidden.Point, solids []hidden.Solid) bool {
	for _, s := range solids {
		b := s.Boxes[0]
		for axis := range 3 {
			for c := range 4 {
				from := b.Min
				if c&1 == 1 {
					from = from.With((axis+1)%3, b.Max.At((axis+1)%3))
				}
				if c&2 == 2 {
					from = from.With((axis+2)%3, b.Max.At((axis+2)%3))
				}
				ends := hidden.Segment{A: v.Project(from), B: v.Project(from.With(axis, b.Max.At(axis)))}
				if d, _ := distance(q, ends); d > 0.4 {
					continue // far from all of it
				}
				for k := range 400 {
					p := [3]float64{float64(from.X), float64(from.Y), float64(from.Z)}
					p[axis] += (float64(k) + 0.5) / 400 * float64(b.Size().At(axis))
					z := v.Project(geom.V(length.Length(p[0]), length.Length(p[1]), length.Length(p[2])))
					if math.Hypot(z.X-q.X, z.Y-q.Y) < 0.3 && !blocked(v, p, solids) {
						return true
					}
				}
			}
		}
	}
	return false
}

// distance of q from a segment, and from its nearer end.
func distance(q hidden.Point, g hidden.Segment) (d, end float64) {
	dx, dy := g.B.X-g.A.X, g.B.Y-g.A.Y
	l := math.Hypot(dx, dy)
	u := ((q.X-g.A.X)*dx + (q.Y-g.A.Y)*dy) / l
	u = min(max(u, 0), l)
	return math.Hypot(g.A.X+u*dx/l-q.X, g.A.Y+u*dy/l-q.Y), min(u, l-u)
}

// TestBox: a lone box shows nine edges and hides three (solid geometry).
func TestBox(t *testing.T) {
	box := hidden.Solid{Boxes: []geom.Box{geom.B(0, 0, 0, 100*mm, 50*mm, 30*mm)}}
	for _, v := range []hidden.View{hidden.Isometric(false), hidden.Cabinet(true)} {
		seen, hid := 0, 0
		for _, s := range hidden.Lines(v, []hidden.Solid{box}, true) {
			if s.Hidden {
				hid++
			} else {
				seen++
			}
		}
		if seen != 9 || hid != 3 {
			t.Errorf("seen %d, hidden %d", seen, hid)
		}
	}
	if n := len(hidden.Lines(hidden.Front(), []hidden.Solid{box}, true)); n != 4 {
		t.Errorf("an elevation of a box has %d lines, want 4", n)
	}
}

// TestSeamsVanish: a box cut into pieces draws as the whole; a groove draws its own edges.
func TestSeamsVanish(t *testing.T) {
	b := geom.B(0, 0, 0, 100*mm, 50*mm, 18*mm)
	whole := hidden.Lines(hidden.Isometric(false), []hidden.Solid{{Boxes: []geom.Box{b}}}, true)
	parts := []geom.Box{geom.B(0, 0, 0, 40*mm, 20*mm, 18*mm), geom.B(40*mm, 0, 0, 100*mm, 50*mm, 18*mm), geom.B(0, 20*mm, 0, 40*mm, 50*mm, 18*mm)}
	cut := hidden.Lines(hidden.Isometric(false), []hidden.Solid{{Boxes: parts}}, true)
	if len(whole) != 12 || len(cut) != 12 {
		t.Errorf("whole %d lines, in pieces %d", len(whole), len(cut))
	}
	for _, v := range []hidden.View{hidden.Front(), hidden.Top(), hidden.FromRight()} {
		if n := len(hidden.Lines(v, []hidden.Solid{{Boxes: parts}}, true)); n != 4 {
			t.Errorf("plain view of the pieces has %d lines, want 4", n)
		}
	}
	groove := hidden.Cut(b, geom.B(0, 20*mm, 12*mm, 100*mm, 26*mm, 18*mm))
	vol := length.Length(0)
	for _, g := range groove {
		s := g.Size()
		vol += s.X / mm * (s.Y / mm) * (s.Z / mm)
	}
	if vol != 100*50*18-100*6*6 {
		t.Errorf("what is left of the board is %d mm³", vol)
	}
	// 12 edges of the board, two of them cut in two by the groove's mouth, plus the
	// groove's four long edges and three short ones at either end.
	n := 0
	for _, s := range hidden.Lines(hidden.Isometric(false), []hidden.Solid{{Boxes: groove}}, true) {
		if !s.Hidden {
			n++
		}
	}
	if n < 12 {
		t.Errorf("the grooved board shows %d lines", n)
	}
}

func BenchmarkFiveHundredBoxes(b *testing.B) {
	solids := random(rand.New(rand.NewPCG(3, 3)), 500, 29*mm)
	for b.Loop() {
		hidden.Lines(hidden.Isometric(false), solids, true)
	}
}
