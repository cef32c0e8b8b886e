package rules_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/rules"
	"stowright/internal/schema"
	"stowright/internal/stock"
)

const (
	in = length.Inch
	mm = length.MM
)

func p(v length.Length) *length.Length { return &v }

// bed is a job with a wall north, 4 m long, and a wall west that meets its left end.
type bed struct {
	job job.Checked
	all part.Assembly
}

func newBed() *bed {
	b := &bed{job: job.Checked{Print: length.Millimetres}}
	b.job.Walls = []job.Named[job.Wall]{
		{ID: "north", Value: job.Wall{Length: 4000 * mm, Height: p(2500 * mm)}},
		{ID: "west", Value: job.Wall{Length: 3000 * mm, Height: p(2500 * mm), Corner: &job.Corner{With: "north", At: "right"}}},
	}
	return b
}

func (b *bed) north() *job.Wall { return &b.job.Walls[0].Value }

// put adds a case of one solid part.
func (b *bed) put(wall, id string, x0, depth, z0, x1, z1 length.Length) *bed {
	box := geom.B(x0*mm, -depth*mm, z0*mm, x1*mm, 0, z1*mm)
	b.all.Owners = append(b.all.Owners, part.Owner{ID: id, Kind: "case", Name: id, Wall: wall, Box: box, Carcass: box})
	s := box.Size()
	b.all.Parts = append(b.all.Parts, part.Part{Mark: id, Owner: id, Size: [3]length.Length{s.X, s.Y, s.Z}, Pose: geom.Around(box, geom.Right, geom.Back)})
	return b
}

// door adds a door over the front of a case.
func (b *bed) door(id string, hinge geom.Dir) *bed {
	o := b.owner(id)
	c := geom.B(o.Box.Min.X, o.Box.Min.Y-20*mm, o.Box.Min.Z, o.Box.Max.X, o.Box.Min.Y, o.Box.Max.Z)
	w := c.Size().X
	m := part.Motion{ID: id + "/door", Owner: id, Kind: part.Swing, Closed: c, Hinge: hinge, Angle: 110, Pivot: geom.V(c.Min.X, c.Max.Y, c.Min.Z)}
	m.Swept = geom.B(c.Min.X, c.Max.Y-w-20*mm, c.Min.Z, c.Max.X, c.Max.Y, c.Max.Z)
	if hinge == geom.Right {
		m.Pivot.X = c.Max.X
	}
	b.all.Motions = append(b.all.Motions, m)
	return b
}

// drawer adds a drawer that comes out so far.
func (b *bed) drawer(id string, travel length.Length) *bed {
	o := b.owner(id)
	c := geom.B(o.Box.Min.X, o.Box.Min.Y-20*mm, o.Box.Min.Z, o.Box.Max.X, o.Box.Min.Y, o.Box.Max.Z)
	b.all.Motions = append(b.all.Motions, part.Motion{ID: id + "/drawer", Owner: id, Kind: part.Slide, Closed: c, Dir: geom.Front, Travel: travel * mm, Swept: c.Or(c.Shift(geom.Front.Vec(travel * mm)))})
	return b
}

func (b *bed) owner(id string) part.Owner {
	return b.all.Owners[slices.IndexFunc(b.all.Owners, func(o part.Owner) bool { return o.ID == id })]
}

// cased adds cases to the job itself, in a run on the north wall, for rules that read seats.
func (b *bed) cased(family string, wide ...length.Length) *bed {
	var r job.Run
	for i, w := range wide {
		id := string(rune('a' + i))
		w, h, d := w*mm, 800*mm, 500*mm
		b.job.Cases = append(b.job.Cases, job.CheckedCase{ID: id, Family: family, Spec: carcass.Spec{Name: id, Width: &w, Height: &h, Depth: &d}})
		r.Order = append(r.Order, job.Entry{Case: id})
	}
	r.Wall = "north"
	b.job.Runs = []job.Named[job.Run]{{ID: "r", Value: r}}
	return b
}

