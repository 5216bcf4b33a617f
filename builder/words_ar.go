package builder

import (
	"strings"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/message/catalog"
)

// This file and its sisters, words_ar_*.go, are the interface in Modern Standard Arabic, in
// the register of medical teaching. Three things are not in them, on purpose: the names of
// terms are the vocabulary's (a bank gives them in its terms.yaml, in the language it likes),
// the abbreviations that a chart is read by (CF, HM, logMAR, n) stay as they are written in
// theatre, and what machines read stays English: the headers of CSV files, the keys of the
// front matter and the words of the terminal, which authors look up and search for.
//
// Numbers are in the digits 0 to 9, as are the times, the measures and the strengths that
// authors copy from a screen or a label: one page never shows two sets of digits.

// arabicNoun is a noun in the forms that CLDR tells apart for Arabic: one, two, few (3 to 10),
// many (11 to 99) and other (100 and what ends in it). None and other share a form: the
// genitive singular.
type arabicNoun struct{ one, two, few, many, other string }

// in is a phrase with {} where the counted noun stands.
func (n arabicNoun) in(pattern string) catalog.Message {
	return arabicForms(n.put(pattern, "%[1]d "+n.other), n.put(pattern, n.one), n.put(pattern, n.two),
		n.put(pattern, "%[1]d "+n.few), n.put(pattern, "%[1]d "+n.many), n.put(pattern, "%[1]d "+n.other))
}

func (n arabicNoun) put(pattern, form string) string { return strings.ReplaceAll(pattern, "{}", form) }

// alone is the noun without its number, which stands beside it.
func (n arabicNoun) alone() catalog.Message {
	return arabicForms(n.other, n.other, n.other, n.few, n.many, n.other)
}

// arabicForms is a phrase whose first argument is a number, in the six forms of Arabic.
func arabicForms(zero, one, two, few, many, other string) catalog.Message {
	return plural.Selectf(1, "%d", plural.Zero, zero, plural.One, one, plural.Two, two,
		plural.Few, few, plural.Many, many, plural.Other, other)
}

// oneOrMore is a phrase that depends on whether there is one and shows no number.
func oneOrMore(one, more string) catalog.Message {
	return arabicForms(more, one, more, more, more, more)
}

// The nouns that phrases count; the second of a pair is for where a verb or a preposition
// governs it.
var (
	arCase        = arabicNoun{"حالة واحدة", "حالتان", "حالات", "حالة", "حالة"}
	arCaseOf      = arabicNoun{"حالة واحدة", "حالتين", "حالات", "حالة", "حالة"}
	arEvent       = arabicNoun{"حدث واحد", "حدثان", "أحداث", "حدثًا", "حدث"}
	arEventOf     = arabicNoun{"حدث واحد", "حدثين", "أحداث", "حدثًا", "حدث"}
	arTime        = arabicNoun{"مرة واحدة", "مرتين", "مرات", "مرة", "مرة"}
	arPoint       = arabicNoun{"نقطة قرار واحدة", "نقطتا قرار", "نقاط قرار", "نقطة قرار", "نقطة قرار"}
	arStep        = arabicNoun{"خطوة واحدة", "خطوتان", "خطوات", "خطوة", "خطوة"}
	arFinding     = arabicNoun{"علامة واحدة", "علامتان", "علامات", "علامة", "علامة"}
	arGroup       = arabicNoun{"مجموعة واحدة", "مجموعتان", "مجموعات", "مجموعة", "مجموعة"}
	arOption      = arabicNoun{"خيار واحد", "خياران", "خيارات", "خيارًا", "خيار"}
	arOperation   = arabicNoun{"عملية واحدة", "عمليتان", "عمليات", "عملية", "عملية"}
	arCard        = arabicNoun{"بطاقة واحدة", "بطاقتان", "بطاقات", "بطاقة", "بطاقة"}
	arQuestion    = arabicNoun{"سؤال واحد", "سؤالان", "أسئلة", "سؤالًا", "سؤال"}
	arRow         = arabicNoun{"سطر واحد", "سطران", "أسطر", "سطرًا", "سطر"}
	arEye         = arabicNoun{"عين واحدة", "عينان", "عيون", "عينًا", "عين"}
	arEyeOf       = arabicNoun{"عين واحدة", "عينين", "عيون", "عينًا", "عين"}
	arStation     = arabicNoun{"محطة واحدة", "محطتان", "محطات", "محطة", "محطة"}
	arRound       = arabicNoun{"جولة واحدة", "جولتان", "جولات", "جولة", "جولة"}
	arRoundOf     = arabicNoun{"جولة واحدة", "جولتين", "جولات", "جولة", "جولة"}
	arParticipant = arabicNoun{"مشارك واحد", "مشاركان", "مشاركين", "مشاركًا", "مشارك"}
	arProbability = arabicNoun{"احتمال واحد", "احتمالان", "احتمالات", "احتمالًا", "احتمال"}
	arFigure      = arabicNoun{"شكل واحد", "شكلان", "أشكال", "شكلًا", "شكل"}
	arNumber      = arabicNoun{"عدد واحد", "عددين", "أعداد", "عددًا", "عدد"}
	arStretch     = arabicNoun{"مقطع زمني واحد", "مقطعان زمنيان", "مقاطع زمنية", "مقطعًا زمنيًا", "مقطع زمني"}
	arStretchOf   = arabicNoun{"مقطع زمني واحد", "مقطعين زمنيين", "مقاطع زمنية", "مقطعًا زمنيًا", "مقطع زمني"}
)

