package fitting

import (
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// deductFrom is the least thickness of edging that boards are sawn smaller by unless it says
// otherwise: common practice, no source.
const deductFrom = 8 * length.MM / 10

// Band puts edging on an edge or an end of a part. A door or a drawer front is always sawn
// smaller by it, however thin it is: edging on both edges of two leaves would else take four
// times its thickness from gaps that are no wider than a few millimetres, and move every cup
// away from the finished edge by one.
func Band(p *part.Part, f part.Face, e stock.Edging) {
	deduct := e.Thickness >= deductFrom
	if e.Deduct != nil {
		deduct = *e.Deduct
	}
	switch p.Role {
	case part.Door, part.DrawerFront, part.FalseFront:
		deduct = true
	}
	p.Bands[f-part.Start] = part.Band{Edging: e.ID, Thickness: e.Thickness, Deduct: deduct}
}