func (b *bed) check() finding.List {
	room, _ := place.All(&b.job)
	return rules.Check(&b.job, &room, &b.all)
}

type trial struct {
	code  finding.Code
	says  string // part of the text, with the number
	bad   func(*bed)
	good  func(*bed)
	notes string
}

func trials() []trial {
	obstacle := func(cut bool, kind string) func(*bed) {
		return func(b *bed) {
			b.north().Obstacles = schema.Map[job.Obstacle]{{Key: "it", Value: job.Obstacle{Kind: kind, From: p(0), To: p(1000 * mm), Bottom: p(2000 * mm), Height: p(300 * mm), Out: 200 * mm, MayCut: cut}}}
		}
	}
	keep := func(k job.Keep) func(*bed) {
		return func(b *bed) { b.north().Clear = schema.Map[job.Keep]{{Key: "it", Value: k}} }
	}
	with := func(fs ...func(*bed)) func(*bed) {
		return func(b *bed) {
			for _, f := range fs {
				f(b)
			}
		}
	}
	put := func(wall, id string, x0, depth, z0, x1, z1 length.Length) func(*bed) {
		return func(b *bed) { b.put(wall, id, x0, depth, z0, x1, z1) }
	}
	outlet := job.Keep{Kind: "outlet", At: p(500 * mm), Up: p(1000 * mm), Width: p(80 * mm), Height: p(120 * mm)}
	yes := true
	behind := outlet
	behind.MayCut = &yes
	behind.Up = p(400 * mm)
	panel := job.Keep{Kind: "electrical-panel", From: p(2000 * mm), To: p(2400 * mm), Bottom: p(1000 * mm), Top: p(1800 * mm)}
	heater := job.Keep{Kind: "heater", From: p(2000 * mm), To: p(2400 * mm), Bottom: p(0), Top: p(1800 * mm), Out: p(1200 * mm)}
	window := func(b *bed) {
		b.north().Openings = schema.Map[job.Opening]{{Key: "it", Value: job.Opening{Kind: "window", From: 1000 * mm, To: 2000 * mm, Sill: p(900 * mm), Head: p(2000 * mm), Casing: p(70 * mm)}}}
	}
	inward := func(b *bed) {
		b.north().Openings = schema.Map[job.Opening]{{Key: "it", Value: job.Opening{Kind: "door", From: 2000 * mm, To: 2900 * mm, Head: p(2000 * mm), Swings: "in", Hinge: "left"}}}
	}
	car := func(b *bed) {
		b.job.File.Room.Cars = schema.Map[job.Car]{{Key: "car", Value: job.Car{Wall: "north", From: 0, Length: 3800 * mm, Out: 1000 * mm, Width: 1800 * mm, Mirrors: p(100 * mm), MirrorFrom: p(900 * mm), MirrorTo: p(1200 * mm), DoorFrom: p(1000 * mm), DoorTo: p(2500 * mm), DoorRoom: p(550 * mm)}}}
	}
	walk := func(b *bed) {
		b.job.File.Room.Aisle, b.job.File.Room.Depth = p(900*mm), p(2000*mm)
	}
	room := func(deep length.Length) func(*bed) { return func(b *bed) { b.job.File.Room.Depth = p(deep * mm) } }
	machine := func(b *bed) {
		b.job.Machines = []job.Named[job.Machine]{{ID: "saw", Value: job.Machine{Width: 600 * mm, Depth: 500 * mm, Height: p(400 * mm), SwingWidth: p(900 * mm)}}}
		b.job.Runs = []job.Named[job.Run]{{ID: "r", Value: job.Run{Wall: "north", Start: p(1000 * mm), Order: []job.Entry{{Machine: "saw"}}}}}
	}
	long := func(board length.Length) func(*bed) {
		return func(b *bed) {
			machine(b)
			b.job.Machines[0].Value.Bed, b.job.Machines[0].Value.Longest = p(100*mm), p(board*mm)
			b.put("north", "a", 100, 400, 0, 500, 1800).put("north", "b", 2100, 400, 0, 2500, 1800).put("north", "low", 1700, 400, 0, 2000, 50)
		}
	}
	fam := func(step length.Length) func(*bed) {
		return func(b *bed) {
			b.job.Families = []job.Named[job.Family]{{ID: "f", Value: job.Family{Step: p(step * mm), Depth: p(500 * mm)}}}
			b.cased("f", 600, 610)
		}
	}
	sit := func(wide length.Length) func(*bed) {
		return func(b *bed) {
			b.cased("", 600, 600)
			o := &b.job.Runs[0].Value.Order
			*o = []job.Entry{(*o)[0], {Knee: &job.Knee{Width: wide * mm, Sits: true}}, (*o)[1]}
			b.job.Counters = []job.Named[job.Counter]{{ID: "top", Value: job.Counter{Over: []string{"r"}}}}
		}
	}
	rolls := func(b *bed) { b.job.File.People.Wheelchair = true }
	railed := func(high length.Length) func(*bed) {
		return func(b *bed) { b.job.Counters[0].Value.Rails = &job.Rails{Height: p(high * mm)} }
	}
	deep := func(d length.Length) func(*bed) {
		return func(b *bed) { b.job.Counters[0].Value.Depth = p(d * mm) }
	}
	works := func(work string, high length.Length) func(*bed) {
		return func(b *bed) {
			b.job.Counters = []job.Named[job.Counter]{{ID: "heavy bench", Value: job.Counter{Wall: "north", Work: work, Height: p(high * mm), Free: &job.FreeBench{At: p(500 * mm), Length: 1500 * mm}, Depth: p(600 * mm)}}}
		}
	}
	thing := func(out length.Length) func(*bed) {
		return func(b *bed) {
			b.job.File.Room.Fixed = schema.Map[job.Thing]{{Key: "bench", Value: job.Thing{Wall: "north", At: 2000 * mm, Out: out * mm, Across: 400 * mm}}}
		}
	}
	// A case of 1000 whose side stands from x on, with an opening in its back.
	cut := func(x length.Length) func(*bed) {
		return func(b *bed) {
			b.cased("", 1000)
			b.put("north", "a", 0, 500, 0, 1000, 800)
			side := geom.B(x*mm, -480*mm, 0, (x+18)*mm, 0, 800*mm)
			b.all.Parts[0] = part.Part{Mark: "a", Owner: "a", Name: "side", Role: part.Side, Size: [3]length.Length{18 * mm, 480 * mm, 800 * mm}, Pose: geom.Around(side, geom.Right, geom.Back)}
		}
	}
	// A south wall opposite, 2 m away.
	facing := func(b *bed) {
		b.job.File.Room.Aisle = p(900 * mm)
		b.job.Walls = append(b.job.Walls[:1],
			job.Named[job.Wall]{ID: "east", Value: job.Wall{Length: 2000 * mm, Corner: &job.Corner{With: "north", At: "left"}}},
			job.Named[job.Wall]{ID: "south", Value: job.Wall{Length: 4000 * mm, Corner: &job.Corner{With: "east", At: "left"}}})
	}
	skirted := func(high length.Length) func(*bed) {
		return func(b *bed) {
			b.cased("", 600)
			b.put("north", "a", 0, 500, 0, 600, 800)
			b.north().Obstacles = schema.Map[job.Obstacle]{{Key: "it", Value: job.Obstacle{Kind: "skirting", Bottom: p(0), Top: p(high * mm), Out: 20 * mm}}}
		}
	}
	corner := func(angle string) func(*bed) {
		return func(b *bed) { b.job.Walls[1].Value.Corner.Angle = angle }
	}
	top := func(b *bed) {
		box := geom.B(0, -300*mm, 2082*mm, 600*mm, 0, 2100*mm)
		b.all.Owners[0].Box = b.all.Owners[0].Box.Or(box)
		v := box.Size()
		b.all.Parts = append(b.all.Parts, part.Part{Mark: "top", Owner: "a", Size: [3]length.Length{v.X, v.Y, v.Z}, Pose: geom.Around(box, geom.Right, geom.Back)})
	}
	wide := func(from length.Length) func(*bed) { return func(b *bed) { b.wide(from, 155, true) } }
	return []trial{
		{rules.KneeRoom, "is 500 mm wide", sit(500), sit(620), ""},
		{rules.KneeRoom, "is 620 mm wide; knees want 762 mm", with(sit(620), rolls), with(sit(762), rolls), "ADA 2010 306.3.5: 30 in"},
		{rules.KneeRoom, "is 682 mm high under its rails; knees want 686 mm", with(sit(800), rolls, railed(118)), with(sit(800), rolls, railed(114)), "ADA 2010 306.3.3: 27 in, 800 - 118 and 800 - 114"},
		{rules.KneeRoom, "is 431 mm deep; knees want 432 mm", with(sit(800), rolls, deep(431)), with(sit(800), rolls, deep(432)), "ADA 2010 306.2.3: 17 in"},
		{rules.WorkHeight, "heavy bench is 890 mm high; its work wants 711 mm to 889 mm", works("standing-heavy", 890), works("standing-heavy", 889), "NIOSH 97-117: 28 to 35 in are 711.2 to 889 mm"},
		{rules.WorkHeight, "is 711 mm high", works("standing-heavy", 711), works("standing-heavy", 712), ""},
		{rules.WorkHeight, "is 940 mm high", works("standing-light", 940), works("standing-light", 939), "34 to 37 in are 863.6 to 939.8 mm"},
		{rules.WorkHeight, "is 863 mm high", works("standing-light", 863), works("standing-light", 864), ""},
		{rules.WorkHeight, "is 939 mm high", works("standing-precise", 939), works("standing-precise", 940), "37 to 43 in are 939.8 to 1092.2 mm"},
		{rules.WorkHeight, "is 1093 mm high", works("standing-precise", 1093), works("standing-precise", 1092), ""},
		{rules.WorkHeight, "is 864 mm high", with(works("sitting", 864), rolls), with(works("sitting", 863), rolls), "28 to 34 in, from memory"},
		{rules.Clash, "moved by 50 mm", with(put("north", "a", 0, 500, 0, 600, 800), put("north", "b", 550, 500, 0, 1100, 800)), with(put("north", "a", 0, 500, 0, 600, 800), put("north", "b", 600, 500, 0, 1100, 800)), ""},
		// The front of a is 600 mm wide; b, 400 deep from the other wall, stands before 400 of them.
		{rules.FrontHidden, "b hides 400 mm of the front of a, which is 600 mm wide: what is in it is reached through 200 mm", with(put("north", "a", 0, 500, 0, 600, 800), put("west", "b", 2000, 400, 0, 2490, 800)), with(put("north", "a", 0, 500, 0, 900, 800), put("west", "b", 2000, 400, 0, 2490, 800)), "round a corner"},
		{rules.Clash, "walls north and west", with(put("north", "a", 0, 500, 0, 600, 800), put("west", "b", 2400, 400, 0, 2600, 800)), with(put("north", "a", 400, 500, 0, 900, 800), put("west", "b", 2400, 400, 0, 3000, 800)), "round a corner"},
		{rules.ClashObstacle, "reaches 100 mm into it", with(obstacle(false, "door-track"), put("north", "a", 0, 300, 1500, 600, 2100)), with(obstacle(false, "door-track"), put("north", "a", 0, 300, 1400, 600, 2000)), ""},
		{rules.ClashObstacle, "reaches 100 mm into it", with(obstacle(false, "door-track"), put("north", "a", 0, 300, 1000, 600, 1900), top), with(obstacle(false, "door-track"), put("north", "a", 0, 300, 1000, 600, 1900)), "by how much it is too high, not how thick its top is"},
		{rules.Notched, "a is notched round it", skirted(100), skirted(0), ""},
		{rules.CutAway, "from 0 mm to 600 mm", with(obstacle(true, "skirting"), put("north", "a", 0, 300, 1500, 600, 2100)), with(obstacle(true, "skirting"), put("north", "a", 1000, 300, 1500, 1600, 2100)), ""},
		{rules.BlocksClear, "into the clear space of it", with(keep(outlet), put("north", "a", 0, 300, 700, 600, 1400)), with(keep(outlet), put("north", "a", 540, 300, 700, 900, 1400)), ""},
		{rules.OutletBehind, "comes behind a", with(keep(behind), func(b *bed) { b.cased("", 1000) }, put("north", "a", 0, 500, 0, 1000, 800)), with(keep(behind), func(b *bed) { b.cased("", 300) }, put("north", "a", 0, 500, 0, 300, 800)), ""},
		{rules.SwingsIntoClear, "into the clear space of it (heater)", with(keep(heater), put("north", "a", 1400, 500, 0, 1900, 800), func(b *bed) { b.put("north", "c", 2400, 500, 0, 2900, 800).door("c", geom.Left) }, func(b *bed) {
			b.all.Motions[0].Closed.Min.X -= 50 * mm
			b.all.Motions[0].Swept.Min.X -= 50 * mm
			b.all.Motions[0].Pivot.X -= 50 * mm
		}), with(keep(heater), func(b *bed) { b.put("north", "c", 2400, 500, 0, 2900, 800).door("c", geom.Left) }), ""},
		{rules.PanelSpace, "has 700 mm free between a and b", with(keep(panel), put("north", "a", 1000, 500, 0, 1900, 800), put("north", "b", 2600, 500, 0, 3000, 800)), with(keep(panel), put("north", "a", 1000, 500, 0, 1900, 800), put("north", "b", 2662, 500, 0, 3000, 800)), "762 mm need not be centred"},
		{rules.PanelSpace, "stands before it over 100 mm", with(keep(panel), put("north", "a", 1000, 500, 0, 2100, 800)), with(keep(panel), put("north", "a", 1000, 500, 1990, 2100, 2200)), "above 6-1/2 ft"},
		{rules.BlocksOpening, "a covers 400 mm of it", with(window, func(b *bed) { b.north().Openings[0].Value.From = 0 }, put("west", "a", 2000, 400, 0, 2990, 1800)), with(window, func(b *bed) { b.north().Openings[0].Value.From = 480 * mm }, put("west", "a", 2000, 400, 0, 2990, 1800)), "round a corner"},
		{rules.PanelSpace, "bench stands before it over 200 mm", with(keep(panel), thing(800)), with(keep(panel), thing(1500)), "a thing in the room, 3 ft are 914 mm"},
		{rules.BlocksClear, "The side of a stands before it", with(keep(behind), cut(490)), with(keep(behind), cut(200)), "a side before an outlet"},
		{rules.Aisle, "and c there is 700 mm", with(facing, put("north", "a", 500, 700, 0, 1100, 800), put("south", "c", 0, 600, 0, 4000, 800)), with(facing, put("north", "a", 500, 500, 0, 1100, 800), put("south", "c", 0, 600, 0, 4000, 800)), "2000 - 700 - 600"},
		{rules.Aisle, "and car, parked, there is 400 mm", with(car, walk, room(6000), put("north", "a", 500, 500, 0, 1100, 800)), with(car, walk, room(6000), put("north", "a", 3900, 500, 0, 3990, 800)), "1000 less a mirror of 100 and a case of 500"},
		{rules.DoorStopped, "wall west at 96 degrees", wide(60), wide(500), "asin(60/560) and asin(500/560) past 90"},
		{rules.BlocksOpening, "covers 30 mm of it", with(window, put("north", "a", 400, 300, 1000, 960, 1800)), with(window, put("north", "a", 330, 300, 1000, 930, 1800)), ""},
		{rules.OverCeiling, "lacks 100 mm", put("north", "a", 0, 300, 2000, 600, 2600), put("north", "a", 0, 300, 1900, 600, 2500), ""},
		{rules.TiltRoom, "measures 2545 mm from corner", put("north", "a", 0, 700, 0, 600, 2447), put("north", "a", 0, 700, 0, 600, 2398), "hypot(2447, 700) = 2545.2, hypot(2398, 700) = 2498.1 under 2500"},
		{rules.PastWall, "100 mm past the right end", put("north", "a", 3500, 300, 0, 4100, 800), put("north", "a", 3400, 300, 0, 4000, 800), ""},
		{rules.PastWall, "a reaches 88 mm into wall west", with(corner("80"), put("north", "a", 0, 500, 0, 600, 800)), with(corner("80"), put("north", "a", 89, 500, 0, 600, 800)), "500 / tan 80° = 88.16"},
		{rules.PastWall, "into wall west", with(corner("80"), put("north", "a", 80, 500, 0, 600, 800)), with(corner("100"), put("north", "a", 0, 500, 0, 600, 800)), "an obtuse corner leaves more room"},
		{rules.CannotOpen, "meets wall west", with(corner("80"), func(b *bed) { b.put("north", "a", 100, 500, 0, 600, 800).drawer("a", 400) }), with(corner("80"), func(b *bed) { b.put("north", "a", 170, 500, 0, 600, 800).drawer("a", 400) }), "920 / tan 80° = 162 at the drawer's front"},
		{rules.CannotOpen, "meets b", func(b *bed) {
			b.put("north", "a", 500, 300, 0, 1000, 800).put("north", "b", 1000, 600, 0, 1500, 800).drawer("a", 250)
			b.all.Motions[0].Closed.Max.X += 10 * mm
			b.all.Motions[0].Swept.Max.X += 10 * mm
		}, func(b *bed) {
			b.put("north", "a", 500, 300, 0, 1000, 800).put("north", "b", 1000, 600, 0, 1500, 800).drawer("a", 250)
		}, ""},
		{rules.CannotOpen, "meets c", func(b *bed) {
			b.put("north", "a", 100, 500, 0, 600, 800).put("west", "c", 2000, 400, 0, 2490, 800).drawer("a", 400)
		}, func(b *bed) {
			b.put("north", "a", 400, 500, 0, 900, 800).put("west", "c", 2000, 400, 0, 2490, 800).drawer("a", 400)
		}, "a corner"},
		{rules.HandleRoom, "is 10 mm from wall west", func(b *bed) { b.put("north", "a", 10, 300, 0, 500, 800).door("a", geom.Left) }, func(b *bed) { b.put("north", "a", 30, 300, 0, 500, 800).door("a", geom.Left) }, ""},
		{rules.OneAtATime, "open one at a time", func(b *bed) {
			b.put("north", "a", 0, 300, 0, 500, 800).put("north", "b", 600, 300, 0, 1100, 800).door("a", geom.Right).door("b", geom.Left)
			b.all.Motions[0].Pivot.X += 200 * mm
			b.all.Motions[0].Closed.Max.X += 200 * mm
			b.all.Motions[0].Swept.Max.X += 200 * mm
		}, func(b *bed) {
			b.put("north", "a", 0, 300, 0, 500, 800).put("north", "b", 900, 300, 0, 1400, 800).door("a", geom.Right).door("b", geom.Left)
		}, ""},
		{rules.OneAtATime, "past 90 degrees: open both to 90, or one at a time", func(b *bed) {
			b.put("north", "a", 0, 300, 0, 500, 800).put("north", "b", 520, 300, 0, 1020, 800).door("a", geom.Right).door("b", geom.Left)
		}, func(b *bed) {
			b.put("north", "a", 0, 300, 0, 500, 800).put("north", "b", 700, 300, 0, 1200, 800).door("a", geom.Left).door("b", geom.Left)
		}, "a leaf of 500 leans 500 sin 20° = 171 over at 110"},
		{rules.RoomDoor, "meets a by 200 mm", with(inward, put("north", "a", 2700, 300, 0, 3300, 800)), with(inward, put("north", "a", 2900, 300, 0, 3300, 800)), ""},
		{rules.RoomDoorOpen, "in the swing of the door it", with(inward, func(b *bed) { b.put("north", "a", 1400, 300, 0, 2100, 800).drawer("a", 400) }), with(inward, func(b *bed) { b.put("north", "a", 1400, 300, 0, 2000, 800).drawer("a", 400) }), ""},
		{rules.Aisle, "there is 780 mm", with(walk, func(b *bed) { b.put("north", "a", 0, 700, 0, 600, 800).drawer("a", 500) }), with(walk, func(b *bed) { b.put("north", "a", 0, 580, 0, 600, 800).drawer("a", 500) }), "2000 - 700 - 20 - 500"},
		{rules.CarMeets, "100 mm into a mirror", with(car, put("north", "a", 0, 1000, 900, 600, 1100)), with(car, put("north", "a", 0, 900, 900, 600, 1100)), ""},
		{rules.CarDoors, "150 mm into the room for the doors", with(car, put("north", "a", 1500, 600, 0, 2000, 800)), with(car, put("north", "a", 1500, 450, 0, 2000, 800)), ""},
		{rules.CarOut, "opens only while that is out", with(car, func(b *bed) { b.put("north", "a", 0, 600, 0, 500, 800).drawer("a", 500) }), with(car, func(b *bed) { b.put("north", "a", 0, 600, 0, 500, 800).drawer("a", 300) }), ""},
		{rules.MachineRoom, "in the room that saw needs", with(machine, put("north", "a", 500, 400, 0, 1050, 1800)), with(machine, put("north", "a", 500, 400, 0, 1000, 1800)), ""},
		{rules.LongWork, "1600 mm are free at its bed, from 500 mm to 2100 mm", long(1700), long(1600), "2100 - 500"},
		{rules.LongWork, "how high its bed is", func(b *bed) { machine(b); b.job.Machines[0].Value.Longest = p(1700 * mm) }, long(1600), ""},
		{rules.ShortScrew, "4 screws in 1 joints of a reach less than 6 diameters into the last board, 3.5 at least", screwed(32, 18), screwed(43, 40), "18 mm to pass: 14 mm of 4 mm, and 25"},
		{rules.FamilyBreak, "The width of b is 610 mm; family f has 600 mm: it differs by 10 mm beside a", fam(100), fam(10), ""},
	}
}

