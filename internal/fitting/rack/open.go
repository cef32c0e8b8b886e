package rack

// Thing is what an open rack holds.
type Thing struct {
	Wide L // of one, left to right
	Deep L // of all that stand one behind the other
	Tall L
	Room L // around it
}

// Open gives the frame of an open rack for things behind rails: its sides as high as two thirds
// of them and no lower than the highest rail.
func Open(g Thing, rails []L) Frame {
	high := g.Tall * 2 / 3
	for _, z := range rails {
		high = max(high, z+RailWide)
	}
	room := g.Tall + Lift
	high = min(max(high, 45*mm), room)
	return Frame{Clear: g.Deep + g.Room, Least: g.Wide + g.Room, High: high, Room: room, Rails: rails}
}
