package papertest

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
)

// told is what plan.json says that paper has to say too; see docs/plan.schema.json.
type told struct {
	Parts []planPart
	Steps []struct {
		N     int
		Owner string
		Text  string
		Parts []string
		New   []string
		Tool  string
		Fits  []struct {
			Item string
			Qty  int
		}
	}
	Shopping []struct{ Item, Name, Kind, Need string }
	Joints   []planJoint
}

type planPart struct {
	Mark, Owner, Name, Role, Made, Stock, Grain, Motion string
	Size, Cut                                           [3]float64
	Edging                                              [4]string
	Ops                                                 []planOp
	Box                                                 struct{ Min, Max [3]float64 }
	Pose                                                struct{ Axes [3][3]int }
}

type planOp struct {
	Kind, Face, Towards, For string
	X, Y, L, W, Dia, Depth   float64
	Angle                    int
}

type planJoint struct{ Kind, A, B string }

// exact is how far a printed size may be from the true one, in mm: half a hundredth of a
// millimetre or half a thousandth of an inch where the exact size is printed, and up to 0.05
// where a tape shows it well enough.
const exact = 0.055

func same1(a, b float64) bool { return math.Abs(a-b) <= exact }

// Compare holds what a set tells against plan.json and gives all that is missing or
// contradicts. Sizes may differ by what was rounded on paper.
func Compare(s Set, planJSON []byte) []string {
	var p told
	if err := json.Unmarshal(planJSON, &p); err != nil {
		return []string{err.Error()}
	}
	c := &comparing{set: s, plan: p}
	c.faults = append(c.faults, s.Faults...)
	c.parts()
	c.steps()
	c.things()
	c.boring()
	c.faults = append(c.faults, rows(s.Steps)...)
	return c.faults
}

type comparing struct {
	set    Set
	plan   told
	faults []string
}

func (c *comparing) fault(format string, a ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, a...))
}

func (c *comparing) parts() {
	on := map[string]Part{}
	for _, p := range c.set.Parts {
		on[p.Mark] = p
	}
	stocks := map[string]string{} // the board's name on paper, by its id
	for _, want := range c.plan.Parts {
		got, ok := on[want.Mark]
		if !ok {
			c.fault("%s (%s) is on no sheet", want.Mark, want.Name)
			continue
		}
		delete(on, want.Mark)
		if !named(got.Name, want.Name) {
			c.fault("%s is called %q on paper, and is %q", want.Mark, got.Name, want.Name)
		}
		if was, ok := stocks[want.Stock]; ok && was != got.Board {
			c.fault("%s is of %q on paper, others of the same stock of %q", want.Mark, got.Board, was)
		}
		stocks[want.Stock] = got.Board
		if got.Bought != (want.Made == "bought") {
			c.fault("%s: paper and plan disagree on whether it is bought", want.Mark)
		}
		if got.Bought {
			continue
		}
		for i := range 3 {
			if !same1(got.Size[i], want.Size[i]) {
				c.fault("%s is %.2f × %.2f × %.2f on paper, and is %.2f × %.2f × %.2f", want.Mark, got.Size[0], got.Size[1], got.Size[2], want.Size[0], want.Size[1], want.Size[2])
				break
			}
		}
		if !same1(got.Sawn[0], want.Cut[0]) || !same1(got.Sawn[1], want.Cut[1]) {
			c.fault("%s is sawn to %.2f × %.2f on paper, and to %.2f × %.2f", want.Mark, got.Sawn[0], got.Sawn[1], want.Cut[0], want.Cut[1])
		}
		if got.Grain != want.Grain {
			c.fault("%s: the grain runs %s on paper, and %s", want.Mark, got.Grain, want.Grain)
		}
		c.ops(got, want)
	}
	for m := range on {
		c.fault("%s is on paper and in no plan", m)
	}
	names := map[string]string{}
	for id, n := range stocks {
		if was, ok := names[n]; ok {
			c.fault("stocks %s and %s are both called %q on paper", was, id, n)
		}
		names[n] = id
	}
}

// named tells whether a name that a part shares with those that are alike is its own: the
// whole name, the name without its numbers, or one of several.
func named(paper, name string) bool {
	bare := func(s string) string {
		var out []string
		for _, w := range strings.Fields(s) {
			if strings.Trim(w, "0123456789") != "" {
				out = append(out, w)
			}
		}
		return strings.Join(out, " ")
	}
	if paper == name || paper == bare(name) || strings.HasSuffix(paper, " and others") {
		return true
	}
	return slices.Contains(strings.Split(paper, ", "), bare(name)) || strings.Contains(", "+paper+", ", ", "+bare(name)+", ")
}

