package hanging_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/hanging"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, hanging.Kind(), fittingtest.Options{})
}
