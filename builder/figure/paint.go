package figure

import "strings"

// Paint is a colour by its purpose. A page's colours follow the reader's mode: ink is the
// text colour around the figure, the others are custom properties with a fallback that is
// legible on white and on black. No meaning rests on a paint alone.
type Paint int

// The paints.
const (
	NoPaint Paint = iota
	Ink           // text and main lines
	Soft          // second text
	Faint         // grid, frames
	Accent        // the one accent colour
	Tint          // light fill of bars and areas
	Paper         // the ground, for hollow marks and halos
)

// paintValue holds a paint as a page writes it, by the classes of StyleSheet that fill an area
// and draw a line with it, and as a stand-alone file does; opacity applies where the paint
// fills an area.
type paintValue struct {
	fill, line  string
	alone       string
	fillOpacity string
}

var paints = [...]paintValue{
	NoPaint: {"", "o", "none", ""},
	Ink:     {"I", "", "#1a1a1a", ""},
	Soft:    {"S", "s", "#4a4a4a", ""},
	Faint:   {"", "f", "#8a8a8a", ""},
	Accent:  {"A", "a", "#1d4f7a", ""},
	Tint:    {"T", "", "#8a8a8a", "0.28"},
	Paper:   {"P", "p", "#ffffff", ""},
}

// pageWidth is how wide a line is that a page writes without a width.
const pageWidth Px = 1.2

// FixedRules are PaintRules in the colours of a file that stands alone, on white:
// for whoever shows a page's drawings where the page's own colours don't reach.
func FixedRules() string {
	return strings.NewReplacer(
		"var(--figure-soft, currentColor)", paints[Soft].alone, "var(--figure-faint, #8a8a8a)", paints[Faint].alone,
		"var(--figure-accent, currentColor)", paints[Accent].alone, "var(--figure-tint, #8a8a8a)", paints[Tint].alone,
		"var(--figure-paper, Canvas)", paints[Paper].alone, "currentColor", paints[Ink].alone,
	).Replace(PaintRules)
}

// StyleSheet gives the rules that inline figures need of a page's style sheet: to fit their
// column, to change between the wide and the narrow drawing, to show which mark has the
// focus, and the classes that the drawings are painted with. Those are one letter each, since
// a page holds thousands: a capital fills, a small letter draws a line (I ink, S soft,
// f faint, A accent, T tint, P paper, o no line, g grid); l is large text, m and e are where
// it is anchored, b is bold. The page sets --figure-soft, --figure-faint, --figure-accent,
// --figure-tint and --figure-paper if it wants other colours.
func StyleSheet() string {
	return `.figure-drawing { display: block; max-width: 100%; height: auto; }
.figure-narrow { display: none; }
.figure-drawing a { color: inherit; text-decoration: none; }
.figure-drawing a:hover text, .figure-drawing a:focus text { text-decoration: underline; }
` + PaintRules + `@media screen and (max-width: 36rem) {
  .figure-wide { display: none; }
  .figure-narrow { display: block; }
}
@media print {
  .figure-drawing { break-inside: avoid; max-height: 245mm; }
}
`
}

// PaintRules are the rules of StyleSheet for the classes that the drawings are painted with.
// A line without a class is ink, a text without one is ink with a rim of paper.
const PaintRules = `.figure-drawing { fill: none; stroke: currentColor; stroke-width: 1.2; font-size: 11px; }
svg text { fill: currentColor; stroke: var(--figure-paper, Canvas); stroke-width: 3; stroke-linejoin: round; paint-order: stroke; }
svg .s { stroke: var(--figure-soft, currentColor); }
svg .f, svg .g { stroke: var(--figure-faint, #8a8a8a); }
svg .g { stroke-width: 0.6; stroke-dasharray: 1 3; }
svg .a { stroke: var(--figure-accent, currentColor); }
svg .p { stroke: var(--figure-paper, Canvas); }
svg .o { stroke: none; }
svg .I { fill: currentColor; }
svg .S { fill: var(--figure-soft, currentColor); }
svg .A { fill: var(--figure-accent, currentColor); }
svg .T { fill: var(--figure-tint, #8a8a8a); fill-opacity: 0.28; }
svg .P { fill: var(--figure-paper, Canvas); }
svg .l { font-size: 12px; }
svg .m { text-anchor: middle; }
svg .e { text-anchor: end; }
svg .b { font-weight: bold; }
`
