package plan_test

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

var boredDeep = regexp.MustCompile(`For (.+?) bore through (.+?) with (?:the|a) .+? bit, (.+? (?:in|mm)) deep`)

// bits are what steps bore to the wall with, and how deep; fluted how deep an ordinary bit of so many mm bores
// (length of the flutes, DIN 338, from memory).
var (
	bits   = regexp.MustCompile(`(long )?([0-9.]+) mm bit, ([0-9.]+) mm deep`)
	fluted = map[string]float64{"3": 33, "4": 43, "5": 52, "6": 57}
)

// asStep names the step that says how screws into the wall are bored for and packed.
var asStep = regexp.MustCompile(`as step (\d+) says`)

// withRules is what a step says, with what the step says that it refers to.
func withRules(list []shop.Step, s shop.Step) string {
	t := s.Text
	own := boredDeep.FindAllStringSubmatch(t, -1)
	if m := asStep.FindStringSubmatch(t); m != nil {
		for _, x := range list {
			if fmt.Sprint(x.N) == m[1] {
				for _, p := range x.Points {
					m := boredDeep.FindStringSubmatch(p)
					if m == nil || !slices.ContainsFunc(own, func(o []string) bool { return o[1] == m[1] }) { // of this screw it says nothing itself
						t += " " + p + "."
					}
				}
			}
		}
	}
	return t
}

