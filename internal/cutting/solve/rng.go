package solve

import "math/bits"

// rng is a small fast generator (Wang Yi's wyrand, public domain algorithm), so that a
// seed gives the same plan everywhere.
type rng uint64

func (r *rng) next() uint64 {
	*r += 0xa0761d6478bd642f
	hi, lo := bits.Mul64(uint64(*r), uint64(*r)^0xe7037ed1a0b428db)
	return hi ^ lo
}

// below gives a number from 0 to n-1.
func (r *rng) below(n int) int {
	hi, _ := bits.Mul64(r.next(), uint64(n))
	return int(hi)
}
