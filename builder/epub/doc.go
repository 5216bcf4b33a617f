// Package epub makes a book of a handout's pages: an EPUB 3.3 for phones and
// readers, which open a folder of pages badly or not at all.
//
// Enter: a [Book], whose pages are HTML as the handout has them.
// Leave: the files of the book, the same bytes for the same pages.
// Read [Book.Files] first, then chapter.go.
//
// Three things differ from the pages. What waits behind a cover (details) stands
// in a chapter of its own behind the page, with links both ways, because readers
// that don't know the element show it open and spoil the question. Of a figure
// that is drawn wide and narrow the narrow one is taken, in fixed colours on
// white. Links to pages that are not in the book are plain text.
package epub
