package place

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/length"
)

// topOf gives the upper edge of a run's cases that are seated already, in the frame of a wall,
// nil when none is.
func (l *layout) topOf(run string, w *Wall) *L {
	var top *L
	for i := range l.room.Seats {
		if s := &l.room.Seats[i]; s.Run == run && s.Kind == Case {
			if t := s.Top + l.wallOf(s.Wall).datumZ() - w.datumZ(); top == nil || t > *top {
				top = &t
			}
		}
	}
	return top
}

// aligned says which cases of a floor run miss the upper edge that they are to share: their
// heights are their own, so placing cannot mend it.
func (l *layout) aligned(n job.Named[job.Run], w *Wall) {
	want := l.topOf(n.Value.Align, w)
	if n.Value.Align == "" || want == nil || n.Value.Level == "wall" {
		return
	}
	for _, s := range l.room.Seats {
		if d := *want - s.Top; s.Run == n.ID && s.Kind == Case && d != 0 {
			how := "lower"
			if d < 0 {
				how = "higher"
			}
			l.found.Add(finding.Finding{Code: TopsDiffer, Severity: finding.Warning, Verdict: finding.Fails, At: "case/" + s.ID, Source: "arithmetic", Demand: mm(d.Abs()), Unit: "mm",
				Text: fmt.Sprintf("The top of %s is %s %s than that of run %s, which run %s is to share.", s.Name, l.in(d.Abs()), how, n.Value.Align, n.ID),
				Hint: fmt.Sprintf("Change its height by %s.", l.in(d.Abs()))})
		}
	}
}

// levels finds the level line of every run, and of every floor case that stands at a wall in no run. Those whose tops are
// aligned, that share a counter or a base, are set from one line, the highest that any of them needs.
func (l *layout) levels() {
	parent := map[string]string{}
	var root func(string) string
	root = func(a string) string {
		if p, ok := parent[a]; ok && p != a {
			return root(p)
		}
		return a
	}
	tie := func(a, b string) {
		if a, b = root(a), root(b); a != b {
			parent[b] = a
		}
	}
	runs := map[string]job.Run{}
	for _, n := range l.job.Runs {
		runs[n.ID] = n.Value
	}
	holder := map[string]string{}
	for _, n := range l.job.Runs {
		for _, e := range n.Value.Order {
			if e.Case != "" {
				holder[e.Case] = n.ID
			}
		}
	}
	for _, cc := range l.aloneAt() {
		holder[cc.ID] = cc.ID // cases and runs share one list of names
	}
	runOf := func(id string) string {
		if _, ok := runs[id]; ok {
			return id
		}
		return holder[id]
	}
	share := func(list []string) {
		first := ""
		for _, id := range list {
			if k := runOf(id); k != "" {
				if first == "" {
					first = k
				}
				tie(first, k)
			}
		}
	}
	for _, n := range l.job.Runs {
		if n.Value.Level != "wall" && n.Value.Align != "" && runs[n.Value.Align].Level != "wall" {
			tie(n.ID, n.Value.Align)
		}
	}
	over := map[string][]string{}
	for _, n := range l.job.Counters {
		share(n.Value.Over)
		over[n.ID] = n.Value.Over
	}
	for _, n := range l.job.Counters { // two that meet in a corner are at one height
		share(slices.Concat(n.Value.Over, over[n.Value.Butts]))
	}
	for _, n := range l.job.Bases {
		share(n.Value.Under)
	}
	// What a run steps over depends on its level, and its level on where it stands: twice is enough unless the
	// two chase each other, and then the last is taken.
	for range 3 {
		if !l.settleLevels(root) {
			return
		}
	}
}

// aloneAt gives the floor cases that stand at a stated place of a wall, in no run.
func (l *layout) aloneAt() []job.CheckedCase {
	var r []job.CheckedCase
	for _, cc := range l.job.Cases {
		if cc.Spec.Level != "wall" && cc.Case.At != nil && cc.Case.Rolls == "" && cc.Case.Gap == nil && l.wallOf(cc.Case.Wall) != &l.nowhere && !l.reserved(cc.ID) && !l.inRun(cc.ID) {
			r = append(r, cc)
		}
	}
	return r
}

