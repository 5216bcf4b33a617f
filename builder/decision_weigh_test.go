package builder

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/decide"
	"caseleaf/casebank"
	"caseleaf/content"
)

func endOf(value float64) content.Node { return content.Node{End: given(value)} }

// sure is an option that leads to one end.
func sure(id string, value float64) content.TreeOption {
	return content.TreeOption{ID: given(id), Text: given("Option " + id), Then: endOf(value)}
}

// gamble is an option with two branches of the given pseudo-counts, worth 100
// and 0.
func gamble(id string, good, bad float64) content.TreeOption {
	branch := func(name string, prior, value float64) content.Branch {
		return content.Branch{ID: given(id + "-" + name), Text: given(name), Prior: given(prior), Source: given(1), Then: endOf(value)}
	}
	return content.TreeOption{ID: given(id), Text: given("Option " + id), Then: content.Node{
		Chance: []content.Branch{branch("good", good, 100), branch("bad", bad, 0)},
	}}
}

func decisionOf(options ...content.TreeOption) *content.Decision {
	return &content.Decision{ID: given("d"), Title: given("D"), Options: options, Sources: []content.Reference{{Text: given("x")}}}
}

func weighed(d *content.Decision) *weighing {
	s := &Site{Bank: &content.Bank{Decisions: []*content.Decision{d}}}
	return s.weigh(d)
}

// A tie is reported as a tie, both options bear the mark, and neither is said to
// be ahead.
func TestTieIsATie(t *testing.T) {
	v := weighed(decisionOf(sure("one", 70), sure("two", 70), sure("three", 40)))
	if got, want := v.finding(), "Under the numbers stated here A (Option one) and B (Option two) come out equal, at 70.0 of 100: the numbers do not tell them apart."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	var marked []string
	for _, w := range v.weights() {
		if w.Preferred {
			marked = append(marked, w.Letter)
		}
	}
	if diff := cmp.Diff([]string{"A", "B"}, marked); diff != "" {
		t.Errorf("preferred (-want +got):\n%s", diff)
	}
	root := v.treeNode(v.result.Root, true)
	for i, want := range []bool{true, true, false} {
		if root.Branches[i].Preferred != want {
			t.Errorf("branch %d: preferred %v", i, root.Branches[i].Preferred)
		}
	}
}

// A gamble with pseudo-counts 6 of 10 is worth 60 and beats a sure 50 until its
// probability falls to 50 / 100 = 0.5 (worked by hand).
func TestSwitchInWords(t *testing.T) {
	v := weighed(decisionOf(gamble("bet", 6, 4), sure("safe", 50)))
	if got, want := v.finding(), "Under the numbers stated here A (Option bet) comes out at 60.0 of 100, which is 10.0 more than B (Option safe)."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for id, want := range map[string][]SwitchLine{
		"bet":  {{"the probability of “good” were below 0.50 (stated: 0.60); then B", true}},
		"safe": {{"the probability of “good” were below 0.50 (stated: 0.60)", true}},
	} {
		if diff := cmp.Diff(want, v.switches(id)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", id, diff)
		}
	}
}

// Every threshold that a demonstration page names is one: just beyond it the
// option is preferred or not, as the page says, by the model's own values there.
func TestSwitchesBracketAChange(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	s := &Site{Bank: bank}
	checked := 0
	for _, d := range bank.Decisions {
		v := s.weigh(d)
		for i, o := range v.result.Options {
			for _, p := range v.one {
				down, up := v.crossings(p, o.ID)
				for _, at := range []*decide.Threshold{down, up} {
					if at == nil {
						continue
					}
					checked++
					step := 1e-6 * max(1, math.Abs(at.At))
					if at == down {
						step = -step
					}
					near, beyond := leads(v.model.At(p.Parameter, at.At-step), i), leads(v.model.At(p.Parameter, at.At+step), i)
					if near != o.Preferred || beyond == o.Preferred {
						t.Errorf("%s, %s: %s at %v changes nothing (%v, %v)", d.ID.Value, o.ID, p.Name, at.At, near, beyond)
					}
				}
			}
		}
	}
	if checked < 30 {
		t.Errorf("only %d thresholds looked at", checked)
	}
}

// leads reports whether the value at a place is the largest.
func leads(values []float64, place int) bool { return slices.Max(values) == values[place] }

