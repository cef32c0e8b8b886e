package strength_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
	"stowright/internal/strength/nds"
)

// remedies gives the words and the ratio of each remedy that a hint prints.
func remedies(t *testing.T, hint string) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	if rest, several := strings.CutPrefix(hint, "One of: "); several || hint == "" {
		hint = rest
	} else {
		hint = strings.ToLower(hint[:1]) + hint[1:]
	}
	for _, w := range strings.Split(strings.TrimSuffix(hint, "."), "; ") {
		m := regexp.MustCompile(`^(.*) \(ratio (\d+\.\d+)\)$`).FindStringSubmatch(w)
		if m == nil {
			t.Fatalf("no ratio in %q of %q", w, hint)
		}
		r, _ := strconv.ParseFloat(m[2], 64)
		out[m[1]] = r
	}
	return out
}

// printed fails unless a ratio is what was printed, to its last figure.
func printed(t *testing.T, what string, got, want float64) {
	t.Helper()
	if got > want+0.0051 || got < want-0.0051 {
		t.Errorf("%s: ratio %.4f when done, %.2f was printed", what, got, want)
	}
	if got > 1 {
		t.Errorf("%s is not enough: ratio %.4f", what, got)
	}
}

// Every way to hold a wall case better that is printed is built, in the job or in what it was
// built into, and the ratio is then what was printed.
func TestFirmerAsPrinted(t *testing.T) {
	tried := map[string]bool{}
	for _, load := range []string{"90 kg", "130 kg", "200 kg"} {
		text := strings.Replace(alone(wall+"    inside: {open: {}, load: "+load+"}\n"), "from: metric-shop", "from: inch-shop, unit: mm", 1)
		in := whole(t, text)
		f := find(t, strength.Check(in), strength.WallFixing, "case/a")
		if f.Verdict != finding.Fails {
			t.Fatalf("%s holds: %s", load, say(f))
		}
		done := func(what string, want float64, in strength.Input) {
			printed(t, load+": "+what, find(t, strength.Check(in), strength.WallFixing, "case/a").Ratio(), want)
		}
		changed := func(change func([]part.Fixing) []part.Fixing) strength.Input {
			n, a := in, *in.All
			a.Fixings = change(slices.Clone(a.Fixings))
			n.All = &a
			return n
		}
		more := func(list []part.Fixing, k int, pitch float64) (out []part.Fixing) {
			for _, x := range list {
				for i := range k {
					y := x
					y.At.Z += part.L((float64(k-1)/2 - float64(i)) * pitch * 40_000)
					out = append(out, y)
				}
			}
			return out
		}
		rail := func(list []part.Fixing) []part.Fixing {
			out := list
			for _, x := range list {
				if x.Row == "upper" {
					for _, p := range in.All.Parts {
						if p.Mark == x.Part {
							x.At.Z -= p.Box().Size().Z
						}
					}
					out = append(out, x)
				}
			}
			return out
		}
		for what, want := range remedies(t, f.Hint) {
			k := 1
			_, _ = fmt.Sscanf(what[strings.LastIndex(what, "and ")+1:], "nd %d screws", &k)
			_, _ = fmt.Sscanf(what, "%d screws in each", &k)
			pitch := 0.0
			if m := regexp.MustCompile(`(\S+) mm apart`).FindStringSubmatch(what); m != nil {
				pitch, _ = strconv.ParseFloat(m[1], 64)
			}
			switch {
			case strings.HasPrefix(what, "a ledger"):
				tried["ledger"] = true // worked out in TestLedgerByHand
			case strings.HasPrefix(what, "a second upper rail"):
				tried["rail"] = true
				done(what, want, changed(func(l []part.Fixing) []part.Fixing { return more(rail(l), k, pitch) }))
			case strings.Contains(what, "screws in each stud"):
				tried["screws"] = true
				done(what, want, changed(func(l []part.Fixing) []part.Fixing { return more(l, k, pitch) }))
			default:
				tried["screw"] = true
				for _, h := range in.Job.Catalogue.Hardware {
					if h.Name == what {
						done(what, want, changed(func(l []part.Fixing) []part.Fixing {
							for i := range l {
								l[i].Into += h.Length - l[i].Length
								l[i].Screw, l[i].Length = h.ID, h.Length
							}
							return l
						}))
					}
				}
			}
		}
	}
	for _, k := range []string{"screws", "rail", "ledger"} {
		if !tried[k] {
			t.Errorf("no job was given the remedy %s", k)
		}
	}
}

// The ledger of a hint: its screws carry the weight alone, in shear, as the studs share it, and the
// upper screws the pull alone.
func TestLedgerByHand(t *testing.T) {
	in := whole(t, strings.Replace(alone(wall+"    inside: {open: {}, load: 90 kg}\n"), "from: metric-shop", "from: inch-shop, unit: mm", 1))
	f := find(t, strength.Check(in), strength.WallFixing, "case/a")
	for what, want := range remedies(t, f.Hint) {
		var m int
		if _, err := fmt.Sscanf(what, "a ledger under it with %d such screw", &m); err != nil {
			continue
		}
		var up []part.Fixing
		low := 0.0
		for _, x := range in.All.Fixings {
			if x.Row == "upper" {
				up = append(up, x)
			} else {
				low = mmOf(x.At.Z)
			}
		}
		if len(up) != 2 {
			t.Fatalf("%d upper screws; the sum is for 2", len(up))
		}
		ten, _ := nds.Screw(10)
		rail := 0.0
		for _, l := range up[0].Layers {
			if l.Name == "hang rail" {
				rail = mmOf(l.Thickness)
			}
		}
		z := 0.9 * nds.Joint{Fastener: ten, Gap: 12.7, Side: nds.Member{G: 0.42, Bearing: rail},
			Main: nds.Member{G: 0.42, Bearing: ten.MainBearing(mmOf(up[0].Into))}}.Lateral().Z
		pulls := 0.9 * nds.PullThrough(ten.Head, rail, 0.42)
		boards, moment := 0.0, 0.0
		for _, p := range in.All.Parts {
			kg := in.Masses[p.Mark].Kilograms()
			boards += kg
			moment -= kg * (mmOf(p.Box().Min.Y) + mmOf(p.Box().Max.Y)) / 2
		}
		b := in.All.Bays[0].Box
		moment = moment*1.05 - 90*(mmOf(b.Min.Y)+mmOf(b.Max.Y))/2
		down := (boards*1.05 + 90) * g / 2 / float64(m) / z // the case stands centrally over its studs
		out := moment * g / (mmOf(up[0].At.Z) - low) / 2 / pulls
		t.Logf("%s: down %.3f, out %.3f", what, down, out)
		if r := max(down, out); r < want-0.02 || r > want+0.02 {
			t.Errorf("%s: %.3f by hand, %.2f printed", what, r, want)
		}
		return
	}
	t.Fatalf("no ledger in %q", f.Hint)
}
