package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/job"
)

// AcceptsNothing: the job accepts a finding that there is not. Example: a shelf that was mended
// since.
const AcceptsNothing finding.Code = "accepts-nothing"

// accept turns what the job accepts into notes that say why; they stay failures and keep their
// numbers. What hangs or could fall cannot be accepted: the job is refused where it tries.
func (r *Result) accept() {
	for _, a := range r.Job.File.Accept {
		found := false
		for i := range r.Findings {
			f := &r.Findings[i]
			if string(f.Code) != a.Finding || !covers(a.Place, *f) || slices.Contains(job.NeverAccepted(), a.Finding) {
				continue
			}
			found = true
			f.Severity, f.Accepted = finding.Note, a.Because
		}
		if !found {
			r.Findings.Add(finding.Finding{Code: AcceptsNothing, Severity: finding.Warning, At: cmp.Or(a.Place, "job"), Source: "the job",
				Text: fmt.Sprintf("The job accepts %s at %s, and there is no such finding.", a.Finding, a.Place), Hint: "Take it out of accept:, or write the code and the place as the check prints them."})
		}
	}
}

// covers says that a place is a finding's, or holds it with all other places where it is true.
func covers(place string, f finding.Finding) bool {
	in := func(at string) bool { return at == place || strings.HasPrefix(at, place+"/") }
	return in(f.At) && !slices.ContainsFunc(f.Also, func(at string) bool { return !in(at) })
}
