package cli

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/builtin"
	"stowright/internal/job"
	"stowright/internal/schema"
	"stowright/internal/source"
)

type schemaCmd struct{}

func (schemaCmd) Help() string {
	return "Example:\n  stowright schema > job.schema.json\n\nPut this in the first line of a job for editors that know YAML schemas:\n  # yaml-language-server: $schema=job.schema.json\n"
}

func (schemaCmd) Run(a *app) error {
	_, err := a.Out.Write(job.Schema(builtin.Fittings()))
	return err
}

type helpCmd struct {
	Topic []string `arg:"" optional:"" help:"A command, a fitting, or a part of the job file."`
}

func (helpCmd) Help() string {
	return "Examples:\n  stowright help packet      a command\n  stowright help drawers     a fitting\n  stowright help walls       a part of the job file\n"
}

func (c *helpCmd) Run(a *app) error {
	topic := strings.Join(c.Topic, "-")
	if topic == "" {
		return a.topics()
	}
	for _, n := range a.model.Model.Children {
		if n.Name == topic {
			if _, err := a.model.Parse([]string{topic, "--help"}); err != nil {
				return err
			}
			return nil
		}
	}
	o := job.Options(builtin.Fittings())
	var names []string
	for _, k := range builtin.Fittings() {
		names = append(names, k.Name)
		if k.Name == topic {
			where := "Goes in a bay."
			if k.Where == "door" {
				where = "Goes on a door."
			}
			fmt.Fprintf(a.Out, "%s: %s. %s\n\n%s", k.Name, strings.TrimSuffix(k.Doc, "."), where, schema.Help(k.New(), o))
			return nil
		}
	}
	for _, p := range job.Parts() {
		names = append(names, p.Name)
		if p.Name == topic {
			fmt.Fprintf(a.Out, "%s: %s\n\n%s", p.Name, p.Doc, schema.Help(p.Value, o))
			return nil
		}
	}
	m := fmt.Sprintf("there is no help on %q", topic)
	if near := source.Nearest(topic, names); near != "" {
		m += "; did you mean " + near + "?"
	}
	return misuse(m + " `stowright help` lists everything")
}

func (a *app) topics() error {
	fmt.Fprintln(a.Out, about)
	fmt.Fprintln(a.Out, "\nCommands (stowright help COMMAND):")
	for _, n := range a.model.Model.Children {
		fmt.Fprintf(a.Out, "  %-16s %s\n", n.Name, n.Help)
	}
	fmt.Fprintln(a.Out, "\nFittings (stowright help FITTING):")
	for _, k := range builtin.Fittings() {
		fmt.Fprintf(a.Out, "  %-16s %s\n", k.Name, k.Doc)
	}
	fmt.Fprintln(a.Out, "\nParts of a job file (stowright help PART):")
	parts := job.Parts()
	slices.SortFunc(parts, func(p, q job.Part) int { return strings.Compare(p.Name, q.Name) })
	for _, p := range parts {
		fmt.Fprintf(a.Out, "  %-16s %s\n", p.Name, p.Doc)
	}
	return nil
}
