package figure

import "strings"

// wrap breaks a text into at most maxLines lines no wider than max. A word that is too wide
// by itself is broken; what doesn't fit ends in an ellipsis. The whole text always stands in
// the figure's table, so nothing is lost by it.
func wrap(s string, size, max Px, maxLines int) []string {
	words := strings.Fields(s)
	if len(words) == 0 {
		return nil
	}
	space := textWidth(" ", size)
	var lines []string
	line, width := words[0], textWidth(words[0], size)
	for i := 1; ; {
		if width > max && len(lines) < maxLines-1 { // one word, too wide by itself
			head, tail := breakWord(line, size, max)
			lines = append(lines, head)
			line, width = tail, textWidth(tail, size)
			continue
		}
		if i == len(words) {
			return append(lines, shorten(line, size, max))
		}
		w := textWidth(words[i], size)
		switch {
		case width+space+w <= max:
			line, width = line+" "+words[i], width+space+w
		case len(lines) == maxLines-1:
			return append(lines, shorten(line+" "+strings.Join(words[i:], " "), size, max))
		default:
			lines = append(lines, line)
			line, width = words[i], w
		}
		i++
	}
}

// breakWord gives as many characters as fit, at least one, and the rest.
func breakWord(word string, size, max Px) (head, tail string) {
	runes := []rune(word)
	n := 1
	for n < len(runes) && textWidth(string(runes[:n+1]), size) <= max {
		n++
	}
	return string(runes[:n]), string(runes[n:])
}

// shorten cuts a text to the width and marks the cut with an ellipsis.
func shorten(s string, size, max Px) string {
	if textWidth(s, size) <= max {
		return s
	}
	runes := []rune(s)
	for len(runes) > 0 {
		runes = runes[:len(runes)-1]
		cut := strings.TrimRight(string(runes), " ,;:") + "…"
		if textWidth(cut, size) <= max {
			return cut
		}
	}
	return "…"
}

// widest gives the width of the widest line.
func widest(lines []string, size Px) Px {
	var w Px
	for _, l := range lines {
		w = max(w, textWidth(l, size))
	}
	return w
}
