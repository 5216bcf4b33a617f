package content

import (
	"bytes"

	"caseleaf/content/diagnose"
	"caseleaf/content/front"
	"caseleaf/content/term"
)

// readTerms adds the bank's own terms and watch rows to the vocabulary.
func (l *loader) readTerms() {
	src, ok := l.file("terms.yaml")
	if !ok || onlyComments(src) {
		return
	}
	l.bank.termsSource = src
	root, ok := front.YAML(src, l.bag)
	if !ok {
		return
	}
	var local localTerms
	termsFields.read(l.reader(src), root, &local)
	l.bank.termsExceptions = local.Exceptions
	var terms []term.Term
	var from []*localTerm
	for i := range local.Terms {
		if t := &local.Terms[i]; !misread(t.ID) && !misread(t.Kind) && !misread(t.Label) {
			terms, from = append(terms, t.term()), append(from, t)
		}
	}
	vocabulary, problems := l.memo.with(l.bank.Vocabulary, src, terms)
	for _, p := range problems {
		t := from[p.Index]
		d := l.bag.Error("bad-term", t.span(p.Field), "%s", p.Message)
		if p.Suggestion != "" {
			d.Suggest(p.Suggestion)
		}
	}
	l.bank.Vocabulary = vocabulary
	for i := range local.Watch {
		l.addWatch(&local.Watch[i])
	}
}

// misread reports a value that stands in the file and could not be read, which
// has been reported.
func misread(g Given[string]) bool { return !g.Known() && g.Span.Source != nil }

// onlyComments reports a file that says nothing yet.
func onlyComments(src *diagnose.Source) bool {
	for line := range bytes.Lines(src.Data) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return false
		}
	}
	return true
}

// addWatch keeps a local watch row whose step and complication exist.
func (l *loader) addWatch(w *localWatch) {
	steps := idsOf(l.bank.Vocabulary, []term.Kind{term.Step})
	complications := idsOf(l.bank.Vocabulary, []term.Kind{term.Complication})
	okStep := w.Step.Known() && reportUnknownID(l.bag, w.Step, steps, "step")
	okComplication := w.Complication.Known() && reportUnknownID(l.bag, w.Complication, complications, "complication")
	if !okStep || !okComplication {
		return
	}
	l.bank.localWatch = append(l.bank.localWatch, term.WatchRow{
		Step: w.Step.Value, Complication: w.Complication.Value, FirstSign: w.FirstSign.Value, MisStep: w.MisStep.Value,
		FirstMove: w.FirstMove.Value, Prevention: w.Prevention.Value, Ready: w.Ready.Value,
	})
}

func (t *localTerm) term() term.Term {
	return term.Term{
		ID: t.ID.Value, Kind: term.Kind(t.Kind.Value), Label: t.Label.Value, Abbreviation: t.Abbreviation.Value,
		Parent: t.Parent.Value, Definition: t.Definition.Value,
		Synonyms: values(t.Synonyms), Mishearings: values(t.Mishearings), Steps: values(t.Steps), Bench: t.Bench.Or(false),
	}
}

// span returns the place of a part of the term, or of the term itself.
func (t *localTerm) span(part string) diagnose.Span {
	places := map[string]diagnose.Span{
		"id": t.ID.Span, "kind": t.Kind.Span, "label": t.Label.Span, "abbreviation": t.Abbreviation.Span, "parent": t.Parent.Span,
	}
	for name, list := range map[string][]Given[string]{"synonyms": t.Synonyms, "mishearings": t.Mishearings, "steps": t.Steps} {
		if len(list) > 0 {
			places[name] = list[0].Span
		}
	}
	if p, ok := places[part]; ok && p.Source != nil {
		return p
	}
	return t.Span
}

// values returns what is known of a list.
func values[V any](list []Given[V]) []V {
	var out []V
	for _, g := range list {
		if v, ok := g.Get(); ok {
			out = append(out, v)
		}
	}
	return out
}