// screwed are two boards flat on each other, one of 18 mm and one behind it, with four screws of 4 mm so long.
func screwed(long, behind length.Length) func(*bed) {
	return func(b *bed) {
		b.job.Catalogue.Hardware = append(b.job.Catalogue.Hardware, stock.Hardware{ID: "screw", Kind: "screw", Use: "wood", Dia: 4 * mm, Length: long * mm})
		b.put("north", "a", 1000, 18, 0, 1500, 500)
		p := b.all.Parts[len(b.all.Parts)-1]
		p.Mark = "a2"
		p.Size[1] = behind * mm
		p.Pose.Origin.Y -= behind * mm
		b.all.Parts = append(b.all.Parts, p)
		b.all.Joints = append(b.all.Joints, part.Joint{Kind: part.WoodScrew, A: "a", B: "a2", Contact: geom.B(1000*mm, -18*mm, 0, 1500*mm, -18*mm, 500*mm), Fastener: "screw", Count: 4})
	}
}

func TestEachRuleBitesAndLetsGo(t *testing.T) {
	provoked := map[finding.Code]bool{}
	for _, c := range trials() {
		b := newBed()
		c.bad(b)
		l := b.check().With(c.code)
		if len(l) == 0 {
			t.Errorf("%s %s: not found in %v", c.code, c.notes, b.check())
		} else if !slices.ContainsFunc(l, func(f finding.Finding) bool { return strings.Contains(f.Text, c.says) }) {
			t.Errorf("%s %s: %q is not in %v", c.code, c.notes, c.says, l)
		}
		provoked[c.code] = true
		g := newBed()
		c.good(g)
		if l := g.check().With(c.code); len(l) != 0 {
			t.Errorf("%s %s: found where nothing is wrong: %v", c.code, c.notes, l)
		}
	}
	for _, r := range rules.All() {
		if r.Doc == "" || r.Source == "" || r.Example == "" {
			t.Errorf("rule %s lacks its sentence, source or example", r.Name)
		}
		for _, c := range r.Codes {
			if !provoked[c] {
				t.Errorf("code %s of rule %s is provoked by no trial", c, r.Name)
			}
		}
	}
}

