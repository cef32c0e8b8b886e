package plan_test

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// The judge of the order of work is slow and plain: it sets board after board on the bench as
// the steps say and tries to push each one to its place, a centimetre at a time, with points
// all over it. It shares nothing with the package that finds the order.

// inside reports whether a point is in the wood of a part: in its board, and in none of its
// straight workings.
func inside(p part.Part, q geom.Vec) bool {
	b := p.Box()
	if q.X <= b.Min.X || q.X >= b.Max.X || q.Y <= b.Min.Y || q.Y >= b.Max.Y || q.Z <= b.Min.Z || q.Z >= b.Max.Z {
		return false
	}
	l := p.Pose.Local(q)
	for _, o := range p.Ops {
		switch o.Kind {
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			r := o.Removed(p.Size)
			if l.X >= r.Min.X && l.X <= r.Max.X && l.Y >= r.Min.Y && l.Y <= r.Max.Y && l.Z >= r.Min.Z && l.Z <= r.Max.Z {
				return false
			}
		}
	}
	return true
}

// points gives points on the rim of a thin panel, just inside it.
func points(b geom.Box) []geom.Vec {
	const step, in = 15 * length.MM, length.MM / 10
	thin := 0
	for i := range 3 {
		if b.Size().At(i) < b.Size().At(thin) {
			thin = i
		}
	}
	u, v := (thin+1)%3, (thin+2)%3
	mid := (b.Min.At(thin) + b.Max.At(thin)) / 2
	var out []geom.Vec
	add := func(x, y length.Length) {
		out = append(out, geom.Vec{}.With(thin, mid).With(u, x).With(v, y))
	}
	for x := b.Min.At(u) + in; x < b.Max.At(u); x += step {
		add(x, b.Min.At(v)+in)
		add(x, b.Max.At(v)-in)
	}
	for y := b.Min.At(v) + in; y < b.Max.At(v); y += step {
		add(b.Min.At(u)+in, y)
		add(b.Max.At(u)-in, y)
	}
	return out
}

// slides reports whether a panel can be drawn out of what is on the bench in some direction.
func slides(p part.Part, bench []part.Part) bool {
	for d := geom.Right; d <= geom.Down; d++ {
		free := true
		long := p.Box().Size().At(d.Axis()) + 50*length.MM
		for _, q := range points(p.Box()) {
			for way := length.Length(0); way <= long && free; way += 10 * length.MM {
				at := q.Add(d.Vec(way))
				for _, o := range bench {
					if inside(o, at) {
						free = false
						break
					}
				}
			}
			if !free {
				break
			}
		}
		if free {
			return true
		}
	}
	return false
}

// grooved counts the sides on which boards hold a panel in grooves of their own.
func grooved(p part.Part, others []part.Part) int {
	n := 0
	for _, o := range others {
		if o.Owner != p.Owner || o.Moves != p.Moves || o.Mark == p.Mark {
			continue
		}
		for _, w := range o.Ops {
			if w.Kind == part.Groove && o.Pose.Box(w.Removed(o.Size)).Meets(p.Box()) {
				n++
				break
			}
		}
	}
	return n
}

// normal gives the axis across a contact: its thinnest.
func normal(c geom.Box) int {
	n := 0
	for i := range 3 {
		if c.Size().At(i) < c.Size().At(n) {
			n = i
		}
	}
	return n
}

// A driver in a pocket: a bit of 6 in, the chuck on its last 2 in and as thick as a chuck is; common
// practice, no source.
const (
	bitLong   = 6 * length.Inch
	chuckLong = 2 * length.Inch
	chuckHalf = 20 * length.MM
)

