package papertest

import (
	"math"
	"regexp"
	"slices"
	"strings"
)

// box is where a part lies: x to the right, y to the back, z up, in mm.
type box struct{ lo, hi [3]float64 }

// like tells whether two boxes are one within what is read on a tape.
func (x box) like(y box) bool {
	for k := range 3 {
		if math.Abs(x.lo[k]-y.lo[k]) > 0.5 || math.Abs(x.hi[k]-y.hi[k]) > 0.5 {
			return false
		}
	}
	return true
}

// build puts parts together by what the steps say, one unit after the other: a carcass, a drawer, a
// rack. It knows the parts as the paper tells them, and nothing else.
type build struct {
	set    Set
	parts  map[string]Part
	at     map[string]box    // parts that have their place, in the frame of their unit
	unit   map[string]string // the first part of the unit that a part is in
	text   string            // of the step
	first  string            // of the unit that is put together now
	loose  map[string]bool   // lies with air round it: in grooves, on pins
	named  map[string]string // parts as the last step called them
	cleats map[string]cleat  // by the name of the case
	onIt   map[string]string // points that tell where others lie on a part, by its mark
	why    map[string]string // parts that a step brings in and that cannot be placed, and why not
}

var (
	beginWith = regexp.MustCompile(`(?i)\b(begin with|add) ([^:.]+?` + aRef + `)\. `)
	fitOne    = regexp.MustCompile(`(?i)\b(?:fit|screw) (` + aRef + `) (` + relation + `) (` + aRef + `)(?:: (` + seats + `) of (the sides|[^:(]*?` + aRef + `))?\. (?:Glue|\d|Held|Housed|[A-Z]|$)`)
	fitMany   = regexp.MustCompile(`(?i)\bfit (?:these \d+, each called [^:]*?,|` + aRef + `) (?:(` + relation + `) (` + aRef + `)|where (?:each|it) belongs)\. `)
	point     = regexp.MustCompile(`– (` + aMark + `)(?: (` + relation + `) (` + aRef + `))?(?:: (` + seats + `) of (the sides|[^:(]*?` + aRef + `))?(?: –|$| [A-Z])`)
	slideIn   = regexp.MustCompile(`(?i)\bslide [^:]*?\((` + aMark + `)\) from (?:the )?(\w+) into the grooves? of (.+?), without glue\.`)
	onPins    = regexp.MustCompile(`\((` + aMark + `)\): on pins(?: in (?:hole (\d+) of (\d+), counted from below|the holes ` + figure + ` up from the lower (?:end|edge)))?, underside (` + figure + `) up from the lower (?:end|edge) of ` + ofMark + `(?:, front edge (` + figure + `) behind its front (?:end|edge))?`)
	faceSize  = regexp.MustCompile(`Both diagonals of the face, (` + figure + `) by (` + figure + `),`)
	unitSize  = regexp.MustCompile(`measure both diagonals, (` + figure + `) by (` + figure + `):`)
	aSeat     = regexp.MustCompile(`^(` + aFace + `) (?:flush with|(` + figure + `) (behind|up from|from|to the left of|in front of|below)) the (` + aFace + `)$`)
	calling   = regexp.MustCompile(`([a-z0-9 ,-]+) \((` + aMark + `)\)`)
	pairs     = regexp.MustCompile(`between [^:]*?` + aMark + `\)? and [^:]*?` + aMark + `\)?`)
	onSides   = regexp.MustCompile(`(on|under|against the (?:left|right|front|rear) of) ([^:]*?)(?:, and (?:on|under|against)|: |\. )`)
	hangs     = regexp.MustCompile(`(?i)\bhang (.+?) with \d.*Adjust to gaps of (` + figure + `) between the fronts`)
	setFronts = regexp.MustCompile(`(?i)\bset the fronts from the lowest up on spacers of (` + figure + `), screwed from inside the boxes: (.+?)\. The lower edge of the lowest is (?:(` + figure + `) (up from|below)|flush with) the lower (?:end|edge) of the sides, their left edges are (` + figure + `) from the left face of ` + aMark + `\.`)
	inMarks   = regexp.MustCompile(`\b(` + aMark + `)\b`)
)

