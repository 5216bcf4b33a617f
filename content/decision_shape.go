package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

var decisionFields = &shape[Decision]{
	name: "a decision", doc: "A shared decision point as a tree.",
	fields: []field[Decision]{
		must(like(one("decision", "id; the file is called the same", identifier, func(d *Decision) *Given[string] { return &d.ID }), "small-pupil")),
		must(like(one("title", "a few words", text, func(d *Decision) *Given[string] { return &d.Title }), "Small pupil")),
		must(one("question", "the question as it stands at that second", text, func(d *Decision) *Given[string] { return &d.Question })),
		like(many("steps", "steps in which it is met", stepTerm, func(d *Decision) *[]Given[string] { return &d.Steps }), "capsulorhexis"),
		many("complications", "complications that open it", eventTerm, func(d *Decision) *[]Given[string] { return &d.Complications }),
		one("trigger", "what is seen that opens the question", text, func(d *Decision) *Given[string] { return &d.Trigger }),
		must(group("value", "what the ends of the scale of values mean", func() *shape[ValueScale] { return valueFields }, func(d *Decision) *ValueScale { return &d.Value })),
		many("ready", "what to have ready", kitTerm, func(d *Decision) *[]Given[string] { return &d.Ready }),
		many("agreed", "what is generally agreed", text, func(d *Decision) *[]Given[string] { return &d.Agreed }),
		many("thresholds", "thresholds in common use, saying where they differ", text, func(d *Decision) *[]Given[string] { return &d.Thresholds }),
		one("caution", "what to be careful of", text, func(d *Decision) *Given[string] { return &d.Caution }),
		must(listOf("options", "the choices", "TreeOption", treeOptionShape, func(d *Decision) *[]TreeOption { return &d.Options })),
		groups("sources", "where statements and numbers come from", func() *shape[Reference] { return referenceFields }, func(d *Decision) *[]Reference { return &d.Sources }),
		exceptionsField(func(d *Decision) *[]PrivacyException { return &d.Exceptions }),
	},
	place: place(func(d *Decision) *diagnose.Span { return &d.Span }),
	check: checkDecision,
}

var valueFields = &shape[ValueScale]{
	name: "value", doc: "What the ends of the scale of values mean.",
	fields: []field[ValueScale]{
		must(one("best", "what 100 means", text, func(v *ValueScale) *Given[string] { return &v.Best })),
		must(one("worst", "what 0 means", text, func(v *ValueScale) *Given[string] { return &v.Worst })),
	},
}

// The shapes of a tree refer to one another, so they are made together.
var treeOptionShape, branchShape, subDecisionShape, nodeShape = treeShapes()

func treeShapes() (*shape[TreeOption], *shape[Branch], *shape[SubDecision], *shape[Node]) {
	option := &shape[TreeOption]{name: "an option", doc: "One branch of a decision node.", place: func(o *TreeOption) *diagnose.Span { return &o.Span }}
	branch := &shape[Branch]{name: "a branch", doc: "One branch of a chance node.", place: func(b *Branch) *diagnose.Span { return &b.Span }}
	sub := &shape[SubDecision]{name: "decide", doc: "A decision inside a tree."}
	node := &shape[Node]{name: "then", doc: "What follows: exactly one of end, chance and decide.", place: func(n *Node) *diagnose.Span { return &n.Span }, check: checkNode}

	option.fields = []field[TreeOption]{
		must(like(one("id", "short id", identifier, func(o *TreeOption) *Given[string] { return &o.ID }), "hooks")),
		must(like(one("text", "the choice", text, func(o *TreeOption) *Given[string] { return &o.Text }), "Iris hooks")),
		one("for", "what speaks for it", text, func(o *TreeOption) *Given[string] { return &o.For }),
		one("against", "what speaks against it", text, func(o *TreeOption) *Given[string] { return &o.Against }),
		many("ready", "what it needs", kitTerm, func(o *TreeOption) *[]Given[string] { return &o.Ready }),
		must(nodeField(node, func(o *TreeOption) *Node { return &o.Then })),
	}
	branch.fields = []field[Branch]{
		must(like(one("branch", "short id, named by came_of in cases", identifier, func(b *Branch) *Given[string] { return &b.ID }), "pupil-held")),
		must(one("text", "what happened", text, func(b *Branch) *Given[string] { return &b.Text })),
		like(one("p", "fixed probability with a source, or rest", probability, func(b *Branch) *Given[Probability] { return &b.P }), "0.08"),
		like(one("prior", "pseudo-count that observed cases add to", number(0, 1e6, "a pseudo-count"), func(b *Branch) *Given[float64] { return &b.Prior }), "18"),
		like(one("source", "number in the list of sources, from 1", whole(1, 1000, "a number"), func(b *Branch) *Given[int] { return &b.Source }), "1"),
		must(nodeField(node, func(b *Branch) *Node { return &b.Then })),
	}
	sub.fields = []field[SubDecision]{
		one("question", "the question", text, func(s *SubDecision) *Given[string] { return &s.Question }),
		must(listOf("options", "the choices", "TreeOption", option, func(s *SubDecision) *[]TreeOption { return &s.Options })),
	}
	node.fields = []field[Node]{
		like(one("end", "value from 0 to 100", number(0, 100, "a value"), func(n *Node) *Given[float64] { return &n.End }), "92"),
		like(one("range", "plausible range of that value", valueRange, func(n *Node) *Given[[2]float64] { return &n.Range }), "85-97"),
		listOf("chance", "what may happen", "Branch", branch, func(n *Node) *[]Branch { return &n.Chance }),
		decideField(sub),
	}
	return option, branch, sub, node
}

// definition refers to a shape by name, since trees contain themselves.
func definition(name string) func(*term.Vocabulary) schemaObject {
	return always(schemaObject{"$ref": "#/$defs/" + name})
}

func nodeField[T any](s *shape[Node], at func(*T) *Node) field[T] {
	return field[T]{
		key: "then", doc: "what follows: exactly one of end, chance and decide", expect: "end, chance or decide",
		schema: definition("Node"),
		read: func(r *reader, key, n *yaml.Node, into *T) {
			if !isEmpty(n) {
				s.read(r, n, at(into))
			}
		},
	}
}

func listOf[T, U any](key, doc, name string, s *shape[U], at func(*T) *[]U) field[T] {
	f := groups(key, doc, func() *shape[U] { return s }, at)
	f.schema = func(v *term.Vocabulary) schemaObject { return schemaList(definition(name)(v)) }
	return f
}

func decideField(s *shape[SubDecision]) field[Node] {
	f := optionalGroup("decide", "a decision inside the tree", func() *shape[SubDecision] { return s }, func(n *Node) **SubDecision { return &n.Decide })
	f.schema = definition("SubDecision")
	return f
}

// treeDefinitions are the schemas that trees refer to by name.
func treeDefinitions(v *term.Vocabulary) schemaObject {
	return schemaObject{
		"Node": nodeShape.object(v), "Branch": branchShape.object(v),
		"SubDecision": subDecisionShape.object(v), "TreeOption": treeOptionShape.object(v),
	}
}
