package dividers_test

import (
	"testing"

	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/dividers"
)

func TestPromises(t *testing.T) {
	fittingtest.Run(t, dividers.Kind(), fittingtest.Options{Handed: "a middle divider may stand a slot to the left of the middle", Steps: "a slot more goes in"})
}
