package plainfe

import "math"

// Layer is one layer of a [Stack]: its thickness, its moduli along and through it, and its shear modulus between
// faces; N, mm, MPa.
type Layer struct{ T, E, Through, G float64 }

// Butt is a place along a stack where one layer (0 is the upper) is cut through and nothing goes across.
type Butt struct {
	Layer int
	At    float64
}

// Stack is a board of layers that are glued face to face, seen from its side: plane stress in a slice of unit width,
// rectangles of four nodes with two bending modes of their own (Wilson, Taylor, Doherty and Ghaboussi), so that
// layers slip past each other by their own shear beside a butt. It rests on points at the middle of its height.
type Stack struct {
	Length   float64
	Layers   []Layer
	Butts    []Butt
	Supports []float64
	Line     float64 // N/mm on the upper face
	Step     float64 // length of an element along; butts and supports are put on its grid
	Deep     int     // elements through a layer

	sag []float64 // of the upper face, at each place of the grid
}

// Greatest solves the stack and gives the largest sag of its upper face.
func (s *Stack) Greatest() float64 {
	nx := int(math.Round(s.Length / s.Step))
	hx := s.Length / float64(nx)
	rows := len(s.Layers)*s.Deep + 1
	on := func(x float64) int { return int(math.Round(x / hx)) }
	// Nodes by column; at a butt those of its layer but for the faces that are glued to others are there twice.
	left, right := make([][]int, nx+1), make([][]int, nx+1)
	n := 0
	for i := range nx + 1 {
		left[i], right[i] = make([]int, rows), make([]int, rows)
		for j := range rows {
			left[i][j], right[i][j] = n, n
			n++
			for _, b := range s.Butts {
				lo, hi := b.Layer*s.Deep, (b.Layer+1)*s.Deep
				glued := j == lo && b.Layer > 0 || j == hi && b.Layer < len(s.Layers)-1
				if on(b.At) == i && j >= lo && j <= hi && !glued {
					right[i][j] = n
					n++
				}
			}
		}
	}
	reach := 0
	for i := range nx {
		reach = max(reach, 2*(right[i+1][rows-1]-right[i][0])+3, 2*(left[i+1][rows-1]-right[i][0])+3)
	}
	k := make([][]float64, 2*n)
	for i := range k {
		k[i] = make([]float64, reach+1)
	}
	f := make([]float64, 2*n)
	for l, y := range s.Layers {
		h := y.T / float64(s.Deep)
		e := wilson(hx, h, y)
		for i := range nx {
			for d := range s.Deep {
				j := l*s.Deep + d
				at := [4]int{right[i][j], left[i+1][j], left[i+1][j+1], right[i][j+1]}
				for a := range 8 {
					for b := range 8 {
						p, q := 2*at[a/2]+a%2, 2*at[b/2]+b%2
						if q <= p {
							k[p][reach+q-p] += e[a][b]
						}
					}
				}
			}
		}
	}
	for i := range nx {
		for _, at := range [2]int{right[i][0], left[i+1][0]} {
			f[2*at+1] += s.Line * hx / 2
		}
	}
	mid := rows / 2
	for c, x := range s.Supports {
		at := left[on(x)][mid]
		k[2*at+1][reach] += 1e12
		if c == 0 {
			k[2*at][reach] += 1e12
		}
	}
	solve(k, f, reach)
	worst := 0.0
	s.sag = nil
	for i := range nx + 1 {
		s.sag = append(s.sag, f[2*left[i][0]+1])
		worst = math.Max(worst, s.sag[i])
	}
	return worst
}

// wilson is the stiffness of a rectangle a × b of unit thickness, z downwards, its own two modes condensed.
func wilson(a, b float64, y Layer) (k [8][8]float64) {
	var full [12][12]float64
	g := 1 / math.Sqrt(3)
	for _, xi := range [2]float64{-g, g} {
		for _, et := range [2]float64{-g, g} {
			var bx, bz [6]float64 // ∂/∂x and ∂/∂z of the four shapes and the two modes
			for i, c := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
				bx[i] = c[0] * (1 + c[1]*et) / 4 * 2 / a
				bz[i] = c[1] * (1 + c[0]*xi) / 4 * 2 / b
			}
			bx[4] = -2 * xi * 2 / a
			bz[5] = -2 * et * 2 / b
			w := a * b / 4
			for i := range 6 {
				for j := range 6 {
					full[2*i][2*j] += w * (y.E*bx[i]*bx[j] + y.G*bz[i]*bz[j])
					full[2*i][2*j+1] += w * y.G * bz[i] * bx[j]
					full[2*i+1][2*j] += w * y.G * bx[i] * bz[j]
					full[2*i+1][2*j+1] += w * (y.Through*bz[i]*bz[j] + y.G*bx[i]*bx[j])
				}
			}
		}
	}
	for m := 11; m >= 8; m-- {
		for i := range m {
			r := full[i][m] / full[m][m]
			for j := range m {
				full[i][j] -= r * full[m][j]
			}
		}
	}
	for i := range 8 {
		copy(k[i][:], full[i][:8])
	}
	return k
}
