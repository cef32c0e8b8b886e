package bill

import "stowright/internal/part"

// Hours is a stated range, common practice, no source.
type Hours struct {
	Work        string
	Least, Most float64
}

// hours: common practice, no source.
func (c *counter) hours() {
	boxes, doors, drawers := 0, 0, 0
	for _, o := range c.in.Assembly.Owners {
		if o.Kind == "case" && !o.Standing {
			boxes++
		}
	}
	for _, f := range c.in.Assembly.Fronts {
		switch f.Kind {
		case part.DoorFront:
			doors++
		case part.Drawer:
			drawers++
		}
	}
	add := func(work string, n int, lo, hi float64) {
		if n > 0 {
			c.b.Hours = append(c.b.Hours, Hours{work, float64(n) * lo, float64(n) * hi})
		}
	}
	add("cases, cut and assembled", boxes, 5, 8)
	add("doors", doors, 1, 1.5)
	add("drawers and trays", drawers, 1.5, 2.5)
	add("finishing", boxes, 1.5, 3)
	add("installing", boxes, 1, 1.5)
}
