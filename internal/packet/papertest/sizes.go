package papertest

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

const inch = 25.4

// figure is how paper prints a size: "17 3/4", "0.709", "37 mm", "17 3/4 (17.735)", "1 15/32 (37 mm)",
// the exact size, where there is one, behind what a tape shows.
const figure = `-?\d+(?: \d+/\d+|/\d+|\.\d+)?(?: mm| in)?(?: \(-?\d+(?:\.\d+)?(?: mm| in)?\))?`

var (
	behind = regexp.MustCompile(`^(.*?) \((.*)\)$`)
	plain  = regexp.MustCompile(`^(-?)(?:(\d+) )?(\d+)(?:/(\d+)|(\.\d+))?( mm| in)?$`)
)

// size reads a printed size into mm. inches tells the paper's unit.
func size(s string, inches bool) (float64, error) {
	s = strings.TrimSpace(s)
	if m := behind.FindStringSubmatch(s); m != nil {
		tape, err := size(m[1], inches)
		if err != nil {
			return 0, err
		}
		exact, err := size(m[2], inches)
		if err != nil {
			return 0, err
		}
		step := 0.5 // what a tape shows
		if inches {
			step = inch / 32
		}
		if d := tape - exact; d > step/2+0.03 || -d > step/2+0.03 {
			return 0, fmt.Errorf("%q says two sizes, %.2f and %.2f mm", s, tape, exact)
		}
		return exact, nil
	}
	m := plain.FindStringSubmatch(s)
	if m == nil {
		return 0, fmt.Errorf("%q is no size", s)
	}
	v, _ := strconv.ParseFloat(m[3]+m[5], 64)
	if m[4] != "" {
		d, _ := strconv.ParseFloat(m[4], 64)
		if d == 0 {
			return 0, fmt.Errorf("%q is no size", s)
		}
		v /= d
	} else if m[2] != "" {
		return 0, fmt.Errorf("%q is no size", s)
	}
	if m[2] != "" {
		w, _ := strconv.ParseFloat(m[2], 64)
		v += w
	}
	if m[1] != "" {
		v = -v
	}
	if m[6] == " in" || m[6] == "" && inches {
		v *= inch
	}
	return v, nil
}

var even = regexp.MustCompile(`^(` + figure + `), then every (` + figure + `) to (` + figure + `) \((\d+) places\)$`)

// series reads the distances of a row: one by one, or the first, the step and the last.
func series(s string, inches bool) ([]float64, error) {
	if m := even.FindStringSubmatch(s); m != nil {
		var v [3]float64
		for i := range v {
			x, err := size(m[i+1], inches)
			if err != nil {
				return nil, err
			}
			v[i] = x
		}
		n, _ := strconv.Atoi(m[4])
		if n < 2 {
			return nil, fmt.Errorf("%q: %d places", s, n)
		}
		step := (v[2] - v[0]) / float64(n-1)
		if d := step - v[1]; d > 0.06 || -d > 0.06 {
			return nil, fmt.Errorf("%q: %d steps of %.2f mm do not lead from %.2f to %.2f", s, n-1, v[1], v[0], v[2])
		}
		var out []float64
		for i := range n {
			out = append(out, v[0]+step*float64(i))
		}
		return out, nil
	}
	var out []float64
	for _, f := range strings.Split(s, ", ") {
		v, err := size(f, inches)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

var markPattern = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9]*\.[0-9A-Za-z]+$`)

// counting are marks that count on: "1–6front", "block1–4".
var counting = regexp.MustCompile(`^([A-Za-z]*)(\d+)–(\d+)([A-Za-z][0-9A-Za-z]*)?$`)

// marks reads a list of marks: "C: ..." never, "A.rail2, hang2, hang1; B.toe" with the code of a
// case before the first of its marks, and marks that count on as one.
func marks(s string) ([]string, error) {
	var out []string
	for _, group := range strings.Split(s, ";") {
		code := ""
		for _, m := range strings.Split(group, ",") {
			m = strings.TrimSpace(m)
			c, local, ok := strings.Cut(m, ".")
			if ok {
				code, m = c, local
			}
			list := []string{m}
			if r := counting.FindStringSubmatch(m); r != nil && (r[1] == "") != (r[4] == "") {
				from, _ := strconv.Atoi(r[2])
				to, _ := strconv.Atoi(r[3])
				list = nil
				for i := from; i <= to; i++ {
					list = append(list, r[1]+strconv.Itoa(i)+r[4])
				}
			}
			for _, m := range list {
				if m = code + "." + m; !markPattern.MatchString(m) {
					return nil, fmt.Errorf("%q is no list of marks", s)
				}
				out = append(out, m)
			}
			if len(list) == 0 {
				return nil, fmt.Errorf("%q counts from %s", s, m)
			}
		}
	}
	return out, nil
}
