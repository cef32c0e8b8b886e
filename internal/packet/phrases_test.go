package packet_test

import (
	"regexp"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/pdf"
	"stowright/internal/packet/labels"
	"stowright/internal/packet/templates"
	"stowright/internal/pages"
	"stowright/internal/phrases"
	"stowright/internal/plan/plantest"
)

// longer makes of a sentence one that is a quarter longer with a mark on every vowel, as a strange language has it:
// what is set of it is seen, and what goes past it too.
func longer(text string) string {
	marked := strings.NewReplacer("a", "ä", "e", "é", "i", "ï", "o", "ö", "u", "ü", "y", "ÿ")
	var out []string
	for _, w := range strings.Fields(text) {
		if !strings.ContainsAny(w, "{}0123456789") {
			w = marked.Replace(w)
			if body := strings.TrimRight(w, ".,:;!?"); len([]rune(body)) > 4 {
				w = body + "éñ" + w[len(body):]
			}
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// All that the paper says can be said in another language: every sentence is asked for, every word is then in the other
// language but for names, and with longer words nothing lies over anything or past its sheet.
func TestEverySentenceCanBeSaidOtherwise(t *testing.T) {
	names := []string{"one-case"}
	if !testing.Short() {
		names = append(names, "hollis-court", "fennel-street")
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			r := plantest.Result(t, name)
			paper := paperOf(r.Job.Print)
			make := func(book *phrases.Book) []draw.Document {
				size, _ := labels.Named("a4-8")
				return []draw.Document{pages.In(book, r, paper, "", ""),
					labels.Make(labels.Input{Job: r.Job.Name, Print: r.Job.Print, Assembly: r.Assembly, Plan: r.Plan, Marks: r.Marks, Sticks: r.Sticks, Steps: r.Steps, Size: size, Lang: book.Lang, Say: book.Say}),
					templates.Make(templates.Input{Job: r.Job.Name, Print: r.Job.Print, Parts: r.Assembly.Parts, Paper: paper, Lang: book.Lang, Say: book.Say})}
			}
			asking := phrases.New("xx", nil, pages.Names(r))
			make(asking)
			list := asking.Asked()
			for i := range list {
				list[i].Other = longer(list[i].Text)
			}
			book := phrases.New("xx", list, pages.Names(r))
			docs := make(book)
			for _, p := range book.Asked() {
				if p.Other == "" {
					t.Errorf("asked for only when the words are longer: %q", p.Text)
				}
			}
			english := regexp.MustCompile(`\b(the|of|and|from|with|each|edge|case|on|to)\b`)
			marked := regexp.MustCompile(`[A-Z]\w*\.[\w–]+(, \w+)*`)
			named := map[string]bool{} // words of names, which stay
			for _, n := range pages.Names(r) {
				for _, w := range strings.Fields(strings.ToLower(n)) {
					named[strings.Trim(w, ",.()")] = true
				}
			}
			for _, d := range docs {
				if d.Lang != "xx" {
					t.Errorf("%s is in %q", d.Subject, d.Lang)
				}
				for i := range d.Pages {
					for _, it := range d.Pages[i].Items {
						x, ok := it.(*draw.Text)
						if !ok {
							continue
						}
						for _, w := range english.FindAllString(marked.ReplaceAllString(x.Text, ""), -1) {
							if !named[w] {
								t.Errorf("%s, sheet %d: still English: %q", d.Subject, i+1, x.Text)
							}
						}
					}
				}
				if d.Subject == "Plan set" { // the others have no frame
					for _, f := range drawtest.Judge(&d) {
						if !strings.HasSuffix(f, "is cut short") { // the title block's fields are as wide as the standard has them
							t.Errorf("%s: %s", d.Subject, f)
						}
					}
				}
				b, err := pdf.Write(&d)
				if err != nil {
					t.Fatal(err)
				}
				over, err := drawtest.Overlaps(b, &d)
				if err != nil {
					t.Fatal(err)
				}
				for _, o := range over {
					t.Errorf("%s: %v", d.Subject, o)
				}
			}
		})
	}
}
