package caption

import (
	"html"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

var (
	tag      = regexp.MustCompile(`</?[A-Za-z][^<>]*>|<[0-9][0-9:.,]*>|</>`)
	override = regexp.MustCompile(`\{\\[^{}]*\}`) // {\an8}
	voiceTag = regexp.MustCompile(`<v(?:\.[^ \t>]*)?[ \t]+([^<>]*)>`)
	spaces   = regexp.MustCompile(`[\s\x{00A0}\x{2007}\x{202F}]+`)
	noise    = regexp.MustCompile(`^(?:\[[^\]]*\]|\([^)]*\)|[♪♫*#\s]+)$`)
	prefix   = regexp.MustCompile(`^([A-Z][A-Za-z.'’-]*(?: [A-Z][A-Za-z.'’-]*){0,3}):\s+(.+)$`)
)

// cleanText takes tags, style overrides and entities out of one line and makes
// white space single. A lone "<" as in "pupil < 5 mm" stays.
func cleanText(line string) string {
	line = tag.ReplaceAllString(line, "")
	line = override.ReplaceAllString(line, "")
	line = html.UnescapeString(line)
	line = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == '\u200b' || r == '\u200e' || r == '\u200f' || r == '\ufeff' {
			return -1
		}
		return r
	}, line)
	return strings.TrimSpace(spaces.ReplaceAllString(norm.NFC.String(line), " "))
}

// voiceOf returns the name in the first voice tag of a line.
func voiceOf(line string) string {
	if m := voiceTag.FindStringSubmatch(line); m != nil {
		return strings.TrimSpace(html.UnescapeString(m[1]))
	}
	return ""
}

// roles are speakers that identify nobody.
var roles = []string{
	"anaesthetist", "anesthetist", "assistant", "consultant", "fellow", "narrator", "nurse", "patient",
	"registrar", "resident", "scrub nurse", "surgeon", "trainee", "trainer", "tutor", "voice",
}

var speakerN = regexp.MustCompile(`^(?i:speaker) ?[0-9]{1,2}$`)

// headings are words before a colon that are no speaker.
var headings = []string{"aim", "answer", "caution", "finding", "findings", "lesson", "next", "note", "plan", "point", "question", "remember", "step", "tip", "warning"}

// fill makes cues of raw ones: names of speakers taken away, order of time,
// odd times put right, overlaps and repeats reported.
func (t *Track) fill(raw []rawCue) []Problem {
	var problems []Problem
	names := make(map[string]string)
	for i, r := range raw {
		c := Cue{Index: i + 1, Line: r.line, Start: r.start, End: r.end, Text: strings.TrimSpace(strings.Join(r.lines, " "))}
		if c.End < c.Start {
			problems = append(problems, Problem{Line: r.line, Message: "ends before it starts; the start is kept"})
			c.End = c.Start
		}
		voice := r.voice
		if m := prefix.FindStringSubmatch(c.Text); m != nil && voice == "" && !slices.Contains(headings, strings.ToLower(m[1])) {
			voice, c.Text = m[1], m[2]
		}
		c.Speaker = t.neutral(voice, names, c.Index)
		if c.Text == "" {
			continue
		}
		c.Noise = noise.MatchString(c.Text)
		t.Cues = append(t.Cues, c)
	}
	slices.SortStableFunc(t.Cues, func(a, b Cue) int {
		switch {
		case a.Start < b.Start:
			return -1
		case a.Start > b.Start:
			return 1
		}
		return a.Index - b.Index
	})
	return append(problems, t.tidy()...)
}

// neutral turns a speaker's name into a number and leaves a role as it is.
func (t *Track) neutral(voice string, names map[string]string, index int) string {
	key := strings.ToLower(voice)
	switch {
	case key == "":
		return ""
	case slices.Contains(roles, key):
		return strings.ToUpper(key[:1]) + key[1:]
	case speakerN.MatchString(voice):
		return "Speaker " + strings.TrimSpace(key[len("speaker"):])
	}
	t.Speakers = append(t.Speakers, index)
	if names[key] == "" {
		names[key] = "Speaker " + itoa(len(names)+1)
	}
	return names[key]
}

// tidy drops cues that say the same at the same time and reports overlaps.
func (t *Track) tidy() []Problem {
	var problems []Problem
	var kept []Cue
	for _, c := range t.Cues {
		if n := len(kept); n > 0 {
			p := kept[n-1]
			if p.Start == c.Start && p.Text == c.Text {
				problems = append(problems, Problem{Line: c.Line, Message: "says the same at the same time as the cue before, left out"})
				continue
			}
			if c.Start < p.End-0.001 {
				problems = append(problems, Problem{Line: c.Line, Message: "overlaps the cue that starts at " + clock(p.Start)})
			}
		}
		kept = append(kept, c)
	}
	t.Cues = kept
	return problems
}

func sortProblems(problems []Problem) {
	slices.SortStableFunc(problems, func(a, b Problem) int { return a.Line - b.Line })
}
