package strength_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/assemble"
	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/strength"
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

// inRounds assembles a job until its loads ask for nothing more, as the program does.
func inRounds(t *testing.T, text string) strength.Input {
	t.Helper()
	in := whole(t, text)
	room, _ := place.All(in.Job)
	for range 8 {
		settled := strength.Settle(in)
		same := true
		for _, x := range settled {
			if s := room.Seat(x.Owner); s != nil {
				same = same && s.Site.Hold == x.Hold && slices.Equal(s.Site.Doors, x.Doors)
				s.Site.Hold, s.Site.Doors = x.Hold, x.Doors
			}
		}
		if same {
			break
		}
		a, _ := assemble.All(in.Job, &room, carcass.Build)
		in = strength.Input{Job: in.Job, Room: &room, All: &a, Masses: masses(in.Job, a.Parts)}
	}
	return in
}

// said does a way to hold a case better in the words of its job; false where that is nothing to build.
func said(t *testing.T, text, what string) (string, bool) {
	t.Helper()
	if m := regexp.MustCompile(`wall-screw: (\S+) under practice`).FindStringSubmatch(what); m != nil {
		return swap(t, text, "unit: mm}", "unit: mm, wall-screw: "+m[1]+"}"), true
	}
	if m := regexp.MustCompile(`^move it \S+ mm to the (?:right|left), at: (\S+) mm`).FindStringSubmatch(what); m != nil {
		return swap(t, text, "    at: 400\n", "    at: "+m[1]+"\n"), true
	}
	m := regexp.MustCompile(`hangs-by: (\{[^}]*\})`).FindStringSubmatch(what)
	if m == nil {
		return "", false
	}
	text = regexp.MustCompile(`    hangs-by: .*\n`).ReplaceAllString(text, "")
	text = swap(t, text, "    up: 1400\n", "    up: 1400\n    hangs-by: "+m[1]+"\n")
	if d := regexp.MustCompile(`make it (\S+) mm deeper`).FindStringSubmatch(what); d != nil {
		text = swap(t, text, "depth: 320", fmt.Sprintf("depth: %.1f", 320+number(d)))
	}
	return text, true
}

// Every way to hold a wall case better that is printed is one that its job can say: it is said, the case is
// built so, nothing that holds it fails, and the ratio is what was printed.
func TestFirmerAsPrinted(t *testing.T) {
	inch := func(x string) string { return strings.Replace(x, "from: metric-shop", "from: inch-shop, unit: mm", 1) }
	tried := map[string]bool{}
	for _, text := range []string{
		inch(alone(wall + "    inside: {open: {}, load: 290 kg}\n")),
		inch(alone(wall + "    inside: {open: {}, load: 390 kg}\n")),
		inch(alone(strings.Replace(wall, "800", "600", 1) + "    inside: {open: {}, load: 40 kg}\n")),
		inch(alone(strings.Replace(wall, "800", "350", 1) + "    inside: {open: {}, load: 30 kg}\n")),
		alone(strings.Replace(wall, "800", "600", 1) + "    inside: {open: {}, load: 40 kg}\n"),
		inch(alone("    hangs-by: {kind: cleat}\n" + wall + "    inside: {open: {}, load: 200 kg}\n")),
		inch(alone("    hangs-by: {ledger: two-by-four}\n" + strings.Replace(wall, "800", "350", 1) + "    inside: {open: {}, load: 105 kg}\n")),
	} {
		in := inRounds(t, text)
		hints := map[string]float64{}
		for _, f := range only(strength.Check(in), []finding.Code{strength.WallFixing, strength.WallStuds}) {
			if f.Verdict != finding.Fails {
				continue
			}
			for what, r := range remedies(t, f.Hint) {
				hints[what] = r
			}
		}
		if len(hints) == 0 {
			t.Errorf("nothing fails:\n%s", text)
		}
		for what, want := range hints {
			better, ok := said(t, text, what)
			if !ok {
				t.Errorf("the job has no word for %q", what)
				continue
			}
			worst := 0.0
			for _, f := range only(strength.Check(inRounds(t, better)), []finding.Code{strength.WallFixing, strength.WallStuds, strength.RailBending}) {
				if f.Verdict == finding.Fails || f.Verdict == finding.NotKnown && f.Code != strength.RailBending {
					t.Errorf("%q is not enough: %s", what, say(f))
				}
				if f.Code == strength.WallFixing || strings.Contains(what, "ledger") && f.Code == strength.RailBending {
					worst = max(worst, f.Ratio())
				}
			}
			if worst > want+0.03 { // settled again it may be held better than was printed
				t.Errorf("%q: ratio %.3f when built, %.2f printed", what, worst, want)
			}
			t.Logf("%s (printed %.2f): %.3f when built", what, want, worst)
			for _, k := range []string{"wall-screw", "middle-rail", "ledger", "kind: rail"} {
				tried[k] = tried[k] || strings.Contains(what, k)
			}
		}
	}
	for _, k := range []string{"wall-screw", "middle-rail", "ledger", "kind: rail"} {
		if !tried[k] {
			t.Errorf("no job was given the remedy %s", k)
		}
	}
}

