package papertest

import (
	"regexp"
	"strings"
)

var (
	ofEach = regexp.MustCompile(`– ((?:` + aMark + ` (?:` + relation + `) ` + aMark + `(?:, )?)+): (` + seats + `) of it`)
	oneOn  = regexp.MustCompile(`(` + aMark + `) (` + relation + `) (` + aMark + `)`)
	beside = regexp.MustCompile(`– (` + aMark + `) on the (left|right) of (` + aMark + `): (` + seats + `) of (` + aMark + `)(?:, its pockets to the (?:front|rear))?`)
	asOn   = regexp.MustCompile(`– They lie on (` + aMark + `) as on (` + aMark + `)`)
)

// full writes out what a step says of several boards together: those that sit alike on the boards that each lies
// against, and those that lie on one side as on another.
func (b *build) full(text string) string {
	for _, m := range beside.FindAllStringSubmatch(text, -1) { // it has play between the two that it lies between
		b.loose[m[1]] = true
	}
	text = beside.ReplaceAllString(text, "– $1 against the $2 of $3: $4 of $5")
	text = ofEach.ReplaceAllStringFunc(text, func(s string) string {
		m := ofEach.FindStringSubmatch(s)
		var out []string
		for _, x := range oneOn.FindAllStringSubmatch(m[1], -1) {
			out = append(out, "– "+x[1]+" "+x[2]+" "+x[3]+": "+m[2]+" of "+x[3])
		}
		return strings.Join(out, " ")
	})
	text = asOn.ReplaceAllStringFunc(text, func(s string) string {
		m := asOn.FindStringSubmatch(s)
		return strings.ReplaceAll(b.onIt[m[2]], m[2], m[1])
	})
	for _, m := range point.FindAllStringSubmatch(strings.ReplaceAll(text, " – ", " –  – "), -1) {
		if ref := marksIn(m[5]); len(ref) == 1 {
			b.onIt[ref[0]] = strings.TrimSpace(b.onIt[ref[0]] + " – " + m[1] + ": " + m[4] + " of " + ref[0])
		}
	}
	return text
}