// ops compares the workings and the edging of a part. Parts that are one piece on the bench are
// drawn once, so a drawing may show a part turned round: it is the same piece then, and its faces
// have the names that the drawing gives them or those of a board that lies anyhow. A mirror image
// has everything at the same places on its own faces.
func (c *comparing) ops(got Part, want planPart) {
	physical := c.called(want)
	var least []string
	for i, turn := range [][]string{nil, {"start", "near"}, {"start", "upper"}, {"near", "upper"}} {
		axes := slices.Clone(turn)
		if got.Mirror { // through the thickness
			axes = append(axes, "upper")
		}
		names := map[string]string{} // of the drawing's faces
		for f := range opposite {
			names[f] = physical[turned(f, axes)]
		}
		is := func(word, face string) bool { return word == names[face] || word == anyhow[face] }
		var wrong []string
		say := func(f string, a ...any) { wrong = append(wrong, got.Mark+fmt.Sprintf(f, a...)) }
		if got.worked > 0 && (!is(got.Along, "start") || !is(got.Across, "near") || got.Up != "" && !is(got.Up, "lower")) {
			say(": paper measures from the %s, the %s and the %s, which are its %s, %s and %s", got.Along, got.Across, got.Up, names["start"], names["near"], names["lower"])
		}
		banded := 0
		for k, f := range []string{"start", "end", "near", "far"} {
			if want.Edging[k] == "" {
				continue
			}
			banded++
			g := turned(f, axes)
			if got.Bands != "all round" && !slices.ContainsFunc(strings.Split(got.Bands, ", "), func(w string) bool { return is(w, g) }) {
				say(" has edging on its %s, on paper on %q", physical[f], got.Bands)
			}
		}
		if n := len(strings.FieldsFunc(got.Bands, func(r rune) bool { return r == ',' })); n != banded && (got.Bands != "all round" || banded != 4) {
			say(" has edging on %d edges, on paper on %q", banded, got.Bands)
		}
		rest := slices.Clone(got.Ops)
		for _, o := range want.Ops {
			for _, a := range axes {
				o = flip(o, axisOf[a], want.Size)
			}
			o = through(o, want.Size)
			j := slices.IndexFunc(rest, func(x Op) bool { return matches(x, o, is, c.set.Inches) })
			if j < 0 {
				say(": %s for %s, %s, at %.2f, %.2f is not on paper", o.Kind, o.For, names[o.Face], o.X, o.Y)
				continue
			}
			rest = slices.Delete(rest, j, j+1)
		}
		for _, o := range rest {
			say(": paper has a %s for %s, %s, at %.2f, %.2f", o.Kind, o.For, o.Face, o.X, o.Y)
		}
		if i == 0 || len(wrong) < len(least) {
			least = wrong
		}
	}
	c.faults = append(c.faults, least...)
}

// anyhow are the names of the faces of a board of which no place is told.
var anyhow = map[string]string{"upper": "face side", "lower": "other side", "start": "start end", "end": "far end", "near": "face edge", "far": "far edge"}

var axisOf = map[string]int{"start": 0, "end": 0, "near": 1, "far": 1, "upper": 2, "lower": 2}

// turned gives the face that another becomes by reflections in the axes of some faces.
func turned(f string, axes []string) string {
	for _, a := range axes {
		if axisOf[a] == axisOf[f] {
			f = opposite[f]
		}
	}
	return f
}

