package shop

import (
	"cmp"
	"math"
	"slices"

	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// What the work uses up beside boards, hardware, glue and finish, by estimates of common practice without a source: one
// pass of 120 grit and one and a half of 180 (the half between coats) over all faces, masking tape along both boards of every joint, and at every packer.
const (
	sheetSands = 2 // m² to a sheet of sandpaper
	packerTape = 300 * length.MM
	frontTape  = 150 * length.MM // a strip at either end of a drawer's front
)

// Supplies lists what the steps use up and nothing else counts, and the bits that they bore with and that the practice
// does not own, each for an owner or a stage.
func Supplies(a part.Assembly, c stock.Catalogue, p stock.Practice) []part.Item {
	s := supplies{c: c, p: p, js: joinery.Shop{Practice: p, Catalogue: c}, boards: map[string]part.Part{}, owners: map[string]part.Owner{}}
	for _, o := range a.Owners {
		s.owners[o.ID] = o
	}
	for _, q := range a.Parts {
		s.boards[q.Mark] = q
		s.worked(q)
	}
	s.sandpaper(a)
	for _, j := range a.Joints {
		q := s.boards[j.A]
		if j.Glue && s.owners[q.Owner].Kind == "case" && p.Finish != "" {
			size := j.Contact.Size()
			s.add("masking-tape", q.Owner, 2, max(size.X, size.Y, size.Z))
		}
		if j.Count > 0 && !joinery.Bored(q, s.boards[j.B], j) {
			s.drilled(j.Fastener, q.Owner)
		}
	}
	for _, f := range a.Fixings {
		s.drilled(f.Screw, f.Owner)
	}
	for _, h := range a.Hardware {
		if x, _ := c.Item(h.ID); x.Use == "packing" {
			s.add("masking-tape", h.Owner, h.Count, packerTape)
			s.list[len(s.list)-1].Stage = h.Stage
		}
	}
	return s.list
}

type supplies struct {
	c      stock.Catalogue
	p      stock.Practice
	js     joinery.Shop
	boards map[string]part.Part
	owners map[string]part.Owner
	list   []part.Item
}

func (s *supplies) add(id, owner string, count int, long length.Length) {
	h, _ := s.c.Item(id)
	s.list = append(s.list, part.Item{ID: id, Owner: owner, Kind: cmp.Or(h.Kind, "other"), Count: count, Length: long, Stage: s.owners[owner].Stage})
}

// worked lists what the workings and the edges of a board take.
func (s *supplies) worked(q part.Part) {
	for i, b := range q.Bands {
		if b.Edging != "" && b.Deduct && b.Thickness >= ironed {
			s.add("edging-adhesive", q.Owner, 1, q.Size[map[bool]int{true: 1, false: 0}[i < 2]])
		}
	}
	if q.Role == part.DrawerFront || q.Role == part.FalseFront {
		s.add("double-sided-tape", q.Owner, 2, frontTape)
	}
	if narrow(q) && carried(q.Size[0]) {
		s.add("double-sided-tape", q.Owner, 1, q.Size[0])
	}
	for _, o := range q.Ops {
		if o.Kind == part.Bevel && ledByHand(s.p, o.Tool) {
			s.add("double-sided-tape", q.Owner, 3, q.Size[0])
		}
		if o.Kind == part.Hole || o.Kind == part.Cup {
			if name, own := s.js.Bit(o.Dia); !own && name == o.Tool {
				s.bit(name, q.Owner)
			}
		}
	}
}

// drilled lists the bits for a screw that is bored for on the spot, where none that will do is owned.
func (s *supplies) drilled(screw, owner string) {
	h, ok := s.c.Item(screw)
	if !ok || h.Kind != "screw" {
		return
	}
	for _, d := range []length.Length{cmp.Or(h.Clearance, h.Dia, 9*length.MM/2), cmp.Or(h.Pilot, h.Root, 3*length.MM)} {
		if name, _, own := s.js.Pilot(d); !own {
			s.bit(name, owner)
		}
	}
}

// bit lists a bit once.
func (s *supplies) bit(name, owner string) {
	if !slices.ContainsFunc(s.list, func(h part.Item) bool { return h.ID == name }) {
		s.list = append(s.list, part.Item{ID: name, Kind: "bit", Owner: owner, Count: 1})
	}
}

// sandpaper is counted by the faces of each stage; what bears others unseen is not sanded.
func (s *supplies) sandpaper(a part.Assembly) {
	var stages []string
	faces := map[string]length.Area{}
	for _, q := range a.Parts {
		o := s.owners[q.Owner]
		if q.Material == part.Bought || o.Kind == "base" {
			continue
		}
		if !slices.Contains(stages, o.Stage) {
			stages = append(stages, o.Stage)
		}
		faces[o.Stage] = faces[o.Stage].Add(q.Size[0].Times(q.Size[1]).Scale(2))
	}
	for _, stage := range stages {
		for _, x := range []struct {
			id     string
			passes float64
		}{{"sandpaper-120", 1}, {"sandpaper-180", 1.5}} {
			s.add(x.id, "", int(math.Ceil(x.passes*faces[stage].SquareMetres()/sheetSands)), 0)
			s.list[len(s.list)-1].Stage = stage
		}
	}
}
