package plan_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/plan/plantest"
)

// What a maker reads has each unit once, in the unit of the job, and no sentence that stops short.
func TestTextReadsRight(t *testing.T) {
	bad := regexp.MustCompile(`\b(in in|mm mm)\b|, then \.|  |[0-9]e[+]|[a-z]\.\.|\b1 (cases|parts|boards|things|sheets|screws)\b|\b0 in deep`)
	metric := regexp.MustCompile(`[0-9] ?(mm|MPa|N·m|kg|kPa|m2|m|l)\b`)
	// Bits and hardware keep the size that they are sold in.
	sold := regexp.MustCompile(`[0-9.]+ mm (bit|hole saw)|(to|of) [0-9.]+ kg`)
	for _, name := range []string{"one-case", "fennel-street", "hollis-court", "marram-point", "ostler-row"} {
		r := plantest.Result(t, name)
		var names []string
		for _, h := range r.Job.Catalogue.Hardware {
			if h.Name != "" {
				names = append(names, h.Name, "")
			}
		}
		plain := strings.NewReplacer(names...)
		say := func(what, text string) {
			if m := bad.FindString(text); m != "" {
				t.Errorf("%s, %s has %q: %s", name, what, m, text)
			}
			if rest := sold.ReplaceAllString(plain.Replace(text), ""); r.Job.Print == length.Inches && metric.MatchString(rest) {
				t.Errorf("%s, %s has %q in a job in inches: %s", name, what, metric.FindString(rest), text)
			}
			for _, b := range r.Assembly.Bays {
				if id := b.ID[strings.LastIndexByte(b.ID, '/')+1:]; strings.HasPrefix(id, "in-") && strings.Contains(text, id) {
					t.Errorf("%s, %s has the inner name %s: %s", name, what, id, text)
				}
			}
		}
		for _, s := range r.Steps {
			say(fmt.Sprint("step ", s.N), s.Whole()+" "+s.Caution)
		}
		for _, f := range r.Findings {
			say(string(f.Code), f.Text)
		}
		for _, l := range r.Bill.Lines {
			say(l.Item, l.Need+" "+l.Unit+" "+l.Over)
		}
	}
}

// Findings print the unit of the paper, whatever the shop measures in.
func TestFindingsPrintTheUnitOfThePaper(t *testing.T) {
	const one = "stowright: 1\nunit: in\nprint: PRINT\npractice: {from: SHOP}\ncases:\n  a: {width: 30, height: 84, depth: 18, inside: {shelves: {count: 30}, doors: {}}}\n  b: {width: 30, height: 34, depth: 18, inside: {drawers: {heights: [4, 5]}}}\n"
	other := map[string]*regexp.Regexp{"mm": regexp.MustCompile(`[0-9]/[0-9]+ in\b|[0-9] in (up|there|for)`), "in": regexp.MustCompile(`[0-9] mm\b`)}
	for unit, bad := range other {
		for _, shop := range []string{"inch-shop", "metric-shop"} {
			r := planned(t, strings.NewReplacer("PRINT", unit, "SHOP", shop).Replace(one))
			pins := false
			for _, f := range r.Findings {
				pins = pins || f.Code == "pins-left" || f.Code == "drawers-fronts"
				if m := bad.FindString(f.Text); m != "" && f.Code != "no-bit" && f.Code != "joint-changed" {
					t.Errorf("%s on paper in %s: %q in %s", shop, unit, m, f.Text)
				}
			}
			if !pins {
				t.Errorf("%s: nothing with a length of the carcass is said", shop)
			}
		}
	}
}
