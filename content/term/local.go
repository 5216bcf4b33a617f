package term

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Problem is something wrong with a local term. It is the bank author's to
// mend; Index says where.
type Problem struct {
	Index      int    // place in the list given to With
	Field      string // id, kind, label, synonyms, abbreviation, parent or steps
	Message    string // what is wrong, in lower case without a full stop
	Suggestion string // the nearest right value, or empty
}

var idForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

// maxID keeps page file names short enough for every file system.
const maxID = 64

// With returns v with a bank's own terms added after the built-in ones, and
// what is wrong with them, sorted by Index. v itself is unchanged.
//
// A local term with the id of a built-in one and neither kind nor label
// extends it: its synonyms, mishearings and steps are added, and its
// abbreviation is used where there was none. Any other repeated id is a
// problem. A term without a sound id, kind and label is not taken; a term
// whose parent, step or synonym is at fault is taken without that part, so
// that one slip does not make every case using the term wrong as well.
// Local terms may refer to one another in any order.
func (v *Vocabulary) With(local []Term) (*Vocabulary, []Problem) {
	a := &addition{terms: slices.Clone(v.terms), at: make(map[string]int), kinds: make(map[string]Kind)}
	for i, t := range v.terms {
		a.at[t.ID] = i
		a.kinds[t.ID] = t.Kind
	}
	index := make(map[int]int) // place in a.terms to place in local
	for i, t := range local {
		if place, ok := a.take(i, t, len(v.terms)); ok {
			index[place] = i
		}
	}
	// References and names can only be judged once all ids are known.
	// known shares a.terms, so a loop of parents is reported once, where it is cut.
	known := build(a.terms, v.order, v.watch)
	for place := range a.terms {
		if i, ok := index[place]; ok {
			a.checkReferences(i, place, known)
		}
	}
	a.checkNames(v, index)
	slices.SortStableFunc(a.problems, func(x, y Problem) int { return x.Index - y.Index })
	return build(a.terms, v.order, v.watch), a.problems
}

// addition is the work of one With.
type addition struct {
	terms    []Term
	at       map[string]int
	kinds    map[string]Kind
	problems []Problem
}

func (a *addition) fault(i int, field, suggestion, format string, args ...any) {
	a.problems = append(a.problems, Problem{i, field, fmt.Sprintf(format, args...), suggestion})
}

// take adds or merges one local term and returns its place.
func (a *addition) take(i int, t Term, builtin int) (int, bool) {
	if !idForm.MatchString(t.ID) || len(t.ID) > maxID {
		a.fault(i, "id", slug(t.ID), "bad id %q: use lower-case words joined by hyphens, %d characters at most", t.ID, maxID)
		return 0, false
	}
	if place, taken := a.at[t.ID]; taken {
		if place < builtin && t.Kind == "" && t.Label == "" {
			return place, a.extend(i, place, t)
		}
		a.repeated(i, t.ID, place < builtin)
		return 0, false
	}
	ok := true
	if !slices.Contains(kinds, t.Kind) {
		near, _ := Nearest(string(t.Kind), kindWords())
		a.fault(i, "kind", near, "unknown kind %q of %s", t.Kind, t.ID)
		ok = false
	}
	if strings.TrimSpace(t.Label) == "" {
		a.fault(i, "label", "", "%s has no label", t.ID)
		ok = false
	}
	if !ok {
		return 0, false
	}
	t.Local = true
	t.Synonyms, t.Mishearings, t.Steps = slices.Clone(t.Synonyms), slices.Clone(t.Mishearings), slices.Clone(t.Steps)
	a.at[t.ID], a.kinds[t.ID] = len(a.terms), t.Kind
	a.terms = append(a.terms, t)
	return len(a.terms) - 1, true
}

func (a *addition) repeated(i int, id string, builtin bool) {
	if builtin {
		a.fault(i, "id", "", "%s is built in; to add synonyms to it, give neither kind nor label", id)
		return
	}
	a.fault(i, "id", "", "%s is defined twice in this bank", id)
}

// extend merges t into the built-in term at place.
func (a *addition) extend(i, place int, t Term) bool {
	b := a.terms[place]
	if t.Definition != "" || t.Parent != "" {
		a.fault(i, "id", "", "%s is built in; its parent and definition stay as they are", t.ID)
	}
	b.Synonyms = slices.Concat(b.Synonyms, t.Synonyms)
	b.Mishearings = slices.Concat(b.Mishearings, t.Mishearings)
	b.Steps = slices.Concat(b.Steps, t.Steps)
	b.Bench = b.Bench || t.Bench
	if b.Abbreviation == "" {
		b.Abbreviation = t.Abbreviation
	}
	a.terms[place] = b
	return true
}

// checkReferences drops an unknown parent, a parent that leads back to the
// term itself, and unknown steps.
func (a *addition) checkReferences(i, place int, known *Vocabulary) {
	t := a.terms[place]
	switch _, ok := a.kinds[t.Parent]; {
	case t.Parent == "":
	case !ok:
		near, _ := known.Suggest(t.Parent)
		a.fault(i, "parent", near, "unknown parent %q of %s", t.Parent, t.ID)
		t.Parent = ""
	case t.Parent == t.ID || known.within(t.ID, t.ID):
		a.fault(i, "parent", "", "the parents of %s lead back to it", t.ID)
		t.Parent = ""
	}
	var steps []string
	for _, s := range t.Steps {
		if a.kinds[s] == Step {
			steps = append(steps, s)
			continue
		}
		near, _ := known.Suggest(s, Step)
		a.fault(i, "steps", near, "unknown step %q of %s", s, t.ID)
	}
	t.Steps = steps
	a.terms[place] = t
}

// checkNames drops a local synonym or abbreviation that already names another
// term of the same kind: a word must have one meaning within a kind. Names of
// the terms laid under come first, then the local ones in their order.
func (a *addition) checkNames(under *Vocabulary, index map[int]int) {
	owner := make(map[claim]string)
	for _, t := range under.terms {
		t.names(func(text string, _ int) { owner[claim{t.Kind, fold(text)}] = t.ID })
	}
	for place := range a.terms {
		if i, local := index[place]; local {
			a.terms[place] = a.ownNames(a.terms[place], i, owner)
		}
	}
}

// claim is a folded name within a kind.
type claim struct {
	kind Kind
	key  string
}

func (a *addition) ownNames(t Term, i int, owner map[claim]string) Term {
	free := func(field, text string) bool {
		c := claim{t.Kind, fold(text)}
		if other, taken := owner[c]; taken && other != t.ID {
			a.fault(i, field, "", "%q of %s already names %s", text, t.ID, other)
			return false
		}
		owner[c] = t.ID
		return true
	}
	free("id", t.ID)
	free("label", t.Label)
	if t.Abbreviation != "" && !free("abbreviation", t.Abbreviation) {
		t.Abbreviation = ""
	}
	var synonyms []string
	for _, s := range t.Synonyms {
		if free("synonyms", s) {
			synonyms = append(synonyms, s)
		}
	}
	t.Synonyms = synonyms
	return t
}

func kindWords() []string {
	out := make([]string, len(kinds))
	for i, k := range kinds {
		out[i] = string(k)
	}
	return out
}

// slug offers an id made from a bad one, or "".
func slug(s string) string {
	id := strings.Join(strings.FieldsFunc(plain(s), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	}), "-")
	if !idForm.MatchString(id) || len(id) > maxID {
		return ""
	}
	return id
}
