package builder

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"caseleaf/builder/figure"
	"caseleaf/casebank"
	"caseleaf/content"
)

// ratesSite plans a bank, with a library that is none.
func ratesSite(t *testing.T, files fs.FS, layer bool) (*Site, map[string]string) {
	t.Helper()
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		t.Fatalf("reading: %v, failed %v", err, found.Failed())
	}
	options := Options{BankFiles: files}
	if layer {
		options.Charts = &Library{Script: []byte("window.echarts={}"), Licence: []byte("l"), Notice: []byte("n")}
	}
	site := Plan(bank, options)
	render, err := newRenderer(site.theme(), site.Masthead)
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string]string{}
	for _, p := range site.Pages {
		if !strings.HasPrefix(p.Path, "frequenc") {
			continue
		}
		data, err := render.render(p)
		if err != nil {
			t.Fatal(err)
		}
		pages[p.Path] = string(data)
	}
	return site, pages
}

// group is events of operations by one technique in one stratum.
type group struct{ events, operations int }

// stratifiedBank has two techniques in strata a, b, ….
func stratifiedBank(own, reference []group) fs.FS {
	var book, bank strings.Builder
	book.WriteString("period,technique,surgeon,risk,complications\n")
	bank.WriteString("title: Strata\nlanguage: en\ninvented: yes\nreference_technique: divide-and-conquer\nstrata:\n")
	for technique, list := range map[string][]group{"stop-and-chop": own, "divide-and-conquer": reference} {
		for i, g := range list {
			for n := range g.operations {
				event := ""
				if n < g.events {
					event = "posterior-capsule-tear"
				}
				fmt.Fprintf(&book, "2025,%s,trainee,%c,%s\n", technique, 'a'+i, event)
			}
		}
	}
	for i := range own {
		fmt.Fprintf(&bank, "  - {id: %c, label: Stratum %c, definition: Invented.}\n", 'a'+i, 'A'+i)
	}
	return fstest.MapFS{"bank.yaml": {Data: []byte(bank.String())}, "logbook.csv": {Data: []byte(book.String())}}
}

// Departments stand for strata, men and women for techniques, admissions for
// events: R's data set UCBAdmissions (Bickel, Hammel and O'Connell, Science
// 1975;187:398-404). Crude 1198/2691 against 557/1835, so an odds ratio of 1.84;
// within departments 0.90.
func TestReversalIsSaid(t *testing.T) {
	men := []group{{512, 825}, {353, 560}, {120, 325}, {138, 417}, {53, 191}, {22, 373}}
	women := []group{{89, 108}, {17, 25}, {202, 593}, {131, 375}, {94, 393}, {24, 341}}
	_, pages := ratesSite(t, stratifiedBank(men, women), false)
	for _, want := range []string{"Reversal: the crude figure", "So it is with: Stop and chop.", "1198/2691", "557/1835"} {
		if !strings.Contains(strings.ReplaceAll(pages[frequenciesPage], ",", ""), want) {
			t.Errorf("the page doesn't say %q", want)
		}
	}

	// The same departments' rates, to a whole number of 100 each: both look lower.
	equalMen := []group{{62, 100}, {63, 100}, {37, 100}, {33, 100}, {28, 100}, {6, 100}}
	equalWomen := []group{{82, 100}, {68, 100}, {34, 100}, {35, 100}, {24, 100}, {7, 100}}
	_, pages = ratesSite(t, stratifiedBank(equalMen, equalWomen), false)
	if text := pages[frequenciesPage]; strings.Contains(text, "Reversal") || !strings.Contains(text, "229/600") {
		t.Error("with equal case mix there is no reversal to warn of")
	}
}

// Where no stratum has operations by both techniques the page says so.
func TestNoCommonStratumIsSaid(t *testing.T) {
	_, pages := ratesSite(t, stratifiedBank([]group{{9, 90}, {0, 0}}, []group{{0, 0}, {12, 80}}), false)
	if !strings.Contains(pages[frequenciesPage], "Stop and chop: no stratum has operations by both techniques.") {
		t.Error("the page doesn't say that like cannot be compared with like")
	}
}

// A quarter without an operation keeps its place and is no data; of fewer than 30
// operations there is no percentage (field report FR-27 and the trade reference).
func TestGapsAndFew(t *testing.T) {
	_, pages := ratesSite(t, os.DirFS("../testdata/hostile"), true)
	for _, name := range []string{frequenciesPage, frequencyPath("odd-tear")} {
		gap := regexp.MustCompile(`<th scope="row">2024-Q3</th>(<td class="Num"></td>)?\s*<td class="Num Missing">no data</td>`)
		if !gap.MatchString(pages[name]) {
			t.Errorf("%s: 2024-Q3 is not shown as no data", name)
		}
	}
	_, pages = ratesSite(t, stratifiedBank([]group{{6, 29}}, []group{{5, 30}}), false)
	text := pages[frequenciesPage]
	if !strings.Contains(text, "6/29") || strings.Contains(text, "20.7") || !strings.Contains(text, "under 30 operations") {
		t.Error("6 of 29 is not shown as counts alone")
	}
	if !strings.Contains(text, "5/30") || !strings.Contains(text, "17\u00a0%") {
		t.Error("5 of 30 is not shown with its percentage")
	}
}