// hidden gives the boards on the bench that stand in the way of a screwdriver at the screws
// between two boards.
func hidden(a, b part.Part, j part.Joint, bench []part.Part) []string {
	var out []string
	if j.Kind == part.Dowel {
		return nil
	}
	for _, p := range []part.Part{a, b} {
		for _, o := range p.Ops {
			if o.For != string(j.Kind) || o.Kind != part.Pocket && o.Kind != part.Hole {
				continue
			}
			into := b // what its screw is driven into: the other board
			if p.Mark == b.Mark {
				into = a
			}
			along := p.Pose.Dir(o.Face.Normal())
			if o.Kind == part.Pocket {
				along = p.Pose.Dir(o.Towards.Normal())
			}
			if along.Axis() != normal(j.Contact) {
				continue // of another joint of the same board
			}
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			near := j.Contact.Grow(p.Size[2] + length.MM)
			if !near.Has(geom.Box{Min: at, Max: at}) {
				continue
			}
			up := p.Pose.Dir(o.Face.Normal())
			if o.Kind == part.Hole && !slices.ContainsFunc(into.Ops, func(x part.Op) bool { // the wider hole is the head's
				q := into.Pose.Point(x.Face.Point(x.X, x.Y, into.Size)).With(normal(j.Contact), at.At(normal(j.Contact)))
				return x.For == o.For && q == at && x.Dia < o.Dia
			}) {
				continue // it guides no screw into b
			}
			from, way, long := at, up, 60*length.MM
			if n := normal(j.Contact); o.Kind == part.Hole { // the head is on the side away from it
				x, y := p.Box(), into.Box()
				way = geom.Dir(2 * n)
				from = at.With(n, x.Max.At(n))
				if x.Min.At(n)+x.Max.At(n) < y.Min.At(n)+y.Max.At(n) {
					way, from = way.Not(), at.With(n, x.Min.At(n))
				}
			}
			if o.Kind == part.Pocket { // the driver leaves the pocket at 15 degrees
				way, long = p.Pose.Dir(o.Towards.Normal()).Not(), bitLong
				from = at.Add(way.Vec(40 * length.MM))
			}
			for reach := length.MM; reach <= long; reach += 5 * length.MM {
				q := from.Add(way.Vec(reach))
				round := []geom.Vec{q}
				if o.Kind == part.Pocket {
					q = q.Add(up.Vec(length.MM + reach*27/100))
					round[0] = q
					if reach > bitLong-chuckLong {
						beside := geom.Dir(2 * (3 - way.Axis() - up.Axis()))
						for _, d := range []geom.Dir{up, up.Not(), beside, beside.Not()} {
							round = append(round, q.Add(d.Vec(chuckHalf)))
						}
					}
				}
				for _, x := range bench {
					for _, q := range round {
						if x.Mark != a.Mark && x.Mark != b.Mark && inside(x, q) && !slices.Contains(out, x.Mark) {
							out = append(out, x.Mark)
						}
					}
				}
			}
		}
	}
	return out
}

// crossed reports whether the dowels and housings by which a board goes to boards that are
// already one piece point more than one way, so that no push brings it home.
func crossed(p part.Part, here []part.Part, all []part.Joint, at map[string]part.Part) bool {
	piece := map[string]string{} // mark -> the piece that it belongs to
	find := func(m string) string {
		for piece[m] != "" && piece[m] != m {
			m = piece[m]
		}
		return m
	}
	is := map[string]bool{}
	for _, q := range here {
		is[q.Mark] = true
	}
	for _, j := range all {
		if is[j.A] && is[j.B] && j.Kind != part.Loose {
			if x, y := find(j.A), find(j.B); x != y {
				piece[x] = y
			}
		}
	}
	way := map[string]int{}
	for _, j := range all {
		o := j.B
		if j.B == p.Mark {
			o = j.A
		} else if j.A != p.Mark {
			continue
		}
		if !is[o] || j.Kind != part.Dowel && (j.Kind != part.Dado || !j.Glue) {
			continue
		}
		n := normal(j.Contact)
		b, c := p.Box(), at[o].Box()
		d := 1 + n
		if b.Min.At(n)+b.Max.At(n) > c.Min.At(n)+c.Max.At(n) {
			d = -d
		}
		if k := find(o); way[k] != 0 && way[k] != d {
			return true
		}
		way[find(o)] = d
	}
	return false
}

