package main

import (
	"caseleaf/builder"
	"caseleaf/content"
)

// courseDates is when courses are held. A bank never stores it: the same course
// is held again, and a date finer than a year would be a privacy finding.
type courseDates struct {
	CourseDate []string `sep:"none" placeholder:"COURSE=DATE" help:"When a course is held, such as wet-lab=2027-03-28, for calendars of its groups and tutors. Further waves after commas; a time zone after @, as in wet-lab=2027-03-28@Europe/London, else times are local to whoever reads. Stored nowhere but in the calendars."`
}

// of reads the dates and holds them to the courses of a bank.
func (c courseDates) of(bank *content.Bank) ([]builder.CourseDate, error) {
	var dates []builder.CourseDate
	for _, text := range c.CourseDate {
		d, err := builder.ParseCourseDate(text)
		if err != nil {
			return nil, failure{exitUse, err}
		}
		dates = append(dates, d)
	}
	if err := builder.CheckCourseDates(bank, dates); err != nil {
		return nil, failure{exitUse, err}
	}
	return dates, nil
}
