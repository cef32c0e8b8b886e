package packet

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/finding"
	"stowright/internal/part"
)

// proofs sets the chapter of what was proved, an owner after the other.
func (b *book) proofs() {
	any := slices.ContainsFunc(b.Findings, func(x finding.Finding) bool { return x.Capacity != 0 })
	if !any {
		return
	}
	f := b.chapter(0, "Proof", "Proof", "proof", 60)
	f.Para("Ratio: how much of what it may bear is used; above 1.00 it fails, above 0.85 it is near, be it a load, a distance, a height or a count. “Of”: how many checks of the kind were made; the worst is told. Sources are numbered as they stand at the end of the findings.")
	t := draw.Table{Columns: []draw.Column{{Head: "The worst of every kind", Grow: true}, {Head: "Of", Align: draw.End}, {Head: "Ratio", Align: draw.End}, {Head: "Verdict"}, {Head: "Source"}}}
	var after finding.List // what is told below the table: how it bends, or how it was worked out
	for _, o := range b.built() {
		b.proof(&t, &after, o)
	}
	f.Table(t)
	for _, x := range after {
		if len(x.Shape) > 0 && x.Unit == "mm" && x.Ratio() >= sagTold {
			b.sag(x)
		}
		if len(x.Working) > 0 && (x.Verdict != finding.Holds || x.Ratio() >= 0.85) {
			f.Para(fmt.Sprintf("%s, %s: %s", b.place(x.At), strings.ReplaceAll(string(x.Code), "-", " "), strings.Join(x.Working, " ")))
		}
	}
}

// easily is the ratio under which what holds is told by its kind alone.
const easily = 0.7

// sagTold is the ratio from which a picture shows how a board bends.
const sagTold = 0.7

// proof adds to a table what was proved of an owner: of every kind of check the worst, with how
// much of the capacity is used; the worst three are told below it.
func (b *book) proof(t *draw.Table, after *finding.List, o part.Owner) {
	var worst finding.List
	count := map[finding.Code]int{}
	for _, x := range b.Findings {
		if x.Capacity == 0 || x.Verdict == finding.None {
			continue
		}
		at, ok := strings.CutPrefix(x.At, o.Kind+"/"+o.ID)
		if !ok || at != "" && at[0] != '/' {
			continue
		}
		if count[x.Code]++; count[x.Code] > 1 {
			i := slices.IndexFunc(worst, func(y finding.Finding) bool { return y.Code == x.Code })
			if x.Ratio() > worst[i].Ratio() {
				worst[i] = x
			}
			continue
		}
		worst.Add(x)
	}
	if len(worst) == 0 {
		return
	}
	slices.SortStableFunc(worst, func(x, y finding.Finding) int { return cmp.Compare(y.Ratio(), x.Ratio()) })
	t.Rows = append(t.Rows, draw.Row{Group: b.name(o.ID), Name: "proof " + o.ID})
	whose := regexp.MustCompile(` of ` + regexp.QuoteMeta(cmp.Or(o.Name, o.ID)) + `(\W|$)`) // the group says it
	var easy []string
	for _, x := range worst {
		if x.Verdict == finding.Holds && x.Ratio() < easily {
			t := fmt.Sprintf("%s %.2f", strings.ReplaceAll(string(x.Code), "-", " "), x.Ratio())
			if x.Ratio() >= 0.5 {
				t += fmt.Sprintf(" [%d]", b.source(x.Source))
			}
			easy = append(easy, t)
			continue
		}
		verdict := draw.Cell{Text: x.Verdict.String(), Bold: x.Verdict == finding.Fails}
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: whose.ReplaceAllString(x.Text, "$1")}, {Text: fmt.Sprint(count[x.Code])}, {Text: fmt.Sprintf("%.2f", x.Ratio()), Bold: true}, verdict, {Text: fmt.Sprintf("[%d]", b.source(x.Source)), Link: "sources"}}})
	}
	if len(easy) > 0 {
		t.Rows = append(t.Rows, draw.Texts(fmt.Sprintf("Under %.2f: ", easily)+strings.Join(easy, ", ")+".", "", "", finding.Holds.String(), ""))
	}
	*after = append(*after, worst[:min(3, len(worst))]...)
}

// source gives the number of a source in the list at the end of the findings.
func (b *book) source(text string) int {
	i := slices.Index(b.sources, text)
	if i < 0 {
		i = len(b.sources)
		b.sources = append(b.sources, text)
	}
	return i + 1
}