// judgeBuilding gives one sentence for everything in which the steps cannot be followed or
// leave something out.
func judgeBuilding(r plan.Result) (bad []string) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	a := r.Assembly
	at := byMark(a)
	bench := map[string][]part.Part{} // what is joined, by owner and motion
	came := map[string]int{}
	fitted := map[string]int{}
	lead := map[string]string{} // owners that share steps -> the one that these are told of
	for _, s := range r.Steps {
		for _, o := range s.Also {
			lead[o] = s.Owner
		}
	}
	for _, s := range r.Steps {
		for _, m := range s.New {
			p, ok := at[m]
			if !ok {
				say("step %d brings in %s, which there is not", s.N, m)
				continue
			}
			came[m]++
			// Doors, fronts and what hangs on them come when all stands; they are judged by their motions.
			key := p.Owner + " " + p.Moves
			if p.Removable {
				key += " loose"
			}
			here := bench[key]
			if (p.Role == part.BackPanel || p.Role == part.BoxBottom) && grooved(p, a.Parts) >= 3 && !slides(p, here) {
				say("step %d: %s cannot get into its grooves: %d boards are there already", s.N, m, len(here))
			}
			if crossed(p, here, a.Joints, at) {
				say("step %d: the dowels or housings of %s point several ways", s.N, m)
			}
			for _, j := range a.Joints {
				o, is := j.B, j.A == m
				if j.B == m {
					o, is = j.A, true
				}
				if !is || !slices.ContainsFunc(here, func(q part.Part) bool { return q.Mark == o }) {
					continue
				}
				if h := hidden(at[j.A], at[j.B], j, here); len(h) > 0 {
					say("step %d: the screws of %s and %s are behind %s", s.N, j.A, j.B, strings.Join(h, ", "))
				}
			}
			bench[key] = append(here, p)
		}
		for _, f := range s.Fits {
			fitted[cmp.Or(lead[s.Owner], s.Owner)+" "+f.ID] += f.Count
			if f.Count > 0 && !strings.Contains(s.Whole(), " × ") {
				say("step %d fits %d × %s and does not say so: %s", s.N, f.Count, f.ID, s.Text)
			}
		}
	}
	standing := map[string]bool{}
	for _, o := range a.Owners {
		standing[o.ID] = o.Standing
	}
	for _, p := range a.Parts {
		if came[p.Mark] != 1 && !standing[p.Owner] {
			say("%s, %s, comes in %d times", p.Mark, p.Name, came[p.Mark])
		}
	}
	want := map[string]int{}
	var keys []string
	for _, h := range a.Hardware {
		owner := h.Owner
		if h.For == part.BattenUse { // the first case that hangs on the batten takes them
			for _, s := range slices.Backward(r.Steps) {
				if strings.Contains(s.Text, "propped from below on a batten, ") {
					owner = s.Owner
				}
			}
		}
		k := cmp.Or(lead[owner], owner) + " " + h.ID
		if want[k] == 0 {
			keys = append(keys, k)
		}
		want[k] += h.Count
	}
	for _, k := range keys {
		if want[k] != fitted[k] {
			say("%s: %d are bought, the steps fit %d", k, want[k], fitted[k])
		}
	}
	return append(bad, judgeFixing(r)...)
}

var (
	intoRoom = regexp.MustCompile(`(\d+) × (?:[^;:.\n]|\.\S)*? (?:into the (?:steel )?studs?|into the header|into the wall|into the floor)`)
	onBatten = regexp.MustCompile(`screwed to two studs with \d+ × [^,]*, its upper edge`) // which is taken off again
	joining  = regexp.MustCompile(`and join them: (\d+) × `)
	upFrom   = regexp.MustCompile(`(?:Screw it with|in its feet and|in its lowest rail and) (\d+) × `)
)

// judgeFixing compares the counts in the installing steps with the fixings.
func judgeFixing(r plan.Result) (bad []string) {
	count := func(re *regexp.Regexp, text string) int {
		n := 0
		for _, m := range re.FindAllStringSubmatch(text, -1) {
			k, _ := strconv.Atoi(m[1])
			n += k
		}
		return n
	}
	at := byMark(r.Assembly)
	for _, o := range r.Assembly.Owners {
		room, join, under := 0, 0, 0
		for _, f := range r.Assembly.Fixings {
			switch {
			case f.Owner != o.ID:
			case f.Kind == part.ToStud || f.Kind == part.ToWall || f.Kind == part.ToFloor:
				room++
			case f.Kind == part.ToCase && o.Kind == "case":
				join++
			case f.Kind == part.ToCase && at[f.Part].Role != part.Rail:
				under++
			}
		}
		text := ""
		for _, s := range r.Steps {
			if s.Owner == o.ID && s.Phase == shop.Install {
				text += s.Whole() + "\n"
			}
		}
		for _, x := range []struct {
			what string
			got  int
			want int
		}{{"to the room", count(intoRoom, onBatten.ReplaceAllString(text, "")), room}, {"to neighbours", count(joining, text), join}, {"up into it", count(upFrom, text), under}} {
			if x.got != x.want {
				bad = append(bad, fmt.Sprintf("%s: the steps drive %d screws %s, there are %d fixings", o.ID, x.got, x.what, x.want))
			}
		}
	}
	return bad
}

