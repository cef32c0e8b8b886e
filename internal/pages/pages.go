// Package pages lays out the plan set of a result: what the sheets need to know of it. It is apart from package output so that
// the core for WebAssembly, which writes plan.json alone, is without drawings (decision 0007).
package pages

import (
	"cmp"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/packet"
	"stowright/internal/part"
	"stowright/internal/phrases"
	"stowright/internal/place"
	"stowright/internal/plan"
	"stowright/internal/rules"
	"stowright/internal/view"
)

// Of gives the plan set of a result; only is the owner or stage that it was asked for.
func Of(r plan.Result, paper draw.Paper, owner, stage string) draw.Document {
	return In(nil, r, paper, owner, stage)
}

// In is Of in the language of a book of phrases.
func In(book *phrases.Book, r plan.Result, paper draw.Paper, owner, stage string) draw.Document {
	block := r.Job.File.TitleBlock
	in := packet.Input{Job: r.Job.Name, Author: r.Job.File.Author, Date: r.Job.File.Date,
		Owner: cmp.Or(block.Owner, r.Job.File.Author), Number: block.Number, Revision: block.Revision, Approved: block.Approved,
		Print: r.Job.Print, Both: r.Job.Both,
		Assembly: r.Assembly, Plan: r.Plan, Marks: r.Marks, Sticks: r.Sticks, Bill: r.Bill, Steps: r.Steps,
		Findings: r.Findings, Practice: r.Job.Practice, Catalogue: r.Job.Catalogue, Paper: paper,
		OnlyOwner: owner, Stage: stage, Blocked: r.Findings.Blocking()}
	for _, t := range r.Trades {
		in.Trades = append(in.Trades, packet.Trade(t))
	}
	in.Taken = "Taken is the cheapest of them, with the bigger offcuts, and then with the fewer settings. Who has the job prints it with the fewest settings instead where that is worth more."
	if r.Few {
		in.Taken = "Taken is the one with the fewest settings, as was asked for."
	}
	in.Goods = goods(&r)
	for _, x := range r.Job.File.Wishes {
		if x = strings.TrimSpace(x); x != "" && !strings.ContainsAny(x[len(x)-1:], ".!?") {
			x += "."
		}
		in.Wishes = append(in.Wishes, x)
	}
	for _, x := range r.Job.File.Stages {
		in.Stages = append(in.Stages, packet.Stage{ID: x.ID, Name: x.Name, When: x.When})
	}
	in.Walls = Walls(r)
	step := length.MM / 2
	if r.Job.Print == length.Inches {
		step = length.Inch / 64
	}
	for _, x := range r.Job.Catalogue.Boards {
		if slices.ContainsFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Material == part.Board && p.Stock == x.ID }) {
			in.Other = append(in.Other, packet.OtherSheet{Board: x.ID, Step: step, Thin: r.WithSheet(x.ID, x.Thickness-step), Thick: r.WithSheet(x.ID, x.Thickness+step)})
		}
	}
	if book != nil {
		in.Lang, in.Say = book.Lang, book.Say
	}
	return packet.Make(in)
}

// Names are what a job calls its things and its shop what it buys: no phrase says them otherwise.
func Names(r plan.Result) (list []string) {
	add := func(names ...string) { list = append(list, names...) }
	block := r.Job.File.TitleBlock
	add(r.Job.Name, r.Job.File.Author, block.Owner, block.Number, block.Approved)
	for _, o := range r.Assembly.Owners {
		add(o.Name, o.ID)
	}
	for _, w := range r.Room.Walls {
		add(w.ID)
	}
	for _, g := range r.Job.Goods {
		add(g.Name, g.ID)
	}
	for _, x := range r.Job.File.Stages {
		add(x.Name, x.ID)
	}
	for _, x := range r.Job.Catalogue.Boards {
		add(x.Name)
	}
	for _, x := range r.Job.Catalogue.Hardware {
		add(x.Name)
	}
	slices.Sort(list)
	return slices.DeleteFunc(slices.Compact(list), func(n string) bool { return len(n) < 2 })
}

