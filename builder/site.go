package builder

import (
	"bytes"
	"html/template"
	"io/fs"
	"strings"
	"sync"

	"caseleaf/builder/pack"
	"caseleaf/builder/prose"
	"caseleaf/builder/tally"
	"caseleaf/content"
	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

// Options says how a handout is built. The zero value builds into "handout".
type Options struct {
	Out string // folder of the handout; "handout" when empty
	// BankFiles is the bank's own file system: pictures and theme come from it.
	BankFiles fs.FS
	// WithUnreleased shows cases that aren't released yet, marked on every page.
	WithUnreleased bool
	// Progress is told how many of how many files are written; nil for silence.
	Progress func(done, total int)
	// Course reduces the handout to what the course of this id needs; empty for
	// the whole bank.
	Course string
	// Since is the manifest of an earlier edition; the handout then has a page of
	// what changed since. Nil for none.
	Since *Manifest
	// Leaving is for a handout that is passed on: it says how to open it, and a
	// warning of the last look at its files stops it as an error does.
	Leaving bool
	// Charts is the library of the interactive layer; nil builds without it.
	// See [LibrarySearch].
	Charts *Library
	// CourseDates are when courses are held: their calendars are written, and
	// nothing else changes. See [CheckCourseDates].
	CourseDates []CourseDate
	// Memory is what earlier builds of the same bank into the same folder left; nil
	// builds everything anew.
	Memory *Memory

	planAll bool // plan also what the last build leaves standing
	disk    disk // where a test puts the handout; nil for the machine's own
}

func (o Options) onDisk() disk {
	if o.disk == nil {
		return realDisk{}
	}
	return o.disk
}

func (o Options) out() string {
	if o.Out == "" {
		return "handout"
	}
	return o.Out
}

// Page is one HTML file of the handout, planned.
type Page struct {
	Path     string // slash-separated below the handout, such as cases/hb-007.html
	Template string // file stem in the theme's pages folder
	Data     any    // the page's struct; it has PageTitle() string

	// plan gives the struct of a page that is planned only when it is laid out,
	// as those are of which there is one for each case: so no more of them are in
	// memory than are being laid out. It may be called from several goroutines.
	plan func() any
	of   *content.Case // the one case it is about; nil where it is about more

	standing bool // it was not planned, since its file stands
}

// data is the page's struct.
func (p Page) data() any {
	if p.plan != nil {
		return p.plan()
	}
	return p.Data
}

// Site is everything planned from one bank. It is read only while pages are
// rendered.
type Site struct {
	Bank     *content.Bank
	Options  Options
	Pages    []Page
	Masthead Masthead

	pictures map[string]string // path in the bank to path in the handout
	book     *rateBook         // made when the first page asks for rates
	met      *met              // where the cases meet each term
	topics   *topics           // what each case is about
	used     usedTerms         // what all cases speak of
	files    map[string][]byte // planned along with pages: tables, charts
	named    map[string]bool   // paths of drawings
	keys     *keys             // what each file rests on; nil until a build asks
	past     *past             // what the last build left; nil for none
	faults   []error           // what could not be planned
	outlines map[int]outline   // of planners whose pages rest on facts alone
	standing map[int]outline   // those that the last build leaves; see past.standing
	stood    []string          // their files beside pages
	added    []string          // files that the planner at work has added
	counted  *tally.Result     // what tables may print; see published
	recorded *pack.Record      // see record
	cleaning sync.Mutex
	unread   error                      // of the first picture that could not be read
	cleaned  map[string]privacy.Cleaned // pictures as they are published, by path in the bank
	sizes    map[string]sized           // their sizes, and the smaller ones made of them
	drawn    []drawnFigure              // figures that are files too
}

// Masthead is what every page says of the edition.
type Masthead struct {
	Title      string
	Edition    string
	Language   string
	Notice     string
	Invented   bool   // the data are invented; every page says so
	Unreleased bool   // cases are shown that are not released
	Part       string // what the copy holds, when it is not the whole bank
}

// Frame is what every template is executed with.
type Frame struct {
	Site  *Masthead
	Root  string // "" or "../": stands before every path of the handout
	Path  string
	Title string
	Data  any
}

// Plan computes the data of every page of the bank.
func Plan(bank *content.Bank, options Options) *Site {
	s := newSite(bank, options, nil)
	s.plan()
	return s
}

// newSite is a site of which no page is planned yet. The pages of cases can be
// laid out from it as it is; see casePages. The last site of the same bank, or nil,
// spares work that an edit leaves standing.
func newSite(bank *content.Bank, options Options, last *Site) *Site {
	set := bank.Settings
	s := &Site{
		Bank: bank, Options: options, outlines: map[int]outline{}, named: map[string]bool{}, topics: newTopics(bank, last.about()),
		Masthead: Masthead{
			Title: set.Title.Value, Edition: set.Edition.Value, Language: set.Language.Or("en"),
			Notice: set.Notice.Value, Invented: set.Invented.Value,
		},
	}
	s.used = usedInCases(bank, s.topics, last)
	s.met = newTerms(bank, s.used.withOthers(bank))
	s.met.scope = newScope(bank, options.Course)
	if course, ok := bank.Course(options.Course); ok {
		s.Masthead.Part = s.words().say("part-of-course", course.Title.Or(course.ID.Value))
	}
	s.planPictures()
	return s
}

// about is what the cases of a site are about; nil where there is no site.
func (s *Site) about() *topics {
	if s == nil {
		return nil
	}
	return s.topics
}

// plan plans all pages. Pages of cases may be laid out meanwhile.
func (s *Site) plan() {
	s.met.index()
	for i, planner := range planners {
		s.planBy(i, planner)
	}
}

// planners make the pages, in the order in which a reader meets them.
var planners = []func(*Site) []Page{
	planStart, planCases, planProgress, planSteps, planComplications, planTechniques,
	planFrequencies, planDecisions, planChains, planCards, planCourses, planRisks, planGlossary, planAbout, planTutors,
	planEvenings, planBooklets,
	planFigures,
	planSince, planSurgeons, planSearch,
}

// Prose renders a narrative for the page at path from. Ids in it begin with n-,
// so that they meet no id of the page itself.
func (s *Site) Prose(body *content.Body, from string) template.HTML {
	if body == nil || len(body.Markdown) == 0 {
		return ""
	}
	var out bytes.Buffer
	var notes addresses
	prose.Render(&out, body, prose.Options{
		Prefix: "n-", Note: notes.number, Say: s.words().say, Href: func(t content.Target) string { return s.href(t, from) },
		Picture: func(t content.Target) prose.Picture { return s.shownPicture(t.ID, rootOf(from)) },
	})
	return template.HTML(out.String() + notes.section(s.words())) // prose writes only elements and addresses it allows
}

// href gives the address of a target seen from a page, or "" where none can be
// followed.
func (s *Site) href(t content.Target, from string) string {
	root := rootOf(from)
	switch t.Kind {
	case content.ToTerm:
		return root + s.termPath(t.ID)
	case content.ToTime:
		return "#" + momentID(t.Time)
	case content.ToCase:
		if _, shown := s.Bank.Case(t.ID); !shown {
			return ""
		}
		if t.Fragment != "" {
			return root + casePath(t.ID) + "#n-" + t.Fragment
		}
		return root + casePath(t.ID)
	case content.ToDecision:
		if _, shown := s.Bank.Decision(t.ID); !shown {
			return ""
		}
		return root + decisionPath(t.ID)
	case content.ToHeading:
		return "#n-" + t.Fragment
	case content.ToWeb:
		return t.ID
	case content.ToPicture:
		return root + s.pictures[t.ID]
	}
	return ""
}

// SourceListing shows a file's front matter with its syntax marked. The zone
// tells the last privacy check by which rules to read it.
func (s *Site) SourceListing(src *diagnose.Source) template.HTML {
	return template.HTML(`<div data-zone="front-matter">` + prose.FrontMatter(frontMatter(src)) + `</div>`)
}

// frontMatter returns a case's source up to the closing fence, without its
// privacy exceptions: their match is what must not be seen more often than it
// has to be. The tutors' page lists them by class and reason.
func frontMatter(src *diagnose.Source) string {
	rest, ok := bytes.CutPrefix(src.Data, []byte("---\n"))
	if !ok {
		return ""
	}
	head, _, _ := bytes.Cut(rest, []byte("\n---\n"))
	return withoutBlock(string(head)+"\n", "privacy_exceptions")
}

// withoutBlock drops a top-level key with all that is indented below it, or
// follows it as a list at the left edge.
func withoutBlock(text, key string) string {
	var kept strings.Builder
	inside := false
	for line := range strings.Lines(text) {
		switch {
		case strings.HasPrefix(strings.TrimLeft(line, `"'`), key):
			inside = true
		case inside && line[0] != '\n' && !strings.ContainsAny(line[:1], " \t-#}]"):
			inside = false
		}
		if !inside {
			kept.WriteString(line)
		}
	}
	return kept.String()
}
