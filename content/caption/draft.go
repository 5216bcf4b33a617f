package caption

import (
	"slices"
	"strings"
	"sync"

	"caseleaf/content/term"
)

// Options steer a draft. The zero value is the usual choice.
type Options struct {
	Procedure string // id of a procedure or technique; empty: found from the narration
}

// Report is everything a draft says. Its JSON has times in seconds and cues
// counted from 1 in file order. No text in it holds what the privacy check
// found: Heard stands for the caption after that.
type Report struct {
	Procedure   string        `json:"procedure"`  // empty when no step was found
	Techniques  []Technique   `json:"techniques"` // told as done
	Cues        []ReadCue     `json:"cues"`
	Corrections []Correction  `json:"corrections"`
	Steps       []StepStart   `json:"steps"`
	Events      []Event       `json:"events"`
	Findings    []Finding     `json:"findings"`
	Decisions   []Decision    `json:"decisions"`
	Measures    []Measure     `json:"measures"`
	Lessons     []Lesson      `json:"lessons"`
	Candidates  []Candidate   `json:"candidates"`
	Kit         []KitItem     `json:"kit"`
	Patient     []PatientFact `json:"patient"`
	Operator    []Handover    `json:"operator"`
	Removed     []Removed     `json:"removed"`
	Notes       []Problem     `json:"notes"` // of the reader
}

// ReadCue is a cue as heard and as read after the applied corrections.
type ReadCue struct {
	Index int     `json:"index"`
	Start float64 `json:"start"`
	End   float64 `json:"end"`
	Heard string  `json:"heard"`
	Read  string  `json:"read"`
	Step  string  `json:"step,omitempty"`
	Noise bool    `json:"noise,omitempty"`
}

// Technique is a technique recognised from what is told.
type Technique struct {
	Term string `json:"term"`
	Cue  int    `json:"cue"`
}

// Candidate is a recurring word that is neither English as listed nor in the
// vocabulary: perhaps a term to add.
type Candidate struct {
	Word  string `json:"word"`
	Count int    `json:"count"`
	Cues  []int  `json:"cues"`
}

// KitItem is a thing named; Used is false when it only stood ready.
type KitItem struct {
	Term string `json:"term"`
	Used bool   `json:"used"`
	Cue  int    `json:"cue"`

	strength string
}

// PatientFact is a risk factor, kind of cataract, anaesthetic or side.
type PatientFact struct {
	Key   string `json:"key"` // risk, cataract, anaesthesia or eye
	Value string `json:"value"`
	Cue   int    `json:"cue"`
}

// Handover is a cue in which another surgeon takes over.
type Handover struct {
	Time float64 `json:"time"`
	Cue  int     `json:"cue"`
}

// File reads a caption file and drafts from it: the whole of `caseleaf draft`.
// v must not be nil. The name is not used.
func File(name string, data []byte, v *term.Vocabulary, opts Options) Report {
	track, problems := Read(name, data)
	report := Draft(track, v, opts)
	for _, p := range problems {
		if p.Text != "" {
			c, removed := lexiconOf(v).redact([]Cue{{Index: 0, Text: p.Text}}, nil)
			p.Text = c[0].Text
			report.Removed = append(report.Removed, removed...)
		}
		report.Notes = append(report.Notes, p)
	}
	return report
}

// lexicons keeps the one made last: a vocabulary takes longer to prepare than
// a short recording to hear.
var lexicons struct {
	sync.Mutex
	of   *term.Vocabulary
	made *lexicon
}

func lexiconOf(v *term.Vocabulary) *lexicon {
	lexicons.Lock()
	defer lexicons.Unlock()
	if lexicons.of != v {
		lexicons.of, lexicons.made = v, newLexicon(v)
	}
	return lexicons.made
}

// Draft hears a track with a vocabulary. The same track, vocabulary and options
// give the same report.
func Draft(track Track, v *term.Vocabulary, opts Options) Report {
	l := lexiconOf(v)
	cues, removed := l.redact(track.Cues, track.Speakers)
	a := analyse(l, cues, opts.Procedure, nil)
	if spans, some := a.strangers(); some {
		var more []Removed
		cues, more = takeOut(cues, spans)
		removed = byCue(append(removed, more...))
		a = analyse(l, cues, opts.Procedure, a.heard)
	}
	r := Report{
		Techniques: []Technique{}, Cues: []ReadCue{}, Corrections: a.corrections, Steps: []StepStart{},
		Events: []Event{}, Findings: []Finding{}, Decisions: []Decision{}, Measures: []Measure{}, Lessons: []Lesson{},
		Candidates: a.candidates(), Kit: []KitItem{}, Patient: []PatientFact{}, Operator: []Handover{}, Removed: removed, Notes: []Problem{},
	}
	if r.Corrections == nil {
		r.Corrections = []Correction{}
	}
	if r.Removed == nil {
		r.Removed = []Removed{}
	}
	if a.model != nil {
		r.Steps = append(r.Steps, a.runs()...)
	}
	if len(r.Steps) > 0 {
		r.Procedure = a.model.procedure
	}
	r.Events = append(r.Events, a.events()...)
	r.Findings = append(r.Findings, a.findings()...)
	r.Decisions = append(r.Decisions, a.decisions(r.Events)...)
	r.Measures = append(r.Measures, a.measures()...)
	r.Lessons = append(r.Lessons, a.lessons()...)
	a.things(&r)
	at := 0
	for i, c := range cues {
		read := c.Text
		var mine []Correction
		for ; at < len(a.corrections) && a.corrections[at].place == i; at++ {
			if a.corrections[at].Applied {
				mine = append(mine, a.corrections[at])
			}
		}
		r.Cues = append(r.Cues, ReadCue{Index: c.Index, Start: c.Start, End: c.End, Heard: c.Text, Read: replace(read, mine), Step: a.stepOf(i), Noise: c.Noise})
	}
	return r
}

