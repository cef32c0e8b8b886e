package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"stowright/internal/bundle"
	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/cutting/list"
	"stowright/internal/cutting/solve"
	"stowright/internal/draw/pdf"
	"stowright/internal/draw/svg"
	"stowright/internal/length"
	"stowright/internal/packet"
	"stowright/internal/packet/drawings"
	"stowright/internal/source"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
	"stowright/internal/view"
)

type cutCmd struct {
	List      string   `arg:"" help:"List of parts: rows of text, parted by commas, as a spreadsheet writes them; - for standard input."`
	Stock     []string `sep:"none" placeholder:"SIZE[=COUNT][@PRICE]" help:"A size of sheet, length along the grain first; may be given several times."`
	Kerf      string   `placeholder:"LENGTH" help:"What the blade takes; 3 mm or 1/8 in when not given."`
	RipKerf   string   `placeholder:"LENGTH" help:"What the blade takes in cuts along the sheet, where another saw does them."`
	Trim      string   `placeholder:"LENGTH" help:"What is taken off every edge of a bought sheet first, the kerf included; nothing when not given."`
	NoGrain   bool     `help:"The sheets have no grain: every part may be turned."`
	Fence     string   `placeholder:"LENGTH" help:"The widest the fence can be set."`
	Narrow    string   `placeholder:"LENGTH" help:"The narrowest safe rip; narrower ones are warned of."`
	Rough     string   `placeholder:"LENGTH" help:"Whole sheets are first broken down with a hand-held saw and this much is left on, to be cut to size at the other saw; offcuts on hand are cut to size at once."`
	RoughKerf string   `placeholder:"LENGTH" help:"What the hand-held saw's blade takes; as --kerf when not given."`
	Stages    int      `help:"How many times the direction of cutting may change, the first cuts counted as 1; 0 = any."`
	Keep      string   `placeholder:"LENGTH" help:"The least side of an offcut worth keeping; 100 mm or 4 in when not given."`
	Offcuts   string   `placeholder:"FILE" help:"Offcuts on hand, used first where that saves a sheet: rows of stock,length,width,count,grain, or a .yaml file with boards as a job has them, their sheets on hand and damaged places too."`
	WriteBack bool     `help:"When all parts are cut, write what is left back to the file of offcuts; comments in it stay."`
	Unit      string   `enum:"in,mm" default:"mm" help:"What bare numbers mean, and what is printed: in or mm."`
	Effort    string   `enum:"first,quick,normal,deep" default:"quick" help:"How long to search: first, quick, normal, deep."`
	Take      int      `placeholder:"N" help:"Take the N-th of the plans found, as the plan lists them from the fewest settings on, in place of the cheapest with the biggest offcuts."`
	Seed      uint64   `help:"Another seed may give another plan; the same gives the same."`
	JSON      bool     `help:"Print the plan for programs."`
	CSV       bool     `name:"csv" help:"Print the cuts as rows for a spreadsheet."`
	Out       string   `short:"o" placeholder:"DIR" help:"Also write a folder with plan.pdf, plan.json, cuts.csv and offcuts.csv."`
	SVG       bool     `name:"svg" help:"With --out: also a picture of every sheet, sheets/01.svg and so on."`
	Paper     string   `enum:"a4,letter,a3,tabloid," default:"" help:"Paper: a4, letter, a3 or tabloid; by the unit when not given."`
}

func (cutCmd) Help() string {
	return `Example:
  stowright cut parts.csv --stock 2440x1220@54 --stock 1220x610=2@20 --kerf 3 --trim 5

where parts.csv is

  mark,length,width,count,grain
  side,762,560,6,along
  shelf,564,540,11,free

The first line names the columns: ` + strings.Join(list.Columns, ", ") + `; mark, length
and width are needed. Sizes are as sawn, length along the grain. The column grain holds along, across or free.
The column stock names the stocks that a part may be cut from (--stock birch:2440x1220), parted by
spaces. Parts of one group come from one strip, in the order of the list.

Nothing is bought that the sheets in hand suffice for, and the plan says how few sheets any plan needs.

Exit status: 0 all parts are cut, 1 some are not or the list has mistakes, 2 the command was
wrong, 3 a file or the disk failed.`
}

