package shop

import (
	"fmt"
	"slices"
	"strings"
)

// What every screw into a wall asks for, its holes and its packing, stands in a step of its own before the others
// that drive such screws, and they refer to it.

// rule is a sentence that several steps may say: about what, and the sentence.
type rule struct{ about, text string }

// referred stands for the number of the step that says the rules.
const referred = "\x01"

// rule keeps a sentence that other steps may say too, and gives it with the blank before it.
func (s *steps) rule(about, text string) string {
	if r := (rule{about, text}); !slices.Contains(s.rules, r) {
		s.rules = append(s.rules, r)
	}
	return " " + text
}

// rulesOnce puts those sentences that more than one step from one on would say into a step before them: of those about
// the same the one that is said most. The others stay where they are.
func (s *steps) rulesOnce(from int) {
	uses := func(r rule) (n int) {
		for _, st := range s.list[from:] {
			if strings.Contains(st.Text, " "+r.text) {
				n++
			}
		}
		return n
	}
	var said []rule
	for _, r := range s.rules {
		i := slices.IndexFunc(said, func(o rule) bool { return o.about == r.about })
		switch n := uses(r); {
		case n < 2:
		case i < 0:
			said = append(said, r)
		case n > uses(said[i]):
			said[i] = r
		}
	}
	if len(said) == 0 {
		return
	}
	first := Step{Phase: Install, Caution: wall, Text: "How a screw goes into the wall, for all steps that refer to this one."}
	for _, r := range said {
		first.Points = append(first.Points, strings.TrimSuffix(r.text, "."))
	}
	var tools []string
	for i := from; i < len(s.list); i++ {
		st := &s.list[i]
		at, packs, bores := -1, false, false
		for _, r := range said {
			k := strings.Index(st.Text, " "+r.text)
			if k < 0 {
				continue
			}
			if st.Text = st.Text[:k] + st.Text[k+1+len(r.text):]; at < 0 || k < at {
				at = k
			}
			pack := r.about == "packing"
			packs, bores = packs || pack, bores || !pack
		}
		if at < 0 {
			continue
		}
		how := map[[2]bool]string{{true, true}: "Bore and pack", {true, false}: "Bore", {false, true}: "Pack"}[[2]bool{bores, packs}]
		st.Text = fmt.Sprintf("%s %s as step %s says.%s", st.Text[:at], how, referred, st.Text[at:])
		for _, t := range strings.Split(st.Tool, ", ") {
			if !slices.Contains(tools, t) {
				tools = append(tools, t)
			}
		}
	}
	first.Tool = strings.Join(tools, ", ")
	s.list = slices.Insert(s.list, from, first)
}

// refer puts the number of the step that says the rules into those that refer to it.
func (s *steps) refer() {
	no := 0
	for _, st := range s.list {
		if strings.HasPrefix(st.Text, "How a screw goes into the wall, ") {
			no = st.N
		}
	}
	for i := range s.list {
		s.list[i].Text = strings.ReplaceAll(s.list[i].Text, referred, fmt.Sprint(no))
	}
}
