package job_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/job"
)

var commented = regexp.MustCompile(`(?m)^    # (keep-clear:|  outlet: .*|floor: .*)$`)

// Whatever is answered, the job that starts has no mistakes.
func TestStart(t *testing.T) {
	for _, a := range []map[string]string{
		{},
		{"unit": "mm", "wall": "3800", "studs": "600", "bench": "sitting", "goods": "18 tin-750, 6 spray-can"},
		{"unit": "in", "wall": "2 ft", "studs": "masonry", "bench": "none"},
		{"unit": "mm", "wall": "305 mm", "studs": "concrete", "bench": "standing"},
		{"name": `odd: "name" # here`, "wall": "12' 6 1/2\"", "studs": "16 in", "bench": "sitting", "goods": "20 quart can"},
		{"unit": "mm", "wall": "20 ft", "studs": "16 in"},
	} {
		text, mistakes := job.Start(a, shipped(t))
		if len(mistakes) > 0 {
			t.Errorf("%v: %v", a, mistakes)
			continue
		}
		c := good(t, "job.yaml", text)
		if len(c.Cases) == 0 || len(c.Runs) != 1 {
			t.Errorf("%v: %d cases, %d runs", a, len(c.Cases), len(c.Runs))
		}
		// What it leaves for the maker to fill in is right once it is no comment any more.
		filled := commented.ReplaceAllString(text, "    $1")
		if c := good(t, "job.yaml", filled); len(c.Walls[0].Value.Clear) != 1 || len(c.Walls[0].Value.Floor.AtWall) != 3 {
			t.Errorf("%v: keep-clear and floor are not there to be filled in:\n%s", a, text)
		}
		other := map[bool]string{true: " mm", false: " in"}[a["unit"] != "mm"]
		for _, line := range commented.FindAllString(text, -1) {
			if strings.Contains(line, other) {
				t.Errorf("%v: %q is not in the job's unit", a, line)
			}
		}
		var width job.L
		for _, x := range c.Cases {
			width += *x.Spec.Width
		}
		for _, e := range c.Runs[0].Value.Order {
			if e.Knee != nil {
				width += e.Knee.Width
			}
		}
		if start := c.Runs[0].Value.Start; *start+width > c.Walls[0].Value.Length {
			t.Errorf("%v: %v of cases on a wall of %v", a, width, c.Walls[0].Value.Length)
		}
	}
}

func TestStartSaysWhatItCannotRead(t *testing.T) {
	_, mistakes := job.Start(map[string]string{"unit": "yards", "wall": "long", "studs": "somewhere", "bench": "maybe", "goods": "some quart-cans"}, shipped(t))
	for _, k := range []string{"unit", "wall", "studs", "bench", "goods"} {
		if mistakes[k] == "" {
			t.Errorf("nothing is said about %s", k)
		}
	}
	_, mistakes = job.Start(map[string]string{"goods": "3 quart-cann"}, shipped(t))
	if !strings.Contains(mistakes["goods"], `did you mean "quart-can"`) {
		t.Error(mistakes)
	}
}

func TestSchemaIsTheSameTwice(t *testing.T) {
	a, b := job.Schema(kinds()), job.Schema(kinds())
	if len(a) < 10_000 || !bytes.Equal(a, b) {
		t.Error("the schema is short or differs")
	}
}
