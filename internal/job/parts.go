package job

import (
	"reflect"
	"strings"

	"stowright/internal/carcass"
	"stowright/internal/stock"
)

// Part is one part of a job file, for help.
type Part struct {
	Name  string
	Doc   string
	Value any // of the type that it, or each of its entries, is read into
}

// Parts lists the keys at the top of a job file that hold more than one value, in the order in
// which the schema lists them, and at the end what nests in them under a name of its own.
func Parts() []Part {
	values := map[string]any{
		"practice": Practice{}, "title-block": TitleBlock{}, "people": People{}, "walls": Wall{}, "room": Room{}, "boards": stock.Board{},
		"sticks": stock.Stick{}, "edgings": stock.Edging{}, "hardware": stock.Hardware{}, "families": Family{},
		"patterns": Pattern{}, "cases": Case{}, "standing": Standing{}, "runs": Run{}, "counters": Counter{},
		"hutches": Hutch{}, "bases": Base{}, "machines": Machine{}, "goods": stock.Goods{}, "stages": Stage{}, "kept": Kept{},
		"practices": Practice{}, "containers": stock.Goods{}, "materials": stock.Material{}, "species": stock.Species{},
	}
	var list []Part
	t := reflect.TypeFor[File]()
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("job"), ",")
		if v, ok := values[name]; ok {
			list = append(list, Part{name, f.Tag.Get("doc"), v})
		}
	}
	return append(list,
		Part{"job", "everything that can stand at the top of a job file", File{}},
		Part{"bay", "a case's inside, and each of the bays that it is split into", carcass.Bay{}},
		Part{"doors", "doors before a bay", carcass.Doors{}},
		Part{"stands-on", "what a floor case stands on: toe recess, feet, base, castors", carcass.Stands{}},
		Part{"hangs-by", "what a wall case hangs by", carcass.Hangs{}},
		Part{"studs", "where the studs of a wall are", Studs{}},
		Part{"floor", "heights of the floor along a wall", Floor{}},
		Part{"openings", "windows and doors in a wall", Opening{}},
		Part{"keep-clear", "areas of a wall that must stay clear", Keep{}},
		Part{"obstacles", "what stands out from a wall", Obstacle{}},
		Part{"in-gap", "a case between two that stand", Gap{}},
		Part{"knee", "a space to sit at in a run", Knee{}},
		Part{"joining", "screws between neighbours of a family", Joining{}},
	)
}
