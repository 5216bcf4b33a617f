package caption

// Track is what was said in a recording and when.
type Track struct {
	Format   string // webvtt, srt or plain
	Encoding string // utf-8, utf-16le, utf-16be or windows-1252
	Cues     []Cue  // by start time
	// Speakers lists the cues from which a speaker's name was taken away.
	Speakers []int
}

// Cue is one caption: what is said between two moments.
type Cue struct {
	Index   int     // counted from 1 in file order, empty cues included
	Line    int     // line of the file its time stands on, from 1
	Start   float64 // seconds of the recording
	End     float64 // seconds, never before Start
	Speaker string  // a role (Surgeon), or Speaker 1, Speaker 2 … in place of a name; may be empty
	Text    string  // without tags, entities, repeated lines and speaker
	Noise   bool    // nothing but a sound in brackets: [suction]
}

// Problem is something a reader could not take as it stood. Nothing in a file
// is lost without one, except what is no speech: notes, styles, regions,
// headers, cue settings and cues without text.
type Problem struct {
	Line    int    `json:"line"`           // line of the file, from 1
	Message string `json:"message"`        // what is wrong and what was done about it
	Text    string `json:"text,omitempty"` // text left out, where there is any; not yet checked for names
}

// Read reads WebVTT, SubRip or a plain transcript with a time before each line
// ("[0:27] side port"). The format is taken from the content, never from the
// name, which is used for nothing else either: it often holds a patient's name.
// A file without any cue gives an empty track and a problem that says so.
func Read(_ string, data []byte) (Track, []Problem) {
	text, encoding, problems := decode(data)
	lines := splitLines(text)
	t := Track{Encoding: encoding}
	var raw []rawCue
	var more []Problem
	switch t.Format = formatOf(lines); t.Format {
	case "webvtt":
		raw, more = readVTT(lines)
	case "srt":
		raw, more = readSRT(lines)
	default:
		raw, more = readPlain(lines)
	}
	problems = append(problems, more...)
	unroll(raw)
	more = t.fill(raw)
	problems = append(problems, more...)
	if len(t.Cues) == 0 {
		problems = append(problems, Problem{Line: 1, Message: "no caption found: want WebVTT, SubRip or lines such as [0:27] text"})
	}
	sortProblems(problems)
	return t, problems
}