func (c *cutCmd) Run(a *app) error {
	u := length.Millimetres
	if c.Unit == "in" {
		u = length.Inches
	}
	p, err := c.problem(u)
	if err != nil {
		return err
	}
	if c.SVG && c.Out == "" {
		return misuse("--svg needs a folder; name it with --out")
	}
	if c.WriteBack && c.Offcuts == "" {
		return misuse("--write-back needs the file of offcuts; name it with --offcuts")
	}
	var problems source.Problems
	if c.Offcuts != "" {
		b, err := os.ReadFile(c.Offcuts)
		if err != nil && !(errors.Is(err, fs.ErrNotExist) && c.WriteBack) {
			return err
		}
		hand, ps, err := c.hand(b, u, p.Stocks)
		if err != nil {
			return err
		}
		problems.Add(ps...)
		p.Stocks = append(onHand(hand, p.Stocks), p.Stocks...)
	}
	data, err := readAll(c.List, a.In)
	if err != nil {
		return err
	}
	if len(data) > source.MaxBytes {
		return misuse("the list is larger than any list of parts can be")
	}
	name := c.List
	if name == "-" {
		name = "standard input"
	}
	var known []string
	for i := range p.Stocks {
		if k := list.Kind(p.Stocks[i].ID); p.Stocks[i].ID == k {
			known = append(known, k)
		}
	}
	parts, groups, ps := list.Parts(name, data, u, known)
	problems.Add(ps...)
	if len(problems) > 0 {
		a.code = Unfit
		problems.Sort()
		return problems.Print(a.Err, mostProblems)
	}
	p.Parts, p.Groups = list.From(parts, p.Stocks), groups
	show, done := a.bar()
	plan := solve.Solve(a.ctx, p, effort(c.Effort), func(now solve.Progress) { show(now.String(), now.Share) })
	done()
	if c.Take != 0 {
		switch {
		case c.Take < 0 || c.Take > max(1, len(plan.Trade)):
			return misuse(fmt.Sprintf("--take %d: take 1 to %d of the plans found; without --take they are listed", c.Take, max(1, len(plan.Trade))))
		case len(plan.Ways) > 0 && plan.Ways[c.Take-1] != nil:
			list := plan.Trade
			plan = plan.Ways[c.Take-1]
			plan.Trade = list
		}
	}
	if faults := judge.Check(p, plan); len(faults) > 0 {
		panic("cli: the judge refuses the cutting plan: " + faults[0].String())
	}
	if len(plan.Unplaced) > 0 {
		a.code = Unfit
	}
	if err := c.write(a, p, plan, u, name); err != nil {
		return err
	}
	switch {
	case c.JSON:
		_, err = a.Out.Write(list.JSON(plan))
	case c.CSV:
		_, err = a.Out.Write(list.Rows(plan))
	default:
		_, err = fmt.Fprint(a.Out, list.Text(p, plan, u))
	}
	return err
}

// problem reads the flags, all mistakes at once.
func (c *cutCmd) problem(u length.Unit) (*cutting.Problem, error) {
	var wrong []string
	size := func(flag, text string, otherwise length.Length) length.Length {
		if text == "" {
			return otherwise
		}
		l, err := length.Parse(text, u)
		if err == nil && l < 0 {
			err = fmt.Errorf("%q is less than nothing", text)
		}
		if err != nil {
			wrong = append(wrong, flag+": "+err.Error())
		}
		return l
	}
	kerf, least := 3*length.MM, 100*length.MM
	if u == length.Inches {
		kerf, least = length.Inch/8, 4*length.Inch
	}
	kerf = size("--kerf", c.Kerf, kerf)
	k := cutting.Kerf{X: kerf, Y: size("--rip-kerf", c.RipKerf, kerf)}
	t := size("--trim", c.Trim, 0)
	p := &cutting.Problem{Seed: c.Seed}
	p.Limits = cutting.Limits{Stages: c.Stages, Largest: size("--fence", c.Fence, 0), Narrow: size("--narrow", c.Narrow, 0)}
	if c.Rough != "" {
		p.Limits.Rough = &cutting.Rough{Allowance: size("--rough", c.Rough, 0), Kerf: size("--rough-kerf", c.RoughKerf, kerf)}
	} else if c.RoughKerf != "" {
		wrong = append(wrong, "--rough-kerf: say with --rough how much the first cuts leave on")
	}
	p.Keep.Least = size("--keep", c.Keep, least)
	grain := cutting.GrainX
	if c.NoGrain {
		grain = cutting.NoGrain
	}
	if len(c.Stock) == 0 && c.Offcuts == "" {
		wrong = append(wrong, "no stock to cut from; name it like --stock 2440x1220, or --stock 96x48in=3")
	}
	seen := map[string]bool{}
	for _, s := range c.Stock {
		st, err := list.Stock(s, u)
		if err != nil {
			wrong = append(wrong, "--stock: "+err.Error())
			continue
		}
		if seen[st.ID] {
			wrong = append(wrong, fmt.Sprintf("--stock: %s is given twice; give it once with its count, or name the two apart like birch:2440x1220", st.ID))
		}
		seen[st.ID] = true
		st.Kerf, st.Grain = k, grain
		st.Trim = cutting.Trim{Left: t, Right: t, Bottom: t, Top: t}
		if u := st.Usable(); u.L <= 0 || u.W <= 0 {
			wrong = append(wrong, fmt.Sprintf("--stock: nothing is left of %s when it is trimmed", st.ID))
		}
		p.Stocks = append(p.Stocks, st)
	}
	if c.Stages < 0 || c.Stages == 1 {
		wrong = append(wrong, "--stages: parts need at least two directions of cutting; write 2 or more, or 0 for any")
	}
	if c.JSON && c.CSV {
		wrong = append(wrong, "--json and --csv do not go together; leave one")
	}
	if len(wrong) > 0 {
		return nil, misuse(strings.Join(wrong, "\nstowright: "))
	}
	return p, nil
}

