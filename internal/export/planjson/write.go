package planjson

import (
	"math"
	"reflect"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"
)

// encode writes a value as the standard library's encoding does with an indent of one space, which would make the core for
// WebAssembly a twentieth larger (decision 0007); a test holds one against the other.
func encode(v any) []byte {
	e := encoder{}
	e.value(reflect.ValueOf(v), "\n")
	return e.out
}

// number is what writes itself.
type number interface{ MarshalJSON() ([]byte, error) }

type encoder struct{ out []byte }

func (e *encoder) put(s string) { e.out = append(e.out, s...) }

// value writes a value; line is the break and the indent that what is around it stands at.
func (e *encoder) value(v reflect.Value, line string) {
	if v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface {
		if v.IsNil() {
			e.put("null")
			return
		}
	}
	if n, ok := v.Interface().(number); ok {
		b, err := n.MarshalJSON()
		if err != nil {
			panic("planjson: " + err.Error())
		}
		e.put(string(b))
		return
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		e.value(v.Elem(), line)
	case reflect.Bool:
		e.put(strconv.FormatBool(v.Bool()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		e.put(strconv.FormatInt(v.Int(), 10))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		e.put(strconv.FormatUint(v.Uint(), 10))
	case reflect.Float64:
		e.put(float(v.Float()))
	case reflect.String:
		e.text(v.String())
	case reflect.Slice, reflect.Array:
		if v.Kind() == reflect.Slice && v.IsNil() {
			e.put("null")
			return
		}
		e.row("[", "]", line, v.Len(), func(i int, in string) { e.value(v.Index(i), in) })
	case reflect.Map:
		if v.IsNil() {
			e.put("null")
			return
		}
		var keys []string
		for _, k := range v.MapKeys() {
			keys = append(keys, k.String())
		}
		sort.SliceStable(keys, func(a, b int) bool { return keys[a] < keys[b] })
		e.row("{", "}", line, len(keys), func(i int, in string) {
			e.text(keys[i])
			e.put(": ")
			e.value(v.MapIndex(reflect.ValueOf(keys[i]).Convert(v.Type().Key())), in)
		})
	case reflect.Struct:
		var names []string
		var fields []reflect.Value
		for i := range v.NumField() {
			name, opt, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			if name == "" {
				panic("planjson: " + v.Type().String() + "." + v.Type().Field(i).Name + " has no name")
			}
			if f := v.Field(i); opt != "omitempty" || !empty(f) {
				names, fields = append(names, name), append(fields, f)
			}
		}
		e.row("{", "}", line, len(names), func(i int, in string) {
			e.text(names[i])
			e.put(": ")
			e.value(fields[i], in)
		})
	default:
		panic("planjson: cannot write " + v.Type().String())
	}
}

func (e *encoder) row(open, end, line string, n int, item func(i int, in string)) {
	e.put(open)
	for i := range n {
		if i > 0 {
			e.put(",")
		}
		e.put(line + " ")
		item(i, line+" ")
	}
	if n > 0 {
		e.put(line)
	}
	e.put(end)
}

func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}

// float writes a number as ECMAScript does.
func float(f float64) string {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		panic("planjson: not a number")
	}
	if a := math.Abs(f); a != 0 && (a < 1e-6 || a >= 1e21) {
		s := strconv.FormatFloat(f, 'e', -1, 64)
		if n := len(s); n >= 4 && s[n-4] == 'e' && (s[n-3] == '-' || s[n-3] == '+') && s[n-2] == '0' {
			s = s[:n-2] + s[n-1:] // e-09 to e-9
		}
		return s
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}

// text writes a text in quotes; what a page could take for its own marks is escaped.
func (e *encoder) text(s string) {
	const hex = "0123456789abcdef"
	e.put(`"`)
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == '"' || r == '\\':
			e.put(`\` + string(r))
		case r == '\b':
			e.put(`\b`)
		case r == '\f':
			e.put(`\f`)
		case r == '\n':
			e.put(`\n`)
		case r == '\r':
			e.put(`\r`)
		case r == '\t':
			e.put(`\t`)
		case r < ' ' || r == '<' || r == '>' || r == '&':
			e.put(`\u00` + string(hex[r>>4]) + string(hex[r&15]))
		case r == 0x2028 || r == 0x2029:
			e.put(`\u202` + string(hex[r&15]))
		case r == utf8.RuneError && n == 1:
			e.put(`\ufffd`)
		default:
			e.put(s[i : i+n])
		}
		i += n
	}
	e.put(`"`)
}
