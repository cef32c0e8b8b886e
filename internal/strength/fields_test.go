package strength_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/mass"
	"stowright/internal/stock"
	"stowright/internal/strength"
)

// fieldsOf lists every field of the job's format with the types it has, by the word a maker writes.
func fieldsOf() map[string][]reflect.Type {
	out, seen := map[string][]reflect.Type{}, map[reflect.Type]bool{}
	var walk func(t reflect.Type)
	walk = func(t reflect.Type) {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
			t = t.Elem()
		}
		if t.Kind() != reflect.Struct || seen[t] {
			return
		}
		seen[t] = true
		for i := range t.NumField() {
			f := t.Field(i)
			word, _, _ := strings.Cut(f.Tag.Get("job"), ",")
			kind := f.Type
			for kind.Kind() == reflect.Pointer || kind.Kind() == reflect.Slice {
				kind = kind.Elem()
			}
			if word != "" && word != "-" && !slices.Contains(out[word], kind) {
				out[word] = append(out[word], kind)
			}
			walk(f.Type)
		}
	}
	walk(reflect.TypeFor[job.File]())
	return out
}

// Every word of the format that is a mass, a load or a figure of a material is among those that are left out of the
// jobs in turn; a new one cannot be forgotten.
func TestWhatIsLeftOutIsAllThatDescribes(t *testing.T) {
	limits := map[string]string{
		"one-person-lift": "a limit, not a resistance: the practice's own stands where it is left out",
	}
	n := 0
	for word, types := range fieldsOf() {
		for _, x := range types {
			if x != reflect.TypeFor[mass.Mass]() && x != reflect.TypeFor[mass.PerArea]() && x != reflect.TypeFor[stock.Ratio]() {
				continue
			}
			n++
			if !slices.Contains(resistance, word) && !slices.Contains(loads, word) && limits[word] == "" {
				t.Errorf("%s: (%v) is left out of no job", word, x)
			}
		}
	}
	if n < 25 {
		t.Errorf("only %d words are masses, loads or figures", n)
	}
}

// blanked gives an input whose tables lack one field of every material, species, board, stick or piece of hardware; the
// assembly stays.
func blanked(in strength.Input, table string, field int) strength.Input {
	c := *in.Job
	v := reflect.ValueOf(&c.Catalogue).Elem().FieldByName(table)
	list := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
	reflect.Copy(list, v)
	for i := range list.Len() {
		list.Index(i).Field(field).SetZero()
	}
	v.Set(list)
	in.Job = &c
	return in
}

// Whatever a table says of a material, a kind of wood, a board, a stick or a piece of hardware, left out of all of them,
// makes nothing hold that did not, in any of the examples; every field of every table is tried.
func TestNoFieldOfATableMissingEverHolds(t *testing.T) {
	sets := names
	if testing.Short() {
		sets = []string{"ostler-row"}
	}
	for _, name := range sets {
		in := input(read(t, name, text(t, name)))
		held := map[key]bool{}
		for _, f := range strength.Check(in) {
			held[key{f.Code, f.At}] = f.Verdict == finding.Holds || f.Verdict == finding.Near
		}
		for table, row := range map[string]reflect.Type{
			"Materials": reflect.TypeFor[stock.Material](), "Species": reflect.TypeFor[stock.Species](), "Boards": reflect.TypeFor[stock.Board](),
			"Sticks": reflect.TypeFor[stock.Stick](), "Hardware": reflect.TypeFor[stock.Hardware]()} {
			for i := range row.NumField() {
				if row.Field(i).Name == "ID" {
					continue
				}
				for _, f := range strength.Check(blanked(in, table, i)) {
					if was, known := held[key{f.Code, f.At}]; (f.Verdict == finding.Holds || f.Verdict == finding.Near) && known && !was {
						t.Errorf("%s: without %s of %s holds now: %s", name, row.Field(i).Name, table, say(f))
					}
				}
			}
		}
	}
}
