package plan_test

import (
	"reflect"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/builtin"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// What is proved before the first cut names lines that a job file has: the board, the thing bought or the fitting that is
// named is known, and so is the key. Every size of bored hole that goods stand in is asked for.
func TestLinesOfWhatIsProvedAreThoseOfAJob(t *testing.T) {
	line := regexp.MustCompile(`\(([^()]*)\)$`)
	n, holes := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		told := ""
		for _, s := range r.Steps {
			if s.Phase != shop.Prove {
				continue
			}
			for _, p := range s.Points {
				told += p + "\n"
				m := line.FindStringSubmatch(p)
				if m == nil {
					continue
				}
				keys := strings.Split(strings.SplitN(m[1], ";", 2)[0], ", ")
				ok := false
				switch keys[0] {
				case "boards":
					_, ok = r.Job.Catalogue.Board(keys[1])
					ok = ok && keys[2] == "measures"
				case "hardware":
					_, ok = r.Job.Catalogue.Item(keys[1])
				case "practice":
					ok = m[1] == "practice, tools, kerf"
				case "its bay":
					for _, k := range builtin.Fittings() {
						ok = ok || k.Name == keys[1] && keyed(k.New(), keys[2])
					}
				}
				if n++; !ok {
					t.Errorf("%s: no job has the line (%s) of %q", name, m[1], p)
				}
			}
		}
		for _, b := range r.Assembly.Bays {
			if len(b.Places) == 0 || b.Places[0].Dia == 0 {
				continue
			}
			holes++
			size := b.Places[0].Dia.Exact(r.Job.Print)
			if want := b.Kind + ", diameter)"; !strings.Contains(told, want) || !strings.Contains(told, size) {
				t.Errorf("%s: nothing asks for what stands in the holes of %s, %s", name, b.ID, size)
			}
		}
	}
	if n == 0 || holes == 0 {
		t.Errorf("%d lines, %d bays with holes: nothing is tried", n, holes)
	}
}

// keyed reports whether what a job says of something has a key.
func keyed(spec any, key string) bool {
	t := reflect.TypeOf(spec).Elem()
	for i := range t.NumField() {
		if name, _, _ := strings.Cut(t.Field(i).Tag.Get("job"), ","); name == key {
			return true
		}
	}
	return false
}
