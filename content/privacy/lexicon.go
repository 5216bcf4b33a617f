package privacy

import (
	_ "embed"
	"strings"
)

// The roles. A word may have several: May is a month and a plain word.
const (
	rTrade         role = 1 << iota // word of the vocabulary, or of the bank
	rPlain                          // ordinary English word
	rNoun                           // trade noun that makes the word before it an eponym
	rEponym                         // eponym of the dead
	rEponymNoun                     // eponym that needs a trade noun beside it
	rGiven                          // given name
	rPlace                          // country, nation or first-level state
	rHonorific                      // Mr, Mrs, Frau
	rSoftTitle                      // Sister, Captain, Miss: also ordinary words
	rTitle                          // Dr, Prof
	rRelative                       // daughter, husband, carer
	rRole                           // surgeon, trainee: roles that may be named
	rMonth                          // month name in one of several languages
	rVague                          // month name that is also another word
	rSeason                         // spring, quarter
	rWeekday                        //
	rUnit                           // unit of measurement, or thing counted
	rVersion                        // firmware, software, version
	rLiterature                     // doi, pmid, isbn
	rFacility                       // hospital, clinic
	rFacilityFirst                  // Klinikum, Hôpital: the name follows
	rGeneric                        // district, general: no name of a facility
	rStreet                         // Street, Row
	rStreetFirst                    // rue, calle, via: the name follows
	rSettlement                     // village, county
	rHome                           // lives, born, resident
	rNumber                         // number word
	rOrdinal                        // ordinal word
	rBody                           // eye, lens, operation after a possessive
	rSuper                          // only, first, youngest
	rPublic                         // mayor, bishop
	rParticle                       // van, de, la inside a name
	rLabel                          // first word of a label phrase
	rHoliday                        // Christmas, Easter
	rCalled                         // called, named
	rFace                           // face, facial, portrait
	rNews                           // press, newspaper, television
	rCue                            // function words that no name follows directly
	rSign                           // words that a rule looks for one by one
	rArabic                         // word of words/arabic.txt
	rArea                           // county, country, world: what somebody is the only one in
)

//go:embed words/plain.txt
var plainWords string

//go:embed words/everyday.txt
var everydayWords string

//go:embed words/given.txt
var givenWords string

//go:embed words/eponyms.txt
var eponymWords string

//go:embed words/places.txt
var placeWords string

//go:embed words/nouns.txt
var nounWords string

