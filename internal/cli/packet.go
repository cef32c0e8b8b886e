package cli

import (
	"fmt"

	"stowright/internal/draw"
	"stowright/internal/draw/pdf"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/plan"
)

type packetCmd struct {
	Job    string `arg:"" help:"Job file, or - for standard input."`
	Out    string `short:"o" required:"" placeholder:"DIR" help:"Folder to write; made new, or one that an earlier packet made."`
	Case   string `placeholder:"ID" help:"One case, counter, base or hutch alone."`
	Stage  string `placeholder:"ID" help:"One stage alone."`
	Unit   string `enum:"in,mm," default:"" help:"Unit on paper: in or mm; the job's when not given."`
	Paper  string `enum:"a4,letter,a3,tabloid," default:"" help:"Paper: a4, letter, a3 or tabloid; by the unit when not given."`
	Effort string `enum:"first,quick,normal,deep" default:"quick" help:"How long the cutting plan is searched for: first, quick, normal, deep."`
}

func (packetCmd) Help() string {
	return "Example:\n  stowright packet examples/fennel-street/job.yaml -o out/\n\nWrites packet.pdf, cutting-list.csv, shopping.csv, model.glb and plan.json. The folder holds either all of the new packet or all of the old one.\n" + exits
}

func (c *packetCmd) Run(a *app) error {
	if _, _, err := contents(c.Out); err != nil {
		return misuse(err.Error())
	}
	job, ok, err := a.read(c.Job)
	if err != nil || !ok {
		return err
	}
	switch c.Unit {
	case "in":
		job.Print = length.Inches
	case "mm":
		job.Print = length.Millimetres
	}
	show, done := a.bar()
	r := plan.Make(a.ctx, job, plan.Want{Effort: effort(c.Effort), Owner: c.Case, Stage: c.Stage, Progress: show})
	pages := output.Pages(r, paper(c.Paper, job.Print), c.Case, c.Stage)
	b, err := pdf.Write(&pages)
	if err != nil {
		return fmt.Errorf("the packet could not be drawn: %w", err)
	}
	files := append([]output.File{{Name: "packet.pdf", Bytes: b}}, output.Files(r)...)
	done()
	if err := writeFolder(c.Out, files); err != nil {
		return err
	}
	if r.Findings.Blocking() {
		a.code = Unfit
	}
	a.summary(r)
	a.findings(r.Findings, false)
	fmt.Fprintf(a.Out, "Written to %s:", c.Out)
	for _, f := range files {
		fmt.Fprintf(a.Out, " %s", f.Name)
	}
	fmt.Fprintln(a.Out)
	return nil
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
