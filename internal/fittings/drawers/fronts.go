package drawers

import (
	"math/big"

	"stowright/internal/length"
)

// Equal gives n heights that are one and the same, to be sawn at one setting, and add to h but for less than n
// ticks.
func Equal(h L, n int) []L {
	out := make([]L, n)
	for i := range out {
		out[i] = h.DivDown(int64(n))
	}
	return out
}

// Arithmetic gives n heights from the top, each d more than the one above, that add to h:
// the first is (h - d·n(n-1)/2)/n.
func Arithmetic(h L, n int, d L) []L {
	first := (h - d*L(n)*L(n-1)/2).DivNear(int64(n))
	out := make([]L, n)
	for i := range out {
		out[i] = first + d*L(i)
	}
	return rest(out, h, 1)
}

// Geometric gives n heights from the top, each num/den times the one above, that add to h.
func Geometric(h L, n int, num, den int64) []L {
	// The weights num^i·den^(n-1-i) are whole, so nothing is lost before the last division.
	w := make([]*big.Int, n)
	sum := new(big.Int)
	for i := range w {
		w[i] = new(big.Int).Mul(pow(num, i), pow(den, n-1-i))
		sum.Add(sum, w[i])
	}
	out := make([]L, n)
	for i := range out {
		x := new(big.Int).Mul(w[i], big.NewInt(int64(h)))
		out[i] = L(x.Div(x, sum).Int64())
	}
	return rest(out, h, 1)
}

// Round rounds heights to whole steps and gives what remains to the lowest.
func Round(list []L, h, step L) []L { return rest(list, h, step) }

func rest(list []L, h, step L) []L {
	sum := L(0)
	for i := range list {
		if step > 1 {
			list[i] = list[i].Near(step)
		}
		sum += list[i]
	}
	list[len(list)-1] += h - sum
	return list
}

const mm = length.MM

func pow(x int64, n int) *big.Int {
	p := big.NewInt(1)
	for range n {
		p.Mul(p, big.NewInt(x))
	}
	return p
}
