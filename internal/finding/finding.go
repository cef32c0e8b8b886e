// Package finding is how every stage speaks of the job: what holds, what fails, what is
// not known, where, by how much, and what to do. Findings are values, collected beside a
// result, never returned as Go errors.
package finding

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"stowright/internal/order"
)

// Severity says what a finding means for the work.
type Severity uint8

// Severities, worst first.
const (
	Error   Severity = iota // must not be built as it stands
	Warning                 // wise to change
	Note                    // worth knowing
)

var severityNames = [...]string{"error", "warning", "note"}

func (s Severity) String() string { return severityNames[s] }

// Verdict is the outcome of a check that compares a demand with a capacity.
type Verdict uint8

// Verdicts. None is for findings that are no check.
const (
	None Verdict = iota
	Holds
	Near // ratio above [Close]
	Fails
	NotKnown
)

var verdictNames = [...]string{"", "holds", "near", "fails", "not known"}

func (v Verdict) String() string { return verdictNames[v] }

// Code names a kind of finding: kebab-case, stable, never used again for something else.
type Code string

// Finding is one thing to say about the job.
type Finding struct {
	Code     Code
	Severity Severity
	At       string // where, by ids: "case/trays/bay/2", "wall/back", "goods/quarts"; never an index into the file
	Text     string // one sentence with the numbers
	Hint     string // what to change, with the number to use where there is one
	Source   string // published source, or "common practice, no source"

	Verdict          Verdict
	Demand, Capacity float64 // in Unit; rounded to a stated step before they are compared or printed
	Unit             string
	Working          []string // the worked calculation, a line each, for those who ask
	Also             []string // further places of which the same is true, sorted: At is the first
	Shape            []Point  // the bent shape of a board, from one end to the other; nil where there is none
	Accepted         string   // why the job accepts it, "" when it does not
}

// Point is a place on a bent board: mm along it, and how far it has gone down there after years.
type Point struct{ Along, Down float64 }

// Close is the ratio above which what holds is near what it may be, whatever is compared: loads, distances, heights, counts.
const Close = 0.85

// Judge gives the verdict of a comparison by its ratio alone.
func (f Finding) Judge() Verdict {
	switch {
	case f.Demand > f.Capacity:
		return Fails
	case f.Ratio() > Close:
		return Near
	}
	return Holds
}

// Ratio gives demand over capacity, 0 when there is no capacity.
func (f Finding) Ratio() float64 {
	if f.Capacity == 0 {
		return 0
	}
	return f.Demand / f.Capacity
}

// List is a set of findings.
type List []Finding

// Add appends findings.
func (l *List) Add(f ...Finding) { *l = append(*l, f...) }

// Sort puts the worst first: by severity, then fails before not known before near, then
// by ratio, then by place, code and text, so that the order is always the same.
func (l List) Sort() {
	rank := map[Verdict]int{Fails: 0, NotKnown: 1, Near: 2, None: 3, Holds: 4}
	order.Stable(l, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.Severity, b.Severity),
			cmp.Compare(rank[a.Verdict], rank[b.Verdict]),
			cmp.Compare(b.Ratio(), a.Ratio()),
			strings.Compare(a.At, b.At),
			strings.Compare(string(a.Code), string(b.Code)),
			strings.Compare(a.Text, b.Text),
		)
	})
}

// Blocking reports whether the job must not be built as it stands.
func (l List) Blocking() bool {
	return slices.ContainsFunc(l, func(f Finding) bool { return f.Severity == Error })
}

// With gives the findings of one code.
func (l List) With(c Code) List {
	var r List
	for _, f := range l {
		if f.Code == c {
			r = append(r, f)
		}
	}
	return r
}

// Worst gives the n findings of checks with the greatest ratios, whatever their verdict, greatest
// first: the places where a job is nearest to its limits.
func (l List) Worst(n int) List {
	var r List
	for _, f := range l {
		if f.Verdict != None && f.Verdict != NotKnown && (f.Capacity > 0 || f.Verdict == Fails) {
			r = append(r, f)
		}
	}
	over := func(f Finding) float64 {
		if f.Capacity == 0 {
			return math.Inf(1)
		}
		return f.Ratio()
	}
	order.Stable(r, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(over(b), over(a)), strings.Compare(a.At, b.At), strings.Compare(string(a.Code), string(b.Code)))
	})
	return r[:min(n, len(r))]
}
