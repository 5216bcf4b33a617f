package tally_test

import (
	"math"
	"strings"
)

// factFunctions are the published figures. Nothing of ours computes them; what
// can fail is that a figure contradicts itself: a percentage its own counts, an
// odds ratio its own interval.
var factFunctions = map[string]func(checkRow) answer{
	"fact": func(r checkRow) answer {
		a := answer{}
		for key, value := range r.expected {
			switch v := value.(type) {
			case float64:
				if v > 0 {
					a[key] = v
				}
			case []any: // estimate, low, high
				if len(v) == 3 && v[1].(float64) < v[0].(float64) && v[0].(float64) < v[2].(float64) {
					a[key] = v
				}
			}
		}
		for key := range r.expected {
			if !strings.HasSuffix(key, "percent") {
				continue
			}
			if share, ok := shareOf(r.expected, strings.Trim(strings.TrimSuffix(key, "percent"), "_")); ok {
				a[key] = share
			}
		}
		return a
	},
}

// shareOf computes a percentage from the row's own counts, to the decimals that
// the row prints; false where the row does not give both.
func shareOf(fact map[string]any, events string) (float64, bool) {
	size := 0.0
	for _, key := range []string{"operations", "n", "eyes"} {
		if v, ok := fact[key].(float64); ok {
			size = v
		}
	}
	count := 0.0
	for _, key := range []string{events, "pcr", "cases", "after_ivt"} {
		if v, ok := fact[key].(float64); ok {
			count = v
			break
		}
	}
	if size == 0 || count == 0 {
		return 0, false
	}
	printed := 0.0
	for _, key := range []string{"percent", events + "_percent"} {
		if v, ok := fact[key].(float64); ok {
			printed = v
		}
	}
	for scale := 1.0; scale <= 1e6; scale *= 10 {
		if math.Abs(math.Round(printed*scale)-printed*scale) < 1e-9 {
			return math.Round(100*count/size*scale) / scale, true
		}
	}
	return 0, false
}
