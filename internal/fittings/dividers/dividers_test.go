package dividers_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/dividers"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, dividers.Kind(), fittingtest.Options{Handed: "slots are stepped off from the left", Steps: "slots are stepped off from the left"})
}
