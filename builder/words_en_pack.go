package builder

// englishPack is the part of [english] for editions, for a handout that holds
// one course, and for what goes with a zip.
var englishPack = phrases{
	"part-of-course":   said("This copy holds what the course “%[1]s” needs and not the whole bank. What is counted from cases is counted from those in this copy; rates are out of the whole logbook."),
	"door-course-text": said("The stations, what to read before each, and the kit."),

	// START-HERE.txt, in a zip. Each is a paragraph of plain text.
	"start-head":    said("Start here"),
	"start-course":  said("For the course: %[1]s"),
	"start-unzip":   said("1. Unpack first. A zip is a closed box: a page that is opened inside it has no pictures, no looks, and links that lead nowhere."),
	"start-windows": said("On Windows: close this window. Press the zip file with the right mouse button, choose “Extract all”, then “Extract”. Open the folder that appears and double-click index.html (it may be shown as index)."),
	"start-mac":     said("On macOS: double-click the zip file. Open the folder that appears beside it and double-click index.html."),
	"start-phone":   said("On a phone or tablet: save the zip to the device, open it in the app that shows your files, and let that app unpack it (touch it, or hold it and choose to extract or unpack). Open the folder that appears, touch index.html, and choose your web browser, not a preview."),
	"start-alone":   said("2. If a page looks bare, or its links do nothing, the browser was given that one page without its neighbours. This happens inside a zip that is not unpacked, in the preview of a mail or of a phone, and where an app copies one file to the browser. Unpack again into a folder of its own and open index.html from there. Keep all files together; do not move or send single pages."),
	"start-still":   said("3. If a phone will show only one page at a time, it does not let its browser read the files beside a page. Use a computer, or ask whoever gave you this for the same handout as an EPUB, a book for phones and readers: any reading app opens it."),
	"start-nothing": said("4. Nothing is installed and no network is needed. Nothing you do here is sent to anybody. Without scripts every page is complete."),
	"start-check":   said("5. To see whether a copy is whole: manifest.json lists every file with its SHA-256. Whoever has caseleaf types: caseleaf check, and the name of the zip or of the folder."),

	// An EPUB.
	"book-contents": said("Contents"),
	"book-cover":    said("Cover"),
	"book-answers":  said("Answers"),
	"book-back":     said("Back to the question"),
	"book-access":   said("Text with headings, tables and a list of contents. Every figure has a title, a description and a caption, and its numbers stand in the text. Answers follow their page in a chapter of their own, with links both ways. Nothing moves, flashes or sounds."),
	"book-first":    said("First"),

	// What changed since an earlier edition.
	"since":                said("What changed since the last edition"),
	"since-door":           said("Cases that are new, changed or withdrawn, and counts that moved."),
	"since-summary":        said("Compared with edition %[1]s of “%[2]s”."),
	"since-unnamed":        said("without a name"),
	"since-nothing":        said("No case, no decision and no count differs from that edition."),
	"since-added":          said("New"),
	"since-changed":        said("Changed"),
	"since-withdrawn":      said("Withdrawn"),
	"since-withdrawn-note": said("A withdrawn case is named by its number alone. It may have been withdrawn so that nobody can be known: throw older copies away and do not pass them on."),
	"since-figures":        said("Counts that moved"),
	"since-figures-note":   said("Operations with the complication, out of all by that technique, from the consecutive logbook. A count that moved is not a rate that changed: the rates with their intervals are on the page"),
	"since-operations":     said("All operations of the logbook"),
	"since-before":         said("Then"),
	"since-now":            said("Now"),
	"since-none":           said("no line"),
	"part-before":          said("what was known before"), "part-kit": said("kit"), "part-timeline": said("timeline"),
	"part-choices": said("decision points"), "part-outcome": said("outcome"), "part-lessons": said("lessons"), "part-story": said("story"),
	"part-pictures": said("pictures"), "part-alternatives": said("alternatives"), "part-limits": said("limits"), "part-sources": said("sources"),
	"part-related": said("related cases"), "part-release": said("release"), "part-question": said("question"), "part-tree": said("options and numbers"),
	"part-guidance": said("what is agreed, thresholds and cautions"),
}
