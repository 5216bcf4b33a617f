package builder

import "slices"

// AroundLine leads from a case to its neighbours among those that share one
// thing: the case before it and the one after.
type AroundLine struct {
	Topic    Link
	Previous *Link
	Next     *Link
}

// around leads on to neighbouring cases by technique, complication, decision
// and risk factor; what no other case shares leads nowhere and is left out.
func (v *caseView) around() []AroundLine {
	t, cases := v.site.topics, v.site.Bank.Cases
	at := t.place[v.c]
	var lines []AroundLine
	for _, topic := range t.of[at] {
		holders := t.holders[topic]
		i, _ := slices.BinarySearch(holders, at)
		var line AroundLine
		if i > 0 {
			link := caseLink(cases[holders[i-1]])
			line.Previous = &link
		}
		if i+1 < len(holders) {
			link := caseLink(cases[holders[i+1]])
			line.Next = &link
		}
		if line.Previous == nil && line.Next == nil {
			continue
		}
		line.Topic = v.met.link(topic.id)
		if d, shared := v.site.Bank.Decision(topic.id); topic.decision && shared {
			line.Topic = decisionLink(d)
		}
		lines = append(lines, line)
	}
	return lines
}
