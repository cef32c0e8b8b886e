// Package bundle makes every file of a packet from one result: the plan set and the files
// beside it, as bytes that are the same on every machine. What is on the pages and in the
// files is decided by the packages that it calls; writing them to a disk is the shells'.
package bundle

import (
	"cmp"
	"fmt"
	"sync"

	"stowright/internal/draw"
	"stowright/internal/draw/pdf"
	"stowright/internal/draw/svg"
	"stowright/internal/export/csv"
	"stowright/internal/export/dxf"
	"stowright/internal/export/xlsx"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/packet/drawings"
	"stowright/internal/packet/labels"
	"stowright/internal/packet/templates"
	"stowright/internal/pages"
	"stowright/internal/phrases"
	"stowright/internal/plan"
	"stowright/internal/view"
)

// File is one file, its name with slashes.
type File struct {
	Name  string
	Bytes []byte
}

// Want says how the packet is wanted.
type Want struct {
	Paper draw.Paper
	Owner string // the packet is about this case, counter, base or hutch alone
	Stage string // the packet is about this stage alone
	// Labels is the sheet of labels to print on; none for the usual one of the paper's country. Skip labels
	// of the first sheet are used up.
	Labels labels.Size
	Skip   int
	// Phrases put the plan set, the labels and the templates into another language; nil leaves them English.
	Phrases *phrases.Book
}

// Make gives the files: packet.pdf first, folders last.
func Make(r plan.Result, w Want) ([]File, error) {
	var beside []File
	var failed error
	var wait sync.WaitGroup
	wait.Go(func() { beside, failed = filesOf(r) }) // they ask no book of phrases, which notes in which order it is asked
	papers, err := papersOf(r, w)
	wait.Wait()
	if err = cmp.Or(err, failed); err != nil {
		return nil, err
	}
	return append(papers, beside...), nil
}

// papersOf makes what is printed.
func papersOf(r plan.Result, w Want) ([]File, error) {
	var lang string
	var say draw.Language
	if w.Phrases != nil {
		lang, say = w.Phrases.Lang, w.Phrases.Say
	}
	if w.Labels.Name == "" {
		w.Labels, _ = labels.Named("a4-14")
		if r.Job.Print == length.Inches {
			w.Labels, _ = labels.Named("letter-14")
		}
	}
	names := [...]string{"packet.pdf", "labels.pdf", "templates.pdf"}
	documents := [...]draw.Document{
		pages.In(w.Phrases, r, w.Paper, w.Owner, w.Stage),
		labels.Make(labels.Input{Job: r.Job.Name, Date: r.Job.File.Date, Print: r.Job.Print, Assembly: r.Assembly,
			Plan: r.Plan, Marks: r.Marks, Sticks: r.Sticks, Steps: r.Steps, Size: w.Labels, Skip: w.Skip, Lang: lang, Say: say}),
		templates.Make(templates.Input{Job: r.Job.Name, Date: r.Job.File.Date, Print: r.Job.Print, Parts: r.Assembly.Parts, Paper: small(w.Paper), Lang: lang, Say: say}),
	}
	var written [len(names)][]byte
	var failed [len(names)]error
	var wait sync.WaitGroup
	for i := range documents {
		if len(documents[i].Pages) > 0 { // something of the kind is in this job
			wait.Go(func() { written[i], failed[i] = pdf.Write(&documents[i]) })
		}
	}
	wait.Wait()
	var files []File
	for i, name := range names {
		if failed[i] != nil {
			return nil, fmt.Errorf("%s could not be drawn: %w", name, failed[i])
		}
		if written[i] != nil {
			files = append(files, File{name, written[i]})
		}
	}
	return files, nil
}

// filesOf makes what programs read, folders last.
func filesOf(r plan.Result) ([]File, error) {
	var files []File
	add := func(name string, b []byte) { files = append(files, File{name, b}) }
	add("cutting-list.csv", csv.Parts(r.Assembly.Parts, r.Job.Catalogue, r.Job.Print))
	add("shopping.csv", csv.Shopping(r.Bill))
	add("lists.xlsx", xlsx.Write(xlsx.Input{Assembly: r.Assembly, Plan: r.Plan, Marks: r.Marks, Bill: r.Bill, Findings: r.Findings, Catalogue: r.Job.Catalogue, Print: r.Job.Print}))
	add("model.glb", output.Model(r))
	add("model.step", output.Step(r))
	add("plan.json", output.Plan(r))
	for _, f := range dxf.Files(r.Assembly.Parts) {
		add("parts/"+f.Name, f.Bytes)
	}
	units := view.Units{Unit: r.Job.Print, Too: r.Job.Both}
	if err := pictures("sheets/", drawings.Sheets(r.Plan, r.Marks, r.Job.Catalogue, units), add); err != nil {
		return nil, err
	}
	if err := pictures("views/", drawings.Views(&r.Assembly, pages.Walls(r), units), add); err != nil {
		return nil, err
	}
	return files, nil
}

// small gives the paper that a printer at home takes: templates are for that.
func small(p draw.Paper) draw.Paper {
	switch p.Name {
	case "A3":
		return draw.A4()
	case "Tabloid":
		return draw.Letter()
	}
	return p
}

// pictures adds drawings as SVG.
func pictures(dir string, list []drawings.Drawing, add func(string, []byte)) error {
	for _, d := range list {
		b, err := svg.Write(&d.Sheet, d.Title, svg.Live)
		if err != nil {
			return fmt.Errorf("%s%s.svg could not be drawn: %w", dir, d.Name, err)
		}
		add(dir+d.Name+".svg", b)
	}
	return nil
}