// illFixed gives a sentence for everything about fixing to walls that a fitter would trip over: an anchor or
// a ledger's screw without a clearance hole in every board that it passes, or marked after the thing is fixed; a
// hole told shallower than what the screw passes; lower screws before neighbours are joined, doors back before
// the last screw, or packing that is not what the screws take.
func illFixed(r plan.Result) (bad []string) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	at := byMark(r.Assembly)
	kind := map[string]part.Owner{}
	for _, o := range r.Assembly.Owners {
		kind[o.ID] = o
	}
	for _, s := range r.Steps {
		for _, m := range bits.FindAllStringSubmatch(s.Whole(), -1) {
			if d, _ := strconv.ParseFloat(m[3], 64); s.Phase == shop.Install && fluted[m[2]] > 0 && m[1] == "" && d > fluted[m[2]] {
				say("step %d bores %s mm deep with an ordinary %s mm bit", s.N, m[3], m[2])
			}
			if !strings.Contains(s.Tool, m[1]+m[2]+" mm bit") {
				say("step %d has no %s%s mm bit among its tools (%s)", s.N, m[1], m[2], s.Tool)
			}
		}
	}
	first := func(owner string, is func(s shop.Step) bool) int {
		return slices.IndexFunc(r.Steps, func(s shop.Step) bool { return s.Phase == shop.Install && s.Owner == owner && is(s) })
	}
	packed := map[string]int{}
	for _, f := range r.Assembly.Fixings {
		p := at[f.Part]
		toWall := f.Kind == part.ToWall || f.Kind == part.ToStud
		if toWall && f.Packing >= length.MM/2 {
			packed[f.Owner] += packersOf(f.Packing, r.Job.Print)
		}
		item, _ := r.Job.Catalogue.Item(f.Screw)
		// Every board of the thing on the way of the screw, from its geometry.
		var way []part.Part
		in, out := p.Box().Min.Y, p.Box().Max.Y
		for _, q := range r.Assembly.Parts {
			b := q.Box()
			before := q.Role == part.BackPanel && p.Role != part.WallCleat && p.Role != part.Ledger // which are on the wall alone
			if q.Owner == f.Owner && q.Moves == "" && (q.Mark == f.Part || before) && b.Min.X < f.At.X && f.At.X < b.Max.X && b.Min.Z < f.At.Z && f.At.Z < b.Max.Z {
				way = append(way, q)
				in, out = min(in, b.Min.Y), max(out, b.Max.Y)
			}
		}
		if (f.Kind == part.ToLedger || f.Kind == part.ToWall && f.Stud == "") && item.Clearance > 0 {
			for _, q := range way {
				if !slices.ContainsFunc(q.Ops, func(o part.Op) bool {
					v := q.Pose.Point(o.Face.Point(o.X, o.Y, q.Size))
					_, _, deep := o.Face.Extent(q.Size)
					return o.Kind == part.Hole && (v.X-f.At.X).Abs() < length.MM/10 && (v.Z-f.At.Z).Abs() < length.MM/10 && o.Depth >= deep && o.Dia >= item.Clearance-length.MM && strings.HasSuffix(o.Tool, " bit")
				}) {
					say("%s has no hole for the screw at %s along, %s up", q.Mark, f.At.X, f.At.Z)
				}
			}
		}
		if f.Kind == part.ToStud {
			for _, s := range r.Steps {
				if s.Phase != shop.Install || s.Owner != f.Owner {
					continue
				}
				for _, m := range boredDeep.FindAllStringSubmatch(withRules(r.Steps, s), -1) {
					if strings.Contains(m[2], "cleat") != (p.Role == part.WallCleat) || strings.Contains(m[2], "ledger") != (p.Role == part.Ledger) || strings.Contains(m[2], "frame") != (kind[f.Owner].Kind == "hutch") { // of other boards
						continue
					}
					d, err := length.Parse(strings.TrimSuffix(strings.TrimSuffix(m[3], " in"), " mm"), r.Job.Print)
					if strings.Contains(s.Whole(), "("+f.Part+")") && strings.Contains(s.Whole(), m[1]+" through") && (err != nil || d < out-in) {
						say("step %d has the hole %s deep, the boards of %s take %s", s.N, m[3], f.Part, (out - in).In(r.Job.Print))
					}
				}
			}
		}
		// What goes into an anchor is marked with the thing in its place, bored when it is away, and driven last.
		if f.Kind == part.ToWall {
			mark := first(f.Owner, func(s shop.Step) bool {
				return strings.Contains(s.Text, "ark the wall through the holes") && (kind[f.Owner].Kind != "case" || p.Role == part.WallCleat == strings.Contains(s.Text, "("+f.Part+")"))
			})
			drive := first(f.Owner, func(s shop.Step) bool {
				return slices.ContainsFunc(s.Points, func(t string) bool { return strings.Contains(t, "("+f.Part+") into the ") })
			})
			if mark < 0 || drive < mark {
				say("%s: its anchors are marked in step %d, driven in %d", f.Part, mark, drive)
			} else if t := r.Steps[mark].Text; strings.Index(t, "set the anchors") < strings.Index(t, "ark the wall") {
				say("step %d sets anchors that are not marked: %s", r.Steps[mark].N, t)
			}
		}
	}
	for id, o := range kind {
		if o.Kind != "case" || o.Standing {
			continue
		}
		n := 0
		for _, s := range r.Steps {
			for _, f := range s.Fits {
				if item, _ := r.Job.Catalogue.Item(f.ID); s.Owner == id && item.Kind == "shim" && slices.ContainsFunc(s.Points, func(t string) bool { return strings.HasPrefix(t, "packing: ") }) {
					n += f.Count
				}
			}
		}
		if n != packed[id] {
			say("%s: %d packers are told, the screws that are packed out take %d", id, n, packed[id])
		}
		// Of two that are joined the one that hangs first is tight, and the other is drawn flush with it before it is.
		hung := func(id string) int {
			return first(id, func(s shop.Step) bool {
				return strings.HasPrefix(s.Text, "Hang ") || strings.HasPrefix(s.Text, "Lift ")
			})
		}
		join := -1
		for _, f := range r.Assembly.Fixings {
			if f.Kind != part.ToCase || f.Row != "joining" || f.Owner != id && f.Stud != id {
				continue
			}
			other := kind[f.Owner]
			if f.Owner == id {
				other = kind[f.Stud]
			}
			if !other.Standing && (!other.Hung || hung(other.ID) > hung(id)) {
				continue
			}
			k := slices.IndexFunc(r.Steps, func(s shop.Step) bool {
				return strings.HasPrefix(s.Text, "Clamp ") && strings.Contains(s.Text, "join them") && (s.Owner == id && strings.Contains(s.Text, " "+other.Name) || s.Owner == other.ID && strings.Contains(s.Text, " "+o.Name))
			})
			if join = max(join, k); k < 0 {
				say("%s is never joined to %s", id, other.ID)
			}
		}
		back := first(id, func(s shop.Step) bool { return strings.Contains(s.Text, "put back what was taken out") })
		for k, s := range r.Steps {
			lower := slices.ContainsFunc(s.Points, func(t string) bool { return strings.Contains(t, "through lower rail (") })
			if s.Phase != shop.Install || s.Owner != id || !o.Hung {
				continue
			}
			if lower && k < join {
				say("step %d screws the lower rail of %s, which is joined in step %d", s.N, id, r.Steps[join].N)
			}
			if len(s.Fits) > 0 && back >= 0 && k > back {
				say("step %d drives screws of %s after what was taken out is back", s.N, id)
			}
		}
	}
	return bad
}

