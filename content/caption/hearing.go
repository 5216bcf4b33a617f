package caption

import (
	"slices"
	"strings"

	"caseleaf/content/term"
)

// Correction is one place where the vocabulary was heard behind other words.
type Correction struct {
	Cue        int     `json:"cue"`        // Cue.Index
	Heard      string  `json:"heard"`      // as captioned
	Read       string  `json:"read"`       // the name put in its place
	Term       string  `json:"term"`       // id
	Confidence float64 `json:"confidence"` // 0 to 1, from the odds of the noisy channel; not calibrated on patients' recordings
	Applied    bool    `json:"applied"`    // false: proposed only

	place    int // of the cue in the track
	from, to int // words of the cue as heard
}

// correct chooses the corrections of every cue.
func (h *listener) correct(cues []Cue) []Correction {
	var out []Correction
	for i, c := range cues {
		readings := h.decide(i)
		for k := range readings {
			h.refine(i, readings, k)
		}
		for _, r := range readings {
			if r.plainly {
				continue
			}
			words := h.cues[i][r.from:r.to]
			if strings.EqualFold(strings.Join(texts(words), " "), h.readAs(r.term, texts(words))) {
				continue
			}
			out = append(out, Correction{
				Cue: c.Index, Heard: c.Text[words[0].start:words[len(words)-1].end],
				Read: h.readAs(r.term, texts(words)), Term: h.terms[r.term].ID,
				Confidence: round(r.confidence, 3), Applied: r.confidence >= upper,
				place: i, from: r.from, to: r.to,
			})
		}
	}
	return out
}

// refine moves the ends of a reading by a word where that sounds more like the
// name: the prices of words and sounds settle what is meant better than how
// far it goes. When nothing but one word of the trade would be left, the
// reading stands if it shares a word with the name or the odds are overwhelming;
// else that word was heard as it was said, "leaks" of "leaks sidle".
func (h *listener) refine(cue int, readings []reading, k int) {
	r := &readings[k]
	words := h.cues[cue]
	low, high := 0, len(words)
	if k > 0 {
		low = readings[k-1].to
	}
	if k+1 < len(readings) {
		high = readings[k+1].from
	}
	if r.source != named {
		return // as listed
	}
	from, to, least := r.from, r.to, h.distanceTo(r.term, texts(words[r.from:r.to]))
	for f := max(low, r.from-1); f <= r.from+1; f++ {
		for t := r.to - 1; t <= min(high, r.to+1); t++ {
			if f >= t || (f != r.from || t != r.to) && len(h.exact[stems(texts(words[f:t]))]) > 0 {
				continue // a right name needs no reading
			}
			if d := h.distanceTo(r.term, texts(words[f:t])); d < least-0.3 {
				from, to, least = f, t, d
			}
		}
	}
	if to == from+1 && to-from < r.to-r.from && h.trade[stem(words[from].text)] {
		r.plainly = r.confidence < overwhelming && !h.shares(r.term, texts(words[r.from:r.to]))
		return
	}
	r.from, r.to = from, to
}

// shares reports whether a word of a stretch is in a right name of a term.
func (h *listener) shares(t int, stretch []string) bool {
	return slices.ContainsFunc(h.rightNames(t), func(n rightName) bool {
		return slices.ContainsFunc(splitWords(n.text), func(w word) bool { return slices.Contains(stretch, w.text) })
	})
}

// distanceTo is how far a stretch sounds from the nearest right name of a term.
func (h *listener) distanceTo(t int, stretch []string) float64 {
	sound := sounds(stretch)
	least := 99.0
	for _, name := range h.rightNames(t) {
		least = min(least, unlike(sound, name.sound, least))
	}
	return least
}

// rightName is what a reading may be written as.
type rightName struct {
	text  string
	sound phones
}

