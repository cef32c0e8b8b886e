package job

import (
	"cmp"
	"slices"

	"stowright/internal/carcass"
	"stowright/internal/length"
	"stowright/internal/schema"
	"stowright/internal/stock"
)

// Checked is a job that has been checked: only Check makes one. Every name in it is known,
// every pattern is merged, every case has a width, a height and a depth.
type Checked struct {
	File      File // as written, for what is not resolved below
	Name      string
	Unit      length.Unit    // of bare numbers
	Print     length.Unit    // on paper
	Both      bool           // on paper, sizes in the other unit too
	Practice  stock.Practice // complete; Tools, Bits, HoleSaws filled
	Catalogue stock.Catalogue
	Cases     []CheckedCase // in file order
	Runs      []Named[Run]
	Counters  []Named[Counter]
	Hutches   []Named[Hutch]
	Bases     []Named[Base]
	Walls     []Named[Wall]
	Standing  []Named[Standing]
	Machines  []Named[Machine]
	Families  []Named[Family]
	Goods     []stock.Goods // sorted by id
	Fittings  []string      // names of fitting kinds in use, sorted
}

// Named is an entry with its id and its place in the file.
type Named[T any] struct {
	ID    string
	At    schema.Place
	Value T
}

// CheckedCase is a case with everything merged. Spec has Width, Height and Depth, a Stands or
// Hangs kind, and a joint, back and top by family, pattern or practice.
type CheckedCase struct {
	ID     string
	At     schema.Place
	Case   Case
	Spec   carcass.Spec
	Family string // "" for none
}

// Owners gives the ids of everything that can be built alone, in file order: cases, counters,
// bases, hutches.
func (c Checked) Owners() []string {
	var ids []string
	for _, x := range c.Cases {
		ids = append(ids, x.ID)
	}
	for _, x := range c.Counters {
		ids = append(ids, x.ID)
	}
	for _, x := range c.Bases {
		ids = append(ids, x.ID)
	}
	for _, x := range c.Hutches {
		ids = append(ids, x.ID)
	}
	return ids
}

// StageIDs gives the ids of the stages, in their order.
func (c Checked) StageIDs() []string {
	var ids []string
	for _, s := range c.File.Stages {
		ids = append(ids, s.ID)
	}
	return ids
}

// Homeless gives the names of the goods of which the job does not say where they are kept: no bay, rack, counter,
// hutch or standing case lists them, and they name no place.
func (c Checked) Homeless() []string {
	kept := map[string]bool{}
	keep := func(goods []string) {
		for _, g := range goods {
			kept[g] = true
		}
	}
	var bay func(b carcass.Bay)
	bay = func(b carcass.Bay) {
		keep(b.Goods)
		for _, list := range [...][]carcass.Bay{b.Across, b.Up} {
			for _, x := range list {
				bay(x)
			}
		}
		if b.Doors != nil {
			for _, list := range [...][]carcass.Rack{b.Doors.Left, b.Doors.Right} {
				for _, x := range list {
					keep(x.Goods)
				}
			}
		}
	}
	for _, x := range c.Cases {
		bay(x.Spec.Inside)
	}
	for _, x := range c.Counters {
		keep(x.Value.Goods)
	}
	for _, x := range c.Hutches {
		keep(x.Value.Goods)
	}
	for _, x := range c.Standing {
		keep(x.Value.Goods)
	}
	var list []string
	for _, g := range c.Goods {
		if !kept[g.ID] && g.Place == "" {
			list = append(list, g.ID)
		}
	}
	return list
}

// EndPanel gives the thickness of the end panel on a side of a case, left or right; 0 where it has none.
func (c Checked) EndPanel(s carcass.Spec, side string) L {
	if !slices.Contains(s.EndPanels, side) {
		return 0
	}
	b, _ := c.Catalogue.Board(cmp.Or(s.FrontBoard, c.Practice.FrontBoard, s.Board, c.Practice.Case))
	return b.Thickness
}
