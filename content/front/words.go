package front

import (
	"fmt"
	"unicode/utf8"
)

// plural gives "1 such byte" or "4 such bytes".
func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// shorten cuts text to at most n characters for use inside a message.
func shorten(text string, n int) string {
	if utf8.RuneCountInString(text) <= n {
		return text
	}
	return string([]rune(text)[:n-1]) + "…"
}
