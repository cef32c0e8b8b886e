package plan

import (
	"fmt"
	"slices"

	"stowright/internal/assemble"
	"stowright/internal/bill"
	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/strength"
)

// NotSettled: loads and geometry did not come to rest: what a case weighs asks for another
// fixing, and so on. Example: none is known.
const NotSettled finding.Code = "not-settled"

// rounds is how often a job is assembled at most: a rail that grows makes its case heavier, which asks for a little
// more again, so that a few need eight.
const rounds = 12

// WithSheet builds a job as it would be with one kind of sheet of another thickness, fixed and hung as
// it is settled.
func (r *Result) WithSheet(board string, thickness length.Length) part.Assembly {
	c := r.Job
	c.Catalogue.Boards = slices.Clone(c.Catalogue.Boards)
	for i := range c.Catalogue.Boards {
		if c.Catalogue.Boards[i].ID == board {
			c.Catalogue.Boards[i].Thickness = thickness
		}
	}
	room, _ := place.All(&c)
	for i := range room.Seats {
		if s := r.Room.Seat(room.Seats[i].ID); s != nil {
			room.Seats[i].Site.Doors, room.Seats[i].Site.Hold = s.Site.Doors, s.Site.Hold
		}
	}
	a, _ := assemble.All(&c, &room, carcass.Build)
	return a
}

// settle assembles the job, and again with what its loads ask for: hinges for what hangs on the
// doors, screws and rails for what hangs on the wall. Seats keep the last answer.
func settle(c *job.Checked, room *place.Room) (part.Assembly, finding.List) {
	for n := 1; ; n++ {
		a, f := assemble.All(c, room, carcass.Build)
		changed := ""
		for _, x := range strength.Settle(strength.Input{Job: c, Room: room, All: &a, Masses: bill.Masses(a, c.Catalogue)}) {
			s := room.Seat(x.Owner)
			if s == nil {
				continue
			}
			hold := firmer(s.Site.Hold, x.Hold)
			if hold == s.Site.Hold && slices.Equal(s.Site.Doors, x.Doors) {
				continue
			}
			changed = s.ID
			if n < rounds {
				s.Site.Doors, s.Site.Hold = x.Doors, hold
			}
		}
		if changed == "" {
			return a, f
		}
		if n == rounds {
			f.Add(finding.Finding{Code: NotSettled, Severity: finding.Error, At: "case/" + changed, Source: "the program",
				Text: fmt.Sprintf("How %s is fixed and hung was not settled in %d rounds.", changed, rounds), Hint: "change its load or its width a little"})
			return a, f
		}
	}
}

// firmer gives what both ask for: a fixing never becomes weaker from round to round.
func firmer(was, x part.Hold) part.Hold {
	rail, ends, floors, pairs := max(was.Rail, x.Rail), max(was.Ends, x.Ends), max(was.Floors, x.Floors), max(was.Pairs, x.Pairs)
	if x.Screws > was.Screws || x.Screw != "" && x.Screw != was.Screw && x.Screws == was.Screws {
		was = x
	}
	was.Rail, was.Ends, was.Floors, was.Pairs = rail, ends, floors, pairs
	return was
}
