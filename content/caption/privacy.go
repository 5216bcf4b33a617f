package caption

import (
	"slices"
	"strings"

	"caseleaf/content/privacy"
)

// Removed says that something which may identify somebody was taken out of a
// cue, and of which class; never what it was.
type Removed struct {
	Class string `json:"class"`
	Cue   int    `json:"cue"`
}

// edgeCues is how many cues at either end a speaker may say who he is.
const edgeCues = 8

// gone stands where something was taken out.
const gone = "[removed]"

// span is a part of a text to take out.
type span struct {
	start, end int
	class      string
}

// redact takes names, places, dates and whatever else the privacy check finds,
// or a spoken cue announces, out of the cues before anything else reads them. A
// name found once is taken out wherever it comes back, also when it is then
// misheard as two words.
func (l *lexicon) redact(cues []Cue, speakers []int) ([]Cue, []Removed) {
	spans := make([][]span, len(cues))
	for i, c := range cues {
		spans[i] = l.spokenIn(c.Text, i < edgeCues || i >= len(cues)-edgeCues)
		for _, f := range privacy.Scan(privacy.Caption, c.Text) {
			spans[i] = append(spans[i], span{f.Start, f.End, string(f.Class)})
		}
	}
	acrossCues(cues, spans)
	out, removed := takeOut(cues, spans)
	for _, s := range speakers {
		removed = append(removed, Removed{Class: string(privacy.Name), Cue: s})
	}
	return out, byCue(removed)
}

// takeOut blanks spans of each cue, and the names among them wherever they
// come back.
func takeOut(cues []Cue, spans [][]span) ([]Cue, []Removed) {
	again(cues, spans)
	out := slices.Clone(cues)
	var removed []Removed
	for i := range out {
		merged := merge(spans[i])
		for _, s := range merged {
			removed = append(removed, Removed{Class: s.class, Cue: out[i].Index})
		}
		out[i].Text = blank(out[i].Text, merged)
	}
	return out, removed
}

func byCue(removed []Removed) []Removed {
	slices.SortStableFunc(removed, func(a, b Removed) int {
		if a.Cue != b.Cue {
			return a.Cue - b.Cue
		}
		return strings.Compare(a.Class, b.Class)
	})
	return removed
}

// acrossCues finds what is cut in two by the end of a cue.
func acrossCues(cues []Cue, spans [][]span) {
	for i := 0; i+1 < len(cues); i++ {
		a, b := cues[i].Text, cues[i+1].Text
		cut := len(a) + 1
		for _, f := range privacy.Scan(privacy.Caption, a+" "+b) {
			if f.Start < len(a) && f.End > cut {
				spans[i] = append(spans[i], span{f.Start, len(a), string(f.Class)})
				spans[i+1] = append(spans[i+1], span{0, f.End - cut, string(f.Class)})
			}
		}
	}
}

// again takes out the words of names already found wherever else they stand.
func again(cues []Cue, spans [][]span) {
	var names []phones
	known := make(map[string]bool)
	for i := range spans {
		for _, s := range spans[i] {
			if s.class != string(privacy.Name) && s.class != string(privacy.Facility) && s.class != string(privacy.Geo) {
				continue
			}
			for _, w := range splitWords(cues[i].Text[s.start:min(s.end, len(cues[i].Text))]) {
				if _, plain := surprise(w.text); !plain && len(w.text) >= 4 && !known[w.text] && !titles[w.text] {
					known[w.text] = true
					names = append(names, sounds([]string{w.text}))
				}
			}
		}
	}
	if len(known) == 0 {
		return
	}
	for i, c := range cues {
		words := splitWords(c.Text)
		for k, w := range words {
			if known[w.text] {
				spans[i] = append(spans[i], span{w.start, w.end, string(privacy.Name)})
			} else if k+1 < len(words) && soundsLike(names, w.text, words[k+1].text, k > 0 && personTitles[words[k-1].text]) {
				spans[i] = append(spans[i], span{w.start, words[k+1].end, string(privacy.Name)})
			}
		}
	}
}

var titles = wordSet("doctor professor hospital clinic centre center infirmary theatre ward mister missus miss street road")

// soundsLike reports whether two words run together are one of the names; after
// a title, roughly will do.
func soundsLike(names []phones, a, b string, titled bool) bool {
	most := 0.15
	if titled {
		most = 0.34
	}
	sound := sounds([]string{a, b})
	for _, n := range names {
		w := max(n.weight(), sound.weight())
		if w > 2 && unlike(sound, n, most*w) < most*w {
			return true
		}
	}
	return false
}

// merge sorts spans and joins those that touch; the first class names it.
func merge(spans []span) []span {
	slices.SortFunc(spans, func(a, b span) int {
		if a.start != b.start {
			return a.start - b.start
		}
		if a.end != b.end {
			return b.end - a.end
		}
		return strings.Compare(a.class, b.class)
	})
	var out []span
	for _, s := range spans {
		if n := len(out); n > 0 && s.start < out[n-1].end {
			out[n-1].end = max(out[n-1].end, s.end)
			continue
		}
		out = append(out, s)
	}
	return out
}

// blank replaces spans of text.
func blank(text string, spans []span) string {
	var b strings.Builder
	at := 0
	for _, s := range spans {
		end := min(s.end, len(text))
		if s.start < at || s.start > end {
			continue
		}
		b.WriteString(text[at:s.start])
		b.WriteString(gone)
		at = end
	}
	b.WriteString(text[at:])
	return b.String()
}
