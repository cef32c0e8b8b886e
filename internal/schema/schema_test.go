package schema_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/money"
	"stowright/internal/schema"
	"stowright/internal/schema/schematest"
	"stowright/internal/source"
	"stowright/internal/source/yaml"
)

// box is a declaration with every type of field that there is.
type box struct {
	At schema.Place
	shared
	Name    string                    `job:"name,required" doc:"What it is called."`
	Width   length.Length             `job:"width,required" min:"0" max:"10 ft" eg:"30 in"`
	Depth   *length.Length            `job:"depth"`
	Toe     length.Length             `job:"toe-height" default:"3 in"`
	Kind    string                    `job:"kind" one:"stud|steel-stud|masonry" default:"stud"`
	Joint   joint                     `job:"joint"`
	Doors   *bool                     `job:"doors"`
	Plain   bool                      `job:"plain"`
	Shelves int                       `job:"shelves" min:"0" max:"20" default:"2"`
	Count   *int                      `job:"count"`
	Weight  mass.Mass                 `job:"weight"`
	Load    *mass.PerArea             `job:"load"`
	Price   money.Amount              `job:"price"`
	Growth  schema.Ratio              `job:"growth" default:"5/4"`
	Studs   []length.Length           `job:"studs" min:"0"`
	Rows    schema.OneOrMany[int]     `job:"rows"`
	Bays    schema.Map[*box]          `job:"bays"`
	Feet    feet                      `job:"feet"`
	Raw     *source.Node              `job:"raw"`
	Sizes   schema.Map[length.Length] `job:"sizes"`
	Size    size                      `job:"size"`
	Fitting schema.Plug               `plug:"fitting"`
}

func (box) Doc() string { return "One box." }

type shared struct {
	Note string `job:"note"`
}

type feet struct {
	Least length.Length `job:"least" default:"50 mm"`
	Many  int           `job:"many,required"`
}

type joint string

func (joint) Words() []string { return []string{"dado", "pocket-screw"} }

type tray struct {
	Count int           `job:"count" default:"1"`
	Lip   length.Length `job:"lip"`
}

// size reads "4 x 6" itself.
type size [2]length.Length

func (s *size) Decode(n *source.Node, c *schema.Context) {
	a, b, ok := strings.Cut(n.Text, " x ")
	x, err := length.Parse(a, c.Options.Unit)
	y, err2 := length.Parse(b, c.Options.Unit)
	if !ok || err != nil || err2 != nil {
		c.Fail(n.Span, "expected "+s.Words(), "")
		return
	}
	*s = size{x, y}
}

func (*size) Schema(*schema.Sketch) schema.Shape {
	return schema.Shape{"type": "string", "pattern": " x "}
}
func (*size) Words() string { return "two lengths such as 4 x 6" }

func options() schema.Options {
	return schema.Options{
		Unit:  length.Inches,
		Sizes: map[string]length.Length{"opening": 24 * length.Inch, "step": 3 * length.Inch, "wide-step": 6 * length.Inch},
		Plugs: map[string][]schema.PlugKind{"fitting": {
			{Name: "tray", Doc: "A pull-out tray.", New: func() any { return &tray{Lip: length.Inch} }},
			{Name: "door-rack", Doc: "A rack on a door.", New: func() any { return &feet{} }},
		}},
	}
}

func decode(t *testing.T, text string) (box, source.Problems) {
	t.Helper()
	n, ps := yaml.Read("job.yaml", []byte(text))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	var b box
	ps = schema.Decode(n, &b, options())
	return b, ps
}

const whole = `name: 12
width: opening + 2 x step
depth:
toe height: 4
kind: Steel stud
joint: pocket_screw
doors: no
plain: yes
weight: 5 lb 4 oz
load: 40 psf
price: 4.10
studs: [7-1/2, 23.5, "39 1/2 in"]
rows: 3
note: shared
bays:
  left: {name: l, width: 300 mm}
  right side: {name: r, width: 1, tray: }
feet: {many: 4}
raw: [a, b]
sizes: {a: 3}
size: 4 x 6 1/2
door rack: {many: 2}
`

