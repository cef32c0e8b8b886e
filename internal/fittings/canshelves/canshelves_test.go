package canshelves_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/canshelves"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, canshelves.Kind(), fittingtest.Options{Handed: "a staggered row begins at the left unless the door is hinged right"})
}
