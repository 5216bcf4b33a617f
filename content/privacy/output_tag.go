package privacy

import "bytes"

// tagKind is what a tag does to the text around it.
type tagKind uint8

const (
	blockTag  tagKind = iota // ends the text before it
	joinedTag                // stands inside a run of text
	breakTag                 // parts words of one text
	scriptTag                // a block of code
	styleTag                 // a block of style
	headTag                  // a heading of level 1; those of the others follow
)

// level is that of a heading's tag, from 1 to 6; 0 for another tag.
func (k tagKind) level() int { return max(0, int(k)-int(headTag)+1) }

// kindOf sorts the name of a tag, in letters of any size.
func kindOf(name []byte) tagKind {
	switch string(name) {
	case "a", "b", "i", "q", "s", "u", "em", "bdi", "bdo", "dfn", "del", "ins", "kbd", "sub", "sup", "var", "wbr",
		"abbr", "cite", "code", "data", "font", "mark", "samp", "span", "time", "label", "small", "tspan", "strong":
		return joinedTag
	case "br":
		return breakTag
	case "script":
		return scriptTag
	case "style":
		return styleTag
	case "h1", "h2", "h3", "h4", "h5", "h6":
		return headTag + tagKind(name[1]-'1')
	}
	if low := lowerName(name); !bytes.Equal(low, name) {
		return kindOf(low)
	}
	return blockTag
}

// lowerName is the name of a tag in small letters.
func lowerName(name []byte) []byte {
	for _, c := range name {
		if c >= 'A' && c <= 'Z' || c >= 0x80 {
			return bytes.ToLower(name)
		}
	}
	return name
}

// holdsWords says whether an attribute holds words that people write.
func holdsWords(name, value []byte) bool {
	switch string(name) {
	case "alt", "cite", "label", "title", "value", "poster", "srcdoc", "content", "summary", "download", "aria-label",
		"placeholder", "aria-description", "aria-roledescription":
		return true
	}
	return bytes.HasPrefix(name, []byte("data-")) && bytes.ContainsAny(value, " @")
}

// holdsAddress says whether an attribute leads out of the handout.
func holdsAddress(name, value []byte) bool {
	switch string(name) {
	case "src", "href", "action", "srcset", "xlink:href":
		return bytes.HasPrefix(value, []byte("mailto:")) || bytes.HasPrefix(value, []byte("tel:")) || bytes.Contains(value, []byte("://"))
	}
	return false
}
