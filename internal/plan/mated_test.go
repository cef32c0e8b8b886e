package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/stock"
)

// Every fastener of every joint has its place: a hole in one board with its partner in the other at the
// same place; a pocket that comes out where they meet; or, where it is bored on the spot, a place in the
// row that the step tells, in the wood of both boards, clear of all else that is worked in them, and the
// screw stays inside. Counted anew here from the poses of the boards, without what finds the rows.

// ways gives where a board's holes for fasteners come through a plane across an axis.
func onPlane(p part.Part, n int, plane length.Length, contact geom.Box) (out []geom.Vec) {
	for _, o := range p.Ops {
		at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
		switch {
		case o.Kind == part.Pocket && p.Pose.Dir(o.Towards.Normal()).Axis() == n:
			end := p.Box().Min.At(n)
			if p.Pose.Dir(o.Towards.Normal()).Sign() > 0 {
				end = p.Box().Max.At(n)
			}
			if (end - plane).Abs() > 10*length.MM { // of the other end
				continue
			}
		case o.Kind == part.Hole && p.Pose.Dir(o.Face.Normal()).Axis() == n && (strings.Contains(o.For, "screw") || o.For == "dowel"):
			in := p.Pose.Dir(o.Face.Normal()).Not()
			end := at.Add(in.Vec(o.Depth))
			if max(at.At(n), end.At(n)) < plane-10*length.MM || min(at.At(n), end.At(n)) > plane+10*length.MM {
				continue // in the far end of the board
			}
		default:
			continue
		}
		in := true
		for i := range 3 {
			room := length.Length(0)
			if o.Kind == part.Pocket {
				room = p.Size[2]
			}
			in = in && (i == n || at.At(i) >= contact.Min.At(i)-room && at.At(i) <= contact.Max.At(i)+room)
		}
		if in {
			out = append(out, at.With(n, 0))
		}
	}
	return out
}

// unmated gives one sentence for every joint whose fasteners have not all their places.
func unmated(a part.Assembly, c stock.Catalogue) (bad []string) {
	at := byMark(a)
	for _, j := range a.Joints {
		if j.Count == 0 {
			continue
		}
		p, q := at[j.A], at[j.B]
		n := normal(j.Contact)
		plane := (j.Contact.Min.At(n) + j.Contact.Max.At(n)) / 2
		say := func(format string, args ...any) {
			bad = append(bad, fmt.Sprintf("%s of %s (%s) and %s (%s): ", j.Kind, j.B, q.Role, j.A, p.Role)+fmt.Sprintf(format, args...))
		}
		x, y := onPlane(p, n, plane, j.Contact), onPlane(q, n, plane, j.Contact)
		over := 0
		for _, v := range x {
			for _, w := range y {
				if d := v.Sub(w); max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < length.MM/20 {
					over++
				}
			}
		}
		switch {
		case j.Kind == part.PocketScrew:
			if len(y) != j.Count {
				say("%d pockets for %d screws", len(y), j.Count)
			}
			continue
		case over >= j.Count:
			continue
		}
		h, _ := c.Item(j.Fastener)
		s := joinery.Spots(p, q, j, h.Length, false)
		if len(s.At) != j.Count {
			say("%d places for %d screws", len(s.At), j.Count)
		}
		head, into := at[s.Head], at[s.Into]
		if d := h.Length - head.Box().Size().At(n); d < 6*length.MM || d > into.Box().Size().At(n)-length.MM {
			say("the screw of %s goes %s into %s of %s", h.Length, d, into.Box().Size().At(n), into.Mark)
		}
		for _, v := range s.At {
			for i := range 3 {
				if i != n && (v.At(i) < j.Contact.Min.At(i)+3*length.MM-1 || v.At(i) > j.Contact.Max.At(i)-3*length.MM+1) {
					say("a screw at %v leaves the contact %v", v, j.Contact)
				}
			}
			// along the screw, point for point
			way := s.From.Not()
			from := v.With(n, head.Box().Min.At(n))
			if s.From.Sign() > 0 {
				from = v.With(n, head.Box().Max.At(n))
			}
			for l := length.MM; l < h.Length; l += 2 * length.MM {
				k := from.Add(way.Vec(l))
				for i, b := range []part.Part{head, into} {
					if past := k.Sub(v).At(n) * way.Sign(); (past > 0) != (i == 1) { // each board its own stretch
						continue
					}
					if w := drilled(b, k, h.Dia/2); w != "" && b.Box().Has(geom.Box{Min: k, Max: k}) {
						say("a screw runs into the %s of %s", w, b.Mark)
						l = h.Length
						break
					}
				}
			}
		}
	}
	return bad
}

// drilled says what of a board's round or straight workings is nearer to a point than so much.
func drilled(p part.Part, v geom.Vec, near length.Length) string {
	l := p.Pose.Local(v)
	for _, o := range p.Ops {
		switch o.Kind {
		case part.Hole, part.Cup:
			at := o.Face.Point(o.X, o.Y, p.Size)
			d, k := l.Sub(at), o.Face.Normal().Axis()
			if d.At(k).Abs() > o.Depth+near {
				continue
			}
			d = d.With(k, 0)
			r := o.Dia/2 + near
			if int64(d.X)*int64(d.X)+int64(d.Y)*int64(d.Y)+int64(d.Z)*int64(d.Z) < int64(r)*int64(r) {
				return o.For
			}
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			if o.Removed(p.Size).Has(geom.Box{Min: l, Max: l}) {
				return o.For
			}
		}
	}
	return ""
}

// In every example.
func TestEveryFastenerHasItsPlace(t *testing.T) {
	for _, name := range shipped {
		r := plantest.Result(t, name)
		for _, s := range unmated(r.Assembly, r.Job.Catalogue) {
			t.Errorf("%s: %s", name, s)
		}
	}
}

// byMark gives the parts of an assembly by their marks.
func byMark(a part.Assembly) map[string]part.Part {
	at := map[string]part.Part{}
	for _, p := range a.Parts {
		at[p.Mark] = p
	}
	return at
}
