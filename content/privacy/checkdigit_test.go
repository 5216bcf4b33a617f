package privacy

import "testing"

// TestCheckDigits uses published test numbers; where they are from stands
// beside each. None belongs to a person.
func TestCheckDigits(t *testing.T) {
	for _, c := range []struct {
		name   string
		valid  func(string) bool
		number string
		want   bool
		source string
	}{
		{"NHS", nhsValid, "9434765919", true, "privacy reference S7: worked example of the NHS number validation page"},
		{"NHS", nhsValid, "9990000018", true, "privacy reference S8: test range 999 000 0000 to 999 999 9999"},
		{"NHS", nhsValid, "9990123454", true, "privacy reference S8"},
		{"NHS", nhsValid, "9990000019", false, "privacy reference S8: one digit changed"},
		{"NHS", nhsValid, "99900001", false, "too short"},
		{"Aadhaar", aadhaarValid, "999941057058", true, "privacy reference S11: test number of the issuing authority"},
		{"Aadhaar", aadhaarValid, "999904172036", true, "privacy reference, section 5"},
		{"Aadhaar", aadhaarValid, "999904172038", false, "privacy reference, section 5"},
		{"Verhoeff", verhoeffValid, "2363", true, "Verhoeff's own example: check digit of 236 is 3"},
		{"Verhoeff", verhoeffValid, "2364", false, "the same, wrong digit"},
		{"card", cardValid, "4111111111111111", true, "card schemes' test number, widely published"},
		{"card", cardValid, "5555555555554444", true, "card schemes' test number, widely published"},
		{"card", cardValid, "378282246310005", true, "card schemes' test number, widely published"},
		{"card", cardValid, "4111111111111112", false, "one digit changed"},
		{"Luhn", luhnValid, "490154203237518", true, "privacy reference S13: the IMEI of the check-digit example"},
		{"IBAN", ibanValid, "GB33BUKB20201555555555", true, "the example IBAN of the United Kingdom, from memory"},
		{"IBAN", ibanValid, "DE89370400440532013000", true, "the example IBAN of Germany in the IBAN registry, from memory"},
		{"IBAN", ibanValid, "GB33BUKB20201555555556", false, "one digit changed"},
		{"MBI", mbiShape, "1EG4TE5MK73", true, "privacy reference S14: the specimen card"},
		{"MBI", mbiShape, "1SG4TE5MK73", false, "S is never used"},
		{"DNI", dniValid, "12345678Z", true, "the specimen number, from memory"},
		{"DNI", dniValid, "12345678A", false, "wrong letter"},
		{"NIE", dniValid, "X1234567L", true, "the specimen number, from memory"},
		{"PPS", ppsValid, "1234567T", true, "worked example of the Irish revenue, from memory"},
		{"PPS", ppsValid, "1234567FA", true, "worked example with a second letter, from memory"},
		{"PPS", ppsValid, "1234567A", false, "wrong letter"},
		{"SIN", sinValid, "046454286", false, "the classic specimen begins with 0, which is not issued"},
		{"SIN", sinValid, "130692544", true, "made for this test by Luhn's rule"},
		{"personnummer", personnummerValid, "8112189876", true, "the specimen of the Swedish tax agency, from memory"},
		{"personnummer", personnummerValid, "8112189875", false, "one digit changed"},
		{"CPF", cpfValid, "11144477735", true, "the specimen used in worked examples, from memory"},
		{"CPF", cpfValid, "11144477734", false, "one digit changed"},
		{"NINO", ninoShape, "QQ123456C", true, "the specimen of the British tax office, from memory"},
		{"NINO", ninoShape, "DQ123456C", false, "D is never first"},
		{"NIR", nirValid, "255081416802538", true, "specimen of the French statistical office, from memory"},
		{"NIR", nirValid, "255081416802539", false, "one digit changed"},
		{"codice fiscale", codiceShape, "RSSMRA85T10A562S", true, "the specimen used in worked examples, from memory"},
	} {
		if got := c.valid(c.number); got != c.want {
			t.Errorf("%s %s: %v, want %v (%s)", c.name, c.number, got, c.want, c.source)
		}
	}
	if !ssnValid(78, 5, 1120) || ssnValid(666, 12, 3456) || ssnValid(987, 65, 4321) || ssnValid(123, 0, 1) || ssnValid(0, 1, 1) {
		t.Error("ssnValid: 078-05-1120 is well formed; areas 000, 666 and 900 up and zero groups are not (privacy reference S12)")
	}
}

// TestPostcodes: valid and invalid forms of the privacy reference, S15.
func TestPostcodes(t *testing.T) {
	for code, want := range map[string]bool{"LN99 9ZZ": true, "EC1A 1BB": true, "M1 1AE": true, "W1A 0AX": true, "GIR 0AA": true, "ZZ99 3WZ": true, "LN99 9CZ": false, "NO4 NC4": false, "AC4 1C2": false, "QX1 1AA": false} {
		out, in, _ := cut(code)
		if got := postOut(out) && postIn(in); got != want {
			t.Errorf("%s: %v, want %v", code, got, want)
		}
	}
}

func cut(code string) (string, string, bool) {
	for i := range code {
		if code[i] == ' ' {
			return code[:i], code[i+1:], true
		}
	}
	return code, "", false
}
