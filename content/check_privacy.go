package content

import (
	"bytes"
	"strings"
	"sync"

	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

// The privacy gate: every text of a bank is scanned before anything is built.
// Findings that block are errors; the rest are warnings, which stop a zip.

// gate scans the files of one bank.
type gate struct {
	bag     *diagnose.Bag
	scanner *privacy.Scanner
	reveal  bool // show an author the identifiers in full
}

// checkPrivacy scans all texts and file names of a bank, several at a time.
func checkPrivacy(b *Bank, bag *diagnose.Bag, reveal bool) *privacy.Scanner {
	g := &gate{bag: bag, scanner: privacy.New(privacy.Options{Vocabulary: b.Vocabulary}), reveal: reveal}
	var wg sync.WaitGroup
	each := func(scan func()) { wg.Go(scan) }
	each(func() {
		for _, c := range b.Cases {
			g.markdown(c.Source, c.File, &c.Body, c.Exceptions)
		}
	})
	each(func() {
		for _, d := range b.Decisions {
			g.markdown(d.Source, d.File, &d.Body, d.Exceptions)
		}
		for _, c := range b.Courses {
			g.file(c.Source, []part{{privacy.FrontMatter, string(c.Source.Data), 0}, nameOf(c.File)}, nil)
		}
		for _, src := range []*diagnose.Source{b.Settings.Source, b.termsSource} {
			if src != nil {
				g.file(src, []part{{privacy.FrontMatter, string(src.Data), 0}}, nil)
			}
		}
	})
	wg.Wait()
	return g.scanner
}

// part is one text of a file and where it begins in it; at is -1 for the
// file's name, which stands nowhere in the file.
type part struct {
	zone privacy.Zone
	text string
	at   int
}

func nameOf(file string) part { return part{privacy.Filename, file, -1} }

// markdown scans a case or decision: front matter, body, name and the names of
// its pictures.
func (g *gate) markdown(src *diagnose.Source, file string, body *Body, exceptions []PrivacyException) {
	front := src.Data[:body.offset]
	parts := []part{
		{privacy.FrontMatter, string(withoutFences(front)), bytes.Index(front, withoutFences(front))},
		{privacy.Body, string(body.Markdown), body.offset},
		nameOf(file),
	}
	for _, p := range body.Pictures {
		parts = append(parts, nameOf(p))
	}
	g.file(src, parts, exceptions)
}

// withoutFences drops the --- lines round front matter.
func withoutFences(front []byte) []byte {
	_, rest, _ := bytes.Cut(front, []byte("\n"))
	if i := bytes.LastIndex(bytes.TrimRight(rest, "\n"), []byte("\n")); i >= 0 {
		return rest[:i+1]
	}
	return rest
}

func (g *gate) file(src *diagnose.Source, parts []part, exceptions []PrivacyException) {
	texts := make([]privacy.Text, len(parts))
	for i, p := range parts {
		texts[i] = privacy.Text{Zone: p.zone, Raw: p.text, Findings: g.outside(p, src, exceptions)}
	}
	given := make([]privacy.Exception, len(exceptions))
	for i := range exceptions {
		given[i] = exceptions[i].plain()
	}
	left, used, problems := g.scanner.Apply(texts, given)
	for _, f := range left {
		g.report(src, parts[f.Text], f.Finding)
	}
	for _, p := range problems {
		g.bag.Error("bad-exception", exceptions[p.Index].Span, "privacy exception: %s", p.Message)
	}
	for i, n := range used {
		if n > 0 {
			e := &exceptions[i]
			g.bag.Note("privacy-exception", e.Span, "a reviewed exception covers %d of class %s (%s, %s): %s",
				n, e.Class.Value, e.Kind.Value, e.ReviewedBy.Value, e.Reason.Value)
		}
	}
}

// outside scans a part and leaves out what stands in the exceptions themselves,
// which must name what they except.
func (g *gate) outside(p part, src *diagnose.Source, exceptions []PrivacyException) []privacy.Finding {
	found := g.scanner.Scan(p.zone, p.text)
	if len(exceptions) == 0 || p.zone != privacy.FrontMatter {
		return found
	}
	var kept []privacy.Finding
	for _, f := range found {
		line := src.SpanAt(p.at+f.Start, 0).Line
		if !withinExceptions(line, exceptions) {
			kept = append(kept, f)
		}
	}
	return kept
}

func withinExceptions(line int, exceptions []PrivacyException) bool {
	for _, e := range exceptions {
		if e.Match.Known() && e.Match.Span.Line == line {
			return true
		}
	}
	return false
}

func (g *gate) report(src *diagnose.Source, p part, f privacy.Finding) {
	span := diagnose.Span{Source: src}
	if p.at >= 0 {
		span = src.SpanAt(p.at+f.Start, f.End-f.Start)
	}
	message := f.Message(p.text, g.reveal)
	if p.zone == privacy.Filename {
		message = "the name of the file or of a picture: " + message
	}
	add := g.bag.Warn
	if f.Severity == privacy.Block {
		add = g.bag.Error
	}
	add("identifying", span, "%s", strings.TrimSuffix(message, ".")).Hidden = !g.reveal
}

// hideIdentifiers takes identifiers out of everything that is printed: no line
// that holds one is shown, and no message repeats one.
func hideIdentifiers(found diagnose.Diagnostics, scanner *privacy.Scanner) {
	type place struct {
		src  *diagnose.Source
		line int
	}
	lines := map[place]bool{}
	for _, d := range found {
		if d.Hidden {
			lines[place{d.Span.Source, d.Span.Line}] = true
		}
	}
	for _, d := range found {
		if d.Code == "identifying" || !lines[place{d.Span.Source, d.Span.Line}] {
			continue
		}
		d.Hidden = true
		hits := scanner.Scan(privacy.Body, d.Message)
		for i := len(hits) - 1; i >= 0; i-- {
			d.Message = d.Message[:hits[i].Start] + privacy.Mask(d.Message[hits[i].Start:hits[i].End]) + d.Message[hits[i].End:]
		}
	}
}

func (e *PrivacyException) plain() privacy.Exception {
	return privacy.Exception{
		Class: privacy.Class(e.Class.Value), Where: privacy.Zone(e.Where.Value), Match: e.Match.Value, Count: e.Count.Value,
		Kind: privacy.ExceptionKind(e.Kind.Value), Reason: e.Reason.Value, ReviewedBy: string(e.ReviewedBy.Value),
		Reviewed: e.Reviewed.Value, Consent: e.Consent.Value,
	}
}
