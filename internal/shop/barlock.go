package shop

import (
	"fmt"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// oneAtATime is what a lock is for whose bar holds all drawers of a bank but one.
const oneAtATime = "one drawer at a time"

// barRoom says how much room there is for the bar of a lock behind the boxes of an owner's drawers, and beside them;
// "" for an owner that has no such lock. Which of the two its bar needs, only its own paper says.
func (s *steps) barRoom(owner string) string {
	locked := false
	own := s.whose.Of(owner)
	for _, h := range own.Hardware {
		locked = locked || h.For == oneAtATime
	}
	if !locked {
		return ""
	}
	var boxes geom.Box
	for _, m := range own.Motions {
		for _, p := range own.Parts {
			if m.Kind == part.Slide && p.Moves == m.ID && p.Role != part.DrawerFront && p.Role != part.FalseFront {
				boxes = boxes.Or(p.Box())
			}
		}
	}
	rear, left, right := part.Part{}, part.Part{}, part.Part{}
	for _, p := range own.Parts {
		b := p.Box()
		if p.Moves != "" || p.Removable || b.Max.Z <= boxes.Min.Z || b.Min.Z >= boxes.Max.Z {
			continue
		}
		if b.Min.Y >= boxes.Max.Y && b.Max.X > boxes.Min.X && b.Min.X < boxes.Max.X && (rear.Mark == "" || b.Min.Y < rear.Box().Min.Y) {
			rear = *p
		}
		if p.Role != part.Side && p.Role != part.Partition && p.Role != part.Spacer {
			continue
		}
		if b.Max.X <= boxes.Min.X && (left.Mark == "" || b.Max.X > left.Box().Max.X) {
			left = *p
		}
		if b.Min.X >= boxes.Max.X && (right.Mark == "" || b.Min.X < right.Box().Min.X) {
			right = *p
		}
	}
	if left.Mark == "" || right.Mark == "" {
		return ""
	}
	t := ""
	if rear.Mark != "" {
		t = fmt.Sprintf("%s behind the boxes, to the front of %s, and ", s.in(rear.Box().Min.Y-boxes.Max.Y), rear.Mark)
	}
	beside := min(boxes.Min.X-left.Box().Max.X, right.Box().Min.X-boxes.Max.X)
	return t + fmt.Sprintf("%s beside them on either side, over a height of %s from %s over the lower end of %s", s.in(beside), s.in(boxes.Size().Z), s.in(boxes.Min.Z-left.Box().Min.Z), left.Mark)
}

// barLocks asks before anything is cut whether the bar of a lock finds room.
func (s *steps) barLocks() {
	var points []string
	for _, o := range s.owners("case") {
		if room := s.barRoom(o.ID); room != "" {
			points = append(points, fmt.Sprintf("%s: %s", capital(s.called(o)), room))
		}
	}
	if len(points) > 0 {
		s.add(Step{Phase: Prove, Tool: "tape", Points: points, Text: "Hold the bar lock, with its own paper, against the room that there is for its bar. Where that is too little, take one that fits: nothing here makes room for it (its bay, one-at-a-time)."})
	}
}

// barLock fits a bar lock while the fronts are off: where it goes, by what there is room for.
func (w *maker) barLock() {
	room := w.barRoom(w.owner.ID)
	fits := w.take(w.owner.ID, func(h part.Item) bool { return h.For == oneAtATime })
	if room == "" || len(fits) == 0 {
		return
	}
	deep := length.Length(0)
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Role == part.Side {
			deep = p.Size[2] / 2
		}
	}
	w.step(Step{Tool: "drill, driver bits, tape", Fits: fits, Text: fmt.Sprintf("while the fronts are off, fit %s.", w.things(fits)),
		Points: []string{fmt.Sprintf("Bar lock: its bar stands upright where its own paper wants it, behind the boxes or beside them: there is %s. Screw what catches to each box and the bar to the case, clear of the slides, and bore no deeper than %s into a side. Try it: with one box out, no other comes", room, w.in(deep))}})
}
