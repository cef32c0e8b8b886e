package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/strength"
)

// AcceptsNothing: the job accepts a finding that there is not. Example: a shelf that was mended
// since.
const AcceptsNothing finding.Code = "accepts-nothing"

// unadvised says what to do about what must not be built so where no one change that was tried is enough: advice without a
// number, for the words of each are those of the whole.
func (r *Result) unadvised() {
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Severity != finding.Error || f.Hint != "" {
			continue
		}
		switch f.Code {
		case strength.TipOver:
			f.Hint = "No one change that was tried is enough: it takes more than one of screws that reach studs, less in what comes out, and a deeper case."
		case strength.WallStuds:
			f.Hint = "No ledger that was tried is enough: move it to where its rails cross two studs, or make it wider."
		default:
			f.Hint = "No one change that was tried is enough."
		}
	}
}

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
