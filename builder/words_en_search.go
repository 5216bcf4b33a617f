package builder

// englishSearch is what searching, filters and the lists of cases say.
var englishSearch = phrases{
	"search":              said("Search"),
	"search-for":          said("Search the handout"),
	"search-summary":      said("Every page of this handout by what it says: terms under all their names, signs, lessons, stories."),
	"search-off":          said("Searching needs scripts, and they are off. The A to Z below leads to every term, and from there to its page."),
	"search-help":         said("Names, abbreviations and small slips of the pen are understood. The arrow keys go through what was found; Escape clears."),
	"search-slash":        said("The key / goes to the search box"),
	"search-found":        said("Pages found: %[1]s"),
	"search-none":         said("Nothing found. Try fewer words, or the A to Z below."),
	"search-failed":       said("The files of the index could not be read. They lie in the folder named search."),
	"search-covered":      said("Found in a part of this page that waits to be opened."),
	"search-hits":         said("What was found"),
	"search-more":         said("Show more"),
	"search-letters":      said("A to Z"),
	"search-letters-note": said("All terms of the trade, under every name they have."),

	"see-instead": said("see"),

	"filter":         said("Narrow the list"),
	"filter-any":     said("any"),
	"filter-clear":   said("Clear all"),
	"filter-shown":   said("Cases shown: %[1]s of %[2]s"),
	"filter-step":    said("Step"),
	"filter-event":   said("Complication"),
	"filter-way":     said("Technique"),
	"filter-choice":  said("Decision"),
	"filter-risk":    said("Risk factor"),
	"filter-surgeon": said("Surgeon"),

	"set-more":         counted("and one more on its page", "and %[1]d more on its page"),
	"surgeons":         said("Surgeons"),
	"surgeons-summary": said("The cases by the grade of the surgeon. Who operated says nothing of how well."),
	"around":           said("Before and after it"),
	"around-note":      said("The neighbouring cases of the same kind."),
}
