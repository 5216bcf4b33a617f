package content_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/content"
)

// TestFirstTimeValues: what a person who had only read the README typed, and
// what the message then has to say, so that it can be mended without a manual.
func TestFirstTimeValues(t *testing.T) {
	const good = `---
case: EX-1
title: A case
procedure: phacoemulsification
technique: divide-and-conquer
patient: {age_band: 70-79}
timeline:
  - {at: 0:10, step: main-incision, place: 11}
  - {at: 0:50, event: iris-prolapse, began: 0:40, noticed: 0:50, acted: none, sign: A fold}
outcome: {follow_up: 6 weeks}
---
Text.
`
	for _, test := range []struct{ from, to, want string }{
		{"at: 0:10", "at: 20s", "write 0:20"},
		{"at: 0:10", "at: 0m09", "write 0:09"},
		{"began: 0:40", "began: before that", "write unknown"},
		{"place: 11", "place: 10.30", "half past is written 10.5"},
		{"70-79", "70–79", "write 70-79"},
		{"70-79", "70s", "write 70-79"},
		{"6 weeks", "6/52", "write 6 weeks"},
		{"6 weeks", "10/7", "write 10 days"},
		{"6 weeks", "3/12", "write 3 months"},
		{"step: main-incision", "step: viscoelastic", `"viscoelastic" is a material; a step is needed here`},
		{"step: main-incision", "step: IOL", `"IOL" is a device; a step is needed here`},
		{"step: main-incision", "step: xyzzy", "the glossary of every handout"},
		{"event: iris-prolapse", "event: conjunctival ballooning", "is a sign; a complication is needed here; what was looked for or seen is a finding entry"},
	} {
		if !strings.Contains(good, test.from) {
			t.Fatalf("no %q in the case", test.from)
		}
		fsys := fstest.MapFS{
			"bank.yaml":     {Data: []byte("title: T\n")},
			"cases/ex-1.md": {Data: []byte(strings.Replace(good, test.from, test.to, 1))},
		}
		_, found, err := content.Read(fsys)
		if err != nil {
			t.Fatal(err)
		}
		var text strings.Builder
		if err := found.WriteText(&text); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(text.String(), test.want) {
			t.Errorf("%s: no %q in\n%s", test.to, test.want, &text)
		}
	}
}
