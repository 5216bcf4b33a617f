// Package figure draws the pictures of a handout as SVG, from plain data to bytes.
//
// What enters is a struct with numbers and words (Strip, Forest, Tree …), never a bank; what
// leaves is a Drawing, a caption that says the finding and the denominator, and a Table with
// the same content. A Drawing is data: marks in order, which are written as SVG for a page,
// as a stand-alone file for slides, or as a short record for tests.
//
//	s := figure.Strip{IDPrefix: "strip", Title: "Small pupil", Steps: …}
//	w.Write(figure.SVG(s))    // for the page: a wide and a narrow drawing
//	w.Write(figure.Alone(s))  // for a slide
//
// Figures are legible in black and white, in dark mode, on the smallest phone and on paper:
// shapes and words carry the meaning, colours only add, text is laid out with a table of
// widths that no common face passes (widths.go), and each figure places its labels itself,
// apart from drawing them. The pages' style sheet needs the rules of StyleSheet.
//
// Read figure.go for what every figure can do, mark.go for what a drawing is made of, and
// strip.go for the first of them.
package figure
