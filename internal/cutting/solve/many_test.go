//go:build unix

package solve_test

import (
	"context"
	"fmt"
	"runtime"
	"syscall"
	"testing"
	"time"

	"stowright/internal/cutting"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
)

// worked is the processor time of this process, which other work on the machine does not lengthen.
func worked(b *testing.B) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Skipf("the processor time is not known: %v", err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func TestTenThousandEqualParts(t *testing.T) {
	p := panel(2440, 1220, 3*mm, [3]int{117, 118, 10_000})
	pl := solve.Solve(context.Background(), p, solve.Quick, nil)
	sound(t, p, pl)
	// 20 along and 10 across are 200 a sheet (arithmetic).
	if pl.Totals.Sheets != 50 {
		t.Errorf("%d sheets, want 50", pl.Totals.Sheets)
	}
}

// TestPlanOfVeryManySheets: equal sheets share their lists, so that the plan and its judge stay in little memory.
func TestPlanOfVeryManySheets(t *testing.T) {
	if testing.Short() {
		t.Skip("some 9 000 sheets")
	}
	var sizes [][3]int
	for i := range 19 {
		sizes = append(sizes, [3]int{480 + 83*i, 300 + 41*(i*7%19), 5200})
	}
	p := panel(4880, 2130, 3*mm, sizes...)
	live := func() int64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	before := live()
	pl := solve.Solve(context.Background(), p, solve.First, nil)
	held := live() - before
	sound(t, p, pl)
	cuts := 0
	for i := range pl.Sheets {
		cuts += len(pl.Sheets[i].Cuts)
	}
	// A cut is 160 bytes; a sheet of its own is 200, and what it refers to is shared. (With lists of their own it is over 320 a cut in all.)
	if most := int64(cuts)*200 + int64(len(pl.Sheets))*400; held > most {
		t.Errorf("%d sheets with %d cuts take %d bytes, want at most %d", len(pl.Sheets), cuts, held, most)
	}
	t.Logf("%d sheets, %d cuts: %d bytes", len(pl.Sheets), cuts, held)
}

// BenchmarkParts tells, in processor time, how the time of the first plan and of a step, and the memory, grow with the number of
// parts. They are too large for the bound to be reached, so that no search ends early.
func BenchmarkParts(b *testing.B) {
	for _, n := range []int{50, 150, 500, 1500, 5000} {
		p := panel(2440, 1220, 3*mm)
		for i := range n {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), L: length.Length(600+i*37%700) * mm, W: length.Length(320+i*53%450) * mm, Count: 1})
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			var first, all time.Duration
			var steps int64
			for b.Loop() {
				t := worked(b)
				solve.Solve(context.Background(), p, solve.First, nil)
				first += worked(b) - t
				t = worked(b)
				steps += solve.Solve(context.Background(), p, solve.Effort{Steps: 5000}, nil).Steps
				all += worked(b) - t
			}
			b.ReportMetric(float64(first.Microseconds())/1000/float64(b.N), "ms/first")
			b.ReportMetric(float64((all-first).Microseconds())/float64(max(1, steps)), "µs/step")
			b.ReportMetric(float64(steps)/float64(b.N), "steps")
		})
	}
}
