package builder

import (
	"bytes"
	"html/template"

	"caseleaf/builder/pack"
	"caseleaf/builder/tally"
	"caseleaf/content"

	"golang.org/x/net/html"
)

// Parts of a case and of a decision that editions are compared by; the words
// for each are part-… in the words of the interface. The order is that in which
// a page names them.
var (
	caseParts     = []string{"before", "kit", "timeline", "choices", "outcome", "lessons", "story", "pictures", "alternatives", "limits", "sources", "related", "release"}
	decisionParts = []string{"question", "tree", "guidance", "story", "pictures", "sources"}
)

// manifest is what the handout's manifest says besides its files.
func (s *Site) manifest() Manifest {
	m := Manifest{Title: s.Masthead.Title, Edition: s.Masthead.Edition, Course: s.Options.Course}
	m.Record = s.record()
	return m
}

// record says what this edition says, for the next one to be compared with. Only
// what the pages show goes in.
func (s *Site) record() *pack.Record {
	if s.recorded != nil {
		return s.recorded
	}
	r := &pack.Record{Cases: []pack.Piece{}, Decisions: []pack.Piece{}, Rates: []pack.Rate{}}
	r.Cases = append(r.Cases, eachCase(s.Bank.Cases, func(c *content.Case) pack.Piece {
		if p, ok := s.past.piece(s.keys.ofRecord(c)); ok {
			return p
		}
		return pack.Piece{ID: c.ID.Value, Parts: s.partsOfCase(c, s.Prose(&c.Body, casePath(c.ID.Value)))}
	})...)
	for _, d := range s.Bank.Decisions {
		r.Decisions = append(r.Decisions, pack.Piece{ID: d.ID.Value, Parts: s.partsOfDecision(d, s.Prose(&d.Body, decisionPath(d.ID.Value)))})
	}
	if rates, ok := s.past.rates(s.keys); ok {
		r.Rates = append(r.Rates, rates...)
	} else if s.Bank.Logbook.Len() > 0 {
		r.Rates = append(r.Rates, recordedRates(s.published())...)
	}
	s.recorded = r
	return r
}

// recordedRates are the rates of a result as the manifest records them.
func recordedRates(result *tally.Result) []pack.Rate {
	text := func(c tally.Count) string { return c.Text(result.Source.Threshold) }
	rates := []pack.Rate{{Operations: text(result.Source.Operations)}}
	for _, row := range result.Complications {
		rates = append(rates, pack.Rate{
			Complication: row.Complication, Technique: row.Technique, Events: text(row.Events), Operations: text(row.Operations),
		})
	}
	return rates
}

func (s *Site) partsOfCase(c *content.Case, story template.HTML) map[string]string {
	var happened, chosen []content.Entry
	for _, e := range c.Timeline.Entries {
		if e.Decision != nil {
			chosen = append(chosen, e)
		} else {
			happened = append(happened, e)
		}
	}
	return withoutEmpty(map[string]string{
		"before": digest(c.Title, c.Summary, c.Procedure, c.Technique, c.Surgeon, c.Eye, c.ClockFrame, c.Anaesthesia,
			c.Plan, c.BackupPlan, c.History, c.Examination, c.Patient, c.Cataract, c.Measures),
		"kit": digest(c.Kit), "timeline": digest(happened, c.Recording), "choices": digest(chosen),
		"outcome": digest(c.Outcome), "lessons": digest(c.Lessons), "alternatives": digest(c.Alternatives),
		"limits": digest(c.Limits), "sources": digest(c.Sources), "related": digest(c.Related),
		"release": digest(c.Release.Consent, c.Release.Reason, c.Release.ReviewedBy, c.Release.Reviewed),
		"story":   digest(readAs(story)), "pictures": s.digestPictures(c.Body.Pictures),
	})
}

func (s *Site) partsOfDecision(d *content.Decision, story template.HTML) map[string]string {
	return withoutEmpty(map[string]string{
		"question": digest(d.Title, d.Question, d.Steps, d.Complications, d.Trigger), "tree": digest(d.Options, d.Value),
		"guidance": digest(d.Agreed, d.Thresholds, d.Caution, d.Ready), "sources": digest(d.Sources),
		"story": digest(readAs(story)), "pictures": s.digestPictures(d.Body.Pictures),
	})
}

func withoutEmpty(parts map[string]string) map[string]string {
	for name, sum := range parts {
		if sum == "" {
			delete(parts, name)
		}
	}
	return parts
}

// digestPictures is the digest of pictures as they are published.
func (s *Site) digestPictures(list []string) string {
	var all [][]byte
	for _, file := range list {
		// One that can't be read stops the build where it is written.
		if data, err := s.picture(file); err == nil {
			all = append(all, data)
		}
	}
	return digest(all)
}

// readAs is a text as it is read: its words, and what stands for its pictures,
// without the mark-up that a later caseleaf may write differently.
func readAs(page template.HTML) string {
	var out bytes.Buffer
	z := html.NewTokenizer(bytes.NewReader([]byte(page)))
	for {
		switch z.Next() {
		case html.ErrorToken:
			return string(bytes.Join(bytes.Fields(out.Bytes()), []byte(" ")))
		case html.TextToken:
			out.Write(z.Text())
		default:
			readTag(z, &out)
		}
	}
}

// readTag writes what stands for an element: a blank where a block begins or
// ends, and the words of a picture.
func readTag(z *html.Tokenizer, out *bytes.Buffer) {
	name, more := z.TagName()
	switch string(name) {
	case "a", "b", "code", "del", "em", "i", "kbd", "mark", "s", "small", "span", "strong", "sub", "sup":
		return
	}
	out.WriteByte(' ')
	for more && string(name) == "img" {
		var key, value []byte
		if key, value, more = z.TagAttr(); string(key) == "alt" {
			out.Write(value)
		}
	}
}
