package figure

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

// paintValue holds a paint as a page writes it and as a stand-alone file does; opacity
// applies where the paint fills an area.
type paintValue struct {
	inline, alone string
	fillOpacity   string
}

var paints = [...]paintValue{
	NoPaint: {"none", "none", ""},
	Ink:     {"currentColor", "#1a1a1a", ""},
	Soft:    {"var(--figure-soft, currentColor)", "#4a4a4a", ""},
	Faint:   {"var(--figure-faint, #8a8a8a)", "#8a8a8a", ""},
	Accent:  {"var(--figure-accent, currentColor)", "#1d4f7a", ""},
	Tint:    {"var(--figure-tint, #8a8a8a)", "#8a8a8a", "0.28"},
	Paper:   {"var(--figure-paper, Canvas)", "#ffffff", ""},
}

// StyleSheet gives the few rules that inline figures need of a page's style sheet: to fit
// their column, to change between the wide and the narrow drawing, and to show which mark
// has the focus. The page sets --figure-soft, --figure-faint, --figure-accent, --figure-tint
// and --figure-paper if it wants other colours.
func StyleSheet() string {
	return `.figure-drawing { display: block; max-width: 100%; height: auto; }
.figure-narrow { display: none; }
.figure-drawing a { fill: inherit; color: inherit; text-decoration: none; }
.figure-drawing a:hover text, .figure-drawing a:focus text { text-decoration: underline; }
@media screen and (max-width: 36rem) {
  .figure-wide { display: none; }
  .figure-narrow { display: block; }
}
@media print {
  .figure-drawing { break-inside: avoid; max-height: 245mm; }
}
`
}
