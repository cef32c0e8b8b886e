package joinery

// flutes are the lengths of the flutes of ordinary twist bits by diameter (DIN 338, short series,
// from memory; those in inches, ASME B94.11M, differ by a millimetre or two): deeper a bit does not
// clear its chips.
var flutes = [...]struct{ dia, long L }{
	{2 * mm, 24 * mm}, {2500 * mm / 1000, 30 * mm}, {3 * mm, 33 * mm}, {3500 * mm / 1000, 39 * mm}, {4 * mm, 43 * mm},
	{4500 * mm / 1000, 47 * mm}, {5 * mm, 52 * mm}, {6 * mm, 57 * mm}, {7 * mm, 69 * mm}, {8 * mm, 75 * mm}, {10 * mm, 87 * mm},
}

// Reach is how deep an ordinary bit of a diameter bores: as deep as its flutes are long.
func Reach(dia L) L {
	long := flutes[0].long
	for _, f := range flutes {
		if f.dia <= dia+mm/10 {
			long = f.long
		}
	}
	return long
}

// PilotDepth is how deep a hole is that guides a screw which goes so deep: no deeper than an ordinary
// bit bores; the screw makes the rest of its way itself (common practice, no source).
func PilotDepth(deep, dia L) L { return min(deep, Reach(dia)) }

// LongBit names the bit for a hole through a board: a long one where an ordinary one does not reach.
func LongBit(name string, dia, depth L) string {
	if depth > Reach(dia) {
		return "long " + name
	}
	return name
}
