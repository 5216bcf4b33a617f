package caption

import (
	"fmt"
	"strings"
)

// rawCue is a cue as it stands in the file.
type rawCue struct {
	line       int // of the time, from 1
	start, end float64
	lines      []string // without tags; the lines of text
	voice      string   // from a voice tag
}

// formatOf tells the formats apart by what they contain.
func formatOf(lines []string) string {
	for _, l := range lines {
		if l = strings.TrimSpace(l); l == "" {
			continue
		}
		if l == "WEBVTT" || strings.HasPrefix(l, "WEBVTT ") || strings.HasPrefix(l, "WEBVTT\t") {
			return "webvtt"
		}
		break
	}
	for _, l := range lines {
		if strings.Contains(l, "-->") {
			return "srt"
		}
	}
	return "plain"
}

// readVTT reads WebVTT blocks. Header, NOTE, STYLE and REGION blocks are no
// speech. A block whose time line cannot be read is left out and reported.
func readVTT(lines []string) ([]rawCue, []Problem) {
	var cues []rawCue
	var problems []Problem
	header := true
	for at := 0; at < len(lines); {
		if strings.TrimSpace(lines[at]) == "" {
			at++
			continue
		}
		end := at
		for end < len(lines) && strings.TrimSpace(lines[end]) != "" {
			end++
		}
		block := lines[at:end]
		first := strings.TrimSpace(block[0])
		switch {
		case header || isBlock(first, "NOTE") || isBlock(first, "STYLE") || isBlock(first, "REGION"):
		default:
			cue, more := vttCue(block, at)
			cues = append(cues, cue...)
			problems = append(problems, more...)
		}
		header = false
		at = end
	}
	return cues, problems
}

func isBlock(line, word string) bool {
	return line == word || strings.HasPrefix(line, word+" ") || strings.HasPrefix(line, word+"\t")
}

// vttCue reads one block that starts at line index at. A second time line
// inside the block begins another cue: a forgotten blank line loses nothing.
func vttCue(block []string, at int) ([]rawCue, []Problem) {
	var cues []rawCue
	var problems []Problem
	var loose []string // lines before the first time line: the cue's identifier
	bad := 0           // line of a time line not understood, whose text follows
	for i, line := range block {
		if strings.Contains(line, "-->") {
			loose = nil
			c, err := timeLine(line)
			if bad = 0; err != nil {
				bad = at + i + 1
				problems = append(problems, Problem{Line: bad, Message: err.Error() + ", cue left out"})
				continue
			}
			c.line = at + i + 1
			cues = append(cues, c)
			continue
		}
		switch {
		case bad != 0:
			last := &problems[len(problems)-1]
			last.Text = strings.TrimSpace(last.Text + " " + cleanText(line))
		case len(cues) == 0:
			loose = append(loose, line)
		default:
			c := &cues[len(cues)-1]
			if c.voice == "" {
				c.voice = voiceOf(line)
			}
			c.lines = append(c.lines, cleanText(line))
		}
	}
	if len(loose) > 0 && len(cues) == 0 && bad == 0 {
		problems = append(problems, Problem{Line: at + 1, Message: "text without a time, left out", Text: cleanText(strings.Join(loose, " "))})
	}
	return cues, problems
}

// readSRT reads SubRip by its time lines alone, since blank lines, numbers and
// dividers are unreliable: all between two time lines is text, but for a
// number that stands right before a time line.
func readSRT(lines []string) ([]rawCue, []Problem) {
	var cues []rawCue
	var problems []Problem
	open := false // text belongs to the last cue
	for i, line := range lines {
		trimmed := strings.TrimSpace(line)
		if strings.Contains(line, "-->") {
			c, err := timeLine(line)
			if open = err == nil; !open {
				problems = append(problems, Problem{Line: i + 1, Message: err.Error() + ", cue left out"})
				continue
			}
			c.line = i + 1
			cues = append(cues, c)
			continue
		}
		if trimmed == "" || isNumberOfNext(lines, i) {
			continue
		}
		text := cleanText(line)
		switch {
		case open:
			c := &cues[len(cues)-1]
			if c.voice == "" {
				c.voice = voiceOf(line)
			}
			c.lines = append(c.lines, text)
		case len(problems) > 0 && strings.HasSuffix(problems[len(problems)-1].Message, "cue left out"):
			last := &problems[len(problems)-1]
			last.Text = strings.TrimSpace(last.Text + " " + text)
		case text != "":
			problems = append(problems, Problem{Line: i + 1, Message: "text without a time, left out", Text: text})
		}
	}
	return cues, problems
}

