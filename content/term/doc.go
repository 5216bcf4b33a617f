// Package term holds the controlled vocabulary of the trade: which words a
// case, a logbook, a decision or a course may use, what each means, and what
// an author probably meant who typed something else.
//
// A one-minute tour:
//
//   - A [Term] has an id (iris-prolapse), a [Kind] (complication), the names
//     people use for it, the ways dictation software mishears it, one sentence
//     of definition and the steps it belongs to.
//   - [Cataract] is the built-in vocabulary, read once from cataract.csv;
//     [Empty] has nothing in it. [Vocabulary.With] lays a bank's own terms on
//     top of either and reports what is wrong with them.
//   - [Vocabulary.Find] answers "which terms does this text name", with case,
//     hyphens, accents and British or American spelling folded away (fold.go).
//   - [Vocabulary.Suggest] and [Nearest] answer "which right spelling is this
//     nearest to" (suggest.go); every "did you mean" comes from there.
//   - [Vocabulary.Sequence], [Vocabulary.StepTime] (order.go, order.csv) know
//     the usual order and the usual length of an operation's steps.
//   - [Vocabulary.Watch] (watch.go, watch.csv) is the watch table: what can
//     start in a step, its first sign, the first move, what to have ready.
//
// The three CSV files hold teaching facts gathered in the project's trade
// reference. They are not advice: every action, strength and number defers to
// the local protocol and licensed practice.
//
// A Vocabulary never changes after it is made, so it may be shared freely
// between goroutines.
package term
