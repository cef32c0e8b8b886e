package planjson_test

import (
	"flag"
	"os"
	"testing"

	"stowright/internal/export/planjson"
)

var update = flag.Bool("update", false, "write docs/plan.schema.json")

func TestPublishedSchemaIsOurs(t *testing.T) {
	const file = "../../../docs/plan.schema.json"
	want := planjson.Schema()
	if *update {
		if err := os.WriteFile(file, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Error("docs/plan.schema.json is not what the types say; run go test ./internal/export/planjson -update and read the change")
	}
}
