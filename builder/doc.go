// Package builder turns a [content.Bank] into a handout: a folder of static
// pages that opens offline.
//
// Enter: a bank without errors and [Options].
// Leave: the folder, whole or not at all, and a [Summary].
// Read [Build] first, then [Site], then one page_*.go.
//
// The road is plan, render, write. Planners (plan… in page_*.go) compute the
// data of every page from the bank; rendering only lays them out with the
// theme's templates, several pages at a time; writing goes into a folder beside
// the old handout, which is then exchanged for it.
//
//	summary, err := builder.Build(bank, builder.Options{Out: "handout"})
package builder
