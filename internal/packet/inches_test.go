package packet_test

import (
	"regexp"
	"sort"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/plan/plantest"
)

// An inch set prints millimetres only in the names of tools and hardware that are called so, and
// for the bits of these; and no size finer than a thousandth.
func TestInchSetsPrintInches(t *testing.T) {
	millimetres := regexp.MustCompile(`\d mm\b`)
	fine := regexp.MustCompile(`\d\.\d{4,}`)
	bits := regexp.MustCompile(`\bbits? [\d. ,]+(and [\d.]+ )?mm\b`) // metric bits, together in the list of tools
	for _, name := range some() {
		r := plantest.Result(t, name)
		if r.Job.Print != length.Inches || r.Job.Practice.Unit != "in" {
			continue
		}
		var known []string
		for _, h := range r.Job.Catalogue.Hardware { // a dowel of 8 mm goes into a hole of 8 mm
			known = append(known, h.Name, h.Dia.Exact(length.Millimetres)+" dia")
		}
		for _, x := range r.Job.Catalogue.Boards { // sheets are called and measured as they are sold
			known = append(known, x.Name, x.Thickness.Exact(length.Inches))
		}
		for _, x := range r.Job.Catalogue.Boards { // what a board is called where it is bought
			known = append(known, "called "+x.Nominal.Exact(length.Inches))
		}
		for _, x := range r.Job.Practice.Tools {
			if x.Kerf != nil {
				known = append(known, x.Kerf.Exact(length.Inches))
			}
		}
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				bore := strings.TrimSuffix(strings.TrimSuffix(o.Tool, " bit"), " hole saw")
				known = append(known, o.Tool, bore+" dia")
				if kind := strings.TrimPrefix(o.Tool, bore+" "); kind != o.Tool { // as the list of tools has it
					known = append(known, kind+" "+bore)
				}
			}
		}
		sort.Slice(known, func(a, b int) bool { return len(known[a]) > len(known[b]) })
		doc := set(t, name)
		for i := range doc.Pages {
			kind := ""
			text := ""
			for _, it := range doc.Pages[i].Items {
				if x, ok := it.(*draw.Text); ok {
					if x.Text == "Proof" || x.Text == "Findings" || x.Text == "Details" {
						kind = x.Text
					}
					text += x.Text + " " // lines of a paragraph follow each other
				}
			}
			if kind == "Proof" || kind == "Findings" { // working with published figures
				continue
			}
			for _, k := range known {
				if k != "" {
					text = strings.ReplaceAll(text, k, "")
				}
			}
			text = bits.ReplaceAllString(text, "")
			text = strings.ReplaceAll(text, "100 mm", "") // the bar to check the print by
			for _, re := range []*regexp.Regexp{millimetres, fine} {
				for _, at := range re.FindAllStringIndex(text, -1) {
					t.Errorf("%s, sheet %d: …%s…", name, i+1, text[max(0, at[0]-40):min(len(text), at[1]+20)])
				}
			}
		}
	}
}
