package place

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
)

// item is one entry of a run: so wide, and at x when that is fixed or found.
type item struct {
	entry job.Entry
	wide  L // end panels included
	pre   L // end panel on its left
	x     L
	fixed bool
}

// items gives the width of every entry, and for standing ones their fixed place.
func (l *layout) items(r job.Run) []item {
	var list []item
	for _, e := range r.Order {
		it := item{entry: e}
		switch {
		case e.Case != "":
			spec := l.cases[e.Case].Spec
			it.pre = l.job.EndPanel(spec, "left")
			it.wide = it.pre + *spec.Width + l.job.EndPanel(spec, "right")
		case e.Space != nil:
			it.wide = *e.Space
		case e.Knee != nil:
			it.wide = e.Knee.Width
		case e.Stand != "":
			if s := l.room.Seat(e.Stand); s != nil {
				it.wide, it.x, it.fixed = s.Box.Max.X-s.Box.Min.X, s.Box.Min.X, true
			}
		case e.Machine != "":
			if m, ok := l.machine(e.Machine); ok {
				it.wide = m.Width
				if m.SwingWidth != nil {
					it.wide = max(it.wide, *m.SwingWidth)
				}
			}
		}
		list = append(list, it)
	}
	return list
}

func (l *layout) machine(id string) (job.Machine, bool) {
	for _, m := range l.job.Machines {
		if m.ID == id {
			return m.Value, true
		}
	}
	return job.Machine{}, false
}

// lay gives every entry of a run its x. Exactly: neighbours touch, whatever the widths.
func (l *layout) lay(id string, r job.Run, w *Wall) []item {
	items := l.items(r)
	total := L(0)
	for _, it := range items {
		total += it.wide
	}
	start := L(0)
	if r.Start != nil {
		start = *r.Start
	} else if r.Fill != "" && r.Fill != "none" && r.Filler != nil && (r.Fill == "both" || r.Fill == r.From) {
		start = *r.Filler
	}
	x := start
	limit := w.Length
	from := r.From
	if w == &l.nowhere && from != "between" {
		from = "left"
	}
	switch from {
	case "right":
		x = w.Length - start - total
		if r.Fill == "both" && r.Start == nil {
			x = (w.Length - total) / 2
		}
	case "left", "":
		if r.Fill == "both" && r.Start == nil && w != &l.nowhere {
			x = (w.Length - total) / 2
		}
	case "centre":
		mid := w.Length / 2
		if r.Start != nil {
			mid = *r.Start
		}
		x = mid - total/2
	case "between":
		if r.To != nil {
			limit = *r.To
		}
		if r.Fill == "both" {
			x = start + max(0, limit-start-total)/2
		} else if r.Fill == "left" {
			x = max(start, limit-total)
		}
	}
	anchored := false
	for i, it := range items {
		if it.fixed {
			anchored = true
			at := it.x
			for k := i - 1; k >= 0 && !items[k].fixed; k-- {
				at -= items[k].wide
				if i == firstFixed(items) {
					items[k].x = at
				}
			}
		}
	}
	if anchored {
		first := firstFixed(items)
		at := items[first].x
		for i := first; i < len(items); i++ {
			if items[i].fixed {
				if i > first && items[i].x != at {
					l.slack(id, w, items[i].entry.Stand, items[i].x-at)
				}
				at = items[i].x + items[i].wide
				continue
			}
			items[i].x = at
			at += items[i].wide
		}
		lo, hi := items[0].x, items[len(items)-1].x+items[len(items)-1].wide
		wanted, got := x, lo
		switch from {
		case "right":
			wanted, got = w.Length-start, hi
		case "centre":
			wanted, got = x+total/2, (lo+hi)/2
		}
		if r.Start != nil && (got-wanted).Abs() > l.job.Print.Step() {
			end := map[string]string{"right": "ends", "centre": "has its middle"}[from]
			l.found.Add(finding.Finding{Code: RunStart, Severity: finding.Warning, At: "run/" + id, Source: "arithmetic",
				Text:   fmt.Sprintf("Run %s %s at %s, not at %s as its start says: what stands in it already holds it there.", id, cmp.Or(end, "starts"), l.in(got), l.in(wanted)),
				Hint:   "Leave start out, or change the widths before what stands there, or where that is.",
				Demand: mm(wanted), Capacity: mm(got), Unit: "mm"})
		}
	} else if r.Around && r.From == "right" {
		at := x + total
		for i := len(items) - 1; i >= 0; i-- {
			if items[i].entry.Case != "" {
				at = l.around(w, r, items[i], at, -1)
			}
			at -= items[i].wide
			items[i].x = at
		}
	} else {
		at := x
		for i := range items {
			if r.Around && items[i].entry.Case != "" {
				at = l.around(w, r, items[i], at, +1)
			}
			items[i].x = at
			at += items[i].wide
		}
	}
	if len(items) > 0 {
		lo, hi := items[0].x, items[len(items)-1].x+items[len(items)-1].wide
		if lo < 0 || hi > limit {
			over := max(-lo, 0) + max(hi-limit, 0)
			end := "the wall, " + l.in(w.Length) + " long"
			if r.From == "between" {
				end = "its place, which ends at " + l.in(limit)
			}
			l.found.Add(finding.Finding{Code: RunTooLong, Severity: finding.Error, At: "run/" + id,
				Text:     fmt.Sprintf("Run %s reaches from %s to %s and passes %s by %s.", id, l.in(lo), l.in(hi), end, l.in(over)),
				Hint:     fmt.Sprintf("Take %s out of its widths, or start it elsewhere.", l.in(over)),
				Source:   "arithmetic",
				Verdict:  finding.Fails,
				Demand:   mm(hi - lo),
				Capacity: mm(hi - lo - over), Unit: "mm"})
		}
	}
	return items
}

