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
		one := func(name, kind string, lying bool, first bool, f view.Figure) {
			s, r, block := b.drawing(title+": "+name, kind, lying)
			scale, _ := view.Set(s, r, b.Print, largest, []view.Figure{f})
			block.Scale = scale.String()
			if first {
				b.enter(0, title, "wall "+w.ID, true)
			}
			b.enter(1, title+": "+name, "wall "+w.ID+" "+name, true)
		}
		one("elevation", "Elevation", true, true, c.Elevation(false, b.toOwner))
		one("fronts off", "Elevation", true, false, c.Elevation(true, b.toOwner))
		one("plan", "Plan", true, false, c.Plan())
		one("section", "Section", false, false, c.Section(c.Busiest()))
	}
}
