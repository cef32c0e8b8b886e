package job

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/schema"
	"stowright/internal/source"
)

// runs checks that every case is in one place, and that every run can be laid as it says.
func (r *reader) runs() {
	in := map[string]source.Span{}
	for _, e := range entries(r.tree.Get("runs")) {
		run, _ := r.file.Runs.Get(e.Key)
		r.run(e, run)
		order := e.Value.Get("order")
		for _, i := range itemsOf(order) {
			c := i.Get("case")
			if i.Kind != source.Map || c == nil {
				continue
			}
			if was, twice := in[text(c)]; twice {
				r.problems.Add(source.Problem{Span: c.Span, Text: fmt.Sprintf("the case %q is in a run already", short(text(c))), Hint: "make a second case from the same pattern",
					Also: []source.Also{{Span: was, Text: "it is here"}}})
			}
			in[text(c)] = c.Span
		}
		if len(r.file.Walls) > 1 && e.Value.Get("wall") == nil {
			r.fail(e.KeySpan, "there are several walls, and this run does not say on which it is", "add wall: "+r.file.Walls[0].Key)
		}
	}
	if len(r.file.Walls) == 0 {
		if n := r.own.Get("runs"); n != nil && len(n.Entries) > 0 {
			r.fail(n.Entries[0].KeySpan, "a run stands along a wall, and the job has none", "survey the wall under walls, or leave the run out")
		}
	}
	for i := range r.file.Cases {
		c := &r.file.Cases[i]
		m := r.cases[i]
		_, inRun := in[c.Key]
		v := c.Value
		if m.tree == nil || m.tree.Kind != source.Map {
			continue
		}
		switch {
		case inRun && (v.At != nil || v.Gap != nil):
			r.fail(c.At.Span, fmt.Sprintf("%s is in a run, and says where it is too", c.Key), "keep one of the two")
		case len(r.file.Walls) > 0 && !inRun && v.At == nil && v.Gap == nil && v.Rolls == "" && v.Loose != "standing" && !r.reserved(c.Key) && !spoiltGap(m):
			r.fail(c.At.Span, fmt.Sprintf("where %s is to stand is not stated", c.Key), "put it in the order of a run, or write wall and at, or wall and in-gap with what stands left and right of it")
		}
		r.caseKeys(c.Key, v)
	}
}

// mostOff is how far a run may stand off its wall: screws reach no further.
const mostOff = 12 * length.Inch

// keysOf are what an entry of a run may be.
var keysOf = [...]string{"case", "space", "knee", "standing", "machine"}

// run checks one run: entries, and that what it says of its height and ends is of its kind.
func (r *reader) run(e source.Entry, run Run) {
	order := e.Value.Get("order")
	if order != nil && order.Kind == source.List && len(order.Items) == 0 {
		r.fail(order.Span, "this run holds nothing", "list its cases from left to right: order: [{case: ...}]")
	}
	level := run.Level
	if level == "" {
		level = "floor"
	}
	for _, i := range itemsOf(order) {
		if i.Kind != source.Map {
			continue
		}
		var has []string
		for _, k := range keysOf {
			if i.Get(k) != nil {
				has = append(has, k)
			}
		}
		switch {
		case len(i.Entries) == 0:
			r.fail(i.Span, "this place in the run is empty", "write case, space, knee, standing or machine")
		case len(has) > 1 && strings.Join(has, " ") != "case machine":
			r.fail(i.Span, fmt.Sprintf("this place in the run is %s at once", strings.Join(has, " and ")), "give each a place of its own; only a machine may stand over a case")
		}
		if s, bad := r.nothing(i.Get("space")); bad {
			r.fail(s, "a space is wider than nothing", "to move the run, change its start; cases cannot overlap")
		}
		for _, k := range [...]string{"width", "height", "depth"} {
			if s, bad := r.nothing(i.Get("knee").Get(k)); bad {
				r.fail(s, "a knee space is larger than nothing", "write the clear "+k+" that is wanted")
			}
		}
		if c := i.Get("case"); c != nil {
			for _, m := range r.cases {
				if m.id != text(c) || m.tree == nil {
					continue
				}
				of := m.value.Level
				if of == "" {
					of = "floor"
				}
				if of != level && e.Value.Get("level") == nil || of != level && text(e.Value.Get("level")) == level {
					r.fail(c.Span, fmt.Sprintf("%s is a %s case, and %s is a run at %s level", short(m.id), of, short(e.Key), level), fmt.Sprintf("write level: %s of the case, or list it in a run at %s level", level, of))
				}
			}
		}
	}
	if level == "floor" {
		for _, k := range [...]string{"top-line", "bottom-line"} {
			if n := e.Value.Get(k); n != nil {
				r.fail(n.Span, fmt.Sprintf("%s is of runs at wall level; %s stands on the floor, and its cases are as high as they say", k, short(e.Key)), "change the height of its cases, or write level: wall")
			}
		}
	}
	var lines []string
	for _, k := range [...]string{"align-tops-with", "top-line", "bottom-line"} {
		if e.Value.Get(k) != nil && level == "wall" {
			lines = append(lines, k)
		}
	}
	if len(lines) > 1 {
		r.fail(e.Value.Get(lines[1]).Span, fmt.Sprintf("the height of run %s is said in more than one way: %s", short(e.Key), strings.Join(lines, " and ")), "keep one of them")
	}
	seen := []string{e.Key}
	for at := run.Align; at != ""; {
		if at == e.Key {
			r.fail(e.Value.Get("align-tops-with").Span, fmt.Sprintf("runs align with each other in a ring: %s", strings.Join(append(seen, at), ", ")), "give one of them a top-line or a bottom-line instead")
			break
		}
		if slices.Contains(seen, at) {
			break // the ring is of others
		}
		seen = append(seen, at)
		next, _ := r.file.Runs.Get(at)
		at = next.Align
	}
	if n := e.Value.Get("off-wall"); n != nil && run.Off != nil && (*run.Off < 0 || *run.Off > mostOff) {
		r.fail(n.Span, fmt.Sprintf("a run cannot stand %s off its wall", r.exact(*run.Off)), r.between(0, 12*length.Inch))
	}
	if n := e.Value.Get("to"); n != nil && run.From != "between" {
		r.fail(n.Span, "to is of a run between two places", "write from: between, or leave it out")
	}
	if run.From == "between" && run.Start != nil && run.To != nil && *run.Start >= *run.To && e.Value.Get("to") != nil {
		r.fail(e.Value.Get("to").Span, "the run ends left of where it starts", "exchange start and to")
	}
}

