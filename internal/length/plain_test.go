package length

import (
	"math/rand/v2"
	"testing"
)

// What is read quickly is what the whole reader makes of it.
func TestPlainIsParsed(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	pieces := []string{"0", "1", "7", "30", "008", "999999", "1234567", " ", " ", ".", "/", "/", "2", "4", "64", " mm", " in", "mm", `"`, " ", "1/4", "5/8", "0.705", "-", "'", "ft", "cm", "m", " 200"}
	read := 0
	for range 200_000 {
		s := ""
		for range 1 + rng.IntN(5) {
			s += pieces[rng.IntN(len(pieces))]
		}
		bare := Unit(rng.IntN(2))
		got, ok := plain(s, bare)
		if !ok {
			continue
		}
		read++
		p := &parser{in: s, rest: []rune(fold(s)), bare: bare}
		if want, err := p.length(); err != nil || got != want {
			t.Fatalf("%q is read as %d, the whole reader says %d, %v", s, got, want, err)
		}
	}
	if read < 20_000 {
		t.Errorf("only %d of the texts are plain", read)
	}
}