const (
	oneSeat  = aFace + ` (?:flush with|` + figure + ` (?:behind|up from|from|to the left of|in front of|below)) the ` + aFace
	seats    = oneSeat + `(?:, ` + oneSeat + `)*`
	aMark    = `[A-Z][A-Za-z0-9]*\.[0-9A-Za-z]+`
	aRef     = `[^:]*?\b` + aMark + `\)?`
	ofMark   = `(?:[^(.]*?\()?(` + aMark + `)\)?`
	relation = `between|on|under|against the (?:left|right|front|rear) of|in the rabbets of|to`
)

// Rebuild puts together what can be put together by the steps' own words.
func (s Set) Rebuild() *build {
	b := &build{set: s, parts: map[string]Part{}, at: map[string]box{}, unit: map[string]string{}, loose: map[string]bool{}, named: map[string]string{}, cleats: map[string]cleat{}, onIt: map[string]string{}, why: map[string]string{}}
	for _, p := range s.Parts {
		b.parts[p.Mark] = p
	}
	for i, st := range s.Steps {
		if st.Shop {
			continue
		}
		units, codes := st.units, st.like
		if len(units) == 0 {
			units = []string{""}
		}
		if len(codes) == 0 {
			codes = []string{""}
		}
		for _, u := range units { // what is told of one is done with all that are alike
			for _, c := range codes {
				one := st
				one.Text = markWord.ReplaceAllStringFunc(st.Text, func(m string) string {
					code, local, _ := strings.Cut(m, ".")
					if rest, ok := strings.CutPrefix(local, units[0]); ok && u != "" {
						local = u + rest
					}
					if c != "" && code == codes[0] {
						code = c
					}
					return code + "." + local
				})
				b.step(one, s.Steps[i:])
			}
		}
	}
	return b
}

func marksIn(s string) (out []string) {
	for _, m := range inMarks.FindAllStringSubmatch(s, -1) {
		out = append(out, m[1])
	}
	return out
}

// step does what a step says. Those that follow tell how large the whole is.
func (b *build) step(st Step, then []Step) {
	text := b.full(st.Text)
	b.text = text
	for _, m := range calling.FindAllStringSubmatch(text, -1) {
		b.named[m[2]] = m[1]
	}
	if m := beginWith.FindStringSubmatch(text); m != nil {
		list := marksIn(m[2])
		anew := strings.EqualFold(m[1], "begin with")
		if f := fitOne.FindStringSubmatch(text); !anew && f != nil { // a part of the whole that nothing holds yet
			anew = !slices.ContainsFunc(marksIn(f[3]), func(m string) bool { _, ok := b.at[m]; return ok })
		}
		if anew {
			b.begin(list, then)
		}
		text = text[strings.Index(text, m[0])+len(m[0]):]
	}
	b.lift(text)
	for _, m := range onPins.FindAllStringSubmatch(text, -1) {
		deep := 0.0
		if m[6] != "" {
			deep = b.size(m[6])
		}
		b.shelf(m[1], b.size(m[4]), deep, m[5])
	}
	switch {
	case inSlots.MatchString(text):
		b.stood(text)
	case aTube.MatchString(text):
		b.tubes(text)
	case slideIn.MatchString(text):
		m := slideIn.FindStringSubmatch(text)
		b.slide(m[1], marksIn(m[3]))
	case onPins.MatchString(text):
	case hangs.MatchString(text):
		m := hangs.FindStringSubmatch(text)
		b.doors(marksIn(m[1]), b.size(m[2]))
	case setFronts.MatchString(text):
		m := setFronts.FindStringSubmatch(text)
		b.fronts(marksIn(m[2]), b.size(m[1]), b.height(m[3], m[4]), b.size(m[5]))
	case point.MatchString(text) && (fitMany.MatchString(text) || across.MatchString(text)) && !b.has(point.FindStringSubmatch(text)[1]):
		head := fitMany.FindStringSubmatch(text)
		eachPoint(text, func(get func(int) string) {
			how, on := get(2), get(3)
			if how == "" {
				how, on = head[1], head[2]
			}
			b.fit(get(1), how, marksIn(on), get(4), get(5))
		})
	case fitOne.MatchString(text):
		m := fitOne.FindStringSubmatch(text)
		how, on := b.firm(strings.ToLower(m[2]), m[3])
		for _, p := range marksIn(m[1]) {
			b.fit(p, how, on, m[4], m[5])
			if how == "between" {
				b.up(p, m[3])
			}
		}
		b.spread(text)
	}
}

