package diagnose_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"caseleaf/content/diagnose"
)

// sample holds one of everything: names that need coding, a related place, a
// whole file, no file, a line that must not be shown.
func sample() diagnose.Diagnostics {
	bag := diagnose.NewBag()
	a := diagnose.NewSource("cases/Teaching #1, 50% done.md", []byte("---\ntitle: <b> & \"é\"\neye: rihgt\n"))
	b := diagnose.NewSource("a:b.md", nil)
	bag.Error("unknown-key", a.Span(3, 1, 3), "unknown key %q", "eye").Suggest("eyes").Also(a.Span(2, 8, 3), "an earlier one")
	bag.Warn("curly-quotes", a.Span(2, 8, 9), "<b> & é are kept")
	bag.Note("separator", diagnose.Span{Source: b}, "of the whole file")
	bag.Error("unknown-file", diagnose.Span{}, "of no file")
	bag.Error("identifying", a.Span(2, 1, 5), "a masked message").Suggest("Jane").Hidden = true
	bag.Error("not-in-the-table", a.Span(1, 1, 3), "a code without an explanation")
	return bag.Sorted()
}

func TestWriteJSON(t *testing.T) {
	var out bytes.Buffer
	if err := sample().WriteJSON(&out); err != nil {
		t.Fatal(err)
	}
	want := strings.Join([]string{
		`{"file":"","line":0,"column":0,"severity":"error","code":"unknown-file","message":"of no file","suggestion":""}`,
		`{"file":"a:b.md","line":0,"column":0,"severity":"note","code":"separator","message":"of the whole file","suggestion":""}`,
		`{"file":"cases/Teaching #1, 50% done.md","line":1,"column":1,"severity":"error","code":"not-in-the-table","message":"a code without an explanation","suggestion":""}`,
		`{"file":"cases/Teaching #1, 50% done.md","line":2,"column":1,"severity":"error","code":"identifying","message":"a masked message","suggestion":""}`,
		`{"file":"cases/Teaching #1, 50% done.md","line":2,"column":8,"severity":"warning","code":"curly-quotes","message":"<b> & é are kept","suggestion":""}`,
		`{"file":"cases/Teaching #1, 50% done.md","line":3,"column":1,"severity":"error","code":"unknown-key","message":"unknown key \"eye\"","suggestion":"eyes"}`,
	}, "\n") + "\n"
	if diff := cmp.Diff(want, out.String()); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
}

// TestWriteText checks that a hidden line and its suggestion are not printed.
func TestWriteText(t *testing.T) {
	var out bytes.Buffer
	if err := sample().WriteText(&out); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(out.String(), "Jane") || strings.Contains(out.String(), "\x1b") {
		t.Errorf("the text shows what it must not:\n%s", out.String())
	}
	if !strings.Contains(out.String(), `; did you mean "eyes"? [unknown-key]`) {
		t.Errorf("the suggestion is missing:\n%s", out.String())
	}
}

// validateSARIF checks a log against the schema that was written from the
// standard, and what a schema cannot say: a rule's index is that of its id.
func validateSARIF(t *testing.T, log []byte) {
	t.Helper()
	schema, err := jsonschema.NewCompiler().Compile("testdata/sarif-2.1.0.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(log))
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(value); err != nil {
		t.Error(err)
	}
	var parsed struct {
		Runs []struct {
			Tool struct {
				Driver struct{ Rules []struct{ ID string } }
			}
			Results []struct {
				RuleID    string
				RuleIndex int
			}
		}
	}
	if err := json.Unmarshal(log, &parsed); err != nil {
		t.Fatal(err)
	}
	for _, r := range parsed.Runs[0].Results {
		if r.RuleIndex >= 0 && parsed.Runs[0].Tool.Driver.Rules[r.RuleIndex].ID != r.RuleID {
			t.Errorf("rule %s has the index of another", r.RuleID)
		}
	}
}

func TestWriteSARIF(t *testing.T) {
	for name, list := range map[string]diagnose.Diagnostics{"sample": sample(), "empty": nil} {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			if err := list.WriteSARIF(&out, "1.0.0"); err != nil {
				t.Fatal(err)
			}
			validateSARIF(t, out.Bytes())
			if strings.Contains(out.String(), "Jane") {
				t.Error("the log shows a hidden suggestion")
			}
			if name == "empty" {
				return
			}
			for _, part := range []string{
				`"uri": "cases/Teaching%20%231,%2050%25%20done.md"`, `"uri": "./a:b.md"`, `"startColumn": 8`, `"endColumn": 17`, `"suggestion": "eyes"`, `"ruleIndex": -1`,
			} {
				if !strings.Contains(out.String(), part) {
					t.Errorf("the log lacks %s", part)
				}
			}
		})
	}
}