func firstFixed(items []item) int {
	for i, it := range items {
		if it.fixed {
			return i
		}
	}
	return -1
}

func (l *layout) slack(run string, w *Wall, before string, gap L) {
	f := finding.Finding{Code: RunGap, Severity: finding.Note, At: "run/" + run, Source: "arithmetic",
		Text: fmt.Sprintf("Run %s leaves %s free before %s.", run, l.in(gap), before), Hint: "Fill it, or widen a case by as much."}
	if gap < 0 {
		f.Severity, f.Verdict = finding.Error, finding.Fails
		f.Text = fmt.Sprintf("The cases of run %s before %s are %s wider than the gap there.", run, before, l.in(-gap))
		f.Hint = fmt.Sprintf("Take %s out of their widths.", l.in(-gap))
	}
	l.found.Add(f)
}

// around moves a case along until it meets no keep-clear space and no opening; dir is the way
// the run is laid. at is the side it starts from.
func (l *layout) around(w *Wall, r job.Run, it item, at L, dir L) L {
	spec := l.cases[it.entry.Case].Spec
	bottom, top := l.heights(w, r, it.entry.Case, spec.Height)
	for range 1000 {
		lo, hi := at, at+it.wide
		if dir < 0 {
			lo, hi = at-it.wide, at
		}
		b := geom.B(lo, -*spec.Depth, bottom, hi, 0, top)
		moved := false
		step := func(from, to L) {
			if lo < to && hi > from {
				moved = true
				if dir > 0 {
					at = max(at, to)
				} else {
					at = min(at, from)
				}
			}
		}
		for _, z := range w.Clear {
			if z.Known && !z.MayCut && z.Space.Meets(b) {
				step(z.Space.Min.X, z.Space.Max.X)
			}
		}
		for _, o := range w.Openings {
			if b.Min.Z < o.Box.Max.Z && b.Max.Z > o.Box.Min.Z {
				step(o.cover())
			}
		}
		if !moved || at > w.Length || at < 0 {
			return at
		}
	}
	return at
}

// cover gives the stretch of wall that an opening and its casing take.
func (o Opening) cover() (L, L) { return o.Box.Min.X - o.Casing, o.Box.Max.X + o.Casing }

// heights gives the lower and upper edge of a case in a run.
func (l *layout) heights(w *Wall, r job.Run, id string, height *L) (bottom, top L) {
	level := l.level[keyOf(l.job.Runs, r)]
	fam := l.family(l.cases[id].Family)
	if r.Level != "wall" {
		return level, level + *height
	}
	switch {
	case r.Align != "" && l.topOf(r.Align, w) != nil:
		top = *l.topOf(r.Align, w)
	case r.Top != nil:
		top = level + *r.Top
	case r.Bottom != nil:
		top = level + *r.Bottom + *height
	case l.cases[id].Case.Up != nil:
		top = level + *l.cases[id].Case.Up + *height
	case fam.WallTop != nil:
		top = level + *fam.WallTop
	default:
		top = level + usualWallBottom + *height
	}
	return top - *height, top
}

// usualWallBottom is where wall cases hang when nothing says how high: 54 in, that is 18 in
// above a counter of 36 in (common practice, no source).
const usualWallBottom = 54 * length.Inch

func keyOf(runs []job.Named[job.Run], r job.Run) string {
	for _, n := range runs {
		if len(n.Value.Order) > 0 && len(r.Order) > 0 && &n.Value.Order[0] == &r.Order[0] {
			return n.ID
		}
	}
	return ""
}

func (l *layout) family(id string) job.Family {
	f, _ := l.job.Shared(job.CheckedCase{Family: id})
	return f
}

// quiet lays a run out without saying anything.
func (l *layout) quiet(id string, r job.Run, w *Wall) []item {
	before := len(l.found)
	items := l.lay(id, r, w)
	l.found = l.found[:before]
	return items
}

// runs seats the cases of every run of one level; aligned ones after those they align with.
func (l *layout) runs(level string) {
	left := len(l.job.Runs)
	for left > 0 {
		moved := false
		for _, n := range l.job.Runs {
			if l.lines[n.ID] || (n.Value.Level == "wall") != (level == "wall") {
				continue
			}
			other := n.Value.Align
			if other != "" && other != n.ID && !l.lines[other] && l.sameLevel(other, level) {
				continue
			}
			l.run(n)
			l.lines[n.ID], moved = true, true
		}
		if !moved {
			break
		}
	}
	for _, n := range l.job.Runs { // runs that align with each other in a ring
		if !l.lines[n.ID] && (n.Value.Level == "wall") == (level == "wall") {
			l.lines[n.ID] = true
			l.run(n)
		}
	}
}