var also = regexp.MustCompile(`, and (` + relation + `) (` + aRef + `)$`)

// firm gives to what a part is fitted: where it goes between two that have no places yet and against
// another that has, to that other.
func (b *build) firm(how, on string) (string, []string) {
	m := also.FindStringSubmatchIndex(on)
	if how != "between" || m == nil {
		return how, marksIn(on)
	}
	first, then := marksIn(on[:m[0]]), marksIn(on[m[4]:m[5]])
	if len(first) == 2 && len(then) > 0 && !b.has(first[0]) && !b.has(first[1]) && b.has(then[0]) {
		return on[m[2]:m[3]], then
	}
	return how, marksIn(on)
}

// up brings a part that goes between two up to a third, against one side of which it lies too.
func (b *build) up(mark, on string) {
	m := also.FindStringSubmatch(on)
	x, ok := b.at[mark]
	if m == nil || !ok {
		return
	}
	q, ok := b.at[marksIn(m[2])[0]]
	if !ok {
		return
	}
	for k, w := range [3][2]string{{"against the left of", "against the right of"}, {"against the front of", "against the rear of"}, {"under", "on"}} {
		d := x.hi[k] - x.lo[k]
		switch m[1] {
		case w[0]:
			x.lo[k], x.hi[k] = q.lo[k]-d, q.lo[k]
		case w[1]:
			x.lo[k], x.hi[k] = q.hi[k], q.hi[k]+d
		}
	}
	b.at[mark] = x
}

// has tells whether a part has its place.
func (b *build) has(mark string) bool {
	_, ok := b.at[mark]
	return ok
}

func (b *build) size(s string) float64 {
	v, err := size(s, b.set.Inches)
	if err != nil {
		return math.NaN()
	}
	return v
}

// axis gives the axis that a face, an end or an edge looks along, whether it is the high one, and
// which of a part's sizes lies along it.
func axis(face string) (k int, high bool, dim int) {
	side, what, _ := strings.Cut(face, " ")
	switch side {
	case "left", "right":
		k, high = 0, side == "right"
	case "front", "rear":
		k, high = 1, side == "rear"
	case "lower", "upper", "top", "underside":
		k, high = 2, side == "upper" || side == "top"
	default:
		return -1, false, -1
	}
	switch what {
	case "end":
		dim = 0
	case "edge":
		dim = 1
	default:
		dim = 2
	}
	return k, high, dim
}

// lies gives, for the three ways of the room, which size of a part lies along each: -1 where
// nothing says so yet.
func (b *build) lies(mark string, faces ...string) [3]int {
	p := b.parts[mark]
	d := [3]int{-1, -1, -1}
	tell := faces
	for _, f := range []string{p.Along, p.Across} { // not those of a board that lies anyhow
		if f != "start end" && f != "face edge" {
			tell = append(tell, f)
		}
	}
	for _, o := range p.Ops {
		if o.Face != "face side" && o.Face != "other side" {
			tell = append(tell, o.Face)
		}
	}
	for _, f := range tell {
		if k, _, dim := axis(f); k >= 0 {
			d[k] = dim
		}
	}
	open, left := -1, []int{0, 1, 2}
	n := 0
	for k, dim := range d {
		if dim < 0 {
			open, n = k, n+1
			continue
		}
		left = slices.DeleteFunc(left, func(x int) bool { return x == dim })
	}
	if n == 1 && len(left) == 1 {
		d[open] = left[0]
	}
	return d
}

// faces gives those of a part that the step calls by their names.
func (b *build) faces(mark string) (list []string) {
	for _, m := range regexp.MustCompile(`the (`+aFace+`) of (?:[a-z0-9 ,-]*\()?`+regexp.QuoteMeta(mark)+`\b`).FindAllStringSubmatch(b.text, -1) {
		list = append(list, m[1])
	}
	return list
}