// A ledger over three studs, by hand: a load at a from an outer stud of a beam over two equal ways l brings
// P a (3 l² - a²)/(2 l³) to the middle stud (any table of continuous beams), so that the middle one takes far
// more than a third of a case that hangs before it; its screws share that.
func TestLedgerOverThreeStudsByHand(t *testing.T) {
	text := strings.Replace(alone("    hangs-by: {ledger: two-by-four}\n"+strings.Replace(wall, "800", "350", 1)+"    inside: {open: {}, load: 30 kg}\n"), "    at: 400\n", "    at: 425\n", 1)
	in := whole(t, text)
	kg, boards := 30.0, 0.0
	var ledger part.Part
	for _, p := range in.All.Parts {
		boards += in.Masses[p.Mark].Kilograms()
		if p.Role == part.Ledger && strings.HasPrefix(p.Name, "upper") {
			ledger = p
		}
	}
	kg += boards * 1.05
	var at []float64
	studs := map[float64]int{}
	for _, x := range in.All.Fixings {
		switch {
		case x.Kind == part.ToLedger && x.Row == "upper":
			at = append(at, mmOf(x.At.X))
		case x.Kind == part.ToStud && x.Part == ledger.Mark:
			studs[mmOf(x.At.X)]++
		}
	}
	if len(studs) != 3 || studs[200] == 0 || studs[600] == 0 || studs[1000] == 0 {
		t.Fatalf("screws in the upper ledger at %v; the sum is for studs at 200, 600 and 1000 mm", studs)
	}
	share := 0.0
	for _, x := range at {
		a := 400 - math.Abs(x-600)
		share += a * (3*400*400 - a*a) / (2 * 400 * 400 * 400) / float64(len(at))
	}
	f := find(t, strength.Check(in), strength.WallFixing, "case/a")
	words := strings.Join(f.Working, " ")
	m := regexp.MustCompile(`takes (\S+) N down`).FindStringSubmatch(words)
	if m == nil {
		t.Fatal(words)
	}
	want := kg * g / 2 * share / float64(studs[600])
	if got := number(m); got < want*0.99 || got > want*1.01 {
		t.Errorf("the middle stud's screw takes %.1f N, by hand %.1f N (%.2f of a ledger's load)", got, want, share)
	}
	if share < 0.8 {
		t.Errorf("the middle stud takes %.2f", share)
	}
	// What the rails' screws bring goes by the same method, into the ledger's wood.
	rail := find(t, strength.Check(in), strength.WallFixing, ".hang2")
	if !strings.Contains(strings.Join(rail.Working, " "), "into a ledger of spruce-pine-fir No. 2 (G 0.42)") {
		t.Error(rail.Working)
	}
	// The wall is found too far away, or not known: nothing passes.
	for _, x := range strength.Check(whole(t, strings.Replace(text, "    kind: stud\n", "", 1))).With(strength.WallFixing) {
		if x.At == "case/a" && x.Verdict != finding.NotKnown {
			t.Errorf("a wall of unknown make: %s", say(x))
		}
	}
}

// Three cases side by side, at places along the wall in steps: where ledgers are advised to one, it is on two studs when it
// hangs by them, its neighbours as they were; where a neighbour keeps them from a second stud they are not.
func TestLedgersBesideANeighbour(t *testing.T) {
	advised, not := 0, 0
	ledgers := regexp.MustCompile(`hangs-by: \{ledger: (\S+)\}, and make it (\S+) mm deeper`)
	for start := 150; start <= 900; start += 50 {
		text := func(on, ledger string, deep float64) string {
			out := frame + "cases:\n"
			for _, c := range []string{"a", "b", "c"} {
				more := ""
				d := 320.0
				if c == on {
					more, d = ", hangs-by: {ledger: "+ledger+"}", 320+deep
				}
				out += fmt.Sprintf("  %s: {level: wall, width: 350, height: 700, depth: %g, inside: {open: {}, load: 8 kg}%s}\n", c, d, more)
			}
			return out + fmt.Sprintf("runs:\n  r: {wall: back, level: wall, start: %d, bottom-line: 1400, order: [{case: a}, {case: b}, {case: c}]}\n", start)
		}
		for _, f := range strength.Check(whole(t, text("", "", 0))).With(strength.WallStuds) {
			if f.Verdict != finding.Fails {
				continue
			}
			m := ledgers.FindStringSubmatch(f.Hint)
			if m == nil {
				not++
				if strings.Contains(f.Hint, "ledger:") {
					t.Errorf("%d: %s", start, say(f))
				}
				continue
			}
			advised++
			deep, _ := strconv.ParseFloat(m[2], 64)
			on := strings.TrimPrefix(f.At, "case/")
			if g := at(t, strength.Check(whole(t, text(on, m[1], deep))), strength.WallStuds, f.At); g.Verdict == finding.Fails {
				t.Errorf("%d: advised: %s\nbuilt: %s", start, f.Hint, say(g))
			}
		}
	}
	if advised < 3 || not < 3 {
		t.Errorf("ledgers advised %d times, not %d times", advised, not)
	}
}
