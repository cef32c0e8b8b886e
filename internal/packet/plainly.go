package packet

import (
	"reflect"
	"regexp"
	"strings"
	"sync"

	"stowright/internal/job"
)

// What is found is told with what to change in the job's file, in the words of that file. On paper it is told to somebody who
// has the paper alone: in plain words, and without what only the file takes.

// plainWords are what hints say in words of the file, and the same for a maker.
var plainWords = strings.NewReplacer(
	"Say people: {children: yes} or no.", "Find out whether they do; if so it wants a lock.",
	"Say people: {shortest: …}.", "Let the shortest who works here try it, before anything is cut.",
	"Write edge: {stick: ...}, without sides, to have all that show edged.", "Leave them so, or ask whoever drew this to have them edged: sizes change with it.",
	"Say back: applied, which is screwed on round its edges.", "Leave it so, or ask whoever drew this to have its back screwed on round its edges: sizes change with it.",
	"; or say back: applied, which is screwed on round its edges", "",
	"add it to the practice's bits or hole saws", "buy one: it is on the shopping list",
	"add it to the practice's bits", "buy one: it is on the shopping list",
	"Add it to the practice's bits", "Buy one: it is on the shopping list",
	"Give rating: of floor-angle and of what holds it to the floor: each must hold", "Ask their makers what the angles and what holds them to the floor carry: each must hold",
	"Give rating: to the slides under hardware:.", "Ask their maker what they carry.",
	"Give rating: to the foot or castor under hardware:.", "Ask its maker what it carries.",
	"Give rating: to the pin under hardware:.", "Ask its maker what it carries.",
	"Give weighs: to those goods, load: to the bays, and density of its material.", "Weigh them.",
	"Give weighs: to those goods, or load: to the bay.", "Weigh them.",
	"Give weighs: to those goods.", "Weigh them.",
	"; or list them under a case, a counter or a hook board", "",
	"Leave a space for them in a run, space:, list them under a bay, a counter or a hook board, or see", "See",
	"Leave out its own top line, or take it out of the family.", "Leave it so where it is meant.",
	"state another joint for the case, or leave it so", "leave it so, or ask whoever drew this for another joint",
	"Give anchor: {shear: …, tension: …, source: …} of the wall, as its maker publishes it for this masonry.", "Ask the anchor's maker what it holds in this wall before anything hangs on it.",
	"Measure the lining, at an outlet or in a hole, and say lining: {thickness: …}; 0 where there is none.", "Measure the lining at an outlet or in a hole, and take screws and anchors longer by as much.",
	"Measure it at an outlet or in a hole and say lining: {thickness: …}; thickness 0 where there is none.", "Measure it at an outlet or in a hole, and take anchors longer by as much.",
	"Measure it at an outlet or in a hole and say lining: {thickness: …}; thickness 0 where ", "Measure it at an outlet or in a hole, and take anchors longer by as much; none where ",
	", across: of the bay below", "",
	", across: of the bay", "",
)

// askFor is what to do where only the file helps.
const askFor = "ask whoever drew this set: it is changed there and printed again"

// jobKeys are the words of the job's file that stand before a colon.
var jobKeys = sync.OnceValue(func() map[string]bool {
	keys := map[string]bool{}
	seen := map[reflect.Type]bool{}
	var walk func(t reflect.Type)
	walk = func(t reflect.Type) {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map || t.Kind() == reflect.Array {
			t = t.Elem()
		}
		if t.Kind() != reflect.Struct || seen[t] {
			return
		}
		seen[t] = true
		for i := range t.NumField() {
			f := t.Field(i)
			if name, _, _ := strings.Cut(f.Tag.Get("job"), ","); name != "" && name != "-" {
				keys[name] = true
			}
			walk(f.Type)
		}
	}
	walk(reflect.TypeFor[job.File]())
	return keys
})

var (
	keyWord   = regexp.MustCompile(`[a-z][a-z-]*:`)
	keyBeside = regexp.MustCompile(`, ([a-z][a-z-]*):(,)`)      // "deeper, depth:, for slides"
	keyBefore = regexp.MustCompile(`, ([a-z][a-z-]*):( [0-9])`) // "no wider than 675 mm, width: 170 mm less"
)

// jobWord reports whether a text has a word of the job's file in it, with its colon, or a mapping.
func jobWord(text string) bool {
	if strings.Contains(text, "{") || strings.Contains(text, "--") {
		return true
	}
	for _, w := range keyWord.FindAllString(text, -1) {
		if w != "high:" && jobKeys()[strings.TrimSuffix(w, ":")] { // "too high: lower it"
			return true
		}
	}
	return false
}

// paperHint is a hint in plain words: what of it a reader can do who has only the paper; "" for nothing.
func paperHint(hint string) string {
	if before, rest, ok := strings.Cut(hint, " (--"); ok { // how the program is asked
		_, after, _ := strings.Cut(rest, ")")
		hint = before + after
	}
	hint = plainWords.Replace(hint)
	for _, r := range []*regexp.Regexp{keyBeside, keyBefore} {
		hint = r.ReplaceAllStringFunc(hint, func(m string) string {
			x := r.FindStringSubmatch(m)
			if !jobKeys()[x[1]] {
				return m
			}
			return "," + strings.TrimPrefix(x[2], ",")
		})
	}
	var out []string
	for _, s := range strings.SplitAfter(hint, ". ") {
		var kept []string
		for _, c := range strings.SplitAfter(s, "; ") {
			if !jobWord(c) {
				kept = append(kept, c)
			}
		}
		if len(kept) > 0 {
			out = append(out, strings.TrimSuffix(strings.TrimSpace(strings.Join(kept, "")), ";"))
		}
	}
	return strings.TrimSpace(strings.Join(out, " "))
}