// cueWords are the short lists; one line a role.
var cueWords = map[role]string{
	rHonorific:     "mr mrs ms mx herr herrn frau fräulein mme mlle madame monsieur mesdames messrs señora señor señorita senora senor sra srta signora signor signorina sig doña dona smt shri shrimati kumari meneer mevrouw mevr dhr fru lady sir dame rev reverend cllr sgt sergeant capt lt pani panie monsignor ayatollah sheikh sheikha begum tante onkel",
	rSoftTitle:     "miss master sister nurse matron captain major colonel lieutenant constable judge justice councillor alderman father brother mother rabbi imam lord don sri sr hr pan señores granny grandma grandpa nan aunt auntie uncle corporal private inspector",
	rTitle:         "dr prof professor doctor dott dra docteur doktor dottore dottoressa profesora profesor professeur",
	rRelative:      "mother father mum mam mom dad daughter son wife husband brother sister aunt uncle niece nephew cousin grandmother grandfather grandson granddaughter grandchild stepson stepdaughter godson goddaughter stepmother stepfather partner carer caregiver neighbour neighbor friend widow widower fiancé fiancée fiancee guardian twin spouse boyfriend girlfriend ehefrau ehemann tochter sohn bruder schwester enkelin enkel nachbarin nachbar fille fils épouse époux frère soeur sœur mari hija hijo esposa esposo marido hermana hermano figlia figlio moglie marito sorella fratello housekeeper flatmate roommate landlady landlord employer boss colleague interpreter chaplain",
	rRole:          "surgeon trainee consultant registrar resident fellow nurse anaesthetist anesthetist narrator assistant speaker tutor patient supervisor participant host moderator interviewer interviewee voice audience q a music optometrist technician operator scrub staff student learner teacher presenter commentator doctor physician reviewer editor author tutors trainer team observer circulating runner orthoptist organiser panel chair male female man woman unknown carer relative daughter son wife husband mother father",
	rMonth:         "january february april june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec may march januar februar märz maerz mai juni juli oktober dezember jänner okt dez janvier février fevrier mars avril juin juillet août aout septembre octobre novembre décembre decembre enero febrero marzo abril mayo junio julio agosto septiembre setiembre octubre noviembre diciembre gennaio febbraio aprile maggio giugno luglio settembre ottobre dicembre janeiro fevereiro março maio junho julho setembro outubro novembro dezembro januari februari maart mei augustus",
	rVague:         "may march mar mars mai mei jan dec oct sep jun jul apr feb nov aug sept august april june augustus okt dez",
	rSeason:        "spring summer autumn winter fall springtime summertime midsummer midwinter quarter q1 q2 q3 q4 h1 h2 frühjahr frühling sommer herbst printemps été automne hiver primavera verano otoño invierno estate autunno inverno",
	rWeekday:       "monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thur thurs fri sat sun montag dienstag mittwoch donnerstag freitag samstag sonntag lundi mardi mercredi jeudi vendredi samedi dimanche lunes martes miércoles jueves viernes sábado domingo lunedì martedì mercoledì giovedì venerdì sabato domenica",
	rUnit:          "mm µm μm um nm cm m ml l mg µg μg mcg ug g kg iu d ds mmhg cc khz mhz hz degrees degree deg s sec secs second seconds ms min mins minute minutes h hr hrs hour hours gauge eyes eye cells patients operations cases mmol mol mj w cuts pulses frames fps dpi px percent per dioptre dioptres diopter diopters units lux bar kpa microns micron mmw cycles shots turns drops weeks week months month days day points people learners residents surgeons procedures rows pages k logmar letters lines clock times sheets copies sutures bites o",
	rVersion:       "version firmware software build release codec v ver revision rev driver api player planner sdk kernel update",
	rLiterature:    "doi pmid pmcid isbn issn nct isrctn eudract ctri iso iec en arxiv orcid gtin clinicaltrials euctr actrn umin chictr drks",
	rFacility:      "hospital infirmary clinic hospice sanatorium polyclinic dispensary practice surgery trust unit institute institution centre center home department ward college school prison barracks monastery convent nursery krankenhaus klinik spital augenklinik universitätsklinik ziekenhuis sjukhus hospitals clinics pharmacy academy university mill factory colliery eyeclinic ambulatory hmp",
	rFacilityFirst: "klinikum universitätsklinikum krankenhaus augenklinik hôpital hopital clinique ospedale policlinico clínica clinica hospital chu klinik szpital polyclinique ziekenhuis sanatorio università",
	rGeneric:       "district general eye hospital clinic tertiary university teaching regional community city county local central national day private base referral rural mission military veterans cottage outreach academic nhs service the a an our your their this that one two hospitals women children memorial ophthalmic ophthalmology ophthalmological surgical medical health care nursing residential trust unit centre center institute primary secondary public state government charitable charity foundation outpatient inpatient emergency acute cataract retina cornea vitreoretinal glaucoma paediatric pediatric specialist large small busy new old first second same another any every each no my his her its referring receiving neighbouring nearby other acute single multi virtual mobile high low volume stand alone free village town urban remote royal-type group home wet dry training research teaching independent sector at in of and for to from with on by",
	rStreet:        "street st road rd row avenue ave lane ln close way drive court crescent cres terrace place square gardens grove boulevard blvd mews parade quay walk yard highway hwy parkway circle trail rise hill gate green view wharf villas estate strand",
	rStreetFirst:   "rue calle via viale piazza corso chemin impasse avenida plaza paseo rua allée quai boulevard avenue strada carrer travessa",
	rSettlement:    "village town city county parish borough district hamlet suburb municipality township province region shire commune dorf stadt gemeinde pueblo ville island isle valley locality settlement market",
	rHome:          "lives lived live living resides resided residing resident home born raised settled dwells address house farm farms grew wohnhaft wohnt habite vive abita native inhabitant moved relocated domiciled retired residence cottage hometown",
	rNumber:        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand nonagenarian nonagenarians centenarian centenarians supercentenarian nineties",
	rOrdinal:       "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth thirtieth ninetieth hundredth",
	rBody:          "eye eyes lens cataract cataracts vision operation surgery pupil cornea capsule iol retina acuity daughter son wife husband mother father notes consent left right fellow bag iris nucleus visit drops glasses implant biometry refraction family carer case recovery sight lids lid face history second first better only other good hand hands chart letter spectacles rhexis recording video film film's block anterior posterior white dense phaco procedure op postoperative preoperative follow endothelium pressure axial sister brother neighbour gp bedside age birthday phone house home village wristband record records appointment medication insurance",
	rSuper:         "only first youngest oldest sole tallest last heaviest longest smallest largest richest eldest fastest best",
	rPublic:        "mayor mayoress minister bishop archbishop senator champion medallist medalist olympian governor ambassador premier president deputy footballer goalkeeper newsreader broadcaster duke duchess prince princess king queen earl countess chancellor astronaut celebrity actress actor laureate congressman congresswoman councillor mp weatherman presenter striker jockey conductor",
	rParticle:      "van von der den de la le du di da del della dos das el al bin ibn ben y zu zur ter ten af av mac mc o d st san",
	rHoliday:       "christmas boxing easter thanksgiving halloween diwali eid ramadan hanukkah hogmanay whitsun pentecost epiphany michaelmas bonfire valentine's valentine new weihnachten silvester ostern noël pâques navidad ferragosto ascension lent passover holi bank midsummer independence labour remembrance good burns",
	rCalled:        "called named known nicknamed",
	rFace:          "face fullface facial portrait mugshot headshot selfie mug portraits passport voiceprint faceprint external",
	rNews:          "press newspaper newspapers television tv news radio headlines viral tabloid tabloids media documentary gazette bulletin",
	rArea:          "county country world village region state district town nation city island parish province valley continent kingdom globe hemisphere canton commune area",
	rSign:          "at began noticed acted until year www",
	rCue:           "the a an and or but if of in on at to for with by from as is was were are be it its this that these those he she they we you i his her their our not no yes than then when while where after before until since into over under between during per via so such each every any all some both either neither other another which who whom whose what why how do does did has have had will would can could should may might must shall there here now only also still again very more most less least just about",
}