// Evidence is called thin first for what is not published, then for few cases;
// nothing is said where every number has a source and the cases are many.
func TestEvidence(t *testing.T) {
	bare := decisionOf(gamble("bet", 6, 4), sure("safe", 50))
	published := decisionOf(gamble("bet", 6, 4), sure("safe", 50))
	published.Sources[0].DOI = given("10.1000/182")
	half := decisionOf(gamble("bet", 6, 4), sure("safe", 50))
	half.Sources = append(half.Sources, published.Sources[0])
	half.Options[0].Then.Chance[0].Source = given(2)
	broken := decisionOf(content.TreeOption{ID: given("a"), Text: given("A")}, sure("b", 1))
	for name, c := range map[string]struct {
		d    *content.Decision
		met  int
		want []string // beginnings of the notes
	}{
		"bare":      {bare, 3, []string{"None of the 2 probabilities", "The cases met this decision 3 times", "The values"}},
		"published": {published, fewMoments, nil},
		"few":       {published, 1, []string{"The cases met this decision once", "The values"}},
		"half":      {half, fewMoments, []string{"1 of the 2 probabilities", "The values"}},
		"broken":    {broken, 0, []string{"The tree states no numbers", "No case of this edition"}},
	} {
		t.Run(name, func(t *testing.T) {
			v := weighed(c.d)
			v.seen.Met = c.met
			notes := v.evidence(v.numbers())
			if len(notes) != len(c.want) {
				t.Fatalf("got %q", notes)
			}
			for i, n := range notes {
				if !strings.HasPrefix(n, c.want[i]) {
					t.Errorf("note %d: got %q, want %q …", i, n, c.want[i])
				}
			}
		})
	}
}

// The probabilities set out below the tree are those that the tree is folded
// back with.
func TestNumbersAreTheTrees(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	s := &Site{Bank: bank}
	for _, d := range bank.Decisions {
		v := s.weigh(d)
		var drawn []string
		var walk func(n decide.Valued)
		walk = func(n decide.Valued) {
			for i, b := range n.Next {
				if n.Node.Kind == decide.Chance && n.Node.Branches[i].P.Basis != decide.Rest {
					drawn = append(drawn, fmt.Sprintf("%.2f", b.P))
				}
				walk(b.Then)
			}
		}
		walk(v.result.Root)
		var listed []string
		for _, n := range v.numbers() {
			listed = append(listed, n.Probability)
		}
		if diff := cmp.Diff(drawn, listed); diff != "" {
			t.Errorf("%s (-drawn +listed):\n%s", d.ID.Value, diff)
		}
	}
}

// A tree of forty ends is printed option by option, each part with ids of its
// own; one that fits a page is not.
func TestLargeTreesArePrintedInParts(t *testing.T) {
	var options []content.TreeOption
	for i := range 20 {
		options = append(options, gamble(fmt.Sprint("o", i), 5, 5))
	}
	for _, c := range []struct {
		options []content.TreeOption
		parts   int
	}{{options, 20}, {options[:2], 0}} {
		d := decisionOf(c.options...)
		s := &Site{named: map[string]bool{}, Bank: &content.Bank{Decisions: []*content.Decision{d}}}
		b := s.treeFigure(s.weigh(d))
		if len(b.Parts) != c.parts {
			t.Errorf("%d options: %d parts, want %d", len(c.options), len(b.Parts), c.parts)
		}
		ids := map[string]bool{}
		for _, part := range b.Parts {
			id := strings.SplitN(strings.SplitN(string(part), `id="`, 2)[1], `"`, 2)[0]
			if ids[id] {
				t.Errorf("id %q stands twice", id)
			}
			ids[id] = true
		}
	}
}

// A tree that cannot be computed leaves a page of options and choices, without
// values, figures or a finding.
func TestTreeWithoutNumbers(t *testing.T) {
	d := decisionOf(content.TreeOption{ID: given("a"), Text: given("A")}, sure("b", 1))
	s := &Site{Bank: &content.Bank{Decisions: []*content.Decision{d}}}
	v := s.weigh(d)
	if v.fault == nil || v.model != nil {
		t.Fatal("a tree with an empty node was computed")
	}
	if s.treeFigure(v) != nil || s.tornadoFigure(v) != nil || s.mapFigure(v) != nil || len(s.drawn) > 0 {
		t.Error("figures were drawn of a tree that cannot be computed")
	}
	if b := s.optionBlock(&met{bank: s.Bank}, v, 0, nil); b.Expected != "" || len(b.Switches) > 0 {
		t.Errorf("values of a tree that cannot be computed: %+v", b)
	}
}

func TestShareOf(t *testing.T) {
	for x, want := range map[float64]string{0: "0 %", 0.0003: "< 1 %", 0.5392: "54 %", 0.999: "> 99 %", 1: "100 %"} {
		if got := shareOf(x); got != want {
			t.Errorf("%v: got %q, want %q", x, got, want)
		}
	}
}
