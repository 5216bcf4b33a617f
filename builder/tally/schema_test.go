package tally_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"caseleaf/builder/tally"
	"caseleaf/content"
)

// form turns a value into what a JSON reader sees.
func form(t *testing.T, v any) any {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	out, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestResultsFollowTheSchema: what is written validates, and what is not of the
// form does not.
func TestResultsFollowTheSchema(t *testing.T) {
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource("tally.json", form(t, tally.Schema())); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile("tally.json")
	if err != nil {
		t.Fatal(err)
	}
	all := tally.Of(&content.Bank{}, threeCases(t))
	for name, r := range map[string]*tally.Result{
		"cases": all, "admissions": admissions().Result(tally.Settings{}),
		"published": admissions().Result(tally.Settings{Threshold: 30}).Published(),
	} {
		if err := schema.Validate(form(t, r)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	broken := form(t, all).(map[string]any)
	delete(broken, "onsets")
	if schema.Validate(broken) == nil {
		t.Error("a result without onsets validates")
	}
}
