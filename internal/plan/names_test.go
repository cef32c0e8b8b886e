package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/length"
)

// The number before a word in a mark is the number in the part's name, and what slides is
// counted from the lowest up, whatever else the case has (docs/marks.md).
func TestMarksAndNamesCountAlike(t *testing.T) {
	r := planned(t, `
stowright: 1
unit: mm
practice: {from: metric-shop}
cases:
  a: {width: 1200, height: 900, depth: 500, stands-on: {kind: castors, height: 100}, free: rolls, inside: {across: [{drawers: {count: 3}}, {drawers: {count: 2}}, {trays: {count: 2}, doors: {}}]}}
`)
	n := 0
	at := map[string]length.Length{}
	for _, p := range r.Assembly.Parts {
		_, num, ok := strings.Cut(p.Name, " of drawer ")
		if !ok {
			_, num, ok = strings.Cut(p.Name, " of tray ")
		}
		if !ok {
			continue
		}
		n++
		word := p.Mark[strings.Index(p.Mark, ".")+1:]
		if digits := word[:len(word)-len(strings.TrimLeft(word, "0123456789"))]; digits != num {
			t.Errorf("%s is called %s", p.Mark, p.Name)
		}
		if z, ok := at[num]; !ok || p.Box().Min.Z < z {
			at[num] = p.Box().Min.Z
		}
	}
	if n < 30 || len(at) != 7 || at["1"] >= at["7"] {
		t.Errorf("%d parts of what slides; lowest edges %v", n, at)
	}
}
