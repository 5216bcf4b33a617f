package builder

import (
	"bytes"
	"html"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"caseleaf/content"
)

// arabicPages lays out every page of the Arabic bank, by path.
func arabicPages(t *testing.T) map[string]string {
	t.Helper()
	files := os.DirFS("../testdata/arabic")
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		t.Fatalf("reading: %v, %d errors", err, found.Count(0))
	}
	site := Plan(bank, Options{BankFiles: files})
	r, err := newRenderer(site.theme(), site.Masthead)
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string]string{}
	for _, p := range site.Pages {
		data, err := r.render(p)
		if err != nil {
			t.Fatal(err)
		}
		pages[p.Path] = string(data)
	}
	return pages
}

// Every page of a bank in Arabic says so, and which way it runs.
func TestArabicPagesRunFromTheRight(t *testing.T) {
	pages := arabicPages(t)
	if len(pages) < 60 {
		t.Fatalf("only %d pages", len(pages))
	}
	for path, page := range pages {
		if !strings.Contains(page, `<html lang="ar" dir="rtl">`) {
			t.Errorf("%s: not a page in Arabic that runs from the right", path)
		}
	}
}

var (
	unseenPart  = regexp.MustCompile(`(?s)<(script|style|pre)\b.*?</(?:script|style|pre)>`)
	englishPart = regexp.MustCompile(`(?s)<(td|li|span) lang="en">.*?</(?:td|li|span)>`)
	readName    = regexp.MustCompile(`\s(?:aria-label|title|alt|placeholder|data-label|data-page|data-open|data-close|data-text|data-words|content)="([^"]*)"`)
	textPart    = regexp.MustCompile(`>([^<]+)<`)
	citation    = regexp.MustCompile(`Hyndman and Fan, Am Stat`)
	fileName    = regexp.MustCompile(`[A-Za-z0-9/.-]+\.(?:csv|md|html|js|svg|yaml|json)\b`)
	scriptKey   = regexp.MustCompile(`"[a-z0-9-]+":`) // of the words that scripts say, in their data
)

// readable is the text of a page that a reader sees or hears, but for listings of what an
// author wrote and for the items of published guidelines, which stay in English and say so.
func readable(page string) string {
	page = englishPart.ReplaceAllString(unseenPart.ReplaceAllString(page, " "), " ")
	var out bytes.Buffer
	_, body, _ := strings.Cut(page, `content="light dark">`)
	for _, form := range []*regexp.Regexp{readName, textPart} {
		for _, m := range form.FindAllStringSubmatch(body, -1) {
			out.WriteString(html.UnescapeString(m[1]) + "\n")
		}
	}
	text := out.String()
	for _, form := range []*regexp.Regexp{scriptKey, fileName, citation} {
		text = form.ReplaceAllString(text, "")
	}
	return text
}

// englishPhrases are the pieces of all English words between what is filled in.
func englishPhrases() map[string]*regexp.Regexp {
	out := map[string]*regexp.Regexp{}
	for key, m := range tables["en"].phrases {
		for _, text := range forms(m) {
			for _, piece := range placeholder.Split(strings.ReplaceAll(text, "%%", "%"), -1) {
				piece = strings.Trim(piece, " .,:;()“”?")
				if regexp.MustCompile(`[A-Za-z]{2}`).MatchString(piece) {
					out[key+": "+piece] = regexp.MustCompile(`(^|[^A-Za-z])` + regexp.QuoteMeta(piece) + `($|[^A-Za-z])`)
				}
			}
		}
	}
	return out
}

// sameInArabic are English pieces that are names, symbols or abbreviations in both languages,
// and a synonym that the bank itself gives in English.
var sameInArabic = []string{"Wilson", "CF", "HM", "LP", "NLP", "min", "mm", "logMAR", "iris"}

// No word of the English interface is left on the pages of a bank in Arabic.
func TestArabicPagesHoldNoEnglish(t *testing.T) {
	english := englishPhrases()
	if len(english) < 700 {
		t.Fatalf("only %d pieces of English", len(english))
	}
	for path, page := range arabicPages(t) {
		text := readable(page)
		for piece, form := range english {
			_, words, _ := strings.Cut(piece, ": ")
			if slices.Contains(sameInArabic, words) || !strings.Contains(text, words) {
				continue
			}
			if at := form.FindStringIndex(text); at != nil {
				t.Errorf("%s: %s in %q", path, piece, text[max(0, at[0]-30):min(len(text), at[1]+30)])
			}
		}
	}
}

// latinOnArabicPages are the Latin words that may stand on a page in Arabic, and why.
var latinOnArabicPages = strings.Fields(
	"min mm mL mg mmHg " + // symbols of units and statistics, the same in all languages
		"logMAR CF HM LP NLP NO PCT BSS IOL OVD AR " + // abbreviations and numbers of the trade, ids of cases, quarters
		"miosis PC tear capsulorhexis iris hooks phaco " + // synonyms that the bank itself gives in English
		"Wilson Newcombe Mantel Haenszel Sato Robins Breslow Greenland Spiegelhalter Beta Dirichlet " + // people
		"CARE SCARE LAP VEGaS video assessment tool " + // guidelines, by their names
		"CSV SVG Escape search") // formats, a key of the keyboard, a folder

// Beyond the interface: no Latin word at all that has no reason to be there. Single letters
// are symbols, options and the heads of the glossary.
func TestArabicPagesHoldNoOtherLatin(t *testing.T) {
	word := regexp.MustCompile(`[A-Za-z]{2,}`)
	for path, page := range arabicPages(t) {
		text := readable(page)
		for _, at := range word.FindAllStringIndex(text, -1) {
			w := text[at[0]:at[1]]
			if !slices.Contains(latinOnArabicPages, w) {
				t.Errorf("%s: %q in %q", path, w, text[max(0, at[0]-40):min(len(text), at[1]+30)])
			}
		}
	}
}
