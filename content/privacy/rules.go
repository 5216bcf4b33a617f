package privacy

// Rule describes one rule for the manual and for machine-readable reports.
type Rule struct {
	ID       string
	Class    Class
	Severity Severity
	Doc      string // what it looks for
	Example  string // a text, invented, that it finds in zone Zone
	Zone     Zone   // zone of the example
}

// stage orders rules where findings of equal length overlap: a label beats a
// check digit, a check digit a mere shape, a shape a guess.
type stage uint8

const (
	byLabel stage = iota
	byCheck
	byShape
	byGuess
	byHunch // gives way to every other rule
)

// ruleID indexes ruleTable.
type ruleID uint8

const (
	nameHonorific ruleID = iota
	nameTitle
	nameLabel
	nameRelative
	nameInitials
	namePossessive
	nameCalled
	nameDear
	nameGiven
	namePair
	nameSpeaker
	nameFile
	geoStreet
	geoPostcode
	geoZip
	geoSettlement
	geoHome
	geoFrom
	geoCoordinates
	geoLabel
	facilityNamed
	facilityAuthors
	facilityWork
	dateNumeric
	dateNamed
	dateSpelled
	dateMonthYear
	dateWeek
	dateHoliday
	dateLabel
	dateSeason
	dateMonth
	ageNumber
	ageWord
	ageNineties
	ageBorn
	ageBirthYear
	ageDays
	phoneShape
	phoneLabel
	faxLabel
	emailShape
	emailSpelt
	ssnLabel
	ssnShape
	idLabel
	idCheck
	idChance
	mrnLabel
	planLabel
	planMBI
	accountLabel
	accountCard
	accountIBAN
	licenceLabel
	licenceStaff
	vehicleLabel
	deviceLabel
	deviceLot
	deviceMAC
	urlAddress
	urlPage
	urlPortal
	ipFour
	ipSix
	biometricLabel
	biometricPrint
	photoFace
	otherUnique
	otherRole
	otherNews
	otherSubject
	ruleCount
)

// ruleInfo is a Rule with its stage; the table below is the one list of rules.
type ruleInfo struct {
	Rule
	stage stage
}

