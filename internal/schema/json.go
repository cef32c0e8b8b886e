package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Shape is a JSON Schema, or a part of one.
type Shape = map[string]any

// Sketch collects the schemas of named types while one is made.
type Sketch struct {
	options Options
	defs    Shape
	names   map[reflect.Type]string
}

// JSON gives the JSON Schema (draft 2020-12) of what v points to or is, under a title. The same declaration gives
// the same bytes. It accepts whatever Decode accepts, but that keys and words must be in lower case; Decode checks more, such as lengths.
func JSON(v any, title string, o Options) []byte {
	s := &Sketch{options: o, defs: Shape{}, names: map[reflect.Type]string{}}
	root := s.of(base(reflect.TypeOf(v)), rules{})
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = title
	if len(s.defs) > 0 {
		root["$defs"] = s.defs
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(root); err != nil { // maps of plain values always encode
		panic(err)
	}
	return b.Bytes()
}

// Of gives the schema of the type of v.
func (s *Sketch) Of(v any) Shape { return s.of(base(reflect.TypeOf(v)), rules{}) }

// AnyOf gives the schema of a value that fits one of several.
func AnyOf(shapes ...Shape) Shape { return Shape{"anyOf": shapes} }

func (s *Sketch) of(t reflect.Type, r rules) Shape {
	t = base(t)
	switch kindOf(t) {
	case kindCustom:
		return s.ref(t, func() Shape { return reflect.New(t).Interface().(Custom).Schema(s) })
	case kindStruct:
		return s.ref(t, func() Shape { return s.structure(t) })
	case kindLength:
		return s.named("length", Shape{
			"type": []string{"number", "string"}, "pattern": "^\\s*[-+−–(]?\\s*[^\\s!-\\-/:-@\\[-`{-~]",
			"description": `A length: 30 1/4 in, 2' 6", 762 mm, a bare number in the job's unit, or named sizes: opening / 2 + 1/4 in.`,
		})
	case kindMass:
		return s.named("weight", Shape{"type": "string", "pattern": `^\s*[.0-9]`, "description": "A weight: 0.95 lb, 5 lb 4 oz, 1.2 kg, 430 g."})
	case kindPerArea:
		return s.named("load-on-area", Shape{"type": "string", "pattern": `^\s*[.0-9]`, "description": "A load on an area: 40 psf, 195 kg/m2."})
	case kindMoney:
		return s.named("price", Shape{"type": []string{"number", "string"}, "pattern": `^\s*-?[0-9]+(\.[0-9]+)?\s*$`, "description": "A price in the job's currency: 94, 4.10."})
	case kindRatio:
		return s.named("fraction", Shape{"type": []string{"number", "string"}, "pattern": `^\s*-?\s*[.0-9]`, "description": "A number or fraction: 1.25, 3/4, 5 %."})
	case kindNode:
		return Shape{}
	case kindBool:
		return s.named("yes-or-no", AnyOf(Shape{"type": "boolean"}, Shape{"type": "string", "pattern": "^([Yy][Ee][Ss]|[Nn][Oo]|[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee]|[Oo][Nn]|[Oo][Ff][Ff])$"}))
	case kindInt:
		n := Shape{"type": "integer", "minimum": -maxWhole, "maximum": maxWhole}
		if r.min != "" {
			n["minimum"] = must(strconv.Atoi(r.min))
		}
		if r.max != "" {
			n["maximum"] = must(strconv.Atoi(r.max))
		}
		return n
	case kindString:
		words := wordsOf(t, r)
		if words == nil {
			return Shape{"type": []string{"string", "number", "boolean"}}
		}
		one := Shape{"enum": words}
		var spellings []Shape
		for _, w := range words {
			if strings.Contains(w, "-") {
				spellings = append(spellings, Shape{"type": "string", "pattern": spelling(w)})
			}
		}
		if spellings == nil {
			return one
		}
		return AnyOf(append([]Shape{one}, spellings...)...)
	case kindList:
		return Shape{"type": "array", "items": s.of(t.Elem(), r)}
	case kindOneOrMany:
		one := s.of(t.Elem(), r)
		return AnyOf(one, Shape{"type": "array", "items": one})
	case kindMap:
		value := s.of(entryType(t), r)
		if kindOf(base(entryType(t))) == kindStruct {
			value = orNull(value)
		}
		return Shape{"type": "object", "additionalProperties": value}
	}
	panic("unreachable")
}

// spelling gives the pattern of a word or key in all its spellings.
func spelling(word string) string { return "^" + strings.ReplaceAll(word, "-", "[-_ ]+") + "$" }

// named puts a schema under a fixed name.
func (s *Sketch) named(name string, shape Shape) Shape {
	s.defs[name] = shape
	return Shape{"$ref": "#/$defs/" + name}
}

// ref puts the schema of a type under its name, once, so that types may hold themselves.
func (s *Sketch) ref(t reflect.Type, make func() Shape) Shape {
	name, known := s.names[t]
	if !known {
		name = typeName(t)
		if name == "" {
			name = "mapping"
		}
		for i := 2; s.defs[name] != nil; i++ {
			name = strings.TrimRight(name, "-0123456789") + "-" + strconv.Itoa(i)
		}
		s.names[t] = name
		s.defs[name] = Shape{} // holds the name while the type is made
		s.defs[name] = make()
	}
	return Shape{"$ref": "#/$defs/" + name}
}

// orNull lets a value be left empty.
func orNull(shape Shape) Shape { return AnyOf(shape, Shape{"type": "null"}) }

func (s *Sketch) structure(t reflect.Type) Shape {
	f := formOf(t)
	shape := Shape{"type": "object", "additionalProperties": false}
	if d, ok := reflect.New(t).Interface().(Documented); ok {
		shape["description"] = d.Doc()
	}
	properties, patterns := Shape{}, Shape{}
	var required []string
	var all []Shape
	put := func(name string, p Shape) {
		properties[name] = p
		if strings.Contains(name, "-") {
			patterns[spelling(name)] = p
		}
	}
	for _, x := range f.fields {
		p := s.of(x.typ, x.rules)
		if !x.required && kindOf(base(x.typ)) != kindNode {
			p = orNull(p)
		}
		if x.doc != "" {
			p["description"] = x.doc
		}
		if x.fallback != "" {
			p["default"] = x.fallback
		}
		if x.example != "" {
			p["examples"] = []string{x.example}
		}
		put(x.name, p)
		if x.required && x.fallback == "" {
			if strings.Contains(x.name, "-") {
				all = append(all, present(x.name))
			} else {
				required = append(required, x.name)
			}
		}
	}
	for _, k := range f.sockets {
		var each []Shape
		for _, p := range s.options.Plugs[k.name] {
			shape := orNull(s.of(reflect.TypeOf(p.New()), rules{}))
			shape["description"] = p.Doc
			put(p.Name, shape)
			each = append(each, present(p.Name))
		}
		if len(each) == 0 {
			continue
		}
		one := []Shape{{"oneOf": each}}
		if !k.required {
			one = append(one, Shape{"not": Shape{"anyOf": each}})
		}
		all = append(all, Shape{"anyOf": one})
	}
	shape["properties"] = properties
	if len(patterns) > 0 {
		shape["patternProperties"] = patterns
	}
	if required != nil {
		shape["required"] = required
	}
	if all != nil {
		shape["allOf"] = all
	}
	return shape
}

// present gives the schema of a mapping that has a key in one of its spellings.
func present(name string) Shape {
	if !strings.Contains(name, "-") {
		return Shape{"required": []string{name}}
	}
	return AnyOf(Shape{"required": []string{name}}, Shape{"required": []string{strings.ReplaceAll(name, "-", " ")}}, Shape{"required": []string{strings.ReplaceAll(name, "-", "_")}})
}

// Help gives plain text about what v points to or is: each key with what may be written, its default, what it means and
// an example; then the mappings that it holds, each once.
func Help(v any, o Options) string {
	var b strings.Builder
	queue := []reflect.Type{base(reflect.TypeOf(v))}
	for i := 0; i < len(queue); i++ {
		t := queue[i]
		if kindOf(t) != kindStruct {
			continue
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		f := formOf(t)
		title := strings.ReplaceAll(typeName(t), "-", " ")
		if d, ok := reflect.New(t).Interface().(Documented); ok {
			title += ": " + d.Doc()
		}
		fmt.Fprintln(&b, title)
		f.help(&b, o)
		for _, x := range f.fields {
			if in := inner(x.typ); in != nil && !slices.Contains(queue, in) {
				queue = append(queue, in)
			}
		}
	}
	return b.String()
}

func (f form) help(b *strings.Builder, o Options) {
	for _, x := range f.fields {
		what := says(x.typ, x.rules)
		switch {
		case x.required:
			what += "; must be there"
		case x.fallback != "":
			what += "; else " + x.fallback
		}
		line(b, x.name, what)
		if x.doc != "" {
			line(b, "", x.doc)
		}
		if x.example != "" {
			line(b, "", x.name+": "+x.example)
		}
	}
	for _, s := range f.sockets {
		for _, p := range o.Plugs[s.name] {
			line(b, p.Name, "a "+s.name)
			line(b, "", p.Doc)
		}
	}
}

// helpMargin is where what is said about a key starts.
const helpMargin = 22

func line(b *strings.Builder, key, text string) {
	if len(key) > helpMargin-4 {
		fmt.Fprintf(b, "  %s\n", key)
		key = ""
	}
	fmt.Fprintf(b, "  %-*s%s\n", helpMargin-2, key, text)
}

// inner gives the struct that a type holds, nil when it holds none.
func inner(t reflect.Type) reflect.Type {
	t = base(t)
	switch kindOf(t) {
	case kindStruct:
		return t
	case kindList, kindOneOrMany:
		return inner(t.Elem())
	case kindMap:
		return inner(entryType(t))
	}
	return nil
}