// Sixty cases of twenty parts and four motions.
func BenchmarkSixtyCases(b *testing.B) {
	d := newBed()
	d.north().Length = 60_000 * mm
	for i := range 60 {
		id := "case" + string(rune('A'+i))
		x := length.Length(i) * 600
		d.put("north", id, x, 500, 0, x+600, 800)
		for range 19 {
			q := d.all.Parts[len(d.all.Parts)-1]
			d.all.Parts = append(d.all.Parts, q)
		}
		for range 4 {
			d.drawer(id, 450)
		}
	}
	room, _ := place.All(&d.job)
	for b.Loop() {
		rules.Check(&d.job, &room, &d.all)
	}
}

// A drawer whose box ends above a pipe at the foot of the wall comes out, though its front hangs lower; a box that is
// as low as the pipe stands in it at rest.
func TestDrawerOverPipe(t *testing.T) {
	for low, want := range map[length.Length]finding.Code{220: "", 180: rules.ClashObstacle} {
		b := newBed().put("north", "a", 0, 300, 400, 600, 800)
		b.north().Obstacles = schema.Map[job.Obstacle]{{Key: "pipe", Value: job.Obstacle{Kind: "pipe", Bottom: p(100 * mm), Height: p(100 * mm), Out: 80 * mm}}}
		front, box := geom.B(0, -320*mm, 100*mm, 600*mm, -300*mm, 400*mm), geom.B(20*mm, -300*mm, low*mm, 580*mm, -40*mm, 380*mm)
		for i, x := range []geom.Box{front, box} {
			v := x.Size()
			b.all.Parts = append(b.all.Parts, part.Part{Mark: string(rune('p' + i)), Owner: "a", Moves: "a/drawer", Size: [3]length.Length{v.X, v.Y, v.Z}, Pose: geom.Around(x, geom.Right, geom.Back)})
		}
		c := front.Or(box)
		b.all.Owners[0].Box = b.all.Owners[0].Box.Or(c)
		b.all.Motions = append(b.all.Motions, part.Motion{ID: "a/drawer", Owner: "a", Kind: part.Slide, Closed: c, Dir: geom.Front, Travel: 250 * mm, Swept: c.Or(c.Shift(geom.Front.Vec(250 * mm)))})
		for _, f := range b.check() {
			if f.Code == rules.CannotOpen || f.Code == rules.ClashObstacle && want == "" {
				t.Errorf("box %d mm up: %s", low, f.Text)
			}
		}
		if want != "" && len(b.check().With(want)) == 0 {
			t.Errorf("box %d mm up: nothing is said", low)
		}
	}
}
