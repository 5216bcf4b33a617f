package builder_test

import (
	"testing"

	"caseleaf/builder"
	"caseleaf/content"
)

// A bank whose every text attacks its page is laid out as html/template would.
func TestHostileBankIsLaidAlike(t *testing.T) {
	files, _ := hostileBank()
	bank, _, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	builder.LaidAlike(t, builder.Plan(bank, builder.Options{BankFiles: files}))
}
