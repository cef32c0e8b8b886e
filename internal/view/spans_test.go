package view

import (
	"math/rand/v2"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
)

// A wall's chains add up: of whatever stands along it, all printed pieces together are as long as
// the wall for every chain that was needed (arithmetic), every name stands before its own size,
// and the gaps are told.
func TestSpansAddUp(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 9))
		long := L(120+r.IntN(80))*length.Inch + L(r.IntN(32))*length.Inch/32
		var list []span
		var sizes = map[string]L{}
		for i := range 1 + r.IntN(7) {
			wide := L(8+r.IntN(40)) * length.Inch
			from := L(r.IntN(int((long-wide)/length.Inch*32))) * length.Inch / 32
			name := string(rune('A' + i))
			list = append(list, span{from, from + wide, name})
			sizes[name] = wide
		}
		var s draw.Sheet
		v := draw.View{Scale: draw.Scale{Paper: 1, Real: 12}}
		d := draw.Dims{View: v.Rect(0, 0, long, 40*length.Inch)}
		spans(&d, draw.Below, v, list, 0, long, Units{Unit: length.Inches})
		d.Draw(&s)
		sum, overall := L(0), 0
		told := map[string]bool{}
		for _, it := range s.Items {
			x, ok := it.(*draw.Text)
			if !ok {
				continue
			}
			name, size := "", x.Text
			if f, rest, ok := strings.Cut(x.Text, " "); ok && f >= "A" {
				name, size = f, rest
			}
			l, err := length.Parse(strings.TrimSuffix(size, `"`)+" in", length.Inches)
			if err != nil {
				t.Fatalf("seed %d: %q: %v", seed, x.Text, err)
			}
			if name == "" && l == long {
				overall++
				continue
			}
			sum += l
			if name != "" {
				told[name] = true
				if l != sizes[name] {
					t.Errorf("seed %d: %q, it is %s", seed, x.Text, sizes[name].Marked(length.Inches))
				}
			}
		}
		if len(told) != len(sizes) {
			t.Errorf("seed %d: %d of %d named", seed, len(told), len(sizes))
		}
		if overall != 1 || sum == 0 || sum%long != 0 {
			t.Errorf("seed %d: pieces of %s on a wall of %s, told %d times", seed, sum.Marked(length.Inches), long.Marked(length.Inches), overall)
		}
	}
}
