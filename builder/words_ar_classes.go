package builder

// arabicClasses is the part of [arabic] for what the privacy check tells apart.
var arabicClasses = phrases{
	"class-name":        said("اسم شخص"),
	"class-geo":         said("مكان أصغر من دولة أو إقليم"),
	"class-facility":    said("مكان رعاية أو عمل مسمّى"),
	"class-date":        said("تاريخ أدقّ من السنة"),
	"class-age":         said("عمر فوق 89"),
	"class-phone":       said("رقم هاتف"),
	"class-fax":         said("رقم فاكس"),
	"class-email":       said("عنوان بريد إلكتروني"),
	"class-ssn":         said("رقم ضمان اجتماعي"),
	"class-national_id": said("رقم هوية أو رقم صحي وطني"),
	"class-mrn":         said("رقم ملف في مستشفى"),
	"class-plan":        said("رقم تأمين"),
	"class-account":     said("رقم دفع أو حساب"),
	"class-licence":     said("رقم رخصة أو جواز أو سجل"),
	"class-vehicle":     said("رقم مركبة"),
	"class-device":      said("رقم تسلسلي أو رقم تشغيلة"),
	"class-url":         said("عنوان على الشبكة"),
	"class-ip":          said("عنوان شبكي"),
	"class-biometric":   said("معرّف حيوي"),
	"class-photo":       said("صورة وجه"),
	"class-other":       said("ما قد يميّز المريض عن غيره"),
}
