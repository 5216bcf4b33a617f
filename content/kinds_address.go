package content

import (
	"net/url"
	"regexp"
	"strings"

	"caseleaf/content/measure"

	"golang.org/x/text/language"
)

var doiForm = regexp.MustCompile(`^10\.\d{4,9}/\S+$`)

// doi is a digital object identifier without its resolver's address.
var doi = parsed("bad-value", "a DOI such as 10.5555/12345678", pattern(`^10\.\d{4,9}/\S+$`), func(s string) (string, error) {
	if doiForm.MatchString(s) {
		return s, nil
	}
	err := &measure.Error{Text: s, Want: "a DOI such as 10.5555/12345678"}
	if i := strings.Index(s, "10."); i > 0 && doiForm.MatchString(s[i:]) {
		err.Hint = "write " + s[i:]
	}
	return "", err
})

// webAddress is an absolute https address.
var webAddress = parsed("bad-value", "an address that begins with https://", pattern(`^https://`), func(s string) (string, error) {
	u, err := url.Parse(s)
	if err == nil && u.Scheme == "https" && u.Host != "" && u.User == nil {
		return s, nil
	}
	return "", &measure.Error{Text: s, Want: "an address that begins with https://"}
})

// hostName is the name of a web host, without scheme, port or path.
var hostName = parsed("bad-value", "a host such as guidance.example.org", pattern(`^[a-z0-9-]+(\.[a-z0-9-]+)+$`), func(s string) (string, error) {
	if hostForm.MatchString(s) {
		return s, nil
	}
	err := &measure.Error{Text: s, Want: "a host such as guidance.example.org, in small letters"}
	if u, bad := url.Parse(s); bad == nil && hostForm.MatchString(u.Hostname()) {
		err.Hint = "write " + u.Hostname()
	}
	return "", err
})

var hostForm = regexp.MustCompile(`^[a-z0-9-]+(\.[a-z0-9-]+)+$`)

// eponym is one capitalised word.
var eponym = parsed("bad-value", "one word with a capital", pattern(`^\p{Lu}[\p{L}'-]+$`), func(s string) (string, error) {
	if eponymForm.MatchString(s) {
		return s, nil
	}
	return "", &measure.Error{Text: s, Want: "one word with a capital, such as Descemet"}
})

var eponymForm = regexp.MustCompile(`^\p{Lu}[\p{L}'-]+$`)

// languageTag is a BCP 47 tag such as en or pt-BR.
var languageTag = parsed("bad-value", "a language tag such as en", schemaObject{"type": "string"}, func(s string) (string, error) {
	if _, err := language.Parse(s); err == nil {
		return s, nil
	}
	return "", &measure.Error{Text: s, Want: "a language tag such as en"}
})