// fillRoles builds the word table of a scanner.
func (sc *Scanner) fillRoles(words, eponyms []string) {
	m := make(map[string]role, 16384)
	p := passage{sc: sc}
	sc.table = newWordTable(nil)
	add := func(text string, r role) {
		for _, w := range strings.Fields(text) {
			m[w] |= r
		}
	}
	add(withoutNotes(plainWords), rPlain)
	add(withoutNotes(everydayWords), rPlain)
	add(withoutNotes(givenWords), rGiven)
	add(withoutNotes(placeWords), rPlace)
	add(withoutNotes(nounWords), rNoun)
	always, beside, _ := strings.Cut(withoutNotes(eponymWords), "with-noun")
	add(strings.TrimPrefix(strings.TrimSpace(always), "always"), rEponym)
	add(beside, rEponymNoun)
	for r, text := range cueWords {
		add(text, r)
	}
	for _, w := range words {
		p.s = w
		p.tokenise(false)
		for _, t := range p.toks {
			m[string(lower(nil, w[t.a:t.b]))] |= rTrade
		}
	}
	for w, r := range m {
		if r&rCue != 0 { // "rotating the nucleus" does not make "the" a word of the trade
			m[w] = r &^ rTrade
		}
	}
	for w := range arabicWords {
		m[w] |= rArabic
	}
	for first := range labelTrie {
		m[first] |= rLabel
	}
	for _, e := range eponyms {
		m[string(lower(nil, e))] |= rEponym
	}
	sc.table = newWordTable(m)
}

// widePlaces are the countries and states of more than one word, by their
// first two words.
var widePlaces = func() map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(withoutNotes(placeWords)) {
		if strings.Contains(w, "_") {
			m[strings.ReplaceAll(w, "_", " ")] = true
		}
	}
	return m
}()

// clinicalEnds end words of medicine that no list may know and no name has.
var clinicalEnds = []string{"itis", "osis", "ectomy", "otomy", "plasty", "pathy", "aemia", "emia", "oid", "tion", "graphy", "scopy", "metry", "lysis", "ical", "ular", "eal", "ology", "stasis", "trophy", "rrhage", "opsia", "tropia", "phoria", "mycin", "floxacin", "caine", "prost", "olol", "mide", "cillin", "mab", "ococcus", "bacter", "ase", "ial", "otic", "etic", "atic"}

// clinical says whether a word ends as words of medicine do.
func clinical(w string) bool {
	for _, end := range clinicalEnds {
		if len(w) > len(end)+2 && strings.HasSuffix(w, end) {
			return true
		}
	}
	return false
}

// withoutNotes drops the lines of a word file that begin with #.
func withoutNotes(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, "#") {
			b.WriteString(line)
		}
	}
	return b.String()
}

// roles looks a word up.
func (sc *Scanner) roles(word string) role { return sc.table.lookupLong(word) }
