package figure

import "strings"

// wrap breaks a text into at most maxLines lines no wider than max. A word that is too wide
// by itself is broken; what doesn't fit ends in an ellipsis. The whole text always stands in
// the figure's table, so nothing is lost by it.
func wrap(s string, size, max Px, maxLines int) []string {
	words := strings.Fields(s)
	var lines []string
	line := ""
	for i := 0; i < len(words); {
		word := words[i]
		trial := word
		if line != "" {
			trial = line + " " + word
		}
		if textWidth(trial, size) <= max {
			line = trial
			i++
			continue
		}
		if line == "" {
			head, tail := breakWord(word, size, max)
			line, words[i] = head, tail
			if tail == "" {
				i++
			}
		}
		lines = append(lines, line)
		line = ""
		if len(lines) == maxLines {
			if i < len(words) {
				lines[maxLines-1] = shorten(lines[maxLines-1]+" "+strings.Join(words[i:], " "), size, max)
			}
			return lines
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
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