// called names the faces of a part by where they are, after the rule of docs/marks.md, from its
// place in plan.json.
func (c *comparing) called(p planPart) map[string]string {
	fronts := []string{"door", "drawer front", "false front"}
	lo, hi := [3]float64{1e9, 1e9, 1e9}, [3]float64{-1e9, -1e9, -1e9}
	for _, q := range c.plan.Parts {
		if q.Owner == p.Owner && q.Motion == p.Motion && (p.Motion == "" || !slices.Contains(fronts, q.Role)) {
			for k := range 3 {
				lo[k], hi[k] = min(lo[k], q.Box.Min[k]), max(hi[k], q.Box.Max[k])
			}
		}
	}
	alone := lo[0] > hi[0] || p.Role == "cleat" || p.Role == "wall cleat"
	front := slices.Contains(fronts, p.Role) || p.Role == "filler"
	out := map[string]string{}
	for f := range opposite {
		v := p.Pose.Axes[axisOf[f]]
		k, sign := 0, 0
		for i, x := range v {
			if x != 0 {
				k, sign = i, x
			}
		}
		if f == "start" || f == "near" || f == "lower" {
			sign = -sign
		}
		side := [3][2]string{{"left", "right"}, {"front", "rear"}, {"lower", "upper"}}[k][0]
		if sign > 0 {
			side = [3][2]string{{"left", "right"}, {"front", "rear"}, {"lower", "upper"}}[k][1]
		}
		off := (p.Box.Min[k] + p.Box.Max[k] - lo[k] - hi[k]) / 2
		switch {
		case axisOf[f] == 0:
			out[f] = side + " end"
		case axisOf[f] == 1:
			out[f] = side + " edge"
		case k == 2:
			out[f] = map[bool]string{true: "top face", false: "underside"}[sign > 0]
		case front && k == 1:
			out[f] = map[bool]string{true: "inside face", false: "outside face"}[sign > 0]
		case alone || math.Abs(off)*2 < (hi[k]-lo[k])/2-1e-6:
			out[f] = side + " face"
		case (off > 0) == (sign > 0):
			out[f] = "outside face"
		default:
			out[f] = "inside face"
		}
	}
	return out
}

// extent gives the two sizes of a face and how deep the board is behind it.
func extent(face string, s [3]float64) (a, b, deep float64) {
	switch face {
	case "start", "end":
		return s[1], s[2], s[0]
	case "near", "far":
		return s[0], s[2], s[1]
	}
	return s[0], s[1], s[2]
}

// through marks what goes through a board, which is the same from either face.
func through(o planOp, s [3]float64) planOp {
	_, _, deep := extent(o.Face, s)
	switch o.Kind {
	case "bevel", "taper":
		return o
	}
	if o.Depth >= deep-1e-6 || o.Kind == "notch" || o.Kind == "cutout" {
		o.Depth = -1
		if o.Face == "lower" && o.Kind != "pocket" && o.Kind != "countersink" {
			o.Face = "upper"
		}
	}
	return o
}

// matches tells whether a working on paper is that of the plan, in the frame of its drawing.
func matches(x Op, o planOp, is func(word, face string) bool, inches bool) bool {
	on := is(x.Face, o.Face)
	if o.Depth < 0 && (o.Face == "upper" || o.Face == "lower") && o.Kind != "pocket" && o.Kind != "countersink" {
		on = on || is(x.Face, opposite[o.Face]) // the same from either face
	}
	if x.Kind != o.Kind || !on || x.For != o.For && o.For != "" {
		return false
	}
	switch o.Kind {
	case "bevel":
		return x.Angle == o.Angle && is(x.Towards, o.Towards)
	case "taper":
		return same1(x.Y, o.Y) && same1(x.Depth, o.Depth)
	case "pocket":
		if x.Angle != o.Angle || !is(x.Towards, o.Towards) {
			return false
		}
	}
	deep := same1(x.Depth, o.Depth)
	if inches && o.Depth > 0 && (o.Kind == "hole" || o.Kind == "cup") { // a stop is set by a tape, rather too deep than not enough
		deep = x.Depth > o.Depth-exact && x.Depth < o.Depth+inch/32+exact
	}
	return deep && same1(x.X, o.X) && same1(x.Y, o.Y) && same1(x.L, o.L) && same1(x.W, o.W) && same1(x.Dia, o.Dia)
}

var opposite = map[string]string{"upper": "lower", "lower": "upper", "start": "end", "end": "start", "near": "far", "far": "near"}

// flip gives a working as it lies when its part is reflected in one of its axes; two flips turn
// the part round.
func flip(o planOp, axis int, s [3]float64) planOp {
	of := map[string]int{"start": 0, "end": 0, "near": 1, "far": 1, "upper": 2, "lower": 2}
	x, y := 0, 1
	switch o.Face {
	case "start", "end":
		x, y = 1, 2
	case "near", "far":
		x, y = 0, 2
	}
	switch {
	case o.Kind == "taper":
		if axis == 0 {
			o.Y, o.Depth = o.Depth, o.Y
		}
	case x == axis:
		o.X = s[axis] - o.X - o.L
	case y == axis:
		o.Y = s[axis] - o.Y - o.W
	}
	if of[o.Face] == axis {
		o.Face = opposite[o.Face]
	}
	if o.Towards != "" && of[o.Towards] == axis {
		o.Towards = opposite[o.Towards]
	}
	return o
}

