package tally_test

import (
	"errors"
	"math/big"
	"slices"
	"strings"

	"caseleaf/builder/decide"
)

// decideFunctions are the rows that builder/decide computes.
var decideFunctions = map[string]func(checkRow) answer{
	"tree_rollback":    rollbackRow,
	"one_way":          oneWayRow,
	"rescale_branches": rescaleRow,
	"pauker_kassirer": func(r checkRow) answer {
		t := decide.Thresholds(r.rational("sensitivity"), r.rational("specificity"),
			r.rational("benefit"), r.rational("risk"), r.rational("test_risk"))
		return answer{"treatment": rational(t.Treatment), "testing": rational(t.Testing),
			"test_treatment": rational(t.TestTreatment), "test_worthwhile": t.Worthwhile}
	},
	"treatment_threshold": func(r checkRow) answer {
		return answer{"threshold": rational(decide.TreatmentThreshold(r.rational("benefit"), r.rational("risk")))}
	},
	"bayes": func(r checkRow) answer {
		v := decide.Revise(r.rational("prevalence"), r.rational("sensitivity"), r.rational("specificity"))
		return answer{"p_positive": rational(v.Positive), "ppv": rational(v.PPV), "npv": rational(v.NPV)}
	},
	"evpi": informationRow,
	"evpi_beta": func(r checkRow) answer {
		o := decide.BetaInformation(r.real("alpha"), r.real("beta"), r.real("t"), r.real("k"))
		return answer{"expected_incremental_benefit": o.Gain, "choose_new": o.Choose,
			"expected_with_perfect_information": o.Perfect, "evpi": o.Value}
	},
}

// rational keeps an undefined threshold null.
func rational(r *big.Rat) any {
	if r == nil {
		return nil
	}
	return r
}

// rational reads an input as an exact number.
func (r checkRow) rational(key string) *big.Rat { return rationalOf(r.inputs[key]) }

func rationalOf(v any) *big.Rat {
	switch v := v.(type) {
	case float64:
		return decide.Number(v)
	case string:
		if n, ok := new(big.Rat).SetString(v); ok {
			return n
		}
	}
	return nil
}

func rationalsOf(v any) []*big.Rat {
	var out []*big.Rat
	l, _ := v.([]any)
	for _, x := range l {
		out = append(out, rationalOf(x))
	}
	return out
}

// treesOf keeps the file's trees by the id of their rows, for rows that name one.
func treesOf(rows []checkRow) map[string]any {
	trees := map[string]any{}
	for _, r := range rows {
		if t, ok := r.inputs["tree"].(map[string]any); ok {
			trees[r.id] = t
		}
	}
	return trees
}

// tree reads the row's own tree or the one it names.
func (r checkRow) tree() *decide.Tree {
	form := r.inputs["tree"]
	if name, ok := form.(string); ok {
		form = r.trees[name]
	}
	t := &decide.Tree{Root: treeNode(form)}
	if r.text("goal") == "min" {
		t.Goal = decide.Least
	}
	return t
}

func treeNode(form any) *decide.Node {
	m, ok := form.(map[string]any)
	if !ok {
		return nil
	}
	n := &decide.Node{}
	switch m["type"] {
	case "decision":
		l, _ := m["options"].([]any)
		for _, o := range l {
			o := o.(map[string]any)
			n.Options = append(n.Options, decide.Option{ID: o["name"].(string), Then: treeNode(o["node"])})
		}
	case "chance":
		n.Kind = decide.Chance
		l, _ := m["branches"].([]any)
		for _, b := range l {
			b := b.(map[string]any)
			w := decide.Weight{Value: rationalOf(b["p"])}
			if b["p"] == "rest" {
				w.Basis = decide.Rest
			}
			name, _ := b["name"].(string)
			n.Branches = append(n.Branches, decide.Branch{ID: name, P: w, Then: treeNode(b["node"])})
		}
	default:
		n.Kind, n.Value = decide.End, rationalOf(m["value"])
	}
	return n
}