// isNumberOfNext reports whether line i is the number of the cue whose time
// line follows: digits right before it, and not the only text of the cue above.
func isNumberOfNext(lines []string, i int) bool {
	number := strings.TrimSpace(lines[i])
	if number == "" || strings.Trim(number, "0123456789") != "" {
		return false
	}
	return i+1 < len(lines) && strings.Contains(lines[i+1], "-->") &&
		(i == 0 || !strings.Contains(lines[i-1], "-->"))
}

// readPlain reads "[0:27] text" lines; a line without a time continues the one
// above. A cue lasts until the next begins.
func readPlain(lines []string) ([]rawCue, []Problem) {
	var cues []rawCue
	var problems []Problem
	for i, line := range lines {
		if strings.TrimSpace(line) == "" {
			continue
		}
		start, rest, ok := leadingTime(line)
		switch {
		case ok:
			cues = append(cues, rawCue{line: i + 1, start: start, end: -1, lines: []string{cleanText(rest)}})
		case len(cues) > 0:
			c := &cues[len(cues)-1]
			c.lines = append(c.lines, cleanText(line))
		default:
			problems = append(problems, Problem{Line: i + 1, Message: "text before the first time, left out", Text: cleanText(line)})
		}
	}
	for i := range cues {
		words := len(strings.Fields(strings.Join(cues[i].lines, " ")))
		cues[i].end = cues[i].start + max(1, 0.4*float64(words)) // a speaking pace, for the last cue
		if i+1 < len(cues) && cues[i+1].start > cues[i].start {
			cues[i].end = cues[i+1].start
		}
	}
	return cues, problems
}

// timeLine reads "start --> end settings".
func timeLine(line string) (rawCue, error) {
	before, after, _ := strings.Cut(line, "-->")
	start, ok := parseTime(strings.TrimSpace(before))
	fields := strings.Fields(after)
	if !ok || len(fields) == 0 {
		return rawCue{}, fmt.Errorf("time line not understood")
	}
	end, ok := parseTime(fields[0])
	if !ok {
		return rawCue{}, fmt.Errorf("time line not understood")
	}
	return rawCue{start: start, end: end}, nil
}

// parseTime reads [h:]mm:ss[.fff] with dot or comma into seconds. Hours may be
// missing and any part but the seconds' fraction may have one digit.
func parseTime(s string) (float64, bool) {
	whole, fraction, _ := strings.Cut(strings.ReplaceAll(s, ",", "."), ".")
	parts := strings.Split(whole, ":")
	if len(parts) < 2 || len(parts) > 3 || len(fraction) > 6 {
		return 0, false
	}
	milli := 0
	for i, p := range parts {
		n, ok := digits(p)
		if !ok || len(p) > 2 && i > 0 || n > 59 && i > 0 || n > 999 {
			return 0, false
		}
		milli = milli*60 + n
	}
	milli *= 1000
	if fraction != "" {
		n, ok := digits((fraction + "00")[:3])
		if !ok {
			return 0, false
		}
		milli += n
	}
	return float64(milli) / 1000, true
}

// digits reads one to four decimal digits.
func digits(s string) (int, bool) {
	if s == "" || len(s) > 4 {
		return 0, false
	}
	n := 0
	for _, r := range s {
		if r < '0' || r > '9' {
			return 0, false
		}
		n = 10*n + int(r-'0')
	}
	return n, true
}

// leadingTime takes a time, bracketed or bare, off the front of a line.
func leadingTime(line string) (seconds float64, rest string, ok bool) {
	line = strings.TrimSpace(line)
	for _, pair := range []string{"[]", "()", "<>"} {
		if line != "" && line[0] == pair[0] {
			inside, after, found := strings.Cut(line[1:], pair[1:])
			if seconds, ok = parseTime(strings.TrimSpace(inside)); found && ok {
				return seconds, after, true
			}
			return 0, "", false
		}
	}
	first, after, _ := strings.Cut(line, " ")
	seconds, ok = parseTime(strings.TrimRight(first, ":-"))
	return seconds, strings.TrimLeft(after, " -:\t"), ok
}
