package builder

import (
	"encoding/json"
	"fmt"
	"slices"

	"caseleaf/content"
)

const (
	progressPage = "progress.html"
	progressData = "assets/exercise/cases.js"
)

// ProgressPage is what pages/progress.tmpl lays out: what a reader chose, summed
// up by a script from what the device kept, and without one a sheet to tick by
// hand.
type ProgressPage struct {
	Heading
	Exercise Exercise
	Data     string // path of the script that names what the page speaks of; "" on a part of the sheet
	Sure     []string
	Sheet    []SheetCase
	Parts    []Link // pages of the sheet; empty where it stands on one page
}

// SheetCase is a case on the sheet to tick by hand.
type SheetCase struct {
	Case  Link
	Stops []DecisionCard
}

// exerciseCase is a case as the progress page's script speaks of it.
type exerciseCase struct {
	ID    string         `json:"id"`
	Title string         `json:"title"`
	Path  string         `json:"path"`
	Stops []exerciseStop `json:"stops,omitempty"`
	Signs []exerciseSign `json:"signs,omitempty"`
}

// exerciseStop is one decision point: its key in the device's store, and what
// the script says of it.
type exerciseStop struct {
	Key     string      `json:"key"`
	Anchor  string      `json:"anchor"`
	At      string      `json:"at"`
	Ask     string      `json:"ask"`
	Options [][2]string `json:"options"` // id and text, in the page's order
	Chosen  string      `json:"chosen,omitempty"`
	Result  string      `json:"result,omitempty"`
	Step    *[2]string  `json:"step,omitempty"` // label and path of the watch page
}

// exerciseSign is one event whose first sign a reader is asked for.
type exerciseSign struct {
	Key   string     `json:"key"`
	At    string     `json:"at"`
	Event string     `json:"event"`
	Step  *[2]string `json:"step,omitempty"`
}

// planProgress makes the progress page, and pages for its sheet where the cases are
// more than an old machine can open on one.
func planProgress(s *Site) []Page { return s.progressPages(onOnePage) }

func (s *Site) progressPages(most int) []Page {
	w := s.words()
	p := &ProgressPage{Heading: s.heading(progressPage, w.say("progress")), Data: progressData, Sure: w.sureness()}
	p.Summary = w.say("progress-summary")
	p.Exercise = Exercise{Bank: s.bankKey(), Words: w.script(
		"ex-none", "ex-sums", "ex-agree", "ex-by-sureness", "ex-level", "ex-opened", "ex-read-again", "ex-nothing-again",
		"ex-you", "ex-case", "ex-case-same", "ex-missed-sign", "ex-result", "ex-early", "ex-unsaid", "ex-unsure-of", "ex-differed-at", "ex-missed", "ex-saw", "ex-by-case",
		"ex-print", "ex-save", "ex-wipe", "ex-wipe-sure", "ex-wipe-yes", "ex-wipe-no", "ex-wiped", "ex-not-kept", "ex-on-device", "ex-no-choice",
		"sure-0", "sure-1", "sure-2", "sure-3", "ex-file")}
	list := []exerciseCase{}
	var asking []*content.Case // those with decision points
	for _, c := range s.Bank.Cases {
		told, cards := s.view(c).told()
		if len(told.Stops)+len(told.Signs) > 0 {
			list = append(list, told)
		}
		if len(cards) > 0 {
			asking = append(asking, c)
		}
	}
	if data, err := json.Marshal(list); err != nil {
		s.faults = append(s.faults, err)
	} else {
		// json writes <, > and & as escapes, so no text can end the script.
		s.file(progressData, append(append([]byte("window.caseleafExercise="), data...), ";\n"...))
	}
	sheets := parting{whole: p.Heading, path: progressPage, template: "progress"}
	if len(asking) <= most {
		p.Sheet = s.sheetOf(asking)
		return sheets.after(p)
	}
	for part := range slices.Chunk(asking, most) {
		path, title := fmt.Sprintf("progress/sheet-%d.html", len(sheets.pages)+1), w.say("sheet-part", part[0].ID.Value, part[len(part)-1].ID.Value)
		sheets.add(path, title, "", func(h Heading) any { return &ProgressPage{Heading: h, Sheet: s.sheetOf(part)} })
	}
	p.Parts = sheets.links
	return sheets.after(p)
}

// sheetOf is the decision points of cases, to be ticked by hand.
func (s *Site) sheetOf(cases []*content.Case) (sheet []SheetCase) {
	for _, c := range cases {
		sheet = append(sheet, SheetCase{caseLink(c), s.view(c).decisions()})
	}
	return sheet
}

// told is a case as the script speaks of it, with its decision points.
func (v *caseView) told() (exerciseCase, []DecisionCard) {
	told := exerciseCase{ID: v.c.ID.Value, Title: caseTitle(v.c), Path: casePath(v.c.ID.Value)}
	cards := v.decisions()
	for i := range v.c.Timeline.Entries {
		e, key := &v.c.Timeline.Entries[i], v.anchors.rows[i]
		switch {
		case e.Decision != nil:
			card := &cards[len(told.Stops)]
			stop := exerciseStop{Key: key, Anchor: card.ID, At: card.At, Ask: card.Question, Chosen: e.Decision.Chosen.Value,
				Result: firstOf(card.Result, card.CameOf), Step: v.watchPage(stepOf(v.c, e.At))}
			for _, o := range card.Options {
				stop.Options = append(stop.Options, [2]string{o.ID, o.Letter + " " + o.Text})
			}
			told.Stops = append(told.Stops, stop)
		case e.Event != nil && v.asksSign(e.Event):
			step, ok := v.c.Onset(e.Event)
			if !ok {
				step = stepOf(v.c, e.At)
			}
			told.Signs = append(told.Signs, exerciseSign{key, v.words.time(e.At), v.site.Bank.Term(e.Event.Term.Value).Label, v.watchPage(step)})
		}
	}
	return told, cards
}

// asksSign reports whether a reader is asked for the first sign of an event
// before it is shown.
func (v *caseView) asksSign(e *content.Event) bool {
	return e.Sign.Known() && e.Ask.Or(v.site.Bank.Settings.AskSigns.Or(false))
}

// watchPage is the label and path of a step's page, nil where there is none.
func (v *caseView) watchPage(step string) *[2]string {
	link := v.met.link(step)
	if step == "" || link.Path == "" {
		return nil
	}
	return &[2]string{link.Text, link.Path}
}

// firstOf is the first text that is not empty.
func firstOf(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}
