package tally_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"math/big"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// checkRow is one row of a check-values file.
type checkRow struct {
	id, function, tolerance, source string
	inputs, expected                map[string]any
	rawInputs                       string
	trees                           map[string]any // the file's trees, by the id of their rows
}

// answer is what a function gave, by the keys of the row's expected result.
type answer map[string]any

// functions hands a row to the function that computes it. The groups live in
// checkstat_test.go, checkdecide_test.go and checkmeasure_test.go.
func functions() map[string]func(checkRow) answer {
	all := map[string]func(checkRow) answer{}
	for _, group := range []map[string]func(checkRow) answer{
		statFunctions, decideFunctions, measureFunctions(), suppressFunctions, factFunctions,
	} {
		maps.Copy(all, group)
	}
	return all
}

// TestCheckValues computes every row of every file of testdata/check-values and
// compares it at the row's own tolerance. A function name that nobody computes
// fails, so that a new row cannot pass by being overlooked.
func TestCheckValues(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "check-values", "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no check-values files: %v", err)
	}
	known := functions()
	for _, file := range files {
		rows := readCheckRows(t, file)
		trees := treesOf(rows)
		for _, row := range rows {
			t.Run(row.id, func(t *testing.T) {
				compute, ok := known[row.function]
				if !ok {
					t.Fatalf("no function %q", row.function)
				}
				row.trees = trees
				got := compute(row)
				for key, want := range row.expected {
					if want == nil && strings.HasSuffix(key, "_exact") {
						continue // a rational too long to be written out
					}
					have, ok := got[strings.TrimSuffix(key, "_exact")]
					if exact, has := got[key]; has {
						have, ok = exact, true
					}
					if !ok {
						t.Errorf("%s: %s is not computed", row.function, key)
						continue
					}
					if err := agree(want, have, row.toleranceOf(key)); err != nil {
						t.Errorf("%s %v: %s: %v (%s)", row.function, row.inputs, key, err, row.source)
					}
				}
			})
		}
	}
}

// readCheckRows reads one file; a row that is not of the agreed form is fatal.
func readCheckRows(t *testing.T, file string) []checkRow {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	column := map[string]int{}
	for i, name := range records[0] {
		column[name] = i
	}
	var rows []checkRow
	for _, r := range records[1:] {
		row := checkRow{
			id: r[column["id"]], function: r[column["function"]],
			tolerance: r[column["tolerance"]], source: r[column["source"]], rawInputs: r[column["inputs"]],
		}
		for _, part := range []struct {
			text string
			into *map[string]any
		}{{r[column["inputs"]], &row.inputs}, {r[column["expected"]], &row.expected}} {
			if err := json.Unmarshal([]byte(part.text), part.into); err != nil {
				t.Fatalf("%s: %s: %v", file, row.id, err)
			}
		}
		if row.inputs == nil {
			row.inputs = map[string]any{}
		}
		rows = append(rows, row)
	}
	return rows
}

// toleranceOf is the row's tolerance; an exact rational is compared as a number
// at the tightest tolerance that a chain of float64 operations can promise.
func (r checkRow) toleranceOf(key string) string {
	if strings.HasSuffix(key, "_exact") && r.tolerance != "exact" {
		return "rel:1e-9"
	}
	return r.tolerance
}

// agree compares what a row wants with what was computed.
func agree(want, got any, tolerance string) error {
	switch w := want.(type) {
	case nil:
		if g, ok := number(got); got == nil || ok && math.IsNaN(g) {
			return nil
		}
	case []any:
		g := list(got)
		if g == nil || len(g) != len(w) {
			return fmt.Errorf("want %v, got %v", want, got)
		}
		for i := range w {
			if err := agree(w[i], g[i], tolerance); err != nil {
				return fmt.Errorf("[%d]: %w", i, err)
			}
		}
		return nil
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok || len(g) != len(w) {
			return fmt.Errorf("want %v, got %v", want, got)
		}
		for k := range w {
			if err := agree(w[k], g[k], tolerance); err != nil {
				return fmt.Errorf("%s: %w", k, err)
			}
		}
		return nil
	case string:
		if s, ok := got.(string); ok && s == w {
			return nil
		}
		if wanted, ok := numberText(w); ok {
			if g, ok := number(got); ok && within(wanted, g, tolerance) {
				return nil
			}
		}
	case float64:
		if g, ok := number(got); ok && within(w, g, tolerance) {
			return nil
		}
	default:
		if want == got {
			return nil
		}
	}
	return fmt.Errorf("want %v, got %v (%s)", want, got, tolerance)
}

