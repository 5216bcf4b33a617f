package content

import (
	"crypto/sha256"
	"fmt"
	"strings"

	"caseleaf/content/privacy"
)

// Rare combinations: an age band, a sex, a side and a kind of cataract name
// nobody, and may still single somebody out together. Each case is held against
// the other released ones; where fewer than k share what it publishes, it draws
// one warning that says what to coarsen. A rare condition beside two values that
// are finer than they need be is an error. A reviewed exception of class other
// whose match lies at the place of the warning covers it.
//
// A bank with invented: yes has no patients who could be found. Its cases draw
// one note for the whole bank, so that a demonstration, which is always small,
// neither cries wolf nor stops a zip.
//
// The logbook adds nobody to a class: its rows carry no age, sex or side, and
// are published only as tables under the small-count rule.

// rareRule names findings of this check among those of the scanner.
const rareRule = "other.combination"

// defaultRare is k where the bank sets none.
const defaultRare = 5

// rareFinding is what the check says of one case.
type rareFinding struct{ message string }

// compared is a released case while it is held against the others.
type compared struct {
	file   *scanned
	traits []trait // what can be published; without a value where it is not
	sum    [sha256.Size]byte
}

// checkRare compares the released cases. Their files come first in the list, in
// the order of the bank.
func (g *gate) checkRare(files []*scanned) {
	cases := make([]compared, 0, len(g.bank.Cases))
	for i, c := range g.bank.Cases {
		if c.Released() {
			k := g.cases[c]
			cases = append(cases, compared{files[i], k.traits, k.sumOf})
		}
	}
	settings, found := &g.bank.Settings, 0
	k := settings.RareCombination.Or(defaultRare)
	for _, r := range g.memo.combinations(cases, k) {
		var at int
		if _, err := fmt.Sscan(r.ID, &at); err != nil || !cases[at].publishes() {
			continue
		}
		found++
		if !settings.Invented.Value {
			cases[at].add(r, len(cases), k)
		}
	}
	if found > 0 && settings.Invented.Value {
		g.bag.Note("rare-combination", settings.Invented.Span,
			"%d of %d released cases publish facts of the patient that fewer than %d share; as the bank is invented, nobody can be found by them",
			found, len(cases), k)
	}
}

// profilesOf are the profiles of cases, each under its place in the list.
func profilesOf(cases []compared) []privacy.Profile {
	profiles := make([]privacy.Profile, len(cases))
	for i, c := range cases {
		profiles[i].ID = fmt.Sprint(i)
		for _, t := range c.traits {
			profiles[i].Traits = append(profiles[i].Traits, t.Trait)
		}
	}
	return profiles
}

// publishes reports a case that says anything of its patient.
func (c compared) publishes() bool {
	for _, t := range c.traits {
		if t.Value != "" {
			return true
		}
	}
	return false
}

// add puts the finding where the first value to coarsen stands.
func (c compared) add(r privacy.Combination, of, k int) {
	var place *trait
	for i := range c.traits {
		t := &c.traits[i]
		if t.Value != "" && (place == nil || len(r.Steps) > 0 && t.Field == r.Steps[0].Field) {
			place = t
		}
	}
	c.file.rare = &rareFinding{c.message(r, of, k)}
	c.file.found[place.part] = append(c.file.found[place.part], privacy.Finding{
		Class: privacy.Other, Start: place.start, End: place.end, Severity: r.Severity, Rule: rareRule,
	})
}

// message says how few share the combination and what to coarsen. The values
// are those that the case publishes itself.
func (c compared) message(r privacy.Combination, of, k int) string {
	var out strings.Builder
	if r.Severity == privacy.Block {
		var rare, exact []string
		for _, t := range c.traits {
			switch {
			case t.Value == "":
			case t.Rare:
				rare = append(rare, t.Value)
			case t.Exact:
				exact = append(exact, t.Field)
			}
		}
		fmt.Fprintf(&out, "a rare condition (%s) stands beside %s; leave out one or the other. ", listWords(rare), listWords(exact))
	}
	var fields []string
	for _, t := range c.traits {
		if t.Value != "" {
			fields = append(fields, t.Field)
		}
	}
	fmt.Fprintf(&out, "%d of %d released cases, this one included, publish its %s together; %d should", r.Size, of, listWords(fields), k)
	steps, last := r.Steps, r.Size
	if len(steps) > 0 {
		last = steps[len(steps)-1].Size
	}
	if last < k {
		steps = steps[:min(1, len(steps))]
	}
	for i, s := range steps {
		lead := ", then "
		if i == 0 {
			lead = ": "
		}
		if s.To == "" {
			fmt.Fprintf(&out, "%sleave out %s", lead, s.Field)
		} else {
			fmt.Fprintf(&out, "%swrite %s for the %s of %s", lead, s.To, s.From, s.Field)
		}
		fmt.Fprintf(&out, " (%d)", s.Size)
	}
	if last < k {
		fmt.Fprintf(&out, "; with all of it left out %d would, so a reviewer has to decide", last)
	}
	return out.String()
}
