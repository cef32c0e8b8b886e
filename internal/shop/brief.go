package shop

import (
	"strings"

	"stowright/internal/part"
)

// countedBelow is how a step goes on that names one of several racks of a door: which is the first is said once.
const countedBelow = ", counted from below, of "

// word reports whether a byte belongs to a word.
func word(c byte) bool {
	return c == '_' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

// firstMark gives where the first mark of a board begins and ends in a text, before a colon; false for none.
func firstMark(t string) (from, to int, ok bool) {
	run := func(i int) int {
		for i < len(t) && word(t[i]) {
			i++
		}
		return i
	}
	for i := 0; i < len(t) && t[i] != ':'; i++ {
		if t[i] < 'A' || t[i] > 'Z' || i > 0 && word(t[i-1]) {
			continue
		}
		if dot := run(i); dot+1 < len(t) && t[dot] == '.' && word(t[dot+1]) {
			return i, run(dot + 1), true
		}
	}
	return 0, 0, false
}

// byMarks calls the boards of an owner by name and mark where its steps name them first, "left side (A.left)", and
// by their marks alone after that: the mark is written on the board.
func (w *maker) byMarks(list []Step, own []part.Part) {
	known := map[string]bool{}
	boards := func(text string, p part.Part) string {
		short, _, _ := strings.Cut(p.Name, " of ")
		end := " (" + p.Mark + ")"
		out := ""
		for {
			at := strings.Index(text, end)
			if at < 0 {
				return out + text
			}
			from := at
			for _, name := range []string{p.Name, short} {
				if i := at - len(name); strings.HasSuffix(text[:at], name) && (i == 0 || !word(text[i-1])) {
					from = i
					break
				}
			}
			switch {
			case from < at && known[p.Mark]:
				out += text[:from] + p.Mark
			default:
				known[p.Mark] = known[p.Mark] || from < at
				out += text[:at+len(end)]
			}
			text = text[at+len(end):]
		}
	}
	racks := func(text string) string {
		out := ""
		for {
			at := strings.Index(text, countedBelow)
			if at < 0 {
				return out + text
			}
			i := at
			for i > 0 && text[i-1] >= '0' && text[i-1] <= '9' {
				i--
			}
			rest := text[at+len(countedBelow):]
			from, to, ok := firstMark(rest)
			if i == at || !strings.HasSuffix(text[:i], "ack ") || !ok {
				out, text = out+text[:at+len(countedBelow)], rest
				continue
			}
			key := text[i:at] + " of " + rest[from:to]
			if known[key] {
				out += text[:at] + " of "
			} else {
				known[key] = true
				out += text[:at+len(countedBelow)]
			}
			out, text = out+rest[:to], rest[to:]
		}
	}
	tell := func(text string) string {
		for _, p := range own {
			text = boards(text, p)
		}
		return racks(text)
	}
	for i := range list {
		list[i].Text = tell(list[i].Text)
		for k, t := range list[i].Points {
			list[i].Points[k] = tell(t)
		}
	}
}
