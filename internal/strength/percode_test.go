package strength_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// scaled gives a job's text with every figure that a pattern's first group catches made so many times as much.
func scaled(text, pattern string, k float64) string {
	re := regexp.MustCompile(pattern)
	return re.ReplaceAllStringFunc(text, func(m string) string {
		g := re.FindStringSubmatchIndex(m)
		for len(g) > 4 && g[2] < 0 {
			g = slices.Delete(slices.Clone(g), 2, 4)
		}
		v, _ := strconv.ParseFloat(m[g[2]:g[3]], 64)
		return m[:g[2]] + fmt.Sprintf("%.6g", v*k) + m[g[3]:]
	})
}

// For every code, in the job that provokes it, what makes it harder never lowers a ratio of it: whatever is stored made
// heavier, cases and benches wider, goods more, walls' cases higher up. Every code that compares figures is moved by one
// of them; the others say yes or no.
func TestEveryCodeIsMonotone(t *testing.T) {
	all := func(finding.Code) bool { return true }
	only := func(list ...finding.Code) func(finding.Code) bool {
		return func(c finding.Code) bool { return slices.Contains(list, c) }
	}
	moved := map[finding.Code]bool{}
	times := []float64{1.3, 3, 1.02}
	if testing.Short() {
		times = times[:1]
	}
	bases := map[string]map[key]finding.Finding{}
	for _, way := range []struct {
		what, pattern string
		of            func(finding.Code) bool
	}{
		{"as heavy", `(?:load|weighs): ([\d.]+) kg`, all},
		{"as wide", `    width: ([\d.]+)|free: \{at: 100, length: ([\d.]+)`, only(strength.ShelfSag, strength.ShelfStrength, strength.CounterPerson, strength.DrawerWide, strength.SlideLoad, strength.DoorWide, strength.DoorHeavy, strength.HangingRail, strength.OnePerson)},
		{"as many", `count: ([\d.]+)[,}] ?(?:used|weighs|hazards|lies|locked)?`, only(strength.Flammables, strength.GoodsRoom)},
		{"as high up", `up: ([\d.]+)`, only(strength.OutOfReach)},
	} {
		for _, x := range trials {
			for _, k := range times {
				harder := scaled(x.bad, way.pattern, k)
				if harder == x.bad {
					continue
				}
				base, ok := bases[x.bad]
				if !ok {
					base = judged(strength.Check(whole(t, x.bad)))
					bases[x.bad] = base
				}
				list, ok := judge(harder)
				if !ok {
					continue // no such case can be built
				}
				after := judged(list)
				for at, f := range base {
					g, ok := after[at]
					if way.what == "as wide" && (strings.HasSuffix(at.at, ".bottom") || strings.HasPrefix(at.at, "base/")) {
						continue // a wider case has more feet, a longer base more rungs
					}
					if !ok || g.Unit != f.Unit || f.Capacity == 0 || g.Capacity == 0 || !way.of(at.code) {
						continue
					}
					if g.Ratio() < f.Ratio()*(1-2e-3) {
						t.Errorf("%s: %.2f times %s makes %s at %s better: %.4f, was %.4f\n%s\n%s", x.code, k, way.what, at.code, at.at, g.Ratio(), f.Ratio(), say(g), say(f))
					}
					if g.Ratio() > f.Ratio()*(1+1e-3) {
						moved[at.code] = true
					}
				}
			}
		}
	}
	if testing.Short() {
		return // one step does not move them all
	}
	said := only(strength.WallStuds, strength.ScrewEdge, strength.CastorBrake, strength.LockNeeded, strength.ChargingClosed, strength.OilyRags, strength.FuelInside, strength.KeptApart, strength.SparksNear, strength.IgnitionLow, strength.GoodsHeight, strength.GoodsWith)
	for _, r := range strength.All() {
		for _, c := range r.Codes {
			if !moved[c] && !said(c) {
				t.Errorf("nothing here makes %s worse", c)
			}
		}
	}
}
