package term

import (
	_ "embed" // the three tables below
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed cataract.csv
var cataractCSV string

//go:embed order.csv
var orderCSV string

//go:embed watch.csv
var watchCSV string

// Cataract returns the built-in vocabulary of cataract surgery with its watch
// table and step orders. It is decoded once; every call returns the same value.
func Cataract() *Vocabulary { return cataract() }

// Empty returns a vocabulary without terms, the ground for another specialty.
func Empty() *Vocabulary { return empty() }

var empty = sync.OnceValue(func() *Vocabulary { return build(nil, nil, nil) })

// The tables are compiled in and covered by tests, so a fault in them cannot
// reach a user; an unreadable table would show as an empty vocabulary.
var cataract = sync.OnceValue(func() *Vocabulary {
	terms, err := decodeTerms(cataractCSV)
	if err != nil {
		return build(nil, nil, nil)
	}
	order, _ := decodeOrder(orderCSV)
	watch, _ := decodeWatch(watchCSV)
	return build(terms, order, watch)
})

// decodeRows reads a CSV whose first row must be exactly header.
func decodeRows(text string, header ...string) ([][]string, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = len(header)
	rows, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != strings.Join(header, ",") {
		return nil, fmt.Errorf("want the header %s", strings.Join(header, ","))
	}
	return rows[1:], nil
}

func decodeTerms(text string) ([]Term, error) {
	rows, err := decodeRows(text, "id", "kind", "label", "synonyms", "abbreviation",
		"mishearings", "parent", "definition", "steps")
	if err != nil {
		return nil, fmt.Errorf("cataract.csv: %w", err)
	}
	terms := make([]Term, len(rows))
	for i, r := range rows {
		terms[i] = Term{
			ID: r[0], Kind: Kind(r[1]), Label: r[2], Synonyms: list(r[3]), Abbreviation: r[4],
			Mishearings: list(r[5]), Parent: r[6], Definition: r[7], Steps: list(r[8]),
		}
	}
	return terms, nil
}

func decodeOrder(text string) ([]orderRow, error) {
	rows, err := decodeRows(text, "procedure", "step", "experienced_min", "experienced_max",
		"trainee_min", "trainee_max", "use")
	if err != nil {
		return nil, fmt.Errorf("order.csv: %w", err)
	}
	var order []orderRow
	for i, r := range rows {
		row := orderRow{procedure: r[0], step: r[1], use: r[6]}
		if r[2] != "" {
			var n [4]int
			for k := range n {
				if n[k], err = strconv.Atoi(r[2+k]); err != nil {
					return nil, fmt.Errorf("order.csv: row %d: %w", i+2, err)
				}
			}
			row.timed = true
			row.time = Range{Experienced: Span{n[0], n[1]}, Trainee: Span{n[2], n[3]}}
		}
		order = append(order, row)
	}
	return order, nil
}

func decodeWatch(text string) ([]WatchRow, error) {
	rows, err := decodeRows(text, "step", "complication", "first_sign", "mis_step",
		"first_move", "prevention", "ready")
	if err != nil {
		return nil, fmt.Errorf("watch.csv: %w", err)
	}
	watch := make([]WatchRow, len(rows))
	for i, r := range rows {
		watch[i] = WatchRow{r[0], r[1], r[2], r[3], r[4], r[5], r[6]}
	}
	return watch, nil
}

// list splits a cell at its bars.
func list(cell string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, "|")
}
