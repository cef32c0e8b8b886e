package cli

import (
	"cmp"
	"fmt"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/plan"
	"stowright/internal/strength/unit"
)

type checkCmd struct {
	Job     string `arg:"" help:"Job file, or - for standard input."`
	All     bool   `help:"Also list notes, and checks that hold."`
	Hints   bool   `help:"Below each finding, what to do about it, each remedy with its new ratio."`
	Explain string `placeholder:"CODE" help:"Print the findings of one code with the worked calculation and the source."`
	JSON    bool   `help:"Print plan.json instead of a list."`
	Effort  string `enum:"first,quick,normal,deep" default:"first" help:"How long the cutting plan is searched for: first (a sound plan at once), quick, normal, deep."`
}

func (checkCmd) Help() string {
	return "Example:\n  stowright check examples/fennel-street/job.yaml\n\nOne line for every finding, worst first. --explain CODE shows how a number came about.\n" + exits
}

func (c *checkCmd) Run(a *app) error {
	job, ok, err := a.read(c.Job)
	if err != nil || !ok {
		return err
	}
	r := plan.Make(a.ctx, job, plan.Want{Effort: effort(c.Effort)})
	if r.Findings.Blocking() {
		a.code = Unfit
	}
	switch {
	case c.JSON:
		_, err = a.Out.Write(output.Plan(r))
		return err
	case c.Explain != "":
		return a.explain(r.Findings, finding.Code(c.Explain), r.Job.Print == length.Inches)
	}
	a.summary(r)
	if b := r.Plan.Bounds; c.Effort == "first" && len(r.Plan.Sheets) > b.Sheets {
		fmt.Fprintln(a.Out, "The sheets are those of the first plan found; --effort quick searches as long as the packet does.")
	}
	a.findings(r.Findings, c.All, c.Hints)
	return nil
}

// explain prints everything known about the findings of one code.
func (a *app) explain(l finding.List, code finding.Code, inches bool) error {
	l = l.With(code)
	if len(l) == 0 {
		return misuse(fmt.Sprintf("this job has no finding %q; `stowright check` lists the codes in brackets", code))
	}
	for _, f := range l {
		fmt.Fprintf(a.Out, "%s at %s: %s\n", f.Severity, f.At, f.Text)
		if f.Verdict != finding.None {
			fmt.Fprintf(a.Out, "  %s", f.Verdict)
			if f.Capacity != 0 {
				demand, word := unit.Shown(f.Demand, f.Unit, inches)
				capacity, _ := unit.Shown(f.Capacity, f.Unit, inches)
				fmt.Fprintf(a.Out, ": demand %.4g %s, capacity %.4g %s, ratio %.2f", demand, word, capacity, word, f.Ratio())
			}
			fmt.Fprintln(a.Out)
		}
		for _, w := range f.Working {
			fmt.Fprintf(a.Out, "  %s\n", w)
		}
		if len(f.Also) > 0 {
			fmt.Fprintf(a.Out, "  The same at %s.\n", strings.Join(f.Also, ", "))
		}
		if f.Accepted != "" {
			fmt.Fprintf(a.Out, "  Accepted by the job: %s\n", f.Accepted)
		}
		if f.Hint != "" {
			fmt.Fprintf(a.Out, "  What to do: %s\n", f.Hint)
		}
		fmt.Fprintf(a.Out, "  Source: %s\n", cmp.Or(f.Source, "none"))
	}
	return nil
}

// summary says in a few lines what the job comes to.
func (a *app) summary(r plan.Result) {
	cases := 0
	for _, o := range r.Assembly.Owners {
		if o.Kind == "case" && !o.Standing {
			cases++
		}
	}
	fmt.Fprintf(a.Out, "%s: %s, %s, %s", cmp.Or(r.Job.Name, "job"), count(cases, "case"), count(len(r.Assembly.Parts), "part"), cutlist.Counted(r.Plan.Sheets))
	if b := r.Plan.Bounds.Sheets; b > 0 && b <= len(r.Plan.Sheets)-cutlist.LeftOvers(r.Plan.Sheets) {
		fmt.Fprintf(a.Out, " (no plan can use fewer than %d)", b)
	}
	cost := strings.TrimSpace(r.Bill.Total.String() + " " + r.Bill.Currency)
	switch n := len(r.Bill.Asked); {
	case n > 0 && r.Bill.Total == 0:
		fmt.Fprint(a.Out, ", no prices given")
	case n > 0:
		fmt.Fprintf(a.Out, ", %s and %s without a price", cost, count(n, "thing"))
	case len(r.Assembly.Parts) > 0:
		fmt.Fprintf(a.Out, ", %s", cost)
	}
	fmt.Fprintln(a.Out)
}

