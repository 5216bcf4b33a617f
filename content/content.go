// Package content is what authors write, read and checked: a [Bank] of cases,
// decisions, courses and a logbook, every value with the place it stands at.
//
// Enter: an fs.FS rooted at the folder that holds bank.yaml.
// Leave: a [Bank] and all diagnostics, sorted, of one run.
// Read [Case] first, then [Timeline].
//
//	bank, found := content.Read(casebank.FS())
//	if found.Failed() { … }
//	for _, c := range bank.Cases { … }
//
// The fields of every file are described once, in the *_shape.go files: key,
// meaning, form. Reading, the JSON Schema and the empty draft all come from
// that one description.
//
// Nothing here knows of HTML, and nothing is guessed: a value is Known,
// Unknown, None or Absent ([Given]), and a count or delay that needs an absent
// value is absent too.
package content
