package content

import (
	"bytes"
	"slices"
	"strings"

	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

// The privacy gate: every text of a bank is scanned before anything is built.
// Findings that block are errors; the rest are warnings, which stop a zip.
//
// It works in three rounds: all texts are scanned, several at a time; the cases
// are held against one another (check_rare.go); then the reviewed exceptions of
// each file take out what they cover and the rest is reported.

// gate scans the files of one bank.
type gate struct {
	bank    *Bank
	bag     *diagnose.Bag
	scanner *privacy.Scanner
	reveal  bool // show an author the identifiers in full
	veil    *veil
	memo    *Memo                // of the last reading; nil for none
	known   map[*Case]*knownCase // cases that stand as they were at the last reading
	cases   map[*Case]*knownCase // what was found in each other case
}

// scanned is one file of the bank on its way through the gate.
type scanned struct {
	src        *diagnose.Source
	parts      []part
	found      [][]privacy.Finding // of each part
	exceptions []PrivacyException
	rare       *rareFinding // a case that few others resemble
	known      bool         // scanned at an earlier reading
	open       int          // line of a course's period, which is a date of no patient
}

// part is one text of a file and where it begins in it. What stands nowhere in
// the file, a name or a text in a picture, has at -1 and the place to report.
type part struct {
	zone privacy.Zone
	text string
	at   int
	span diagnose.Span
	what string // said before the message: what the text is
}

// newGate makes the gate of a bank with the bank's own words.
func newGate(b *Bank, bag *diagnose.Bag, options Options) *gate {
	told := b.Settings.Privacy
	var scanner *privacy.Scanner
	if options.Memo != nil {
		scanner = options.Memo.scanner // the words are the same, or there is none
	}
	if scanner == nil {
		scanner = privacy.New(privacy.Options{Vocabulary: b.Vocabulary, Eponyms: values(told.Eponyms), AllowHosts: values(told.URLAllow)})
	}
	return &gate{bank: b, bag: bag, scanner: scanner, reveal: options.Reveal, memo: options.Memo, veil: newVeil(scanner), cases: map[*Case]*knownCase{}}
}

// check scans all texts and names of the bank. media holds what was found in
// the pictures and clips that each narrative shows.
func (g *gate) check(media map[*Body]pictureFindings) {
	files := g.files(media)
	each(files, g.scan)
	g.remember(files)
	g.checkRare(files)
	for _, f := range files {
		g.settle(f)
	}
	told := g.bank.Settings.Privacy
	for _, e := range append(told.Eponyms, told.URLAllow...) {
		g.bag.Note("privacy-exception", e.Span, "the privacy check lets %s stand in the whole bank, since bank.yaml lists it", e.Value)
	}
}

// remember works out of each case that is not known what it publishes of its
// patient, and keeps that with what was found in it. The cases come first.
func (g *gate) remember(files []*scanned) {
	found := make([]*knownCase, len(g.bank.Cases))
	var fresh []int
	for i, c := range g.bank.Cases {
		if found[i] = g.known[c]; found[i] == nil {
			fresh = append(fresh, i)
		}
	}
	each(fresh, func(i int) {
		c := g.bank.Cases[i]
		found[i] = &knownCase{c: c, traits: g.traits(c, files[i])}
		if g.memo == nil {
			return
		}
		own := *files[i]
		own.found = make([][]privacy.Finding, len(files[i].found))
		for part, list := range files[i].found {
			own.found[part] = slices.Clip(slices.Clone(list)) // what is found by comparing is added to another
		}
		found[i].scan, found[i].sumOf = &own, sumOfTraits(found[i].traits)
	})
	for i, c := range g.bank.Cases {
		g.cases[c] = found[i]
	}
}

// files lists the cases, in the bank's order and first, and then everything
// else that authors write.
func (g *gate) files(media map[*Body]pictureFindings) []*scanned {
	var files []*scanned
	for _, c := range g.bank.Cases {
		if k := g.known[c]; k != nil {
			files = append(files, k.again())
			continue
		}
		files = append(files, markdown(c.Source, c.File, &c.Body, c.Exceptions, media[&c.Body]))
	}
	for _, d := range g.bank.Decisions {
		files = append(files, markdown(d.Source, d.File, &d.Body, d.Exceptions, media[&d.Body]))
	}
	plain := func(src *diagnose.Source, exceptions []PrivacyException, more ...part) {
		if src != nil {
			front := part{zone: privacy.FrontMatter, text: src.Text(0, len(src.Data))}
			files = append(files, &scanned{src: src, exceptions: exceptions, parts: append([]part{front}, more...)})
		}
	}
	for _, c := range g.bank.Courses {
		plain(c.Source, c.Exceptions, nameOf(c.Source, c.File))
		files[len(files)-1].open = c.Period.Span.Line()
	}
	plain(g.bank.Settings.Source, g.bank.Settings.Exceptions)
	plain(g.bank.termsSource, g.bank.termsExceptions)
	return files
}

// markdown is a case or decision: front matter, body, its own name, and the
// names and texts of its pictures.
func markdown(src *diagnose.Source, file string, body *Body, exceptions []PrivacyException, media pictureFindings) *scanned {
	from, to := withoutFences(src.Data[:body.offset])
	f := &scanned{src: src, exceptions: exceptions, parts: []part{
		{zone: privacy.FrontMatter, text: src.Text(from, to), at: from},
		{zone: privacy.Body, text: src.Text(body.offset, body.offset+len(body.Markdown)), at: body.offset},
		nameOf(src, file),
	}}
	places := body.pictureSpans()
	for _, p := range body.Pictures {
		name := nameOf(src, p)
		name.what = "the name of a picture: "
		name.span = places[p]
		f.parts = append(f.parts, name)
	}
	for _, m := range media {
		f.parts = append(f.parts, m.part)
	}
	f.found = make([][]privacy.Finding, len(f.parts))
	for i, m := range media {
		f.found[len(f.parts)-len(media)+i] = m.findings
	}
	return f
}

// nameOf is the name of a file of the bank.
func nameOf(src *diagnose.Source, file string) part {
	return part{zone: privacy.Filename, text: file, at: -1, span: diagnose.Span{Source: src}, what: "the name of the file: "}
}

// withoutFences drops the --- lines round front matter: what is left begins and
// ends at these offsets.
func withoutFences(front []byte) (from, to int) {
	_, rest, _ := bytes.Cut(front, []byte("\n"))
	from = len(front) - len(rest)
	if i := bytes.LastIndexByte(bytes.TrimRight(rest, "\n"), '\n'); i >= 0 {
		return from, from + i + 1
	}
	return from, len(front)
}

// scan finds what the parts of a file hold. Pictures come scanned.
func (g *gate) scan(f *scanned) {
	if f.found == nil {
		f.found = make([][]privacy.Finding, len(f.parts))
	}
	for i, p := range f.parts {
		if p.zone != privacy.Media && !f.known {
			f.found[i] = g.outside(p, f)
		}
	}
	g.veil.scannedFile(f)
}

// outside scans a part and leaves out what stands in the exceptions themselves,
// which must name what they except.
func (g *gate) outside(p part, f *scanned) []privacy.Finding {
	found := g.scanner.Scan(p.zone, p.text)
	if len(f.exceptions) == 0 && f.open == 0 || p.zone != privacy.FrontMatter {
		return found
	}
	var kept []privacy.Finding
	for _, x := range found {
		line := f.src.SpanAt(p.at+x.Start, 0).Line()
		if line == f.open && x.Class == privacy.Date && x.Severity == privacy.Warn {
			continue
		}
		if !withinExceptions(line, f.exceptions) {
			kept = append(kept, x)
		}
	}
	return kept
}

func withinExceptions(line int, exceptions []PrivacyException) bool {
	for _, e := range exceptions {
		if e.Match.Known() && e.Match.Span.Line() == line {
			return true
		}
	}
	return false
}

// settle lets the exceptions of a file take out what they cover and reports
// the rest, the exceptions that do not hold, and those in use.
func (g *gate) settle(f *scanned) {
	texts := make([]privacy.Text, len(f.parts))
	for i, p := range f.parts {
		texts[i] = privacy.Text{Zone: p.zone, Raw: p.text, Findings: f.found[i]}
	}
	left, used, problems := g.scanner.Apply(texts, plainExceptions(f.exceptions))
	for _, x := range left {
		g.report(f, f.parts[x.Text], x.Finding)
	}
	for _, p := range problems {
		g.bag.Error("bad-exception", f.exceptions[p.Index].Span, "privacy exception: %s", p.Message).Hidden = !g.reveal
	}
	for i, n := range used {
		if n > 0 {
			e := &f.exceptions[i]
			g.bag.Note("privacy-exception", e.Span, "a reviewed exception covers %d of class %s (%s, %s): %s",
				n, e.Class.Value, e.Kind.Value, e.ReviewedBy.Value, e.Reason.Value).Hidden = !g.reveal
		}
	}
}

// report puts one finding into the bag, masked.
func (g *gate) report(f *scanned, p part, x privacy.Finding) {
	span := p.span
	if p.at >= 0 {
		span = f.src.SpanAt(p.at+x.Start, x.End-x.Start)
	}
	add := g.bag.Warn
	if x.Severity == privacy.Block {
		add = g.bag.Error
	}
	switch x.Rule {
	case privacy.RuleSound:
		add("refused-picture", span, "the clip has a sound track, where voices and names are heard; "+
			"take it out, or have it reviewed and write sound: reviewed in the release")
	case rareRule:
		add("rare-combination", span, "%s", f.rare.message)
	default:
		message := strings.TrimSuffix(x.Message(p.text, g.reveal), ".")
		add("identifying", span, "%s%s", p.what, message).Hidden = !g.reveal
	}
}

func plainExceptions(exceptions []PrivacyException) []privacy.Exception {
	plain := make([]privacy.Exception, len(exceptions))
	for i := range exceptions {
		plain[i] = exceptions[i].plain()
	}
	return plain
}

func (e *PrivacyException) plain() privacy.Exception {
	return privacy.Exception{
		Class: privacy.Class(e.Class.Value), Where: privacy.Zone(e.Where.Value), Match: e.Match.Value, Count: e.Count.Value,
		Kind: privacy.ExceptionKind(e.Kind.Value), Reason: e.Reason.Value, ReviewedBy: string(e.ReviewedBy.Value),
		Reviewed: e.Reviewed.Value, Consent: e.Consent.Value,
	}
}
