package builder

import "caseleaf/content"

// ReadingPage is what pages/course-reading.tmpl lays out: the cases to read
// before, station by station, with the questions they put. No answer is on it.
type ReadingPage struct {
	Heading
	Stations []ReadingBlock
}

// ReadingBlock is what one station asks to be read.
type ReadingBlock struct {
	ID    string
	Title string
	Cases []ReadingCase
}

// ReadingCase is a case with the questions it puts.
type ReadingCase struct {
	Case      Link
	Summary   string
	Questions []Link // text is the question, the note its time
}

func (v *courseView) readingPage() *ReadingPage {
	w := v.words
	p := &ReadingPage{Heading: v.heading(w.say("course-reading"), w.say("course-reading-summary"))}
	for i := range v.c.Stations {
		st := &v.c.Stations[i]
		b := ReadingBlock{ID: stationAnchor(st), Title: v.stationName(i)}
		for _, c := range v.casesOf(st) {
			b.Cases = append(b.Cases, ReadingCase{Case: caseLink(c), Summary: c.Summary.Value, Questions: v.questions(c)})
		}
		if len(b.Cases) > 0 {
			p.Stations = append(p.Stations, b)
		}
	}
	return p
}

// questions are the decision points of a case, as they stood then.
func (v *courseView) questions(c *content.Case) []Link {
	var list []Link
	ids := anchorsOf(c).rows
	for i := range c.Timeline.Entries {
		e := &c.Timeline.Entries[i]
		if e.Decision != nil {
			list = append(list, Link{
				Text: e.Decision.Question.Value, Path: casePath(c.ID.Value) + "#" + ids[i], Note: v.words.say("at-time", v.words.time(e.At)),
			})
		}
	}
	return list
}