var (
	testWords   = regexp.MustCompile(`(?i)\bp\s*(?:=|<|>|≤)\s*0?\.\d|\bp[- ]values?\b|statistically|signifi|\bFisher\b|\bHolm\b|Breslow–Day`)
	brokenWords = regexp.MustCompile(`\bNaN\b|\bInfinity\b|\bundefined\b|\bnull\b|%!|\+Inf|-Inf`)
)

// No page speaks of tests, and no number that could not be computed is printed.
func TestNoTestsAndNoBrokenNumbers(t *testing.T) {
	_, pages := demoPages(t)
	for p, root := range pages {
		text := textOf(root)
		if hit := testWords.FindString(text); hit != "" {
			t.Errorf("%s: %q", p, hit)
		}
		if hit := brokenWords.FindString(text); hit != "" {
			t.Errorf("%s: %q", p, hit)
		}
	}
	for name, files := range map[string]fs.FS{"demo": casebank.FS(), "hostile": os.DirFS("../testdata/hostile")} {
		site, _ := ratesSite(t, files, true)
		files := maps.Clone(site.files)
		for _, d := range site.drawn {
			files[d.path] = figure.Alone(site.figureOf(d))
		}
		for p, data := range files {
			if strings.HasPrefix(p, "search/") {
				continue // the index is coded in all printable signs
			}
			text := strings.ReplaceAll(string(data), ",null", "") // a gap in a chart
			if hit := brokenWords.FindString(strings.ReplaceAll(text, `"calculable":null`, "")); hit != "" {
				t.Errorf("%s, %s: %q", name, p, hit)
			}
		}
	}
}

// Beside every figure stands what may not be concluded; every table of rates says
// its source, period, follow-up and method; every percentage stands in a row with
// what it is out of.
func TestRatesAreHonest(t *testing.T) {
	site, pages := demoPages(t)
	seen := 0
	for p, root := range pages {
		if !strings.HasPrefix(p, "frequenc") {
			continue
		}
		for _, f := range all(root, "figure") {
			seen++
			if not := all(f, ".Figure-not"); len(not) != 1 || !strings.HasPrefix(textOf(not[0]), "What this does not say") {
				t.Errorf("%s: a figure doesn't say what may not be concluded", p)
			}
		}
		for _, table := range all(root, ".Rates") {
			caption := textOf(all(table, "caption")[0])
			for _, want := range []string{"Logbook", "2024-Q1 to 2025-Q4", "1,500 operations", "follow-up"} {
				if !strings.Contains(caption, want) {
					t.Errorf("%s: caption %q lacks %q", p, caption, want)
				}
			}
			for _, row := range all(table, "tr") {
				if text := textOf(row); strings.Contains(text, "%") && len(all(row, "td")) > 0 && !strings.Contains(text, "/") {
					t.Errorf("%s: %q has no denominator", p, text)
				}
			}
		}
	}
	if seen < 30 {
		t.Errorf("only %d figures", seen)
	}
	if !slices.ContainsFunc(site.menu(frequenciesPage), func(l Link) bool { return l.Current }) {
		t.Error("the page of rates is not in the menu")
	}
}

// Every table of rates goes by strata before grades: no table has grades without
// a stratum above them.
func TestGradesStandWithinStrata(t *testing.T) {
	_, pages := demoPages(t)
	for p, root := range pages {
		if !strings.HasPrefix(p, "frequencies/") {
			continue
		}
		for _, table := range all(root, ".Rates") {
			for _, body := range all(table, "tbody") {
				text := textOf(body)
				grades := strings.Contains(text, "trainee") || strings.Contains(text, "consultant")
				if grades && len(all(body, ".Rates-group")) == 0 {
					t.Errorf("%s: grades without a stratum", p)
				}
			}
		}
	}
}

// The downloads are CSV that a spreadsheet takes for no formula, without p values
// and without a small count, and every one is linked.
func TestDownloads(t *testing.T) {
	site, pages := ratesSite(t, casebank.FS(), false)
	n := 0
	for name, data := range site.files {
		if !strings.HasPrefix(name, "data/") {
			continue
		}
		n++
		if !strings.Contains(pages[frequenciesPage], `href="`+name+`"`) {
			t.Errorf("%s is linked from nowhere", name)
		}
		rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
		if err != nil || len(rows) < 2 {
			t.Errorf("%s: %v, %d rows", name, err, len(rows))
			continue
		}
		if !strings.Contains(string(data), "\r\n") {
			t.Errorf("%s: lines don't end as RFC 4180 has it", name)
		}
		fromLogbook := !slices.Contains(casesOnly, name)
		for c, column := range rows[0] {
			if strings.HasSuffix(column, "_p") {
				t.Errorf("%s: column %s", name, column)
			}
			for _, row := range rows[1:] {
				checkField(t, name, column, row[c], fromLogbook)
			}
		}
	}
	if n < 12 {
		t.Errorf("only %d tables", n)
	}
}