// settleLevels finds the level lines with the runs as they lie, and reports whether that moved one that steps
// over something.
func (l *layout) settleLevels(root func(string) string) (again bool) {
	best := map[string]L{}
	for _, n := range l.job.Runs {
		r := n.Value
		w := l.wallOf(r.Wall)
		if r.Level == "wall" {
			continue
		}
		items := l.quiet(n.ID, r, w)
		if len(items) == 0 {
			continue
		}
		deep := L(0)
		for _, it := range items {
			if it.entry.Case != "" {
				deep = max(deep, *l.cases[it.entry.Case].Spec.Depth)
			}
		}
		lo, hi := items[0].x, items[len(items)-1].x+items[len(items)-1].wide
		high := w.High(max(lo, 0), max(min(hi, w.Length), 0), -deep, 0)
		for _, it := range items {
			if s := l.room.Seat(it.entry.Stand); it.entry.Stand != "" && s != nil {
				high = s.Level // a run that stands beside something goes by its line
			}
		}
		k := root(n.ID)
		high += w.datumZ() // walls that meet do not start at one height
		if old, ok := best[k]; !ok || high > old {
			best[k] = high
		}
	}
	alone := l.aloneAt()
	for _, cc := range alone {
		w := l.wallOf(cc.Case.Wall)
		high := w.datumZ() + w.High(max(0, *cc.Case.At), max(0, min(*cc.Case.At+*cc.Spec.Width, w.Length)), -*cc.Spec.Depth, 0)
		if old, ok := best[root(cc.ID)]; !ok || high > old {
			best[root(cc.ID)] = high
		}
	}
	for _, cc := range alone {
		l.level[cc.ID] = best[root(cc.ID)] - l.wallOf(cc.Case.Wall).datumZ()
	}
	for _, n := range l.job.Runs {
		if n.Value.Level != "wall" {
			was := l.level[n.ID]
			l.level[n.ID] = best[root(n.ID)] - l.wallOf(n.Value.Wall).datumZ()
			again = again || n.Value.Around && l.level[n.ID] != was
		}
	}
	return again
}

// sameLine is how much the level lines of two floor runs may differ and what hangs over both at one stated height still
// hangs in one line: a floor falls by no more between two benches, and a step in it is higher (common practice, no source).
const sameLine = 25 * length.MM

// inLine gives the line that heights of something hung are from: that of what hangs on the wall already where the two differ by
// no more than a floor falls and, from there, an upper or a lower edge is in one line with it; else its own.
func (l *layout) inLine(w *Wall, level, bottom, top L) L {
	for _, s := range l.room.At(w.ID) {
		if d := s.Level - level; s.Kind == Case && s.Hung && d != 0 && d.Abs() <= sameLine && (top+d == s.Top || bottom+d == s.Box.Min.Z) {
			return s.Level
		}
	}
	return level
}

// wallLevel gives the line that heights of wall cases are from: that of the floor run below,
// or the floor's high point there.
func (l *layout) wallLevel(w *Wall, lo, hi L) L {
	level, found := L(0), false
	for _, s := range l.room.At(w.ID) {
		if s.Kind == Case && !s.Hung && s.Box.Min.X < hi && s.Box.Max.X > lo && (!found || s.Level > level) {
			level, found = s.Level, true
		}
	}
	if !found {
		for _, s := range l.room.At(w.ID) {
			if s.Kind == Case && !s.Hung && (!found || s.Level > level) {
				level, found = s.Level, true
			}
		}
	}
	if found {
		return level
	}
	const usualDeep = 12 * length.Inch
	return w.High(max(0, min(lo, w.Length)), min(max(hi, 0), w.Length), -usualDeep, 0)
}
