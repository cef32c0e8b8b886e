package rules

import (
	"fmt"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/part"
)

// OneAtATime: two things of different cases cannot be open together.
const OneAtATime finding.Code = "one-at-a-time"

func together() Rule {
	return Rule{
		Name: "together", Codes: []finding.Code{OneAtATime},
		Doc:     "Two doors or drawers of different cases that sweep the same room, or doors that meet when both are open wide, can be opened one at a time; it is said once for each pair of cases, with all of their doors and drawers that do, and how far each door opens while the other stands open.",
		Source:  "geometry",
		Example: "A drawer on the north wall and a door on the west wall, beside the corner.",
		Check:   checkTogether,
	}
}

func checkTogether(s *Scene) finding.List {
	type pair struct{ a, b string } // cases
	var order []pair
	list := map[pair][]Meeting{}
	for _, x := range s.meetings() {
		k := pair{x.First.Owner, x.Second.Owner}
		if list[k] == nil {
			order = append(order, k)
		}
		list[k] = append(list[k], x)
	}
	var f finding.List
	for _, k := range order {
		first, by := list[k][0], L(0)
		var more []string
		for i, x := range list[k] {
			by = max(by, x.By)
			if i > 0 && x.First.Mark != "" && x.Second.Mark != "" {
				more = append(more, x.First.Mark+" and "+x.Second.Mark)
			}
		}
		share, so := "meet when both are opened past 90 degrees: open both to 90, or one at a time", ""
		if by > 0 {
			share, so = fmt.Sprintf("share up to %s of room when both are open", s.in(by)), ": open one at a time"
		}
		text := fmt.Sprintf("The %s and the %s %s%s.", first.First.marked(), first.Second.marked(), share, so)
		if len(more) > 0 {
			text += " So do " + strings.Join(more, ", ") + "."
		}
		if opens := Told(list[k]); by > 0 && len(opens) > 0 {
			text += " " + strings.Join(opens, ". ") + "."
		}
		f.Add(finding.Finding{Code: OneAtATime, Severity: finding.Note, At: first.First.At, Source: "geometry", Text: text})
	}
	return f
}

// Told says of doors how far they open while another stands open, where that is not all the way, a sentence for each that does.
func Told(list []Meeting) (out []string) {
	var order []string
	beside := map[string][]string{} // with which open, which opens how far
	for _, x := range list {
		for i, m := range [2]Move{x.First, x.Second} {
			n := [2]Move{x.Second, x.First}[i]
			if m.Mark == "" || n.Mark == "" || x.Degrees[i] >= min(fullyOpen, x.Stops[i]) {
				continue
			}
			how := fmt.Sprintf("%s opens to %d degrees", m.Mark, x.Degrees[i])
			if x.Degrees[i] == 0 {
				how = m.Mark + " does not open"
			}
			if beside[n.Mark] == nil {
				order = append(order, n.Mark)
			}
			beside[n.Mark] = append(beside[n.Mark], how)
		}
	}
	for _, m := range order {
		out = append(out, fmt.Sprintf("With %s open %s", m, strings.Join(beside[m], ", ")))
	}
	return out
}

// bothSweep reports whether two motions at one wall share room. Quarter circles that only
// share corners of their boxes do not: each is tried against slices of the other.
func bothSweep(m, n part.Motion) bool {
	for _, b := range strips(n) {
		if sweep(m, b) > touch {
			return true
		}
	}
	return false
}

// strips cuts what a motion sweeps into boxes: the quarter circle of a door into sixteen
// strips that hold it, anything else as it is.
func strips(m part.Motion) []Box {
	if m.Kind != part.Swing {
		return []Box{m.Swept}
	}
	q := quarter(m)
	var r []Box
	const n = 16
	for i := range L(n) {
		near, far := q.R*i/n, q.R*(i+1)/n
		wide := chord(q.R, near)
		b := Box{Min: Vec{X: q.X, Y: q.Y - far, Z: q.Bottom}, Max: Vec{X: q.X + wide, Y: q.Y - near, Z: q.Top}}
		if !q.Right {
			b.Min.X, b.Max.X = q.X-wide, q.X
		}
		r = append(r, b)
	}
	return r
}

// chord gives sqrt(r² - y²), rounded down to a whole tick, by halving.
func chord(r, y L) L {
	lo, hi := L(0), r
	for lo < hi {
		mid := lo + (hi-lo+1)/2
		if mid*mid+y*y <= r*r {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return lo
}
