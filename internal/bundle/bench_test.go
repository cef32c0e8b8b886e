package bundle_test

import (
	"context"
	"testing"

	"stowright/examples"
	"stowright/internal/bundle"
	"stowright/internal/cutting/solve"
	"stowright/internal/draw"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// BenchmarkCheck is `stowright check` of the largest example, from its text to the findings.
func BenchmarkCheck(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		result(b, solve.First)
	}
}

// BenchmarkPacket is `stowright packet` of the largest example, from its text to every file.
func BenchmarkPacket(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := bundle.Make(result(b, solve.Quick), bundle.Want{Paper: draw.Letter()}); err != nil {
			b.Fatal(err)
		}
	}
}

func result(b *testing.B, effort solve.Effort) plan.Result {
	text, err := examples.FS.ReadFile("fennel-street/job.yaml")
	if err != nil {
		b.Fatal(err)
	}
	return plan.Make(context.Background(), plantest.Parse(b, "fennel-street", text), plan.Want{Effort: effort})
}
