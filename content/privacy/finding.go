package privacy

import "fmt"

// Zone says what kind of text is scanned; some things are allowed in one zone
// and not in another.
type Zone string

// The five zones. A body may hold a References heading, below which the rules
// of Reference apply by themselves; front matter likewise knows its own keys.
const (
	Body        Zone = "body"         // Markdown, or the text of a written page
	FrontMatter Zone = "front-matter" // YAML as typed, comments included, without fences
	Caption     Zone = "caption"      // WebVTT or SubRip, or a part of one
	Reference   Zone = "reference"    // an entry of a reading list
	Filename    Zone = "filename"     // a relative path, folders included
)

// Zones lists the five zones in the order a manual shows them.
func Zones() []Zone { return []Zone{Body, FrontMatter, Caption, Reference, Filename} }

// Class is a class of identifier after 45 CFR 164.514(b)(2)(i)(A) to (R). Two
// of the eighteen classes are split (geo and facility, ssn and national_id).
type Class string

// The classes.
const (
	Name       Class = "name"
	Geo        Class = "geo"
	Facility   Class = "facility"
	Date       Class = "date"
	Age        Class = "age"
	Phone      Class = "phone"
	Fax        Class = "fax"
	Email      Class = "email"
	SSN        Class = "ssn"
	NationalID Class = "national_id"
	MRN        Class = "mrn"
	Plan       Class = "plan"
	Account    Class = "account"
	Licence    Class = "licence"
	Vehicle    Class = "vehicle"
	Device     Class = "device"
	URL        Class = "url"
	IP         Class = "ip"
	Biometric  Class = "biometric"
	Photo      Class = "photo"
	Other      Class = "other"
)

// Severity is what a finding does: Block stops build and pack, Warn is listed
// and stops pack only.
type Severity string

// The two severities.
const (
	Block Severity = "block"
	Warn  Severity = "warn"
)

// Finding is one place in a text that may identify somebody.
type Finding struct {
	Class    Class
	Start    int // byte offset of the first byte in the raw text
	End      int // byte offset after the last byte; Start < End
	Severity Severity
	Rule     string // id of the rule that spoke, as listed by Rules
}

// String gives class, place and rule, never the text found.
func (f Finding) String() string {
	return fmt.Sprintf("%s %s [%d:%d] %s", f.Severity, f.Class, f.Start, f.End, f.Rule)
}

// classInfo is what a class means to an author and which exceptions it takes.
type classInfo struct {
	class  Class
	letter string          // paragraph of 164.514(b)(2)(i)
	noun   string          // what it is called in a message
	advice string          // what to do instead
	accept []ExceptionKind // kinds of reviewed exception accepted; none for ssn
}

var (
	falseOnly = []ExceptionKind{FalsePositive}
	anyKind   = []ExceptionKind{FalsePositive, Consented, Reviewed}
)

// classTable holds every class once, in the regulation's order.
var classTable = []classInfo{
	{Name, "A", "a person's name", "Write 'the patient', 'a relative', 'the surgeon'.", anyKind},
	{Geo, "B", "a place smaller than a state or nation", "Keep the country only.", anyKind},
	{Facility, "B", "a named place of care or work", "Write 'a district hospital'.", anyKind},
	{Date, "C", "a date more exact than a year", "Use the year, or time since surgery ('day 1').", anyKind},
	{Age, "C", "an age over 89", "Ages over 89 go into one group: write '90 or over'.", falseOnly},
	{Phone, "D", "a telephone number", "Remove it.", falseOnly},
	{Fax, "E", "a fax number", "Remove it.", falseOnly},
	{Email, "F", "an e-mail address", "Remove it; only authors may give one.", falseOnly},
	{SSN, "G", "a social security number", "Remove it.", nil},
	{NationalID, "G", "a national identity or health number", "Remove it.", falseOnly},
	{MRN, "H", "a hospital record number", "Use a case id of your own.", falseOnly},
	{Plan, "I", "an insurance number", "Remove it.", falseOnly},
	{Account, "J", "a payment or account number", "Remove it.", falseOnly},
	{Licence, "K", "a licence, passport or register number", "'Driving standard' is enough.", falseOnly},
	{Vehicle, "L", "a vehicle number", "Say 'a van'.", falseOnly},
	{Device, "M", "a serial or lot number", "It points at one implant in one person. Keep the model, drop the number.", anyKind},
	{URL, "N", "a web address", "It can lead to the patient. Move literature to References.", anyKind},
	{IP, "O", "a network address", "Remove it.", falseOnly},
	{Biometric, "P", "a biometric identifier", "Remove it.", anyKind},
	{Photo, "Q", "a picture of a face", "Crop to the eye; a bar over the eyes is not enough.", anyKind},
	{Other, "R", "something that may single the patient out", "Make it general or record why it is safe.", anyKind},
}

// Classes lists the classes in the regulation's order.
func Classes() []Class {
	out := make([]Class, len(classTable))
	for i, c := range classTable {
		out[i] = c.class
	}
	return out
}

// infoOf finds a class in the table; the second value is false for a class
// that does not exist.
func infoOf(c Class) (classInfo, bool) {
	for _, info := range classTable {
		if info.class == c {
			return info, true
		}
	}
	return classInfo{}, false
}
