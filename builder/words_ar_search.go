package builder

// arabicSearch is the part of [arabic] for searching, filters and the lists of cases.
var arabicSearch = phrases{
	"search":              said("البحث"),
	"search-for":          said("ابحث في الملزمة"),
	"search-summary":      said("كل صفحة في هذه الملزمة بحسب ما تقوله: المصطلحات بكل أسمائها، والعلامات، والدروس، والقصص."),
	"search-off":          said("يحتاج البحث إلى برمجة نصية، وهي متوقفة. تقود القائمة المرتبة على الحروف أدناه إلى كل مصطلح، ومنه إلى صفحته."),
	"search-help":         said("تُفهم الأسماء والاختصارات وهفوات القلم الصغيرة. تتنقل مفاتيح الأسهم بين النتائج؛ ويمسح مفتاح Escape."),
	"search-slash":        said("ينتقل المفتاح / إلى مربع البحث"),
	"search-found":        said("الصفحات الموجودة: %[1]s"),
	"search-none":         said("لم يُعثر على شيء. جرّب كلمات أقل، أو القائمة المرتبة على الحروف أدناه."),
	"search-failed":       said("تعذّرت قراءة ملفات الفهرس. وهي في المجلد المسمى search."),
	"search-covered":      said("عُثر عليه في جزء من هذه الصفحة ينتظر أن يُفتح."),
	"search-hits":         said("ما عُثر عليه"),
	"search-more":         said("أظهر المزيد"),
	"search-letters":      said("مرتبة على الحروف"),
	"search-letters-note": said("جميع مصطلحات المهنة، بكل اسم لها."),

	"see-instead": said("انظر"),

	"filter":         said("ضيّق القائمة"),
	"filter-any":     said("أيّ"),
	"filter-clear":   said("امسح الكل"),
	"filter-shown":   said("الحالات المعروضة: %[1]s من %[2]s"),
	"filter-step":    said("الخطوة"),
	"filter-event":   said("المضاعفة"),
	"filter-way":     said("التقنية"),
	"filter-choice":  said("القرار"),
	"filter-risk":    said("عامل الخطورة"),
	"filter-surgeon": said("الجرّاح"),

	"set-more":         arabicForms("ولا غيرها في صفحتها", "وواحدة أخرى في صفحتها", "واثنتان أخريان في صفحتها", "و%[1]d أخرى في صفحتها", "و%[1]d أخرى في صفحتها", "و%[1]d أخرى في صفحتها"),
	"surgeons":         said("الجرّاحون"),
	"surgeons-summary": said("الحالات بحسب درجة الجرّاح. ومن أجرى العملية لا يقول شيئًا عن جودة إجرائها."),
	"around":           said("ما قبلها وما بعدها"),
	"around-note":      said("الحالات المجاورة من النوع نفسه."),
}