// nothing reports whether a value reads as a length that is not more than 0, and where it is.
func (r *reader) nothing(n *source.Node) (source.Span, bool) {
	if n == nil {
		return source.Span{}, false
	}
	l, ok := r.length(n)
	return n.Span, ok && l <= 0
}

// length reads a value as a length of the job, without reporting what it is not.
func (r *reader) length(n *source.Node) (l L, ok bool) {
	ok = len(schema.Decode(n, &l, r.options)) == 0
	return l, ok
}

// caseKeys reports what a case says of itself that is not of its kind, so that nothing is read past.
func (r *reader) caseKeys(id string, v Case) {
	own := r.own.Get("cases").Get(id)
	hung := v.Level == "wall"
	if n := own.Get("stands-on"); n != nil && hung {
		r.fail(n.Span, fmt.Sprintf("%s hangs on the wall and stands on nothing", short(id)), "leave stands-on out, or level: wall")
	}
	if n := own.Get("up"); n != nil && !hung {
		r.fail(n.Span, fmt.Sprintf("%s stands on the floor", short(id)), "write level: wall to hang it, or leave up out")
	}
	if w, s := own.Get("width"), own.Get("steps"); w != nil && s != nil {
		r.fail(s.Span, fmt.Sprintf("the width of %s is said in two ways", short(id)), "keep width or steps")
	}
	g := v.Gap
	if g == nil {
		return
	}
	gn := own.Get("in-gap")
	if w := gn.Get("widths"); w != nil && w.Kind == source.List && len(w.Items) == 0 {
		r.fail(w.Span, "no width of the gap is measured", "measure it at the floor, higher up and in front: widths: [36 in, 35 7/8 in]")
	}
	for i, l := range g.Widths {
		if at := nth(gn.Get("widths"), i); at != nil && l <= 0 {
			r.fail(at.Span, "a gap is wider than nothing", "measure it between the two sides")
		}
	}
	a, okA := r.file.Standing.Get(g.Left)
	b, okB := r.file.Standing.Get(g.Right)
	switch {
	case g.Left == g.Right && gn.Get("right") != nil:
		r.fail(gn.Get("right").Span, "a gap is between two", "name the neighbour on the other side")
	case okA && okB && a.Wall != b.Wall:
		r.fail(gn.Span, fmt.Sprintf("%s and %s stand at two walls: there is no gap between them", short(g.Left), short(g.Right)), "name two neighbours at one wall")
	case okA && okB && a.From >= b.From && gn.Get("left") != nil:
		r.fail(gn.Get("left").Span, fmt.Sprintf("%s does not stand left of %s", short(g.Left), short(g.Right)), "exchange left and right")
	}
}

// reserved reports whether a knee space is kept for a case.
func (r *reader) reserved(id string) bool {
	for _, run := range r.file.Runs {
		for _, e := range run.Value.Order {
			if e.Knee != nil && e.Knee.For == id {
				return true
			}
		}
	}
	return false
}

// butts checks that a counter butts against another than itself, and not each against the other.
func (r *reader) butts(id string, v Counter, n *source.Node) {
	at := n.Get("butts")
	if v.Butts == "" || at == nil {
		return
	}
	for _, o := range r.file.Counters {
		switch {
		case o.Key != v.Butts:
		case o.Key == id:
			r.fail(at.Span, "a counter cannot butt against itself", "name the counter of the wall round the corner")
		case o.Value.Butts != "":
			r.fail(at.Span, fmt.Sprintf("%s butts against another counter itself", short(o.Key)), "let one of the two go through to the corner")
		case v.Free != nil || o.Value.Free != nil:
			r.fail(at.Span, "a bench that stands on its own butts against nothing", "leave butts out")
		}
	}
}

