// Package fittingtest is the promises that every kind of fitting keeps, tried on a kind in real
// cases of three shops. A fitting's own test calls [Run] and adds what is its own.
package fittingtest

import (
	"cmp"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/carcass"
	"stowright/internal/carcass/carcasstest"
	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/schema"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

type L = length.Length

const (
	mm = length.MM
	in = length.Inch
)

// Options say where a kind cannot keep a promise of the suite, and why.
type Options struct {
	// Handed says why the mirror of what it builds is not what it builds in a mirrored case; ""
	// when it is.
	Handed string
	// Steps says why sizes other than those along x may change when a case is a millimetre
	// wider; "" when none may.
	Steps string
}

// Shops are those of carcasstest with hole saws and a screw for racks; the last bores nothing
// over 35 mm and grooves nothing.
func Shops() []fitting.Env {
	list := []fitting.Env{carcasstest.Metric(), carcasstest.Inch(), carcasstest.OneSaw()}
	list[0].Practice.HoleSaws = []L{51 * mm, 68 * mm}
	list[1].Practice.HoleSaws = []L{17 * in / 8, 11 * in / 4, 29 * in / 8}
	for i := range list {
		list[i].Catalogue.Hardware = append(list[i].Catalogue.Hardware, stock.Hardware{ID: "wood-20", Kind: "screw", Use: "wood", Sold: "both", Length: 20 * mm, Dia: 4 * mm, Pilot: 3 * mm, Clearance: 4500 * mm / 1000, Pack: 100})
	}
	return list
}

// Case gives a case with a fitting of the kind in its bay, or on its only door hinged at a side.
func Case(k fitting.Kind, value fitting.Spec, width L, hinge string) carcass.Spec {
	h, d := 800*mm, 450*mm
	s := carcass.Spec{Width: &width, Height: &h, Depth: &d, Level: "floor", Top: "full", Back: "applied", Stands: carcass.Stands{Kind: "floor"}}
	plug := schema.Plug{Kind: k.Name, Value: value}
	if k.Where == fitting.OnDoor {
		s.Inside.Doors = &carcass.Doors{Count: 1, Hinge: hinge, Left: []carcass.Rack{{Fitting: plug}}}
	} else {
		s.Inside.Fitting = plug
	}
	return s
}

// Run tries a kind's promises.
func Run(t *testing.T, k fitting.Kind, o Options) {
	t.Helper()
	// A 6 mm dowel in the middle of a corner of 11.8 leaves 2.9 beside it.
	const margin = 2500 * mm / 1000
	if k.Name == "" || k.Doc == "" {
		t.Errorf("the kind %q says nothing of itself", k.Name)
	}
	for _, env := range Shops() {
		for _, w := range []L{450 * mm, 500 * mm, 18 * in, 597 * mm} {
			name := fmt.Sprintf("%s shop, %v", env.Practice.ID, w)
			build := func(w L, hinge string) (part.Assembly, finding.List) {
				return carcass.Build(env, "c", Case(k, k.New(), w, hinge), carcass.Site{})
			}
			a, f := build(w, "left")
			for _, bad := range parttest.Check(a, parttest.Options{Margin: margin}) {
				t.Errorf("%s: %s", name, bad)
			}
			if len(own(a)) == 0 && !speaks(f) {
				t.Errorf("%s: the defaults build nothing and say nothing", name)
			}
			sound(t, name, f)
			if b, g := build(w, "left"); !reflect.DeepEqual(a, b) || !reflect.DeepEqual(f, g) {
				t.Errorf("%s: building twice gives two results", name)
			}
			if o.Handed == "" {
				b, _ := build(w, "right")
				mirror(t, name, a, b, w, k.Where == fitting.OnDoor)
			}
			if o.Steps == "" {
				b, _ := build(w+mm, "left")
				wider(t, name, a, b)
			}
		}
	}
	tight(t, k)
	thin(t, k)
	unknown(t, k)
}

// own gives what a case has because of its fitting.
func own(a part.Assembly) []part.Part {
	var list []part.Part
	for _, p := range a.Parts {
		if strings.HasPrefix(p.Local, "in-") && p.Role != part.Door || strings.HasPrefix(p.Local, "in-left-rack") {
			list = append(list, p)
		}
	}
	for _, b := range a.Bays {
		if len(list) == 0 && strings.HasPrefix(b.ID, "c/in") {
			list = append(list, part.Part{Local: b.ID}) // an open bay is a result too
		}
	}
	return list
}

func speaks(f finding.List) bool { return len(f) > 0 }

var number = regexp.MustCompile(`[0-9]`)

// sound: every finding has a code, a place in the case and a whole sentence.
func sound(t *testing.T, name string, f finding.List) {
	t.Helper()
	for _, x := range f {
		if x.Code == "" || !strings.HasPrefix(x.At, "case/c") || x.Text == "" || strings.Contains(x.Text, "%!") || x.Source == "" && x.Severity == finding.Error {
			t.Errorf("%s: a finding without code, place or sentence: %+v", name, x)
		}
	}
}

// shape is where something is and what is done to it, whatever way its board is laid.
type shape struct {
	role part.Role
	box  geom.Box
	ops  string
}

// shapes gives the parts of an assembly in a stable order, seen in a mirror across w if wanted.
func shapes(list []part.Part, w L, flip bool) []shape {
	var out []shape
	for _, p := range list {
		s := shape{role: p.Role, box: p.Box()}
		if flip {
			s.box.Min.X, s.box.Max.X = w-s.box.Max.X, w-s.box.Min.X
		}
		var ops []string
		for _, o := range p.Ops {
			lo := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			hi := p.Pose.Point(o.Face.Point(o.X+o.L, o.Y+o.W, p.Size))
			n := p.Pose.Dir(o.Face.Normal())
			if flip {
				lo.X, hi.X = w-lo.X, w-hi.X
				if n.Axis() == 0 {
					n = n.Not()
				}
			}
			b := geom.B(min(lo.X, hi.X), min(lo.Y, hi.Y), min(lo.Z, hi.Z), max(lo.X, hi.X), max(lo.Y, hi.Y), max(lo.Z, hi.Z))
			ops = append(ops, fmt.Sprint(o.Kind, n, b, o.Dia, o.Depth, o.Tool, o.For))
		}
		slices.Sort(ops)
		s.ops = strings.Join(ops, "\n")
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b shape) int {
		return cmp.Or(cmp.Compare(a.role, b.role), cmp.Compare(fmt.Sprint(a.box), fmt.Sprint(b.box)))
	})
	return out
}

