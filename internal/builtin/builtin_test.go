package builtin_test

import (
	"testing"

	"stowright/internal/builtin"
	"stowright/internal/fitting/fittingtest"
)

// Every fitting of the list keeps the promises that all fittings make; what one of them cannot keep is said
// here, with the reason.
func TestPromises(t *testing.T) {
	unlike := map[string]fittingtest.Options{
		"can-shelves": {Handed: "a staggered row begins at the left unless the door is hinged right"},
		"dividers":    {Handed: "a middle divider may stand a slot to the left of the middle", Steps: "a slot more goes in"},
	}
	for _, k := range builtin.Fittings() {
		t.Run(k.Name, func(t *testing.T) { fittingtest.Run(t, k, unlike[k.Name]) })
		delete(unlike, k.Name)
	}
	for name := range unlike {
		t.Errorf("there is no fitting %s", name)
	}
}
