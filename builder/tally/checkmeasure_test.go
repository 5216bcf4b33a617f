package tally_test

import "caseleaf/content/measure/measuretest"

// measureFunctions are the rows that content/measure computes (acuity, clock
// hours, overlap, ultrasound, lens grades), by its own adapter.
func measureFunctions() map[string]func(checkRow) answer {
	all := map[string]func(checkRow) answer{}
	for _, name := range measuretest.Functions() {
		all[name] = func(r checkRow) answer {
			got, _, err := measuretest.Compute(name, []byte(r.rawInputs))
			if err != nil {
				return answer{"error": err.Error()}
			}
			a := answer{}
			for k, v := range got {
				a[k] = v
			}
			return a
		}
	}
	return all
}
