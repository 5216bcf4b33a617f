package builder

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"caseleaf/builder/decide"
	"caseleaf/builder/figure"
)

// mostOnPaper is how many ends of a tree one printed page holds in a size that
// can be read; a larger tree is printed option by option.
const mostOnPaper = 12

// treeFigure draws the tree with its expected values.
func (s *Site) treeFigure(v *weighing) *FigureBlock {
	if v.model == nil {
		return nil
	}
	f := figure.Tree{Words: v.words,
		IDPrefix: "tree", Title: v.words.say("tree-title", v.d.Title.Or(v.d.ID.Value)),
		Finding: v.finding(), Value: v.scale(), Root: v.treeNode(v.result.Root, true),
	}
	b := s.block("tree", s.ofDecision(v, treeKind, f.Title, f))
	if parts := f.Parts(mostOnPaper); len(parts) > 1 {
		for _, part := range parts {
			b.Parts = append(b.Parts, template.HTML(figure.SVG(part)))
		}
	}
	return &b
}

func (s *Site) ofDecision(v *weighing, kind figureKind, title string, f figure.Figure) drawnFigure {
	return drawnFigure{figurePath("decisions", v.d.ID.Value, kind), kind, title, decisionPath(v.d.ID.Value), f, nil, f.Caption()}
}

// scale says what the ends of the scale of values mean.
func (v *weighing) scale() string {
	if !v.d.Value.Best.Known() {
		return ""
	}
	if !v.d.Value.Worst.Known() {
		return v.words.say("scale-best", v.d.Value.Best.Value)
	}
	return v.words.say("scale", v.d.Value.Best.Value, v.d.Value.Worst.Value)
}

// treeNode turns a folded-back node into one that is drawn.
func (v *weighing) treeNode(n decide.Valued, root bool) *figure.TreeNode {
	out := &figure.TreeNode{Worth: points(n.Value)}
	switch n.Node.Kind {
	case decide.End:
		out.Kind, out.Worth = figure.EndNode, tidy(n.Value)
	case decide.Chance:
		out.Kind = figure.ChanceNode
	}
	told := 0
	for _, b := range n.Next {
		told += b.Seen
	}
	for _, b := range n.Next {
		to := figure.TreeBranch{Label: b.Text, Preferred: b.Preferred, To: v.treeNode(b.Then, false)}
		switch {
		case root:
			to.Label = v.heading(b.ID)
			if v.seen.Met > 0 {
				to.Count = v.words.say("chosen-of", v.seen.Chosen[b.ID], v.seen.Met)
			}
		case n.Node.Kind == decide.Chance:
			to.Probability = fmt.Sprintf("%.2f", b.P)
			if told > 0 {
				to.Count = v.words.say("seen-of", b.Seen, told)
			}
		}
		out.Branches = append(out.Branches, to)
	}
	return out
}

// mostBars is how many numbers a tornado shows.
const mostBars = 12

// tornadoFigure draws how far each number with a range moves the lead of the
// preferred option; nil where no number moves it.
func (s *Site) tornadoFigure(v *weighing) *FigureBlock {
	if v.model == nil || len(v.result.Options) < 2 {
		return nil
	}
	best := v.result.Best[0]
	f := figure.Tornado{Words: v.words,
		IDPrefix: "tornado", Title: v.words.say("tornado-title", v.d.Title.Or(v.d.ID.Value)),
		Option: letter(v.place(best)), Other: v.words.say("best-other"), Base: v.result.Margin,
	}
	moving := 0
	for _, p := range v.one {
		if !p.Ranged() || !(p.Swing > 0) {
			continue
		}
		if moving++; moving > mostBars {
			continue
		}
		f.Rows = append(f.Rows, figure.TornadoRow{
			Label: v.label(p.Parameter), Low: amount(p.Parameter, p.Low), High: amount(p.Parameter, p.High),
			AtLow: v.lead(p.AtLow), AtHigh: v.lead(p.AtHigh), Threshold: v.changesAt(p),
		})
	}
	if len(f.Rows) == 0 {
		return nil
	}
	f.Finding = v.words.say("tornado-finding", v.name(best))
	if moving > mostBars {
		f.Finding += " " + v.words.say("tornado-rest", moving-mostBars)
	}
	b := s.block("tornado", s.ofDecision(v, tornadoKind, f.Title, f))
	return &b
}

// changesAt lists where in its range a number changes the preferred option.
func (v *weighing) changesAt(p decide.Sensitivity) string {
	var at []string
	for _, t := range inRange(p) {
		at = append(at, amount(p.Parameter, t.At))
	}
	if len(at) == 0 {
		return ""
	}
	return v.words.say("changes-at", strings.Join(at, v.words.say("joined-and")))
}

// gridSize is how many values of either number the map tries.
const gridSize = 41

// mapFigure draws which option comes out best over the two most influential
// numbers; nil where there are not two.
func (s *Site) mapFigure(v *weighing) *FigureBlock {
	if v.model == nil {
		return nil
	}
	x, y, ok := v.model.MostInfluential()
	if !ok {
		return nil
	}
	x, y = printable(x), printable(y)
	grid, ok := v.model.TwoWay(x, y, gridSize)
	if !ok {
		return nil
	}
	f := figure.ThresholdMap{Words: v.words,
		IDPrefix: "map", Title: v.words.say("map-title", v.d.Title.Or(v.d.ID.Value)), Best: grid.Best,
		X: v.axis(x, grid.XAt), Y: v.axis(y, grid.YAt), Finding: v.mapFinding(grid),
	}
	for _, id := range v.model.OptionIDs() {
		f.Options = append(f.Options, v.heading(id))
	}
	b := s.block("map", s.ofDecision(v, mapKind, f.Title, f))
	return &b
}

// printable is a number whose ends and stated value are as they are printed, to
// the hundredth; the ends of a probability stay within 0 and 1.
func printable(p decide.Parameter) decide.Parameter {
	hundredth := func(x float64) float64 { return math.Round(100*x) / 100 }
	p.Low, p.High, p.Value = hundredth(p.Low), hundredth(p.High), hundredth(p.Value)
	return p
}

func (v *weighing) axis(p decide.Parameter, at []float64) figure.MapAxis {
	return figure.MapAxis{Label: v.label(p), Low: at[0], High: at[len(at)-1], Base: p.Value}
}

// mapFinding names the options that come out best anywhere on the map.
func (v *weighing) mapFinding(grid decide.Map) string {
	var ids []string
	for i, id := range v.model.OptionIDs() {
		if slices.ContainsFunc(grid.Best, func(row []int) bool { return slices.Contains(row, i) }) {
			ids = append(ids, id)
		}
	}
	if len(ids) == 1 {
		return v.words.say("map-one", v.name(ids[0]))
	}
	return v.words.say("map-several", v.namesOf(ids))
}
