// Package schema turns one declaration, a Go struct with tags, into three things that can
// not drift apart: a strict reader of job files, a JSON Schema for editors, and help in
// the maker's words. It knows lengths, weights and prices; what the values mean together
// is left to package job.
//
// A field is declared by its tags:
//
//	job:"name" or job:"name,required"   the key, kebab-case; a file may write spaces or underscores for the dashes; "-" is no key
//	doc:"one sentence"                  for help and for editors
//	one:"stud|masonry"                  the words that a text may be
//	default:"3 in"                      read like a value from the file when the key is absent; a length needs its unit here
//	min:"0" max:"8"                     bounds, both allowed, of the value, or of each value of a list
//	eg:"30 1/4 in"                      an example
//
// Types of fields: [length.Length], [mass.Mass], [mass.PerArea], [money.Amount], [Ratio], string, bool, int, named kinds of
// these, pointers to all of these (nil when not stated), structs, slices, [Map], [OneOrMany], *[source.Node] (kept as
// written, for a second reading), [Plug], [Place], and whatever is a [Custom]. An embedded struct gives its fields to the
// mapping that it is embedded in.
package schema

import (
	"fmt"
	"reflect"
	"strings"

	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/money"
	"stowright/internal/source"
)

// Options is what reading depends on beside the file.
type Options struct {
	Unit  length.Unit              // of bare numbers
	Sizes map[string]length.Length // named sizes for expressions, by their source.Normal spelling
	Plugs map[string][]PlugKind    // by the name of the socket, the plug tag of a field
}

// PlugKind is a kind of thing that fits a socket: its name is a key of the mapping that has the Plug.
type PlugKind struct {
	Name string     // kebab-case
	Doc  string     // one sentence
	New  func() any // gives a pointer to a struct, or a Custom, with what is there unless the file says otherwise
}

// Plug is a field that takes one of the kinds of Options.Plugs[name], declared as
// `plug:"name"` or `plug:"name,required"`. Its zero value is none.
type Plug struct {
	Kind  string // name of the kind, "" for none
	Value any    // what the kind's New gave, with the file's values read into it
	At    Place
}

// Place says where a value was written.
type Place struct {
	Path source.Path
	Span source.Span
}

// String gives the path.
func (p Place) String() string { return p.Path.String() }

// Map is a mapping with keys that the maker chooses, in the order of the file.
type Map[T any] []Entry[T]

// Entry is one entry of a Map.
type Entry[T any] struct {
	Key   string // as written
	At    Place
	Value T
}

// Get gives the value of a key, compared by source.Normal spelling.
func (m Map[T]) Get(key string) (value T, ok bool) {
	for _, e := range m {
		if source.Normal(e.Key) == source.Normal(key) {
			return e.Value, true
		}
	}
	return value, false
}

// Keys gives the keys in order.
func (m Map[T]) Keys() []string {
	var r []string
	for _, e := range m {
		r = append(r, e.Key)
	}
	return r
}

func (Map[T]) isMap() {}

// OneOrMany is a list that may also be written as its only item.
type OneOrMany[T any] []T

func (OneOrMany[T]) isOneOrMany() {}

// Custom is a type that reads itself. The methods are on the pointer.
type Custom interface {
	// Decode reads the value; mistakes go to c.
	Decode(n *source.Node, c *Context)
	// Schema gives the JSON Schema; s gives those of other types.
	Schema(s *Sketch) Shape
	// Words says in a maker's words what may be written, for help and for messages: "a number, or a list of heights".
	Words() string
}

// Worded is a text type that lists its words itself, so that no field repeats them in a one tag.
type Worded interface{ Words() []string }

// Documented is a struct that says in one sentence what it is.
type Documented interface{ Doc() string }

type (
	mapping   interface{ isMap() }
	oneOrMany interface{ isOneOrMany() }
)

// kind is how a Go type is read.
type kind uint8

const (
	kindCustom kind = iota
	kindLength
	kindMass
	kindPerArea
	kindMoney
	kindRatio
	kindNode
	kindString
	kindBool
	kindInt
	kindStruct
	kindList
	kindOneOrMany
	kindMap
)

// kindOf gives how a type is read, pointers taken off; it panics on a type that no file can fill.
func kindOf(t reflect.Type) kind {
	return kindsRead.Of(t, newKind)
}

