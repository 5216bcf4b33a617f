package measure_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"caseleaf/content/measure/measuretest"
)

// elsewhere lists the functions of the table that other packages compute. A name in
// neither list fails, so a new row cannot go untested unseen.
var elsewhere = strings.Fields(`
	bayes beta_posterior chisq_pearson clopper_pearson cusum_arl_lattice cusum_arl_llr cusum_llr_path
	cusum_llr_weights cusum_llr_weights_p1 dirichlet_mean evpi evpi_beta fact fisher_exact_2x2
	fisher_exact_rxc funnel_limits funnel_limits_degenerate funnel_limits_normal holm mh_odds_ratio
	mh_risk_difference mh_risk_ratio mh_tests newcombe_diff odds_ratio oe_path one_way pauker_kassirer
	quantile_all_types quantile_duration quantile_type7 rescale_branches risk_ratio rule_of_three
	strata_summary suppress suppress_attack suppress_attack_row treatment_threshold tree_rollback
	tukey_hinges wilson wilson_cc`)

func TestCheckValues(t *testing.T) {
	other := map[string]bool{}
	for _, name := range elsewhere {
		other[name] = true
	}
	tested := map[string]int{}
	for _, row := range readCheckValues(t) {
		id, function, inputs, expected, tolerance := row[0], row[1], row[2], row[3], row[4]
		got, ours, err := measuretest.Compute(function, []byte(inputs))
		if !ours {
			if !other[function] {
				t.Errorf("%s: function %q is in no list", id, function)
			}
			continue
		}
		tested[function]++
		if err != nil {
			t.Errorf("%s: %v", id, err)
			continue
		}
		compareRow(t, id, got, expected, tolerance)
	}
	for _, name := range measuretest.Functions() {
		if tested[name] == 0 {
			t.Errorf("function %q has no row", name)
		}
	}
}

// readCheckValues reads every table without its header.
func readCheckValues(t *testing.T) [][]string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/check-values/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no check values found: %v", err)
	}
	var rows [][]string
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		all, err := csv.NewReader(f).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		rows = append(rows, all[1:]...)
	}
	return rows
}

// compareRow compares every expected key at the row's tolerance.
func compareRow(t *testing.T, id string, got measuretest.Results, expected, tolerance string) {
	t.Helper()
	var want map[string]any
	if err := json.Unmarshal([]byte(expected), &want); err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	for key, w := range want {
		g, ok := got[key]
		if !ok {
			t.Errorf("%s: no result %q", id, key)
			continue
		}
		if !equal(g, w, tolerance) {
			t.Errorf("%s: %s = %v, want %v (%s)", id, key, g, w, tolerance)
		}
	}
}

// equal compares one result with its expected JSON value.
func equal(got, want any, tolerance string) bool {
	switch w := want.(type) {
	case nil:
		return got == nil
	case float64:
		g, ok := got.(float64)
		return ok && within(g, w, tolerance)
	case []any:
		g, ok := got.([]float64)
		if !ok || len(g) != len(w) {
			return false
		}
		for i := range w {
			if !equal(g[i], w[i], tolerance) {
				return false
			}
		}
		return true
	}
	return got == want
}

// printed is half a unit in the twelfth significant digit, to which the table is rounded:
// 1002.37446725 stands for 1002.3744672545.
const printed = 5e-12

// within applies "abs:1e-9", "rel:1e-9" or "exact".
func within(got, want float64, tolerance string) bool {
	kind, limit, _ := strings.Cut(tolerance, ":")
	bound, err := strconv.ParseFloat(limit, 64)
	switch {
	case kind == "abs" && err == nil:
		return math.Abs(got-want) <= bound+printed*math.Abs(want)
	case kind == "rel" && err == nil:
		return math.Abs(got-want) <= bound*math.Abs(want)
	}
	return got == want
}