func (l *layout) sameLevel(run, level string) bool {
	for _, n := range l.job.Runs {
		if n.ID == run {
			return (n.Value.Level == "wall") == (level == "wall")
		}
	}
	return false
}

func (l *layout) run(n job.Named[job.Run]) {
	r := n.Value
	w := l.wallOf(r.Wall)
	if r.Level == "wall" {
		l.level[n.ID] = l.wallLevel(w, 0, w.Length)
	}
	items := l.quiet(n.ID, r, w)
	if r.Level != "wall" || !r.Around {
		items = l.lay(n.ID, r, w)
	}
	if len(items) == 0 {
		return
	}
	lo, hi := items[0].x, items[len(items)-1].x+items[len(items)-1].wide
	if r.Level == "wall" {
		l.level[n.ID] = l.wallLevel(w, lo, hi)
		if r.Around { // what it steps over depends on how high it hangs
			items = l.lay(n.ID, r, w)
			lo, hi = items[0].x, items[len(items)-1].x+items[len(items)-1].wide
		}
	}
	bottoms, tops := Far, l.level[n.ID]
	reach := func() {
		bottoms, tops = Far, l.level[n.ID]
		for _, it := range items {
			if it.entry.Case != "" {
				b, t := l.heights(w, r, it.entry.Case, l.cases[it.entry.Case].Spec.Height)
				bottoms, tops = min(bottoms, b), max(tops, t)
			}
		}
	}
	if reach(); r.Level == "wall" {
		l.level[n.ID] = l.inLine(w, l.level[n.ID], bottoms, tops)
		reach()
	}
	level := l.level[n.ID]
	rear := l.rear(w, lo, hi, bottoms, tops, n)
	for _, it := range items {
		e := it.entry
		switch {
		case e.Case != "":
			cc := l.cases[e.Case]
			spec := cc.Spec
			if cc.Case.Gap != nil {
				continue
			}
			bottom, top := l.heights(w, r, e.Case, spec.Height)
			l.seat(cc, w, n.ID, cmp.Or(cc.Case.Stage, r.Stage), it.x+it.pre, rear, level, bottom, top, spec.Level == "wall" || r.Level == "wall")
			if e.Machine != "" {
				if m, ok := l.machine(e.Machine); ok {
					mid := it.x + it.wide/2
					l.machines = append(l.machines, waiting{e.Machine, n.ID, w.ID, e.Case, mid - m.Width/2, mid - m.Width/2 + m.Width})
				}
			}
		case e.Knee != nil:
			l.knees = append(l.knees, Knee{Run: n.ID, From: it.x, To: it.x + it.wide, Want: *e.Knee})
		case e.Machine != "":
			l.machines = append(l.machines, waiting{e.Machine, n.ID, w.ID, "", it.x, it.x + it.wide})
		}
	}
	l.aligned(n, w)
	l.ends = append(l.ends, end{n, w, lo, hi, rear, level})
}

// rear gives the back plane of a run: upright, and clear of the wall where it stands out most.
// It is rounded to the finest mark on the job's tape, away from the wall. Runs of one level
// on one wall share the plane of the one that needs to stand out most, so that their fronts
// are in line.
func (l *layout) rear(w *Wall, lo, hi, bottom, top L, n job.Named[job.Run]) L {
	y := w.Proudest(max(0, lo), min(max(hi, 0), w.Length), bottom, top)
	if n.Value.Off != nil {
		y = min(y, -*n.Value.Off)
	}
	for _, o := range l.job.Runs {
		if ow := l.wallOf(o.Value.Wall); o.ID == n.ID || ow.ID != w.ID || (o.Value.Level == "wall") != (n.Value.Level == "wall") {
			continue
		}
		items := l.quiet(o.ID, o.Value, w)
		if len(items) == 0 {
			continue
		}
		a, b := items[0].x, items[len(items)-1].x+items[len(items)-1].wide
		y = min(y, w.Proudest(max(0, a), min(max(b, 0), w.Length), bottom, top))
		if o.Value.Off != nil {
			y = min(y, -*o.Value.Off)
		}
	}
	return y.Down(l.job.Print.Step())
}

// seat places one case.
func (l *layout) seat(cc job.CheckedCase, w *Wall, run, stage string, x, rear, level, bottom, top L, hung bool) {
	spec := cc.Spec
	l.add(Seat{ID: cc.ID, Kind: Case, Name: cmp.Or(spec.Name, cc.ID), Wall: w.ID, Run: run, Stage: stage,
		Box:   geom.B(x, rear-*spec.Depth, bottom, x+*spec.Width, rear, top),
		Level: level, Top: top, Rear: rear, Hung: hung, Spec: spec,
		Moves: spec.Loose != "" && spec.Loose != "no"})
}

func mm(v L) float64 { return float64(v) / float64(length.MM) }
