package bill

import "stowright/internal/part"

// Hours is a stated range, common practice, no source.
type Hours struct {
	Work        string
	Least, Most float64
}

// hours: common practice, no source.
func (c *counter) hours() {
	boxes, doors, slide := 0, 0, 0
	built := map[string]bool{}
	for _, o := range c.in.Assembly.Owners {
		built[o.ID] = !o.Standing
		if o.Kind == "case" && !o.Standing {
			boxes++
		}
	}
	for _, f := range c.in.Assembly.Fronts {
		if f.Kind == part.DoorFront {
			doors++
		}
	}
	for _, m := range c.in.Assembly.Motions {
		if m.Kind == part.Slide && built[m.Owner] {
			slide++
		}
	}
	add := func(work string, n int, lo, hi float64) {
		if n > 0 {
			c.b.Hours = append(c.b.Hours, Hours{work, float64(n) * lo, float64(n) * hi})
		}
	}
	add("cases, cut and assembled", boxes, 5, 8)
	add("doors", doors, 1, 1.5)
	add("drawers and trays", slide, 1.5, 2.5)
	add("finishing", boxes, 1.5, 3)
	add("installing", boxes, 1, 1.5)
}
