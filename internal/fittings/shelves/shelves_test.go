package shelves_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/shelves"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, shelves.Kind(), fittingtest.Options{})
}
