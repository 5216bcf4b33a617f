package builder

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
)

// A case with decision points is read as a worked exercise. Its timeline is
// parted where something had to be decided, and the page lays each stretch
// behind the answer before it, so that nothing above a question tells what was
// done. What tells it all (strip, eye, delays, kit) waits behind a line of its
// own.

// Stretch is a part of a timeline that is read in one go.
type Stretch struct {
	ID    string
	Head  string
	Rows  []TimelineRow
	Clips []ClipFigure
	Stop  *DecisionCard // the decision point it leads to; nil at the end
}

// Exercise is what the page's script needs besides the page.
type Exercise struct {
	Bank  string // tells the bank from others on one device
	Words string // the script's words, a JSON object
}

// Stops counts the decision points at which a reader stops.
func (p *CasePage) Stops() int {
	n := 0
	for _, s := range p.Stretches {
		if s.Stop != nil {
			n++
		}
	}
	return n
}

// stretches parts the rows of a timeline at its decision points.
func (v *caseView) stretches() []Stretch {
	rows, cards := v.rows(), v.decisions()
	list := []Stretch{{}}
	open := []placed{}
	for i := range v.c.Timeline.Entries {
		e := &v.c.Timeline.Entries[i]
		now := &list[len(list)-1]
		if e.Decision != nil {
			card := &cards[len(list)-1]
			card.Moment, card.Anchors = rows[i].ID, rows[i].Anchors
			now.Stop = card
			list = append(list, Stretch{})
			continue
		}
		if e.Event != nil || e.Step != nil {
			open = append(open, placed{e, len(list) - 1, len(now.Rows)})
		}
		now.Rows = append(now.Rows, rows[i])
	}
	v.holdBack(list, open)
	v.placeClips(list)
	for i := range list {
		s := &list[i]
		s.ID, s.Head = fmt.Sprintf("stretch-%d", i+1), v.words.say("stretch-end")
		if s.Stop != nil {
			s.Head = v.words.say("stretch-to", s.Stop.Number)
		}
		if len(list) == 1 {
			s.Head = v.words.say("timeline")
		}
	}
	return list
}

// overview names every entry, with a link to its place.
func (v *caseView) overview() []Moment {
	var list []Moment
	for i := range v.c.Timeline.Entries {
		e := &v.c.Timeline.Entries[i]
		m := Moment{At: v.words.time(e.At), ID: v.anchors.rows[i]}
		switch {
		case e.Step != nil:
			m.Label, m.Note = v.site.Bank.Term(e.Step.Term.Value).Label, v.lasted(e)
		case e.Event != nil:
			m.Label, m.Note = v.site.Bank.Term(e.Event.Term.Value).Label, v.words.say("kind-event")
		case e.Finding != nil:
			m.Label, m.Note = v.site.Bank.Term(e.Finding.Term.Value).Label, v.words.say("kind-finding")
		case e.Decision != nil:
			m.Label, m.Note = e.Decision.Question.Value, v.words.say("kind-decision")
		}
		list = append(list, m)
	}
	return list
}

// exercise is nil where the page asks nothing.
func (v *caseView) exercise(list []Stretch) *Exercise {
	asks := false
	for _, s := range list {
		asks = asks || s.Stop != nil
		for _, r := range s.Rows {
			asks = asks || r.Ask
		}
	}
	if !asks {
		return nil
	}
	return &Exercise{Bank: v.site.bankKey(), Words: v.words.script(
		"ex-open", "ex-open-early", "ex-same", "ex-differ", "ex-unsaid", "ex-early",
		"ex-sign", "ex-sign-seen", "ex-sign-missed", "ex-again", "ex-not-kept")}
}

// bankKey tells this bank's notes on a device from another's: pages opened from
// a disk may share one store. It is made from the title, so that choices outlast
// an edition.
func (s *Site) bankKey() string {
	h := fnv.New32a()
	h.Write([]byte(s.Bank.Settings.Title.Value))
	return fmt.Sprintf("%08x", h.Sum32())
}

// script is phrases for a script, by their keys, as a JSON object; {1} to {4}
// stand where the script puts its own.
func (w *words) script(keys ...string) string {
	list := map[string]string{}
	for _, key := range keys {
		list[key] = w.say(key, "{1}", "{2}", "{3}", "{4}")
	}
	out, err := json.Marshal(list)
	if err != nil {
		return "{}" // a map of texts always has a JSON form
	}
	return string(out)
}

// sureness is how sure a reader can be, from least to most.
func (w *words) sureness() []string {
	return []string{w.say("sure-0"), w.say("sure-1"), w.say("sure-2"), w.say("sure-3")}
}
