package cli

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/bundle"
	"stowright/internal/cutting/list"
	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/packet/labels"
	"stowright/internal/pages"
	"stowright/internal/phrases"
	"stowright/internal/plan"
)

type packetCmd struct {
	Job     string `arg:"" help:"Job file, or - for standard input."`
	Out     string `short:"o" required:"" placeholder:"DIR" help:"Folder to write; made new, or one that an earlier packet made."`
	Case    string `placeholder:"ID" help:"One case, counter, base or hutch alone."`
	Stage   string `placeholder:"ID" help:"One stage alone, by its name or its number in the order of the stages."`
	Unit    string `enum:"in,mm,both," default:"" help:"Unit on paper: in, mm, or both (the job's, the other in brackets); the job's when not given."`
	Paper   string `enum:"a4,letter,a3,tabloid," default:"" help:"Paper: a4, letter, a3 or tabloid; by the unit when not given."`
	Labels  string `enum:"a4-8,a4-14,a4-21,a4-24,letter-10,letter-14,letter-30," default:"" help:"Sheet of labels, by paper and number to the sheet: a4-8, a4-14, a4-21, a4-24, letter-10, letter-14, letter-30; by the unit when not given."`
	Skip    int    `name:"labels-used" placeholder:"N" default:"0" help:"Labels of the first sheet that are used up."`
	Effort  string `enum:"first,quick,normal,deep" default:"quick" help:"How long the cutting plan is searched for: first, quick, normal, deep."`
	Left    string `name:"write-back" placeholder:"FILE" help:"When all is cut as planned, the stock file of the shop that the job has its boards from, a library of the job or the job itself: what the plan cuts from what is on hand is taken out of it and the offcuts worth keeping are put in; comments in it stay."`
	Phrases string `placeholder:"FILE" help:"File of phrases that put the paper into another language; the command phrases makes it."`
	Prefer  string `enum:"offcuts,settings" default:"offcuts" help:"Of the cutting plans found, the cheapest with the biggest offcuts, or the one with the fewest settings of the saw, which may take a sheet more: offcuts or settings."`
}

func (packetCmd) Help() string {
	return "Example:\n  stowright packet examples/fennel-street/job.yaml -o out/\n\nWrites the plan set and the files beside it; docs/packet.md tells what each is. The folder holds either all of the new packet or all of the old one.\n" + exits
}

func (c *packetCmd) Run(a *app) error {
	if _, _, err := contents(c.Out); err != nil {
		return misuse(err.Error())
	}
	job, ok, err := a.read(c.Job)
	if err != nil || !ok {
		return err
	}
	if err := known("case, counter, base or hutch", c.Case, job.Owners()); err != nil {
		return err
	}
	stages := job.StageIDs()
	if n, err := strconv.Atoi(c.Stage); err == nil && 1 <= n && n <= len(stages) && !slices.Contains(stages, c.Stage) {
		c.Stage = stages[n-1]
	}
	if err := known("stage", c.Stage, stages); err != nil {
		return err
	}
	switch c.Unit {
	case "in":
		job.Print, job.Both = length.Inches, false
	case "mm":
		job.Print, job.Both = length.Millimetres, false
	case "both":
		job.Both = true
	}
	if c.Skip < 0 {
		return misuse("--labels-used is how many labels are gone, 0 or more")
	}
	if c.Left != "" && (c.Case != "" || c.Stage != "") {
		return misuse("--write-back goes with the packet of a whole job, not with --case or --stage")
	}
	size, _ := labels.Named(c.Labels)
	var lang string
	var list []phrases.Phrase
	if c.Phrases != "" {
		if lang, list, err = readPhrases(c.Phrases); err != nil {
			return err
		}
	}
	show, done := a.bar()
	r := plan.Make(a.ctx, job, plan.Want{Effort: effort(c.Effort), Few: c.Prefer == "settings", Owner: c.Case, Stage: c.Stage, Progress: show})
	var book *phrases.Book
	if c.Phrases != "" {
		book = phrases.New(lang, list, pages.Names(r))
	}
	files, err := bundle.Make(r, bundle.Want{Paper: paper(c.Paper, job.Print), Owner: c.Case, Stage: c.Stage, Labels: size, Skip: c.Skip, Phrases: book})
	if err != nil {
		return err
	}
	done()
	if err := writeFolder(c.Out, files); err != nil {
		return err
	}
	if r.Findings.Blocking() {
		a.code = Unfit
	}
	a.summary(r)
	a.findings(r.Findings, false, false)
	fmt.Fprintf(a.Out, "Written to %s:", c.Out)
	fmt.Fprintln(a.Out, " "+listed(files))
	if book != nil {
		said, all := book.Said()
		fmt.Fprintf(a.Out, "%d of the %d phrases on paper are in %q, the others in English.\n", said, all, lang)
	}
	return c.writeBack(a, r)
}

// writeBack brings the shop's stock file up to what is there when everything is cut, where that is asked for.
func (c *packetCmd) writeBack(a *app, r plan.Result) error {
	if c.Left == "" {
		return nil
	}
	if r.Findings.Blocking() {
		fmt.Fprintf(a.Err, "stowright: %s is left as it was, for the job must not be built yet\n", c.Left)
		return nil
	}
	b, err := os.ReadFile(c.Left)
	if err != nil {
		return err
	}
	if b, err = list.ShopLeft(b, shopFile(c.Left), &r.Problem, &r.Plan); err != nil {
		return misuse(fmt.Sprintf("%s is left as it was: %v; name the file that the job has its boards from", c.Left, err))
	}
	if err := replace(c.Left, b); err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s says what is on hand when that is cut.\n", c.Left)
	return nil
}

// known refuses a name that the job does not have, before anything is written.
func known(what, name string, names []string) error {
	if name == "" || slices.Contains(names, name) {
		return nil
	}
	if len(names) == 0 {
		return misuse(fmt.Sprintf("this job has no %s", what))
	}
	return misuse(fmt.Sprintf("this job has no %s of the name %q; it has %s", what, name, strings.Join(names, ", ")))
}

// listed names the files, those in folders by folder and number.
func listed(files []bundle.File) string {
	var out []string
	n := map[string]int{}
	for _, f := range files {
		dir, _, in := strings.Cut(f.Name, "/")
		if !in {
			out = append(out, f.Name)
		} else if n[dir]++; n[dir] == 1 {
			out = append(out, dir+"/")
		}
	}
	for i, name := range out {
		if dir, ok := strings.CutSuffix(name, "/"); ok {
			out[i] = fmt.Sprintf("%s (%d)", name, n[dir])
		}
	}
	return strings.Join(out, " ")
}

func paper(name string, u length.Unit) draw.Paper {
	switch name {
	case "a4":
		return draw.A4()
	case "letter":
		return draw.Letter()
	case "a3":
		return draw.A3()
	case "tabloid":
		return draw.Tabloid()
	}
	if u == length.Inches {
		return draw.Letter()
	}
	return draw.A4()
}
