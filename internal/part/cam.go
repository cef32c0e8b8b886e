package part

import "stowright/internal/length"

// CatchIn is how far the middle of a catch is from the edge of its leaf, CamAngle the leg of the angle that a cam
// turns behind (common practice, no source).
const (
	CatchIn  = 60 * length.MM
	CamAngle = 20 * length.MM
)

// ForCaught is what the catches of a pair of doors are for.
const ForCaught = "the leaf without a lock"

// camBite is what a lock's cam reaches behind the leaf that it holds (common practice, no source).
const camBite = 10 * length.MM

// CamReach is how far the cam of a lock whose middle is at a point of one leaf reaches at least, to hold the other
// leaf, given by its box.
func CamReach(at Vec, other Box) L {
	if other.Min.X > at.X {
		return other.Min.X - at.X + camBite
	}
	return at.X - other.Max.X + camBite
}

// CamUp reports whether that cam stands upwards when the lock is open: towards the middle of its leaf.
func CamUp(at Vec, leaf Box) bool { return 2*at.Z < leaf.Min.Z+leaf.Max.Z }

// AngleReach is how far the cam of a lock whose middle is at a point reaches at least, to turn behind the leg of an
// angle that stands out from a face at x beside it.
func AngleReach(at Vec, face L) L { return (face - at.X).Abs() - CamAngle + camBite }
