// Package output hands one result to those who write: it gives the exports and the plan set
// what they need to know of it. Every file of a packet is made by package bundle.
package output

import (
	"cmp"

	"stowright/internal/export/glb"
	"stowright/internal/export/planjson"
	"stowright/internal/export/step"
	"stowright/internal/geom"
	"stowright/internal/plan"
)

// Plan gives plan.json.
func Plan(r plan.Result) []byte {
	in := planjson.Input{Job: r.Job.Name, Currency: r.Job.File.Currency, Assembly: r.Assembly, Plan: r.Plan,
		Marks: r.Marks, Bill: r.Bill, Findings: r.Findings, Steps: r.Steps}
	for _, w := range r.Room.Walls {
		x := planjson.Wall{ID: w.ID, Length: planjson.MM(w.Length), Angle: planjson.Num(w.Frame.Degrees),
			Origin: planjson.Vec{planjson.MM(w.Frame.Origin.X), planjson.MM(w.Frame.Origin.Y), planjson.MM(w.Frame.Origin.Z)}}
		if w.Height > 0 {
			h := planjson.MM(w.Height)
			x.Height = &h
		}
		in.Walls = append(in.Walls, x)
	}
	for _, g := range r.Job.Goods {
		x := planjson.Goods{ID: g.ID, Count: g.Count, Place: g.Place, Stowed: []planjson.Stowed{}}
		for _, s := range r.Stowed {
			if s.Goods == g.ID {
				x.Stowed = append(x.Stowed, planjson.Stowed{At: cmp.Or(s.Bay, s.Owner), Count: s.Count})
			}
		}
		in.Goods = append(in.Goods, x)
	}
	return planjson.Write(in)
}

// Model gives model.glb.
func Model(r plan.Result) []byte {
	var walls []glb.Wall
	for _, w := range r.Room.Walls {
		walls = append(walls, glb.Wall{ID: w.ID, Origin: geom.V(w.Frame.Origin.X, w.Frame.Origin.Y, w.Frame.Origin.Z), Angle: w.Frame.Degrees})
	}
	return glb.Write(r.Assembly, walls)
}

// Step gives model.step.
func Step(r plan.Result) []byte {
	var walls []step.Wall
	for _, w := range r.Room.Walls {
		walls = append(walls, step.Wall{ID: w.ID, Origin: geom.V(w.Frame.Origin.X, w.Frame.Origin.Y, w.Frame.Origin.Z), Angle: w.Frame.Degrees})
	}
	return step.Write(r.Job.Name, r.Job.File.Date, r.Assembly, walls)
}
