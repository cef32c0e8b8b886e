package boxholder_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/boxholder"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, boxholder.Kind(), fittingtest.Options{})
}