// mostHigh is the highest that a worktop may be written.
const mostHigh = 2000 * length.MM

// placed checks counters, machines and stages.
func (r *reader) placed() {
	for _, c := range r.file.Counters {
		n, v := r.tree.Get("counters").Get(c.Key), c.Value
		switch {
		case len(v.Over) == 0 && v.Free == nil && (v.From == nil || v.To == nil):
			r.fail(c.At.Span, fmt.Sprintf("what the counter %s lies on is not stated", c.Key), "write over with runs or cases, or free with its length")
		case len(v.Over) > 0 && v.Free != nil:
			r.fail(c.At.Span, fmt.Sprintf("the counter %s stands on its own legs and lies on cases", c.Key), "keep free or over")
		}
		if len(v.Layers) == 0 && n.Get("layers") != nil {
			r.fail(n.Get("layers").Span, "a counter has at least one layer", "write layers: [{board: "+r.file.Practice.Case+"}]")
		}
		if len(v.Layers) > 6 {
			r.fail(n.Get("layers").Span, "a counter has at most 6 layers", "leave some out, or say a thicker board")
		}
		if v.Free != nil && v.Height == nil {
			r.fail(c.At.Span, fmt.Sprintf("the height of the free bench %s is missing", c.Key), "add height: "+r.eg("900 mm", "36 in"))
		}
		if f := v.Free; f != nil {
			if at := n.Get("free").Get("length"); at != nil && (f.Length < leastCase || f.Length > 2*mostCase) {
				r.fail(at.Span, fmt.Sprintf("a bench cannot be %s long", r.exact(f.Length)), r.between(leastCase, 2*mostCase))
			}
			for i, p := range v.PointLoads {
				if at := nth(n.Get("point-loads"), i).Get("at"); at != nil && (p.At < 0 || p.At > f.Length) {
					r.fail(at.Span, fmt.Sprintf("this place is not on %s, which is %s long", short(c.Key), r.exact(f.Length)), "measure from its left end")
				}
			}
		}
		r.butts(c.Key, v, n)
		if v.From != nil && v.To != nil && *v.From >= *v.To {
			r.fail(n.Get("to").Span, fmt.Sprintf("the right end of the counter %s is not right of its left one", short(c.Key)), "exchange from and to")
		}
		if at := n.Get("depth"); at != nil && v.Depth != nil && (*v.Depth < leastCase || *v.Depth > mostCase) {
			r.fail(at.Span, fmt.Sprintf("a counter cannot be %s deep", r.exact(*v.Depth)), r.between(leastCase, mostCase))
		}
		if at := n.Get("height"); at != nil && v.Height != nil && (*v.Height < leastCase || *v.Height > mostHigh) {
			r.fail(at.Span, fmt.Sprintf("a worktop cannot be %s high", r.exact(*v.Height)), r.between(leastCase, mostHigh))
		}
		r.bed(n.Get("level-with"), v.Level)
	}
	for _, run := range r.file.Runs {
		r.bed(r.tree.Get("runs").Get(run.Key).Get("level-with"), run.Value.Bench)
	}
	for _, m := range r.file.Machines {
		n := r.tree.Get("machines").Get(m.Key)
		for _, e := range [...]struct {
			key string
			l   L
		}{{"width", m.Value.Width}, {"depth", m.Value.Depth}} {
			if at := n.Get(e.key); at != nil && e.l <= 0 {
				r.fail(at.Span, fmt.Sprintf("%s of %s must be more than 0", e.key, short(m.Key)), "measure it on its feet")
			}
		}
	}
	at := map[string]source.Span{}
	for i, s := range r.file.Stages {
		n := nth(r.tree.Get("stages"), i).Get("id")
		if n == nil {
			continue
		}
		if was, twice := at[source.Normal(s.ID)]; twice {
			r.problems.Add(source.Problem{Span: n.Span, Text: fmt.Sprintf("there are two stages %q", short(s.ID)), Hint: "give each its own id", Also: []source.Also{{Span: was, Text: "the first is here"}}})
			continue
		}
		at[source.Normal(s.ID)] = n.Span
	}
}

// eg gives an example in the job's unit.
func (r *reader) eg(mm, in string) string {
	if unitOf(r.file.Unit) == length.Inches {
		return in
	}
	return mm
}

// between says within which bounds a size is read, in whole inches or millimetres of the job.
func (r *reader) between(lo, hi L) string {
	step := length.MM
	if unitOf(r.file.Unit) == length.Inches {
		step = length.Inch
	}
	return fmt.Sprintf("it is between %s and %s", r.exact((lo + step - 1).Down(step)), r.exact(hi.Down(step)))
}

// bed reports a counter that is to be level with a bed whose height is not stated.
func (r *reader) bed(n *source.Node, machine string) {
	if n == nil || machine == "" {
		return
	}
	if m, ok := r.file.Machines.Get(machine); ok && m.Bed == nil {
		r.fail(n.Span, fmt.Sprintf("how high the bed of %s is over its feet is not stated", short(machine)), "add bed: to the machine")
	}
}
