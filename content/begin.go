package content

import (
	"encoding/json"
	"strings"

	"caseleaf/content/term"
)

// Beginning returns the files of a small bank that builds, by path: settings
// with everything else commented out, an empty logbook, an invented example
// case and an empty one to fill.
func Beginning(title string) map[string][]byte {
	v := term.Cataract()
	settings := &drafting{vocab: v, given: map[string]string{"title": quoted(title)}}
	settings.out.WriteString("# Settings of the bank. Take away a # and a space to use a line.\ninvented: yes  # while it holds only invented cases\n")
	settingsFields.draft(settings, "", true)
	local := &drafting{vocab: v}
	local.out.WriteString("# The bank's own terms, added to the built-in vocabulary.\n")
	termsFields.draft(local, "", true)
	return map[string][]byte{
		"bank.yaml":       []byte(withoutKey(settings.out.String(), "# invented:")),
		"terms.yaml":      []byte(local.out.String()),
		"logbook.csv":     []byte("period,technique,surgeon,risk,complications,unit,step,acuity_before,acuity_after\n"),
		"cases/ex-001.md": []byte(exampleCase),
		"cases/ex-002.md": DraftCase("EX-002", v),
	}
}

// quoted puts any text in double quotation marks as YAML reads them back: a
// JSON string is one.
func quoted(text string) string {
	out, err := json.Marshal(text)
	if err != nil {
		return `""` // a string always encodes
	}
	return string(out)
}

// withoutKey drops the line that offers a key already given.
func withoutKey(text, start string) string {
	var out strings.Builder
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, start) {
			out.WriteString(line)
		}
	}
	return out.String()
}

// exampleCase shows each sort of timeline entry once. It is invented.
const exampleCase = `---
case: EX-001
title: Iris at the side port
summary: When iris follows fluid out, let the pressure down before you push it back.
procedure: phacoemulsification
technique: divide-and-conquer
surgeon: trainee
eye: left
patient: {age_band: 70-79, sex: female}
cataract: {type: nuclear-cataract, grade: NO3}
recording: {ends: 5:30}
timeline:
  - {at: 0:10, step: paracentesis, width: 1.0 mm, place: 2}
  - {at: 0:40, step: main-incision, width: 2.4 mm, place: 11}
  - {at: 1:20, step: capsulorhexis, diameter: 5.0 mm}
  - {at: 3:00, step: hydrodissection}
  - at: 3:20
    event: iris-prolapse
    began: 3:14
    noticed: 3:20
    acted: 3:26
    sign: A fold of iris stood in the main wound as the fluid went in
    action: Fluid was let out at the side port and the iris stroked back
  - {at: 3:45, finding: iris-billowing, present: no, note: The iris lay still under low flow}
  - at: 3:50
    decision: Go on through the same wound?
    options:
      - {id: go-on, text: Go on with less fluid, for: The wound is sound, against: It may come again}
      - {id: new-wound, text: Make another wound, for: A longer tunnel, against: Costs time}
    chosen: go-on
    because: The iris was calm once the eye was soft
    result: It did not come again
  - {at: 4:10, step: nucleus-rotation}
outcome:
  acuity: {before: 6/18, after: 6/6}
  capsule: intact
  lens: in-the-bag
  follow_up: 6 weeks
lessons:
  - Let viscoelastic out before you inject.
sources: [{text: Common practice; no source}]
release: {consent: not-required, reason: The case is invented, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}
---
This case is invented, to show the form. The first fold showed [during the injection](time:3:20), as
[hydrodissection](term:hydrodissection) overfilled the eye.
`