var ruleTable = [ruleCount]ruleInfo{
	nameHonorific:  {Rule{"name.honorific", Name, Block, "an honorific in its exact case and a capitalised word", "Mrs Oxtallow was listed.", Body}, byShape},
	nameTitle:      {Rule{"name.title", Name, Warn, "Dr or Prof and a capitalised word", "Seen by Dr Oxtallow.", Body}, byShape},
	nameLabel:      {Rule{"name.label", Name, Block, "a label such as name, pt, surname or next of kin and its value", "pt: OXTALLOW, Gwendra", Caption}, byLabel},
	nameRelative:   {Rule{"name.relative", Name, Block, "a relative or carer and a capitalised word", "Her daughter Gwendra came.", Body}, byGuess},
	nameInitials:   {Rule{"name.initials", Name, Block, "initials beside an age, or called initials", "A.K.V., a 68-year-old, agreed.", Body}, byShape},
	namePossessive: {Rule{"name.possessive", Name, Warn, "a capitalised word of no trade with 's before eye, lens, operation …", "Oxtallow's left eye was first.", Body}, byGuess},
	nameCalled:     {Rule{"name.called", Name, Block, "called, named or known as, and a capitalised word", "A man called Brannoch came.", Body}, byGuess},
	nameDear:       {Rule{"name.letter", Name, Block, "the opening or the close of a letter", "Dear Gwendra, thank you.", Body}, byGuess},
	nameGiven:      {Rule{"name.given", Name, Warn, "a common given name, with or without a surname", "We thank Margaret Oxtallow.", Body}, byGuess},
	namePair:       {Rule{"name.pair", Name, Warn, "two capitalised words together that no list knows", "It belongs to Ermintold Quaine.", Body}, byHunch},
	nameSpeaker:    {Rule{"name.speaker", Name, Block, "a caption's speaker who is not a role", "<v Quenby>now the hook", Caption}, byLabel},
	nameFile:       {Rule{"name.file", Name, Warn, "a capitalised word in a file name that is no word of the trade", "images/Oxtallow-le.png", Filename}, byGuess},

	geoStreet:      {Rule{"geo.street", Geo, Block, "a street, with or without a number, in several languages", "It went to 12 Thimble Row.", Body}, byShape},
	geoPostcode:    {Rule{"geo.postcode", Geo, Block, "a United Kingdom postcode", "Sent to LN99 9ZZ.", Body}, byCheck},
	geoZip:         {Rule{"geo.zip", Geo, Block, "a state code and five digits, or a labelled postal code", "Fernbrook, OH 44199.", Body}, byShape},
	geoSettlement:  {Rule{"geo.settlement", Geo, Block, "village, town, county … of X, or X village", "The village of Quillby.", Body}, byGuess},
	geoHome:        {Rule{"geo.home", Geo, Block, "lives, born, home … in X", "She lives in Quillby.", Body}, byGuess},
	geoFrom:        {Rule{"geo.from", Geo, Warn, "from X, where X is no country, state or word of the trade", "A fisherman from Quillby.", Body}, byGuess},
	geoCoordinates: {Rule{"geo.coordinates", Geo, Block, "a pair of coordinates", "Found at 51.50722, -0.12750.", Body}, byShape},
	geoLabel:       {Rule{"geo.label", Geo, Block, "a label such as address, town or lat and its value", "town: Quillby", FrontMatter}, byLabel},

	facilityNamed:   {Rule{"facility.named", Facility, Block, "a hospital, clinic, practice or home with a name", "Seen at Quillby Eye Unit.", Body}, byGuess},
	facilityAuthors: {Rule{"facility.affiliation", Facility, Warn, "an author's affiliation, which says where the patient was treated", "authors:\n  - affiliation: Quillby Infirmary", FrontMatter}, byGuess},
	facilityWork:    {Rule{"facility.work", Facility, Warn, "works at or for X", "He works at Thornmill.", Body}, byGuess},

	dateNumeric:   {Rule{"date.numeric", Date, Block, "a day in figures, in any order, or a time stamp", "Seen 14/03/2021.", Body}, byShape},
	dateNamed:     {Rule{"date.named", Date, Block, "a day with the month as a word", "Seen 14 March 2021.", Body}, byShape},
	dateSpelled:   {Rule{"date.spelled", Date, Block, "a day or year in words", "On the fourteenth of March.", Body}, byShape},
	dateMonthYear: {Rule{"date.month-year", Date, Block, "a month of a year", "Seen in October 2020.", Body}, byShape},
	dateWeek:      {Rule{"date.week", Date, Block, "a numbered week of a year", "Listed in 2021-W11.", Body}, byShape},
	dateHoliday:   {Rule{"date.holiday", Date, Block, "a holiday and a year", "On Boxing Day 2019.", Body}, byShape},
	dateLabel:     {Rule{"date.label", Date, Block, "a birth date or another labelled date", "DOB 4/3/51", Body}, byLabel},
	dateSeason:    {Rule{"date.season", Date, Warn, "a season or a quarter of a year", "First seen in spring 2020.", Body}, byShape},
	dateMonth:     {Rule{"date.month", Date, Warn, "a month alone after in, since, early …", "Exchanged in March.", Body}, byGuess},

	ageNumber:    {Rule{"age.number", Age, Block, "an age from 90 to 120 in figures", "A 93-year-old woman.", Body}, byShape},
	ageWord:      {Rule{"age.word", Age, Block, "an age over 89 in words", "At ninety-four, she reads.", Body}, byShape},
	ageNineties:  {Rule{"age.nineties", Age, Warn, "nonagenarian, in her nineties", "A nonagenarian came.", Body}, byGuess},
	ageBorn:      {Rule{"age.born", Age, Block, "a birth year more than 89 years before the case", "year: 2021\nborn: 1924", FrontMatter}, byShape},
	ageBirthYear: {Rule{"age.birth-year", Age, Warn, "a birth year in a case that gives its own year", "year: 2021\nborn: 1951", FrontMatter}, byShape},
	ageDays:      {Rule{"age.days", Age, Warn, "an age in days of life", "A 12-day-old infant.", Body}, byShape},

	phoneShape: {Rule{"phone.shape", Phone, Block, "a number with a country code, a leading 0, or of the North American plan", "It says +44 7700 900123.", Body}, byShape},
	phoneLabel: {Rule{"phone.label", Phone, Block, "seven or more digits after tel, mobile, call …", "Tel 900 0318", Body}, byLabel},
	faxLabel:   {Rule{"fax.label", Fax, Block, "seven or more digits after fax", "Fax 900 0318", Body}, byLabel},
	emailShape: {Rule{"email.shape", Email, Block, "an e-mail address", "g.oxtallow@example.org", Body}, byShape},
	emailSpelt: {Rule{"email.spelt", Email, Block, "an e-mail address with at and dot spelt out", "g.oxtallow [at] example [dot] org", Body}, byShape},

	ssnLabel: {Rule{"ssn.label", SSN, Block, "a labelled social security number, or its last four digits", "SSN 987-65-4321", Body}, byLabel},
	ssnShape: {Rule{"ssn.shape", SSN, Block, "ddd-dd-dddd with an area, group and serial that can be issued", "It says 219-09-9999.", Body}, byCheck},
	idLabel:  {Rule{"id.label", NationalID, Block, "a labelled national identity or health number", "NHS No. 999 012 3454", Body}, byLabel},
	idCheck:  {Rule{"id.check", NationalID, Block, "a national number whose check digit agrees", "It says 943 476 5919.", Body}, byCheck},
	idChance: {Rule{"id.chance", NationalID, Warn, "ten digits that pass the NHS check outside the issued ranges", "It says 123 456 7881.", Body}, byCheck},

	mrnLabel:     {Rule{"mrn.label", MRN, Block, "a labelled hospital, chart, episode or accession number", "MRN: 4471902", Body}, byLabel},
	planLabel:    {Rule{"plan.label", Plan, Block, "a labelled insurance, member or policy number", "Member ID: W4417209", Body}, byLabel},
	planMBI:      {Rule{"plan.mbi", Plan, Block, "the shape of a Medicare beneficiary identifier", "It says 1EG4-TE5-MK73.", Body}, byCheck},
	accountLabel: {Rule{"account.label", Account, Block, "a labelled account, invoice or card number", "Invoice no. 2021-00417", Body}, byLabel},
	accountCard:  {Rule{"account.card", Account, Block, "14 to 19 digits that pass the card check", "It says 4111 1111 1111 1111.", Body}, byCheck},
	accountIBAN:  {Rule{"account.iban", Account, Block, "an IBAN whose check digits agree", "To GB33 BUKB 2020 1555 5555 55.", Body}, byCheck},
	licenceLabel: {Rule{"licence.label", Licence, Block, "a labelled driving licence, passport or certificate number", "Passport number 533380006", Body}, byLabel},
	licenceStaff: {Rule{"licence.staff", Licence, Warn, "the register number of a member of staff", "GMC 9999417", Body}, byLabel},
	vehicleLabel: {Rule{"vehicle.label", Vehicle, Block, "a plate or vehicle number after a cue", "registration QX99 QQZ", Body}, byLabel},
	deviceLabel:  {Rule{"device.serial", Device, Block, "a serial number, or the serial part of a UDI", "serial number 21Z998021", Body}, byLabel},
	deviceLot:    {Rule{"device.lot", Device, Warn, "a lot or batch number", "Lot 22K417", Body}, byLabel},
	deviceMAC:    {Rule{"device.mac", Device, Block, "the hardware address of a network card", "It is 00:00:5e:00:53:af.", Body}, byShape},

	urlAddress: {Rule{"url.address", URL, Block, "a web address outside the references that leads to somebody's own pages, holds a key, or is written unlike others", "See www.example.org/gwendra", Body}, byShape},
	urlPage:    {Rule{"url.page", URL, Warn, "an ordinary web page linked outside the references", "See https://guidance.example.org/small-pupil", Body}, byShape},
	urlPortal:  {Rule{"url.portal", URL, Block, "a web address with a user, an id or a portal in it", "https://portal.example.org/patient?id=7", Reference}, byShape},
	ipFour:     {Rule{"ip.four", IP, Block, "an IPv4 address that is not a version", "It is 203.0.113.77.", Body}, byShape},
	ipSix:      {Rule{"ip.six", IP, Block, "an IPv6 address", "It is 2001:db8::4417.", Body}, byShape},

	biometricLabel: {Rule{"biometric.label", Biometric, Block, "an iris, face, finger or voice template with an id", "Iris template ID IRC-7F3A", Body}, byLabel},
	biometricPrint: {Rule{"biometric.print", Biometric, Warn, "a voiceprint or an external iris picture", "view: external-iris", FrontMatter}, byGuess},
	photoFace:      {Rule{"photo.face", Photo, Block, "words for a picture of a face", "![Full-face portrait](a.jpg)", Body}, byGuess},
	otherUnique:    {Rule{"other.unique", Other, Warn, "only, first, youngest … in the county, country, world", "The only keeper in the county.", Body}, byGuess},
	otherRole:      {Rule{"other.role", Other, Warn, "a public role", "The sitting mayor asked.", Body}, byGuess},
	otherNews:      {Rule{"other.news", Other, Warn, "a news event", "It was on the local news.", Body}, byGuess},
	otherSubject:   {Rule{"other.subject", Other, Warn, "a trial subject's id", "Subject ID 0417", Body}, byLabel},
}

// Rules of files, beside those of texts.
const (
	RuleSound   = "biometric.sound" // a clip has a sound track
	RuleUnclean = "media.unclean"   // a published picture or clip holds more than it must
)

// Rules lists every text rule, sorted by class as the regulation has them.
func Rules() []Rule {
	out := make([]Rule, 0, len(ruleTable))
	for _, c := range Classes() {
		for _, r := range ruleTable {
			if r.Class == c {
				out = append(out, r.Rule)
			}
		}
	}
	return out
}
