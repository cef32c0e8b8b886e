package bottlerack_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/bottlerack"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, bottlerack.Kind(), fittingtest.Options{})
}
