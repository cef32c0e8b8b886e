package strength_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// bookcase is a job of one loose shelf under a load for its area, so that what is narrower
// carries less.
func bookcase(load, boards, sticks, practice, width, inside string) string {
	t := strings.Replace(alone(strings.Replace(floor, "600", width, 1)+"    inside: "+inside+"\n"),
		"from: metric-shop", "from: metric-shop, shelf-load: "+load+practice, 1)
	if sticks != "" {
		t = strings.Replace(t, "boards:\n", "sticks:\n"+sticks+"boards:\n", 1)
	}
	return strings.Replace(t, "boards:\n", "boards:\n"+boards, 1)
}

// Every remedy that is printed for a failing shelf is built into the job, and the ratio is then what
// was printed: a strip, the grain turned, a thicker board, two boards, a partition, a shorter span.
func TestRemediesAsPrinted(t *testing.T) {
	const plain = "  plain: {material: birch-plywood-18, called: 18, measures: 17.7, length: 2440, width: 1220, grain: none}\n"
	tried := map[string]bool{}
	for _, x := range []struct{ load, board, width, deep string }{
		{"120 kg/m2", "birch-18", "1000", ""}, {"150 kg/m2", "birch-18", "900", ""}, {"90 kg/m2", "birch-18", "1200", ""}, {"110 kg/m2", "plain", "900", ""}, {"250 kg/m2", "birch-12", "700", ""}, {"300 kg/m2", "birch-18", "800", ", part-depth: 200"},
	} {
		with := func(strip string) string { return "{shelves: {count: 1, board: " + x.board + x.deep + strip + "}}" }
		in := whole(t, bookcase(x.load, plain, "", "", x.width, with("")))
		for _, code := range []finding.Code{strength.ShelfSag} {
			f := find(t, strength.Check(in), code, "shelf")
			if f.Verdict != finding.Fails {
				t.Fatalf("%v holds: %s", x, say(f))
			}
			for what, want := range remedies(t, f.Hint) {
				done := func(kind, text string) {
					tried[kind] = true
					g := find(t, strength.Check(whole(t, text)), code, "shelf")
					if kind == "span" && g.Ratio() <= want && g.Ratio() > want-0.015 {
						return // half a millimetre less than was reckoned
					}
					printed(t, fmt.Sprint(x, ": ", what), g.Ratio(), want)
				}
				switch {
				case strings.HasPrefix(what, "glue a strip"):
					m := regexp.MustCompile(`^glue a strip of (.*) (\S+) mm by (\S+) mm under its front edge, such a stick under sticks:, strip: under practice: and strip: yes under shelves:$`).FindStringSubmatch(what)
					species := ""
					for _, s := range in.Job.Catalogue.Species {
						if s.Name == m[1] {
							species = s.ID
						}
					}
					done("strip", bookcase(x.load, plain, "  tall: {species: "+species+", thickness: "+m[2]+", width: "+m[3]+", length: 2400}\n", ", strip: tall", x.width, with(", strip: yes")))
				case strings.HasPrefix(what, "lay its grain along the span, grain: along-length of plain"):
					done("grain", bookcase(x.load, strings.Replace(plain, "grain: none", "grain: along-length", 1), "", "", x.width, with("")))
				case strings.HasPrefix(what, "make it of"):
					id := strings.TrimSuffix(strings.Fields(what)[3], ",")
					done("thicker", bookcase(x.load, plain, "", "", x.width, strings.Replace(with(""), x.board, id, 1)))
				case strings.HasPrefix(what, "glue two boards"):
					b, _ := in.Job.Catalogue.Board(x.board)
					twice := fmt.Sprintf("  twice: {material: %s, called: 36, measures: %g, length: 2440, width: 1220, grain: %s}\n", b.Material, 2*mmOf(b.Thickness), b.Grain)
					done("two", bookcase(x.load, plain+twice, "", "", x.width, strings.Replace(with(""), x.board, "twice", 1)))
				case strings.HasPrefix(what, "put a partition"):
					done("partition", bookcase(x.load, plain, "", "", x.width, "{across: ["+with("")+", "+with("")+"]}"))
				case strings.HasPrefix(what, "make its span"):
					m := regexp.MustCompile(`^make its span (\S+) mm, width: (\S+) mm less$`).FindStringSubmatch(what)
					w, _ := strconv.ParseFloat(x.width, 64)
					less, _ := strconv.ParseFloat(m[2], 64)
					done("span", bookcase(x.load, plain, "", "", fmt.Sprintf("%.1f", w-less), with("")))
				default:
					t.Errorf("a remedy that no test builds: %s", what)
				}
			}
		}
	}
	for _, k := range []string{"strip", "grain", "thicker", "two", "partition", "span"} {
		if !tried[k] {
			t.Errorf("no job was given the remedy %q", k)
		}
	}
}
