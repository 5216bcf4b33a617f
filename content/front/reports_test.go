package front

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gopkg.in/yaml.v3"

	"caseleaf/content/diagnose"
)

const reports = "../../testdata/field-reports/"

// place is what a field report asks of a message; the words that must be
// recognisable in it are matched apart.
type place struct {
	Severity     string
	Line, Column int
	Code         diagnose.Code
}

// splitFile reads a file as the bank does and gives what was said of it.
func splitFile(t *testing.T, path string) (Document, bool, diagnose.Diagnostics) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	bag := diagnose.NewBag()
	src, ok := Normalise(filepath.Base(path), data, bag)
	var doc Document
	if ok {
		doc, ok = Split(src, bag)
	}
	return doc, ok, bag.Sorted()
}

func places(ds diagnose.Diagnostics) []place {
	var out []place
	for _, d := range ds {
		out = append(out, place{d.Severity.String(), d.Span.Line(), d.Span.Column(), d.Code})
	}
	return out
}

// TestFieldReports holds the reader to FR-01 to FR-13: severity, line and the
// words in bold of the reports' index, columns where the index gives them.
// Expected values: the field reports' index; codes are our own.
func TestFieldReports(t *testing.T) {
	for _, test := range []struct {
		file  string
		ok    bool
		want  []place
		words []string // one for each message
	}{
		{"fr-01-tab.md", false, []place{{"error", 14, 1, "tab"}}, []string{"tab"}},
		{"fr-01-tab-first.md", false, []place{{"error", 9, 1, "tab"}}, []string{"tab"}},
		{"fr-02-windows/clean/HB-102.md", true, nil, nil},
		{"fr-02-windows/notepad/HB-102.md", true, nil, nil},
		{"fr-03-hash.md", true, []place{
			{"error", 3, 23, "comment-in-text"}, {"error", 14, 20, "comment-in-text"},
			{"error", 16, 36, "comment-in-text"}, {"error", 21, 36, "comment-in-text"},
		}, []string{"comment", "comment", "comment", "comment"}},
		{"fr-04-ids/case-a.md", true, nil, nil},
		{"fr-04-ids/case-b.md", true, nil, nil},
		{"fr-04-ids/case-c.md", true, nil, nil},
		{"fr-04-ids/case-d.md", true, nil, nil},
		{"fr-04-ids/case-e.md", true, nil, nil},
		{"fr-05-times.md", true, nil, nil},
		{"fr-06-nbsp-indent.md", false, []place{{"error", 9, 1, "odd-space"}}, []string{"no-break space"}},
		{"fr-06-nbsp-value.md", false, []place{{"error", 7, 5, "odd-space"}}, []string{"no-break space"}},
		{"fr-07-quotes.md", false, []place{
			{"warning", 3, 8, "curly-quotes"}, {"error", 13, 15, "curly-quotes"},
			{"error", 15, 35, "quote-inside"}, {"error", 18, 20, "quote-inside"},
		}, []string{"part of this text", "curly quotation marks", "apostrophe", "double quote"}},
		{"fr-08-two-outcomes.md", true, []place{{"error", 27, 1, "duplicate-key"}}, []string{"line 6"}},
		{"fr-09-braces.md", false, []place{
			{"error", 11, 8, "space-after-colon"}, {"error", 15, 37, "comma-in-text"},
			{"error", 16, 12, "space-after-colon"}, {"error", 17, 30, "colon-in-text"},
		}, []string{"space after the colon", "comma", "space after the colon", "colon"}},
		{"fr-10-unclosed.md", false, []place{{"error", 1, 1, "fence-not-closed"}}, []string{"line 27"}},
		{"fr-11-rules.md", true, nil, nil},
		{"fr-12-anchors.md", false, []place{{"error", 27, 6, "anchor"}}, []string{"anchors (&name) and aliases"}},
		{"fr-13-ansi.md", false, []place{{"error", 3, 36, "not-utf8"}}, []string{"not UTF-8: byte BD"}},
	} {
		t.Run(test.file, func(t *testing.T) {
			_, ok, ds := splitFile(t, reports+test.file)
			if ok != test.ok {
				t.Errorf("ok = %v, want %v", ok, test.ok)
			}
			if diff := cmp.Diff(test.want, places(ds)); diff != "" {
				t.Fatalf("messages (-want +got):\n%s", diff)
			}
			for i, word := range test.words {
				if !strings.Contains(ds[i].Message, word) {
					t.Errorf("message %q lacks %q", ds[i].Message, word)
				}
			}
		})
	}
}

// TestWindowsIsPlain checks FR-02: the mark and the line ends leave no trace.
func TestWindowsIsPlain(t *testing.T) {
	clean, _, _ := splitFile(t, reports+"fr-02-windows/clean/HB-102.md")
	notepad, _, _ := splitFile(t, reports+"fr-02-windows/notepad/HB-102.md")
	if diff := cmp.Diff(clean, notepad); diff != "" {
		t.Errorf("the same case saved in another editor differs (-clean +notepad):\n%s", diff)
	}
}

// TestIdsStayText checks FR-04: what looks like a number or a date is read as
// typed.
func TestIdsStayText(t *testing.T) {
	want := map[string]string{"a": "007", "b": "12E4", "c": "1.10", "d": "0x1F", "e": "2026-03-05"}
	for letter, id := range want {
		doc, _, _ := splitFile(t, reports+"fr-04-ids/case-"+letter+".md")
		if got := valueOf(doc.Root, "case"); got != id {
			t.Errorf("case-%s: id %q, want %q", letter, got, id)
		}
		if got := valueOf(doc.Root, "consent"); got != "" && got != "no" {
			t.Errorf("case-%s: consent %q, want the text as typed", letter, got)
		}
	}
}

// TestRulesStay checks FR-11: dividers in an indented note and in the body do
// not close the front matter.
func TestRulesStay(t *testing.T) {
	doc, _, _ := splitFile(t, reports+"fr-11-rules.md")
	sign := valueOf(doc.Root.Content[len(doc.Root.Content)-3].Content[1], "sign")
	if want := "What the nurse wrote:\n---\npupil 4 mm\n----\nblood pressure normal\n"; sign != want {
		t.Errorf("sign %q, want %q", sign, want)
	}
	if body := string(doc.Body); !strings.HasPrefix(body, "\nFirst part") || strings.Count(body, "---\n") != 5 {
		t.Errorf("the body is not whole:\n%s", body)
	}
}

func valueOf(n *yaml.Node, key string) string {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1].Value
		}
	}
	return ""
}

// TestFieldReportBytes compares every copied report with the manifest, so that
// an editor or a git setting that changed one is seen.
func TestFieldReportBytes(t *testing.T) {
	data, err := os.ReadFile(reports + "MANIFEST.json")
	if err != nil {
		t.Fatal(err)
	}
	var manifest map[string]struct {
		Size   int
		SHA256 string
	}
	if err := json.Unmarshal(data, &manifest); err != nil {
		t.Fatal(err)
	}
	for name, want := range manifest {
		got, err := os.ReadFile(reports + name)
		if err != nil {
			t.Errorf("%q: %v", name, err)
			continue
		}
		sum := sha256.Sum256(got)
		if len(got) != want.Size || hex.EncodeToString(sum[:]) != want.SHA256 {
			t.Errorf("%q has changed: %d bytes, want %d", name, len(got), want.Size)
		}
	}
}
