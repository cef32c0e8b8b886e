package job

import (
	"fmt"
	"slices"
	"strings"
)

// NeverAccepted lists the codes whose failure no job can accept: what hangs could come down, what
// stands could fall on somebody, and what is not there cannot be built.
func NeverAccepted() []string {
	return []string{"wall-fixing", "wall-studs", "rail-bending", "carcass-joint", "tip-over", "not-cut", "stick-too-short", "nothing-wanted"}
}

// accepted checks what the job accepts.
func (r *reader) accepted() {
	for _, a := range r.file.Accept {
		switch {
		case slices.Contains(NeverAccepted(), a.Finding):
			r.fail(a.At.Span, fmt.Sprintf("a finding %s cannot be accepted", a.Finding), "mend it: whatever hangs or could fall must hold, and no reason changes that")
		case a.Finding != "" && a.Because != "" && strings.TrimSpace(a.Because) == "":
			r.fail(a.At.Span, fmt.Sprintf("why %s is accepted is not said", a.Finding), "add because: with the reason")
		}
	}
}
