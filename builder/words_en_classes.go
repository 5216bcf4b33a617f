package builder

// englishClasses is the part of [english] for what the privacy check tells apart.
var englishClasses = phrases{
	"class-name":        said("a person's name"),
	"class-geo":         said("a place smaller than a state or nation"),
	"class-facility":    said("a named place of care or work"),
	"class-date":        said("a date more exact than a year"),
	"class-age":         said("an age over 89"),
	"class-phone":       said("a telephone number"),
	"class-fax":         said("a fax number"),
	"class-email":       said("an e-mail address"),
	"class-ssn":         said("a social security number"),
	"class-national_id": said("a national identity or health number"),
	"class-mrn":         said("a hospital record number"),
	"class-plan":        said("an insurance number"),
	"class-account":     said("a payment or account number"),
	"class-licence":     said("a licence, passport or register number"),
	"class-vehicle":     said("a vehicle number"),
	"class-device":      said("a serial or lot number"),
	"class-url":         said("a web address"),
	"class-ip":          said("a network address"),
	"class-biometric":   said("a biometric identifier"),
	"class-photo":       said("a picture of a face"),
	"class-other":       said("something that may single the patient out"),
}
