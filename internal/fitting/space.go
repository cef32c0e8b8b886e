package fitting

import (
	"stowright/internal/geom"
	"stowright/internal/part"
)

// Standing lays a board that stands over box b: its grain upright, or along the level direction
// when grain is "level"; "either" leaves it to the cutting plan. The first size is along the
// grain, upright for "either".
func Standing(local string, role part.Role, name, stock string, b geom.Box, level geom.Dir, grain string) part.Part {
	if grain == "level" {
		return part.New(local, role, name, stock, b, level, geom.Up)
	}
	p := part.New(local, role, name, stock, b, geom.Up, level)
	if grain == "either" {
		p.Grain = part.Free
	}
	return p
}

// Bay gives a bay of this space with what is known of it filled in. Its id starts with the
// case's, so that it is unique in the job; name is "" for the only bay of a space.
func (s Space) Bay(env Env, kind, name string, box geom.Box) part.Bay {
	b := part.Bay{ID: env.Owner + "/" + s.ID, Owner: env.Owner, Box: box, Kind: kind, Use: s.Use, Load: s.Load}
	if name != "" {
		b.ID += "-" + name
	}
	for _, d := range s.Doors {
		b.Door = true
		b.Locked = b.Locked || d.Locked
	}
	return b
}

// MotionID gives an id for a motion of this space.
func (s Space) MotionID(env Env, name string) string { return env.Owner + "/" + s.ID + "-" + name }

// Setback gives how far behind the front plane a board between two heights must stay because
// of what hangs on the doors.
func (s Space) Setback(z0, z1 L) L {
	var d L
	for _, k := range s.Kept {
		if k.Box.Min.Z < z1 && z0 < k.Box.Max.Z && k.Box.Min.X < s.Box.Max.X && s.Box.Min.X < k.Box.Max.X {
			d = max(d, k.Box.Max.Y)
		}
	}
	return d
}

// Needs gives the motions of the doors before the space, joined by nothing: the one that must
// open first, "" when it is open. For a pair both leaves must be open; the first is named.
func (s Space) Needs() string {
	if len(s.Doors) == 0 {
		return ""
	}
	return s.Doors[0].Motion
}

// Width gives the clear width.
func (s Space) Width() L { return s.Box.Max.X - s.Box.Min.X }

// Height gives the clear height.
func (s Space) Height() L { return s.Box.Max.Z - s.Box.Min.Z }

// Depth gives the clear depth.
func (s Space) Depth() L { return s.Box.Max.Y - s.Box.Min.Y }
