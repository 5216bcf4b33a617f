// Package search builds the index that a handout is searched with: plain files
// that a classic script loads from the disk, without a server and without
// asking for anything outside the handout's folder.
//
// A one-minute tour:
//
//   - A [Document] is one page with its [Passage]s, each of one [Field]: a
//     title, the names of a term, a first sign, a lesson, or plain text.
//   - [Words] (fold.go) turns text into index words: case, accents, points and
//     the usual variants of a letter folded away, scripts that write without
//     spaces cut into pairs of letters. themes/scripts/search.js does the same
//     to what a reader types, and a test holds the two to each other.
//   - concept.go knows the names of every term, so that a page that says
//     "posterior capsule tear" is filed under that term, and so is found by PCR.
//   - [Builder.Add] counts a document once; [Builder.Files] weighs the counts
//     (weight.go), writes them densely (code.go) and lays them into files
//     (shard.go): one of words and names, one of titles, and shards of postings
//     and of texts; texts are loaded only with the hits that they belong to.
//
// # What a file holds
//
// Every file is one call of handoutSearch with a kind and its data:
//
//	search/words.js    handoutSearch("words", {…})       words, names, sizes
//	search/found-0.js  handoutSearch("found", 0, "…")    which documents hold a word
//	search/titles.js   handoutSearch("titles", […])      titles to show at once
//	search/text-0.js   handoutSearch("text", 0, […])     passages to show with them
//
// The first two sorts are the index, loaded with the titles when the search page
// is opened; the others repeat what pages show, so that a hit can be shown with
// its passage. Authors' words stand in strings that JSON
// escapes, so the privacy gate reads them as a reader will; the alphabet of the
// coded numbers holds no vowel, no figure, no capital and no blank, so that
// nothing in it can look like a name, a number or an address.
//
// The same documents in the same order give the same bytes.
package search
