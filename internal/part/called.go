package part

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
)

// FaceNames are what a maker calls the faces, ends and edges of a part, by Face: by where they are
// once the part is in its place.
type FaceNames [6]string

// Plain are the names of the faces of a part of which no place is told, or of several parts that
// lie in several ways: the face side is the one that is marked and drawn first.
func Plain() FaceNames {
	return FaceNames{"face side", "other side", "start end", "far end", "face edge", "far edge"}
}

// Around are the boxes about what belongs together, by owner and motion, the fronts of what moves left out.
type Around map[[2]string]Box

// About gives the boxes about all that belongs together.
func About(parts []Part) Around {
	r := Around{}
	for _, q := range parts {
		if q.Moves == "" || q.Role != Door && q.Role != DrawerFront && q.Role != FalseFront {
			k := [2]string{q.Owner, q.Moves}
			r[k] = r[k].Or(q.Box())
		}
	}
	return r
}

// Called names the faces of a part as it stands in what it belongs to: "inside face" and "outside
// face" of what closes a box, "top face" and "underside" of what lies, "left face" of what
// stands in the middle and of a cleat, "lower end" and "front edge".
func (r Around) Called(p Part) FaceNames {
	around := r[[2]string{p.Owner, p.Moves}]
	var n FaceNames
	side := [...]string{geom.Right: "right", geom.Left: "left", geom.Back: "rear", geom.Front: "front", geom.Up: "upper", geom.Down: "lower"}
	for f := Upper; f <= Far; f++ {
		d := p.Pose.Dir(f.Normal())
		switch f {
		case Start, End:
			n[f] = side[d] + " end"
			continue
		case Near, Far:
			n[f] = side[d] + " edge"
			continue
		}
		box := p.Box()
		mid := func(b Box) L { return b.Min.At(d.Axis()) + b.Max.At(d.Axis()) }
		off := mid(box) - mid(around) // from the middle, twice
		front := slices.Contains([]Role{Door, DrawerFront, FalseFront, Filler}, p.Role)
		wall := p.Role == Cleat || p.Role == WallCleat // whose long points are told from the wall
		switch {
		case d == geom.Up:
			n[f] = "top face"
		case d == geom.Down:
			n[f] = "underside"
		case front && d == geom.Front:
			n[f] = "outside face"
		case front && d == geom.Back:
			n[f] = "inside face"
		case wall || around.Empty() || off.Abs() < (around.Size().At(d.Axis()))/2:
			n[f] = side[d] + " face"
		case (off > 0) == (d.Sign() > 0):
			n[f] = "outside face"
		default:
			n[f] = "inside face"
		}
	}
	return n
}

// Code is the code of a part's owner, which its mark begins with: "A" of "A.left".
func (p Part) Code() string {
	if i := strings.IndexAny(p.Mark, ". "); i >= 0 {
		return p.Mark[:i]
	}
	return p.Mark
}

// Piece names one of n pieces that a long board is butted from: the k-th, from 0, the way that it runs. It has no number
// where words do, for marks count all of a kind.
func Piece(name string, k, n int, along geom.Dir) string {
	first, last := "left", "right"
	if along.Axis() == 1 {
		first, last = "front", "rear"
	}
	switch {
	case n == 1:
		return name
	case k == 0:
		return name + ", " + first + " piece"
	case k == n-1:
		return name + ", " + last + " piece"
	case n == 3:
		return name + ", middle piece"
	}
	return fmt.Sprintf("%s, piece %d of %d from the %s", name, k+1, n, first)
}
