package strength_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// units are what a printed number may be followed by, in N, mm, MPa and kg.
var units = map[string]float64{
	"mm": 1, "N": 1, "MPa": 1, "kg": 1, "N/mm": 1, "mm²": 1, "mm⁴": 1, "N·m": 1000, "": 1,
	"in": 25.4, "lb": 0.45359237 * g, "psi": 0.45359237 * g / 25.4 / 25.4, "lb/in": 0.45359237 * g / 25.4, "in²": 25.4 * 25.4, "in⁴": 25.4 * 25.4 * 25.4 * 25.4, "ft·lb": 0.45359237 * g * 304.8,
}

// sum reads one calculation from a line, as a person with a pocket calculator would: numbers with
// their units, × + / and brackets, up to an equals sign.
type sum struct {
	text string
	ok   bool
	loss float64 // share that the printed figures' rounding may take
}

var token = regexp.MustCompile(`^(\d[\d.]*)(?: (N/mm|lb/in|N·m|ft·lb|mm²|mm⁴|in²|in⁴|mm|MPa|psi|kg|lb|in|N))?`)

func (s *sum) space() { s.text = strings.TrimLeft(s.text, " ") }

// figures is the rounding of a printed number as a share of it.
func figures(t string) float64 {
	v, _ := strconv.ParseFloat(t, 64)
	if v == 0 {
		return 1
	}
	places := 0
	if i := strings.IndexByte(t, '.'); i >= 0 {
		places = len(t) - i - 1
	} else if len(t) > 3 {
		return 0.5 * math.Pow10(len(t)-3) / v // three figures are printed of what is large
	}
	return 0.5 * math.Pow10(-places) / v
}

func (s *sum) factor() float64 {
	s.space()
	if strings.HasPrefix(s.text, "(") {
		s.text = s.text[1:]
		was := s.loss
		v := s.terms()
		s.space()
		if !strings.HasPrefix(s.text, ")") {
			s.ok = false
			return 0
		}
		s.text = s.text[1:]
		if rest, cubed := strings.CutPrefix(s.text, "³"); cubed {
			s.text, v = rest, v*v*v
			s.loss += 2 * (s.loss - was)
		}
		return v
	}
	m := token.FindStringSubmatch(s.text)
	if m == nil {
		s.ok = false
		return 0
	}
	s.text = s.text[len(m[0]):]
	v, _ := strconv.ParseFloat(strings.TrimSuffix(m[1], "."), 64)
	s.loss += figures(m[1])
	v *= units[m[2]]
	// Words that say what it is.
	if w := regexp.MustCompile(`^ (of thread|\(end grain\)|\(load that stays\))`).FindString(s.text); w != "" {
		s.text = s.text[len(w):]
	}
	return v
}

func (s *sum) product() float64 {
	v := s.factor()
	for s.ok {
		s.space()
		switch {
		case strings.HasPrefix(s.text, "×"):
			s.text = s.text[len("×"):]
			v *= s.factor()
		case strings.HasPrefix(s.text, "/ "):
			s.text = s.text[1:]
			v /= s.factor()
		default:
			return v
		}
	}
	return v
}

func (s *sum) terms() float64 {
	v := s.product()
	for s.ok {
		s.space()
		if !strings.HasPrefix(s.text, "+ ") {
			return v
		}
		s.text = s.text[1:]
		v += s.product()
	}
	return v
}

// reckon finds every calculation in a line of working and does it again; it gives how many it did.
func reckon(t *testing.T, code finding.Code, line string) (n int) {
	t.Helper()
	// NIOSH's letters before its factors, and what each is of.
	line = regexp.MustCompile(` \([HVD] [^)]*\)|(LC|HM|VM|DM|AM|FM|CM) `).ReplaceAllString(line, "")
	line = strings.Replace(line, "RWL = ", "RWL: ", 1)
	for i := range line {
		if i > 0 && !strings.ContainsAny(line[i-1:i], " (") || line[i] != '(' && (line[i] < '0' || line[i] > '9') {
			continue
		}
		s := sum{text: line[i:], ok: true}
		v := s.terms()
		s.space()
		if !s.ok || !strings.HasPrefix(s.text, "= ") || !strings.ContainsAny(line[i:len(line)-len(s.text)], "×/+") {
			continue
		}
		m := token.FindStringSubmatch(s.text[2:])
		if m == nil {
			continue
		}
		was := strings.TrimRight(line[:i], " ")
		if strings.HasSuffix(was, "×") || strings.HasSuffix(was, "/") || strings.HasSuffix(was, "+") || strings.HasSuffix(was, "(") {
			continue // the end of a longer one
		}
		want, _ := strconv.ParseFloat(strings.TrimSuffix(m[1], "."), 64)
		want *= units[m[2]]
		n++
		if want == 0 && v/units[m[2]] < 0.5*math.Pow10(-len(m[1][strings.IndexByte(m[1], '.')+1:])) {
			continue
		}
		if share := 1.2*(s.loss+figures(m[1])) + 1e-3; math.Abs(v-want) > share*math.Abs(want) {
			t.Errorf("%s: %q comes to %.5g, not %s (within %.2g)", code, line[i:], v/units[m[2]], m[0], share)
		}
	}
	return n
}

