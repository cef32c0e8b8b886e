package cartridgerack_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/cartridgerack"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, cartridgerack.Kind(), fittingtest.Options{})
}
