package privacy

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func good() Exception {
	return Exception{Class: Geo, Where: Body, Match: "Antmark", Count: 1, Kind: FalsePositive, Reason: "The hook is called that; not a place of care", ReviewedBy: "consultant", Reviewed: 2031}
}

func TestApply(t *testing.T) {
	sc := builtin()
	raw := "A shepherd from Antmark. Another from Antmark. Mrs Oxtallow, SSN 219-09-9999."
	text := Text{Body, raw, sc.Scan(Body, raw)}
	if len(text.Findings) != 4 {
		t.Fatalf("want four findings, got %v", text.Findings)
	}
	with := func(change func(*Exception)) Exception { e := good(); change(&e); return e }
	for name, c := range map[string]struct {
		exceptions []Exception
		left       int
		used       []int
		problems   []string
	}{
		"none":            {nil, 4, []int{}, nil},
		"one covers one":  {[]Exception{good()}, 3, []int{1}, nil},
		"count two":       {[]Exception{with(func(e *Exception) { e.Count = 2 })}, 2, []int{2}, nil},
		"stale":           {[]Exception{with(func(e *Exception) { e.Match = "Nowhere" })}, 4, []int{0}, []string{"stale"}},
		"other zone":      {[]Exception{with(func(e *Exception) { e.Where = Caption })}, 4, []int{0}, []string{"stale"}},
		"duplicate":       {[]Exception{good(), good()}, 3, []int{1, 0}, []string{"duplicate"}},
		"short reason":    {[]Exception{with(func(e *Exception) { e.Reason = "it is fine" })}, 4, []int{0}, []string{"15 characters"}},
		"telling reason":  {[]Exception{with(func(e *Exception) { e.Reason = "Mrs Oxtallow said that it is fine" })}, 4, []int{0}, []string{"itself"}},
		"author consents": {[]Exception{with(func(e *Exception) { e.Kind, e.ReviewedBy, e.Consent = Consented, "author", "held-locally" })}, 4, []int{0}, []string{"author"}},
		"no consent":      {[]Exception{with(func(e *Exception) { e.Kind = Consented })}, 4, []int{0}, []string{"held-locally"}},
		"wrong kind":      {[]Exception{with(func(e *Exception) { e.Class, e.Kind = Phone, Consented; e.Consent = "held-locally" })}, 4, []int{0}, []string{"takes no exception of kind"}},
		"ssn never":       {[]Exception{with(func(e *Exception) { e.Class, e.Match = SSN, "219-09-9999" })}, 4, []int{0}, []string{"takes no exception"}},
		"unknown class":   {[]Exception{with(func(e *Exception) { e.Class = "names" })}, 4, []int{0}, []string{"unknown class"}},
		"consented name": {[]Exception{with(func(e *Exception) {
			e.Class, e.Match, e.Kind, e.Consent = Name, "Mrs Oxtallow", Consented, "held-locally"
		})}, 3, []int{1}, nil},
		"everything wrong": {[]Exception{{}}, 4, []int{0}, []string{"unknown class", "unknown place", "match", "count", "15 characters", "role", "year"}},
	} {
		left, used, problems := sc.Apply([]Text{text}, c.exceptions)
		if len(left) != c.left || !cmp.Equal(used, c.used) || len(problems) != len(c.problems) {
			t.Errorf("%s: left %d, used %v, problems %v", name, len(left), used, problems)
			continue
		}
		for i, p := range problems {
			if !strings.Contains(p.Message, c.problems[i]) || strings.Contains(p.Message, "Antmark") {
				t.Errorf("%s: problem %q, want %q", name, p.Message, c.problems[i])
			}
		}
	}
}

// TestNationalNumbersTakeNoException: a number whose check digit agrees cannot
// be called false.
func TestNationalNumbersTakeNoException(t *testing.T) {
	raw := "It says 943 476 5919, NHS number 999 012 3454, and NHS number 999 000 0019."
	e := good()
	e.Class, e.Match = NationalID, "943 476 5919"
	failing := good()
	failing.Class, failing.Match = NationalID, "999 000 0019"
	labelled := good()
	labelled.Class, labelled.Match = NationalID, "999 012 3454"
	left, used, _ := builtin().Apply([]Text{{Body, raw, Scan(Body, raw)}}, []Exception{e, failing, labelled})
	if len(left) != 2 || used[0] != 0 || used[1] != 1 || used[2] != 0 {
		t.Errorf("left %v, used %v", left, used)
	}
}

func TestMask(t *testing.T) {
	for text, want := range map[string]string{
		"Mrs Oxtallow": "Mrs O•••••••", "Oxtallow": "O•••••••", "999 012 3454": "••••••••", "g.oxtallow@example.org": "g••••••••", "": "", "Éa": "É•",
	} {
		if got := Mask(text); got != want {
			t.Errorf("Mask(%q) = %q, want %q", text, got, want)
		}
	}
	raw := "MRN: 4471902, seen by Mrs Oxtallow on 14 March 2021"
	for _, f := range Scan(Body, raw) {
		m := f.Message(raw, false)
		for _, secret := range []string{"4471902", "447", "Oxtallow", "14 March", "2021"} {
			if strings.Contains(m, secret) {
				t.Errorf("message tells %q: %s", secret, m)
			}
		}
		if !strings.Contains(f.Message(raw, true), raw[f.Start:f.End]) {
			t.Errorf("reveal hides: %s", f.Message(raw, true))
		}
	}
}
