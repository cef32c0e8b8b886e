package open_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/open"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, open.Kind(), fittingtest.Options{})
}