// begin lays down the first parts of a unit. What they are part of is told by its size further on.
func (b *build) begin(list []string, then []Step) {
	b.first = list[0]
	put := func(m string, lo [3]float64, d [3]int) {
		s := b.parts[m].Size
		var x box
		for k := range 3 {
			x.lo[k], x.hi[k] = lo[k], lo[k]+s[d[k]]
		}
		b.at[m], b.unit[m] = x, b.first
	}
	find := func(re *regexp.Regexp) []float64 {
		for i, st := range then {
			if i > 0 && beginWith.MatchString(st.Text) {
				return nil
			}
			if m := re.FindStringSubmatch(st.Text); m != nil {
				return []float64{b.size(m[1]), b.size(m[2])}
			}
		}
		return nil
	}
	names := []string{}
	for _, m := range list {
		names = append(names, b.parts[m].Name)
	}
	switch {
	case len(list) == 2 && strings.HasPrefix(names[0], "left side") && strings.Contains(names[1], "right side"):
		z := find(faceSize)
		if z == nil {
			b.why[list[0]] = "no step tells how large the face is"
			return
		}
		d := [3]int{2, 1, 0}
		put(list[0], [3]float64{}, d)
		put(list[1], [3]float64{z[0] - b.parts[list[1]].Size[2], 0, 0}, d)
	case len(list) == 2 && strings.HasPrefix(names[0], "box back") && strings.HasPrefix(names[1], "box front"):
		z := find(unitSize)
		if z == nil {
			b.why[list[0]] = "no step tells how large the box is"
			return
		}
		d := [3]int{0, 2, 1}
		x := (z[0] - b.parts[list[1]].Size[0]) / 2
		put(list[1], [3]float64{x, 0, 0}, d)
		put(list[0], [3]float64{x, z[1] - b.parts[list[0]].Size[2], 0}, d)
	case len(list) == 1:
		d := b.lies(list[0])
		if slices.Contains(d[:], -1) {
			d = b.lies(list[0], b.faces(list[0])...)
		}
		for dim := range 3 { // what nothing tells lies, along from the left to the right
			if k := slices.Index(d[:], -1); k >= 0 && !slices.Contains(d[:], dim) {
				d[k] = dim
			}
		}
		put(list[0], [3]float64{}, d)
	default:
		// several, which the next part holds apart: the first is laid down, where the others lie is
		// told by their own seats
		d := b.lies(list[0], b.faces(list[0])...)
		if k := slices.Index(d[:], 2); k >= 0 && slices.Contains(d[:], -1) && math.Abs(b.parts[list[0]].Size[0]-b.parts[list[0]].Size[1]) < 0.5 { // a square block: either way
			for i, dim := 0, 0; i < 3; i++ {
				if i != k {
					d[i], dim = dim, dim+1
				}
			}
		}
		switch {
		case strings.Contains(names[0], "leg"):
			d = [3]int{1, 2, 0}
		case slices.Contains(d[:], -1):
			d = [3]int{0, 2, 1} // a rail on edge
		}
		put(list[0], [3]float64{}, d)
		for _, m := range list[1:] {
			b.why[m] = "where it lies is not told"
		}
	}
}

// place is where the low or the high side of a part lies along an axis.
type place struct {
	high bool
	at   float64
}

