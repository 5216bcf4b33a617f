package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

var (
	pointForm = regexp.MustCompile(`^[+-]?\d+(\.\d+)?$`)
	commaForm = regexp.MustCompile(`^[+-]?\d+,\d+$`)
	clockForm = regexp.MustCompile(`^(\d{1,3}):([0-5]\d):([0-5]\d)$`)
)

// Number reads a number of this table: 22.5, -0.50, and 22,5 where the file
// writes decimals with a comma. A true minus sign is read as a hyphen is.
func (r *Reader) Number(cell string) (float64, error) {
	cell = strings.ReplaceAll(strings.TrimSpace(cell), "−", "-")
	switch {
	case commaForm.MatchString(cell) && r.options.DecimalComma:
		cell = strings.Replace(cell, ",", ".", 1)
	case commaForm.MatchString(cell):
		return 0, fmt.Errorf("%s has a decimal comma, but this file writes decimals with a point", cell)
	case !pointForm.MatchString(cell):
		if words := Damage(cell); words != "" {
			return 0, fmt.Errorf("%s", words)
		}
		return 0, fmt.Errorf("expected a number such as 22.5, found %q", cell)
	case r.options.DecimalComma && strings.Contains(cell, "."):
		return 0, fmt.Errorf("%s has a decimal point, but this file writes decimals with a comma", cell)
	}
	return strconv.ParseFloat(cell, 64)
}

// Minutes reads a duration in minutes: a number, or the h:mm:ss that a
// spreadsheet makes of one (00:24:00 is 24 minutes).
func (r *Reader) Minutes(cell string) (float64, error) {
	m := clockForm.FindStringSubmatch(strings.TrimSpace(cell))
	if m == nil {
		return r.Number(cell)
	}
	hours, _ := strconv.Atoi(m[1])
	minutes, _ := strconv.Atoi(m[2])
	seconds, _ := strconv.Atoi(m[3])
	return float64(hours*60+minutes) + float64(seconds)/60, nil
}

// Decimal returns the text of cell i with a decimal comma turned into a point
// where this file writes decimals with a comma and the cell is wholly a number;
// any other cell as it is. It is for values that are read as text, such as
// an acuity of 0,5.
func (w Row) Decimal(i int) string {
	cell := w.Cell(i)
	if w.reader.options.DecimalComma && commaForm.MatchString(cell) {
		return strings.Replace(cell, ",", ".", 1)
	}
	return cell
}