// mirror: the boards of the fitting, and of a door that carries it, are true mirrors.
func mirror(t *testing.T, name string, a, b part.Assembly, w L, door bool) {
	t.Helper()
	pick := func(a part.Assembly) []part.Part {
		list := own(a)
		for _, p := range a.Parts {
			if door && p.Role == part.Door {
				list = append(list, p)
			}
		}
		return slices.DeleteFunc(list, func(p part.Part) bool { return p.Role == "" })
	}
	x, y := shapes(pick(a), w, true), shapes(pick(b), w, false)
	if len(x) != len(y) {
		t.Errorf("%s: %d boards, mirrored %d", name, len(x), len(y))
		return
	}
	for i := range x {
		if x[i] != y[i] {
			t.Errorf("%s: the mirror of\n%+v\nis\n%+v", name, x[i], y[i])
		}
	}
}

// wider: a millimetre of width changes no board's depth, height or thickness.
func wider(t *testing.T, name string, a, b part.Assembly) {
	t.Helper()
	at := map[string]part.Part{}
	for _, p := range own(b) {
		at[p.Local] = p
	}
	for _, p := range own(a) {
		q, ok := at[p.Local]
		if !ok {
			t.Errorf("%s: a millimetre more and %s is gone", name, p.Local)
			continue
		}
		if p.Role == "" {
			continue
		}
		c, d := p.Box(), q.Box()
		c.Min.X, c.Max.X, d.Min.X, d.Max.X = 0, 0, 0, 0
		if c != d {
			t.Errorf("%s: a millimetre of width changes %s from %v to %v across it", name, p.Local, c, d)
		}
		if more := q.Box().Size().X - p.Box().Size().X; more < 0 || more > 2*mm {
			t.Errorf("%s: a millimetre of width makes %s wider by %v", name, p.Local, more)
		}
	}
}

