package view

import (
	"math"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// leafAir is how near an opening leaf comes to what stops it, so that what it only passes does not.
const leafAir = 3 * length.MM

// byWall is how near an end of a wall a filler is that is planed to the wall that stands there.
const byWall = 40 * length.MM

// ended tells at which ends of its wall another stands: where the survey says so, and where a filler is planed to it.
func (c Scene) ended() [2]bool {
	at := c.Wall.Ends
	for _, o := range c.onWall() {
		if o.Kind == "filler" {
			at[0] = at[0] || o.Box.Min.X < byWall
			at[1] = at[1] || o.Box.Max.X > c.Wall.Length-byWall
		}
	}
	return at
}

// leaf gives how wide a door's leaf is from its pivot.
func leaf(m part.Motion) L {
	if m.Hinge == geom.Right {
		return m.Pivot.X - m.Closed.Min.X
	}
	return m.Closed.Max.X - m.Pivot.X
}

// Opens gives how many degrees a door is opened on the plan: as far as its hinges go, or until its leaf comes to
// the wall that stands at an end of its own, or to what stands further out beside it.
func (c Scene) Opens(m part.Motion) int {
	var solid []Box
	ends := c.ended()
	const far = 100000 * length.MM
	if ends[0] {
		solid = append(solid, geom.B(-far, -far, -far, 0, far, far))
	}
	if ends[1] {
		solid = append(solid, geom.B(c.Wall.Length, -far, -far, far, far, far))
	}
	for _, o := range c.onWall() {
		if o.ID != m.Owner {
			solid = append(solid, geom.B(o.Box.Min.X+leafAir, o.Box.Min.Y+leafAir, o.Box.Min.Z, o.Box.Max.X-leafAir, o.Box.Max.Y, o.Box.Max.Z))
		}
	}
	for angle := 91; angle <= m.Angle; angle++ {
		sin, cos := math.Sincos(float64(angle) * math.Pi / 180)
		wide := float64(leaf(m))
		tip := draw.Pt(float64(m.Pivot.X)+cos*wide, float64(m.Pivot.Y)-sin*wide)
		if m.Hinge == geom.Right {
			tip.X = float64(m.Pivot.X) - cos*wide
		}
		for _, b := range solid {
			if b.Min.Z >= m.Closed.Max.Z || b.Max.Z <= m.Closed.Min.Z {
				continue
			}
			r := draw.Rect{X: float64(b.Min.X), Y: float64(b.Min.Y), W: float64(b.Max.X - b.Min.X), H: float64(b.Max.Y - b.Min.Y)}
			if r.Struck(draw.Pt(float64(m.Pivot.X), float64(m.Pivot.Y)), tip) {
				return angle - 1
			}
		}
	}
	return m.Angle
}
