package caption

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// fillers are sounds that nobody wants to read.
var fillers = wordSet("um uh er erm ah hmm mm")

// tidy takes fillers and words said twice running out of a cue.
func tidy(text string) string {
	var out []string
	for _, w := range strings.Fields(text) {
		bare := strings.ToLower(strings.Trim(w, ".,!?"))
		if fillers[bare] || len(out) > 0 && strings.EqualFold(w, out[len(out)-1]) {
			continue
		}
		out = append(out, w)
	}
	return strings.TrimRight(strings.Join(out, " "), ".")
}

// quote writes a YAML double-quoted scalar.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f || unicode.Is(unicode.Cc, r) || r == utf8.RuneError:
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// escape keeps the words of a narration from acting as Markdown or HTML.
func escape(s string) string {
	return strings.NewReplacer("\\", "\\\\", "<", "&lt;", "&", "&amp;", "*", "\\*", "_", "\\_", "`", "\\`", "[", "\\[", "]", "\\]", "#", "\\#", "~", "\\~", "|", "\\|", "$", "\\$").Replace(s)
}

func upperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// timeOr writes a time, or unknown.
func timeOr(seconds *float64) string {
	if seconds == nil {
		return "unknown"
	}
	return clock(*seconds)
}