func TestDecode(t *testing.T) {
	b, ps := decode(t, whole)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	left, _ := b.Bays.Get("left")
	right, _ := b.Bays.Get("right_side")
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"name", b.Name, "12"}, {"width", b.Width, 30 * length.Inch}, {"depth", b.Depth == nil, true}, {"toe", b.Toe, 4 * length.Inch},
		{"kind", b.Kind, "steel-stud"}, {"joint", b.Joint, joint("pocket-screw")}, {"doors", *b.Doors, false}, {"plain", b.Plain, true},
		{"shelves", b.Shelves, 2}, {"count", b.Count == nil, true}, {"weight", b.Weight, mass.Mass(2_381_359_943)}, {"price", b.Price, money.Amount(41_000)},
		{"growth", b.Growth, schema.NewRatio(5, 4)}, {"studs", fmt.Sprint(b.Studs), "[190.5 mm 596.9 mm 1003.3 mm]"}, {"rows", fmt.Sprint(b.Rows), "[3]"},
		{"note", b.Note, "shared"}, {"left", left.Width, 300 * length.MM}, {"left toe", left.Toe, 3 * length.Inch}, {"place", left.At.String(), "bays/left"},
		{"line", left.At.Span.Line(), 16}, {"key line", b.Bays[1].At.Span.Line(), 17}, {"feet", b.Feet, feet{50 * length.MM, 4}}, {"left feet", left.Feet.Least, 50 * length.MM},
		{"raw", b.Raw.Items[1].Text, "b"}, {"size", b.Size, size{4 * length.Inch, 6*length.Inch + length.Inch/2}},
		{"plug", b.Fitting.Kind, "door-rack"}, {"plug value", b.Fitting.Value.(*feet).Many, 2}, {"no plug", left.Fitting.Kind, ""},
		{"empty plug", *right.Fitting.Value.(*tray), tray{1, length.Inch}},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

func TestMistakes(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"{}", `1:1: "name" is missing|"width" is missing; add width: 30 in`},
		{"[1]", `1:1: expected a mapping with keys such as note, name, width, depth, not a list`},
		{"wdith: 3", `1:1: the key "wdith" is not known here; did you mean "width"?`},
		{"trya: 3", `did you mean "tray"?`},
		{"width: 11 ft", `1:8: 132 in is out of range; write 0 to 10 ft`},
		{"width: -1", `out of range`},
		{"width: [3]", `1:8: expected a length, not a list`},
		{"width: yes please", `"yes please" is not a length, and no named size`},
		{"width: openin / 2", `did you mean "opening"?`},
		{"width: 1/3", `cannot be held exactly`},
		{"width: opening / 0", `divides by zero`},
		{"width: 7 / opening", `divides by a length`},
		{"width: opening * step", `multiplies two lengths`},
		{"width: 10 in / 7", `cannot be held exactly`},
		{"width: 1e309", "power of ten"},
		{"width: .nan", "1:8: "},
		{"kind: masonary", `1:7: the word "masonary" is not known here; did you mean "masonry"?`},
		{"joint: glue", `the words are dado, pocket-screw`},
		{"doors: maybe", `expected yes or no, not "maybe"`},
		{"shelves: 2.5", `1:10: expected a whole number, 0 to 20, not "2.5"`},
		{"shelves: 21", `21 is out of range; write 0 to 20`},
		{"count: 1000000000000", `out of all proportion`},
		{"weight: 5", `"5" has no unit`},
		{"load: 5 kg", `unknown unit`},
		{"price: $4", "currency sign"},
		{"growth: fast", "not a number"},
		{"studs: [1, x, -3, y]", `1:12: "x" is not a length|-3 in is out of range|1:19: "y"`},
		{"feet: {}", `"many" is missing`},
		{"size: 4 by 6", "two lengths such as 4 x 6"},
		{"tray: {}\ndoor-rack: {many: 1}", `2:1: there is a fitting here already: tray`},
		{"tray: {cuont: 1}", `did you mean "count"?`},
		{"bays: {a: {width: 1}}", `1:12: "name" is missing`},
		{"bays: 3", "expected a mapping of names"},
	} {
		_, ps := decode(t, c.in)
		var all strings.Builder
		for _, p := range ps {
			fmt.Fprintln(&all, p)
		}
		for _, want := range strings.Split(c.want, "|") {
			if !strings.Contains(all.String(), want) {
				t.Errorf("%s: got %s want %q", c.in, all.String(), want)
			}
		}
	}
}

