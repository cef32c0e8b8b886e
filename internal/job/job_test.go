package job_test

import (
	"testing"

	"stowright/internal/fitting"
	"stowright/internal/job"
	"stowright/internal/schema"
	"stowright/internal/source"
	"stowright/internal/source/json"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

// anything stands in for every fitting: what is in it is the fitting's to check.
type anything struct{ kept *source.Node }

func (a *anything) Decode(n *source.Node, _ *schema.Context)            { a.kept = n }
func (a *anything) Schema(*schema.Sketch) schema.Shape                  { return schema.Shape{} }
func (a *anything) Words() string                                       { return "anything" }
func (a *anything) Claim(fitting.Env, fitting.Space) (c fitting.Claim)  { return c }
func (a *anything) Build(fitting.Env, fitting.Space) (r fitting.Result) { return r }

// bin is a fitting with fields.
type bin struct {
	anyone
	Board string `job:"board" doc:"board"`
	Count int    `job:"count" min:"1" max:"9" default:"1" doc:"how many"`
}

type anyone struct{}

func (*anyone) Claim(fitting.Env, fitting.Space) (c fitting.Claim)  { return c }
func (*anyone) Build(fitting.Env, fitting.Space) (r fitting.Result) { return r }

func kinds() fitting.Set {
	s := fitting.Set{{Name: "bin", Where: fitting.InBay, New: func() fitting.Spec { return new(bin) }}}
	add := func(w fitting.Where, names ...string) {
		for _, n := range names {
			s = append(s, fitting.Kind{Name: n, Where: w, New: func() fitting.Spec { return new(anything) }})
		}
	}
	add(fitting.InBay, "shelves", "dividers", "drawers", "trays", "can-shelves", "hanging", "open")
	add(fitting.OnDoor, "can-rack", "bottle-rack", "cartridge-rack", "box-holder")
	return s
}

func shipped(t testing.TB) *source.Node {
	t.Helper()
	n, mistakes := json.Read("shipped", stock.Shipped())
	if len(mistakes) > 0 {
		t.Fatal(mistakes)
	}
	return n
}

// read reads a job over the shipped tables.
func read(t testing.TB, name, text string, libraries ...*source.Node) (job.Checked, source.Problems) {
	t.Helper()
	n, mistakes := yaml.Read(name, []byte(text))
	if n == nil {
		return job.Checked{}, mistakes
	}
	c, more := job.Read(job.Sources{Shipped: shipped(t), Libraries: libraries, Job: n}, kinds())
	mistakes.Add(more...)
	mistakes.Sort()
	return c, mistakes
}

// good reads a job that must have no mistakes.
func good(t testing.TB, name, text string) job.Checked {
	t.Helper()
	c, mistakes := read(t, name, text)
	for _, m := range mistakes {
		t.Error(m.Excerpt())
	}
	return c
}

func TestOneCaseWithoutWallOrGoods(t *testing.T) {
	c := good(t, "one.yaml", `
stowright: 1
unit: in
cases:
  box: {width: 30, height: 34 1/2, depth: 18 1/2, inside: {shelves: {count: 2}}}
`)
	if len(c.Cases) != 1 || c.Cases[0].Spec.Stands.Kind != "toe" || c.Cases[0].Spec.Joint != "pocket-screw" {
		t.Errorf("%+v", c.Cases)
	}
	if c.Practice.Hinge != "hinge-110" || len(c.Practice.Tools) == 0 || len(c.Practice.Bits) == 0 {
		t.Error("the practice is not complete")
	}
}

// A fitting's own fields are read strictly, and what it names must be there.
func TestFittingsAreChecked(t *testing.T) {
	_, mistakes := read(t, "job.yaml", "stowright: 1\nunit: in\ncases: {a: {width: 30, height: 30, depth: 18, inside: {bin: {board: ply-hlaf, count: 99, colour: red}}}}\n")
	if len(mistakes) != 3 {
		t.Error(said(mistakes))
	}
	c := good(t, "job.yaml", "stowright: 1\nunit: in\ncases: {a: {width: 30, height: 30, depth: 18, inside: {bin: {board: ply-half}}}}\n")
	if b, ok := c.Cases[0].Spec.Inside.Fitting.Value.(*bin); !ok || b.Board != "ply-half" || b.Count != 1 {
		t.Errorf("%+v", c.Cases[0].Spec.Inside.Fitting)
	}
}
