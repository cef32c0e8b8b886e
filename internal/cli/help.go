package cli

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/builtin"
	"stowright/internal/job"
	"stowright/internal/schema"
	"stowright/internal/source"
	"stowright/internal/source/json"
	"stowright/internal/stock"
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
		if p.Name == topic || p.Name == topic+"s" {
			fmt.Fprintf(a.Out, "%s: %s\n\n%s", p.Name, p.Doc, schema.Help(p.Value, o))
			a.shipped(p.Name)
			return nil
		}
	}
	// A mapping that stands in others, as the reference calls it: anchor, edge, layer.
	for _, block := range strings.Split(schema.Help(job.File{}, o), "\n\n") {
		title, _, _ := strings.Cut(block, "\n")
		names = append(names, title)
		if strings.ReplaceAll(title, " ", "-") == topic {
			fmt.Fprintln(a.Out, strings.TrimRight(block, "\n"))
			return nil
		}
	}
	m := fmt.Sprintf("there is no help on %q", topic)
	if near := source.Nearest(topic, names); near != "" {
		m += ", did you mean " + near
	}
	return misuse(m + "; `stowright help` lists everything")
}

// shipped lists the names that come with the program in one section of a job file, with what
// each says of itself.
func (a *app) shipped(section string) {
	tree, _ := json.Read("shipped tables", stock.Shipped())
	names := tree.Get(section)
	if names == nil || len(names.Entries) == 0 {
		return
	}
	fmt.Fprintf(a.Out, "\nShipped %s:\n", section)
	for _, e := range names.Entries {
		about := ""
		for _, key := range []string{"name", "about", "kind"} {
			if n := e.Value.Get(key); n != nil && about == "" {
				about = n.Text
			}
		}
		if n := e.Value.Get("measures"); n != nil {
			about += ", measures " + n.Text
		}
		fmt.Fprintln(a.Out, strings.TrimRight(fmt.Sprintf("  %-28s %s", e.Key, about), " "))
	}
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
