package privacy

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What identifies somebody in Arabic is found, with its class. The sentences are
// invented; there is no published list to test against.
func TestArabicIdentifiers(t *testing.T) {
	for text, want := range map[string]Class{
		"أُجريت العملية في 14 مارس 2021 صباحًا.":          Date,
		"أُجريت في ١٤ من شهر مارس.":                       Date,
		"كانت في مارس 2021 أول مرة.":                      Date,
		"عادت في كانون الثاني ٢٠٢٠ للمتابعة.":             Date,
		"وُلد في 3 ربيع الأول 1380 هـ.":                   Date,
		"حضرت في 5 رمضان 1442 بعد العملية.":               Date,
		"أحال المريضة الدكتور خالد إلى القائمة.":          Name,
		"شكرنا السيدة فاطمة على صبرها.":                   Name,
		"قال أحمد إن الرؤية تحسنت.":                       Name,
		"وسألنا زوجته سميرة عن الدواء.":                   Name,
		"نُقل المريض من مستشفى الزهراء في المساء.":        Facility,
		"جاء من قرية الطيبة مع ابنه.":                     Geo,
		"كان عمره في ابريل 2019 سبعين سنة.":               Date,
		"رقم الهاتف كما كتبه المريض: ٠١٦٣٢ ٩٦٠١٢٣ للسؤال": Phone,
	} {
		found := Scan(Body, text)
		if len(found) == 0 || found[0].Class != want {
			t.Errorf("%q: %v, want %s", text, found, want)
		}
	}
}

// What only looks like it stays silent: the words of the trade, of a teaching text,
// and names that are words.
func TestArabicLookAlikes(t *testing.T) {
	for _, text := range []string{
		"بقيت المحفظة سالمة وكان النور كافيًا.",
		"لاحظ الدكتور تموّج القزحية قبل غيره.",
		"الدكتور المقيم هو من أمسك الأدوات.",
		"نُقلت إلى مستشفى تعليمي في اليوم نفسه.",
		"في مستشفى العيون لا يُسأل عن الدواء دائمًا.",
		"الأمل في رؤية أفضل لا يكفي وحده.",
		"كان الضغط صفر تقريبًا، ثم ارتفع إلى 18 mmHg.",
		"جاءت من قرية بعيدة، فتأخرت المتابعة.",
		"في الربيع والصيف تكثر الحساسية.",
		"عند 2.4 mm من الحوف، على الساعة 10، وبعد 3 دقائق.",
		"هذا محرم في كل بروتوكول نعرفه.",
		"فيصل الضغط إلى 30 mmHg، وهذه طريقة آمنة بحركة لطيفة.",
		"المحفظة والقرنية سليمان، وأسماء الأدوات في القائمة باسم الوحدة.",
		"حسن سير العملية لا يعني حسن النتيجة.",
	} {
		if found := Scan(Body, text); len(found) > 0 {
			t.Errorf("%q: %v", text, found)
		}
	}
}

// A whole bank in Arabic, names of interface and all, raises no alarm.
func TestArabicBankIsSilent(t *testing.T) {
	files, err := filepath.Glob("../../testdata/arabic/*/*.md")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		_, story, _ := strings.Cut(strings.TrimPrefix(string(data), "---\n"), "\n---\n")
		for _, f := range Scan(Body, story) {
			t.Errorf("%s: %s %q", file, f.Class, story[f.Start:f.End])
		}
	}
}
