package privacy_test

import (
	"fmt"

	"caseleaf/content/privacy"
)

func ExampleScan() {
	text := "Mrs Oxtallow was listed on 14 March 2021; a 12/10 mm ring was ready at 10:32."
	for _, f := range privacy.Scan(privacy.Body, text) {
		fmt.Println(f.Message(text, false))
	}
	// Output:
	// Mrs O••••••• (name, rule name.honorific): looks like a person's name. Write 'the patient', 'a relative', 'the surgeon'.
	// •••••••• (date, rule date.named): looks like a date more exact than a year. Use the year, or time since surgery ('day 1').
}

func ExampleClean() {
	_, _, err := privacy.Clean("images/report.pdf", []byte("%PDF-1.7"))
	fmt.Println(err)
	// Output: images/report.pdf: not published: a PDF; export the page as PNG and look at it
}
