package content

// CaseAnswers is how one case stands to every item.
type CaseAnswers struct {
	Case    *Case
	Answers []Answer
}

// Tally counts the items of one guideline that a case answers, out of those
// that apply to it.
func (a CaseAnswers) Tally(guideline string) (answered, applies int) {
	for _, answer := range a.Answers {
		if answer.Guideline != guideline || answer.Status == DoesNotApply {
			continue
		}
		applies++
		if answer.Status == Answered {
			answered++
		}
	}
	return answered, applies
}

// ItemCount is how the cases of a bank stand to one item.
type ItemCount struct {
	Guideline, Item, Topic, Asks string
	FromMemory                   bool // as in Answer

	Answered int     // cases that answer it
	Applies  int     // of these cases
	Missing  []*Case // that could answer it and do not, by id
}

// Completeness hands out how each case of a bank stands to every item, by id, and
// returns how they stand to each item together, in the order of [Completeness]. These
// are counts of chosen cases and say nothing of how often anything happens. Nothing is
// kept of a case but that it misses an item.
func (b *Bank) Completeness(use func(CaseAnswers)) []ItemCount {
	var items []ItemCount
	for _, it := range guidelines().items {
		items = append(items, ItemCount{Guideline: it.Guideline, Item: it.Item, Topic: it.Topic, Asks: it.Asks, FromMemory: it.FromMemory})
	}
	for _, c := range b.Cases {
		answers := Completeness(c)
		use(CaseAnswers{c, answers})
		for i, a := range answers {
			if a.Status == DoesNotApply {
				continue
			}
			items[i].Applies++
			if a.Status == Answered {
				items[i].Answered++
			} else {
				items[i].Missing = append(items[i].Missing, c)
			}
		}
	}
	return items
}
