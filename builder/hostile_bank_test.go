package builder_test

import (
	"encoding/json"
	"fmt"
	"html"
	"strings"
	"testing/fstest"
)

// attacks are texts that would run something, or fetch something, where one
// writer forgot where a text ends up. %d is the number of the place, so that
// what ran says whence it came.
var attacks = []string{
	`<script>ran(%d)</script>`,
	`<img src=x onerror=ran(%d)>`,
	`"><svg onload=ran(%d)>`,
	`' onmouseover='ran(%d)' x='`,
	`" autofocus onfocus="ran(%d)" x="`,
	`</script><script>ran(%d)</script>`,
	`</style><script>ran(%d)</script>`,
	`</title></textarea></noscript></template><script>ran(%d)</script>`,
	`</svg></math></desc><script>ran(%d)</script>`,
	`<svg><script>ran(%d)</script><animate onbegin=ran(%[1]d) attributeName=x dur=1s></svg>`,
	`__f__ran(%d)__f__`,
	`{{.}}{{ran %d}}${ran(%[1]d)}`,
	`<iframe srcdoc="<script>parent.ran(%d)</script>"></iframe>`,
	`<a href="javascript:ran(%d)" autofocus onfocus=ran(%[1]d)>x</a>`,
	`<math><mtext><table><mglyph><style><img src onerror=ran(%d)></style></mglyph></table></mtext></math>`,
	"\u2028ran(%d)//\u2029",
	`]]><script>ran(%d)</script>`,
	`<!--><script>ran(%d)</script>-->`,
	`<img src=//hostile/%d>`,
	`<object data=//hostile/%d></object><embed src=//hostile/%[1]d>`,
	`<link rel=stylesheet href=//hostile/%d><style>@import "//hostile/%[1]d"</style>`,
	`<meta http-equiv=refresh content="0;url=//hostile/%d">`,
	`<base href=//hostile/%d/>`,
	`<details open ontoggle=ran(%d)><summary>x</summary></details>`,
	`\"-ran(%d)-\"`,
	`*/ran(%d)/*`,
	`url(//hostile/%d) expression(ran(%[1]d))`,
	`<video src=//hostile/%d onerror=ran(%[1]d)></video>`,
	`&lt;script&gt;ran(%d)&lt;/script&gt;`,
	`<form action=//hostile/%d><button autofocus onfocus=ran(%[1]d)>x</button></form>`,
	`\u003cscript\u003eran(%d)\u003c/script\u003e`,
	`<body onload=ran(%d)><script src=//hostile/%[1]d></script>`,
}

// injector hands out the attacks in turn.
type injector struct {
	places []string // what stands where, by number
}

// raw is the next attack as it is.
func (j *injector) raw(place string) string {
	attack := fmt.Sprintf(attacks[len(j.places)%len(attacks)], len(j.places))
	j.places = append(j.places, place)
	return attack
}

// text is the next attack, quoted for YAML.
func (j *injector) text(place string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(j.raw(place)) // a text is always encoded
	return strings.TrimSpace(b.String())
}

// filled fills every @name@ of a form with the next attack.
func (j *injector) filled(form string) string {
	parts := strings.Split(form, "@")
	for i := 1; i < len(parts); i += 2 {
		parts[i] = j.text(parts[i])
	}
	return strings.Join(parts, "")
}

// hostileBank is a bank in which every text that can reach a page attacks it. It
// says what stands at each number.
func hostileBank() (fstest.MapFS, []string) {
	j := &injector{}
	files := fstest.MapFS{}
	put := func(name, text string) { files[name] = &fstest.MapFile{Data: []byte(text)} }
	put("bank.yaml", j.filled(hostileSettings))
	put("terms.yaml", j.filled(hostileTerms))
	put("decisions/way-out.md", j.filled(hostileDecision)+hostileStory(j))
	put("courses/lab.yaml", j.filled(hostileCourse))
	put("theme/styles/99-own.css", "/* "+j.raw("theme style")+" */\n.x { background: url(//hostile/style) }\n@import \"//hostile/import\";\n")
	put("logbook.csv", "period,technique,surgeon,risk,complications,unit,step,\"<svg onload=ran(0)>\"\n"+
		"2024-Q1,odd-way,consultant,low,odd-tear,A,main-incision,\"<img src=x onerror=ran(0)>\"\n2024-Q2,divide-and-conquer,trainee,low,,B,,=1+1\n")
	for n := 1; n <= 2; n++ { // two, for next and previous, related and compared
		id := fmt.Sprintf("ab-%d", n)
		put("cases/"+id+".md", strings.ReplaceAll(j.filled(hostileCase), "AB-N", strings.ToUpper(id))+hostileStory(j))
	}
	put("cases/"+hostileName, hostileDrawing(j))
	put("decisions/"+hostileName, hostileDrawing(j))
	return files, j.places
}

const hostileSettings = `title: @bank title@
edition: @edition@
language: en
invented: yes
notice: @notice@
theme: theme
reference_technique: divide-and-conquer
strata: [{id: low, label: @stratum@, definition: @definition of a stratum@}]
rare_combination: 1
ask_signs: yes
cautions: [@caution@, @caution@]
booklets: [{id: all, title: @booklet@}]
`

