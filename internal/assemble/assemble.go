// Package assemble turns the placed room into one part.Assembly: it has every case, counter,
// base and hutch built in its own frame, sets it in its wall's frame, gives every part its
// mark, finds a stud for every screw that is wanted, a height for every foot, and the screws
// that join neighbours. It decides nothing about where things stand (package place) and
// judges nothing (package rules).
package assemble

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/stock"
)

type L = length.Length

// Caser builds one case; carcass.Build is one, and so is a cache before it.
type Caser func(env fitting.Env, id string, spec carcass.Spec, site carcass.Site) (part.Assembly, finding.List)

// work is what All hands from step to step.
type work struct {
	job     *job.Checked
	room    *place.Room
	all     part.Assembly
	found   finding.List
	codes   map[string]string      // owner -> its code in marks
	sides   map[string][]part.Part // by owner
	unknown map[string][]string    // wall -> names of what it should hold
	bare    map[string][]string    // wall whose lining is not known -> names of what is screwed to it
	marks   map[string]int         // where the part of a mark is in all
	of      map[string][]int       // where the parts of an owner are in all
	slides  map[string]L           // how high the slides of an owner are
}

// add puts what is built for a seat into the whole, where it is found by mark and by owner.
func (w *work) add(a part.Assembly) {
	parts, hardware := len(w.all.Parts), len(w.all.Hardware)
	w.all.Append(a)
	for i, p := range w.all.Parts[parts:] {
		w.marks[p.Mark] = parts + i
		w.of[p.Owner] = append(w.of[p.Owner], parts+i)
	}
	for _, h := range w.all.Hardware[hardware:] {
		shop := joinery.Shop{Catalogue: w.job.Catalogue, Owner: h.Owner}
		w.slides[h.Owner] = max(w.slides[h.Owner], shop.SlideHeight([]part.Item{h}))
	}
}

// All builds everything that has a seat. Parts, motions and the rest are in the frames of
// their owners' walls.
func All(c *job.Checked, room *place.Room, build Caser) (part.Assembly, finding.List) {
	w := &work{job: c, room: room, codes: Codes(room), unknown: map[string][]string{}, bare: map[string][]string{}, sides: map[string][]part.Part{},
		marks: map[string]int{}, of: map[string][]int{}, slides: map[string]L{}}
	for i := range room.Seats {
		s := &room.Seats[i]
		var a part.Assembly
		var f finding.List
		switch s.Kind {
		case place.Case:
			a, f = w.buildCase(s, build)
		case place.Filler:
			a = w.filler(s)
		case place.Standing, place.Machine:
			a = part.Assembly{Owners: []part.Owner{{ID: s.ID, Kind: string(place.Standing), Name: s.Name, Wall: s.Wall, Box: s.Box, Carcass: s.Box, Standing: true, Stage: s.Stage, Hung: s.Hung, Moves: s.Moves}}}
		default:
			a, f = w.buildOther(s)
		}
		w.found.Add(f...)
		w.own(s, &a)
		mark(w.codes[s.ID], s.ID, &a)
		w.feet(s, &a)
		w.fix(s, &a)
		for _, x := range a.Parts {
			if x.Role == part.Side {
				w.sides[s.ID] = append(w.sides[s.ID], x)
			}
		}
		w.add(a)
	}
	w.sayUnknown()
	w.joinNeighbours()
	w.landCounters()
	w.holdToBases()
	w.totals()
	w.found.Sort()
	return w.all, w.found
}

// buildCase builds a case and sets it in its place: its left side, its rear plane and its top
// are where place says, whatever it has in front and under it.
func (w *work) buildCase(s *place.Seat, build Caser) (part.Assembly, finding.List) {
	env := fitting.Env{Practice: w.job.Practice, Catalogue: w.job.Catalogue, Owner: s.ID}
	for _, c := range w.job.Cases {
		if c.ID == s.ID {
			env.Practice = w.job.PracticeFor(c)
		}
	}
	a, f := build(env, s.ID, s.Spec, s.Site)
	if len(a.Owners) == 0 {
		a.Owners = []part.Owner{{ID: s.ID, Kind: "case", Name: s.Name, Box: s.Box, Carcass: s.Box}}
		return a, f
	}
	o := a.Owners[0]
	z := s.Top - o.Carcass.Max.Z
	shift(&a, geom.V(s.Box.Min.X-o.Carcass.Min.X, s.Rear-o.Carcass.Max.Y-o.Off, z))
	return a, f
}

// own completes the owners of a seat.
func (w *work) own(s *place.Seat, a *part.Assembly) {
	for i := range a.Owners {
		o := &a.Owners[i]
		o.Wall = s.Wall
		o.Name = cmp.Or(o.Name, s.Name)
		o.Stage = s.Stage
		o.Unfix, o.Play = s.Unfix, s.Play
		o.Hung = o.Hung || s.Hung
		o.Moves = o.Moves || s.Moves
	}
	for i := range a.Fixings {
		f := &a.Fixings[i]
		f.Wall = cmp.Or(f.Wall, s.Wall)
		if f.Kind == part.ToCase && s.Kind == place.Hutch {
			f.Stud = cmp.Or(f.Stud, s.On)
		}
	}
	for i := range a.Hardware {
		h := &a.Hardware[i]
		h.Owner, h.Stage = cmp.Or(h.Owner, s.ID), s.Stage
		if foot, _ := w.job.Catalogue.Item(h.ID); foot.Insert != "" { // every bolt turns in one
			a.Hardware = append(a.Hardware, part.Item{Owner: h.Owner, ID: foot.Insert, Kind: "insert", Count: h.Count, For: "feet", Stage: s.Stage})
		}
	}
}

