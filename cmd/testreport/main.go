// Testreport reads `go test -json` from standard input, prints what failed and what was
// skipped and why, and closes with the tests that took longest and the counts. It exits 1 when a test failed, when none ran,
// or when one was skipped although the shared data lies beside the checkout.
package main

import (
	"bufio"
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
)

type event struct {
	Action, Package, Test, Output string
	Elapsed                       float64 // seconds
}

// longest is how many tests are named that took longest.
const longest = 12

func main() {
	out := map[string]*strings.Builder{}
	var passed, failed, skipped int
	broken := false
	var slow []event
	in := bufio.NewScanner(os.Stdin)
	in.Buffer(nil, 16<<20)
	for in.Scan() {
		var e event
		if json.Unmarshal(in.Bytes(), &e) != nil {
			fmt.Println(in.Text()) // build errors come as plain text
			broken = true
			continue
		}
		key := e.Package + " " + e.Test
		if e.Test != "" && e.Elapsed > 0 && !strings.Contains(e.Test, "/") {
			slow = append(slow, e)
		}
		switch e.Action {
		case "output", "build-output":
			if e.Action == "build-output" {
				fmt.Print(e.Output)
				continue
			}
			b := out[key]
			if b == nil {
				b = &strings.Builder{}
				out[key] = b
			}
			b.WriteString(e.Output)
		case "pass":
			if e.Test != "" {
				passed++
			} else {
				fmt.Println("ok  ", e.Package)
			}
			delete(out, key)
		case "fail", "build-fail":
			broken = true
			if e.Test != "" {
				failed++
			}
			if b := out[key]; b != nil {
				fmt.Printf("FAIL %s\n%s", key, b)
			}
		case "skip":
			if e.Test != "" {
				skipped++
				if b := out[key]; b != nil {
					fmt.Printf("skipped %s\n%s", key, b)
				}
			}
		}
	}
	slices.SortStableFunc(slow, func(a, b event) int { return cmp.Compare(b.Elapsed, a.Elapsed) })
	fmt.Println("\nthe longest, in seconds, beside others that ran:")
	for _, e := range slow[:min(longest, len(slow))] {
		fmt.Printf("%6.1f %s %s\n", e.Elapsed, strings.TrimPrefix(e.Package, "stowright/"), e.Test)
	}
	fmt.Printf("\n%d passed, %d failed, %d skipped\n", passed, failed, skipped)
	_, err := os.Stat("../shared")
	switch {
	case broken || failed > 0 || passed == 0:
		os.Exit(1)
	case skipped > 0 && err == nil:
		fmt.Println("the shared data is here, so nothing may be skipped")
		os.Exit(1)
	}
}
