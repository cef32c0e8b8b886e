package plan

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/rules"
	"stowright/internal/strength"
)

// stagewise looks at the work as it stands after each stage but the last: what the stage lies
// on must be there, and no check may fail that holds once all is built.
func (r *Result) stagewise(w Want, masses map[string]mass.Mass) {
	if len(r.Stages) < 2 {
		return
	}
	failed := map[string]bool{} // once all is built
	for _, f := range r.Findings {
		if f.Severity == finding.Error {
			failed[string(f.Code)+" "+f.At] = true
		}
	}
	when := func(stage string) int { return max(0, slices.Index(r.Stages, stage)) } // no stage: from the first on
	for i, stage := range r.Stages[:len(r.Stages)-1] {
		room := r.Room
		room.Seats = nil
		built := map[string]bool{}
		for _, s := range r.Room.Seats {
			if s.Kind == place.Machine && s.On != "" && !built[s.On] {
				continue // nobody builds a machine: it comes when what it stands on is there
			}
			if s.Kind == place.Standing || when(s.Stage) <= i {
				room.Seats = append(room.Seats, s)
				built[s.ID] = true
			}
		}
		for _, s := range room.Seats {
			if when(s.Stage) != i || s.Kind == place.Standing {
				continue
			}
			for _, on := range underneath(&r.Room, s) {
				if under := r.Room.Seat(on); under != nil && !built[on] {
					r.Findings.Add(finding.Finding{Code: StageAlone, Severity: finding.Error, Verdict: finding.Fails, At: string(s.Kind) + "/" + s.ID, Source: "the job",
						Text: fmt.Sprintf("%s is built in stage %s, but needs %s, which is built in stage %s.", s.Name, stage, under.Name, under.Stage),
						Hint: fmt.Sprintf("Build both in stage %s, or change their order under stages.", stage)})
				}
			}
		}
		all := part.Only(r.Assembly, func(owner string) bool { return built[owner] })
		all.Fixings = slices.DeleteFunc(all.Fixings, func(f part.Fixing) bool { return f.Kind == part.ToCase && !built[f.Stud] })
		found := rules.Check(&r.Job, &room, &all)
		found.Add(strength.Check(strength.Input{Job: &r.Job, Room: &room, All: &all, Masses: masses})...)
		for _, f := range found {
			_, id, _ := strings.Cut(f.At, "/")
			id, _, _ = strings.Cut(id, "/")
			if f.Severity == finding.Error && !failed[string(f.Code)+" "+f.At] && built[id] {
				failed[string(f.Code)+" "+f.At] = true
				f.Text = fmt.Sprintf("Before stage %s is built: %s", r.Stages[i+1], f.Text)
				r.Findings.Add(f)
			}
		}
	}
}

// underneath names what a seat lies or stands on: a machine or a hutch on its counter, a counter on its cases, a case on
// its base.
func underneath(r *place.Room, s place.Seat) []string {
	var on []string
	if s.On != "" {
		on = append(on, s.On)
	}
	if s.Kind == place.Case {
		for _, b := range r.Seats {
			if b.Kind == place.Base && slices.ContainsFunc(b.Pieces, func(p place.Piece) bool { return p.ID == s.ID }) {
				on = append(on, b.ID)
			}
		}
	}
	if s.Kind == place.Counter {
		for _, p := range s.Pieces {
			on = append(on, p.ID)
		}
	}
	return on
}
