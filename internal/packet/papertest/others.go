package papertest

import (
	"math"
	"regexp"
	"strings"
)

// What stands in slots, hangs in flanges, is screwed to the wall or goes between two cases is placed by
// measures from an upright of its case.

var (
	inSlots = regexp.MustCompile(`\((` + aMark + `)\): in slot \d+ of \d+ from the left, left face (` + figure + `) to the right of ` + ofMark + `(?:; (` + figure + `) high, its lower side (?:(` + figure + `) (up from|below)|flush with) the lower (?:end|edge) of that and its front (?:flush with|(` + figure + `) behind) the front|, else as the one before)`)
	aTube   = regexp.MustCompile(`– (` + aMark + `): (` + figure + `) to the right of ` + ofMark + `, its middle (` + figure + `) up from the lower (?:end|edge) of that and (` + figure + `) behind the front`)
	onWall  = regexp.MustCompile(`Fix [^(]+? of (.+?) \((` + aMark + `)\) to the wall, level, its lower edge (` + figure + `) up, its left end (` + figure + `) along`)
	lifted  = regexp.MustCompile(`Lift (.+?) on to its cleat, lower edge (` + figure + `) up, left side (` + figure + `) along`)
	across  = regexp.MustCompile(`\b(?:Screw|Bolt) the rails of .+? between the cases`)
)

// cleat is a board on the wall that a case is lifted on to: where it lies there.
type cleat struct {
	mark     string
	along, z float64
}

// stood places boards in slots: each but the first may stand as the one before it.
func (b *build) stood(text string) {
	var high, low, deep float64
	for _, m := range inSlots.FindAllStringSubmatch(text, -1) {
		if m[4] != "" {
			high, low, deep = b.size(m[4]), 0, 0
			if m[5] != "" {
				low = b.size(m[5])
			}
			if m[6] == "below" {
				low = -low
			}
			if m[7] != "" {
				deep = b.size(m[7])
			}
		}
		p, q := b.parts[m[1]], b.at[m[3]]
		if !b.has(m[3]) {
			b.why[m[1]] = m[3] + " has no place yet"
			continue
		}
		way := -1
		for k := range 2 {
			if math.Abs(p.Size[k]-high) < 0.9 {
				way = k
			}
		}
		if way < 0 {
			b.why[m[1]] = "it is not as high as the step says"
			continue
		}
		x := box{lo: [3]float64{q.hi[0] + b.size(m[2]), q.lo[1] + deep, q.lo[2] + low}}
		for k, s := range [3]float64{p.Size[2], p.Size[1-way], p.Size[way]} {
			x.hi[k] = x.lo[k] + s
		}
		b.at[m[1]], b.unit[m[1]], b.loose[m[1]] = x, b.unit[m[3]], true
	}
}

// tubes places what is bought and hangs between two sides.
func (b *build) tubes(text string) {
	for _, m := range aTube.FindAllStringSubmatch(text, -1) {
		p, q := b.parts[m[1]], b.at[m[3]]
		if !b.has(m[3]) {
			continue
		}
		r := p.Size[1] / 2
		y, z := q.lo[1]+b.size(m[5]), q.lo[2]+b.size(m[4])
		x := q.hi[0] + b.size(m[2])
		b.at[m[1]] = box{[3]float64{x, y - r, z - r}, [3]float64{x + p.Size[0], y + r, z + r}}
		b.unit[m[1]], b.loose[m[1]] = b.unit[m[3]], true
	}
}

// lift places a cleat behind the case that is lifted on to it.
func (b *build) lift(text string) {
	if m := onWall.FindStringSubmatch(text); m != nil {
		b.cleats[m[1]] = cleat{m[2], b.size(m[4]), b.size(m[3])}
	}
	m := lifted.FindStringSubmatch(text)
	if m == nil {
		return
	}
	c, ok := b.cleats[m[1]]
	code, _, _ := strings.Cut(c.mark, ".")
	side, has := b.at[code+".left"]
	if !ok || !has {
		return
	}
	p := b.parts[c.mark]
	x := box{lo: [3]float64{side.lo[0] + c.along - b.size(m[3]), side.hi[1] - p.Size[2], side.lo[2] + c.z - b.size(m[2])}}
	for k, s := range [3]float64{p.Size[0], p.Size[2], p.Size[1]} {
		x.hi[k] = x.lo[k] + s
	}
	b.at[c.mark], b.unit[c.mark], b.loose[c.mark] = x, b.unit[code+".left"], true
}