// forgotten gives the steps that fit what no proper step has taken.
func forgotten(r plan.Result) (bad []string) {
	for _, s := range r.Steps {
		if strings.Contains(s.Text, ": fit ") && s.Phase == shop.Install {
			bad = append(bad, fmt.Sprintf("step %d: %s", s.N, s.Text))
		}
	}
	return bad
}

var shipped = []string{"one-case", "fennel-street", "hollis-court", "marram-point", "ostler-row"}

// Every example and every job in which a fault was found can be put together as printed.
func TestStepsCanBeFollowed(t *testing.T) {
	for _, name := range shipped {
		r := plantest.Result(t, name)
		for _, s := range append(judgeBuilding(r), forgotten(r)...) {
			t.Errorf("%s: %s", name, s)
		}
	}
	files, _ := filepath.Glob("testdata/jobs/*.yaml")
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r := plan.Make(context.Background(), parse(t, f, b), plan.Want{})
		for _, s := range append(judgeBuilding(r), forgotten(r)...) {
			t.Errorf("%s: %s", filepath.Base(f), s)
		}
	}
}

// So can the made-up ones; their handles and locks can be put in, their neighbours joined, and
// their hardware is counted once.
func TestMadeUpStepsCanBeFollowed(t *testing.T) {
	n := uint64(400)
	if testing.Short() {
		n = short
	}
	failed := 0
	each(0, n, func(seed uint64) (bad []string) {
		_, r := madeUp(t, seed)
		bad = append(judgeBuilding(r), forgotten(r)...)
		bad = append(bad, unmated(r.Assembly, r.Job.Catalogue)...)
		bad = append(bad, blocked(r.Assembly)...)
		hidden, _ := undriven(r.Assembly)
		heads, _ := onHeads(r.Assembly)
		astrip, _, _ := beyond(r)
		heads = append(heads, astrip...)
		bad = append(append(append(bad, hidden...), heads...), unbored(r.Assembly)...)
		bad = append(bad, astray(r.Assembly)...)
		for _, judge := range []func(plan.Result) ([]string, int){jammed, screwedOn, setToo, splitting, unturned} {
			more, _ := judge(r)
			bad = append(bad, more...)
		}
		bad = append(bad, uncounted(r)...)
		return append(bad, disordered(r)...)
	}, func(seed uint64, bad []string) {
		if len(bad) > 0 {
			t.Errorf("seed %d:\n%s", seed, strings.Join(bad[:min(len(bad), 8)], "\n"))
			if failed++; failed > 5 {
				t.Fatal("and so on")
			}
		}
	})
}

// The judge sees what is wrong: a back that goes in last, a board that never comes, screws that
// nobody drives.
func TestTheJudgeOfBuildingBites(t *testing.T) {
	text := "stowright: 1\nunit: in\npractice: {from: inch-shop}\ncases:\n  box: {level: wall, width: 30, height: 24, depth: 12, inside: {shelves: {count: 2}, doors: {count: 2}}}\n"
	r := plan.Make(context.Background(), parse(t, "box", []byte(text)), plan.Want{})
	if bad := judgeBuilding(r); len(bad) > 0 {
		t.Fatal(bad)
	}
	whole := r.Steps
	back, top := -1, -1
	for i, s := range whole {
		if slices.Contains(s.New, "A.back") {
			back = i
		}
		if slices.Contains(s.New, "A.top") {
			top = i
		}
	}
	if back < 0 || top < back {
		t.Fatalf("the back comes at %d, the top at %d", back, top)
	}
	r.Steps = slices.Clone(whole)
	r.Steps[back], r.Steps[top] = whole[top], whole[back]
	if bad := judgeBuilding(r); !slices.ContainsFunc(bad, func(s string) bool { return strings.Contains(s, "A.back cannot get into its grooves") }) {
		t.Errorf("a back put in last is not seen: %v", bad)
	}
	r.Steps = slices.Delete(slices.Clone(whole), back, back+1)
	if bad := judgeBuilding(r); !slices.ContainsFunc(bad, func(s string) bool { return strings.Contains(s, "A.back, back, comes in 0 times") }) {
		t.Errorf("a back left out is not seen: %v", bad)
	}
	r.Steps = slices.Delete(slices.Clone(whole), top, top+1)
	if bad := judgeBuilding(r); !slices.ContainsFunc(bad, func(s string) bool { return strings.Contains(s, "are bought, the steps fit") }) {
		t.Errorf("screws left out are not seen: %v", bad)
	}
}
