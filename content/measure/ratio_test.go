package measure_test

import (
	"testing"

	"caseleaf/content/measure"
)

// Strengths by definition: 1 % is 10 mg/mL, 1:1000 is 1 mg/mL, "1 in 4000" is
// 0.25 mg/mL and 0.025 % (trade reference, concentrations).
func TestTimes(t *testing.T) {
	for _, c := range []struct{ a, b, want string }{
		{"1 %", "10 mg/mL", "1/1"},
		{"1:1000", "1 mg/mL", "1/1"},
		{"1:4000", "0.025 %", "1/1"},
		{"1:4000", "0.25 mg/mL", "1/1"},
		{"0.4 %", "0.06 %", "20/3"},
		{"40 mg/mL", "4 mg/mL", "10/1"},
		{"1:1000", "1:10000", "10/1"},
		{"1 mg/0.1 mL", "1 %", "1/1"},
		{"1500 IU/mL", "15 IU/0.1 mL", "10/1"},
		{"1500 IU/mL", "1 mg/mL", ""},
		{"1 mg", "1 mg/mL", ""},
		{"0 %", "1 %", ""},
	} {
		a, err := measure.ParseConcentration(c.a)
		if err != nil {
			t.Fatal(err)
		}
		b, err := measure.ParseConcentration(c.b)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		if r, ok := a.Times(b); ok {
			got = r.String()
		}
		if got != c.want {
			t.Errorf("%s is %q times %s, want %q", c.a, got, c.b, c.want)
		}
	}
}
