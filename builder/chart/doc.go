// Package chart makes the interactive layer: the options of a chart library, as
// data, from the rows that the page prints as figures and tables.
//
// A one-minute tour. What enters is a [Head] with words and rows of
// [caseleaf/builder/tally]; what leaves is a [Chart], an id with options in JSON.
// [Script] writes many of them as one classic script that assigns them to a
// global name and calls nothing. The page's own script (themes/charts) hands them
// to the library.
//
//	c, err := chart.Rates(head, rows)
//	data, err := chart.Script([]chart.Chart{c})
//
// The options are composed with go-echarts, but never rendered by it: its
// renderer writes titles unescaped, takes any text between two marks for code,
// and answers a number that is not one with an empty chart and no error. Here
// every chart goes through [seal], which writes plain JSON with "<" escaped, keeps
// such marks as the text they are, and names the chart whose number is not
// finite. Nothing in the options is a function: marks that the library cannot
// draw by itself are named (see [Interval]) and drawn by the page's script.
package chart