// arabic is the interface in Arabic: what [english] is in English.
var arabic = phrases{
	// Every page.
	"skip":           said("انتقل إلى النص"),
	"invented":       said("جميع الحالات والبيانات في هذه الملزمة مختلَقة، ولم يراجعها طبيب مرخَّص"),
	"unreleased":     said("تعرض هذه النسخة حالات لم يُجَز نشرها بعد. لا تمرّرها إلى أحد."),
	"protocol":       said("للتعليم فقط. تُقدَّم البروتوكولات المحلية ونشرة المنتج وصيدلية المستشفى والممارسة المرخَّصة على كل جرعة أو تركيز أو عتبة أو تعليمة هنا."),
	"edition-of":     said("الطبعة %[1]s"),
	"menu":           said("أقسام الملزمة"),
	"trail":          said("موضع هذه الصفحة"),
	"turn":           said("الصفحتان المجاورتان"),
	"previous":       said("ما قبلها"),
	"next":           said("ما بعدها"),
	"start":          said("البداية"),
	"list-comma":     said("، "),
	"list-semicolon": said("؛ "),

	"cases":         said("الحالات"),
	"steps":         said("الخطوات"),
	"complications": said("المضاعفات"),
	"techniques":    said("التقنيات"),
	"decisions":     said("القرارات"),
	"risks":         said("عوامل الخطورة"),
	"courses":       said("الدورات"),
	"glossary":      said("المسرد"),
	"about":         said("عن هذه الملزمة"),
	"cautions":      said("تنبيهات"),

	// What is not there, and why.
	"not-known":      said("غير معروف"),
	"not-given":      said("لم يُذكر"),
	"not-acted":      said("لم يُتخذ أي إجراء"),
	"recording-cut":  said("لم يُحسب: التسجيل مقطوع"),
	"none":           said("لا يوجد"),
	"step-not-known": said("لا تُعرف الخطوة التي حدث فيها"),
	"yes":            said("نعم"),
	"no":             said("لا"),

	// Counts and what they are not.
	"chosen":      said("أعداد من حالات اختيرت للتعليم، وليست معدلات."),
	"chosen-long": said("اختيرت الحالات لأن فيها ما يُتعلَّم. فعدد ما أظهر منها مضاعفةً ما لا يدل على مدى تكرار حدوثها. لا تأتي المعدلات إلا من سجل عمليات متتالية، ومقرونةً بمقامها دائمًا."),

	// What a narrative adds for those who listen to it.
	"prose-table": said("جدول"), "prose-notes": said("حواشٍ"), "prose-note": said("الحاشية %[1]d"), "prose-back": said("عودة إلى النص"),

	// Facts of a case.
	"case-kicker": said("الحالة %[1]s"),
	"before":      said("قبل العملية"),
	"procedure":   said("الإجراء"), "technique": said("التقنية"), "surgeon": said("الجرّاح"),
	"eye": said("العين"), "anaesthesia": said("التخدير"), "patient": said("المريض"),
	"risk-factors": said("عوامل الخطورة"), "cataract": said("الساد"), "measures": said("القياسات"),
	"history": said("القصة المرضية"), "examination": said("الفحص"), "plan": said("الخطة"),
	"backup-plan": said("الخطة البديلة"), "clock-frame": said("ساعات القرص"), "kit": said("الأدوات"),
	"clock-frame-surgeon":    said("كما يراها الجرّاح"),
	"clock-frame-anatomical": said("منسوبة إلى العين، والساعة 12 نحو الحاجب"),
	"eye-right":              said("اليمنى"), "eye-left": said("اليسرى"),
	"aged":     said("العمر %[1]s"),
	"sex-male": said("ذكر"), "sex-female": said("أنثى"), "sex-other": said("الجنس: غير ذلك"),
	"grade-trainee": said("متدرّب"), "grade-fellow": said("زميل"), "grade-consultant": said("استشاري"),

	// The strip and the timeline.
	"strip":       said("العملية على محور الزمن"),
	"strip-title": said("شريط زمن الحالة: %[1]s"),
	"strip-note":  said("تجد المحتوى نفسه في الجدول الزمني أدناه، بالكلمات والأرقام."),
	"timeline":    said("الجدول الزمني"),
	"time":        said("الوقت"), "kind": said("النوع"), "what": said("ما حدث"),
	"kind-step": said("خطوة"), "kind-event": said("حدث"), "kind-finding": said("علامة بُحث عنها"), "kind-decision": said("قرار"),
	"lasted":         said("استغرقت %[1]s"),
	"lasted-cut":     said("لم تُحسب المدة: التسجيل مقطوع"),
	"lasted-unknown": said("المدة غير معروفة"),
	"until":          said("حتى"), "by": said("يجري العملية الآن:"), "using": said("باستعمال"),
	"width": said("العرض %[1]s"), "length": said("الطول %[1]s"), "diameter": said("القطر %[1]s"), "pupil": said("الحدقة %[1]s"),
	"place":   said("عند الساعة %[1]s"),
	"present": said("موجودة"), "not-present": said("غير موجودة"),
	"began": said("بدأ"), "noticed": said("لوحظ"), "acted": said("بدأ التصرّف"), "spread": said("امتد بحلول"),
	"extent": said("الامتداد"), "cause": said("ما أثاره"), "action": said("ما فُعل"),
	"actions": said("بكلمة واحدة"), "note": said("ملاحظة"),
	"head-began": said("البدء"), "head-noticed": said("الملاحظة"), "head-acted": said("التصرّف"),
	"first-sign":    said("العلامة الأولى"),
	"sign-missing":  said("لم يدوّن المؤلف العلامة الأولى."),
	"reveal-sign":   said("ما أول ما كنت ستراه؟"),
	"reveal-action": said("ما الذي فُعل"),

	// Delays and durations.
	"delays":            said("التأخّر"),
	"delays-caption":    said("محسوب من أوقات هذه الحالة؛ واللحظة التي لا يعرفها أحد لا يُحسب منها تأخّر."),
	"event":             said("الحدث"),
	"began-noticed":     said("من البدء إلى الملاحظة"),
	"noticed-acted":     said("من الملاحظة إلى التصرّف"),
	"how-long":          said("كم استغرقت"),
	"durations":         said("المُدد"),
	"durations-caption": arStretch.in("{} من حالات هذه الطبعة، بالدقائق والثواني من التسجيل."),
	"durations-untold":  arStretchOf.in("لا يمكن معرفة مدة {}."),
	"delay-caption":     arEventOf.in("على أساس {} في الحالات عُرفت فيه اللحظتان معًا."),
	"of":                said("البند"), "n": said("n"), "median": said("الوسيط"), "quartiles": said("الرُّبيعان"),
	"least-most":     said("الأدنى – الأعلى"),
	"too-few":        said("عدد قليل جدًا"),
	"all-techniques": said("الكل معًا"),

	// Decision points.
	"decision-points": said("نقاط القرار"),
	"decision-n":      said("القرار %[1]d"),
	"for":             said("ما له"), "against": said("ما عليه"),
	"chosen-was":     said("ما اختير"),
	"because":        said("السبب"),
	"came-of":        said("ما تلاه"),
	"result":         said("ما آل إليه"),
	"choice-missing": said("لم يُذكر ما اختير."),
	"result-missing": said("لم يُذكر ما آل إليه."),
	"weighed-at":     said("موازنة الخيارات في صفحة"),
	"met-in":         said("صودف في"),
	"at-time":        said("عند %[1]s"),

	// Outcome and the rest of a case.
	"outcome":       said("النتيجة"),
	"acuity-before": said("حدة الإبصار قبل العملية"), "acuity-after": said("حدة الإبصار بعد العملية"),
	"acuity-logmar": said("%[1]s (logMAR %[2]s)"),
	"period-hours":  arabicNoun{"ساعة واحدة", "ساعتان", "ساعات", "ساعة", "ساعة"}.in("{}"),
	"period-days":   arabicNoun{"يوم واحد", "يومان", "أيام", "يومًا", "يوم"}.in("{}"),
	"period-weeks":  arabicNoun{"أسبوع واحد", "أسبوعان", "أسابيع", "أسبوعًا", "أسبوع"}.in("{}"),
	"period-months": arabicNoun{"شهر واحد", "شهران", "أشهر", "شهرًا", "شهر"}.in("{}"),
	"period-years":  arabicNoun{"سنة واحدة", "سنتان", "سنوات", "سنة", "سنة"}.in("{}"),
	"follow-up":     said("آخر متابعة"), "lens": said("العدسة"), "capsule": said("المحفظة"),
	"pressure-day-1": said("ضغط العين في اليوم الأول"), "later": said("مضاعفات لاحقة"),
	"further-surgery": said("جراحة أخرى"), "told": said("إبلاغ المريض"),
	"lens-in-the-bag": said("داخل كيس المحفظة"), "lens-sulcus": said("في التلم الهدبي"),
	"lens-sulcus-captured":  said("في التلم الهدبي مع حصر البصرية في الفتحة"),
	"lens-anterior-chamber": said("في البيت الأمامي"), "lens-iris-fixated": said("مثبَّتة بالقزحية"),
	"lens-scleral-fixated": said("مثبَّتة بالصلبة"), "lens-none": said("بلا عدسة"),
	"capsule-intact": said("سليمة"), "capsule-anterior-tear": said("تمزّق أمامي"),
	"capsule-posterior-tear": said("تمزّق خلفي"), "capsule-zonular-loss": said("فقد في أربطة العدسة"),
	"lessons":              said("للتذكّر"),
	"narrative":            said("القصة"),
	"alternatives":         said("قد يختار جرّاح آخر"),
	"limits":               said("الحدود"),
	"one-case":             said("الحالة المختارة للتعليم لا تقول شيئًا عن مدى التكرار."),
	"sources":              said("المراجع"),
	"no-sources":           said("لم يُذكر مرجع."),
	"consent-recorded":     said("الموافقة على الاستعمال في التعليم مسجّلة."),
	"consent-not-required": said("لم تلزم الموافقة: %[1]s."),
	"reviewed-by":          said("راجعها قبل النشر %[1]s، %[2]s."),
	"related":              said("حالات بجوارها"),
	"shares":               said("تشترك معها في"),
	"source-link":          said("الحالة كما كتبها مؤلفها"),
	"source-kicker":        said("كما كتبها مؤلفها"),
	"source-file":          said("ترويسة الملف %[1]s في بنك الحالات. منها تُحسب صفحة الحالة."),

	// Lists of cases.
	"cases-summary":   arabicForms("لا حالات بعد.", "حالة واحدة، مسرودة ثم مصنّفة بحسب موضوعها.", "حالتان: كلتاهما أولًا، ثم هما نفسهما مصنّفتين بحسب الموضوع.", "%[1]d حالات: كلها أولًا، ثم هي نفسها مصنّفة بحسب الموضوع.", "%[1]d حالة: كلها أولًا، ثم هي نفسها مصنّفة بحسب الموضوع.", "%[1]d حالة: كلها أولًا، ثم هي نفسها مصنّفة بحسب الموضوع."),
	"all-cases":       said("كل الحالات"),
	"by-technique":    said("بحسب التقنية"),
	"by-complication": said("بحسب المضاعفة"),
	"by-decision":     said("بحسب القرار"),
	"by-surgeon":      said("بحسب الجرّاح"),
	"by-risk":         said("بحسب عامل الخطورة"),
	"by-step":         said("بحسب الخطوة"),
	"on-this-page":    said("في هذه الصفحة"),
	"no-event":        said("بلا مضاعفة"),

	// Watch pages.
	"step-kicker":    said("صفحة ترقّب"),
	"step-counts":    said("أُجريت في %[1]d من الحالات البالغ عددها %[2]d؛ عدد الأحداث التي بدأت هنا: %[3]d."),
	"steps-summary":  said("صفحة ترقّب لكل خطوة: ما قد يبدأ فيها، وكيف يبدو أول الأمر، وما يُجهَّز له."),
	"step":           said("الخطوة"),
	"steps-of":       said("خطوات %[1]s بترتيبها المعتاد"),
	"other-steps":    said("خطوات أخرى"),
	"to-watch":       said("ما ينبغي ترقّبه"),
	"began-in-cases": said("أحداث بدأت هنا"),
	"can-start":      said("ما قد يبدأ هنا"),
	"began-here":     arabicForms("لم يبدأ كذلك حدث في الحالات.", "بدأ كذلك حدث واحد في الحالات.", "بدأ كذلك حدثان في الحالات.", "بدأت كذلك %[1]d أحداث في الحالات.", "بدأ كذلك %[1]d حدثًا في الحالات.", "بدأ كذلك %[1]d حدث في الحالات."),
	"onset-between":  said("لوحظ هنا؛ وبدأ بين خطوتين"),
	"onset-unknown":  said("لوحظ هنا؛ ولا يُعرف متى بدأ"),
	"not-in-watch":   said("ليس في جدول الترقّب؛ لكن الحالات صادفته هنا."),
	"no-watch":       said("لم يُدوَّن شيء عن هذه الخطوة بعد."),
	"first-move":     said("التصرّف الأول"), "mis-step": said("الخطأ المعتاد"), "prevention": said("الوقاية"), "ready": said("التجهيز"),
	"have-ready":   said("جهّز"),
	"tools":        said("على طاولة الأدوات في هذه الخطوة"),
	"decided-here": said("قرارات تُتخذ هنا"),
	"in-the-cases": said("في الحالات"),
	"no-case-step": said("لا حالة في هذه الطبعة تضم هذه الخطوة."),
	"also-called":  said("ويُسمى أيضًا: %[1]s."),
	"broader":      said("نوع من"),
	"narrower":     said("ومنه:"),

	// Complications and techniques.
	"complication-kicker":   said("مضاعفة"),
	"complication":          said("المضاعفة"),
	"complication-counts":   said("عدد الأحداث في الحالات: %[1]d، في %[2]d من الحالات البالغ عددها %[3]d."),
	"complications-summary": arabicForms("كل مضاعفة تذكرها الملزمة.", "كل مضاعفة تذكرها الملزمة، مع أحداثها في حالتها الوحيدة.", "كل مضاعفة تذكرها الملزمة، مع أحداثها في الحالتين.", "كل مضاعفة تذكرها الملزمة، مع أحداثها في %[1]d حالات.", "كل مضاعفة تذكرها الملزمة، مع أحداثها في %[1]d حالة.", "كل مضاعفة تذكرها الملزمة، مع أحداثها في %[1]d حالة."),
	"looks-like":            said("كيف تبدو أول الأمر"),
	"during":                said("أثناء"),
	"where-began":           said("أين بدأت"),
	"onsets-caption":        arEvent.in("{} في الحالات، بحسب الخطوة التي كان البدء فيها."),
	"events":                said("الأحداث"),
	"in-cases":              said("في الحالات"),
	"later-cases":           said("لاحقًا، في الحالات"),
	"what-chosen":           said("ما اختير"),
	"choices-caption":       arTime.in("اختير {}، في قرارات تلت هذا الحدث. أعداد وليست معدلات."),
	"option":                said("الخيار"), "chosen-times": said("مرات اختياره"), "where": said("أين"),
	"began-in":                 said("بدأ في"),
	"no-case-event":            said("لم تصادفها أي حالة في هذه الطبعة أثناء العملية."),
	"later-in":                 said("صودفت بعد العملية في"),
	"technique-kicker":         said("تقنية"),
	"technique-counts":         said("تقنية %[1]d من الحالات البالغ عددها %[2]d."),
	"techniques-summary":       arabicForms("كل تقنية استُعملت.", "كل تقنية استُعملت، وما صادفته حالتها الوحيدة.", "كل تقنية استُعملت، وما صادفته الحالتان.", "كل تقنية استُعملت، وما صادفته %[1]d حالات.", "كل تقنية استُعملت، وما صادفته %[1]d حالة.", "كل تقنية استُعملت، وما صادفته %[1]d حالة."),
	"events-in-cases":          said("الأحداث في الحالات"),
	"technique-events-caption": said("الأحداث في الحالات التي أُجريت بهذه التقنية."),
	"used-within":              said("استُعملت ضمن خطوة في"),
	"no-case-technique":        said("لم تُجرَ بها حالة في هذه الطبعة؛ وفي سجل العمليات ما أُجري بها."),

	// Decisions.
	"decision-kicker":   said("قرار"),
	"decision-counts":   arTime.in("صودف {} في الحالات."),
	"decisions-summary": said("أسئلة تطرأ في أثناء العملية، وما لكل جواب وما عليه، وما اختارته الحالات."),
	"when-asked":        said("متى يُطرح"),
	"no-trigger":        said("لم يُذكر ما يثير السؤال."),
	"met-during":        said("صودف أثناء"), "met-with": said("صودف مع"),
	"options":          said("الخيارات"),
	"options-note":     said("استقرّ على خيار قبل أن تفتح ما فعلته الحالات. ولا خيار منها موسوم بالصواب."),
	"chosen-never":     said("لم تختره أي حالة في هذه الطبعة."),
	"thinking":         said("التفكير فيه"),
	"agreed":           said("ما يُتفق عليه عمومًا"),
	"thresholds":       said("عتبات مستعملة"),
	"thresholds-note":  said("تختلف الوحدات الجراحية. هذه أرقام مستعملة، وليست أرقامًا للاستعمال."),
	"caution":          said("تنبيه"),
	"all-decisions":    said("كل القرارات"),
	"no-decisions":     said("لا حالة في هذه الطبعة تتوقف عند قرار."),
	"glossary-summary": arabicForms("لا مصطلحات بعد.", "مصطلح واحد من مصطلحات المهنة.", "مصطلحان من مصطلحات المهنة، كما تستعملهما هذه الملزمة.", "%[1]d مصطلحات من مصطلحات المهنة، كما تستعملها هذه الملزمة.", "%[1]d مصطلحًا من مصطلحات المهنة، كما تستعملها هذه الملزمة.", "%[1]d مصطلح من مصطلحات المهنة، كما تستعملها هذه الملزمة."),
	"letters":          said("الحروف"),
	"no-definition":    said("لم يُذكر تعريف."),
	"risks-summary":    said("ما كان معروفًا قبل العملية، والحالات التي وُجد فيها."),
	"no-risks":         said("لا حالة في هذه الطبعة تذكر عامل خطورة."),

	// Kinds of terms.
	"term-procedure": said("إجراء"), "term-step": said("خطوة"), "term-technique": said("تقنية"),
	"term-complication": said("مضاعفة"), "term-sign": said("علامة"), "term-action": said("تصرّف"),
	"term-instrument": said("أداة"), "term-device": said("جهاز"), "term-material": said("مادة"),
	"term-drug": said("دواء"), "term-anatomy": said("تشريح"), "term-risk-factor": said("عامل خطورة"),
	"term-cataract-type": said("نوع ساد"), "term-outcome": said("نتيجة"),
	"term-measure": said("قياس"), "term-grade": said("درجة"),
}
