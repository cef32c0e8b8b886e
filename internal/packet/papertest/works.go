package papertest

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

var (
	counted = regexp.MustCompile(`^(\d+) × `)
	kinds   = regexp.MustCompile(`^(?:(.+?): )?(hole|cup|pocket|groove|rabbet|notch|cutout|slot|countersink|bevel|taper)( |,|$)`)
	round   = regexp.MustCompile(`(` + figure + `) dia\.`)
	slanted = regexp.MustCompile(`at (-?\d+)°`)
	long    = regexp.MustCompile(`(` + figure + `) long( across the board)?, (` + figure + `) wide`)
	sides   = regexp.MustCompile(`(` + figure + `) × (` + figure + `)`)
	deep    = regexp.MustCompile(`, (` + figure + `) deep$`)
	goes    = regexp.MustCompile(`pocket to (the (` + aFace + `)|either end|either edge)`)
	bevels  = regexp.MustCompile(`bevel at (-?\d+)°, the whole (` + aFace + `): cut back on the (` + aFace + `), full width on the other$`)
	tapers  = regexp.MustCompile(`taper on the (` + aFace + `): (` + figure + `) off at the ` + aFace + `, (` + figure + `) off at the ` + aFace + `$`)
)

// work reads one line of the list of workings.
func (r *reader) work(s string) ([]Op, error) {
	i := faceWord.FindAllStringSubmatchIndex(s, -1)
	if len(i) == 0 {
		return nil, fmt.Errorf("%q names no face", s)
	}
	at := i[len(i)-1]
	what, face := s[:at[0]], strings.ToLower(s[at[2]:at[3]])
	where := strings.TrimSuffix(s[at[3]:], ".")
	tool, _, _ := strings.Cut(strings.TrimPrefix(where, ", "), ": ")
	n := 1
	if m := counted.FindStringSubmatch(what); m != nil {
		n, _ = strconv.Atoi(m[1])
		what = what[len(m[0]):]
	}
	k := kinds.FindStringSubmatch(what)
	if k == nil {
		return nil, fmt.Errorf("%q names no working", s)
	}
	o := Op{Kind: k[2], For: k[1], Face: face, Tool: tool}
	if o.For == "" {
		o.For = o.Kind
	}
	var bad error
	get := func(t string) float64 {
		v, err := size(t, r.inches)
		if err != nil && bad == nil {
			bad = err
		}
		return v
	}
	switch {
	case strings.HasSuffix(what, ", through"):
		o.Depth = -1
	case deep.MatchString(what):
		o.Depth = get(deep.FindStringSubmatch(what)[1])
	}
	if m := round.FindStringSubmatch(what); m != nil {
		o.Dia = get(m[1])
	}
	switch o.Kind {
	case "bevel":
		m := bevels.FindStringSubmatch(what)
		if m == nil {
			return nil, fmt.Errorf("%q is no bevel", s)
		}
		o.Angle, _ = strconv.Atoi(m[1])
		o.Towards = m[3]
		if m[2] != face {
			return nil, fmt.Errorf("%q names two edges", s)
		}
		return []Op{o}, bad
	case "taper":
		m := tapers.FindStringSubmatch(what)
		if m == nil {
			return nil, fmt.Errorf("%q is no taper", s)
		}
		o.Y, o.Depth = get(m[2]), get(m[3])
		return []Op{o}, bad
	case "pocket":
		m := slanted.FindStringSubmatch(what)
		if m == nil {
			return nil, fmt.Errorf("%q has no slant", s)
		}
		o.Angle, _ = strconv.Atoi(m[1])
	case "notch", "cutout":
		m := sides.FindStringSubmatch(what)
		if m == nil {
			return nil, fmt.Errorf("%q has no size", s)
		}
		o.L, o.W = get(m[1]), get(m[2])
	case "groove", "rabbet", "slot":
		m := long.FindStringSubmatch(what)
		if m == nil {
			return nil, fmt.Errorf("%q has no size", s)
		}
		o.L, o.W = get(m[1]), get(m[3])
		if m[2] != "" {
			o.L, o.W = o.W, o.L
		}
	}
	_, where, ok := strings.Cut(where, ": ")
	if !ok {
		return nil, fmt.Errorf("%q names no place", s)
	}
	where = strings.TrimSuffix(where, ", the middle") // it says nothing that the figure does not
	a, b, ok := strings.Cut(where, "; ")
	first, second := "along ", "across "
	switch {
	case strings.HasSuffix(face, " end"):
		first, second = "across ", "up "
	case strings.HasSuffix(face, " edge"):
		second = "up "
	}
	if !ok || !strings.HasPrefix(a, first) || !strings.HasPrefix(b, second) {
		return nil, fmt.Errorf("%q is no place on the %s", where, face)
	}
	xs, err := series(strings.TrimPrefix(a, first), r.inches)
	if err != nil {
		return nil, err
	}
	ys, err := series(strings.TrimPrefix(b, second), r.inches)
	if err != nil {
		return nil, err
	}
	if len(xs)*len(ys) != n {
		return nil, fmt.Errorf("%q counts %d and places %d", s, n, len(xs)*len(ys))
	}
	var out []Op
	for _, x := range xs {
		for _, y := range ys {
			q := o
			q.X, q.Y = x, y
			if o.Kind == "pocket" {
				m := goes.FindStringSubmatch(what)
				if m == nil {
					return nil, fmt.Errorf("%q does not say where its screw comes out", s)
				}
				switch m[1] {
				case "either end":
					q.Towards = "far end"
					if x == slices.Min(xs) {
						q.Towards = "start end"
					}
				case "either edge":
					q.Towards = "far edge"
					if y == slices.Min(ys) {
						q.Towards = "face edge"
					}
				default:
					q.Towards = m[2]
				}
			}
			out = append(out, q)
		}
	}
	return out, bad
}