func rollbackRow(r checkRow) answer {
	m, err := decide.Compile(r.tree())
	if err != nil {
		return answer{"error": err.Error()}
	}
	result := m.FoldBack()
	ev := map[string]any{}
	for _, o := range result.Options {
		ev[o.ID] = o.Exact
	}
	a := answer{"ev": ev, "best": result.Best, "value": result.Exact}
	exact := map[string]any{}
	for _, o := range result.Options {
		exact[o.ID] = o.Exact.RatString()
	}
	a["ev_exact"], a["value_exact"] = exact, result.Exact.RatString()
	return a
}

// oneWayRow moves "p(branch)" of the named option, or "v(branch)", the value of
// the end that the branch leads to.
func oneWayRow(r checkRow) answer {
	m, err := decide.Compile(r.tree())
	if err != nil {
		return answer{"error": err.Error()}
	}
	kind, name, _ := strings.Cut(strings.TrimSuffix(r.text("parameter"), ")"), "(")
	option := r.text("option")
	parameter, ok := m.Parameter(kind + "(" + pathTo(r.tree().Root, "", option, name) + ")")
	if !ok {
		return answer{"error": "no such parameter"}
	}
	a := answer{}
	for k, id := range m.OptionIDs() {
		var at []float64
		for _, x := range r.reals("at") {
			at = append(at, m.At(parameter, x)[k])
		}
		if slices.Min(at) == slices.Max(at) && id != option {
			a["ev_"+id] = at[0]
		} else {
			a["ev_"+id] = at
		}
	}
	a["threshold"] = nil
	if found := m.Thresholds(parameter); len(found) > 0 {
		a["threshold"] = found[0].Exact
		a["threshold_exact"] = found[0].Exact.RatString()
	}
	return a
}

// pathTo finds the first branch or option of a name below the named option.
func pathTo(n *decide.Node, path, option, name string) string {
	step := func(id string, then *decide.Node) string {
		below := id
		if path != "" {
			below = path + " / " + id
		}
		if path == "" && id != option {
			return ""
		}
		if id == name {
			return below
		}
		return pathTo(then, below, option, name)
	}
	for _, o := range n.Options {
		if found := step(o.ID, o.Then); found != "" {
			return found
		}
	}
	for _, b := range n.Branches {
		if found := step(b.ID, b.Then); found != "" {
			return found
		}
	}
	return ""
}

func rescaleRow(r checkRow) answer {
	p, err := decide.Rescale(rationalsOf(r.inputs["p"]), r.whole("move_index"), r.rational("to"))
	switch {
	case errors.Is(err, decide.ErrCannotMove):
		return answer{"error": err.Error()}
	case err != nil:
		return answer{"error": "unexpected: " + err.Error()}
	}
	var exact []string
	for _, v := range p {
		exact = append(exact, v.RatString())
	}
	return answer{"p": p, "p_exact": exact}
}

func informationRow(r checkRow) answer {
	form, _ := r.inputs["utilities"].(map[string]any)
	var names []string
	for name := range form {
		names = append(names, name)
	}
	slices.Sort(names)
	var actions [][]*big.Rat
	for _, name := range names {
		actions = append(actions, rationalsOf(form[name]))
	}
	goal := decide.Most
	if r.text("goal") == "min" {
		goal = decide.Least
	}
	info, err := decide.PerfectInformation(rationalsOf(r.inputs["prob"]), actions, goal)
	if err != nil {
		return answer{"error": err.Error()}
	}
	ev, exact := map[string]any{}, map[string]any{}
	for i, name := range names {
		ev[name], exact[name] = info.Expected[i], info.Expected[i].RatString()
	}
	return answer{"ev": ev, "ev_exact": exact,
		"with_perfect_information": info.Perfect, "with_perfect_information_exact": info.Perfect.RatString(),
		"evpi": info.Value, "evpi_exact": info.Value.RatString()}
}
