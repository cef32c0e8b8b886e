package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"stowright/examples"
	"stowright/internal/job"
	"stowright/internal/source"
	"stowright/internal/source/json"
	"stowright/internal/stock"
)

type newCmd struct {
	Path string `arg:"" optional:"" default:"job.yaml" help:"File to write."`
	From string `placeholder:"EXAMPLE" help:"Start from a shipped example; without it a few questions are asked."`
	List bool   `help:"List the examples."`
}

func (newCmd) Help() string {
	return "Examples:\n  stowright new my-garage.yaml                       ask a few questions\n  stowright new my-garage.yaml --from fennel-street  start from an example\n  stowright new --list                               list the examples\n\nA file that is there is never overwritten.\n"
}

func (c *newCmd) Run(a *app) error {
	names := exampleNames()
	if c.List {
		for _, n := range names {
			fmt.Fprintf(a.Out, "%s\n", n)
		}
		return nil
	}
	if _, err := os.Lstat(c.Path); err == nil {
		return misuse(c.Path + " is there already; name another file")
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	var text string
	if c.From != "" {
		b, err := examples.FS.ReadFile(c.From + "/job.yaml")
		if err != nil {
			m := fmt.Sprintf("there is no example %q; there are %s", c.From, strings.Join(names, ", "))
			if near := source.Nearest(c.From, names); near != "" {
				m += ". Did you mean " + near + "?"
			}
			return misuse(m)
		}
		text = string(b)
	} else {
		var err error
		if text, err = a.ask(); err != nil {
			return err
		}
	}
	if err := writeFile(c.Path, []byte(text)); err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "Wrote %s. Next: stowright check %s\n", c.Path, c.Path)
	return nil
}

func exampleNames() []string {
	entries, err := examples.FS.ReadDir(".")
	if err != nil {
		panic("cli: " + err.Error())
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	slices.Sort(names)
	return names
}

// ask puts the few questions; an answer that cannot be used is asked for again.
func (a *app) ask() (string, error) {
	shipped, _ := json.Read("shipped tables", stock.Shipped())
	answers := map[string]string{}
	in := bufio.NewScanner(a.In)
	put := func(q job.Question) error {
		fmt.Fprint(a.Out, q.Ask)
		if q.Eg != "" {
			fmt.Fprintf(a.Out, " Such as %s.", q.Eg)
		}
		if q.Default != "" {
			fmt.Fprintf(a.Out, " [%s]", q.Default)
		}
		fmt.Fprint(a.Out, " ")
		if !in.Scan() {
			if err := in.Err(); err != nil {
				return err
			}
			return misuse("the questions were not all answered; nothing was written. Start from an example with --from, if no one is there to answer")
		}
		answers[q.Key] = in.Text()
		return nil
	}
	for _, q := range job.Questions() {
		for {
			if err := put(q); err != nil {
				return "", err
			}
			_, mistakes := job.Start(answers, shipped)
			m, bad := mistakes[q.Key]
			if !bad {
				break
			}
			fmt.Fprintf(a.Out, "%s.\n", m)
		}
	}
	text, mistakes := job.Start(answers, shipped)
	for _, m := range mistakes {
		return "", misuse(m)
	}
	return text, nil
}
