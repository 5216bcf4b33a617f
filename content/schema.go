package content

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"caseleaf/content/term"
)

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

// schemas are the files that have a schema, by the name the command takes.
var schemas = map[string]struct {
	title string
	make  func(*term.Vocabulary) schemaObject
}{
	"case":     {"Front matter of a case (cases/*.md)", func(v *term.Vocabulary) schemaObject { return caseFields.object(v) }},
	"decision": {"Front matter of a decision (decisions/*.md)", decisionSchema},
	"course":   {"A course (courses/*.yaml)", func(v *term.Vocabulary) schemaObject { return courseFields.object(v) }},
	"bank":     {"Settings of a bank (bank.yaml)", func(v *term.Vocabulary) schemaObject { return settingsFields.object(v) }},
	"terms":    {"Local terms of a bank (terms.yaml)", func(v *term.Vocabulary) schemaObject { return termsFields.object(v) }},
}

func decisionSchema(v *term.Vocabulary) schemaObject {
	o := decisionFields.object(v)
	o["$defs"] = treeDefinitions(v)
	return o
}

// SchemaNames lists what has a schema: bank, case, course, decision and terms.
func SchemaNames() []string {
	var names []string
	for name := range schemas {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Schema returns the JSON Schema (draft 2020-12) of one sort of file, made from
// the same description of the fields that the reader uses, with the terms of a
// vocabulary. The error is for a name that isn't in [SchemaNames].
func Schema(name string, v *term.Vocabulary) ([]byte, error) {
	s, ok := schemas[name]
	if !ok {
		return nil, fmt.Errorf("there is no schema %q; there are %s", name, listWords(SchemaNames()))
	}
	o := s.make(v)
	o["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	o["title"] = s.title
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(o); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