// A case of which nobody knows the wall is told what a skirting board does to it, and has packers for its screws.
func TestSkirtingBehindALoneCase(t *testing.T) {
	r := plantest.Result(t, "one-case")
	for _, s := range r.Steps {
		if !strings.HasPrefix(s.Text, "Where it will stand, fix") {
			continue
		}
		screws, shims := 0, 0
		for _, f := range s.Fits {
			switch h, _ := r.Job.Catalogue.Item(f.ID); h.Kind {
			case "screw":
				screws += f.Count
			case "shim":
				shims += f.Count
			}
		}
		if !strings.Contains(s.Whole(), "skirting board holds") || screws == 0 || shims != 2*screws {
			t.Errorf("%d screws, %d shims: %s", screws, shims, s.Whole())
		}
		return
	}
	t.Error("no step fixes it")
}

// Whatever a wall is made of, what is fixed to it goes up in an order that can be worked.
func TestFixedToWallsInOrder(t *testing.T) {
	for _, name := range shipped {
		for _, s := range illFixed(plantest.Result(t, name)) {
			t.Errorf("%s: %s", name, s)
		}
	}
	pair := func(wall, hangs string) string {
		box := "level: wall, width: 600, height: 700, depth: 320, hangs-by: " + hangs + ", inside: {shelves: {count: 2}, doors: {count: 2}}"
		return "stowright: 1\nunit: mm\npractice: {from: saw-and-drill, bits: [3, 3.5, 4, 4.5, 5, 6, 7, 8, 10, 35]}\nwalls:\n  north: {length: 4000, height: 2500, leans-out-at-top: 12, " + wall + "}\ncases:\n" +
			"  a: {" + box + "}\n  b: {" + box + "}\n  low: {wall: north, at: 1000, width: 800, height: 800, depth: 500, inside: {drawers: {count: 3}}}\n" +
			"runs:\n  up: {wall: north, level: wall, start: 800, bottom-line: 1400, order: [{case: a}, {case: b}]}\n"
	}
	studs := "kind: stud, lining: {name: plasterboard, thickness: 12.5}, studs: {species: spruce-pine-fir, first: 200, spacing: 400, width: 45}"
	for what, text := range map[string]string{
		"masonry, cleats":  pair("kind: masonry, lining: {name: plaster, thickness: 10}, anchor: {hardware: anchor-hollow-6}", "{kind: cleat}"),
		"masonry, rails":   pair("kind: masonry, lining: {name: plaster, thickness: 10}, anchor: {hardware: anchor-hollow-6}", "{kind: rail}"),
		"concrete, sleeve": pair("kind: concrete, lining: {thickness: 0}, anchor: {hardware: anchor-sleeve-10}", "{kind: rail}"),
		"studs, cleats":    pair(studs, "{kind: cleat}"),
		"studs, rails":     pair(studs, "{kind: rail}"),
		"studs, ledgers":   pair(studs, "{kind: rail, ledger: spruce-leg}"),
		"steel, rails":     pair(strings.Replace(studs, "kind: stud", "kind: steel-stud", 1), "{kind: rail}"),
	} {
		r := plan.Make(context.Background(), parse(t, what, []byte(text)), plan.Want{})
		if !slices.ContainsFunc(r.Assembly.Fixings, func(f part.Fixing) bool { return f.Kind == part.ToCase }) {
			t.Errorf("%s: nothing joins the two", what)
		}
		for _, s := range append(illFixed(r), disordered(r)...) {
			t.Errorf("%s: %s", what, s)
		}
		for _, f := range r.Findings {
			if f.Code == "clash" { // of ledgers, say
				t.Errorf("%s: %s", what, f.Text)
			}
		}
	}
}
