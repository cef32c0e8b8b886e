package planjson

import (
	"encoding/json"
	"reflect"
	"strings"
)

// Schema gives the JSON Schema (draft 2020-12) of plan.json, from the types that write it.
func Schema() []byte {
	defs := map[string]any{}
	root := object(reflect.TypeFor[File](), defs)
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["$id"] = "https://stowright.invalid/plan.schema.json"
	root["title"] = "plan.json"
	root["description"] = "A whole Stowright result. Fields are only ever added. Lengths are millimetres, masses kilograms. " +
		"Every wall has a right-handed frame: x to the right along the wall seen from the room, y towards the wall (0 at the lining's face, so the room is negative), z up from the floor at the wall's left end. " +
		"A part has a frame of its own: u along the grain from 0 to size[0], v across from 0 to size[1], w through the thickness from 0 to size[2]. " +
		"Faces: upper (w = thickness) and lower (w = 0) are worked at (u, v); start (u = 0) and end (u = length) at (v, w); near (v = 0) and far (v = width) at (u, w). " +
		"Round workings give the centre and dia; straight ones the corner nearest the face's origin and l, w along the face's first and second coordinate; depth is from the face. " +
		"Sheets: x along the sheet's first size, y along its second; pieces at their cut size."
	root["$defs"] = defs
	b, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		panic("planjson: " + err.Error())
	}
	return append(b, '\n')
}

func typeOf(t reflect.Type, defs map[string]any) map[string]any {
	switch {
	case t == reflect.TypeFor[MM]():
		return map[string]any{"type": "number", "description": "mm"}
	case t == reflect.TypeFor[Money]():
		return map[string]any{"type": "number", "description": "in the job's currency"}
	case t == reflect.TypeFor[Num]():
		return map[string]any{"type": "number"}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return map[string]any{"anyOf": []any{typeOf(t.Elem(), defs), map[string]any{"type": "null"}}}
	case reflect.Slice:
		return map[string]any{"type": "array", "items": typeOf(t.Elem(), defs)}
	case reflect.Array:
		return map[string]any{"type": "array", "items": typeOf(t.Elem(), defs), "minItems": t.Len(), "maxItems": t.Len()}
	case reflect.Map:
		return map[string]any{"type": "object", "additionalProperties": typeOf(t.Elem(), defs)}
	case reflect.Struct:
		if _, ok := defs[t.Name()]; !ok {
			defs[t.Name()] = nil // stops a type that holds itself
			defs[t.Name()] = object(t, defs)
		}
		return map[string]any{"$ref": "#/$defs/" + t.Name()}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Int:
		return map[string]any{"type": "integer"}
	case reflect.String:
		return map[string]any{"type": "string"}
	}
	panic("planjson: no schema for " + t.String())
}

func object(t reflect.Type, defs map[string]any) map[string]any {
	props := map[string]any{}
	var need []string
	for i := range t.NumField() {
		name, opt, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		props[name] = typeOf(t.Field(i).Type, defs)
		if opt == "" {
			need = append(need, name)
		}
	}
	return map[string]any{"type": "object", "properties": props, "required": need}
}
