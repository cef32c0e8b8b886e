package shop

import "testing"

// Only a whole letter before a dot is an owner's.
func TestUnlettered(t *testing.T) {
	for _, x := range [][3]string{
		{"Fit A.left to A.right.", "A", "Fit @.left to @.right."},
		{"BA.left, A.left", "A", "BA.left, @.left"},
		{"A.left", "B", "A.left"},
		{"two. Then", "", "two. Then"},
		{"Board2.hang1 (Board2.hang2)", "Board2", "@.hang1 (@.hang2)"},
	} {
		if got := unlettered(x[0], x[1]); got != x[2] {
			t.Errorf("%q without %q is %q, want %q", x[0], x[1], got, x[2])
		}
	}
}
