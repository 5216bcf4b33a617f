package search

// Field is what a passage is on its page. A word counts for more in a title
// than in a story.
type Field uint8

// The fields, the weightiest first.
const (
	Title  Field = iota
	Named        // the names of terms that the page is about or is filed under
	Sign         // what is seen first, and what is to be watched for
	Lesson       // what to remember: summaries, lessons, definitions
	Text         // everything else

	fields = 5
)

// Document is one page, or one entry of a page, that can be found.
type Document struct {
	Path  string // below the handout, with the entry's fragment where it has one
	Title string
	Kind  string // what sort of page it is, as printed beside the title
	ID    string // what a reader may type for it, such as HB-007; empty for none
	// Term is the id of the term that the page is about; it counts as a title.
	Term string
	// Tags are ids of terms that the page is filed under.
	Tags     []string
	Passages []Passage
}

// Passage is one run of text of a document.
type Passage struct {
	Field Field
	Text  string
	// Terms are names of Tags as the page has them beside the text. They are shown
	// before it and not counted again.
	Terms  string
	Anchor string // fragment of the passage on its page; empty for the page itself
	// Hidden passages wait on their page to be opened. They can be found, and
	// are never shown before that.
	Hidden bool
}
