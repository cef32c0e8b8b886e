package packet

import (
	"maps"
	"slices"
)

// emptyish is the share of a sheet under which its last lines are drawn back to the sheets before it, where those have
// room for them by closer lines.
const emptyish = 0.5

// closer are the ways in which text is set closer, the least close first: from line to line in mm, and whether the sources run
// on without a line each.
var closer = []struct {
	lead  float64
	runOn bool
}{{3.85, false}, {3.7, false}, {3.7, true}}

// squeeze sets chapters, and when little of them stands on their last sheet sets them closer, as far as that saves the sheet.
func (b *book) squeeze(set func()) {
	back := b.remember()
	set()
	n := len(b.pages)
	if used := b.flow.Used(); used == 0 || used > emptyish {
		return
	}
	defer func() { b.flow.Lead, b.runOn = 0, false }()
	for _, c := range closer {
		back()
		b.flow.Lead, b.runOn = c.lead, c.runOn
		if set(); len(b.pages) < n {
			return
		}
	}
	back()
	b.flow.Lead, b.runOn = 0, false
	set()
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