// tight: in cases of any size, too small ones too, what is built is sound and what is not is said.
func tight(t *testing.T, k fitting.Kind) {
	t.Helper()
	for _, env := range Shops() {
		for _, size := range [][3]L{{150 * mm, 200 * mm, 150 * mm}, {260 * mm, 420 * mm, 220 * mm}, {900 * mm, 300 * mm, 600 * mm}, {1100 * mm, 2000 * mm, 300 * mm}} {
			s := Case(k, k.New(), size[0], "left")
			s.Height, s.Depth = &size[1], &size[2]
			a, f := carcass.Build(env, "c", s, carcass.Site{})
			name := fmt.Sprintf("%s shop, %v", env.Practice.ID, size)
			for _, bad := range parttest.Check(a, parttest.Options{}) {
				t.Errorf("%s: %s", name, bad)
			}
			sound(t, name, f)
			if k.Where == fitting.OnDoor && len(own(a)) == 1 && !slices.ContainsFunc(f, func(x finding.Finding) bool { return number.MatchString(x.Text) }) {
				t.Errorf("%s: no rack and no number to say why", name)
			}
		}
	}
}

// thin: in boards too thin for what is bored in them no hole comes through or has no depth, and what is left out is said.
func thin(t *testing.T, k fitting.Kind) {
	t.Helper()
	for _, env := range Shops() {
		for _, thick := range []L{in / 8, 5080 * mm / 1000, 9 * mm, 12 * mm} {
			e := env
			e.Catalogue.Boards = append(slices.Clone(env.Catalogue.Boards), stock.Board{ID: "thin", Name: "thin", Material: "birch", Thickness: thick, Length: 2500 * mm, Width: 1250 * mm})
			uses := func(a part.Assembly) map[string]bool {
				m := map[string]bool{}
				for _, p := range a.Parts {
					for _, o := range p.Ops {
						m[o.For] = true
					}
				}
				return m
			}
			whole, _ := carcass.Build(e, "c", Case(k, k.New(), 600*mm, "left"), carcass.Site{})
			for _, role := range []*string{&e.Practice.Case, &e.Practice.FrontBoard, &e.Practice.ShelfBoard, &e.Practice.BoxSide, &e.Practice.RackSide} {
				was := *role
				*role = "thin"
				a, f := carcass.Build(e, "c", Case(k, k.New(), 600*mm, "left"), carcass.Site{})
				*role = was
				for _, p := range a.Parts {
					for _, o := range p.Ops {
						if _, _, deep := o.Face.Extent(p.Size); o.Depth <= 0 || o.Depth > deep {
							t.Errorf("%s shop, boards of %v: %s: a %s for %q is %v deep in %v", env.Practice.ID, thick, p.Local, o.Kind, o.For, o.Depth, deep)
						}
					}
				}
				sound(t, fmt.Sprintf("%s shop, boards of %v", env.Practice.ID, thick), f)
				got := uses(a)
				for _, use := range []string{"shelf pin", "hinge plate", "hinge cup", "hinge screw", "slide", "front screw", "rack screw"} {
					if uses(whole)[use] && !got[use] && !slices.ContainsFunc(f, func(x finding.Finding) bool { return x.Severity == finding.Error }) {
						t.Errorf("%s shop, boards of %v: no hole for a %s, and nothing says so: %v", env.Practice.ID, thick, use, f)
					}
				}
			}
		}
	}
}

// unknown: a key with a slip in it is refused, and the right one is named.
func unknown(t *testing.T, k fitting.Kind) {
	t.Helper()
	v := reflect.TypeOf(k.New()).Elem()
	for i := range v.NumField() {
		key, _, _ := strings.Cut(v.Field(i).Tag.Get("job"), ",")
		if len(key) < 4 || key == "-" {
			continue
		}
		slip := key[:len(key)-1] + "q"
		n, _ := yaml.Read("job", []byte(slip+": 1\n"))
		problems := schema.Decode(n, k.New(), schema.Options{Unit: length.Millimetres})
		if len(problems) == 0 || !strings.Contains(fmt.Sprint(problems), key) {
			t.Errorf("the key %q is read, or %q is not named: %v", slip, key, problems)
		}
	}
}