// TestSARIFSchemaCanFail keeps the schema from passing everything.
func TestSARIFSchemaCanFail(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile("testdata/sarif-2.1.0.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{
		`{"version": "2.0.0", "runs": []}`, `{"version": "2.1.0"}`, `{"version": "2.1.0", "runs": [{}]}`,
		`{"version": "2.1.0", "runs": [{"tool": {"driver": {"name": "x"}}, "results": [{"level": "fatal", "message": {"text": "y"}}]}]}`,
		`{"version": "2.1.0", "runs": [{"tool": {"driver": {"name": "x"}}, "results": [{"message": {"text": "y"}, "locations": [{"physicalLocation": {"artifactLocation": {"uri": "a b"}}}]}]}]}`,
		`{"version": "2.1.0", "runs": [{"tool": {"driver": {"name": "x"}}, "results": [{"message": {}}]}]}`,
	} {
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(bad))
		if err != nil {
			t.Fatal(err)
		}
		if schema.Validate(value) == nil {
			t.Errorf("the schema lets %s pass", bad)
		}
	}
}

// many makes a list of errors and warnings in turn, errors first.
func many(errors, warnings int) diagnose.Diagnostics {
	bag := diagnose.NewBag()
	src := diagnose.NewSource("x.md", bytes.Repeat([]byte("\n"), errors+warnings))
	for i := range warnings {
		bag.Warn("curly-quotes", src.Span(i+1, 1, 0), "w")
	}
	for i := range errors {
		bag.Error("tab", src.Span(warnings+i+1, 1, 0), "e")
	}
	return bag.Sorted()
}

func TestLimit(t *testing.T) {
	for _, test := range []struct {
		errors, warnings, limit  int
		keptErrors, keptWarnings int
		reason                   string
	}{
		{3, 3, 10, 3, 3, "all fit"},
		{100, 100, 10, 5, 5, "half the places are for errors"},
		{100, 100, 5, 3, 2, "the odd place is for an error"},
		{1, 100, 10, 1, 9, "places that errors do not use go to warnings"},
		{100, 1, 10, 9, 1, "and the reverse"},
		{2, 2, 0, 0, 0, "no place at all"},
		{2, 2, -1, 2, 2, "a negative limit is none"},
	} {
		kept, left := many(test.errors, test.warnings).Limit(test.limit)
		if kept.Count(diagnose.Error) != test.keptErrors || kept.Count(diagnose.Warning) != test.keptWarnings {
			t.Errorf("%s: kept %s", test.reason, kept.Summary())
		}
		if len(kept)+len(left) != test.errors+test.warnings {
			t.Errorf("%s: %d kept and %d left out", test.reason, len(kept), len(left))
		}
	}
	var out bytes.Buffer
	if err := many(3, 9).WriteTextLimit(&out, 4); err != nil {
		t.Fatal(err)
	}
	if want := "… and 1 error, 7 warnings more\n"; !strings.HasSuffix(out.String(), want) {
		t.Errorf("the list does not end with %q:\n%s", want, out.String())
	}
}

// ExampleExplanation_Text prints a help page as `caseleaf explain` does.
func ExampleExplanation_Text() {
	page, _ := diagnose.Explain("space-after-colon")
	fmt.Print(page.Text())
	// Output:
	// space-after-colon: no space after a colon
	//
	// A key ends with a colon and a space. Without the space, key and value are one
	// word, and the key is not there.
	//
	// Wrong, in a case:
	//
	//     eye:right
	//
	// Right:
	//
	//     eye: right
}
