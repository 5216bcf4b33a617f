// Package caption turns the captions of a narrated operation into the draft of
// a case: what was done when, what went wrong, what was decided and why.
//
// A one-minute tour, in the order of the work; [File] does all of it:
//
//   - [Read] (track.go, readers.go, clean.go, roll.go, decode.go) takes WebVTT,
//     SubRip or a timed transcript as found in the wild, in any usual encoding.
//     Nothing is lost without a [Problem].
//   - redact (privacy.go, spoken.go, personal.go) takes out names, places and
//     dates through the privacy check, and what a spoken cue announces, before
//     anything else sees the text; once it is heard, strangers.go takes out the
//     words left that stand where a name would (english.go, english.txt).
//   - listen and decide (hear.go, likeness.go, grammar.go, correct.go;
//     lexicon.go, sound.go, glance.go, align.go, words.go) hear the vocabulary
//     behind misheard words: a noisy channel weighs the surprise of the words as
//     plain English (plain.txt) against the price of the term, of the mishearing
//     and of each sound that went wrong.
//   - decodeSteps (steps.go, says.go, hmm.go, runs.go, says.csv) finds the steps with a
//     left-to-right hidden Markov model for each procedure, and the procedure
//     with them; knowing the steps, the vocabulary is heard again (hearing.go).
//   - mood.go tells what is told from what is denied, asked, supposed, planned
//     or taught; events.go, began.go, recall.go, notice.go, watched.go, actions.go, findings.go,
//     decisions.go, measures.go and numbers.go read what happened from that.
//   - [Draft] (draft.go) gathers a [Report]; [WriteCase] (case.go, entries.go)
//     writes the commented case, [WriteText] (report.go) the summary,
//     [WriteReview] (review.go, review.html) the page to tick.
//
// Everything is a proposal to a person who was there. What the narration does
// not say stays unknown. The same bytes give the same draft; no clock, no
// network and no chance is involved.
package caption
