package packet

import (
	"stowright/internal/draw"
	"stowright/internal/view"
)

var largest = draw.Scale{Paper: 1, Real: 10}

// walls sets every wall: elevations, plan, section.
func (b *book) walls() {
	for i := range b.Walls {
		w := &b.Walls[i]
		c := b.scene(w)
		if parts, standing := c.Parts(); len(parts)+len(standing) == 0 {
			continue
		}
		title := "Wall " + w.ID
		one := func(name, kind string, lying bool, first bool, f ...view.Figure) {
			s, r, block := b.drawing(title+": "+name, kind, lying)
			scale, _ := view.Set(s, r, b.units(), largest, f)
			block.Scale = scale.String()
			if first {
				b.enter(0, title, "wall "+w.ID, true)
			}
			b.enter(1, title+": "+name, "wall "+w.ID+" "+name, true)
		}
		one("elevation", "Elevation", true, true, c.Elevation(false, b.toOwner))
		// the section stands beside the wall without fronts, on one floor line, where it has room
		off, cut := c.Elevation(true, b.toOwner), c.Section(c.Busiest())
		lying, _ := b.Paper.Sheet(true).FreeFrame()
		try := func(row ...view.Figure) draw.Scale {
			scale, _ := view.Set(&draw.Sheet{}, lying, b.units(), largest, row)
			return scale
		}
		together := try(off) == try(off, cut)
		if together {
			one("fronts off, section", "Elevation, section", true, false, off, cut)
		} else {
			one("fronts off", "Elevation", true, false, off)
		}
		one("plan", "Plan", true, false, c.Plan())
		if !together {
			one("section", "Section", false, false, cut)
		}
	}
}
