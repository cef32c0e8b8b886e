package job

import (
	"fmt"

	"stowright/internal/length"
	"stowright/internal/source"
)

// practiceRange is what a length of a practice can be: beyond is a slip of the keyboard. The ends are far outside
// any shop's rules (common practice, no source).
var practiceRange = []struct {
	key         string
	least, most L
}{
	{"joint-first", 5 * length.MM, 300 * length.MM},
	{"joint-pitch", 20 * length.MM, 1000 * length.MM},
	{"dado-depth", 0, 20 * length.MM},
	{"back-setback", 0, 100 * length.MM},
	{"stretcher-width", 20 * length.MM, 300 * length.MM},
	{"rail-width", 20 * length.MM, 300 * length.MM},
	{"front-gap", 0, 25 * length.MM},
	{"side-gap", 0, 25 * length.MM},
	{"top-gap", 0, 100 * length.MM},
	{"bottom-gap", 0, 100 * length.MM},
	{"door-air", 0, 25 * length.MM},
	{"least-margin", 0, 100 * length.MM},
	{"grid-pitch", 5 * length.MM, 300 * length.MM},
	{"grid-front", 0, 300 * length.MM},
	{"grid-ends", 0, 600 * length.MM},
	{"pin", 2 * length.MM, 20 * length.MM},
	{"pin-depth", 2 * length.MM, 30 * length.MM},
	{"shelf-end", 0, 20 * length.MM},
	{"box-under", 0, 100 * length.MM},
	{"box-over", 0, 100 * length.MM},
	{"trim", 0, 100 * length.MM},
	{"rough-allowance", 0, 100 * length.MM},
	{"gap-clearance", 0, 50 * length.MM},
	{"thread-in-stud", 5 * length.MM, 150 * length.MM},
	{"counter-overhang", -50 * length.MM, 500 * length.MM},
	{"counter-blocking", 50 * length.MM, 3000 * length.MM},
}

// practiceSizes reports lengths of the job's practice that no shop has, and tools without what they must say.
func (r *reader) practiceSizes() {
	n := r.tree.Get("practice")
	if n == nil || n.Kind != source.Map {
		return
	}
	for _, p := range practiceRange {
		at := n.Get(p.key)
		if at == nil {
			continue
		}
		if l, ok := r.length(at); ok && (l < p.least || l > p.most) {
			r.fail(at.Span, fmt.Sprintf("%s cannot be %s", p.key, r.exact(l)), fmt.Sprintf("it is between %s and %s", r.exact(p.least), r.exact(p.most)))
		}
	}
	for _, key := range [...]string{"bits", "hole-saws"} {
		for _, i := range itemsOf(n.Get(key)) {
			if l, ok := r.length(i); ok && (l <= 0 || l > 300*length.MM) {
				r.fail(i.Span, fmt.Sprintf("no bit is %s across", r.exact(l)), "write the diameter of the hole that it makes")
			}
		}
	}
	for _, t := range entries(n.Get("tools")) {
		if t.Value.Kind == source.Map && t.Value.Get("kind") == nil {
			r.fail(t.KeySpan, fmt.Sprintf("%s: \"kind\" is missing", short(t.Key)), "add kind: table-saw, or another of those that `stowright help practice` lists")
		}
		for _, k := range [...]string{"kerf", "rip"} {
			at := t.Value.Get(k)
			if at == nil {
				continue
			}
			if l, ok := r.length(at); ok && (l < 0 || k == "kerf" && l > 20*length.MM) {
				r.fail(at.Span, fmt.Sprintf("the %s of %s cannot be %s", k, short(t.Key), r.exact(l)), "write it like 1/8 in or 3 mm")
			}
		}
	}
}
