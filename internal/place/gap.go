package place

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
)

// surveyDiffers is what two ways of measuring a gap may differ by before one is taken to be wrong
// (common practice, no source).
const surveyDiffers = 20 * length.MM

// gaps seats cases that go between two that stand: the smallest measured width less the
// clearance, the neighbours' top line and front.
func (l *layout) gaps() {
	for _, cc := range l.job.Cases {
		g := cc.Case.Gap
		if g == nil || len(g.Widths) == 0 {
			continue
		}
		left, right := l.room.Seat(g.Left), l.room.Seat(g.Right)
		if left == nil || right == nil {
			continue
		}
		a, b := *left, *right
		leftName, rightName := cmp.Or(a.Name, a.ID), cmp.Or(b.Name, b.ID)
		w := l.wallOf(a.Wall)
		clear := l.job.Practice.Clearance
		if g.Clearance != nil {
			clear = *g.Clearance
		}
		least := slices.Min(g.Widths)
		width := least - clear
		level := max(a.Level, b.Level)
		top, front := min(a.Top, b.Top), max(a.Box.Min.Y, b.Box.Min.Y)
		at, name := "case/"+cc.ID, cmp.Or(cc.Spec.Name, cc.ID)
		if a.Top != b.Top || a.Box.Min.Y != b.Box.Min.Y {
			l.found.Add(finding.Finding{Code: GapUneven, Severity: finding.Warning, At: at, Source: "arithmetic",
				Text: fmt.Sprintf("%s and %s differ: tops %s and %s, fronts %s and %s out. %s takes the lower top and the nearer front.", leftName, rightName, l.in(a.Top-level), l.in(b.Top-level), l.in(-a.Box.Min.Y), l.in(-b.Box.Min.Y), name),
				Hint: "Measure both again, or let the difference show."})
		}
		// A counter carried across the gap on rails limits the height.
		under := ""
		for _, s := range l.room.Seats {
			if s.Kind == Standing && s.Wall == w.ID && s.ID != g.Left && s.ID != g.Right &&
				s.Box.Min.X < b.Box.Min.X && s.Box.Max.X > a.Box.Max.X && s.Box.Min.Z < top+clear && s.Box.Min.Z > level {
				top, under = s.Box.Min.Z-clear, cmp.Or(s.Name, s.ID)
			}
		}
		middle := a.Box.Max.X + (b.Box.Min.X-a.Box.Max.X)/2
		x := middle - width/2
		rear := w.Proudest(max(0, x), min(x+width, w.Length), level, top).Down(l.job.Print.Step())
		spec := cc.Spec
		height, depth := top-level, rear-front
		if between := b.Box.Min.X - a.Box.Max.X; (between - least).Abs() > surveyDiffers {
			l.found.Add(finding.Finding{Code: GapDiffers, Severity: finding.Error, Verdict: finding.Fails, At: at, Source: "arithmetic", Demand: mm(least), Capacity: mm(between), Unit: "mm",
				Text: fmt.Sprintf("The smallest width measured between %s and %s is %s, but the survey puts them %s apart.", leftName, rightName, l.in(least), l.in(between)),
				Hint: "Measure again: one of the two is wrong by more than a slip of the tape."})
		}
		for _, x := range []struct {
			what        string
			stated, has *L
		}{{"width", cc.Case.Width, &width}, {"height", cc.Case.Height, &height}, {"depth", cc.Case.Depth, &depth}} {
			if x.stated != nil && (*x.stated-*x.has).Abs() > 2*l.job.Print.Step() {
				l.found.Add(finding.Finding{Code: GapStated, Severity: finding.Warning, At: at, Source: "the job",
					Text: fmt.Sprintf("%s says a %s of %s; the gap gives it %s, and that is built.", name, x.what, l.in(*x.stated), l.in(*x.has)), Hint: "Leave the size out, or take the case out of the gap."})
			}
		}
		spec.Width, spec.Height, spec.Depth = &width, &height, &depth
		cc.Spec = spec
		text := fmt.Sprintf("%s takes %s wide (smallest of %d measured widths %s, less %s) and %s deep overall, its top %s over the floor's high point there.", name, l.in(width), len(g.Widths), l.in(least), l.in(clear), l.in(depth), l.in(height))
		if under != "" {
			text += fmt.Sprintf(" It passes under %s.", under)
		}
		l.found.Add(finding.Finding{Code: GapSize, Severity: finding.Note, At: at, Text: text, Source: "arithmetic"})
		// It slides in from the front: every width there must let it pass.
		unfix := ""
		if between := b.Box.Min.X - a.Box.Max.X; clear < 2*length.MM || width > between {
			unfix = g.Right
			l.found.Add(finding.Finding{Code: UnfixNeighbour, Severity: finding.Warning, At: at, Source: "common practice, no source",
				Text: fmt.Sprintf("%s is %s wide in %s between %s and %s with %s to spare: unfix %s, draw it aside, set the new case, and fix it again.", name, l.in(width), l.in(min(least, between)), leftName, rightName, l.in(min(clear, between-width)), rightName),
				Hint: "A clearance of 2 mm (3/32 in) or more lets it slide in."})
		}
		l.seat(cc, w, "", cc.Case.Stage, x, rear, level, level, top, false)
		seat := &l.room.Seats[len(l.room.Seats)-1]
		seat.Unfix, seat.Play = unfix, [2]L{max(0, least-width), max(0, slices.Max(g.Widths)-width)}
	}
}

