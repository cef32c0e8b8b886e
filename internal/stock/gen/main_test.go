package main

import (
	"bytes"
	"os"
	"testing"

	"stowright/internal/stock"
)

// The embedded JSON is what the YAML files say today.
func TestShippedIsGenerated(t *testing.T) {
	want, err := text(os.DirFS("../shipped"))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, stock.Shipped()) {
		t.Error("shipped.json is not what shipped/*.yaml gives: run `go generate ./internal/stock`")
	}
}
