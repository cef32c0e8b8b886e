package trays_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/trays"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, trays.Kind(), fittingtest.Options{})
}
