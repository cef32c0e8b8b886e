// Package cuttingtest finds the open instances that tests of cutting are held against.
package cuttingtest

import (
	"os"
	"path/filepath"
	"testing"
)

// Open opens a file of shared/data/packing, beside the checkout, or skips the test where it is not there.
func Open(t *testing.T, name string) *os.File {
	t.Helper()
	dir, err := os.Getwd()
	for err == nil {
		if f, e := os.Open(filepath.Join(dir, "shared", "data", "packing", name)); e == nil {
			return f
		}
		up := filepath.Dir(dir)
		if up == dir {
			break
		}
		dir = up
	}
	t.Skipf("the open instances of %s are not there", name)
	return nil
}
