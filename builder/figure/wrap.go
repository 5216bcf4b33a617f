package figure

import "strings"

// wrap breaks a text into at most maxLines lines no wider than max. A word that is too wide
// by itself is broken; what doesn't fit ends in an ellipsis. The whole text always stands in
// the figure's table, so nothing is lost by it.
func wrap(s string, size, max Px, maxLines int) []string {
	if !strings.Contains(s, "  ") && textWidth(s, size) <= max && s != "" {
		return []string{s}
	}
	words := strings.Fields(s)
	if len(words) == 0 {
		return nil
	}
	whole := strings.Join(words, " ") // lines are parts of it, so that none is built
	space := textWidth(" ", size)
	var lines []string
	from, to, width := 0, len(words[0]), textWidth(words[0], size)
	for i := 1; ; {
		if width > max && len(lines) < maxLines-1 { // one word, too wide by itself
			head, tail := breakWord(whole[from:to], size, max)
			lines = append(lines, head)
			from, width = from+len(head), textWidth(tail, size)
			continue
		}
		if i == len(words) {
			return append(lines, shorten(whole[from:to], size, max))
		}
		w := textWidth(words[i], size)
		switch {
		case width+space+w <= max:
			width += space + w
		case len(lines) == maxLines-1:
			return append(lines, shorten(whole[from:], size, max))
		default:
			lines = append(lines, whole[from:to])
			from, width = to+1, w
		}
		to += 1 + len(words[i])
		i++
	}
}

// breakWord gives as many characters as fit, at least one, and the rest.
func breakWord(word string, size, max Px) (head, tail string) {
	width := Px(0)
	for i, r := range word {
		if width += emWidth(r) * size; i > 0 && width > max {
			return word[:i], word[i:]
		}
	}
	return word, ""
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