// fit places a part by its seat on others: it touches them on one axis, lies as told on those that
// are named, and covers wholly on the rest.
func (b *build) fit(mark, how string, on []string, seat, of string) {
	p, ok := b.parts[mark]
	if !ok || len(on) == 0 {
		return
	}
	fail := func(why string) { b.why[mark] = why }
	ref := on[0]
	if l := marksIn(of); len(l) > 0 {
		ref = l[0]
	}
	q, ok := b.at[ref]
	if !ok {
		fail(ref + " has no place yet")
		return
	}
	placed, faces, why := b.seat(seat, q, false)
	if why != "" {
		fail(why)
		return
	}
	if seat == "" { // where those that it joins lie on it is told instead
		placed, faces = b.joined(mark, b.unit[ref])
	}
	touch := map[string]int{"against the left of": 0, "against the right of": 0, "against the front of": 1, "against the rear of": 1, "on": 2, "under": 2}
	contact, sided := touch[how]
	if how == "in the rabbets of" {
		k, mid, _, _, ok := b.groove(on[0])
		if !ok {
			fail("no rabbet is drawn for it")
			return
		}
		placed[k] = place{at: mid - p.Size[2]/2}
		contact, sided = k, true
	}
	second := ""
	if how == "between" {
		if x, has := b.at[on[1]]; !has || b.unit[on[0]] != b.unit[on[1]] { // the first of them has its place: this one goes behind or beside it, the second beyond
			k := b.opposed(on[0], on[1])
			if has && k >= 0 && q == x { // it joins two frames: a seat on either is one on the first
				q = b.at[on[0]]
			}
			if k < 0 {
				fail(on[1] + " has no place yet")
				return
			}
			second = on[1]
			how = [3]string{"against the right of", "against the rear of", "on"}[k]
			contact, sided = k, true
		}
	}
	if how == "between" {
		sided = true
		contact = -1
		a, c := b.at[on[0]], b.at[on[1]]
		gap := -1e9
		for k := range 3 { // the way in which the two are apart
			if g := max(c.lo[k]-a.hi[k], a.lo[k]-c.hi[k]); g > gap {
				gap, contact = g, k
			}
		}
	}
	if !sided {
		fail("on which side of " + ref + " it lies is not told")
		return
	}
	d := b.lies(mark, faces...)
	// what is still open is settled by what must be as long as what it covers
	var ways [][3]int
	for _, w := range [][3]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		fits := true
		for k := range 3 {
			_, told := placed[k]
			switch {
			case d[k] >= 0:
				fits = fits && d[k] == w[k]
			case told:
			case k == contact && how == "between":
				a, c := b.at[on[0]], b.at[on[1]]
				fits = fits && math.Abs(p.Size[w[k]]-max(c.lo[k]-a.hi[k], a.lo[k]-c.hi[k])) < 45
			case k != contact:
				fits = fits && math.Abs(p.Size[w[k]]-(q.hi[k]-q.lo[k])) < 1
			}
		}
		if fits {
			ways = append(ways, w)
		}
	}
	var found *box
	for _, w := range ways {
		var x box
		for k := range 3 {
			s := p.Size[w[k]]
			pl, told := placed[k]
			switch {
			case told && pl.high:
				x.lo[k] = pl.at - s
			case told:
				x.lo[k] = pl.at
			case k == contact && how == "between":
				a, c := b.at[on[0]], b.at[on[1]]
				x.lo[k] = (max(a.lo[k], c.lo[k])+min(a.hi[k], c.hi[k]))/2 - s/2
			case k == contact && (how == "on" || how == "against the right of" || how == "against the rear of"):
				x.lo[k] = b.at[on[0]].hi[k]
			case k == contact:
				x.lo[k] = b.at[on[0]].lo[k] - s
			default:
				x.lo[k] = q.lo[k]
			}
			x.hi[k] = x.lo[k] + s
		}
		if found != nil && !found.like(x) {
			fail("it fits in several ways")
			return
		}
		found = &x
	}
	if found == nil {
		fail("it fits in no way that the step tells")
		return
	}
	b.move(mark, *found, ref)
	if seat == "" && contact >= 0 {
		b.bring(mark, contact, strings.HasPrefix(how, "against the left") || strings.HasPrefix(how, "against the front") || how == "under")
	}
	if second != "" {
		x := b.at[on[0]]
		d := x.hi[contact] - x.lo[contact]
		x.lo[contact], x.hi[contact] = found.hi[contact], found.hi[contact]+d
		b.move(second, x, ref)
	}
}

// move gives a part its place in the unit of another, with all that it is joined to already.
func (b *build) move(mark string, to box, ref string) {
	if from, has := b.at[mark]; has && b.unit[mark] != b.unit[ref] {
		with := b.unit[mark]
		for m, z := range b.at {
			if b.unit[m] == with {
				for k := range 3 {
					z.lo[k] += to.lo[k] - from.lo[k]
					z.hi[k] += to.lo[k] - from.lo[k]
				}
				b.at[m], b.unit[m] = z, b.unit[ref]
			}
		}
	}
	b.at[mark], b.unit[mark] = to, b.unit[ref]
	delete(b.why, mark)
}

// opposed gives the axis on which two parts are called each other's opposites: left and right, front
// and rear; -1 for none.
func (b *build) opposed(first, second string) int {
	has := func(m, w string) bool {
		return slices.Contains(strings.FieldsFunc(b.named[m], func(r rune) bool { return strings.ContainsRune(" -,", r) }), w)
	}
	for k, w := range [3][2]string{{"left", "right"}, {"front", "rear"}, {"lower", "upper"}} {
		if has(first, w[0]) && has(second, w[1]) {
			return k
		}
	}
	return -1
}
