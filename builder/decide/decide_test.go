package decide_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/decide"
)

func end(v string) *decide.Node { return &decide.Node{Kind: decide.End, Value: rat(v)} }

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("not a rational: " + s) // a slip in this file
	}
	return r
}

func chance(branches ...decide.Branch) *decide.Node {
	return &decide.Node{Kind: decide.Chance, Branches: branches}
}

func fixed(id, p string, then *decide.Node) decide.Branch {
	return decide.Branch{ID: id, P: decide.Weight{Value: rat(p)}, Then: then}
}

func prior(id, count string, seen int, then *decide.Node) decide.Branch {
	return decide.Branch{ID: id, P: decide.Weight{Basis: decide.Prior, Value: rat(count), Seen: seen}, Then: then}
}

func decision(options ...decide.Option) *decide.Node { return &decide.Node{Options: options} }

func option(id string, then *decide.Node) decide.Option { return decide.Option{ID: id, Then: then} }

func compiled(t *testing.T, root *decide.Node) *decide.Model {
	t.Helper()
	m, err := decide.Compile(&decide.Tree{Root: root})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestTieNamesBoth: 1/3 and 2/3 have no binary form, and the tie must still be
// seen. (check values, tree-tie)
func TestTieNamesBoth(t *testing.T) {
	m := compiled(t, decision(
		option("first", chance(fixed("a", "1/3", end("1")), fixed("b", "2/3", end("1/2")))),
		option("second", end("2/3")),
		option("third", end("1/2")),
	))
	got := m.FoldBack()
	if diff := cmp.Diff([]string{"first", "second"}, got.Best); diff != "" || got.Margin != 0 {
		t.Errorf("margin %v, best (-want +got)\n%s", got.Margin, diff)
	}
}

func TestPriorsAreUpdatedByCases(t *testing.T) {
	m := compiled(t, decision(
		option("a", chance(prior("held", "14", 3, end("90")), prior("failed", "2", 1, end("40")))),
		option("b", end("80")),
	))
	got := m.FoldBack()
	// (14+3)/(14+3+2+1) = 17/20 (worked by hand)
	if p := got.Root.Next[0].Then.Next[0].P; p != 0.85 {
		t.Errorf("probability %v, want 0.85", p)
	}
	if got.Value != 0.85*90+0.15*40 {
		t.Errorf("value %v", got.Value)
	}
	// Beta(17, 3): P(p < x) is the chance of 17 or more in Binomial(19, x), which
	// is 0.025 at 0.6686 and 0.975 at 0.9662 (binomial sums worked by hand).
	p, ok := m.Parameter("p(a / held)")
	if !ok || !p.Ranged() || math.Abs(p.Low-0.6686) > 5e-5 || math.Abs(p.High-0.9662) > 5e-5 {
		t.Errorf("%+v", p)
	}
}

func TestFaultsAreNamed(t *testing.T) {
	for name, c := range map[string]struct {
		root *decide.Node
		want error
		text string
	}{
		"sum below 1":   {decision(option("x", chance(fixed("a", "1/2", end("1")), fixed("b", "49/100", end("0"))))), decide.ErrSum, "probabilities do not sum to 1: 99/100"},
		"root an end":   {end("1"), decide.ErrShape, ""},
		"no options":    {decision(), decide.ErrShape, ""},
		"no branches":   {decision(option("x", chance())), decide.ErrShape, ""},
		"same id twice": {decision(option("x", end("1")), option("x", end("2"))), decide.ErrShape, ""},
		"nothing after": {decision(option("x", nil)), decide.ErrShape, ""},
		"no value":      {decision(option("x", &decide.Node{Kind: decide.End})), decide.ErrShape, ""},
		"negative":      {decision(option("x", chance(fixed("a", "-1/2", end("1")), fixed("b", "3/2", end("0"))))), decide.ErrShape, ""},
		"prior of 0":    {decision(option("x", chance(prior("a", "0", 0, end("1")), prior("b", "1", 0, end("0"))))), decide.ErrShape, ""},
		"mixed":         {decision(option("x", chance(prior("a", "1", 0, end("1")), fixed("b", "1/2", end("0"))))), decide.ErrShape, ""},
		"two rests": {decision(option("x", chance(
			decide.Branch{ID: "a", P: decide.Weight{Basis: decide.Rest}, Then: end("1")},
			decide.Branch{ID: "b", P: decide.Weight{Basis: decide.Rest}, Then: end("0")}))), decide.ErrShape, ""},
		"rest of too much": {decision(option("x", chance(fixed("a", "2", end("1")),
			decide.Branch{ID: "b", P: decide.Weight{Basis: decide.Rest}, Then: end("0")}))), decide.ErrSum, "probabilities do not sum to 1: 2"},
	} {
		_, err := decide.Compile(&decide.Tree{Root: c.root})
		if !errors.Is(err, c.want) || c.text != "" && err.Error() != c.text {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := decide.Compile(nil); !errors.Is(err, decide.ErrShape) {
		t.Errorf("no tree: %v", err)
	}
}

// TestSharedProbabilityIsBisected: an option that needs the same luck twice is
// worth 100p², one that is certain 49, so the threshold is p = 0.7 (worked by
// hand; the parameter enters as a square).
func TestSharedProbabilityIsBisected(t *testing.T) {
	luck := func(then *decide.Node) *decide.Node {
		yes := fixed("yes", "1/2", then)
		yes.Shared = "luck"
		return chance(yes, fixed("no", "1/2", end("0")))
	}
	m := compiled(t, decision(option("twice", luck(luck(end("100")))), option("certain", end("49"))))
	p, ok := m.Parameter("p(luck)")
	if !ok {
		t.Fatal("no parameter p(luck)")
	}
	got := m.Thresholds(p)
	if len(got) != 1 || math.Abs(got[0].At-0.7) > 1e-9 || got[0].Exact != nil || got[0].Before[0] != "certain" {
		t.Errorf("%+v, want certain before 0.7 and twice after", got)
	}
}

// TestInnerDecisionBendsTheLine: with a choice inside, an option's value is not
// one line, and the threshold lies on the later of its lines.
func TestInnerDecisionBendsTheLine(t *testing.T) {
	inner := decision(option("stay", end("50")), option("switch",
		chance(fixed("good", "1/2", end("100")), fixed("bad", "1/2", end("0")))))
	m := compiled(t, decision(option("flexible", inner), option("certain", end("60"))))
	p, _ := m.Parameter("p(flexible / switch / good)")
	got := m.Thresholds(p)
	// max(50, 100p) = 60 at p = 3/5
	if len(got) != 1 || got[0].Exact.RatString() != "3/5" || got[0].After[0] != "flexible" {
		t.Errorf("%+v, want 3/5", got)
	}
}

func TestSampleIsReproducibleAndTrue(t *testing.T) {
	m := compiled(t, decision(
		option("new", chance(prior("harm", "2", 0, end("0")), prior("fine", "48", 0, end("10")))),
		option("old", end("9.5")),
	))
	first, second := m.Sample(20000, 7), m.Sample(20000, 7)
	if diff := cmp.Diff(first, second); diff != "" {
		t.Error(diff)
	}
	other := m.Sample(20000, 8)
	if cmp.Equal(first, other) {
		t.Error("another seed gives the same draws")
	}
	// new gains 10(0.05 - p) over old, p ~ Beta(2, 48): EVPI 0.0712753.
	// (check values, evpi-03)
	if math.Abs(first.PerfectInformation-0.0712753) > 0.004 {
		t.Errorf("EVPI %v, want 0.0713", first.PerfectInformation)
	}
	share := 0.0
	for _, o := range first.Options {
		share += o.BestIn
		if o.Low > o.Mean || o.Mean > o.High {
			t.Errorf("%+v", o)
		}
	}
	if math.Abs(share-1) > 1e-9 {
		t.Errorf("shares sum to %v", share)
	}
	if empty := m.Sample(0, 1); empty.N != 0 {
		t.Errorf("%+v", empty)
	}
}

// TestSampleOfFixedNumbers: without uncertainty knowing more is worth nothing.
func TestSampleOfFixedNumbers(t *testing.T) {
	r := source()
	for range 100 {
		tree := randomTree(r, 3)
		m, err := decide.Compile(tree)
		if err != nil {
			t.Fatal(err)
		}
		d := m.Sample(50, 1)
		if d.PerfectInformation < 0 || math.IsNaN(d.PerfectInformation) {
			t.Fatalf("EVPI %v", d.PerfectInformation)
		}
	}
	m := compiled(t, decision(option("a", end("1")), option("b", end("1"))))
	d := m.Sample(10, 1)
	if d.PerfectInformation != 0 || d.Options[0].BestIn != 0.5 {
		t.Errorf("%+v, want no gain and an even share", d)
	}
}

func TestTwoWayAgreesWithOneWay(t *testing.T) {
	m := compiled(t, decision(
		option("a", chance(prior("held", "14", 0, end("90")), prior("failed", "2", 0, end("40")))),
		option("b", chance(prior("held", "8", 0, end("92")), prior("failed", "2", 0, end("74")))),
	))
	x, y, ok := m.MostInfluential()
	if !ok {
		t.Fatal("no two parameters")
	}
	grid, ok := m.TwoWay(x, y, 21)
	if !ok || len(grid.Best) != 21 || len(grid.Best[0]) != 21 {
		t.Fatalf("%v %+v", ok, grid)
	}
	seen := map[int]bool{}
	for i, row := range grid.Best {
		for j, best := range row {
			seen[best] = true
			if i > 0 && grid.YAt[i] <= grid.YAt[i-1] || j > 0 && grid.XAt[j] <= grid.XAt[j-1] {
				t.Fatal("the grid does not ascend")
			}
		}
	}
	if len(seen) != 2 {
		t.Errorf("options on the map: %v, want both", seen)
	}
	if _, ok := m.TwoWay(x, x, 5); ok {
		t.Error("a parameter moved against itself")
	}
}

// TestMarginAndSwing: worked by hand on one chance node.
func TestMarginAndSwing(t *testing.T) {
	value := end("80")
	value.Low, value.High = rat("60"), rat("95")
	m := compiled(t, decision(option("a", value), option("b", end("75"))))
	got := m.FoldBack()
	if got.Margin != 5 {
		t.Errorf("margin %v, want 5", got.Margin)
	}
	s := m.OneWay()[0]
	if s.Name != "v(a)" || s.Swing != 35 || len(s.Thresholds) != 1 || s.Thresholds[0].At != 75 {
		t.Errorf("%+v, want v(a) swinging 35 with its threshold at 75", s)
	}
	one := compiled(t, decision(option("only", end("1"))))
	if !math.IsNaN(one.FoldBack().Margin) {
		t.Error("one option has a margin")
	}
}
