package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
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

// A number at the end of a mark is no other number in the part's name: what the maker reads on the board and what the
// steps call it never count two ways.
func TestNoNameCountsOtherwiseThanItsMark(t *testing.T) {
	seen, pieces := 0, 0
	everywhere(t, func(name string, r plan.Result) {
		for _, p := range r.Assembly.Parts {
			own := p.Mark[len(strings.TrimRight(p.Mark, "0123456789")):]
			called := p.Name
			for _, of := range []string{" of ", " for ", " over "} { // what they belong to has its own
				called, _, _ = strings.Cut(called, of)
			}
			if strings.HasSuffix(called, " piece") {
				pieces++
			}
			for _, w := range strings.FieldsFunc(called, func(x rune) bool { return x == ' ' || x == ',' }) {
				if strings.Trim(w, "0123456789") != "" {
					continue
				}
				if seen++; own != "" && w != own {
					t.Errorf("%s: %s is called %s", name, p.Mark, p.Name)
				}
			}
		}
	})
	if seen < 50 || pieces < 4 {
		t.Errorf("%d numbers in names, %d pieces", seen, pieces)
	}
}

// Wherever doors, two at least, are told to be taken off before a case is lifted, the maker is told to mark them; and where
// none come off nothing is said of that.
func TestDoorsAreMarkedWhereTheyComeOff(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		doors := map[string]int{}
		for _, p := range r.Assembly.Parts {
			if p.Role == part.Door {
				doors[p.Owner]++
			}
		}
		for _, s := range r.Steps {
			all := s.Text + " " + s.Caution
			off, marked := strings.Contains(strings.ToLower(all), "take the doors off"), strings.Contains(all, "marked where it belongs")
			if off {
				seen++
			}
			if off != marked || off && doors[s.Owner] < 2 {
				t.Errorf("%s: %d doors come off %v, are marked %v: %s", name, doors[s.Owner], off, marked, all)
			}
		}
	})
	if seen < 3 {
		t.Errorf("doors come off %d times", seen)
	}
}
