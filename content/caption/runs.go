package caption

// StepStart is where a step begins.
type StepStart struct {
	Term       string  `json:"term"`
	Start      float64 `json:"start"` // seconds
	Cue        int     `json:"cue"`
	Confidence float64 `json:"confidence"` // 0 to 1, the model's own posterior: how sure it is beside its other readings

	place int // of the cue in the track
}

// unsure is the confidence below which a step is marked for the author.
const unsure = 0.6

// A step begins at the first cue of its run that really speaks for it: the
// model may move over earlier, on a cue that says little.
const (
	speaks     = 1.25 // log likelihood of a cue that names the step or its tools
	certain    = 0.75 // posterior that will do without
	likely     = 0.25 // least posterior of such a cue
	likelyBack = 0.5  // the same where the operation goes back to an earlier step
)

// runs turns the path into steps and evens it: talk before a step's first real
// cue stays with the step before, and a run without such a cue is dropped.
func (a *analysis) runs() []StepStart {
	var out []StepStart
	path := a.steps.path
	emit := a.talk.emissions(a.model)
	current, furthest := 0, 0
	for i := 0; i < len(path); {
		end := i
		for end < len(path) && path[end] == path[i] {
			end++
		}
		s := path[i]
		at := i
		least := likely
		if s < furthest && !a.model.rescue[s] {
			least = likelyBack
		}
		for at < end && !(emit[at][s] >= speaks && a.steps.posterior[at][s] > least) && a.steps.posterior[at][s] < certain {
			at++
		}
		for k := i; k < min(at, end); k++ {
			path[k] = current
		}
		if at < end {
			if s != current && s != 0 {
				cue := a.talk.cues[at]
				out = append(out, StepStart{Term: a.model.states[s], Start: cue.Start, Cue: cue.Index, Confidence: round(a.steps.posterior[at][s], 3), place: at})
			}
			current = s
			if !a.model.rescue[s] {
				furthest = max(furthest, s)
			}
		}
		i = end
	}
	return out
}

// stepOf names the step of a cue, or "".
func (a *analysis) stepOf(cue int) string {
	if a.model == nil || cue < 0 || cue >= len(a.steps.path) {
		return ""
	}
	return a.model.states[a.steps.path[cue]]
}