func TestExpressions(t *testing.T) {
	const in = length.Inch
	for _, c := range []struct {
		text string
		want length.Length
	}{
		{"opening", 24 * in}, {"opening / 2", 12 * in}, {"opening/2", 12 * in}, {"2 x step", 6 * in}, {"2 * step", 6 * in}, {"step × 2", 6 * in},
		{"opening + 1/2 in", 24*in + in/2}, {"opening - 30-1/4 in", -6*in - in/4}, {"Wide step - step", 3 * in}, {"30 - 1/4", 30*in - in/4}, {"30-1/4", 30*in + in/4},
		{"1/2 x step", in + in/2}, {"1 1/2 x step", 4*in + in/2}, {"opening / 2 + 1 - 2 x step", 7 * in}, {"30 in / 4", 7*in + in/2}, {"-step", -3 * in}, {"step + 25.4 mm", 4 * in},
		{"2 x 3", 6 * in}, {"opening - step - step", 18 * in}, {"+ step", 3 * in}, {"wide-step", 6 * in},
	} {
		b, ps := decode(t, "name: n\nwidth: 1\ndepth: "+c.text)
		if len(ps) > 0 || *b.Depth != c.want {
			t.Errorf("%s: %v, want %v %v", c.text, b.Depth, c.want, ps)
		}
	}
}

