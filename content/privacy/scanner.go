package privacy

import (
	"slices"
	"strings"
	"sync"

	"caseleaf/content/term"
)

// Options says what a Scanner knows beside its built-in rules.
type Options struct {
	Vocabulary *term.Vocabulary // the trade's words; nil for none
	Words      []string         // the bank's own words (kit, techniques, titles of steps): not names
	Eponyms    []string         // the bank's own eponyms of the dead
	AllowHosts []string         // hosts an author may link to, beside doi.org and creativecommons.org
}

// Scanner finds identifiers in texts. What it finds never changes after it is
// made, and it is safe for concurrent use.
type Scanner struct {
	table wordTable
	hosts []string
	pool  sync.Pool
	front *known // front matter that was silent; a handout shows it again
}

// New makes a scanner. It costs a few milliseconds; make one for a bank.
func New(o Options) *Scanner {
	sc := &Scanner{front: newKnown(frontMost)}
	sc.hosts = append([]string{"doi.org", "creativecommons.org"}, o.AllowHosts...)
	sc.pool.New = func() any { return new(passage) }
	own := slices.Clone(o.Words)
	if o.Vocabulary != nil {
		for _, t := range o.Vocabulary.All() {
			own = append(own, t.Label, t.Abbreviation, t.ID)
			own = append(own, t.Synonyms...)
		}
	}
	sc.fillRoles(own, o.Eponyms)
	return sc
}

// builtin is the scanner of the built-in vocabulary.
var builtin = sync.OnceValue(func() *Scanner {
	return New(Options{Vocabulary: term.Cataract()})
})

// Scan finds what may identify somebody in text, with the built-in vocabulary.
// Findings are sorted by Start and do not overlap; offsets are bytes of text.
// It takes time linear in the text and never fails.
func Scan(zone Zone, text string) []Finding { return builtin().Scan(zone, text) }

// Scan is like the function Scan, with this scanner's words.
func (sc *Scanner) Scan(zone Zone, text string) []Finding {
	if zone != FrontMatter {
		return sc.scanAs(zone, text, 0)
	}
	text = strings.TrimRight(text, blanks)
	found := sc.scanAs(zone, text, 0)
	if len(found) == 0 {
		sc.front.add(sc.front.sumString(text))
	}
	return found
}

// frontMost is how many front matters a Scanner remembers at most, in 1 MB.
const frontMost = 1 << 17

// readSilent says whether Scan found nothing in this very front matter, which
// stands without the blanks behind it.
func (sc *Scanner) readSilent(text []byte) bool { return sc.front.has(sc.front.sum(text, 0)) }

// scanAs scans a text whose every token has the given flags.
func (sc *Scanner) scanAs(zone Zone, text string, base flag) []Finding {
	p := sc.pool.Get().(*passage)
	found := p.scan(sc, zone, text, base)
	p.s, p.normal.raw = "", ""
	sc.pool.Put(p)
	return found
}

// hit is a finding in the normalised copy.
type hit struct {
	rule ruleID
	a, b int32
}

// passage is one text under examination, with what the rules share.
type passage struct {
	sc     *Scanner
	zone   Zone
	s      string // the normalised copy
	toks   []token
	starts []int32 // tokens that a rule may begin with
	signs  sign
	timed  bool // some tokens are inTimes
	normal normaliser
	hits   []hit
	event  int // the case's own year, or 0
}

// scan runs the stages in order: labels first, on the unshielded text, then
// shields, then everything else.
func (p *passage) scan(sc *Scanner, zone Zone, raw string, base flag) []Finding {
	p.sc, p.zone, p.s, p.hits, p.event, p.timed = sc, zone, raw, p.hits[:0], 0, false
	var back offsets
	if plain := zone == Body || zone == Reference; !plain || !p.tokenise(true) {
		p.s, back = p.normal.normalise(zone, raw)
		p.tokenise(false)
	}
	p.markContexts()
	if base != 0 {
		p.flagTokens(0, len(p.toks), base)
	}
	if zone == Filename {
		p.scanFilename()
	} else {
		p.scanAddresses()
		p.scanLabels()
		p.shieldAll()
		p.scanTokens()
		p.scanSigns()
	}
	return p.settle(back)
}

// scanTokens offers every token to the rules that its roles or shape call for.
func (p *passage) scanTokens() {
	for _, i := range p.starts {
		i := int(i)
		t := &p.toks[i]
		if t.is(inMatch | inURL) {
			continue
		}
		if t.is(hasDigit) {
			p.numberAt(i)
		}
		if t.roles&wordTriggers != 0 {
			p.wordAt(i)
		}
		if t.is(firstUp) {
			p.capitalAt(i)
		}
	}
}

// startRoles are the roles of all words that a rule begins with.
const startRoles = wordTriggers | rLabel | rLiterature | rVersion | rUnit | rNoun | rSign

// wordTriggers are the roles that start a rule of wordAt.
const wordTriggers = rHonorific | rSoftTitle | rTitle | rRelative | rMonth | rSeason | rHoliday | rFacility | rFacilityFirst |
	rStreet | rStreetFirst | rSettlement | rHome | rNumber | rSuper | rPublic | rCalled | rFace | rNews | rOrdinal | rArabic

// wordAt runs the rules that a word starts.
func (p *passage) wordAt(i int) {
	r := p.toks[i].roles
	if r&(rHonorific|rSoftTitle|rTitle) != 0 {
		p.honorificAt(i)
	}
	if r&(rMonth|rSeason|rHoliday) != 0 {
		p.monthAt(i)
	}
	if r&(rNumber|rOrdinal) != 0 {
		p.ageWordAt(i)
	}
	if r&rArabic != 0 {
		p.arabicAt(i)
	}
	if r&rStreet != 0 {
		p.streetAt(i)
	}
	if p.toks[i].is(inRefs) {
		return
	}
	if r&rRelative != 0 {
		p.relativeAt(i)
	}
	if r&rCalled != 0 {
		p.calledAt(i)
	}
	if r&(rFacility|rFacilityFirst) != 0 {
		p.facilityAt(i)
	}
	if r&(rSettlement|rHome) != 0 {
		p.settlementAt(i)
	}
	if r&rStreetFirst != 0 {
		p.streetFirstAt(i)
	}
	if r&(rSuper|rPublic|rNews) != 0 {
		p.uniqueAt(i)
	}
	if r&rFace != 0 {
		p.faceAt(i)
	}
}