// replace lays corrections into the text of a cue.
func replace(text string, corrections []Correction) string {
	words := splitWords(text)
	var b strings.Builder
	at := 0
	for _, c := range corrections {
		b.WriteString(text[at:words[c.from].start])
		b.WriteString(c.Read)
		at = words[c.to-1].end
	}
	b.WriteString(text[at:])
	return b.String()
}

// things collects what was used, what is told of the patient, techniques, and
// changes of operator.
func (a *analysis) things(r *Report) {
	for i, c := range a.talk.cues {
		for _, m := range a.talk.mentions[i] {
			t, _ := a.talk.v.Get(m.term)
			a.thing(r, &t, m, c.Index)
		}
		text := " " + strings.Join(a.talk.words[i], " ") + " "
		for _, side := range []string{"left", "right"} {
			if strings.Contains(text, " "+side+" eye ") {
				r.addFact("eye", side, c.Index)
			}
		}
		if containsAny(text, []string{"taking over", "i take over now", "taking it from here", "over to you", "you take over now", "hand over to"}) {
			r.Operator = append(r.Operator, Handover{c.Start, c.Index})
		}
	}
}

func (a *analysis) thing(r *Report, t *term.Term, m mention, cue int) {
	switch t.Kind {
	case term.Instrument, term.Device, term.Material, term.Drug:
		if m.mood != told && m.mood != planned && m.mood != past {
			return
		}
		for k := range r.Kit {
			if r.Kit[k].Term == t.ID {
				r.Kit[k].Used = r.Kit[k].Used || m.mood == told
				return
			}
		}
		r.Kit = append(r.Kit, KitItem{Term: t.ID, Used: m.mood == told, Cue: cue, strength: a.strengthNear(m)})
	case term.Technique:
		if m.mood != told && m.mood != past {
			return
		}
		if slices.Contains(t.Steps, "anaesthesia") {
			r.addFact("anaesthesia", t.ID, cue)
		}
		if !slices.ContainsFunc(r.Techniques, func(x Technique) bool { return x.Term == t.ID }) {
			r.Techniques = append(r.Techniques, Technique{t.ID, cue})
		}
	case term.RiskFactor:
		if m.mood == told || m.mood == past {
			r.addFact("risk", t.ID, cue)
		}
	case term.CataractType:
		if m.mood == told || m.mood == past {
			r.addFact("cataract", t.ID, cue)
		}
	}
}

// strengthNear reads a percentage in the cue of a drug, dye or OVD.
func (a *analysis) strengthNear(m mention) string {
	words := a.talk.words[m.cue]
	for k := m.to; k < len(words); k++ {
		if v, end := numberAt(words, k); end > k {
			if end < len(words) && (words[end] == "percent" || end+1 < len(words) && words[end] == "per" && words[end+1] == "cent") {
				return number(v) + " %"
			}
			k = end - 1
		}
	}
	return ""
}

func (r *Report) addFact(key, value string, cue int) {
	if !slices.ContainsFunc(r.Patient, func(p PatientFact) bool { return p.Key == key && p.Value == value }) {
		r.Patient = append(r.Patient, PatientFact{key, value, cue})
	}
}

// leastCount is how often an unknown word must come back to be offered.
const leastCount = 3

// candidates lists unknown words that recur, most frequent first.
func (a *analysis) candidates() []Candidate {
	found := make(map[string]*Candidate)
	for i, words := range a.talk.words {
		for _, w := range words {
			if _, known := surprise(w); known || a.lex.trade[stem(w)] || len(w) < 4 || w == "removed" || strings.ContainsAny(w, "0123456789") {
				continue
			}
			c := found[w]
			if c == nil {
				c = &Candidate{Word: w}
				found[w] = c
			}
			c.Count++
			if n := a.talk.cues[i].Index; !slices.Contains(c.Cues, n) {
				c.Cues = append(c.Cues, n)
			}
		}
	}
	out := []Candidate{}
	for _, c := range found {
		if c.Count >= leastCount && len(c.Cues) > 1 {
			out = append(out, *c)
		}
	}
	slices.SortFunc(out, func(a, b Candidate) int {
		if a.Count != b.Count {
			return b.Count - a.Count
		}
		return strings.Compare(a.Word, b.Word)
	})
	return out
}
