package packet

import (
	"maps"
	"slices"
)

// closer are the ways in which text is set closer, the least close first: from line to line in mm, and whether the sources run
// on without a line each. Capitals stay as high as they are.
var closer = []struct {
	lead  float64
	runOn bool
}{{3.85, false}, {3.7, false}, {3.6, false}, {3.6, true}}

// saves is the most of a sheet that the closest way saves on each.
const saves = 0.17

// squeeze sets chapters, and when so little of them stands on their last sheet that closer lines may save it, sets them as
// close as that takes.
func (b *book) squeeze(set func()) {
	back, first := b.remember(), len(b.pages)
	set()
	n := len(b.pages)
	if used := b.flow.Used(); n == first || used > saves*float64(n-first) {
		return
	}
	try := func(i int) bool {
		back()
		b.flow.Lead, b.runOn = closer[i].lead, closer[i].runOn
		set()
		b.flow.Lead, b.runOn = 0, false
		return len(b.pages) < n
	}
	if !try(len(closer) - 1) {
		back()
		set()
		return
	}
	fewest := len(b.pages)
	for i := range closer {
		if try(i) && len(b.pages) == fewest {
			return
		}
	}
}

// remember gives what puts a book back to where it stands.
func (b *book) remember() (back func()) {
	flow, pages, entries, sources, told, drawn := *b.flow, len(b.pages), len(b.entries), len(b.sources), maps.Clone(b.told), maps.Clone(b.drawn)
	title, kind := b.title, b.kind
	var last page
	items := 0
	if pages > 0 {
		last = b.pages[pages-1]
		items = len(last.sheet.Items)
	}
	return func() {
		*b.flow = flow
		b.pages, b.entries, b.sources = b.pages[:pages], b.entries[:entries], b.sources[:sources]
		b.told, b.drawn, b.title, b.kind = maps.Clone(told), maps.Clone(drawn), title, kind
		if pages > 0 {
			b.pages[pages-1] = last
			last.sheet.Items = slices.Clip(last.sheet.Items[:items])
		}
	}
}
