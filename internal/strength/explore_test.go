package strength_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"testing"

	"stowright/internal/finding"
)

func TestExplore(t *testing.T) {
	keys := regexp.MustCompile(`(?:^|[{,]|\n) *([a-z][a-z-]*): *[^\n ]`)
	jobs := map[string]string{}
	for _, n := range names {
		jobs[n] = text(t, n)
	}
	for _, x := range trials {
		jobs["trial "+string(x.code)] = x.bad
	}
	for _, n := range []string{"01-one-stud", "02-masonry", "03b-steel-rated", "04-vice", "06-tall-free", "07-hutch", "10-castors", "12-door", "13-hook", "14-base", "15-gap", "17-heavy-door", "18-cleat", "01c-ledger"} {
		b, err := os.ReadFile("/tmp/proof/jobs/" + n + ".yaml")
		if err == nil {
			jobs["audit "+n] = string(b)
		}
	}
	seen := map[string]int{}
	for name, whole := range jobs {
		list, ok := judge(whole)
		if !ok {
			t.Log(name, "unread")
			continue
		}
		before := map[key]finding.Finding{}
		for _, f := range list {
			before[key{f.Code, f.At}] = f
		}
		var ks []string
		for _, m := range keys.FindAllStringSubmatch(whole, -1) {
			if !slices.Contains(ks, m[1]) {
				ks = append(ks, m[1])
			}
		}
		for _, k := range ks {
			cut, what := without(whole, k)
			for i, x := range cut {
				after, ok := judge(x)
				if !ok {
					continue
				}
				for _, f := range after {
					was, known := before[key{f.Code, f.At}]
					if f.Verdict != finding.Holds && f.Verdict != finding.Near || !known || was.Verdict != finding.Fails && was.Verdict != finding.NotKnown {
						continue
					}
					id := k + " " + string(f.Code)
					if seen[id]++; seen[id] < 3 {
						fmt.Printf("%s | %s | %s | %s: was %s now %s %s\n", k, f.Code, name, what[i], was.Verdict, f.Verdict, f.Text)
					}
				}
			}
		}
	}
}
