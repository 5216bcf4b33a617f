package builder

import (
	"fmt"
	"strings"

	"caseleaf/builder/decide"
	"caseleaf/content"
)

// drawCount is how many draws a page's shares and intervals rest on, drawSeed
// where they begin: the same bank gives the same page.
const (
	drawCount = 10_000
	drawSeed  = 1
)

// weighing is a decision with all that is computed from its tree. Without a
// model (the tree cannot be computed) only what cases did is known.
type weighing struct {
	d      *content.Decision
	words  *words
	seen   decide.Observed
	model  *decide.Model
	fault  error // why there is no model
	result decide.Result
	one    []decide.Sensitivity
	draws  decide.Draws
}

// weigh computes a decision over the bank's cases.
func (s *Site) weigh(d *content.Decision) *weighing {
	tree, seen := decide.Observe(d, s.Bank.Cases)
	v := &weighing{d: d, words: s.words(), seen: seen}
	if v.model, v.fault = decide.Compile(tree); v.fault != nil {
		v.model = nil
		return v
	}
	v.result, v.one = v.model.FoldBack(), v.model.OneWay()
	v.draws = v.model.Sample(drawCount, drawSeed)
	return v
}

// place is an option's place among the root's, and its letter's.
func (v *weighing) place(id string) int {
	for i := range v.d.Options {
		if v.d.Options[i].ID.Value == id {
			return i
		}
	}
	return 0
}

// name is an option as a sentence names it: its letter and its words.
func (v *weighing) name(id string) string {
	return v.words.say("option-named", letter(v.place(id)), v.text(id))
}

// heading is an option as figures and tables name it.
func (v *weighing) heading(id string) string { return letter(v.place(id)) + ": " + v.text(id) }

// text is an option's words, or its id where the author gave none.
func (v *weighing) text(id string) string {
	if i := v.place(id); i < len(v.d.Options) {
		return v.d.Options[i].Text.Or(id)
	}
	return id
}

// namesOf joins the names of options.
func (v *weighing) namesOf(ids []string) string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = v.name(id)
	}
	return strings.Join(list, v.words.say("joined-and"))
}

// best reports whether an option is preferred under the stated numbers, alone
// or in a tie.
func (v *weighing) best(id string) bool {
	for _, o := range v.result.Best {
		if o == id {
			return true
		}
	}
	return false
}

// second is the best option that is not preferred; "" when there is none.
func (v *weighing) second() (id string) {
	top := 0.0
	for _, o := range v.result.Options {
		if !o.Preferred && (id == "" || o.Value > top) {
			id, top = o.ID, o.Value
		}
	}
	return id
}

// finding says in a sentence what folding back gives. A tie is reported as one.
func (v *weighing) finding() string {
	value := points(v.result.Value)
	if len(v.result.Best) > 1 {
		return v.words.say("finding-tie", v.namesOf(v.result.Best), value)
	}
	best, second := v.namesOf(v.result.Best), v.second()
	if second == "" {
		return v.words.say("finding-only", best, value)
	}
	return v.words.say("finding-best", best, value, points(v.result.Margin), v.name(second))
}

// points writes a value of the scale from 0 to 100.
func points(x float64) string { return fmt.Sprintf("%.1f", x) }

// tidy writes a stated value without needless digits.
func tidy(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
}

// amount writes a number of the tree: probabilities to the hundredth, values of
// the scale to the tenth.
func amount(p decide.Parameter, x float64) string {
	if p.Probability {
		return fmt.Sprintf("%.2f", x)
	}
	return strings.TrimSuffix(points(x), ".0")
}

// optionOf is the id of the root's option below which a number stands: the
// first of the ids in its name, p(option / branch / …).
func optionOf(p decide.Parameter) string {
	_, way, _ := strings.Cut(p.Name, "(")
	id, _, _ := strings.Cut(strings.TrimSuffix(way, ")"), " / ")
	return id
}

// label names a number in a figure, led by its option's letter.
func (v *weighing) label(p decide.Parameter) string {
	return v.words.say("number-label", letter(v.place(optionOf(p))), v.numberName(p))
}

// numberName names a number by what it is the probability or the value of.
func (v *weighing) numberName(p decide.Parameter) string {
	if p.Probability {
		return v.words.say("probability-of", p.Text)
	}
	return v.words.say("value-of", p.Text)
}
