package papertest

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
)

// groove gives where a groove or rabbet of a placed part lies in the room: its two sides across its run, on an
// axis, and its floor on another.
func (b *build) groove(ref string) (across int, mid float64, into int, floor float64, ok bool) {
	p, x := b.parts[ref], b.at[ref]
	for k := range 3 { // through the thickness
		if math.Abs(x.hi[k]-x.lo[k]-p.Size[2]) < 0.5 {
			into = k
		}
	}
	for _, o := range p.Ops {
		if o.Kind != "groove" && o.Kind != "rabbet" || o.Depth < 0 || o.For != "back" && o.For != "bottom" {
			continue
		}
		from, at, wide := p.Across, o.Y, o.W
		if o.L < o.W {
			from, at, wide = p.Along, o.X, o.L
		}
		k, high, _ := axis(from)
		if k < 0 {
			continue
		}
		mid = x.lo[k] + at + wide/2
		if high {
			mid = x.hi[k] - at - wide/2
		}
		return k, mid, into, o.Depth, true
	}
	return 0, 0, 0, 0, false
}

// slide puts a panel into grooves: its thickness stands in the middle of their widths, its edges on
// their floors.
func (b *build) slide(mark string, in []string) {
	p := b.parts[mark]
	lo, hi := [3]float64{-1e9, -1e9, -1e9}, [3]float64{1e9, 1e9, 1e9}
	thick, mid := -1, 0.0
	var all box
	for i, ref := range in {
		x, ok := b.at[ref]
		if !ok {
			b.why[mark] = ref + " has no place yet"
			return
		}
		if i == 0 {
			all = x
		}
		for k := range 3 {
			all.lo[k], all.hi[k] = min(all.lo[k], x.lo[k]), max(all.hi[k], x.hi[k])
		}
	}
	for _, ref := range in {
		x := b.at[ref]
		k, m, into, floor, ok := b.groove(ref)
		if !ok {
			continue
		}
		if thick >= 0 && (k != thick || math.Abs(m-mid) > placedWithin) {
			b.why[mark] = fmt.Sprintf("the groove of %s is %.1f mm off that of another", ref, m-mid)
			return
		}
		thick, mid = k, m
		if (x.lo[into]+x.hi[into])/2 < (all.lo[into]+all.hi[into])/2 {
			lo[into] = max(lo[into], x.hi[into]-floor)
		} else {
			hi[into] = min(hi[into], x.lo[into]+floor)
		}
	}
	if thick < 0 {
		b.why[mark] = "no groove is drawn for it"
		return
	}
	var rest []int
	for k := range 3 {
		if k != thick {
			rest = append(rest, k)
		}
	}
	var x box
	x.lo[thick], x.hi[thick] = mid-p.Size[2]/2, mid+p.Size[2]/2
	// which way it stands: the one that leaves less air between the floors of two grooves
	best := 1e9
	for _, w := range [][2]int{{0, 1}, {1, 0}} {
		air := 0.0
		y := x
		for i, k := range rest {
			s := p.Size[w[i]]
			switch {
			case lo[k] > -1e8 && hi[k] < 1e8:
				air += math.Abs(hi[k] - lo[k] - s)
				y.lo[k] = (lo[k] + hi[k] - s) / 2
			case lo[k] > -1e8:
				air += math.Abs(all.hi[k]-lo[k]-s) / 10
				y.lo[k] = lo[k]
			case hi[k] < 1e8:
				air += math.Abs(hi[k]-all.lo[k]-s) / 10
				y.lo[k] = hi[k] - s
			default:
				y.lo[k] = all.lo[k]
			}
			y.hi[k] = y.lo[k] + s
		}
		if air < best {
			best = air
			x = y
		}
	}
	b.at[mark], b.unit[mark], b.loose[mark] = x, b.unit[in[0]], true
}

// shelf lays a shelf on its pins, beside an upright, from its lower end and its front edge.
func (b *build) shelf(mark string, up, deep float64, side string) {
	p, q := b.parts[mark], b.at[side]
	if _, has := b.at[side]; !has {
		b.why[mark] = side + " has no place yet"
		return
	}
	var x box
	x.lo = [3]float64{q.hi[0], q.lo[1] + deep, q.lo[2] + up}
	for k, s := range p.Size {
		x.hi[k] = x.lo[k] + s
	}
	b.at[mark], b.unit[mark], b.loose[mark] = x, b.unit[side], true
}

