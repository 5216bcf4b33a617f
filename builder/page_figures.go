package builder

import (
	"html/template"
	"slices"

	"caseleaf/builder/figure"
	"caseleaf/content"
)

const figuresPage = "figures.html"

// FigureBlock is a figure on a page: drawn, said in a caption, and set out
// again in words and numbers.
type FigureBlock struct {
	ID      string // of the figure element
	Drawing template.HTML
	// Parts are for paper, where the whole would be too small to read; empty
	// where it would not.
	Parts   []template.HTML
	Title   string
	Caption string
	Table   figure.Table
	File    Link // the file that stands alone
}

// figureKind is what a figure shows, which settles what it may be used for.
type figureKind string

// The kinds of figures that are kept as files.
const (
	stripKind   figureKind = "strip"
	eyeKind     figureKind = "eye"
	sectionKind figureKind = "section"
	treeKind    figureKind = "tree"
	tornadoKind figureKind = "tornado"
	mapKind     figureKind = "map"
	chainsKind  figureKind = "chains"
	ratesKind   figureKind = "rates"
	periodsKind figureKind = "periods"
	unitsKind   figureKind = "units"
	countsKind  figureKind = "counts"

	timetableKind figureKind = "timetable"
)

// drawnFigure is a figure that is also written as a file of its own.
type drawnFigure struct {
	path   string // below the handout
	kind   figureKind
	title  string
	on     string        // path of the page that it stands on
	figure figure.Figure // nil where it is made again when it is drawn
	of     *content.Case // the one case it is about; nil where it is about more

	caption string
}

// figureOf is what a kept figure draws.
func (s *Site) figureOf(d drawnFigure) figure.Figure {
	if d.figure == nil {
		list := s.view(d.of).figures()
		d = list[slices.IndexFunc(list, func(again drawnFigure) bool { return again.path == d.path })]
	}
	return d.figure
}

// keep has a figure written as a file that stands alone, and gives the link to
// it. Names must differ; the second of two with one name is not kept. The file
// is drawn when it is written.
func (s *Site) keep(d drawnFigure) Link {
	if !s.named[d.path] {
		s.named[d.path] = true
		s.drawn = append(s.drawn, d)
	}
	return s.figureLink(d)
}

// figureLink leads to the file of a figure.
func (s *Site) figureLink(d drawnFigure) Link {
	return Link{Text: s.words().say("figure-file"), Path: d.path}
}

// block keeps a figure and lays it out for its page.
func (s *Site) block(id string, d drawnFigure) FigureBlock {
	s.keep(d)
	return s.blockOf(id, d)
}

// blockOf lays out a figure that is kept already.
func (s *Site) blockOf(id string, d drawnFigure) FigureBlock {
	return FigureBlock{
		ID: id, Drawing: template.HTML(figure.SVG(d.figure)), // figure escapes every text it draws
		Title: d.title, Caption: d.figure.Caption(), Table: d.figure.Table(), File: s.figureLink(d),
	}
}

// figurePath is the path of a figure's file: the folder says of what, the name
// which.
func figurePath(folder, id string, kind figureKind) string {
	return "figures/" + folder + "/" + fileStem(id) + "-" + string(kind) + ".svg"
}

// FiguresPage is what pages/figures.tmpl lays out.
type FiguresPage struct {
	Heading
	Groups []FigureGroup
}

// FigureGroup is the files of one kind and what they may be used for.
type FigureGroup struct {
	ID    string
	Name  string
	Use   string
	Lines []FigureLine
}

// FigureLine is one file.
type FigureLine struct {
	File    Link
	On      Link
	Caption string // to be shown with it
}

// planFigures lists the files, so it comes after all that draw.
func planFigures(s *Site) []Page {
	w := s.words()
	p := &FiguresPage{Heading: s.heading(figuresPage, w.say("figures"))}
	p.Summary, p.Protocol = w.say("figures-summary", len(s.drawn)), true
	for _, g := range []FigureGroup{
		{string(stripKind), w.say("figures-strip"), w.say("use-strip"), nil},
		{string(eyeKind), w.say("figures-eye"), w.say("use-eye"), nil},
		{string(sectionKind), w.say("figures-section"), w.say("use-section"), nil},
		{string(treeKind), w.say("figures-tree"), w.say("use-tree"), nil},
		{string(tornadoKind), w.say("figures-tornado"), w.say("use-tornado"), nil},
		{string(mapKind), w.say("figures-map"), w.say("use-map"), nil},
		{string(chainsKind), w.say("figures-chains"), w.say("use-chains"), nil},
		{string(ratesKind), w.say("figures-rates"), w.say("use-rates"), nil},
		{string(periodsKind), w.say("figures-periods"), w.say("use-periods"), nil},
		{string(unitsKind), w.say("figures-units"), w.say("use-units"), nil},
		{string(countsKind), w.say("figures-counts"), w.say("use-counts"), nil},
		{string(timetableKind), w.say("figures-timetable"), w.say("use-timetable"), nil},
	} {
		for _, d := range s.drawn {
			if string(d.kind) == g.ID {
				g.Lines = append(g.Lines, FigureLine{Link{Text: d.title, Path: d.path}, Link{Text: w.say("figure-on"), Path: d.on}, d.caption})
			}
		}
		if len(g.Lines) > 0 {
			p.Groups = append(p.Groups, g)
		}
	}
	return []Page{{Path: figuresPage, Template: "figures", Data: p}}
}
