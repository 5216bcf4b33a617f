package content

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"caseleaf/content/caption"
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
	"caseleaf/content/privacy"

	"gopkg.in/yaml.v3"
)

// Clip is a short piece of a case's recording: a file beside the case, without
// sound, with its captions as text.
type Clip struct {
	Span     diagnose.Span
	File     Given[string] // name beside the case
	From     Given[measure.Time]
	To       Given[measure.Time]
	Title    Given[string]
	Captions Given[string] // name of a WebVTT or SubRip file beside the case

	Name string        // path in the bank; empty where there is no such file
	Cues []caption.Cue // seconds of the clip
}

var clipFields = &shape[Clip]{
	name: "a clip", doc: "A short piece of the recording, beside the case.",
	fields: []field[Clip]{
		must(like(one("file", "name of an MP4 file beside the case, without a sound track", text, func(c *Clip) *Given[string] { return &c.File }), "first-billow.mp4")),
		must(like(one("from", "time of the recording at which it begins", videoTime, func(c *Clip) *Given[measure.Time] { return &c.From }), "2:50")),
		must(like(one("to", "time of the recording at which it ends", videoTime, func(c *Clip) *Given[measure.Time] { return &c.To }), "3:25")),
		like(one("title", "what it shows, in a few words", text, func(c *Clip) *Given[string] { return &c.Title }), "The first billow"),
		like(one("captions", "name of a WebVTT or SubRip file beside the case, its times counted from the clip's beginning", text, func(c *Clip) *Given[string] { return &c.Captions }), "first-billow.vtt"),
	},
	place: place(func(c *Clip) *diagnose.Span { return &c.Span }),
	check: func(r *reader, _ *yaml.Node, c *Clip) {
		if c.From.Known() && c.To.Known() && c.To.Value <= c.From.Value {
			r.bag.Error("impossible-value", c.To.Span, "the clip ends at %s and begins at %s", c.To.Value, c.From.Value).Also(c.From.Span, "the beginning")
		}
	},
}

// clipEndings are the endings of clips that can be published.
var clipEndings = []string{".mp4", ".m4v", ".mov"}

// clipsOf reads the clips of a case and gives what the privacy check has to see
// of them: their names, their sound, their captions.
func (l *loader) clipsOf(c *Case) pictureFindings {
	var all pictureFindings
	for i := range c.Clips {
		clip := &c.Clips[i]
		name, data, ok := l.beside(c, clip.File, clipEndings, "a clip is an MP4 file")
		if !ok {
			continue
		}
		cleaned, _, err := privacy.Clean(name, data)
		if err != nil {
			l.bag.Error("refused-picture", clip.File.Span, "%s can't be published: %s", quoteShort(clip.File.Value), refusal(err))
			continue
		}
		clip.Name = name
		all = append(all, namePart(name, clip.File.Span, "the name of a clip: "))
		all = append(all, mediaFindings(name, data, clip.File.Span, cleaned, c.Release)...)
		if !clip.Captions.Known() {
			l.bag.Warn("no-description", clip.Span, "the clip has no captions for people who can't see it")
			continue
		}
		all = append(all, l.captionsOf(c, clip)...)
	}
	return all
}

// captionsOf reads a clip's captions.
func (l *loader) captionsOf(c *Case, clip *Clip) pictureFindings {
	at := clip.Captions.Span
	name, data, ok := l.beside(c, clip.Captions, []string{".vtt", ".srt"}, "captions are a WebVTT or SubRip file")
	if !ok {
		return nil
	}
	track, _ := caption.Read(name, data)
	if len(track.Cues) == 0 {
		l.bag.Error("bad-value", at, "%s holds no captions", quoteShort(clip.Captions.Value))
		return nil
	}
	clip.Cues = track.Cues
	words := part{zone: privacy.Caption, text: string(data), at: -1, span: at, what: "in the captions: "}
	return pictureFindings{namePart(name, at, "the name of captions: "), {part: words}}
}

func namePart(name string, at diagnose.Span, what string) pictureFinding {
	return pictureFinding{part: part{zone: privacy.Filename, text: name, at: -1, span: at, what: what}}
}

// beside reads a file that a case names.
func (l *loader) beside(c *Case, file Given[string], endings []string, what string) (name string, data []byte, ok bool) {
	if !file.Known() {
		return "", nil, false
	}
	name = path.Join(path.Dir(c.File), file.Value)
	switch {
	case !slices.Contains(endings, strings.ToLower(path.Ext(name))):
		l.bag.Error("bad-value", file.Span, "%s; found %s", what, quoteShort(file.Value))
		return "", nil, false
	case !fs.ValidPath(name) || strings.ContainsAny(file.Value, `\:`):
		l.bag.Error("unknown-file", file.Span, "%s lies outside the bank", quoteShort(file.Value))
		return "", nil, false
	}
	info, err := fs.Lstat(l.fsys, name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		l.bag.Error("unknown-file", file.Span, "%s was not found beside the case", quoteShort(file.Value))
		return "", nil, false
	case err == nil && !info.Mode().IsRegular():
		l.bag.Error("not-read", file.Span, "%s is %s", quoteShort(file.Value), noFile(info.Mode()))
		return "", nil, false
	}
	data, err = fs.ReadFile(l.fsys, name)
	if err != nil {
		l.fail(err)
	}
	return name, data, err == nil
}