// doors hangs doors: their cups meet the plates on the side that each is hinged to, and the gaps
// beside them are even.
func (b *build) doors(list []string, gap float64) {
	code, _, _ := strings.Cut(list[0], ".")
	left, ok := b.at[code+".left"]
	right, ok2 := b.at[code+".right"]
	if !ok || !ok2 {
		return
	}
	wide := -gap
	for _, m := range list {
		k := 1
		if strings.HasPrefix(b.parts[m].Across, "lower") {
			k = 0
		}
		wide += b.parts[m].Size[k] + gap
	}
	x := (left.lo[0] + right.hi[0] - wide) / 2
	for _, m := range list {
		p := b.parts[m]
		side := code + ".left"
		if strings.Contains(p.Name, "right") {
			side = code + ".right"
		}
		told := doorUp.FindStringSubmatch(b.text[max(strings.Index(b.text, "– "+m+": "), 0):])
		if told != nil && told[1] == m && b.parts[told[4]].Mark != "" { // a partition between two pairs, too
			side = told[4]
		}
		z, why := b.hinged(p, b.parts[side])
		if why != "" {
			b.why[m] = why
			x += p.Size[1] + gap
			continue
		}
		switch {
		case told == nil || told[1] != m || told[4] != side:
			b.why[m] = "its step does not say how high it hangs on " + side
		case math.Abs(b.height(told[2], told[3])-z) > placedWithin:
			b.why[m] = fmt.Sprintf("its step says %s %s, its hinges %.1f mm", told[2], told[3], z)
		}
		if b.why[m] != "" {
			x += p.Size[1] + gap
			continue
		}
		up := b.at[side].lo[2] + z
		w, h := p.Size[1], p.Size[0]
		if strings.HasPrefix(p.Across, "lower") {
			w, h = h, w
		}
		b.at[m] = box{[3]float64{x, left.lo[1] - p.Size[2], up}, [3]float64{x + w, left.lo[1], up + h}}
		b.unit[m], b.loose[m] = code+".left", true
		x += w + gap
	}
}

// height reads how high something is told to be: "5 mm", "up from" or "below", or neither for flush.
func (b *build) height(size, way string) float64 {
	switch way {
	case "up from":
		return b.size(size)
	case "below":
		return -b.size(size)
	}
	return 0
}

var doorUp = regexp.MustCompile(`– (` + aMark + `): lower (?:end|edge) (?:(` + figure + `) (up from|below)|flush with) the lower (?:end|edge) of (` + aMark + `), of whose front edge it covers`)

// hinged gives how far a door's lower end is above that of the side it is hinged to: every cup lies
// over the middle of a pair of holes for a plate.
func (b *build) hinged(door, side Part) (float64, string) {
	var cups, plates []float64
	for _, o := range door.Ops {
		if o.Kind == "cup" {
			cups = append(cups, upward(door, o))
		}
	}
	for _, o := range side.Ops {
		if at, _, _ := strings.Cut(o.Face, " "); o.For == "hinge plate" && (at != "left" && at != "right" || strings.HasPrefix(door.Name, "left") == (at == "right")) {
			plates = append(plates, upward(side, o))
		}
	}
	slices.Sort(cups)
	slices.Sort(plates)
	if len(cups) == 0 || len(plates) != 2*len(cups) {
		return 0, fmt.Sprintf("%d cups and %d holes for plates", len(cups), len(plates))
	}
	up := (plates[0]+plates[1])/2 - cups[0]
	for i, c := range cups {
		if d := (plates[2*i]+plates[2*i+1])/2 - c - up; math.Abs(d) > 0.2 {
			return 0, fmt.Sprintf("cup %d is %.1f mm off its plate", i+1, d)
		}
	}
	return up, ""
}

// upward gives how far a working is above the lower side of its part.
func upward(p Part, o Op) float64 {
	switch "lower" {
	case strings.Fields(p.Along)[0]:
		return o.X
	case strings.Fields(p.Across)[0]:
		return o.Y
	}
	return math.NaN()
}

// fronts stacks the fronts of drawers, the lowest first, so high and so far in from the left face of the case.
func (b *build) fronts(list []string, gap, up, in float64) {
	code, _, _ := strings.Cut(list[0], ".")
	left, ok := b.at[code+".left"]
	if !ok {
		return
	}
	z := left.lo[2] + up
	for _, m := range list {
		p := b.parts[m]
		high, wide := p.Size[0], p.Size[1] // the grain runs up
		if k, _, _ := axis(p.Along); k == 0 {
			high, wide = wide, high
		}
		x := left.lo[0] + in
		b.at[m] = box{[3]float64{x, left.lo[1] - p.Size[2], z}, [3]float64{x + wide, left.lo[1], z + high}}
		b.unit[m], b.loose[m] = code+".left", true
		z += high + gap
	}
}