// steps holds the numbered steps against the plan's: every number, in order, with the parts it
// names and the hardware it takes; every part comes in by one assembling step.
func (c *comparing) steps() {
	want := map[int]int{}
	for i, s := range c.plan.Steps {
		want[s.N] = i
	}
	names := map[string][]string{} // of an item: slides of two lengths have two
	for _, t := range c.plan.Shopping {
		t.Name, _, _ = strings.Cut(t.Name, "; ")
		if !slices.Contains(names[t.Item], t.Name) {
			names[t.Item] = append(names[t.Item], t.Name)
		}
	}
	told := map[int]bool{}
	for _, s := range c.set.Steps {
		i, ok := want[s.N]
		if !ok {
			c.fault("step %d on paper is no step of the plan", s.N)
			continue
		}
		if told[s.N] {
			c.fault("step %d stands twice on paper", s.N)
		}
		told[s.N] = true
		w := c.plan.Steps[i]
		for _, m := range w.New {
			if !slices.Contains(s.Marks, m) {
				c.fault("step %d brings in %s and does not name it on paper", s.N, m)
			}
		}
		if w.Owner == "" { // sawing and boring: all that is handled, and nothing else
			for _, m := range w.Parts {
				if !slices.Contains(s.Marks, m) {
					c.fault("step %d works on %s and does not name it on paper", s.N, m)
				}
			}
		}
		for _, m := range s.Marks {
			said := m // by the marks of the case that is told, where it is done with others too
			if code, local, _ := strings.Cut(m, "."); slices.Contains(s.like, code) {
				said = s.like[0] + "." + local
			}
			if !slices.Contains(w.Parts, m) && !slices.Contains(w.New, m) && !strings.Contains(w.Text, said) {
				c.fault("step %d names %s on paper and does not handle it", s.N, m)
			}
		}
		n := map[string]int{}
		for _, f := range w.Fits {
			n[f.Item] += f.Qty
		}
		for item, qty := range n {
			got := 0
			for _, name := range names[item] {
				got += s.Fits[name]
			}
			if got != qty && slices.ContainsFunc(c.set.Things, func(t Thing) bool { return slices.Contains(names[item], t.Name) }) {
				c.fault("step %d takes %d × %s on paper, and %d", s.N, got, names[item][0], qty)
			}
		}
		for name := range s.Fits {
			ours := false
			for item := range n {
				ours = ours || slices.Contains(names[item], name)
			}
			if !ours {
				c.fault("step %d takes %s on paper, and none", s.N, name)
			}
		}
	}
	put := map[string]bool{}
	for _, s := range c.set.Steps {
		for _, m := range s.Marks {
			put[m] = put[m] || !s.Shop
		}
	}
	for _, p := range c.set.Parts {
		if !put[p.Mark] {
			c.fault("%s is put in its place by no step", p.Mark)
		}
	}
	for _, s := range c.plan.Steps {
		if !told[s.N] {
			c.fault("step %d is on no sheet: %.60s", s.N, s.Text)
		}
	}
}

// spared are the things that are bought with some to spare, as the shopping list says.
var spared = regexp.MustCompile(`\b(screw|pin|dowel)\b`)

// things holds what the steps take against what the shopping list buys.
func (c *comparing) things() {
	taken := map[string]int{}
	for _, s := range c.set.Steps {
		for name, n := range s.Fits {
			taken[name] += n
		}
	}
	for _, t := range c.set.Things {
		n, ok := taken[t.Name]
		if !ok || t.Need < 0 {
			continue
		}
		least, most := n, n
		if name, _, _ := strings.Cut(t.Name, ","); spared.MatchString(name) {
			least = n + int(math.Ceil(float64(n*c.set.Spare)/100))
			most = least + t.Lines - 1
		}
		if t.Need < least || t.Need > most {
			c.fault("the steps take %d × %s and the shopping list needs %d", n, t.Name, t.Need)
		}
	}
}
