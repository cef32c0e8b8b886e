package job

import (
	"reflect"
	"strings"

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
		"practice": Practice{}, "people": People{}, "walls": Wall{}, "room": Room{}, "boards": stock.Board{},
		"sticks": stock.Stick{}, "edgings": stock.Edging{}, "hardware": stock.Hardware{}, "families": Family{},
		"patterns": Pattern{}, "cases": Case{}, "standing": Standing{}, "runs": Run{}, "counters": Counter{},
		"hutches": Hutch{}, "bases": Base{}, "machines": Machine{}, "goods": stock.Goods{}, "stages": Stage{}, "kept": Kept{},
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
	return append(list, Part{"job", "everything that can stand at the top of a job file", File{}})
}
