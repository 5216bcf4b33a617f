package content_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/content"
	"caseleaf/content/diagnose"
)

const namedCase = `---
case: P-1
title: Named
procedure: phacoemulsification
technique: divide-and-conquer
surgeon: Mrs Oxtallow
timeline: [{at: 0:10, step: paracentesis, note: Seen on 14 March 2021}]
%s---
Her daughter Philippa instils the drops.
`

func readNamed(t *testing.T, exceptions string, reveal bool) (diagnose.Diagnostics, string) {
	t.Helper()
	files := fstest.MapFS{
		"bank.yaml":    {Data: []byte("title: Names\n")},
		"cases/p-1.md": {Data: []byte(strings.Replace(namedCase, "%s", exceptions, 1))},
	}
	_, found, err := content.ReadWith(files, content.Options{Reveal: reveal})
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	if err := found.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	return found, text.String()
}

// Identifiers are errors at their places, and no message, of whatever code,
// repeats one; the author can ask to see them.
func TestGateHidesWhatItFinds(t *testing.T) {
	found, text := readNamed(t, "", false)
	if !found.Failed() {
		t.Fatal("a named patient passed")
	}
	for _, want := range []string{"p-1.md:6:10: error", "p-1.md:7:", "p-1.md:9:14: error"} {
		if !strings.Contains(text, want) {
			t.Errorf("no finding at %s in\n%s", want, text)
		}
	}
	for _, secret := range []string{"Oxtallow", "Philippa", "14 March"} {
		if strings.Contains(text, secret) {
			t.Errorf("%q is repeated in\n%s", secret, text)
		}
	}
	if _, text := readNamed(t, "", true); !strings.Contains(text, "Philippa") {
		t.Errorf("reveal shows nothing:\n%s", text)
	}
}

// A reviewed exception covers what it names and stays visible; one that
// matches nothing is an error.
func TestGateExceptions(t *testing.T) {
	exception := func(match string) string {
		return "privacy_exceptions:\n  - {class: name, where: body, match: " + match + ", count: 1, kind: consented, consent: held-locally, " +
			"reason: The relative agreed to be named here, reviewed_by: consultant, reviewed: 2026}\n"
	}
	found, text := readNamed(t, exception("Philippa"), false)
	for _, d := range found {
		if d.Span.Line() == 10 && d.Code == "identifying" {
			t.Errorf("the excepted name is still reported:\n%s", text)
		}
	}
	if !strings.Contains(text, "privacy-exception") {
		t.Errorf("the exception is not visible:\n%s", text)
	}
	if _, text := readNamed(t, exception("Nobody"), false); !strings.Contains(text, "stale") {
		t.Errorf("a stale exception passed:\n%s", text)
	}
}
