package rack

// Thing is what an open rack holds.
type Thing struct {
	Wide L // of one, left to right
	Deep L // of all that stand one behind the other
	Tall L
	Room L // around it
}

// Open gives the frame of an open rack for things behind rails: its sides as high as two thirds
// of them and no lower than the highest rail. They fill it from front to back and do not tip in it (plane geometry:
// a thing d deep in a room D deep turns only when all but sqrt(D D - d d) of it is over the rail), so they are lifted
// over the highest rail whole.
func Open(g Thing, rails []L) Frame {
	high := g.Tall * 2 / 3
	for _, z := range rails {
		high = max(high, z+RailWide)
	}
	room := g.Tall + LiftHole
	high = min(max(high, 45*mm), room)
	over := L(0)
	for _, z := range rails {
		over = max(over, min(z+RailWide, high)+g.Tall+Lift)
	}
	return Frame{Clear: g.Deep + g.Room, Least: g.Wide + g.Room, High: high, Room: room, Over: over, Rails: rails}
}
