package canrack_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/canrack"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, canrack.Kind(), fittingtest.Options{})
}
