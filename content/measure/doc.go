// Package measure holds the values of a teaching case that carry a unit: times of the
// recording, durations, clock hours and arcs, visual acuity, lengths, strengths,
// ultrasound energy, lens grades.
//
// What enters is the text an author typed ("4:12", "5-7", "6/24", "2.4 mm"); what leaves
// is a typed value, or an *Error that says what was expected and, where that is certain,
// the right writing. Nothing is guessed: a bare number is never given a unit, a decimal
// comma is never read as a point, "hand movements" never turns into a number unless the
// caller names a published substitution table.
//
//	t, err := measure.ParseTime("9:30")           // 570 s, prints 9:30
//	a, err := measure.ParseArc("11-2")            // 3 clock hours, 90 degrees, through 12
//	v, err := measure.ParseAcuity("6/9-2")        // logMAR 0.22, prints 6/9-2
//	q, err := measure.Parse("pupil-diameter", "5.5 mm")
//	r, ok := measure.Plausible("incision-width", "msics")
//
// Read Time, Arc and Acuity first, then Parse, which serves every measure of the
// vocabulary, and Range, which says whether a value is usual. Every String method prints a
// form that its own parser reads back to the same value.
package measure
