package builder

// arabicPack is the part of [arabic] for editions, for a handout that holds one course, and
// for what goes with a zip. File names stay as they are on the disk.
var arabicPack = phrases{
	"part-of-course":   said("تضم هذه النسخة ما تحتاج إليه الدورة «%[1]s»، لا البنك كله. وما يُعدّ من الحالات يُعدّ مما في هذه النسخة؛ أما المعدلات فمن السجل كله."),
	"door-course-text": said("المحطات، وما يُقرأ قبل كل منها، والأدوات."),

	// START-HERE.txt, in a zip. Each is a paragraph of plain text.
	"start-head":    said("ابدأ هنا"),
	"start-course":  said("للدورة: %[1]s"),
	"start-unzip":   said("1. فُكّ الضغط أولًا. ملف zip صندوق مغلق: الصفحة التي تُفتح داخله بلا صور ولا تنسيق، وروابطها لا تقود إلى شيء."),
	"start-windows": said("في Windows: أغلق هذه النافذة. اضغط على ملف zip بالزر الأيمن للفأرة، واختر «استخراج الكل» ثم «استخراج». افتح المجلد الذي يظهر وانقر نقرًا مزدوجًا على index.html (وقد يظهر باسم index)."),
	"start-mac":     said("في macOS: انقر نقرًا مزدوجًا على ملف zip. افتح المجلد الذي يظهر بجانبه وانقر نقرًا مزدوجًا على index.html."),
	"start-phone":   said("في الهاتف أو الجهاز اللوحي: احفظ ملف zip على الجهاز، وافتحه في التطبيق الذي يعرض ملفاتك، ودع ذلك التطبيق يفك ضغطه (المسه، أو اضغط عليه مطولًا واختر الاستخراج أو فك الضغط). افتح المجلد الذي يظهر، والمس index.html، واختر متصفح الويب، لا المعاينة."),
	"start-alone":   said("2. إن بدت الصفحة عارية من التنسيق أو لم تعمل روابطها، فقد أُعطي المتصفح تلك الصفحة وحدها دون جاراتها. يحدث هذا داخل ملف zip لم يُفك ضغطه، وفي معاينة البريد أو الهاتف، وحين ينسخ تطبيقٌ ملفًا واحدًا إلى المتصفح. فُكّ الضغط من جديد في مجلد مستقل وافتح index.html من هناك. أبقِ الملفات كلها معًا؛ ولا تنقل صفحات مفردة ولا ترسلها."),
	"start-still":   said("3. إن لم يعرض الهاتف إلا صفحة واحدة في كل مرة، فهو لا يسمح لمتصفحه بقراءة الملفات المجاورة للصفحة. استعمل حاسوبًا، أو اطلب ممن أعطاك هذا الملزمةَ نفسها بصيغة EPUB، وهي كتاب للهواتف وأجهزة القراءة: يفتحه أي تطبيق قراءة."),
	"start-nothing": said("4. لا يُثبَّت شيء ولا تلزم شبكة. ولا يُرسل شيء مما تفعله هنا إلى أحد. وكل صفحة كاملة بلا برمجة نصية."),
	"start-check":   said("5. لمعرفة ما إذا كانت النسخة كاملة: يسرد manifest.json كل ملف مع SHA-256 الخاص به. ومن لديه caseleaf يكتب: caseleaf check ثم اسم ملف zip أو المجلد."),

	// An EPUB.
	"book-contents": said("المحتويات"),
	"book-cover":    said("الغلاف"),
	"book-answers":  said("الأجوبة"),
	"book-back":     said("العودة إلى السؤال"),
	"book-access":   said("نص بعناوين وجداول وقائمة محتويات. لكل رسم عنوان ووصف وشرح، وأرقامه واردة في النص. الأجوبة بعد صفحتها في فصل مستقل، مع روابط في الاتجاهين. لا شيء يتحرك أو يومض أو يُصدر صوتًا."),
	"book-first":    said("أولًا"),

	// What changed since an earlier edition.
	"since":                said("ما تغيّر منذ الطبعة السابقة"),
	"since-door":           said("حالات جديدة أو متغيّرة أو مسحوبة، وأعداد تحرّكت."),
	"since-summary":        said("بالمقارنة مع الطبعة %[1]s من «%[2]s»."),
	"since-unnamed":        said("بلا اسم"),
	"since-nothing":        said("لا تختلف عن تلك الطبعة حالة ولا قرار ولا عدد."),
	"since-added":          said("جديد"),
	"since-changed":        said("متغيّر"),
	"since-withdrawn":      said("مسحوب"),
	"since-withdrawn-note": said("تُسمّى الحالة المسحوبة برقمها وحده. فقد تكون سُحبت كي لا يُعرف أحد: تخلّص من النسخ الأقدم ولا تمرّرها."),
	"since-figures":        said("أعداد تحرّكت"),
	"since-figures-note":   said("العمليات التي وقعت فيها المضاعفة، من جميع ما أُجري بتلك التقنية، من سجل العمليات المتتالية. والعدد الذي تحرّك ليس معدلًا تغيّر: المعدلات مع فترات ثقتها في صفحة"),
	"since-operations":     said("جميع عمليات السجل"),
	"since-before":         said("آنذاك"),
	"since-now":            said("الآن"),
	"since-none":           said("بلا سطر"),
	"part-before":          said("ما كان معروفًا قبلها"), "part-kit": said("الأدوات"), "part-timeline": said("الجدول الزمني"),
	"part-choices": said("نقاط القرار"), "part-outcome": said("النتيجة"), "part-lessons": said("الدروس"), "part-story": said("القصة"),
	"part-pictures": said("الصور"), "part-alternatives": said("البدائل"), "part-limits": said("الحدود"), "part-sources": said("المراجع"),
	"part-related": said("الحالات المجاورة"), "part-release": said("إجازة النشر"), "part-question": said("السؤال"), "part-tree": said("الخيارات والأعداد"),
	"part-guidance": said("المتفق عليه والعتبات والتنبيهات"),
}