// shift moves everything of an assembly by d.
func shift(a *part.Assembly, d geom.Vec) {
	for i := range a.Owners {
		o := &a.Owners[i]
		o.Box, o.Carcass, o.Hollow = o.Box.Shift(d), o.Carcass.Shift(d), o.Hollow.Shift(d)
	}
	for i := range a.Parts {
		a.Parts[i].Pose = a.Parts[i].Pose.Shift(d)
	}
	for i := range a.Joints {
		a.Joints[i].Contact = a.Joints[i].Contact.Shift(d)
	}
	for i := range a.Bays {
		a.Bays[i].Box = a.Bays[i].Box.Shift(d)
		a.Bays[i].Places = slices.Clone(a.Bays[i].Places)
		for k := range a.Bays[i].Places {
			a.Bays[i].Places[k].At = a.Bays[i].Places[k].At.Add(d)
		}
	}
	for i := range a.Fronts {
		a.Fronts[i].Opening = a.Fronts[i].Opening.Shift(d)
	}
	for i := range a.Motions {
		m := &a.Motions[i]
		m.Closed, m.Swept, m.Pivot = m.Closed.Shift(d), m.Swept.Shift(d), m.Pivot.Add(d)
	}
	for i := range a.Wanted {
		x := &a.Wanted[i]
		x.From, x.To, x.Y, x.Z = x.From+d.X, x.To+d.X, x.Y+d.Y, x.Z+d.Z
		x.Low, x.High = x.Low+d.Z, x.High+d.Z
	}
	for i := range a.Fixings {
		a.Fixings[i].At = a.Fixings[i].At.Add(d)
	}
	for i := range a.Feet {
		a.Feet[i].At = a.Feet[i].At.Add(d)
	}
}

// filler cuts the strip between a run and a wall: as high as its neighbour, in the plane of
// the carcass's front edge, its scribe left on.
func (w *work) filler(s *place.Seat) part.Assembly {
	board := cmp.Or(w.job.Practice.FrontBoard, w.job.Practice.Case)
	b, ok := w.job.Catalogue.Board(board)
	if !ok {
		return part.Assembly{}
	}
	scribe, note := usualScribe(w.job.Practice), "fit to the wall"
	if s.Butts {
		scribe, note = 0, "meets the run round the corner"
	}
	for _, r := range w.job.Runs {
		if r.ID == s.Run && r.Value.Scribe != nil && !s.Butts {
			scribe = *r.Value.Scribe
		}
	}
	front := s.Box.Min.Y
	bottom := s.Box.Min.Z
	for _, o := range w.all.Owners {
		if o.ID == s.On {
			front, bottom = o.Carcass.Min.Y, o.Carcass.Min.Z
		}
	}
	box := geom.B(s.Box.Min.X, front, bottom, s.Box.Max.X, front+b.Thickness, s.Top)
	if strings.HasSuffix(s.ID, "-left") {
		box.Min.X -= scribe
	} else {
		box.Max.X += scribe
	}
	size := box.Size()
	p := part.Part{Local: "filler", Owner: s.ID, Role: part.Filler, Name: s.Name, Material: part.Board, Stock: board,
		Size: [3]L{size.Z, size.X, size.Y}, Pose: geom.Around(box, geom.Up, geom.Right), Note: note}
	a := part.Assembly{
		Owners: []part.Owner{{ID: s.ID, Kind: string(place.Filler), Name: s.Name, Wall: s.Wall, Box: s.Box, Carcass: box}},
		Parts:  []part.Part{p},
	}
	d := geom.Right
	if strings.HasSuffix(s.ID, "-left") {
		d = geom.Left
	}
	side, _ := w.side(s.On, d) // through which it is screwed, and through an end panel on it
	through := side.Size[2]
	for _, q := range w.all.Parts {
		if q.Owner == s.On && q.Role == part.EndPanel && (q.Box().Min.X < side.Box().Min.X) == (d == geom.Left) {
			through += q.Size[2]
		}
	}
	shop := joinery.Shop{Practice: w.job.Practice, Catalogue: w.job.Catalogue, Owner: s.ID}
	if h, ok := shop.ScrewFor("wood", through, min(size.X-scribe, 30*length.MM)); !ok && !s.Butts {
		w.found.Add(finding.Finding{Code: joinery.NoScrew, Severity: finding.Warning, At: "case/" + s.On, Source: "common practice, no source",
			Text: fmt.Sprintf("No wood screw goes through the %s of the side of %s and stays in a filler of %s: nothing holds the filler there.", w.in(through), s.On, w.in(size.X-scribe)),
			Hint: "List one with use: wood, or make the filler wider: move the run."})
	} else if !s.Butts {
		a.Hardware = append(a.Hardware, part.Item{Owner: s.ID, ID: h.ID, Kind: "screw", Count: len(joinery.Places(size.Z, part.FillerFirst, part.FillerPitch, 2)), Length: h.Length, For: "filler"})
	}
	return a
}

// usualScribe is what a filler is cut wider than its gap, to be planed to a wall that is neither straight nor plumb:
// 1/2 in or 12 mm (common practice, no source).
func usualScribe(p stock.Practice) L {
	if p.Unit == "in" {
		return length.Inch / 2
	}
	return 12 * length.MM
}

// totals adds up equal lines of hardware of one owner.
func (w *work) totals() {
	var r []part.Item
	at := map[part.Item]int{}
	for _, h := range w.all.Hardware {
		k := h
		k.Count = 0
		if i, ok := at[k]; ok {
			r[i].Count += h.Count
		} else {
			at[k] = len(r)
			r = append(r, h)
		}
	}
	w.all.Hardware = r
}
