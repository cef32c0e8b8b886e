package plan_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// setToo gives a sentence for every case that is squared when the glue has long set: after blocks, packing or
// panels have been glued into it; and how many cases are squared. That glue sets within an hour or less is
// common practice, no source.
func setToo(r plan.Result) (bad []string, squared int) {
	at := byMark(r.Assembly)
	late := map[string]string{} // owner -> what is in it already
	for _, s := range r.Steps {
		if s.Phase != shop.Assemble {
			continue
		}
		if strings.HasPrefix(s.Text, "Square it before the glue sets") {
			if squared++; late[s.Owner] != "" {
				bad = append(bad, fmt.Sprintf("step %d: %s is squared after %s", s.N, s.Owner, late[s.Owner]))
			}
		}
		for _, m := range s.New {
			switch p := at[m]; p.Role {
			case part.Blocking, part.Spacer, part.EndPanel, part.EdgeStrip:
				if p.Moves == "" {
					late[p.Owner] = m
				}
			}
		}
	}
	return bad, squared
}

func TestSquaredBeforeTheGlueSets(t *testing.T) {
	inExamples(t, plantest.Examples(), setToo, "no case is squared")
}

// Frames are squared too: of benches, of hook boards, of bases, by the diagonals of what their boards are
// (Pythagoras), to the nearest half millimetre.
func TestFramesAreSquared(t *testing.T) {
	said := regexp.MustCompile(`([\d.]+) mm \(([^,]+), ([\d.]+) mm by ([\d.]+) mm\)`)
	for _, name := range []string{"hollis-court", "marram-point"} {
		r := plantest.Result(t, name)
		frames := 0
		for _, o := range r.Assembly.Owners {
			var legs, rails geom.Box
			for _, p := range r.Assembly.Parts {
				switch {
				case p.Owner != o.ID:
				case p.Role == part.Leg || p.Role == part.BaseRail:
					legs = legs.Or(p.Box())
				case p.Role == part.HangRail && o.Kind == "hutch":
					rails = rails.Or(p.Box())
				}
			}
			if legs.Empty() && rails.Empty() {
				continue
			}
			frames++
			told := map[string]bool{}
			for _, s := range r.Steps {
				if s.Owner != o.ID && !slices.Contains(s.Also, o.ID) || s.Phase != shop.Assemble || !strings.Contains(s.Text, "diagonals from corner to corner") {
					continue
				}
				for _, m := range said.FindAllStringSubmatch(s.Text, -1) {
					told[m[2]] = true
					d, _ := strconv.ParseFloat(m[1], 64)
					a, _ := strconv.ParseFloat(m[3], 64)
					b, _ := strconv.ParseFloat(m[4], 64)
					if math.Abs(math.Hypot(a, b)-d) > 0.76 { // sides are rounded too
						t.Errorf("%s, step %d: %q", name, s.N, m[0])
					}
					size := legs.Size()
					x := float64(size.X) / float64(length.MM)
					if rails.Empty() && math.Abs(a-x) > 0.26 {
						t.Errorf("%s, step %d: %q, its frame is %.1f mm wide", name, s.N, m[0], x)
					}
					if w := float64(rails.Size().X) / float64(length.MM); !rails.Empty() && (a < w || a > w+100) { // and an upright at either end
						t.Errorf("%s, step %d: %q, its rails are %.1f mm long", name, s.N, m[0], w)
					}
				}
			}
			want := map[bool][]string{true: {"its face"}, false: {"at the rear", "across its upper ends"}}[!rails.Empty()]
			if o.Kind == "base" {
				want = []string{"from above"}
			}
			for _, w := range want {
				if !told[w] {
					t.Errorf("%s: %s is not squared %s", name, o.ID, w)
				}
			}
		}
		if frames == 0 {
			t.Errorf("%s has no frame", name)
		}
	}
}
