package builder

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"slices"

	"caseleaf/content"
	"caseleaf/content/measure"
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
	events := []placed{}
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
		if e.Event != nil {
			events = append(events, placed{e.Event, len(list) - 1, len(now.Rows)})
		}
		now.Rows = append(now.Rows, rows[i])
	}
	stops := v.c.Decisions()
	// From the last to the first: what is held back goes to the head of a later
	// stretch, so that places in earlier ones stand.
	for _, p := range slices.Backward(events) {
		v.holdBack(list, stops, p)
	}
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

// placed is an event and where its row stands.
type placed struct {
	event        *content.Event
	stretch, row int
}

// holdBack moves what was done about an event, and how it spread, behind the
// decision point that follows it, unless it is known to have come before: what
// was done is often the very answer.
func (v *caseView) holdBack(list []Stretch, stops []*content.Entry, p placed) {
	if list[p.stretch].Stop == nil {
		return
	}
	row, at := &list[p.stretch].Rows[p.row], stops[p.stretch].At
	more := TimelineRow{ID: row.ID + "-on", Held: true, Kind: row.Kind, KindWord: row.KindWord, Name: row.Name}
	more.Name.Note = v.words.say("went-on")
	var last content.Given[measure.Time]
	kept := row.Moments[:2:2] // began and noticed
	if before(p.event.Acted, at) {
		kept = append(kept, row.Moments[2])
	} else {
		more.Lines, row.Hidden = row.Hidden, nil
		more.Moments, last = append(more.Moments, row.Moments[2]), p.event.Acted
	}
	for i, s := range p.event.Spread {
		if before(s.At, at) {
			kept = append(kept, row.Moments[3+i])
			continue
		}
		more.Moments, last = append(more.Moments, row.Moments[3+i]), s.At
	}
	if more.Moments == nil {
		return
	}
	row.Moments = kept
	more.At = v.words.time(last)
	to := p.stretch + 1
	for to < len(stops) && last.Known() && !before(last, stops[to].At) {
		to++
	}
	list[to].Rows = slices.Insert(list[to].Rows, 0, more)
}

// before reports that a moment is known to lie before a decision.
func before(t, at content.Given[measure.Time]) bool {
	return t.Known() && at.Known() && t.Value < at.Value
}

// overview names every entry, with a link to its place.
func (v *caseView) overview() []Moment {
	var list []Moment
	for i := range v.c.Timeline.Entries {
		e := &v.c.Timeline.Entries[i]
		m := Moment{At: v.words.time(e.At), ID: v.anchors.rows[i]}
		switch {
		case e.Step != nil:
			m.Label = v.site.Bank.Term(e.Step.Term.Value).Label
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
