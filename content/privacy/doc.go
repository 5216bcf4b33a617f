// Package privacy finds what could identify somebody in texts, file names and
// written pages, and takes it out of pictures and clips. It is the gate that
// every case passes before anything is published.
//
// A one-minute tour:
//
//   - Scan(zone, text) is the plain entry. It returns Findings: a Class of the
//     18 of 45 CFR 164.514(b)(2), byte offsets in the raw text, a Severity and
//     the id of the rule. New makes a Scanner with another trade's vocabulary
//     and a bank's own words; Scan uses the built-in one.
//   - normal.go makes the copy that the rules read (entities, NFKC, emphasis,
//     wrapped lines); token.go splits it; lexicon.go says what each word can be;
//     context.go knows References headings, front-matter keys, timing lines.
//   - The rules are the table in rules.go. Labels run first (labels.go,
//     label_value.go), then shields of the trade (shield.go), then the families:
//     name, geo, facility, date, age, phone, signs (e-mail, URL), ip, photo,
//     unique, grouped (numbers with check digits, checkdigit.go). settle.go
//     resolves overlaps. A word starts a rule by its role, a number by being
//     one, so that a text is read once and time is linear in it.
//   - Mask and Finding.Message say what was found without repeating it.
//   - Scanner.Apply takes out what reviewed exceptions cover and reports stale,
//     double and unfit ones; Excepted does the same for written pages.
//   - Clean takes metadata out of JPEG, PNG, WebP, GIF, SVG, MP4 and MOV by
//     allow-lists, pixels unharmed, and refuses all else with words (media.go
//     and a file a format).
//   - Output scans the written files of a handout by the same rules.
//   - RareCombinations names the published combinations that fewer than k
//     patients share, and which value to coarsen.
//
// The package never says "anonymous", only "no finding". It cannot see text or
// faces in pixels, hear voices, or know a name without a cue or a story that
// everybody in the valley knows: a person must read every case, and local
// policy and law come first.
package privacy
