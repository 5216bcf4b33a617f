package tally

import (
	"reflect"
	"strings"
)

// Schema is the JSON Schema (2020-12) of a Result's JSON form, made from the
// types themselves and the descriptions beside their fields.
func Schema() map[string]any {
	s := schemaOf(reflect.TypeFor[Result]())
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "caseleaf tally"
	s["description"] = "Rates come from the consecutive logbook only; counts and times from the cases are no rates. " +
		"Numbers are unrounded; what is absent, undefined or withheld is null."
	return s
}

// schemaOf describes one type of the result.
func schemaOf(t reflect.Type) map[string]any {
	switch t {
	case reflect.TypeFor[Number]():
		return map[string]any{"type": []string{"number", "null"}}
	case reflect.TypeFor[Count]():
		return map[string]any{"type": []string{"integer", "null"}, "minimum": 0}
	case reflect.TypeFor[Word]():
		return map[string]any{"type": []string{"string", "null"}}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return map[string]any{"anyOf": []any{map[string]any{"type": "null"}, schemaOf(t.Elem())}}
	case reflect.Slice:
		return map[string]any{"type": "array", "items": schemaOf(t.Elem())}
	case reflect.Struct:
		properties, required := map[string]any{}, []string{}
		addFields(t, properties, &required)
		return map[string]any{"type": "object", "properties": properties, "required": required, "additionalProperties": false}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Int:
		return map[string]any{"type": "integer"}
	case reflect.Float64:
		return map[string]any{"type": "number"}
	}
	return map[string]any{"type": "string"}
}

// addFields adds the fields of t, those of an embedded struct among them.
func addFields(t reflect.Type, properties map[string]any, required *[]string) {
	for i := range t.NumField() {
		f := t.Field(i)
		switch {
		case f.Anonymous:
			addFields(f.Type, properties, required)
			continue
		case !f.IsExported():
			continue
		}
		key, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		s := schemaOf(f.Type)
		if doc := f.Tag.Get("doc"); doc != "" {
			s["description"] = doc
		}
		properties[key] = s
		if options != "omitempty" {
			*required = append(*required, key)
		}
	}
}
