package content_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"path"
	"testing"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/diagnose"
	"caseleaf/content/front"
	"caseleaf/content/term"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
)

func compile(t *testing.T, name string, v *term.Vocabulary) *jsonschema.Schema {
	t.Helper()
	data, err := content.Schema(name, v)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(name+".json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(name + ".json")
	if err != nil {
		t.Fatalf("schema %s: %v", name, err)
	}
	return s
}

// instance reads a file's front matter as an editor's YAML reader would.
func instance(t *testing.T, files fs.FS, name string) (any, bool) {
	t.Helper()
	data, err := fs.ReadFile(files, name)
	if err != nil {
		t.Fatal(err)
	}
	bag := diagnose.NewBag()
	src, _ := front.Normalise(name, data, bag)
	text := src.Data
	if path.Ext(name) == ".md" {
		doc, ok := front.Split(src, bag)
		if !ok {
			return nil, false
		}
		text = doc.Front
	}
	var v any
	if err := yaml.Unmarshal(text, &v); err != nil {
		return nil, false
	}
	asJSON, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	out, err := jsonschema.UnmarshalJSON(bytes.NewReader(asJSON))
	if err != nil {
		t.Fatal(err)
	}
	return out, true
}

var schemaFiles = []struct{ glob, schema string }{
	{"bank.yaml", "bank"}, {"terms.yaml", "terms"}, {"cases/*.md", "case"}, {"decisions/*.md", "decision"}, {"courses/*.yaml", "course"},
}

// Every file of the banks that have nothing to mend passes the schema.
func TestSchemaAccepts(t *testing.T) {
	for name, files := range map[string]fs.FS{"casebank": casebank.FS(), "second-specialty": os.DirFS("../testdata/second-specialty")} {
		bank, _, err := content.Read(files)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range schemaFiles {
			s := compile(t, f.schema, bank.Vocabulary)
			matches, _ := fs.Glob(files, f.glob)
			for _, m := range matches {
				if v, ok := instance(t, files, m); !ok {
					t.Errorf("%s/%s can't be read", name, m)
				} else if err := s.Validate(v); err != nil {
					t.Errorf("%s/%s: %v", name, m, err)
				}
			}
		}
	}
}

// Faults that lie in the form of one value fail the schema as they fail the
// reader.
func TestSchemaRefuses(t *testing.T) {
	files := os.DirFS("../testdata/faulty")
	bank, _, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	for file, schema := range map[string]string{
		"bank.yaml":                "bank",     // unknown key
		"cases/ft-001.md":          "case",     // unknown unit, unknown term
		"cases/ft-002.md":          "case",     // missing title, exact age, two kinds in one entry
		"courses/bench-day.yaml":   "course",   // 25:00
		"decisions/small-pupil.md": "decision", // value 140
	} {
		v, ok := instance(t, files, file)
		if !ok {
			continue // a YAML reader already refuses it
		}
		if err := compile(t, schema, bank.Vocabulary).Validate(v); err == nil {
			t.Errorf("%s passes the schema", file)
		}
	}
}
