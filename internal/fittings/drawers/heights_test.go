package drawers

import (
	"strings"
	"testing"

	"stowright/internal/length"
)

// How many drawers there are, and how high each front is: all heights add to the bank's less its gaps (arithmetic).
func TestHeights(t *testing.T) {
	mm := func(list ...int) (r []L) {
		for _, x := range list {
			r = append(r, L(x)*length.MM)
		}
		return r
	}
	for _, c := range []struct {
		name string
		spec Spec
		want []L
		odd  string
	}{
		{"three when nothing says", Spec{}, mm(200, 200, 200), ""},
		{"as many as heights", Spec{Heights: mm(100, 200, 300)}, mm(100, 200, 300), ""},
		{"one more takes the rest", Spec{Count: 4, Heights: mm(100, 150, 150)}, mm(100, 150, 150, 197), ""},
		{"two more share it", Spec{Count: 4, Heights: mm(100, 200)}, mm(100, 200, 148, 149), ""},
		{"the lowest is made to fit", Spec{Heights: mm(100, 200, 250)}, mm(100, 200, 300), "add to 550 mm, and there is 600 mm for them: the lowest is made 300 mm"},
		{"no room for the rest", Spec{Count: 4, Heights: mm(200, 200, 180)}, mm(149, 149, 149, 150), "leave 17 mm of 597 mm for one more: all 4 are made equal"},
		{"too much", Spec{Heights: mm(300, 300, 300)}, mm(200, 200, 200), "add to 900 mm, and there is 600 mm"},
	} {
		n := len(c.want)
		total := 600*length.MM + 6*length.MM // as if of three
		got, odd := c.spec.heights(total, 3*length.MM, length.MM, func(l L) string { return l.In(length.Millimetres) })
		if len(got) != n {
			t.Errorf("%s: %d fronts, want %d", c.name, len(got), n)
			continue
		}
		sum := 3 * length.MM * L(n-1)
		for i, h := range got {
			sum += h
			if (h - c.want[i]).Abs() > length.MM {
				t.Errorf("%s: front %d is %s, want %s", c.name, i+1, h.In(length.Millimetres), c.want[i].In(length.Millimetres))
			}
		}
		if total-sum < 0 || total-sum >= L(n) {
			t.Errorf("%s: adds to %s", c.name, sum.In(length.Millimetres))
		}
		if c.odd == "" && odd != "" || !strings.Contains(odd, c.odd) {
			t.Errorf("%s: says %q", c.name, odd)
		}
	}
}

// Fronts that are to be equal are equal to the tick, whatever their bank: they are sawn at one setting.
func TestEqualFrontsAreEqual(t *testing.T) {
	for total := 300 * length.MM; total < 900*length.MM; total += 7*length.MM + 12345 {
		for n := 2; n < 8; n++ {
			got, odd := (&Spec{Count: n}).heights(total, 3*length.MM, length.MM, func(l L) string { return l.In(length.Millimetres) })
			sum := 3 * length.MM * L(n-1)
			for _, h := range got {
				if sum += h; h != got[0] {
					t.Fatalf("%d fronts in %d: %v", n, total, got)
				}
			}
			if over := total - sum; odd != "" || over < 0 || over >= L(n) {
				t.Fatalf("%d fronts in %d: %v leave %d", n, total, got, over)
			}
		}
	}
}
