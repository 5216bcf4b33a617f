package content

import "caseleaf/content/diagnose"

// Decision is a shared decision point as a tree: decisions/*.md.
type Decision struct {
	File   string
	Source *diagnose.Source
	Span   diagnose.Span

	ID            Given[string]
	Title         Given[string]
	Question      Given[string]
	Steps         []Given[string] // terms: step, where it is met
	Complications []Given[string]
	Trigger       Given[string] // what is seen that opens the question
	Value         ValueScale
	Ready         []Given[string] // terms of kit
	Agreed        []Given[string]
	Thresholds    []Given[string]
	Caution       Given[string]
	Options       []TreeOption
	Sources       []Reference
	Exceptions    []PrivacyException

	Body Body
}

// ValueScale says in words what the ends of the scale of values mean.
type ValueScale struct {
	Best  Given[string] // what 100 means
	Worst Given[string] // what 0 means
}

// TreeOption is one branch of a decision node.
type TreeOption struct {
	Span    diagnose.Span
	ID      Given[string]
	Text    Given[string]
	For     Given[string]
	Against Given[string]
	Ready   []Given[string]
	Then    Node
}

// Node is a node of a decision tree: exactly one of End, Chance and Decide is
// given; a node with none was reported and is left out of the arithmetic.
type Node struct {
	Span   diagnose.Span
	End    Given[float64] // value from 0 to 100
	Range  Given[[2]float64]
	Chance []Branch
	Decide *SubDecision
}

// SubDecision is a decision inside a tree.
type SubDecision struct {
	Question Given[string]
	Options  []TreeOption
}

// Branch is one branch of a chance node.
type Branch struct {
	Span   diagnose.Span
	ID     Given[string]
	Text   Given[string]
	P      Given[Probability]
	Prior  Given[float64] // pseudo-count of a Beta or Dirichlet prior
	Source Given[int]     // number in the decision's sources, from 1
	Then   Node
}

// Probability is a fixed probability, or what the others leave.
type Probability struct {
	Value float64 // 0 to 1, when Rest is false
	Rest  bool
}
