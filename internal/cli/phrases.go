package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"stowright/internal/bundle"
	"stowright/internal/pages"
	"stowright/internal/phrases"
	"stowright/internal/plan"
)

type phrasesCmd struct {
	Job  string `arg:"" help:"Job file, or - for standard input."`
	File string `arg:"" help:"File of phrases (CSV); made new, or completed: what it says stays."`
	Lang string `required:"" placeholder:"CODE" help:"The other language, as ISO 639 has it: de, fr, es."`
}

func (phrasesCmd) Help() string {
	return `Example:
  stowright phrases job.yaml de.csv --lang de
  stowright packet job.yaml -o out/ --phrases de.csv

Writes every sentence that the packet of a job prints, a line each, for somebody to say it in another language in the second
column. {1}, {2} stand for its figures, marks and names, in any order; a sentence without other words stays English.
` + exits
}

func (c *phrasesCmd) Run(a *app) error {
	job, ok, err := a.read(c.Job)
	if err != nil || !ok {
		return err
	}
	var list []phrases.Phrase
	switch b, err := os.ReadFile(c.File); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	default:
		lang, known, wrong := phrases.Read(b)
		if len(wrong) > 0 {
			return misuse(fmt.Sprintf("%s is left as it was: %s", c.File, strings.Join(wrong, "; ")))
		}
		if lang != c.Lang {
			return misuse(fmt.Sprintf("%s is left as it was: it is in %q, not in %q", c.File, lang, c.Lang))
		}
		list = known
	}
	r := plan.Make(a.ctx, job, plan.Want{})
	book := phrases.New(c.Lang, list, pages.Names(r))
	if _, err := bundle.Make(r, bundle.Want{Paper: paper("", job.Print), Phrases: book}); err != nil {
		return err
	}
	asked := map[string]bool{}
	open, more := 0, 0
	had := map[string]bool{}
	for _, p := range list {
		had[p.Text] = true
	}
	for _, p := range book.Asked() {
		asked[p.Text] = true
		if p.Other == "" {
			open++
		}
		if !had[p.Text] {
			list = append(list, p)
			more++
		}
	}
	if err := replace(c.File, phrases.Write(c.Lang, list)); err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s: %d phrases, %d of them new; of the %d that this packet prints, %d have no other words yet.\n", c.File, len(list), more, len(asked), open)
	return nil
}
