package front

import (
	"regexp"
	"strings"
)

var blockHeader = regexp.MustCompile(`^[|>](?:[+-]?[1-9]?|[1-9][+-])[ \t]*(?:[ \t]#.*)?$`)

// blockText reads a text of several lines that begins below a | or > sign: all
// lines indented further than parent, whatever stands in them.
func (s *scanner) blockText(at, parent int) {
	end := s.lineEnd(at)
	header := string(s.text[at:end])
	if !blockHeader.MatchString(header) {
		s.fault("reserved-start", at, 1, false,
			"a text may not begin with %c unless it is in straight quotation marks (alone on its line, the sign announces a text on the lines below)", s.text[at]).
			Suggest(quote(header))
		s.at = end + 1
		return
	}
	s.at = end + 1
	own := -1
	if i := strings.IndexAny(header, "123456789"); i >= 0 && !strings.Contains(header[:i], "#") {
		own = max(parent, 0) + int(header[i]-'0')
	}
	for s.at < len(s.text) {
		start, end := s.at, s.lineEnd(s.at)
		first := start
		for first < end && s.text[first] == ' ' {
			first++
		}
		indent := first - start
		if first == end {
			s.at = end + 1
			continue
		}
		if s.text[first] == '\t' && (own < 0 || indent < own) {
			if s.skipAnyBlank(first, end) < end {
				s.addLead(tabName, first, 1)
			}
			s.at = end + 1
			continue
		}
		if indent <= parent || own >= 0 && indent < own {
			if indent > parent && s.text[first] != '#' {
				s.fault("indent", start, indent+1, false,
					"this line belongs to the text above but is indented less than its first line; indent it by %d spaces", own)
				s.at = end + 1
				continue
			}
			return
		}
		if own < 0 {
			own = indent
		}
		s.at = end + 1
	}
}
