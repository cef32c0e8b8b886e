package strength

import (
	"stowright/internal/job"
	"stowright/internal/part"
)

// What is known of a wall, for all that it holds.

// wallOf gives the surveyed wall as the job has it.
func (s *Scene) wallOf(id string) (job.Wall, bool) {
	for _, w := range s.Job.Walls {
		if w.ID == id {
			return w.Value, true
		}
	}
	return job.Wall{}, false
}

// unknownWall says why nothing can be known of what a wall holds; "" when it can.
func (s *Scene) unknownWall(o *part.Owner) (fact, find string) {
	w := s.Room.Wall(o.Wall)
	switch {
	case w == nil:
		return "the wall behind it", "Survey the wall: walls: with kind, lining and studs."
	case w.Kind == "not-known":
		return "what wall " + w.ID + " is made of", "Find out whether it has studs or is masonry, and say kind: of the wall."
	case w.Kind == "steel-stud" && !s.rated(w.ID):
		return "what an anchor holds in the steel studs of wall " + w.ID, "Give anchor: {shear: …, tension: …, source: …} of the wall, as the maker of the fixing publishes it for studs of this gauge; a wood screw holds nothing in them. A board behind the lining, fixed to several studs, is surer."
	case w.Kind == "steel-stud" && !w.StudsKnown:
		return "where the studs of wall " + w.ID + " are", "Find the studs with a magnet and list their centres."
	case w.Kind == "stud" && !w.StudsKnown:
		return "where the studs of wall " + w.ID + " are", "Find the studs with a magnet or a fine drill and list their centres."
	case w.Kind == "stud" && !w.LiningKnown:
		return s.unlined(o)
	}
	return "", ""
}

// unlined says that nobody knows how thick the lining of a wall is, and so how deep anything is in the wall behind it;
// "" when it is known.
func (s *Scene) unlined(o *part.Owner) (fact, find string) {
	w := s.Room.Wall(o.Wall)
	if w == nil || w.LiningKnown {
		return "", ""
	}
	return "how thick the lining of wall " + w.ID + " is", "Measure the lining, at an outlet or in a hole, and say lining: {thickness: …}; 0 where there is none."
}

// rated reports whether the job says what an anchor carries in a wall.
func (s *Scene) rated(wall string) bool {
	w, _ := s.wallOf(wall)
	return w.Anchor != nil && w.Anchor.Shear != nil && w.Anchor.Tension != nil
}