var ratioSaid = regexp.MustCompile(`Ratio (\d+\.\d+)\.`)

// The working of every finding adds up by hand: every calculation in it is done again from the figures
// that it prints, within their rounding, and the ratio that it ends with is demand over capacity.
// Nothing is empty, and a job in inches prints no metric unit, nor one in millimetres an inch, but
// where a standard's own limit or name is quoted.
func TestWorkingAddsUp(t *testing.T) {
	sums := map[finding.Code]int{}
	metric := regexp.MustCompile(`\d (mm|N|kg|MPa|N/mm|N·m|mm²|mm⁴|m²|kg/m²|l)([ .,;:)]|$)`)
	inches := regexp.MustCompile(`\d (in|lb|psi|lb/in|ft·lb|in²|in⁴|ft²|lb/ft²|gal)([ .,;:)]|$)`)
	// "birch plywood of 18 mm" and "M6" are names, "222 N (50 lb)" is as its source states it.
	named := regexp.MustCompile(`plywood of \S+ mm|\S+ \d+ mm,? (full|side)|1 in \(25.4 mm\)|slides \d+ mm|1/4 in in all|on \S+ in centres|\d/\d in with \S+|1/2 in of thread|\d+ N \(\d+ lb\)|more than 24 in|25 gal|18 in \(457\.2 mm\)|\(\d+ lb\)`)
	see := func(list finding.List, inch bool) {
		for _, f := range list {
			if f.Verdict == finding.NotKnown {
				continue
			}
			if len(f.Working) == 0 || f.Text == "" || f.Source == "" {
				t.Errorf("%s at %s explains nothing", f.Code, f.At)
			}
			for _, w := range f.Working {
				sums[f.Code] += reckon(t, f.Code, w)
				if strings.TrimSpace(w) == "" || strings.Contains(w, "NaN") || strings.Contains(w, "Inf") || strings.Contains(w, "%!") {
					t.Errorf("%s: an empty or broken line: %q", f.Code, w)
				}
				for _, m := range ratioSaid.FindAllStringSubmatch(w, -1) {
					sums[f.Code]++
					if r, _ := strconv.ParseFloat(m[1], 64); w == f.Working[len(f.Working)-1] && math.Abs(r-f.Ratio()) > 0.0051 {
						t.Errorf("%s: ratio %.4f, its working ends with %q", f.Code, f.Ratio(), w)
					}
				}
				plain := named.ReplaceAllString(w, "")
				if wrong := metric; inch {
					if m := wrong.FindString(plain); m != "" {
						t.Errorf("%s: %q in a job in inches: %s", f.Code, m, w)
					}
				} else if m := inches.FindString(plain); m != "" {
					t.Errorf("%s: %q in a job in mm: %s", f.Code, m, w)
				}
			}
		}
	}
	for i, x := range trials {
		for k, inch := range []bool{false, true} {
			if testing.Short() && i%2 != k {
				continue
			}
			text := x.bad
			if inch {
				text += "print: in\n"
			}
			see(strength.Check(whole(t, text)), inch)
		}
	}
	for _, name := range names {
		if testing.Short() && name != "ostler-row" && name != "marram-point" {
			continue
		}
		in := input(read(t, name, text(t, name)))
		see(strength.Check(in), in.Job.Print.String() == "in")
	}
	for _, c := range []finding.Code{strength.ShelfSag, strength.ShelfStrength, strength.CounterPerson, strength.DrawerBottom, strength.HangingRail, strength.FrontScrews, strength.DrawerGroove, strength.HingeScrews, strength.WallFixing, strength.CarcassJoint, strength.RailBending, strength.LiftIndex, strength.TipOver, strength.ShelfPins} {
		if sums[c] == 0 && !testing.Short() {
			t.Errorf("no sum was found in the working of %s", c)
		}
	}
	t.Log(sums)
}