// loose seats cases that are in no run: at a stated place along a wall, or, where a job has
// no wall, side by side.
func (l *layout) loose(level string) {
	x := L(0)
	for _, cc := range l.job.Cases {
		hung := cc.Spec.Level == "wall"
		if l.room.Seat(cc.ID) != nil || hung != (level == "wall") || cc.Case.Rolls != "" || cc.Case.Gap != nil || l.reserved(cc.ID) || l.inRun(cc.ID) {
			continue
		}
		spec := cc.Spec
		w := l.wallOf(cc.Case.Wall)
		if w == &l.nowhere {
			l.add(Seat{ID: cc.ID, Kind: Case, Name: cmp.Or(spec.Name, cc.ID), Stage: cc.Case.Stage, Box: geom.B(x, -*spec.Depth, 0, x+*spec.Width, 0, *spec.Height),
				Top: *spec.Height, Hung: hung, Spec: spec, Moves: spec.Loose != "" && spec.Loose != "no"})
			x += *spec.Width + 12*length.Inch
			continue
		}
		if cc.Case.At == nil {
			l.found.Add(finding.Finding{Code: NotPlaced, Severity: finding.Warning, At: "case/" + cc.ID, Source: "the job",
				Text: fmt.Sprintf("Nothing says where %s goes; it is drawn at the left end of wall %s.", cc.ID, w.ID), Hint: "List it in a run, or give it at:."})
		}
		at := L(0)
		if cc.Case.At != nil {
			at = *cc.Case.At
		}
		line := w.High(max(0, at), max(0, min(at+*spec.Width, w.Length)), -*spec.Depth, 0)
		if shared, ok := l.level[cc.ID]; ok {
			line = shared
		}
		bottom := line
		if hung {
			line = l.wallLevel(w, at, at+*spec.Width)
			bottom = line + usualWallBottom
			if fam := l.family(cc.Family); fam.WallTop != nil {
				bottom = line + *fam.WallTop - *spec.Height
			}
			if cc.Case.Up != nil {
				bottom = line + *cc.Case.Up
			}
			shared := l.inLine(w, line, bottom, bottom+*spec.Height)
			line, bottom = shared, bottom+shared-line
		}
		rear := w.Proudest(max(0, at), max(0, min(at+*spec.Width, w.Length)), bottom, bottom+*spec.Height).Down(l.job.Print.Step())
		l.seat(cc, w, "", cc.Case.Stage, at, rear, line, bottom, bottom+*spec.Height, hung)
	}
}

// left seats what has found no place: a case for a knee space that no counter is over, or for a
// gap between things that do not stand. Nothing that is asked for is left out in silence.
func (l *layout) left() {
	for _, cc := range l.job.Cases {
		if l.room.Seat(cc.ID) != nil {
			continue
		}
		w, x, why := l.wallOf(cc.Case.Wall), L(0), "Nothing says where it goes"
		for _, k := range l.knees {
			if k.Want.For == cc.ID {
				x, why = k.From, "No counter is over the knee space in run "+k.Run+" that is reserved for it"
				for _, n := range l.job.Runs {
					if n.ID == k.Run {
						w = l.wallOf(n.Value.Wall)
					}
				}
			}
		}
		if cc.Case.Rolls != "" {
			why = "Counter " + cc.Case.Rolls + " has no knee space that it could go into"
		}
		if cc.Case.Gap != nil {
			why = "Its neighbours in the gap do not stand anywhere"
		}
		spec := cc.Spec
		l.found.Add(finding.Finding{Code: NotPlaced, Severity: finding.Error, At: "case/" + cc.ID, Source: "the job",
			Text: fmt.Sprintf("%s has no place: %s. It is drawn at %s along.", cc.ID, why, l.in(x)), Hint: "List it in a run, give it at:, or put a counter over its knee space."})
		level := w.High(max(0, x), max(0, min(x+*spec.Width, w.Length)), -*spec.Depth, 0)
		l.seat(cc, w, "", cc.Case.Stage, x, 0, level, level, level+*spec.Height, spec.Level == "wall")
	}
}

func (l *layout) inRun(id string) bool {
	for _, n := range l.job.Runs {
		for _, e := range n.Value.Order {
			if e.Case == id {
				return true
			}
		}
	}
	return false
}

func (l *layout) reserved(id string) bool {
	for _, n := range l.job.Runs {
		for _, e := range n.Value.Order {
			if e.Knee != nil && e.Knee.For == id {
				return true
			}
		}
	}
	return false
}
