package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"stowright/internal/fitting"
	"stowright/internal/schema"
	"stowright/internal/source"
)

func typeFor[T any]() reflect.Type { return reflect.TypeFor[T]() }

// names are the names that a job may use, by section: "boards", "hardware/hinge".
type names map[string][]string

// gather lists what is named in a tree.
func gather(t *source.Node) names {
	n := names{}
	for _, e := range t.Entries {
		s := source.Normal(e.Key)
		if e.Value.Kind == source.Map {
			for _, x := range e.Value.Entries {
				n[s] = append(n[s], x.Key)
				if s == "hardware" {
					k := "hardware/" + text(x.Value.Get("kind"))
					n[k] = append(n[k], x.Key)
				}
				if s == "walls" {
					for _, o := range entries(x.Value.Get("openings")) {
						n["openings"] = append(n["openings"], o.Key)
					}
				}
			}
		}
		if s == "stages" {
			for _, x := range e.Value.Items {
				n[s] = append(n[s], text(x.Get("id")))
			}
		}
	}
	return n
}

// singular says what a section's entries are called in a message.
var singular = map[string]string{
	"boards": "board", "sticks": "stick", "edgings": "edging", "hardware": "hardware", "materials": "material", "species": "species",
	"goods": "goods", "containers": "container", "practices": "practice", "families": "family", "patterns": "pattern", "cases": "case",
	"runs": "run", "counters": "counter", "standing": "standing case", "machines": "machine", "stages": "stage", "walls": "wall",
	"openings": "opening", "hutches": "hutch", "bases": "base",
}

// usual are the keys of fittings that name stock, for fields without a names tag of their own.
var usual = map[string]string{
	"board": "boards", "stick": "sticks", "slide": "hardware/slide", "handle": "hardware/handle", "rail": "hardware", "flange": "hardware/rail-flange", "edging": "edgings",
}

// walk looks at every value whose field has a names tag, through a tree read as a type.
func (n names) walk(r *reader, t reflect.Type, v *source.Node) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if v == nil || v.Kind == source.Null {
		return
	}
	switch k := namingOf(t); {
	case k.entry != nil:
		for _, e := range v.Entries {
			n.walk(r, k.entry, e.Value)
		}
	case k.item != nil && v.Kind == source.List:
		for _, i := range v.Items {
			n.walk(r, k.item, i)
		}
	case k.item != nil:
		n.walk(r, k.item, v)
	case v.Kind == source.Map:
		n.fields(r, k, v, false)
	}
}

// namings are what of a type leads on to what is named.
type namings struct {
	entry, item reflect.Type // of a mapping and of a list
	fields      []nameField  // of a structure
}

type nameField struct {
	key, of, plug string
	usual         string // the section, in a fitting, of a key without a names tag
	typ           reflect.Type
}

// namingOf reads the tags of a type, once for each.
func namingOf(t reflect.Type) namings {
	return naming.Of(t, newNaming)
}

var naming schema.PerType[namings]

func newNaming(t reflect.Type) (k namings) {
	if reflect.PointerTo(t).Implements(reflect.TypeFor[schema.Custom]()) || t == reflect.TypeFor[schema.Place]() || t == reflect.TypeFor[source.Node]() {
		return k
	}
	switch t.Kind() {
	case reflect.Slice:
		if _, is := reflect.New(t).Interface().(interface{ Keys() []string }); is {
			f, _ := t.Elem().FieldByName("Value")
			return namings{entry: f.Type}
		}
		return namings{item: t.Elem()}
	case reflect.Struct:
		for i := range t.NumField() {
			f := t.Field(i)
			tag, tagged := f.Tag.Lookup("job")
			key, _, _ := strings.Cut(tag, ",")
			where, isPlug := f.Tag.Lookup("plug")
			switch {
			case isPlug:
				k.fields = append(k.fields, nameField{plug: where})
			case f.Anonymous && !tagged:
				k.fields = append(k.fields, nameField{typ: f.Type})
			case f.IsExported() && key != "" && key != "-":
				x := nameField{key: key, of: f.Tag.Get("names"), typ: f.Type}
				if f.Type.Kind() == reflect.String {
					x.usual = usual[key]
				}
				if x.of != "" || x.usual != "" || leads(f.Type) {
					k.fields = append(k.fields, x)
				}
			}
		}
	}
	return k
}

