// Package order sorts lists of anything with one sort for all of them: the generic one of the standard
// library is compiled anew for every type, which made the core for WebAssembly 0.05 MB larger
// (decision 0007).
package order

import (
	"cmp"
	"sort"
)

// Stable sorts a list by cmp, which is negative where a comes before b; equals keep their order.
func Stable[T any](list []T, cmp func(a, b T) int) {
	sort.SliceStable(list, func(i, j int) bool { return cmp(list[i], list[j]) < 0 })
}

// Up sorts a list of numbers or texts, least first.
func Up[T cmp.Ordered](list []T) {
	sort.SliceStable(list, func(i, j int) bool { return list[i] < list[j] })
}
