package papertest

import (
	"fmt"
	"math"
	"slices"
)

// spread places the parts that a unit begins with and that its first joining part holds apart.
func (b *build) spread(text string) {
	eachPoint(text, func(get func(int) string) {
		mark, ref := get(1), marksIn(get(5))
		if _, has := b.at[mark]; !has && len(ref) == 1 {
			b.fit(mark, b.otherSide(text, mark), ref, get(4), ref[0])
		}
	})
}

// eachPoint goes through the points of a step; get gives the groups of one.
func eachPoint(text string, see func(get func(int) string)) {
	for rest := text; ; {
		m := point.FindStringSubmatchIndex(rest)
		if m == nil {
			return
		}
		see(func(i int) string {
			if m[2*i] < 0 {
				return ""
			}
			return rest[m[2*i]:m[2*i+1]]
		})
		rest = rest[m[1]-min(m[1], len(" –")):]
	}
}

// otherSide says on which side of the joining part another lies, from the side of that other which
// the joining part is said to lie on.
func (b *build) otherSide(text, mark string) string {
	over := map[string]string{"on": "under", "under": "on", "against the left of": "against the right of", "against the right of": "against the left of",
		"against the front of": "against the rear of", "against the rear of": "against the front of"}
	for _, m := range pairs.FindAllStringSubmatch(text, -1) { // one of each pair is on the same side
		list := marksIn(m[0])
		if i := slices.Index(list, mark); i >= 0 && len(list) == 2 {
			all := marksIn(fitOne.FindStringSubmatch(text)[3])
			p, q := b.at[marksIn(fitOne.FindStringSubmatch(text)[1])[0]], b.at[all[i]]
			if k := b.opposed(list[0], list[1]); !b.has(all[i]) && k >= 0 { // it holds both apart
				return [3][2]string{{"against the left of", "against the right of"}, {"against the front of", "against the rear of"}, {"under", "on"}}[k][i]
			}
			for k, w := range [3][2]string{{"against the left of", "against the right of"}, {"against the front of", "against the rear of"}, {"under", "on"}} {
				if math.Abs(q.hi[k]-p.lo[k]) < 0.1 {
					return w[0]
				}
				if math.Abs(q.lo[k]-p.hi[k]) < 0.1 {
					return w[1]
				}
			}
		}
	}
	rest := text
	for {
		m := onSides.FindStringSubmatchIndex(rest)
		if m == nil {
			return ""
		}
		how, list := rest[m[2]:m[3]], rest[m[4]:m[5]]
		if slices.Contains(marksIn(list), mark) {
			return over[how]
		}
		rest = rest[m[5]:]
	}
}

// How far a place may be from the plan's, in mm: a tape is read to 1/32 in or 0.5 mm, twice where a
// part is placed from one that was placed; what lies loose has air round it.
const (
	placedWithin = 1.0
	looseWithin  = 3.2
)

// compare holds the places against the plan's, unit by unit, each laid on the plan's by its first
// part, and gives what contradicts and the parts that have no place, with the reason where one is
// known.
func (b *build) compare(list []planPart) (wrong []string, open map[string]string) {
	where := map[string]planPart{}
	for _, p := range list {
		where[p.Mark] = p
	}
	open = map[string]string{}
	for _, p := range list {
		x, ok := b.at[p.Mark]
		if !ok {
			open[p.Mark] = b.why[p.Mark]
			continue
		}
		first := b.unit[p.Mark]
		o, within := where[first], placedWithin
		if b.loose[p.Mark] {
			within = looseWithin
		}
		for k := range 3 {
			off := o.Box.Min[k] - b.at[first].lo[k]
			if math.Abs(x.lo[k]+off-p.Box.Min[k]) > within || math.Abs(x.hi[k]+off-p.Box.Max[k]) > within {
				wrong = append(wrong, fmt.Sprintf("%s lies %s from %.1f to %.1f by the steps, and from %.1f to %.1f", p.Mark, [3]string{"along", "deep", "high"}[k], x.lo[k], x.hi[k], p.Box.Min[k]-off, p.Box.Max[k]-off))
			}
		}
	}
	return wrong, open
}
