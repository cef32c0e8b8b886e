package packet_test

import (
	"context"
	"os"
	"testing"
	"time"

	"stowright/examples"
	"stowright/internal/builtin"
	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/pdf"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/plan"
	"stowright/internal/source/json"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

// result goes the whole way for a shipped example.
func result(t testing.TB, name string) plan.Result {
	t.Helper()
	src, err := examples.FS.ReadFile(name + "/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	n, p := yaml.Read(name, src)
	shipped, q := json.Read("shipped tables", stock.Shipped())
	p.Add(q...)
	c, q := job.Read(job.Sources{Shipped: shipped, Job: n}, builtin.Fittings())
	p.Add(q...)
	if len(p) > 0 {
		t.Fatalf("the example %s does not read: %v", name, p[0])
	}
	r := plan.Make(context.Background(), c, plan.Want{})
	return r
}

func TestExamples(t *testing.T) {
	dir := os.Getenv("PACKETS")
	names := []string{"one-case", "fennel-street", "hollis-court", "hollis-court-friend", "marram-point", "ostler-row"}
	if testing.Short() {
		names = names[:1] // the cutting plans of the others take seconds
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			r := result(t, name)
			paper := draw.A4()
			if r.Job.Print == length.Inches {
				paper = draw.Letter()
			}
			began := time.Now()
			doc := output.Pages(r, paper, "", "")
			made := time.Since(began)
			if f := doc.Faults(); len(f) > 0 {
				for i, x := range f {
					if i < 10 {
						t.Error(x)
					}
				}
			}
			bytes, err := pdf.Write(&doc)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%d sheets, %d bytes, made in %v, written in %v", len(doc.Pages), len(bytes), made, time.Since(began)-made)
			if dir != "" {
				os.WriteFile(dir+"/"+name+".pdf", bytes, 0o644)
			}
			over, err := drawtest.Overlaps(bytes)
			if err != nil {
				t.Skip(err)
			}
			for i, o := range over {
				// A word as wide as it is high may be taken for one that reads upwards, and its
				// ink misjudged: the title block, which package draw judges, is left out.
				if p := doc.Pages[o.A.Page-1]; o.A.Box.Y > p.H-42 {
					continue
				}
				if i < 25 {
					t.Error(o)
				}
			}
		})
	}
}
