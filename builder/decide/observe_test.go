package decide_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/decide"
	"caseleaf/content"
)

func known[V any](v V) content.Given[V] { return content.Given[V]{Value: v, State: content.Known} }

func branch(id string, prior float64, then content.Node) content.Branch {
	return content.Branch{ID: known(id), Prior: known(prior), Then: then}
}

func at(value float64) content.Node { return content.Node{End: known(value)} }

// membrane is a shared decision with a choice inside one of its branches.
func membrane() *content.Decision {
	again := content.Node{Decide: &content.SubDecision{Options: []content.TreeOption{
		{ID: known("air-again"), Then: content.Node{Chance: []content.Branch{
			branch("held-later", 5, at(84)), branch("failed-later", 5, at(48)),
		}}},
		{ID: known("gas"), Then: at(70)},
	}}}
	return &content.Decision{ID: known("membrane"), Options: []content.TreeOption{
		{ID: known("air"), Then: content.Node{Chance: []content.Branch{
			branch("held", 14, at(94)), branch("off-again", 2, again),
		}}},
		{ID: known("leave"), Then: at(80)},
	}}
}

// moment is a case that met the decision.
func moment(chosen, came string) *content.Case {
	d := &content.DecisionPoint{Point: known("membrane")}
	if chosen != "" {
		d.Chosen = known(chosen)
	}
	if came != "" {
		d.CameOf = known(came)
	}
	return &content.Case{Timeline: content.Timeline{Entries: []content.Entry{{Decision: d}}}}
}

func TestObserveCountsTheWholeWay(t *testing.T) {
	tree, seen := decide.Observe(membrane(), []*content.Case{
		moment("air", "held"), moment("air", "held"), moment("air", "failed-later"),
		moment("leave", ""), moment("", ""), moment("leave", "held"), moment("laser", ""),
	})
	want := decide.Observed{
		Met:      7,
		Chosen:   map[string]int{"air": 3, "leave": 2},
		Followed: map[string]map[string]int{"air": {"held": 2, "failed-later": 1}},
		Unplaced: 2, // held does not follow leave; nobody can choose laser
	}
	if diff := cmp.Diff(want, seen); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	m, err := decide.Compile(tree)
	if err != nil {
		t.Fatal(err)
	}
	air := m.FoldBack().Root.Next[0].Then
	// (14+2)/(14+2+2+1) held; then (5+1)/11 failed later (worked by hand).
	if p := air.Next[0].P; p != 16.0/19 {
		t.Errorf("held: %v, want 16/19", p)
	}
	later := air.Next[1].Then.Next[0].Then
	if p := later.Next[1].P; p != 6.0/11 || later.Next[1].Seen != 1 {
		t.Errorf("failed later: %v, want 6/11", p)
	}
}

func TestObserveLeavesANodeToTheCases(t *testing.T) {
	d := &content.Decision{ID: known("membrane"), Options: []content.TreeOption{
		{ID: known("air"), Then: content.Node{Chance: []content.Branch{
			{ID: known("held"), Then: at(90)}, {ID: known("failed"), Then: at(40)},
		}}},
	}}
	tree, _ := decide.Observe(d, []*content.Case{moment("air", "held")})
	m, err := decide.Compile(tree)
	if err != nil {
		t.Fatal(err)
	}
	if p := m.FoldBack().Root.Next[0].Then.Next[0].P; p != 2.0/3 {
		t.Errorf("flat prior and one case: %v, want 2/3", p)
	}
}

func TestObserveOfAnEmptyNodeIsAnError(t *testing.T) {
	d := &content.Decision{Options: []content.TreeOption{{ID: known("x")}}}
	tree, _ := decide.Observe(d, nil)
	if _, err := decide.Compile(tree); err == nil {
		t.Error("an option with nothing after it compiles")
	}
}