var casesOnly = []string{"data/delays.csv", "data/moments.csv", "data/durations.csv", "data/onsets.csv",
	"data/choices.csv", "data/decisions.csv", "data/acuity.csv"}

func checkField(t *testing.T, name, column, text string, fromLogbook bool) {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil && text != "" && strings.ContainsAny(text[:1], "=+-@\t\r") {
		t.Errorf("%s, %s: %q could be a formula", name, column, text)
	}
	counted := column == "events" || column == "operations"
	if fromLogbook && counted && err == nil && v > 0 && v < 5 {
		t.Errorf("%s, %s: the small count %s", name, column, text)
	}
}

// everyPages is the one script that every page has.
var everyPages = regexp.MustCompile(`<script defer src="[./]*assets/page\.js"></script>`)

// Without the layer a page has no script but every page's; with it, two classic
// ones more, closed as often as opened, and every chart has its figure and its
// data.
func TestChartsMeetTheirFigures(t *testing.T) {
	_, without := ratesSite(t, casebank.FS(), false)
	for p, text := range without {
		text = everyPages.ReplaceAllString(text, "")
		if strings.Contains(text, "<script") || strings.Contains(text, "data-chart") {
			t.Errorf("%s: scripts without the layer", p)
		}
	}
	site, with := ratesSite(t, os.DirFS("../testdata/hostile"), true)
	if len(site.faults) > 0 {
		t.Fatal(site.faults)
	}
	id := regexp.MustCompile(`(?m)^"([a-z0-9-]+)":\{"rows":`)
	for p, text := range with {
		text = everyPages.ReplaceAllString(text, "")
		if opened, closed := strings.Count(strings.ToLower(text), "<script"), strings.Count(strings.ToLower(text), "</script"); opened != 2 || closed != 2 {
			t.Errorf("%s: %d scripts begin and %d end", p, opened, closed)
		}
		root, err := html.Parse(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		var figures, data []string
		for _, f := range all(root, "figure") {
			if c := attr(f, "data-chart"); c != "" {
				figures = append(figures, c)
			}
		}
		for _, s := range all(root, "script") {
			name := strings.TrimLeft(attr(s, "src"), "./")
			for _, m := range id.FindAllStringSubmatch(string(site.files[name]), -1) {
				data = append(data, m[1])
			}
		}
		slices.Sort(figures)
		if !slices.Equal(figures, data) || len(figures) == 0 {
			t.Errorf("%s: figures %v, data of %v", p, figures, data)
		}
	}
}

// A theme's template of these pages is executed with one of everything and with
// nothing.
func TestFrequencyTemplatesFitTheirData(t *testing.T) {
	_, _ = ratesSite(t, fstest.MapFS{"bank.yaml": {Data: []byte("title: Empty\nlanguage: en\ninvented: yes\n")}}, true)
	_, pages := ratesSite(t, fstest.MapFS{"bank.yaml": {Data: []byte("title: Empty\nlanguage: en\ninvented: yes\n")}}, false)
	if !strings.Contains(pages[frequenciesPage], "This bank has no logbook") {
		t.Error("a bank without a logbook doesn't say that it has no rates")
	}
}

// The delays of more events than a figure can show one by one stand by complication,
// each with its n, and every complication with a delay has its line.
func TestManyDelaysStandByComplication(t *testing.T) {
	files := fstest.MapFS{}
	if err := fs.WalkDir(casebank.FS(), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(casebank.FS(), name)
		if err != nil {
			return err
		}
		files[name] = &fstest.MapFile{Data: data}
		for n := 1; name == "cases/hb-009.md" && n <= mostDelays; n++ {
			id := fmt.Sprintf("HB-%d", 500+n)
			files["cases/"+strings.ToLower(id)+".md"] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(string(data), "HB-009", id))}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	site, pages := ratesSite(t, files, true)
	page := pages[caseCountsPage]
	told := map[string]int{}
	for _, c := range site.Bank.Cases {
		for _, e := range c.Events() {
			_, seen := c.NoticeDelay(e.Event)
			_, acted := c.ActDelay(e.Event)
			if seen || acted {
				told[e.Event.Term.Value]++
			}
		}
	}
	rows := regexp.MustCompile(`(?s)<th scope="row">([^<]+)</th>\s*<td[^>]*>([^<]*median[^<]*|unknown)</td>`).FindAllStringSubmatch(page, -1)
	if len(rows) != len(told) || len(told) < 5 {
		t.Errorf("%d lines of delays for %d complications", len(rows), len(told))
	}
	if strings.Contains(page, site.words().say("event-in", "HB-501", "")) {
		t.Error("events stand one by one all the same")
	}
	if len(page) > 200_000 {
		t.Errorf("the page is %d bytes", len(page))
	}
}
