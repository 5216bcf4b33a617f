package content

import "caseleaf/content/term"

// schemaObject is a JSON Schema (2020-12) as encoding/json writes it; map keys
// come out sorted, so the same bank gives the same bytes.
type schemaObject map[string]any

func schemaList(item schemaObject) schemaObject {
	return schemaObject{"anyOf": []any{
		schemaObject{"type": "array", "items": item},
		item,
		schemaObject{"type": "null"},
	}}
}

// object gives the JSON Schema of a shape.
func (s *shape[T]) object(v *term.Vocabulary) schemaObject {
	properties := schemaObject{}
	var required []string
	for _, f := range s.fields {
		properties[f.key] = f.property(v)
		if f.required {
			required = append(required, f.key)
		}
	}
	o := schemaObject{"type": "object", "description": s.doc, "properties": properties, "additionalProperties": false}
	if required != nil {
		o["required"] = required
	}
	return o
}

func (f *field[T]) property(v *term.Vocabulary) schemaObject {
	base := f.schema(v)
	var forms []any
	if f.unknown {
		forms = append(forms, schemaObject{"const": "unknown"})
	}
	if f.none {
		forms = append(forms, schemaObject{"const": "none"})
	}
	if !f.required {
		forms = append(forms, schemaObject{"type": "null"})
	}
	out := schemaObject{"description": f.doc}
	if forms == nil {
		for k, val := range base {
			if k != "description" {
				out[k] = val
			}
		}
	} else {
		out["anyOf"] = append([]any{base}, forms...)
	}
	if f.example != "" {
		out["examples"] = []any{f.example}
	}
	return out
}
