package joinery

import (
	"slices"
	"testing"
)

// Rows are tried at every pair of ends within twenty steps, each pair once, those that lie least elsewhere first.
func TestShiftsAreAllTriedLeastFirst(t *testing.T) {
	all := slices.Collect(shifts)
	seen := map[[2]int]bool{}
	far := func(s [2]int) int {
		d := max(s[0], -s[0]) + max(s[1], -s[1])
		if s[0] != s[1] {
			d += 5
		}
		return d
	}
	for i, s := range all {
		if seen[s] || max(s[0], -s[0], s[1], -s[1]) > 20 {
			t.Errorf("%v is tried twice, or lies too far", s)
		}
		seen[s] = true
		if i > 0 && (far(s) < far(all[i-1]) || far(s) == far(all[i-1]) && slices.Compare(s[:], all[i-1][:]) < 0) {
			t.Errorf("%v comes after %v", s, all[i-1])
		}
	}
	if len(seen) != 41*41 {
		t.Errorf("%d pairs are tried, want %d", len(seen), 41*41)
	}
}
