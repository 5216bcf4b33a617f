package builder

import (
	"fmt"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// ClipFigure is a short clip with its captions as text. Times are of the
// recording; a script moves the clip to them.
type ClipFigure struct {
	ID       string
	File     string // path below the handout
	From, To int    // seconds of the recording
	Span     string // the same in words
	Title    string
	Cues     []ClipCue
}

// ClipCue is one caption.
type ClipCue struct{ At, Text string }

// shownBy lists the media files of a case, pictures first.
func shownBy(c *content.Case) []string {
	files := c.Body.Pictures[:len(c.Body.Pictures):len(c.Body.Pictures)]
	for i := range c.Clips {
		if name := c.Clips[i].Name; name != "" {
			files = append(files, name)
		}
	}
	return files
}

// placeClips puts each clip into the stretch in which it ends, so that none
// shows what a decision point before its end asks.
func (v *caseView) placeClips(list []Stretch) {
	stops := v.c.Decisions()
	for i := range v.c.Clips {
		clip := &v.c.Clips[i]
		if clip.Name == "" || !clip.From.Known() || !clip.To.Known() {
			continue
		}
		to := 0
		for to < len(stops) && !(stops[to].At.Known() && clip.To.Value <= stops[to].At.Value) {
			to++
		}
		list[to].Clips = append(list[to].Clips, v.clipFigure(i, clip))
	}
}

func (v *caseView) clipFigure(i int, clip *content.Clip) ClipFigure {
	w := v.words
	f := ClipFigure{
		ID: fmt.Sprintf("clip-%d", i+1), File: v.site.pictures[clip.Name],
		From: clip.From.Value.Seconds(), To: clip.To.Value.Seconds(),
		Span:  w.say("clip-span", clip.From.Value.String(), clip.To.Value.String()),
		Title: clip.Title.Or(w.say("clip")),
	}
	for _, cue := range clip.Cues {
		at := clip.From.Value + measure.Time(cue.Start)
		f.Cues = append(f.Cues, ClipCue{At: at.String(), Text: cue.Text})
	}
	return f
}
