package builder

import (
	"html/template"
	"strings"
)

// addresses numbers the outside addresses of a narrative's links, so that paper
// can print them as notes below it. The zero value is ready to use.
type addresses struct{ list []string }

// number gives an address its number, the same each time it is met.
func (a *addresses) number(address string) int {
	for i, known := range a.list {
		if known == address {
			return i + 1
		}
	}
	a.list = append(a.list, address)
	return len(a.list)
}

// section is the notes themselves; nothing where no link leads outside. On a
// screen, where links can be followed, the style sheet hides them.
func (a *addresses) section(w *words) string {
	if len(a.list) == 0 {
		return ""
	}
	var out strings.Builder
	out.WriteString(`<section class="Addresses"><p class="Label">` + template.HTMLEscapeString(w.say("addresses")) + "</p>\n<ol>\n")
	for _, address := range a.list {
		out.WriteString("<li>" + template.HTMLEscapeString(address) + "</li>\n")
	}
	out.WriteString("</ol>\n</section>\n")
	return out.String()
}
