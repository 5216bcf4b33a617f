package decide_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"testing"

	"caseleaf/builder/decide"
)

// source is a fixed stream, so that a failure can be met again.
func source() *rand.Rand { return rand.New(rand.NewPCG(6, 1980)) }

// randomTree grows a tree of at most depth levels below its root. Values have
// one decimal and probabilities two, so that exact ties do occur.
func randomTree(r *rand.Rand, depth int) *decide.Tree {
	t := &decide.Tree{Goal: decide.Goal(r.IntN(2)), Root: randomDecision(r, depth)}
	return t
}

func randomNode(r *rand.Rand, depth int) *decide.Node {
	switch {
	case depth == 0 || r.IntN(4) == 0:
		v := big.NewRat(int64(r.IntN(1001)), 10)
		n := &decide.Node{Kind: decide.End, Value: v}
		if r.IntN(2) == 0 {
			n.Low, n.High = new(big.Rat).Sub(v, big.NewRat(5, 1)), new(big.Rat).Add(v, big.NewRat(5, 1))
		}
		return n
	case r.IntN(3) == 0:
		return randomDecision(r, depth)
	}
	n := &decide.Node{Kind: decide.Chance}
	size, left, prior := 2+r.IntN(2), 100, r.IntN(2) == 0
	for i := range size {
		w := decide.Weight{Basis: decide.Rest}
		switch part := r.IntN(left + 1); {
		case prior:
			w = decide.Weight{Basis: decide.Prior, Value: big.NewRat(int64(1+r.IntN(9)), 2), Seen: r.IntN(4)}
		case i < size-1:
			left -= part
			w = decide.Weight{Value: big.NewRat(int64(part), 100)}
		}
		n.Branches = append(n.Branches, decide.Branch{ID: fmt.Sprint("b", i), P: w, Then: randomNode(r, depth-1)})
	}
	return n
}

func randomDecision(r *rand.Rand, depth int) *decide.Node {
	n := &decide.Node{}
	for i := range 2 + r.IntN(2) {
		n.Options = append(n.Options, decide.Option{ID: fmt.Sprint("o", i), Then: randomNode(r, depth-1)})
	}
	return n
}

// strategies gives the expected value of every strategy from a node on: every
// combination of choices, one at each decision. It is the definition that fold
// back shortens.
func strategies(n *decide.Node) []*big.Rat {
	switch n.Kind {
	case decide.End:
		return []*big.Rat{n.Value}
	case decide.Decision:
		var all []*big.Rat
		for _, o := range n.Options {
			all = append(all, strategies(o.Then)...)
		}
		return all
	}
	sum := new(big.Rat)
	weight := make([]*big.Rat, len(n.Branches))
	rest := -1
	for i, b := range n.Branches {
		weight[i] = new(big.Rat)
		switch b.P.Basis {
		case decide.Rest:
			rest = i
		case decide.Prior:
			weight[i].Add(b.P.Value, big.NewRat(int64(b.P.Seen), 1))
		default:
			weight[i].Set(b.P.Value)
		}
		sum.Add(sum, weight[i])
	}
	if rest >= 0 {
		weight[rest].Sub(big.NewRat(1, 1), sum)
		sum.SetInt64(1)
	}
	all := []*big.Rat{new(big.Rat)}
	for i, b := range n.Branches {
		p := new(big.Rat).Quo(weight[i], sum)
		var next []*big.Rat
		for _, have := range all {
			for _, v := range strategies(b.Then) {
				w := new(big.Rat).Mul(p, v)
				next = append(next, w.Add(w, have))
			}
		}
		all = next
	}
	return all
}

func best(values []*big.Rat, goal decide.Goal) *big.Rat {
	b := values[0]
	for _, v := range values {
		if c := v.Cmp(b); goal == decide.Most && c > 0 || goal == decide.Least && c < 0 {
			b = v
		}
	}
	return b
}

