package caption

import (
	"slices"
	"strings"
)

// Decision is a point where the narrator asks, weighs or plans. The words are
// the narrator's own, corrected; nothing is made up.
type Decision struct {
	Time     float64  `json:"time"`
	Cue      int      `json:"cue"`
	Question string   `json:"question"` // empty: for the author to put
	Options  []string `json:"options"`
	Chosen   string   `json:"chosen"`
	Because  string   `json:"because"`

	place int
	event string // the event it answers, if any
}

// How strongly a cue speaks of a decision.
const (
	notDecision = iota
	response    // what is done about an event
	weighing    // a plan, or options set side by side
	questioning // a question about what to do
)

var (
	weighs = []string{"the plan is", "plan is", "options are", "option is", "choice", "choices", "either", "instead of", "rather than", "could go", "we could", "i could", "alternatively",
		"or stop", "or convert", "or leave", "whether to", "decide", "decision", "on balance", "i can carry on", "carry on or", "we can either", "two options", "i prefer", "i would rather"}
	modals   = wordSet("should shall would can could do")
	persons  = wordSet("we i you")
	notDeeds = wordSet("see know remember hear think feel mean have understand notice")
)

// decisions groups the cues that speak of one choice and reads what was asked,
// offered, chosen and why.
func (a *analysis) decisions(events []Event) []Decision {
	kind := make([]int, len(a.talk.cues))
	for i := range kind {
		kind[i] = a.deciding(i)
	}
	about := make(map[int]string)
	for _, e := range events {
		kind[e.place] = max(kind[e.place], response)
		about[e.place] = e.Term
	}
	var out []Decision
	for i := 0; i < len(kind); {
		if kind[i] == notDecision {
			i++
			continue
		}
		end, question := i+1, -1
		for k := i; k < len(kind) && a.talk.cues[k].Start-a.talk.cues[end-1].Start < 12 && k-end < 3; k++ {
			if kind[k] == questioning {
				if question >= 0 && k > question+1 {
					break // something was said to the first question
				}
				question = k
			}
			if k > i && kind[k] != notDecision && !(kind[k] == response && about[k] != "" && kind[i] == response) {
				end = k + 1
			}
		}
		out = append(out, a.decision(i, end, kind, about))
		i = end
	}
	return out
}

// deciding classes one cue.
func (a *analysis) deciding(i int) int {
	words := a.talk.words[i]
	text := " " + strings.Join(words, " ") + " "
	head := firstOf(words)
	rest := words[head:]
	switch {
	case len(rest) > 2 && modals[rest[0]] && (persons[rest[1]] || rest[1] == "we") && !notDeeds[rest[min(2, len(rest)-1)]] && !(rest[0] == "do" && rest[1] == "you" && rest[2] == "see"),
		len(rest) > 3 && rest[0] == "can" && rest[1] == "we",
		containsAny(text, []string{"what do you do", "what do we do", "what do i do", "what now", "what next", "what would you", "which lens", "which way", "any good", "do we fix", "how would you", "is it safe"}):
		return questioning
	case containsAny(text, weighs), head < len(words) && strings.Contains(text, " or ") && a.optionsIn(words) > 1 && !containsAny(text, []string{"or so", "one or two", "two or three"}):
		return weighing
	}
	return notDecision
}

// optionsIn counts the actions, techniques and devices a cue names.
func (a *analysis) optionsIn(words []string) int {
	n := 0
	for _, part := range strings.Split(" "+strings.Join(words, " ")+" ", " or ") {
		for _, w := range strings.Fields(part) {
			if a.lex.trade[stem(w)] || doing[w] {
				n++
				break
			}
		}
	}
	return n
}

// decision reads the cues first to last of one choice, and what follows.
func (a *analysis) decision(first, end int, kind []int, about map[int]string) Decision {
	d := Decision{Time: a.talk.cues[first].Start, Cue: a.talk.cues[first].Index, Options: []string{}, place: first}
	for i := first; i < end; i++ {
		if d.event == "" {
			d.event = about[i]
		}
		if kind[i] == questioning && d.Question == "" {
			d.Question = sentence(a.talk.words[i], "?")
		}
	}
	last := min(len(a.talk.cues), end+6)
	for i := first; i < last; i++ {
		if i >= end && (a.talk.cues[i].Start-a.talk.cues[end-1].Start > 30 || kind[i] != notDecision) {
			break
		}
		a.readChoice(&d, i)
	}
	if d.Chosen == "" {
		for i := end; i < last; i++ {
			if a.acting(i) {
				d.Chosen = sentence(a.talk.words[i], "")
				break
			}
		}
	}
	return d
}

var (
	choosing = []string{"i will use", "i will", "we will", "i am going for", "i am going to", "we leave it", "i leave it", "so we", "so i", "not yet", "so no", "is enough", "i just", "we wait", "so three", "go for", "let us", "we do not need", "leave it there"}
	reasons  = []string{"because", "since", "as it is", "so that"}
)

// readChoice takes options, choice and reason out of one cue.
func (a *analysis) readChoice(d *Decision, i int) {
	words := a.talk.words[i]
	text := " " + strings.Join(words, " ") + " "
	if before, reason, ok := cutAny(text, reasons); ok && d.Because == "" {
		d.Because = sayI(strings.TrimSpace(reason))
		if d.Chosen == "" && i > d.place && a.deciding(i) != questioning && len(strings.Fields(before)) > 1 {
			d.Chosen = sentence(strings.Fields(before), "")
		}
	}
	if d.Chosen == "" && containsAny(text, choosing) && a.deciding(i) != questioning {
		d.Chosen = sentence(words, "")
		if why, _, ok := strings.Cut(text, " so "); ok && d.Because == "" && len(strings.Fields(why)) > 2 {
			d.Because = sayI(strings.TrimSpace(why))
		}
	}
	if k := a.deciding(i); (k == weighing || k == questioning && len(d.Options) == 0) && a.optionsIn(words) > 1 && strings.Contains(text, " or ") {
		_, offered, ok := cutAny(text, []string{"options are", "choice is", "could", "i can", "we can", "either", "do with this pupil", "do with it", "do here", "do i", "do we", "should i", "should we", "shall i", "shall we"})
		if !ok {
			offered = text
		}
		for _, o := range strings.Split(offered, " or ") {
			if o = strings.TrimSpace(o); o != "" && !slices.Contains(d.Options, o) {
				d.Options = append(d.Options, o)
			}
		}
	}
}

// cutAny cuts text at the first of several phrases that occurs.
func cutAny(text string, phrases []string) (before, after string, ok bool) {
	for _, p := range phrases {
		if before, after, ok = strings.Cut(text, " "+p+" "); ok {
			return before, " " + after, true
		}
	}
	return text, "", false
}

// sentence makes a sentence of words, without the small words it opens with.
func sentence(words []string, stop string) string {
	rest := words[min(firstOf(words), len(words)):]
	if len(rest) == 0 {
		return ""
	}
	s := sayI(strings.Join(rest, " "))
	return strings.ToUpper(s[:1]) + s[1:] + stop
}

// sayI writes the narrator's "i" as English does.
func sayI(s string) string {
	said := strings.Fields(s)
	for i, w := range said {
		if w == "i" {
			said[i] = "I"
		}
	}
	return strings.Join(said, " ")
}