var kindsRead PerType[kind]

func newKind(t reflect.Type) kind {
	switch {
	case reflect.PointerTo(t).Implements(reflect.TypeFor[Custom]()):
		return kindCustom
	case t == reflect.TypeFor[length.Length]():
		return kindLength
	case t == reflect.TypeFor[mass.Mass]():
		return kindMass
	case t == reflect.TypeFor[mass.PerArea]():
		return kindPerArea
	case t == reflect.TypeFor[money.Amount]():
		return kindMoney
	case t == reflect.TypeFor[Ratio]():
		return kindRatio
	case t == reflect.TypeFor[source.Node]():
		return kindNode
	case t.Implements(reflect.TypeFor[mapping]()):
		return kindMap
	case t.Implements(reflect.TypeFor[oneOrMany]()):
		return kindOneOrMany
	}
	switch t.Kind() {
	case reflect.String:
		return kindString
	case reflect.Bool:
		return kindBool
	case reflect.Int:
		return kindInt
	case reflect.Struct:
		return kindStruct
	case reflect.Slice:
		return kindList
	}
	panic("schema: no file can fill a " + t.String())
}

// base takes pointers off a type.
func base(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return t
}

// rules is what a field's tags say about its values.
type rules struct {
	words    []string
	min, max string
}

// field is one key of a struct.
type field struct {
	name     string
	index    []int
	typ      reflect.Type
	required bool
	doc      string
	fallback string
	example  string
	rules
}

// socket is a Plug field of a struct.
type socket struct {
	name     string
	index    []int
	required bool
}

// form is a struct as the tags declare it.
type form struct {
	fields  []field
	sockets []socket
	at      []int // index of the Place field, nil when there is none
}

// formOf reads the tags of a struct, once for each. A declaration that is wrong is a bug and panics.
func formOf(t reflect.Type) form {
	return forms.Of(t, newForm)
}

var forms PerType[form]

func newForm(t reflect.Type) form {
	var f form
	f.add(t, nil)
	seen := map[string]bool{}
	for _, x := range f.fields {
		if seen[x.name] {
			panic(fmt.Sprintf("schema: %v has the key %q twice", t, x.name))
		}
		seen[x.name] = true
	}
	return f
}

func (f *form) add(t reflect.Type, index []int) {
	for i := range t.NumField() {
		sf := t.Field(i)
		at := append(index[:len(index):len(index)], i)
		tag, tagged := sf.Tag.Lookup("job")
		plug, isPlug := sf.Tag.Lookup("plug")
		switch {
		case tag == "-":
		case sf.Anonymous && !tagged && sf.Type.Kind() == reflect.Struct:
			f.add(sf.Type, at)
		case !sf.IsExported():
		case sf.Type == reflect.TypeFor[Place]():
			if f.at == nil || len(at) < len(f.at) {
				f.at = at
			}
		case isPlug:
			if sf.Type != reflect.TypeFor[Plug]() {
				panic(fmt.Sprintf("schema: %v.%s has a plug tag and is no Plug", t, sf.Name))
			}
			name, opt, _ := strings.Cut(plug, ",")
			f.sockets = append(f.sockets, socket{name, at, opt == "required"})
		case !tagged:
			panic(fmt.Sprintf("schema: %v.%s has no job tag", t, sf.Name))
		default:
			name, opt, _ := strings.Cut(tag, ",")
			if name == "" || name != source.Normal(name) || opt != "" && opt != "required" {
				panic(fmt.Sprintf("schema: %v.%s has the job tag %q", t, sf.Name, tag))
			}
			x := field{
				name: name, index: at, typ: sf.Type, required: opt == "required",
				doc: sf.Tag.Get("doc"), fallback: sf.Tag.Get("default"), example: sf.Tag.Get("eg"),
				rules: rules{min: sf.Tag.Get("min"), max: sf.Tag.Get("max")},
			}
			if one := sf.Tag.Get("one"); one != "" {
				x.words = strings.Split(one, "|")
			}
			f.fields = append(f.fields, x)
		}
	}
}

// wordsOf gives the words that a text type or its field's tag allow; nil for any.
func wordsOf(t reflect.Type, r rules) []string {
	if r.words != nil {
		return r.words
	}
	if w, ok := reflect.New(t).Interface().(Worded); ok {
		return w.Words()
	}
	return nil
}
