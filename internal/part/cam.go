package part

import "stowright/internal/length"

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