// rightNames lists the names of a term; each term is looked up once.
func (h *listener) rightNames(t int) []rightName {
	if out, ok := h.right[t]; ok {
		return out
	}
	tm := h.terms[t]
	all := append([]string{tm.Label}, tm.Synonyms...)
	if len(tm.Abbreviation) > 2 {
		all = append(all, tm.Abbreviation)
	}
	var out []rightName
	for _, name := range append(all, strings.ReplaceAll(tm.ID, "-", " ")) {
		out = append(out, rightName{name, sounds(texts(splitWords(name)))})
	}
	h.right[t] = out
	return out
}

// readAs is the right name of a term that sounds most like what was heard.
func (h *listener) readAs(t int, heard []string) string {
	sound := sounds(heard)
	tm := h.terms[t]
	best, least := tm.Label, 0.0
	for i, name := range h.rightNames(t) {
		cost := unlike(sound, name.sound, 99)
		if i == 0 || cost < least-0.001 {
			best, least = name.text, cost
		}
	}
	return uncapital(best)
}

// uncapital lower-cases the first letter of a name that is no abbreviation and
// no proper name within a sentence.
func uncapital(name string) string {
	first, _, _ := strings.Cut(name, " ")
	if first != strings.ToUpper(first) && !proper[strings.ToLower(strings.TrimSuffix(first, "'s"))] {
		return strings.ToLower(name[:1]) + name[1:]
	}
	return name
}

// proper are names that keep their capital.
var proper = wordSet("tenon descemet fuchs elschnig soemmering soemmerring morgagnian argentinian oxford seidel")

// converse lays corrections into the words and finds what every cue names.
func converse(l *lexicon, v *term.Vocabulary, cues []Cue, corrections []Correction, least float64) *talk {
	t := &talk{v: v, cues: cues, words: make([][]string, len(cues)), mentions: make([][]mention, len(cues)), stems: make([][]string, len(cues))}
	at := 0
	for i, c := range cues {
		heard := splitWords(c.Text)
		if c.Noise {
			heard = nil
		}
		var mine []Correction
		for ; at < len(corrections) && corrections[at].place == i; at++ {
			if corrections[at].Confidence >= least {
				mine = append(mine, corrections[at])
			}
		}
		t.words[i], t.mentions[i] = l.reread(i, heard, mine)
		t.stems[i] = make([]string, len(t.words[i]))
		for k, w := range t.words[i] {
			t.stems[i][k] = stem(w)
		}
		for k := range t.mentions[i] {
			m := &t.mentions[i][k]
			m.mood = moodOf(t.words[i], m.from, m.to)
		}
	}
	return t
}

// reread replaces what was misheard and lists the terms named.
func (l *lexicon) reread(cue int, heard []word, corrections []Correction) ([]string, []mention) {
	var words []string
	var mentions []mention
	plain := func(part []word) {
		for _, m := range l.matches(part) {
			mentions = append(mentions, mention{cue: cue, from: len(words) + m.from, to: len(words) + m.to, term: l.terms[m.terms[0]].ID})
		}
		words = append(words, texts(part)...)
	}
	at := 0
	for _, c := range corrections {
		plain(heard[at:c.from])
		read := texts(splitWords(c.Read))
		mentions = append(mentions, mention{cue: cue, from: len(words), to: len(words) + len(read), term: c.Term})
		words = append(words, read...)
		at = c.to
	}
	plain(heard[at:])
	return words, mentions
}

// analysis is everything heard in a recording.
type analysis struct {
	lex         *lexicon
	heard       *listener
	talk        *talk
	corrections []Correction
	model       *model
	steps       decoding
}

// analyse hears the vocabulary, finds the steps, and hears again knowing them.
// before is an earlier analysis of the same cues, some of them changed since,
// or nil.
func analyse(l *lexicon, cues []Cue, procedure string, before *listener) *analysis {
	h := listen(l, cues, before)
	first := converse(l, l.v, cues, h.correct(cues), upper)
	m, d := first.decodeSteps(procedure)
	if m != nil {
		h.steps, h.stepAt = m.states, d.posterior
	}
	a := &analysis{lex: l, heard: h, corrections: h.correct(cues)}
	a.talk = converse(l, l.v, cues, a.corrections, upper)
	a.model, a.steps = a.talk.decodeSteps(procedure)
	return a
}
