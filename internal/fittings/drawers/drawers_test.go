package drawers_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/drawers"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, drawers.Kind(), fittingtest.Options{})
}
