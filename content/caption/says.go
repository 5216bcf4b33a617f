package caption

import (
	_ "embed" // says.csv
	"encoding/csv"
	"slices"
	"strings"
	"sync"
)

//go:embed says.csv
var saysCSV string

// saying is a phrase that surgeons use in a step without naming it.
type saying struct {
	words  []string // stems; a last word ending in * stands for any ending
	step   string
	weight float64
	open   bool // its first word may have any ending
}

var sayings = sync.OnceValue(func() []saying {
	rows, err := csv.NewReader(strings.NewReader(saysCSV)).ReadAll()
	if err != nil { // compiled in and tested
		return nil
	}
	var out []saying
	for _, r := range rows[1:] {
		for _, p := range strings.Split(r[1], "|") {
			words := strings.Fields(p)
			for k, w := range words {
				if !strings.HasSuffix(w, "*") {
					words[k] = stem(w)
				}
			}
			out = append(out, saying{words, r[0], 1.7 + 0.5*float64(len(words)-1), strings.HasSuffix(words[0], "*")})
		}
	}
	return out
})

// said is how strongly the sayings in a cue speak for a step.
type said struct {
	step   string
	weight float64
}

// emitSayings adds what the sayings of a cue say for each state.
func (t *talk) emitSayings(i int, place map[string]int, row []float64) {
	if t.sayings == nil {
		t.sayings = make([][]said, len(t.cues))
		for k := range t.cues {
			t.sayings[k] = t.says(k)
		}
	}
	for _, s := range t.sayings[i] {
		if p, ok := place[s.step]; ok {
			row[p] += s.weight
		}
	}
}

// says weighs the sayings of a cue; a second one for a step adds less.
func (t *talk) says(i int) []said {
	var out []said
	there := make(map[string]bool, len(t.stems[i]))
	for _, w := range t.stems[i] {
		there[w] = true
	}
	for _, s := range sayings() {
		if !s.open && !there[s.words[0]] {
			continue
		}
		at := find(t.stems[i], s.words)
		if at < 0 {
			continue
		}
		k := slices.IndexFunc(out, func(o said) bool { return o.step == s.step })
		if k < 0 {
			k = len(out)
			out = append(out, said{step: s.step})
		}
		w := s.weight * max(0, moodOf(t.words[i], at, at+len(s.words)).weight())
		out[k].weight += w / (1 + 0.8*out[k].weight)
	}
	return out
}

// find returns where a phrase occurs among stems, or -1.
func find(stems, phrase []string) int {
	for i := 0; i+len(phrase) <= len(stems); i++ {
		same := true
		for k, p := range phrase {
			if stems[i+k] == p {
				continue
			}
			root, open := strings.CutSuffix(p, "*")
			if same = open && strings.HasPrefix(stems[i+k], root); !same {
				break
			}
		}
		if same {
			return i
		}
	}
	return -1
}
