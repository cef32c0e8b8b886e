package plan_test

import (
	"testing"
	"unicode"
	"unicode/utf8"

	"stowright/internal/plan"
)

// A step begins as a sentence does.
func TestStepsBeginWithACapital(t *testing.T) {
	heads := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, s := range r.Steps {
			first := s.Text
			if s.Head != "" {
				first = s.Head
				heads++
			}
			if c, _ := utf8.DecodeRuneInString(first); unicode.IsLower(c) {
				t.Errorf("%s: step %d begins with %q", name, s.N, first)
			}
		}
	})
	if heads == 0 {
		t.Error("no step has a head")
	}
}
