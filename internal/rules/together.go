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
		Doc:     "Two doors or drawers of different cases that sweep the same room can be opened one at a time; it is said once for each pair of cases, with all of their doors and drawers that do.",
		Source:  "geometry",
		Example: "A drawer on the north wall and a door on the west wall, beside the corner.",
		Check:   checkTogether,
	}
}

func checkTogether(s *Scene) finding.List {
	type pair struct{ a, b string } // cases
	type shared struct {
		first, second Move
		more          []string // others of the same cases
		by            L
	}
	var list []shared
	at := map[pair]int{}
	for i, m := range s.Moves {
		for _, n := range s.Moves[i+1:] {
			if m.Owner == n.Owner || !m.World.Meets(n.World) {
				continue
			}
			if m.Wall == n.Wall && !bothSweep(m.Motion, n.Motion) {
				continue
			}
			d := overlap(m.Swept, whole(s.frame(m.Wall).See(s.frame(n.Wall), n.Swept)))
			if d <= touch {
				continue
			}
			k, ok := at[pair{m.Owner, n.Owner}]
			if !ok {
				at[pair{m.Owner, n.Owner}] = len(list)
				list = append(list, shared{first: m, second: n, by: d})
				continue
			}
			list[k].by = max(list[k].by, d)
			if m.Mark != "" && n.Mark != "" {
				list[k].more = append(list[k].more, m.Mark+" and "+n.Mark)
			}
		}
	}
	var f finding.List
	for _, x := range list {
		so := ""
		if len(x.more) > 0 {
			so = " So do " + strings.Join(x.more, ", ") + "."
		}
		f.Add(finding.Finding{Code: OneAtATime, Severity: finding.Note, At: x.first.At, Source: "geometry",
			Text: fmt.Sprintf("The %s and the %s share up to %s of room when both are open: open one at a time.%s", x.first.marked(), x.second.marked(), s.in(x.by), so)})
	}
	return f
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
