package caption

import "strings"

// mood says how something is spoken of. Only what is told as happening makes
// an event; the rest are traps for a reader of captions.
type mood int

const (
	told     mood = iota // it happens, or has been seen
	denied               // looked for and absent, or deliberately not done
	asked                // a question
	supposed             // if, would, could: considered or feared
	planned              // announced, laid ready, not done yet
	past                 // before this recording or earlier in it
	general              // a remark on how things usually go
)

// weight is how far a mention in this mood shows that its step is under way.
func (m mood) weight() float64 {
	switch m {
	case told:
		return 1
	case past:
		return 0.55
	case planned:
		return 0.35
	case denied:
		return -0.3
	}
	return 0.1
}

var (
	negations = wordSet("no not never without nothing cannot cant dont doesnt didnt isnt wasnt arent neither nor none avoid instead nobody hardly")
	breakers  = wordSet("but because although though until then")
	asking    = wordSet("is are do does did can could should would shall what how why when which where who will have has")
	lead      = wordSet("so um uh er ah oh okay ok right and now well but yes hmm then")
	supposing = wordSet("if would could might may unless whether suppose imagine maybe")
	generally = wordSet("always usually generally often means normally typically sometimes")
)

var plans = []string{"plan is", "plan was", "going to", "will be", "options are", "on the shelf", "on the trolley", "in the room", "on standby",
	"not yet", "before we start", "later if", "have the", "ready on", "want to do", "next step", "we will need", "need to do", "till last", "until last", "until the end", "in the cupboard", "to hand"}

var suppositions = []string{"in case", "could go", "would you", "risk of", "if you", "if i", "if we", "worried about", "so that i can", "want a", "do not want", "afraid of", "looking for", "look for", "prevent", "avoid a", "my last", "another patient", "last patient", "other eye"}

var pasts = []string{"we have done", "already", "before we came", "last time", "previously", "was done", "were done", "had a"}

var generals = []string{"you get", "in these eyes", "in these cases", "every time", "tends to", "gets stuck", "can destroy", "that is why", "the danger", "you will", "you push", "you pull", "is what", "the risk", "can happen", "may happen", "is how", "thats how", "we never", "you never"}

// moodOf judges words[from:to] by the words around them in one cue.
func moodOf(words []string, from, to int) mood {
	text := " " + strings.Join(words, " ") + " "
	head := firstOf(words)
	before := words[max(0, from-6):from]
	for i := len(before) - 1; i >= 0; i-- {
		if breakers[before[i]] {
			break
		}
		if before[i] == "no" && i > 0 && before[i-1] == "oh" {
			break // a cry
		}
		if negations[before[i]] && !(before[i] == "no" && i == 0 && from-6 <= 0 && answers(words)) {
			return denied
		}
	}
	after := strings.Join(words[to:min(len(words), to+5)], " ")
	for _, p := range []string{"is not ", "not for ", "are not ", "was not ", "not there", "not needed", "not today", "is intact", "are intact"} {
		if strings.HasPrefix(after+" ", p) {
			return denied
		}
	}
	switch {
	case head+1 < len(words) && (words[head] == "have" || words[head] == "has") && persons[words[head+1]],
		head < len(words) && asking[words[head]] && !(head+1 < len(words) && negations[words[head+1]]) && !(words[head] == "have" || words[head] == "has" && len(words) > 6):
		return asked
	case hasWord(before, supposing) || containsAny(text, suppositions) || head < len(words) && words[head] == "if":
		return supposed
	case containsAny(text, plans):
		return planned
	case containsAny(text, pasts):
		return past
	case hasWord(words, generally) || containsAny(text, generals):
		return general
	}
	return told
}

// answers reports whether a cue begins with a no that answers a question.
func answers(words []string) bool {
	i := firstOf(words)
	return i < len(words) && words[i] == "no" && i+1 < len(words) && (words[i+1] == "it" || words[i+1] == "that" || words[i+1] == "i" || words[i+1] == "because" || words[i+1] == "this")
}

// firstOf skips the small words a sentence opens with.
func firstOf(words []string) int {
	i := 0
	for i < len(words) && lead[words[i]] {
		i++
	}
	return i
}

func hasWord(words []string, set map[string]bool) bool {
	for _, w := range words {
		if set[w] {
			return true
		}
	}
	return false
}

func containsAny(text string, phrases []string) bool {
	for _, p := range phrases {
		if strings.Contains(text, " "+p+" ") {
			return true
		}
	}
	return false
}
