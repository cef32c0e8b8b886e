// Package builtin is the one list of what this program contains: its fittings, in the order in
// which help lists them.
package builtin

import (
	"stowright/internal/fitting"
	"stowright/internal/fittings/bottlerack"
	"stowright/internal/fittings/boxholder"
	"stowright/internal/fittings/canrack"
	"stowright/internal/fittings/canshelves"
	"stowright/internal/fittings/cartridgerack"
	"stowright/internal/fittings/dividers"
	"stowright/internal/fittings/drawers"
	"stowright/internal/fittings/hanging"
	"stowright/internal/fittings/open"
	"stowright/internal/fittings/shelves"
	"stowright/internal/fittings/trays"
)

// Fittings gives every kind of fitting.
func Fittings() fitting.Set {
	return fitting.Set{
		shelves.Kind(),
		dividers.Kind(),
		drawers.Kind(),
		trays.Kind(),
		hanging.Kind(),
		canshelves.Kind(),
		open.Kind(),
		canrack.Kind(),
		bottlerack.Kind(),
		cartridgerack.Kind(),
		boxholder.Kind(),
	}
}
