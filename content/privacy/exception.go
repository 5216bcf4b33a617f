package privacy

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// ExceptionKind says why a finding may stand.
type ExceptionKind string

// The kinds. Consented and Reviewed need a reviewer who is not the author.
const (
	FalsePositive ExceptionKind = "false-positive" // it identifies nobody
	Consented     ExceptionKind = "consented"      // the patient agreed; the consent is held locally
	Reviewed      ExceptionKind = "reviewed"       // someone looked and found it safe
)

// Media is the place name of findings in pictures and clips, which an
// exception may give beside the five zones.
const Media Zone = "media"

// Exception is one reviewed exception of a case's front matter. All fields are
// required, Consent only for kind consented. It covers its own case only.
type Exception struct {
	Class      Class
	Where      Zone
	Match      string // exact raw text; no patterns
	Count      int    // occurrences covered; one more is a new finding
	Kind       ExceptionKind
	Reason     string // at least 15 characters; itself scanned
	ReviewedBy string // a role
	Reviewed   int    // year
	Consent    string // held-locally for kind consented
}

// Text is one scanned text with its findings; Apply looks the findings' raw
// text up in it.
type Text struct {
	Zone     Zone
	Raw      string
	Findings []Finding
}

// Remaining is a finding that no exception covers, with the index of its text.
type Remaining struct {
	Text int
	Finding
}

// Problem is something wrong with the exception at Index.
type Problem struct {
	Index   int
	Message string // lower case, no full stop, never the matched text
}

// Validate says what is wrong with an exception by itself: a missing field, a
// kind that its class does not take, a reason that is short or identifies
// somebody. It returns nil for a good one.
func (e Exception) Validate(sc *Scanner) []string {
	var out []string
	info, known := infoOf(e.Class)
	switch {
	case !known:
		out = append(out, fmt.Sprintf("unknown class %q", e.Class))
	case len(info.accept) == 0:
		out = append(out, fmt.Sprintf("class %s takes no exception", e.Class))
	case !slices.Contains(info.accept, e.Kind):
		out = append(out, fmt.Sprintf("class %s takes no exception of kind %q; it takes %s", e.Class, e.Kind, kindList(info.accept)))
	}
	if e.Where != Media && !slices.Contains(Zones(), e.Where) {
		out = append(out, fmt.Sprintf("unknown place %q", e.Where))
	}
	if e.Match == "" {
		out = append(out, "match is missing")
	}
	if e.Count < 1 {
		out = append(out, "count must be 1 or more")
	}
	if len([]rune(strings.TrimSpace(e.Reason))) < 15 {
		out = append(out, "reason must have at least 15 characters")
	} else if len(sc.Scan(Body, e.Reason)) > 0 {
		out = append(out, "reason itself may identify somebody")
	}
	if e.ReviewedBy == "" || e.ReviewedBy == "author" && e.Kind != FalsePositive {
		out = append(out, "reviewed_by must be a role, and not the author for kind consented or reviewed")
	}
	if e.Reviewed < 1990 || e.Reviewed > 2200 {
		out = append(out, "reviewed must be a year")
	}
	if e.Kind == Consented && e.Consent != "held-locally" {
		out = append(out, "kind consented needs consent: held-locally")
	}
	return out
}

func kindList(kinds []ExceptionKind) string {
	words := make([]string, len(kinds))
	for i, k := range kinds {
		words[i] = string(k)
	}
	return strings.Join(words, ", ")
}

// AcceptsNone reports whether a finding can never be excepted: a social
// security number, and a national number whose check digit agrees.
func AcceptsNone(f Finding) bool {
	info, ok := infoOf(f.Class)
	return !ok || len(info.accept) == 0 || f.Class == NationalID && f.Rule == ruleTable[idCheck].ID
}

// Apply takes the findings that exceptions cover out of the texts of one case.
// It returns what remains, sorted by text and place; for each exception how
// many findings it covered; and the problems: an exception that is not valid,
// that matches nothing (stale), or that says what an earlier one says. An
// exception with a problem covers nothing.
func (sc *Scanner) Apply(texts []Text, exceptions []Exception) (left []Remaining, used []int, problems []Problem) {
	used = make([]int, len(exceptions))
	valid := make([]bool, len(exceptions))
	type key struct {
		class Class
		where Zone
		match string
	}
	seen := map[key]bool{}
	for i, e := range exceptions {
		for _, m := range e.Validate(sc) {
			problems = append(problems, Problem{i, m})
		}
		k := key{e.Class, e.Where, e.Match}
		if seen[k] {
			problems = append(problems, Problem{i, "duplicate of an earlier exception"})
			continue
		}
		seen[k] = true
		valid[i] = len(problems) == 0 || problems[len(problems)-1].Index != i
	}
	for t, text := range texts {
		for _, f := range text.Findings {
			if !sc.cover(text, f, exceptions, valid, used) {
				left = append(left, Remaining{t, f})
			}
		}
	}
	for i := range exceptions {
		if valid[i] && used[i] == 0 {
			problems = append(problems, Problem{i, "stale: matches no finding; remove it"})
		}
	}
	slices.SortStableFunc(problems, func(a, b Problem) int { return cmp.Compare(a.Index, b.Index) })
	return left, used, problems
}

// cover finds the exception that covers f and counts it as used. The match may
// be the finding's text, or a part of the text that the finding overlaps.
func (sc *Scanner) cover(text Text, f Finding, exceptions []Exception, valid []bool, used []int) bool {
	if AcceptsNone(f) || f.Class == NationalID && validNational(text.Raw[f.Start:f.End]) {
		return false
	}
	for i, e := range exceptions {
		if !valid[i] || e.Class != f.Class || e.Where != text.Zone || used[i] >= e.Count {
			continue
		}
		from := max(0, f.Start-len(e.Match))
		to := min(len(text.Raw), f.End+len(e.Match))
		if at := strings.Index(text.Raw[from:to], e.Match); at >= 0 && from+at < f.End && from+at+len(e.Match) > f.Start {
			used[i]++
			return true
		}
	}
	return false
}

// validNational says whether a number passes the check of one of the national
// numbers that have one; such a number cannot be called false.
func validNational(raw string) bool {
	text, _ := normalise(Body, raw)
	plain := strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '.' {
			return -1
		}
		return r
	}, text)
	for _, valid := range []func(string) bool{nhsValid, aadhaarValid, nirValid, sinValid, personnummerValid, cpfValid, dniValid, ppsValid} {
		if valid(plain) {
			return true
		}
	}
	return false
}