// TestFoldBackIsTheBestStrategy holds fold back against brute force, exactly.
func TestFoldBackIsTheBestStrategy(t *testing.T) {
	r := source()
	deep := 0
	for range 400 {
		tree := randomTree(r, 3)
		m, err := decide.Compile(tree)
		if err != nil {
			t.Fatal(err)
		}
		got := m.FoldBack()
		for i, o := range tree.Root.Options {
			all := strategies(o.Then)
			deep = max(deep, len(all))
			if want := best(all, tree.Goal); got.Options[i].Exact.Cmp(want) != 0 {
				t.Fatalf("option %s: %v, want %v", o.ID, got.Options[i].Exact, want)
			}
		}
		want := best(strategies(tree.Root), tree.Goal)
		if got.Exact.Cmp(want) != 0 {
			t.Fatalf("value %v, want %v", got.Exact, want)
		}
		for _, o := range got.Options {
			if o.Preferred != (o.Exact.Cmp(want) == 0) {
				t.Fatalf("%+v marked wrongly beside %v", o, want)
			}
		}
	}
	if deep < 8 {
		t.Errorf("at most %d strategies an option: the trees test nothing", deep)
	}
}

// TestThresholdsBracketAChange: just below a threshold the options named before
// it are best, just above it those after; between thresholds nothing changes.
func TestThresholdsBracketAChange(t *testing.T) {
	r := source()
	found := 0
	for range 300 {
		tree := randomTree(r, 3)
		m, err := decide.Compile(tree)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range m.OneWay() {
			low, high := 0.0, 1.0
			if !s.Probability {
				if !s.Ranged() {
					continue
				}
				low, high = s.Low, s.High
			}
			edges := []float64{low}
			for _, th := range s.Thresholds {
				edges = append(edges, th.At)
				found++
			}
			edges = append(edges, high)
			for i := 1; i < len(edges); i++ {
				want := []string(nil)
				switch {
				case i <= len(s.Thresholds):
					want = s.Thresholds[i-1].Before
				case len(s.Thresholds) > 0:
					want = s.Thresholds[len(s.Thresholds)-1].After
				}
				for _, share := range []float64{0.001, 0.3, 0.999} {
					x := edges[i-1] + share*(edges[i]-edges[i-1])
					checkBest(t, m, tree.Goal, s.Parameter, x, want)
				}
			}
		}
	}
	if found < 100 {
		t.Errorf("%d thresholds in all: the trees test nothing", found)
	}
}

// checkBest asks that the wanted options are the best ones at x; without a want,
// that those best at x are the tree's own.
func checkBest(t *testing.T, m *decide.Model, goal decide.Goal, p decide.Parameter, x float64, want []string) {
	t.Helper()
	values := m.At(p, x)
	top := values[0]
	for _, v := range values {
		if goal == decide.Most && v > top || goal == decide.Least && v < top {
			top = v
		}
	}
	if want == nil {
		want = m.FoldBack().Best
	}
	for i, id := range m.OptionIDs() {
		named := false
		for _, w := range want {
			named = named || w == id
		}
		if near := abs(values[i]-top) < 1e-9; named && !near {
			t.Fatalf("%s at %v: %v should be best, values %v", p.Name, x, want, values)
		}
	}
}

func abs(v float64) float64 { return max(v, -v) }

// TestScalingChangesNoChoice: other units or another zero leave every choice,
// and turn margins by the same factor.
func TestScalingChangesNoChoice(t *testing.T) {
	r := source()
	for range 200 {
		tree := randomTree(r, 3)
		before, _ := decide.Compile(tree)
		was := before.FoldBack()
		scale(tree.Root, map[*decide.Node]bool{})
		after, err := decide.Compile(tree)
		if err != nil {
			t.Fatal(err)
		}
		is := after.FoldBack()
		if fmt.Sprint(was.Best) != fmt.Sprint(is.Best) {
			t.Fatalf("best %v, scaled %v", was.Best, is.Best)
		}
		if len(was.Best) == 1 && abs(is.Margin-7*was.Margin) > 1e-9 {
			t.Fatalf("margin %v, scaled %v", was.Margin, is.Margin)
		}
	}
}

// scale makes every value 7v - 3.
func scale(n *decide.Node, done map[*decide.Node]bool) {
	if done[n] {
		return
	}
	done[n] = true
	if n.Kind == decide.End {
		n.Value = new(big.Rat).Mul(n.Value, big.NewRat(7, 1))
		n.Value.Sub(n.Value, big.NewRat(3, 1))
	}
	for _, o := range n.Options {
		scale(o.Then, done)
	}
	for _, b := range n.Branches {
		scale(b.Then, done)
	}
}