// count gives a number of things in words: "1 case", "3 cases".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// findings prints one line each, worst first, and the five worst ratios of all checks. What is said of several places in the
// same words stands once, with all of its places.
func (a *app) findings(l finding.List, all, hints bool) {
	hidden, accepted := 0, 0
	places := make(map[words][]string)
	for _, f := range l {
		places[wordsOf(f)] = append(places[wordsOf(f)], f.At)
	}
	for _, f := range l {
		if f.Accepted != "" {
			accepted++
		}
		if !all && f.Verdict != finding.NotKnown && (f.Severity == finding.Note || f.Verdict == finding.Holds) && f.Accepted == "" {
			hidden++
			continue
		}
		at := places[wordsOf(f)]
		if at == nil {
			continue
		}
		delete(places, wordsOf(f))
		word := f.Severity.String()
		switch f.Verdict {
		case finding.Holds, finding.Near, finding.NotKnown:
			word = f.Verdict.String()
		}
		if f.Accepted != "" {
			word = "accepted"
		}
		line := fmt.Sprintf("%-9s %s: %s", word, strings.Join(at, ", "), f.Text)
		if f.Accepted != "" {
			line += " Accepted: " + f.Accepted + "."
		}
		if a.Colour && f.Severity == finding.Error {
			line = "\x1b[1;31m" + line + "\x1b[0m"
		}
		fmt.Fprintf(a.Out, "%s [%s]\n", line, f.Code)
		if hints && f.Hint != "" && (f.Severity != finding.Note || f.Verdict == finding.NotKnown) {
			fmt.Fprintf(a.Out, "          %s\n", strings.ToUpper(f.Hint[:1])+f.Hint[1:])
		}
	}
	if hidden > 0 {
		fmt.Fprintf(a.Out, "%d more notes and checks that hold; --all lists them.\n", hidden)
	}
	if worst := l.Worst(5); len(worst) > 0 {
		fmt.Fprintln(a.Out, "\nThe worst ratios of demand over capacity:")
		for _, f := range worst {
			ratio := fmt.Sprintf("%.2f", f.Ratio())
			if f.Capacity == 0 {
				ratio = "none"
			}
			fmt.Fprintf(a.Out, "%6s  %s %s [%s]\n", ratio, f.Verdict, f.At, f.Code)
		}
	}
	fmt.Fprintln(a.Out, "\n--hints says what to do about each, --explain CODE shows how a number came about.")
	if accepted > 0 {
		fmt.Fprintf(a.Out, "%d accepted by the job.\n", accepted)
	}
	unproved := 0
	for _, f := range l {
		if f.Verdict == finding.NotKnown && f.Severity < finding.Note && f.Accepted == "" {
			unproved++
		}
	}
	switch {
	case l.Blocking():
		fmt.Fprintln(a.Out, "Do not build it as it stands: mend the errors first.")
	case unproved > 0:
		fmt.Fprintf(a.Out, "No error stands against building it, but %s not known (listed above as such), and nothing is proved there: find it out first. Results defer to local codes and licensed practice.\n", isAre(unproved, "thing"))
	default:
		fmt.Fprintln(a.Out, "Nothing stands against building it. Results defer to local codes and licensed practice.")
	}
}

// words is all that a line shows of a finding but its place.
type words struct {
	code                 finding.Code
	severity             finding.Severity
	verdict              finding.Verdict
	text, hint, accepted string
}

func wordsOf(f finding.Finding) words {
	return words{f.Code, f.Severity, f.Verdict, f.Text, f.Hint, f.Accepted}
}

func isAre(n int, what string) string {
	if n == 1 {
		return "1 " + what + " is"
	}
	return count(n, what) + " are"
}
