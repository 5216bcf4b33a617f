package sheet

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

var (
	isoDate   = regexp.MustCompile(`^(\d{4})-(\d{1,2})(?:-(\d{1,2}))?(?:[T ]\d{1,2}:\d{2}(?::\d{2})?)?$`)
	numbers   = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})[./-](\d{4})(?: \d{1,2}:\d{2}(?::\d{2})?)?$`)
	shortYear = regexp.MustCompile(`^\d{1,2}[./-]\d{1,2}[./-]\d{2}$`)
	bareYear  = regexp.MustCompile(`^(\d{4})(?:-?[Qq]([1-4]))?$`)
)

var errDate = errors.New("expected a date such as 2026-03-05 or 05.03.2026")

// Quarter coarsens a date to its quarter, such as 2026-Q1; nothing finer leaves
// it. It reads 2026-03-05, 2026-03, European dates with full stops, day first
// (05.03.2026), and dates with slashes where both ways of reading them fall into
// the same quarter or only one is a date. A year, or a quarter, stays as it is.
func Quarter(date string) (string, error) {
	date = strings.TrimSpace(date)
	if m := bareYear.FindStringSubmatch(date); m != nil {
		if m[2] == "" {
			return m[1], nil
		}
		return m[1] + "-Q" + m[2], nil
	}
	if m := isoDate.FindStringSubmatch(date); m != nil {
		day := m[3]
		if day == "" {
			day = "1"
		}
		return quarter(m[1], m[2], day)
	}
	if m := numbers.FindStringSubmatch(date); m != nil {
		return numbersQuarter(m[1], m[3], m[4], m[2] == ".")
	}
	switch {
	case shortYear.MatchString(date):
		return "", fmt.Errorf("the year of this date has two digits; write it with four, such as 2026-03-05")
	case serialForm.MatchString(date):
		return "", fmt.Errorf("a spreadsheet has probably turned this date into a number (%s); set the column to a date such as 2026-03-05 and write the file again", date)
	}
	if words := Damage(date); words != "" {
		return "", errors.New(words)
	}
	return "", errDate
}

// numbersQuarter reads a date of two small numbers and a year. With full stops
// the day comes first, as all who write so mean it; else both orders are tried.
func numbersQuarter(first, second, year string, dayFirst bool) (string, error) {
	day, err := quarter(year, second, first)
	if dayFirst {
		return day, err
	}
	month, other := quarter(year, first, second)
	switch {
	case err != nil && other != nil:
		return "", errDate
	case err != nil:
		return month, nil
	case other != nil || day == month:
		return day, nil
	}
	return "", fmt.Errorf("day or month first? %s and %s fall into different quarters; write the date as 2026-03-05", first, second)
}

// quarter gives the quarter of a date, which must be one of the calendar.
func quarter(year, month, day string) (string, error) {
	y, _ := strconv.Atoi(year)
	m, _ := strconv.Atoi(month)
	d, _ := strconv.Atoi(day)
	if m < 1 || m > 12 || d < 1 || d > daysIn(m, y) {
		return "", errDate
	}
	return fmt.Sprintf("%s-Q%d", year, (m+2)/3), nil
}

func daysIn(month, year int) int {
	switch month {
	case 2:
		if year%4 == 0 && year%100 != 0 || year%400 == 0 {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}
