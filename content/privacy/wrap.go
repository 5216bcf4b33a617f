package privacy

import "strings"

// breaksHere says whether a block ends at the single line end inside
// raw[i:j], blanks included; where it does not, an editor has merely wrapped
// the line and a name may go on after it.
func breaksHere(zone Zone, raw string, i, j int) bool {
	if j >= len(raw) || zone == Filename {
		return true
	}
	line := raw[strings.LastIndexByte(raw[max(0, i-200):i], '\n')+1+max(0, i-200) : i]
	next := raw[j:min(len(raw), j+120)]
	if k := strings.IndexByte(next, '\n'); k >= 0 {
		next = next[:k]
	}
	if startsBlock(next) || strings.HasPrefix(strings.TrimLeft(line, " "), "#") {
		return true
	}
	switch zone {
	case FrontMatter:
		return startsKey(next) || strings.HasSuffix(line, ":")
	case Caption:
		return strings.Contains(line, "-->") || strings.Contains(next, "-->") || startsSpeaker(next) || allDigits(line) || line == "WEBVTT"
	}
	return false
}

// startsBlock knows the line starts of Markdown that begin something new.
func startsBlock(next string) bool {
	if next == "" {
		return true
	}
	switch next[0] {
	case '-', '*', '+', '#', '|', '>', '=', '<', '!':
		return true
	}
	d := 0
	for d < len(next) && d < 4 && next[d] >= '0' && next[d] <= '9' {
		d++
	}
	return d > 0 && d+1 < len(next) && (next[d] == '.' || next[d] == ')') && next[d+1] == ' '
}

// startsKey knows "key:" and "{", the starts of YAML that begin something new.
func startsKey(next string) bool {
	for k := 0; k < len(next) && k < 60; k++ {
		switch c := next[k]; {
		case c == ':':
			return k > 0 && (k+1 == len(next) || next[k+1] == ' ')
		case c == '{' || c == '[':
			return k == 0
		case !isWordByte(c) && c != '_' && c != '-' && c != '"' && c != '\'':
			return false
		}
	}
	return false
}

// startsSpeaker knows "Word:" and "Two words:" at the start of a caption line.
func startsSpeaker(next string) bool {
	k := strings.IndexByte(next, ':')
	return k > 0 && k < 40 && strings.Count(next[:k], " ") < 4 && (k+1 == len(next) || next[k+1] == ' ')
}

func allDigits(s string) bool {
	s = strings.TrimSpace(s)
	for k := 0; k < len(s); k++ {
		if s[k] < '0' || s[k] > '9' {
			return false
		}
	}
	return s != ""
}
