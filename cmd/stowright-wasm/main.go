// Stowright-wasm is the core alone, compiled to WebAssembly: a job as JSON on standard input,
// plan.json on standard output. A published page runs it; a test runs it under Node.js and
// compares its bytes with the native ones.
package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"stowright/internal/builtin"
	"stowright/internal/job"
	"stowright/internal/output"
	"stowright/internal/plan"
	"stowright/internal/source/json"
	"stowright/internal/stock"
)

func main() {
	data, err := io.ReadAll(os.Stdin)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(3)
	}
	tree, problems := json.Read("job", data)
	shipped, p := json.Read("shipped tables", stock.Shipped())
	problems.Add(p...)
	if len(problems) == 0 {
		c, p := job.Read(job.Sources{Shipped: shipped, Job: tree}, builtin.Fittings())
		if len(p) == 0 {
			if _, err := os.Stdout.Write(output.Plan(plan.Make(context.Background(), c, plan.Want{}))); err != nil {
				os.Exit(3)
			}
			return
		}
		problems = p
	}
	for _, x := range problems {
		fmt.Fprintln(os.Stderr, x)
	}
	os.Exit(1)
}
