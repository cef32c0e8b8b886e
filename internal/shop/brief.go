package shop

import (
	"regexp"
	"strings"

	"stowright/internal/part"
)

// counted is how a step names one of several racks of a door: which is the first is said once.
var counted = regexp.MustCompile(`([Rr]ack \d+), counted from below, of ([^:]*?\b[A-Z]\w*\.\w+\)?)`)

// mark is what a board's mark looks like.
var mark = regexp.MustCompile(`[A-Z]\w*\.\w+`)

// byMarks calls the boards of an owner by name and mark where its steps name them first, "left side (A.left)", and
// by their marks alone after that: the mark is written on the board.
func (w *maker) byMarks(list []Step, own []part.Part) {
	labels := map[string]*regexp.Regexp{} // of each board, by its whole name and by what it is called in its drawer
	for _, p := range own {
		short, _, _ := strings.Cut(p.Name, " of ")
		labels[p.Mark] = regexp.MustCompile(`\b(?:` + regexp.QuoteMeta(p.Name) + `|` + regexp.QuoteMeta(short) + `) \(` + regexp.QuoteMeta(p.Mark) + `\)`)
	}
	known := map[string]bool{}
	tell := func(text string) string {
		for _, p := range own {
			text = labels[p.Mark].ReplaceAllStringFunc(text, func(label string) string {
				if !known[p.Mark] {
					known[p.Mark] = true
					return label
				}
				return p.Mark
			})
		}
		return counted.ReplaceAllStringFunc(text, func(rack string) string {
			m := counted.FindStringSubmatch(rack)
			short := m[1] + " of " + m[2]
			if key := strings.ToLower(m[1]) + " of " + mark.FindString(m[2]); !known[key] {
				known[key] = true
				return rack
			}
			return short
		})
	}
	for i := range list {
		list[i].Text = tell(list[i].Text)
		for k, t := range list[i].Points {
			list[i].Points[k] = tell(t)
		}
	}
}