const hostileTerms = `terms:
  - {id: odd-tear, kind: complication, label: @term@, synonyms: [@synonym@], definition: @definition@}
  - {id: odd-way, kind: technique, label: @technique@, abbreviation: @abbreviation@, definition: @definition@}
  - {id: odd-hook, kind: instrument, label: @instrument@, definition: @definition@}
watch:
  - {step: main-incision, complication: odd-tear, first_sign: @first sign@, misstep: @misstep@, first_move: @first move@, prevention: @prevention@, ready: @ready@}
`

const hostileDecision = `---
decision: way-out
title: @title of a decision@
question: @question of a decision@
steps: [main-incision]
complications: [odd-tear]
trigger: @trigger@
value: {best: @best@, worst: @worst@}
agreed: [@agreed@]
thresholds: [@threshold@]
caution: @caution of a decision@
options:
  - id: one
    text: @option of a decision@
    for: @for@
    against: @against@
    then:
      chance:
        - {branch: good, text: @branch@, prior: 9, source: 1, then: {end: 90, range: 80-95}}
        - {branch: bad, text: @branch@, prior: 1, source: 1, then: {decide: {question: @nested question@, options: [{id: a, text: @nested option@, then: {end: 20}}, {id: b, text: @nested option@, then: {end: 30}}]}}}
  - {id: two, text: @option of a decision@, then: {end: 60, range: 50-70}}
sources: [{text: @source@}]
---
`

const hostileCourse = `course: lab
title: @title of a course@
edition: @edition of a course@
period: "2026"
language: en
rooms: [@room@]
start: "09:00"
breaks: [{at: "10:00", minutes: 10, text: @break@}]
plenary: [{minutes: 5, text: @plenary@}]
groups: [{name: A, size: 2}, {name: B, size: 2}]
tutors: [{role: consultant, count: 1}]
cautions: [@caution of a course@]
stations:
  - id: one
    title: @station@
    minutes: 20
    cases: [AB-1]
    steps: [main-incision]
    tasks: [@task@]
    kit: [{item: odd-hook, count: 1, per: participant, size: 2.4 mm}]
    setup: [@setup@]
    clear_up: [@clear up@]
    cautions: [@caution of a station@]
    checks: [@check@]
  - {id: two, title: @station@, minutes: 20, cases: [AB-2]}
`

const hostileCase = `---
case: AB-N
title: @title of a case@
summary: @summary@
procedure: cataract-surgery
technique: odd-way
surgeon: trainee
patient: {age_band: 70-79}
plan: @plan@
backup_plan: @backup plan@
history: @history@
examination: @examination@
kit: [{item: odd-hook, count: 1, note: @note of kit@}]
timeline:
  - {at: 0:40, step: main-incision, note: @note of a step@}
  - {at: 1:30, step: capsulorhexis}
  - at: 3:05
    event: odd-tear
    began: 2:58
    noticed: 3:05
    acted: 3:20
    sign: @sign@
    cause: @cause@
    action: @action@
    note: @note of an event@
  - {at: 3:10, finding: vitreous-strand, present: no, note: @note of a finding@}
  - at: 3:20
    decision: @question@
    point: way-out
    options:
      - {id: one, text: @option@, for: @for@, against: @against@}
      - {id: two, text: @option@, for: @for@, against: @against@}
    chosen: one
    because: @because@
    came_of: good
    result: @result@
outcome: {acuity: {before: 6/24, after: 6/6}, further_surgery: @further surgery@}
lessons: [@lesson@]
alternatives: [@alternative@]
limits: @limits@
sources: [{text: @source of a case@}]
release: {consent: not-required, reason: @reason@, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}
---
`

// hostileStory is a narrative that tries everything Markdown lets through.
func hostileStory(j *injector) string {
	next := func() string { return j.raw("story") }
	return next() + "\n\n## " + next() + "\n\n- " + next() + "\n\n| a | b |\n|---|---|\n| " + strings.ReplaceAll(next(), "|", "") + " | x |\n\n" +
		"[a link](javascript:ran(0)) [another](<data:text/html,<script>ran(0)</script>>) [third](vbscript:ran(0)) [ref][r] <javascript:ran(0)>\n\n" +
		"[r]: javascript:ran(0) \"" + strings.ReplaceAll(next(), `"`, "") + "\"\n\n" +
		"![" + strings.NewReplacer("[", "", "]", "").Replace(next()) + "](<" + hostileName + ">)\n\n" +
		"A note.[^1]\n\n[^1]: " + next() + "\n\n```" + strings.ReplaceAll(next(), "`", "") + "\n" + next() + "\n```\n\n    " + next() + "\n\n" +
		"[time](time:2:58) [term](term:odd-hook) `" + strings.ReplaceAll(next(), "`", "") + "` **" + next() + "**\n"
}

// hostileName is a file's name that ends an attribute.
const hostileName = `" onerror=ran(0) x='.svg`

// hostileDrawing is a picture whose texts attack; that one with a script in it
// is refused is tested where pictures are cleaned.
func hostileDrawing(j *injector) string {
	escaped := func(place string) string { return html.EscapeString(j.raw(place)) }
	return `<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20"><title>` + escaped("title of a drawing") +
		`</title><desc>` + escaped("description of a drawing") + `</desc><rect width="40" height="20"/><text x="1" y="9">` + escaped("text of a drawing") + `</text></svg>`
}
