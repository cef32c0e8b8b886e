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
	lang, list, err := readPhrases(c.File)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	case lang != c.Lang:
		return misuse(fmt.Sprintf("%s is left as it was: it is in %q, not in %q", c.File, lang, c.Lang))
	}
	r := plan.Make(a.ctx, job, plan.Want{})
	book := phrases.New(c.Lang, list, pages.Names(r))
	if _, err := bundle.Make(r, bundle.Want{Paper: paper("", job.Print), Phrases: book}); err != nil {
		return err
	}
	whole := book.Complete(list)
	if err := replace(c.File, phrases.Write(c.Lang, whole)); err != nil {
		return err
	}
	said, all := book.Said()
	fmt.Fprintf(a.Out, "%s: %d phrases, %d of them new; of the %d that this packet prints, %d have no other words yet.\n", c.File, len(whole), len(whole)-len(list), all, all-said)
	return nil
}

// readPhrases reads a file of phrases; all that is wrong in it is told at once, and nothing is written.
func readPhrases(file string) (lang string, list []phrases.Phrase, err error) {
	b, err := os.ReadFile(file)
	if err != nil {
		return "", nil, err
	}
	lang, list, wrong := phrases.Read(b)
	if len(wrong) > 0 {
		return "", nil, misuse(fmt.Sprintf("%s is left as it was: %s", file, strings.Join(wrong, "; ")))
	}
	return lang, list, nil
}