// leads tells whether a type may hold fields of its own.
func leads(t reflect.Type) bool {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return t.Kind() == reflect.Struct || t.Kind() == reflect.Slice
}

func (n names) fields(r *reader, k namings, v *source.Node, inFitting bool) {
	for _, f := range k.fields {
		if f.plug != "" {
			n.plug(r, f.plug, v)
			continue
		}
		if f.key == "" {
			n.walk(r, f.typ, v)
			continue
		}
		value := v.Get(f.key)
		if value == nil {
			continue
		}
		of := f.of
		if of == "" && inFitting {
			of = f.usual
		}
		if of != "" {
			n.known(r, of, value)
			continue
		}
		n.walk(r, f.typ, value)
	}
}

func (n names) plug(r *reader, where string, v *source.Node) {
	where, _, _ = strings.Cut(where, ",")
	for _, e := range v.Entries {
		if k, ok := r.kinds.Find(source.Normal(e.Key), fitting.Where(where)); ok {
			if e.Value.Kind == source.Map {
				n.fields(r, namingOf(reflect.TypeOf(k.New()).Elem()), e.Value, true)
			}
		}
	}
}

// known reports a text, or each of a list, that names nothing.
func (n names) known(r *reader, of string, v *source.Node) {
	if v.Kind == source.List {
		for _, i := range v.Items {
			n.known(r, of, i)
		}
		return
	}
	word := text(v)
	if word == "" {
		return
	}
	var all, what []string
	for _, s := range strings.Split(of, "|") {
		if w, is := strings.CutPrefix(s, "="); is {
			all = append(all, w)
			continue
		}
		all = append(all, n[s]...)
		section, kind, _ := strings.Cut(s, "/")
		w := singular[section]
		if kind != "" {
			w = kind
		}
		what = append(what, w)
	}
	first, _, _ := strings.Cut(word, "/") // "case/bay"
	if slices.Contains(all, word) || strings.Contains(of, "=floor") && slices.Contains(all, first) {
		return
	}
	label := strings.Join(what, " or ")
	if label == "" {
		label = "word"
	}
	for _, a := range all {
		if source.Normal(a) == source.Normal(word) {
			r.fail(v.Span, fmt.Sprintf("the %s is written %q", label, a), fmt.Sprintf("write %q here too", a))
			return
		}
	}
	if section, kind, is := strings.Cut(of, "/"); is && !strings.Contains(of, "|") && slices.Contains(n[section], word) {
		r.fail(v.Span, fmt.Sprintf("%q is no %s", short(word), kind), choices(word, all))
		return
	}
	r.fail(v.Span, fmt.Sprintf("there is no %s %q", label, short(word)), choices(word, all))
}

// choices says what may be written instead.
func choices(word string, all []string) string {
	if len(all) == 0 {
		return "the job names none"
	}
	if near := source.Nearest(word, all); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	seen := map[string]bool{"": true}
	all = slices.DeleteFunc(slices.Clone(all), func(s string) bool { was := seen[s]; seen[s] = true; return was })
	if len(all) > 12 {
		return "there are " + strings.Join(all[:12], ", ") + " and more"
	}
	return "there are " + strings.Join(all, ", ")
}

// refer checks every name in the job and its merged cases.
func (r *reader) refer() {
	r.names.walk(r, typeFor[File](), without(r.tree, "cases", "patterns"))
	for _, c := range r.cases {
		r.names.walk(r, typeFor[Case](), c.tree)
	}
}