// Walls gives what drawings need of the job's walls.
func Walls(r plan.Result) []view.Wall {
	var out []view.Wall
	stops := map[string]int{}
	for id, s := range rules.Stops(&r.Job, &r.Room, &r.Assembly) {
		stops[id] = s.Degrees
	}
	meet := rules.Meetings(&r.Job, &r.Room, &r.Assembly)
	for i := range r.Room.Walls {
		w := wall(&r.Room.Walls[i], &r.Room, r.Job.File.Room)
		w.Stops = stops
		w.Round = round(&r, &r.Room.Walls[i], stops)
		w.Together = together(meet, w.ID)
		out = append(out, w)
	}
	return out
}

// wall gives what a drawing needs of a surveyed wall.
func wall(w *place.Wall, room *place.Room, in job.Room) view.Wall {
	v := view.Wall{ID: w.ID, Name: w.ID, Kind: w.Kind, Length: w.Length, Height: w.Height, Ends: [2]bool{room.Ended(w, 0) != "", room.Ended(w, 1) != ""}}
	for _, s := range w.Studs {
		v.Studs = append(v.Studs, view.Stud{ID: s.ID, At: s.At, Width: s.Width})
	}
	for _, o := range w.Openings {
		v.Openings = append(v.Openings, view.Area{ID: o.ID, Kind: o.Kind, Box: o.Box, Swings: o.In && o.Hinged, HingeLeft: o.Left})
	}
	for _, z := range w.Clear {
		if z.Known {
			v.Clear = append(v.Clear, view.Area{ID: z.ID, Kind: z.Kind, Box: z.Body.Or(z.Space)})
		}
	}
	for _, o := range w.Obstacles {
		for _, b := range o.Boxes(w) {
			v.Obstacles = append(v.Obstacles, view.Area{ID: o.ID, Kind: o.Kind, Box: b, Whole: o.Box, Follows: o.Follows()})
		}
	}
	for _, h := range w.FloorLine(0) {
		v.Floor = append(v.Floor, view.At{X: h.At, Z: h.Z})
	}
	for i := range length.Length(9) {
		for k := range length.Length(5) {
			v.Uneven = v.Uneven || w.Face(w.Length*i/8, w.Height*k/4).Abs() >= length.MM/2
		}
	}
	if v.Out = w.SurveyedOut(); v.Out > 0 {
		for _, h := range w.FloorLine(-v.Out) {
			v.FloorOut = append(v.FloorOut, view.At{X: h.At, Z: h.Z})
		}
	}
	for _, h := range w.CeilingLine() {
		v.Ceiling = append(v.Ceiling, view.At{X: h.At, Z: h.Z})
	}
	for _, s := range room.At(w.ID) {
		if !s.Hung {
			v.Level = s.Level
			break
		}
	}
	if room.Depth != nil {
		v.Depth = *room.Depth
	}
	if room.Aisle != nil {
		v.Aisle = *room.Aisle
	}
	first := len(room.Walls) > 0 && room.Walls[0].ID == w.ID
	for _, e := range in.Fixed {
		t := e.Value
		if t.Wall == w.ID || t.Wall == "" && first {
			h := length.Length(0)
			if t.Height != nil {
				h = *t.Height
			}
			v.Things = append(v.Things, view.Thing{ID: e.Key, Box: geom.B(t.At-t.Across/2, -t.Out-t.Across/2, 0, t.At+t.Across/2, -t.Out+t.Across/2, h)})
		}
	}
	for _, e := range in.Cars {
		c := e.Value
		if c.Wall == w.ID || c.Wall == "" && first {
			v.Things = append(v.Things, view.Thing{ID: e.Key, Box: geom.B(c.From, -c.Out-c.Width, 0, c.From+c.Length, -c.Out, 0)})
		}
	}
	return v
}
