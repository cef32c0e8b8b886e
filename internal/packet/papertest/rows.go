package papertest

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

var (
	aRow     = regexp.MustCompile(`Into ([^:]*?` + aMark + `\)?)(?:, each)?: (?:(\d+) rows of (\d+)|(\d+) in )`)
	spotted  = regexp.MustCompile(`^(.*?)Bore for them on the spot[^:]*: with the .*? through (.*?)(?:, with the | and on into )`)
	howMany  = regexp.MustCompile(`(\d+) × `)
	theseAre = regexp.MustCompile(`(?i)fit (?:these (\d+), each|(.*?) (?:where each belongs|where it belongs|between|on|under|against the))`)
)

// rows holds the rows of screws that are bored on the spot against how many the step takes.
func rows(list []Step) (wrong []string) {
	for _, s := range list {
		m := spotted.FindStringSubmatch(s.Text)
		if m == nil || m[2] == "that side" { // a filler's: told in its own words
			continue
		}
		heads := 1
		if m[2] == "each of them" {
			f := theseAre.FindStringSubmatch(m[1])
			switch {
			case f == nil:
				wrong = append(wrong, fmt.Sprintf("step %d: who is screwed is not told", s.N))
				continue
			case f[1] != "":
				heads, _ = strconv.Atoi(f[1])
			default:
				heads = len(marksIn(f[2]))
			}
		}
		sum, each := 0, []int{}
		for _, r := range aRow.FindAllStringSubmatch(s.Text, -1) {
			n, _ := strconv.Atoi(r[4])
			if r[2] != "" {
				a, _ := strconv.Atoi(r[2])
				b, _ := strconv.Atoi(r[3])
				n = a * b
			}
			sum += n * len(marksIn(r[1]))
			each = append(each, n)
		}
		if heads > 1 { // each of several goes into one of these
			slices.Sort(each)
			if each = slices.Compact(each); len(each) != 1 {
				continue // strips of several lengths: which has which is drawn
			}
			sum = heads * each[0]
		}
		var takes []string
		for _, h := range howMany.FindAllStringSubmatch(m[1], -1) {
			takes = append(takes, h[1])
		}
		if !slices.Contains(takes, strconv.Itoa(sum)) {
			wrong = append(wrong, fmt.Sprintf("step %d takes %s screws, its rows have %d", s.N, strings.Join(takes, " or "), sum))
		}
	}
	return wrong
}
