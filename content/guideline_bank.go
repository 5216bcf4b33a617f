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

// BankCompleteness is the completeness of a bank, by case and by item. Its
// item counts are counts of chosen cases and say nothing of how often anything
// happens.
type BankCompleteness struct {
	Cases []CaseAnswers // by id
	Items []ItemCount   // in the order of Completeness
}

// Completeness returns how all cases of a bank stand to every item.
func (b *Bank) Completeness() BankCompleteness {
	var all BankCompleteness
	for _, it := range guidelines().items {
		all.Items = append(all.Items, ItemCount{Guideline: it.Guideline, Item: it.Item, Topic: it.Topic, Asks: it.Asks, FromMemory: it.FromMemory})
	}
	for _, c := range b.Cases {
		answers := Completeness(c)
		all.Cases = append(all.Cases, CaseAnswers{c, answers})
		for i, a := range answers {
			if a.Status == DoesNotApply {
				continue
			}
			all.Items[i].Applies++
			if a.Status == Answered {
				all.Items[i].Answered++
			} else {
				all.Items[i].Missing = append(all.Items[i].Missing, c)
			}
		}
	}
	return all
}
