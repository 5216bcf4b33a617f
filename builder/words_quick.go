package builder

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
)

// Say is say for the figures, which have the same words as the page around them.
func (w *words) Say(key string, args ...any) string { return w.say(key, args...) }

// quick says a phrase that fills in only texts, or counts, without a formatter; not
// where it needs one.
func (w *words) quick(key string, args []any) (string, bool) {
	if pattern, ok := w.fast.patterns[key]; ok {
		if text, ok := fillTexts(pattern, args); ok {
			return text, true
		}
	}
	if len(args) == 1 {
		if n, ok := args[0].(int); ok && 0 <= n && n <= 999 {
			return w.counted(key, n), true
		}
	}
	return "", false
}

// countKey names a phrase that counts and its number: the same few come again and again.
type countKey struct {
	key string
	n   int
}

// quickWords is what a language keeps so that common phrases need no formatter.
type quickWords struct {
	patterns map[string]string // phrases in which only texts are filled in
	counts   sync.Map          // countKey to string
}

func newQuickWords(p phrases) *quickWords {
	q := &quickWords{patterns: map[string]string{}}
	for key, m := range p {
		if pattern, ok := textPattern(m); ok {
			q.patterns[key] = pattern
		}
	}
	return q
}

// textPattern gives a phrase's pattern where it has one form and fills in texts only.
func textPattern(m catalog.Message) (string, bool) {
	if reflect.ValueOf(m).Kind() != reflect.String {
		return "", false
	}
	pattern := fmt.Sprint(m)
	rest := strings.ReplaceAll(pattern, "%%", "")
	for n := 1; n <= 9; n++ {
		rest = strings.ReplaceAll(rest, "%["+strconv.Itoa(n)+"]s", "")
	}
	return pattern, !strings.Contains(rest, "%")
}

// counted says a phrase that counts, from what was said before where it can.
func (w *words) counted(key string, n int) string {
	if text, ok := w.fast.counts.Load(countKey{key, n}); ok {
		if s, ok := text.(string); ok {
			return s
		}
	}
	text := w.printer.Sprintf(message.Key(key, key), n)
	w.fast.counts.Store(countKey{key, n}, text)
	return text
}

// fillTexts puts texts in their places; false where an argument is no text.
func fillTexts(pattern string, args []any) (string, bool) {
	at := strings.IndexByte(pattern, '%')
	if at < 0 {
		return pattern, true
	}
	var b strings.Builder
	for ; at >= 0; at = strings.IndexByte(pattern, '%') {
		b.WriteString(pattern[:at])
		if pattern[at+1] == '%' {
			b.WriteByte('%')
			pattern = pattern[at+2:]
			continue
		}
		i := int(pattern[at+2] - '1')
		if i >= len(args) {
			return "", false
		}
		s, ok := args[i].(string)
		if !ok {
			return "", false
		}
		b.WriteString(s)
		pattern = pattern[at+len("%[1]s"):]
	}
	b.WriteString(pattern)
	return b.String(), true
}
