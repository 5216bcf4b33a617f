package content

import (
	"path"
	"strings"

	"caseleaf/content/diagnose"

	"golang.org/x/text/unicode/norm"
)

// checkBank finds what is wrong between the files of a bank.
func checkBank(b *Bank, bag *diagnose.Bag) {
	checkIDs(bag, b.Cases, "case", func(c *Case) (Given[string], string) { return c.ID, c.File })
	checkIDs(bag, b.Decisions, "decision", func(d *Decision) (Given[string], string) { return d.ID, d.File })
	checkIDs(bag, b.Courses, "course", func(c *Course) (Given[string], string) { return c.ID, c.File })
	for _, booklet := range b.Settings.Booklets {
		for _, id := range booklet.Cases {
			checkCaseID(b, bag, id, nil)
		}
	}
	for _, course := range b.Courses {
		for _, s := range course.Stations {
			for _, id := range s.Cases {
				checkCaseID(b, bag, id, nil)
			}
		}
		checkCourseKit(b, bag, course)
	}
}

// decisionIDs lists the ids of the shared decisions.
func (b *Bank) decisionIDs() []string {
	ids := make([]string, 0, len(b.Decisions))
	for _, d := range b.Decisions {
		ids = append(ids, d.ID.Value)
	}
	return ids
}

// checkLinks holds what a case names of other files to those there are.
func checkLinks(b *Bank, bag *diagnose.Bag, c *Case, decisions []string) {
	for _, id := range c.Related {
		checkCaseID(b, bag, id, c)
	}
	for _, e := range c.Decisions() {
		checkPoint(b, bag, e.Decision, decisions)
	}
}

// checkCaseID reports an id that no case of the bank has, and a case that names
// itself. Without a case, owner is nil.
func checkCaseID(b *Bank, bag *diagnose.Bag, id Given[string], owner *Case) {
	if owner != nil && id.Value == owner.ID.Value {
		bag.Warn("unknown-id", id.Span, "case %s names itself here; name another case", quoteShort(id.Value))
		return
	}
	if _, ok := b.cases[id.Value]; ok {
		return
	}
	var others []string
	for _, c := range b.Cases {
		if c != owner {
			others = append(others, c.ID.Value)
		}
	}
	reportUnknownID(bag, id, others, "case")
}

// checkPoint holds a decision point to the shared decision it names.
func checkPoint(b *Bank, bag *diagnose.Bag, d *DecisionPoint, decisions []string) {
	if !d.Point.Known() || !reportUnknownID(bag, d.Point, decisions, "decision") {
		return
	}
	shared, _ := b.Decision(d.Point.Value)
	if d.CameOf.Known() {
		reportUnknownID(bag, d.CameOf, shared.branchesUnder(d.Chosen), "branch")
	}
}

// branchesUnder returns the ids of the chance branches below the option with
// that id; of all options when no option was chosen or the tree hasn't it.
func (d *Decision) branchesUnder(chosen Given[string]) []string {
	var all, under []string
	for i := range d.Options {
		o := &d.Options[i]
		o.Then.walk(func(*TreeOption) {}, func(b *Branch) {
			all = append(all, b.ID.Value)
			if chosen.Known() && o.ID.Value == chosen.Value {
				under = append(under, b.ID.Value)
			}
		})
	}
	if under == nil {
		return all
	}
	return under
}

// checkIDs holds ids unique on every file system: two that differ only in
// capitals, or only in how a letter is stored, would share one page.
func checkIDs[T any](bag *diagnose.Bag, items []*T, what string, of func(*T) (Given[string], string)) {
	type owner struct {
		id   Given[string]
		file string
	}
	taken := map[string]owner{}
	for _, item := range items {
		id, file := of(item)
		if !id.Known() {
			continue
		}
		key := strings.ToLower(norm.NFC.String(id.Value))
		first, clash := taken[key]
		if !clash {
			taken[key] = owner{id, file}
			checkFileName(bag, id, file, what)
			continue
		}
		bag.Error("duplicate-id", id.Span, "%s %s %s", what, quoteShort(id.Value), clashWords(id.Value, first.id.Value, first.file)).
			Also(first.id.Span, "the first one")
	}
}

func clashWords(a, b, file string) string {
	switch {
	case a == b:
		return "is already in " + file
	case norm.NFC.String(a) == norm.NFC.String(b):
		return "and " + quoteShort(b) + " in " + file + " differ only in how the letter is stored"
	default:
		return "and " + quoteShort(b) + " in " + file + " differ only in capitals"
	}
}

// checkFileName notes a file that is not called after its id.
func checkFileName(bag *diagnose.Bag, id Given[string], file, what string) {
	stem := strings.TrimSuffix(path.Base(file), path.Ext(file))
	if !strings.EqualFold(norm.NFC.String(stem), norm.NFC.String(id.Value)) {
		bag.Note("file-name", id.Span, "%s %s stands in %s; a file called after its id is easier to find", what, quoteShort(id.Value), path.Base(file))
	}
}