// within applies a tolerance; a NaN agrees with nothing. The reference is written
// with 12 significant digits, so half a unit of the twelfth is never held against
// a result (it matters where abs:1e-9 meets a number above 100).
func within(want, got float64, tolerance string) bool {
	if want == got {
		return true
	}
	kind, text, _ := strings.Cut(tolerance, ":")
	limit, err := strconv.ParseFloat(text, 64)
	gap := math.Abs(want - got)
	switch {
	case err != nil || math.IsInf(want, 0):
		return false
	case kind == "abs":
		return gap <= math.Max(limit, halfUnit(want))
	case kind == "rel":
		return gap <= limit*math.Abs(want)
	}
	return false
}

// halfUnit is half a unit of the twelfth significant digit.
func halfUnit(v float64) float64 {
	if v == 0 {
		return 0
	}
	return 0.5 * math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-11)
}

// number reads whatever stands for a number in an answer.
func number(v any) (float64, bool) {
	switch v := v.(type) {
	case float64:
		return v, true
	case int:
		return float64(v), true
	case *big.Rat:
		f, _ := v.Float64()
		return f, true
	}
	return 0, false
}

// numberText reads "inf", and an exact rational such as "22/59".
func numberText(s string) (float64, bool) {
	switch s {
	case "inf":
		return math.Inf(1), true
	case "-inf":
		return math.Inf(-1), true
	}
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		return 0, false
	}
	f, _ := r.Float64()
	return f, true
}

// list turns any slice of an answer into a []any.
func list(v any) []any {
	var out []any
	switch v := v.(type) {
	case []any:
		return v
	case []float64:
		for _, x := range v {
			out = append(out, x)
		}
	case []int:
		for _, x := range v {
			out = append(out, x)
		}
	case []string:
		for _, x := range v {
			out = append(out, x)
		}
	case []*big.Rat:
		for _, x := range v {
			out = append(out, x)
		}
	default:
		return nil
	}
	if out == nil {
		out = []any{}
	}
	return out
}

// real is an input that is a number, or a rational or decimal as text.
func (r checkRow) real(key string) float64 { return r.realOr(key, math.NaN()) }

// realOr is real with the value of an input that the row does not give.
func (r checkRow) realOr(key string, otherwise float64) float64 {
	switch v := r.inputs[key].(type) {
	case float64:
		return v
	case string:
		if f, ok := numberText(v); ok {
			return f
		}
	}
	return otherwise
}

// level is the row's confidence, 0.95 where it names none.
func (r checkRow) level() float64 { return r.realOr("conf", 0.95) }

// whole is an input that is a whole number.
func (r checkRow) whole(key string) int { return int(r.real(key)) }

// text is an input that is a word.
func (r checkRow) text(key string) string { s, _ := r.inputs[key].(string); return s }

// flag is an input that is true or false.
func (r checkRow) flag(key string) bool { b, _ := r.inputs[key].(bool); return b }

// reals is an input list of numbers; a single number is a list of one.
func (r checkRow) reals(key string) []float64 {
	v, ok := r.inputs[key].([]any)
	if !ok {
		return []float64{r.real(key)}
	}
	out := []float64{}
	for _, x := range v {
		switch x := x.(type) {
		case float64:
			out = append(out, x)
		case bool: // an event that came or did not
			out = append(out, map[bool]float64{true: 1}[x])
		case string:
			f, _ := numberText(x)
			out = append(out, f)
		default:
			out = append(out, math.NaN())
		}
	}
	return out
}

// texts is an input list of words.
func (r checkRow) texts(key string) []string {
	var out []string
	v, _ := r.inputs[key].([]any)
	for _, x := range v {
		s, ok := x.(string)
		if !ok {
			s = fmt.Sprint(x)
		}
		out = append(out, s)
	}
	return out
}

// wholes is an input list of whole numbers, counts an input table of them.
func (r checkRow) wholes(key string) []int { return wholesOf(r.inputs[key]) }

func wholesOf(v any) []int {
	var out []int
	l, _ := v.([]any)
	for _, x := range l {
		f, _ := x.(float64)
		out = append(out, int(f))
	}
	return out
}

func (r checkRow) counts(key string) [][]int {
	var out [][]int
	l, _ := r.inputs[key].([]any)
	for _, row := range l {
		out = append(out, wholesOf(row))
	}
	return out
}
