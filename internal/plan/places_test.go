package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"stowright/examples"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// hookBoardOnMasonry is a case with a counter and a hook board before a wall of masonry, in a shop of few bits.
const hookBoardOnMasonry = `stowright: 1
unit: mm
practice: {from: metric-shop, bits: [3]}
walls:
  back:
    length: 4000
    height: 2500
    kind: masonry
    lining: {name: plaster, thickness: 10}
    floor: {points: [{at: 0, height: 0}, {at: 4000, height: 0}]}
cases:
  a: {wall: back, at: 400, width: 800, height: 800, depth: 500, inside: {open: {}, load: 8 kg}}
counters:
  top: {over: [a], layers: [{board: birch-18}]}
hutches:
  board: {on: top, height: 700, board: birch-6, frame: spruce-strip, spacer: 20}
`

// A finding about a case, counter, hutch or base names one that the job has: in the examples as they stand, and in a
// shop that owns no bit but one of 3 mm.
func TestFindingsAreAtPlacesOfTheJob(t *testing.T) {
	bits := regexp.MustCompile(`(?m)^  bits: \[.*\n`)
	practice := regexp.MustCompile(`(?m)^practice: *\{?(.*?)\}?$`)
	told := 0
	look := func(name string, r plan.Result) {
		for _, f := range r.Findings {
			if f.Code == "no-bit" {
				told++
			}
			for _, at := range append([]string{f.At}, f.Also...) {
				kind, rest, _ := strings.Cut(at, "/")
				id, _, _ := strings.Cut(rest, "/")
				switch kind {
				case "case", "counter", "hutch", "base":
					if s := r.Room.Seat(id); s == nil || string(s.Kind) != kind {
						t.Errorf("%s: %s is at %q: %s", name, f.Code, at, f.Text)
					}
				}
			}
		}
	}
	names := []string{"one-case", "ostler-row", "fennel-street", "hollis-court", "marram-point"}
	if testing.Short() {
		names = names[:2]
	}
	look("a hook board", made(t, "a hook board", hookBoardOnMasonry))
	for _, name := range names {
		b, err := examples.FS.ReadFile(name + "/job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		poor := bits.ReplaceAllString(string(b), "")
		switch m := practice.FindStringSubmatch(poor); {
		case m == nil:
			poor += "\npractice: {bits: [3 mm]}\n"
		case m[1] == "":
			poor = strings.Replace(poor, "practice:\n", "practice:\n  bits: [3 mm]\n", 1)
		default:
			poor = practice.ReplaceAllString(poor, "practice: {bits: [3 mm], $1}")
		}
		look(name, plantest.Result(t, name))
		look(name+", few bits", made(t, name, poor))
	}
	if told < 10 {
		t.Errorf("only %d bits are missed", told)
	}
}
