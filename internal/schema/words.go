package schema

import (
	"reflect"
	"strings"
)

// says tells in a maker's words what may be written for a type.
func says(t reflect.Type, r rules) string {
	t = base(t)
	k := kindOf(t)
	if k == kindCustom {
		return reflect.New(t).Interface().(Custom).Words()
	}
	w := map[kind]string{
		kindLength: "a length", kindMass: "a weight", kindPerArea: "a load on an area", kindMoney: "a price", kindRatio: "a number or fraction",
		kindNode: "anything", kindString: "a text", kindBool: "yes or no", kindInt: "a whole number", kindStruct: "a mapping",
	}[k]
	switch k {
	case kindString:
		if words := wordsOf(t, r); words != nil {
			return "one of " + strings.Join(words, ", ")
		}
	case kindStruct:
		if name := typeName(t); name != "" {
			w = "a mapping (" + strings.ReplaceAll(name, "-", " ") + ")"
		}
	case kindList:
		return "a list, each " + says(t.Elem(), r)
	case kindOneOrMany:
		return says(t.Elem(), r) + ", or a list of such"
	case kindMap:
		return "a mapping of names, each " + says(entryType(t), r)
	}
	switch s := r.span(); {
	case s != "" && r.min == r.max:
		w += ", " + r.min
	case s != "":
		w += ", " + s
	}
	return w
}

// entryType gives the type of the values of a Map.
func entryType(t reflect.Type) reflect.Type {
	f, _ := t.Elem().FieldByName("Value")
	return f.Type
}

// typeName gives a type's name in kebab-case, without the names of type parameters; "" when it has none.
func typeName(t reflect.Type) string {
	name, _, _ := strings.Cut(t.Name(), "[")
	var b strings.Builder
	for i, c := range name {
		if 'A' <= c && c <= 'Z' {
			if i > 0 {
				b.WriteByte('-')
			}
			c += 'a' - 'A'
		}
		b.WriteRune(c)
	}
	return b.String()
}