// compiled gives the JSON Schema as an independent validator (santhosh-tekuri/jsonschema) reads it.
func compiled(t interface{ Fatal(...any) }) *jsonschema.Schema {
	text := schema.JSON(box{}, "box", options())
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("box.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("box.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Random mappings, right and wrong: what the reader takes, the schema takes too; and a mistake of kind,
// key, word or count is one for both.
func TestSchemaAgrees(t *testing.T) {
	s := compiled(t)
	if !bytes.Equal(schema.JSON(box{}, "box", options()), schema.JSON(&box{}, "box", options())) {
		t.Error("two makings differ")
	}
	lines := []struct {
		text string
		good bool
	}{
		{"depth: 3", true}, {"depth: 2 x step", true}, {"depth:", true}, {"depth: [1]", false}, {"depth: true", false}, {"toe_height: 4", true}, {"toe-hight: 4", false},
		{"kind: steel stud", true}, {"kind: stud", true}, {"kind: brick", false}, {"joint: dado", true}, {"joint: glue", false}, {"doors: true", true}, {"doors: no", true}, {"doors: 3", false},
		{"shelves: 3", true}, {"shelves: 21", false}, {"shelves: 2.5", false}, {"shelves: many", false}, {"weight: 1 kg", true}, {"weight: 3", false}, {"weight: {}", false},
		{"load: 40 psf", true}, {"price: 4", true}, {"price: x", false}, {"growth: 3/4", true}, {"growth: []", false}, {"studs: [1, 2 in]", true}, {"studs: 1", false}, {"rows: 1", true},
		{"rows: [1, 2]", true}, {"rows: [x]", false}, {"bays: {a: {name: b, width: 1}}", true}, {"bays: {a: {width: 1}}", false}, {"bays: [1]", false}, {"feet: {many: 1}", true},
		{"feet: {}", false}, {"raw: {x: [1]}", true}, {"sizes: {a: 1}", true}, {"sizes: {a: []}", false}, {"size: 1 x 2", true}, {"size: 3", false}, {"tray: {}", true}, {"tray:", true},
		{"door rack: {many: 1}", true}, {"door-rack: {mny: 1}", false}, {"note: x", true}, {"nothing: x", false}, {"count: 7", true}, {"count: no", false},
	}
	rapid.Check(t, func(t *rapid.T) {
		text := "name: a\nwidth: 3\n"
		good := true
		if rapid.IntRange(0, 9).Draw(t, "whole") == 0 {
			text, good = "name: a\n", false
		}
		used := map[string]bool{}
		for range rapid.IntRange(1, 6).Draw(t, "n") {
			l := rapid.SampledFrom(lines).Draw(t, "line")
			key, _, _ := strings.Cut(l.text, ":")
			if used[source.Normal(key)] {
				continue
			}
			used[source.Normal(key)] = true
			text += l.text + "\n"
			good = good && l.good
		}
		good = good && !(used["tray"] && used["door-rack"])
		n, ps := yaml.Read("f", []byte(text))
		if len(ps) > 0 {
			t.Fatal(ps)
		}
		var b box
		ps = schema.Decode(n, &b, options())
		err := s.Validate(schematest.Plain(n))
		if (len(ps) == 0) != good || (err == nil) != good {
			t.Fatalf("%swant good=%v; reader says %v; validator says %v", text, good, ps, err)
		}
	})
	n, _ := yaml.Read("f", []byte(strings.ToLower(whole))) // words in capitals are for the reader alone
	if err := s.Validate(schematest.Plain(n)); err != nil {
		t.Error(err)
	}
}

func TestHelp(t *testing.T) {
	got := schema.Help(box{}, options())
	for _, want := range []string{
		"box: One box.\n", "  width               a length, 0 to 10 ft; must be there\n", "                      width: 30 in\n",
		"  kind                one of stud, steel-stud, masonry; else stud\n", "  rows                a whole number, or a list of such\n",
		"  tray                a fitting\n                      A pull-out tray.\n", "\nfeet\n  least               a length; else 50 mm\n",
		"  size                two lengths such as 4 x 6\n", "  bays                a mapping of names, each a mapping (box)\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("help lacks %q:\n%s", want, got)
		}
	}
}

func TestRatio(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"1.25", "5/4"}, {"3/4", "3/4"}, {"1 1/4", "5/4"}, {"5 %", "1/20"}, {"-2", "-2"}, {"0", "0"},
	} {
		if r, err := schema.ParseRatio(c.in); err != nil || r.String() != c.want {
			t.Errorf("%q: %v, %v", c.in, r, err)
		}
	}
	for _, in := range []string{"", "x", "1/0", "1e9", "1 2", "1/2/3", "9999999999", "1.5 1/2", "..", "1/2 1/2"} {
		if r, err := schema.ParseRatio(in); err == nil {
			t.Errorf("%q gives %v", in, r)
		}
	}
	if got := schema.NewRatio(2, 3).Of(30 * length.MM); got != 20*length.MM {
		t.Error(got)
	}
}

func FuzzDecode(f *testing.F) {
	for _, s := range []string{whole, "width: opening / 2 + 1\n", "width: 1e309", "shelves: 99999999999999999999", "bays: {a: &x {bays: {b: *x}}}", "width: ((((", "width: '+-*/ x '"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		n, _ := yaml.Read("f", data)
		if n == nil {
			return
		}
		var b box
		ps := schema.Decode(n, &b, options())
		if len(ps) > 1000 {
			t.Errorf("%d problems", len(ps))
		}
		if b.Width.Abs() > length.Limit {
			t.Errorf("width %v", b.Width)
		}
		for _, p := range ps {
			_ = p.Excerpt()
		}
	})
}