// yaml tells whether the offcuts are in a stock file with boards.
func (c *cutCmd) yaml() bool {
	return slices.Contains([]string{".yaml", ".yml"}, strings.ToLower(filepath.Ext(c.Offcuts)))
}

// hand reads the offcuts on hand.
func (c *cutCmd) hand(b []byte, u length.Unit, stocks []cutting.Stock) ([]cutting.Stock, source.Problems, error) {
	if !c.yaml() {
		hand, ps := list.Offcuts(c.Offcuts, b, u)
		return hand, ps, nil
	}
	root, ps := yaml.Read(c.Offcuts, b)
	if root == nil || len(ps) > 0 {
		return nil, ps, nil
	}
	for _, s := range stocks {
		if c.WriteBack && root.Find(source.Path{}.Key("boards").Key(s.ID)) == nil {
			return nil, nil, misuse(fmt.Sprintf("%s has no board %q to write offcuts back to; name the stock as a board there, like --stock birch-18:2440x1220", c.Offcuts, s.ID))
		}
	}
	hand, ps := list.ShopStock(root, u, stocks)
	return hand, ps, nil
}

// left gives the file of offcuts as it is when the plan is done.
func (c *cutCmd) left(p *cutting.Problem, plan *cutting.Plan) ([]byte, error) {
	if !c.yaml() {
		return list.Left(p, plan), nil
	}
	b, err := os.ReadFile(c.Offcuts)
	if err != nil {
		return nil, err
	}
	return list.ShopLeft(b, shopFile(c.Offcuts), p, plan)
}

// shopFile reads a shop's stock file of that name.
func shopFile(name string) func([]byte) (*source.Node, error) {
	return func(b []byte) (*source.Node, error) {
		root, ps := yaml.Read(name, b)
		if len(ps) > 0 {
			return nil, errors.New(ps[0].String())
		}
		return root, nil
	}
}

// onHand gives offcuts the saw of the sheets.
func onHand(hand, sheets []cutting.Stock) []cutting.Stock {
	for i := range hand {
		if len(sheets) > 0 {
			hand[i].Kerf = sheets[0].Kerf
			if sheets[0].Grain == cutting.NoGrain {
				hand[i].Grain = cutting.NoGrain
			}
		}
	}
	return hand
}

// write writes the folder and the file of offcuts, where they are asked for.
func (c *cutCmd) write(a *app, p *cutting.Problem, plan *cutting.Plan, u length.Unit, name string) error {
	if c.Out != "" {
		in := packet.Input{Job: strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)), Print: u, Plan: *plan, Paper: paper(c.Paper, u)}
		if len(plan.Trade) > 1 {
			in.Trades = []packet.Trade{{Plans: plan.Trade}}
			if in.Taken = "Taken is the cheapest of them, with the bigger offcuts, and then with the fewer settings."; c.Take > 0 {
				in.Taken = fmt.Sprintf("Taken is number %d of them, as was asked for (--take %d).", c.Take, c.Take)
			}
		}
		for _, s := range plan.Sheets {
			var marks []string
			for _, q := range s.Pieces {
				marks = append(marks, q.Part)
			}
			in.Marks = append(in.Marks, marks)
		}
		doc := packet.Cutting(in)
		b, err := pdf.Write(&doc)
		if err != nil {
			return fmt.Errorf("the plan could not be drawn: %w", err)
		}
		files := []bundle.File{{Name: "plan.pdf", Bytes: b}, {Name: "plan.json", Bytes: list.JSON(plan)}, {Name: "cuts.csv", Bytes: list.Rows(plan)}, {Name: "offcuts.csv", Bytes: list.Left(p, plan)}}
		if c.SVG {
			for _, d := range drawings.Sheets(*plan, in.Marks, stock.Catalogue{}, view.Units{Unit: u}) {
				b, err := svg.Write(&d.Sheet, d.Title, svg.Live)
				if err != nil {
					return fmt.Errorf("a sheet could not be drawn: %w", err)
				}
				files = append(files, bundle.File{Name: "sheets/" + d.Name + ".svg", Bytes: b})
			}
		}
		if err := writeFolder(c.Out, files); err != nil {
			return err
		}
	}
	if !c.WriteBack {
		return nil
	}
	if len(plan.Unplaced) > 0 {
		fmt.Fprintf(a.Err, "stowright: %s is left as it was, for not all parts are cut\n", c.Offcuts)
		return nil
	}
	b, err := c.left(p, plan)
	if err != nil {
		return err
	}
	return replace(c.Offcuts, b)
}

// replace writes a file so that it holds either all of the old or all of the new.
func replace(path string, b []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-new-")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(b)
	err = errors.Join(err, f.Sync(), f.Chmod(0o644), f.Close())
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
