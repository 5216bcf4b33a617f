package privacy

import (
	"strings"
	"unicode/utf8"
)

// valueKind is the shape a label's value must have.
type valueKind uint8

const (
	vCode    valueKind = iota // four or more letters and figures with a figure among them
	vShort                    // three or more characters with a figure
	vPhone                    // seven or more figures
	vDialed                   // three or more figures: bleeps, extensions
	vFour                     // four figures
	vPlate                    // capitals and figures, both, four to eight; or seventeen
	vName                     // capitalised words
	vAgent                    // one capitalised word of no trade: surgeon: X
	vDate                     // figures of a date in any order
	vPlace                    // capitalised words that are no country
	vAddress                  // capitalised words or a number
	vDegrees                  // a decimal number
	vHouse                    // capitalised words, a facility
)

// labelPhrase is one label: its words, what it labels, and whether a few words
// may stand before the value ("serial number of the lens was …").
type labelPhrase struct {
	words []string
	rule  ruleID
	value valueKind
	loose bool
}

// labelLists is the table of labels; phrases are in lower case without
// punctuation, separated by semicolons.
var labelLists = []struct {
	rule    ruleID
	value   valueKind
	loose   bool
	phrases string
}{
	{mrnLabel, vCode, true, "mrn; m r n; medical record number; medical record no; medical record; medical records number; hospital number; hospital no; hospital id; hosp number; hosp no; hosp num; unit number; unit no; ur number; ur no; urn; chart number; chart no; chart id; chart; patient id; patient identifier; patient number; patient no; patient ref; patient reference; pt id; pt no; pt; accession number; accession no; accession; episode number; episode no; episode id; case note number; case notes number; casenote number; casenote no; folder number; folder no; pas number; encounter number; encounter id; encounter no; visit number; visit id; admission number; admission no; specimen number; specimen no; lab number; lab no; uhid; opd number; opd no; ipd no; ip no; health record number; record number; record no; clinic number; clinic no; file number; file no; k number; theatre number; patientennummer; fallnummer; aktenzeichen; numéro de dossier; dossier no; dossier n; número de historia; historia clínica; nhc; numero di cartella; cartella clinica n; krankenaktennummer; hospital record"},
	{ssnLabel, vFour, true, "ssn; social security number; social security no; social security; ss number; ss no; ss; soc sec; last four of her ssn; last four of his ssn"},
	{idLabel, vCode, true, "nhs number; nhs no; nhs num; nhs; chi number; chi no; chi; health and care number; h c number; hcn; aadhaar number; aadhaar no; aadhaar; aadhar; adhaar; uidai; uid number; pps number; pps no; ppsn; pps; nir; insee; numéro de sécurité sociale; sécurité sociale; dni; nie; nif; sin number; sin; social insurance number; social insurance no; personnummer; cpr number; cpr nummer; cpr; fødselsnummer; henkilötunnus; codice fiscale; steuer id; steueridentifikationsnummer; rentenversicherungsnummer; sozialversicherungsnummer; ahv; bsn; burgerservicenummer; pesel; cpf; curp; nric; hkid; national insurance number; national insurance no; national insurance; ni number; ni no; nino; ihi number; ihi; abha number; abha; health card number; health card no; health number; ohip; nhi number; nhi no; nhi; tc kimlik; emirates id; iqama; identity card number; identity card no; identity number; id card number; id card no; id card; id number; national id; national identity number; national identification number; national health number; voter id; citizen id; pan card; pan number; rut; cedula; cédula"},
	{planLabel, vCode, true, "insurance id; insurance number; insurance no; insurance policy; insurance card; insurance; policy number; policy no; policy; policy id; member id; member number; member no; membership number; membership no; membership id; subscriber id; subscriber number; subscriber no; beneficiary id; beneficiary number; beneficiary no; beneficiary; group number; plan number; plan id; plan no; medicare number; medicare no; medicare card; medicare id; medicare; medicaid number; medicaid id; medicaid; mbi; health plan number; health plan id; health plan; insurer reference; payer id; claim number; claim no; claim id; versichertennummer; krankenversichertennummer; versicherungsnummer; ehic; carte vitale; numéro d assuré; tessera sanitaria"},
	{accountLabel, vCode, true, "account number; account no; account id; acct number; acct no; acct; a c no; a c number; bank account; account; iban; sort code; invoice number; invoice no; invoice id; invoice; receipt number; receipt no; receipt; card number; card no; card ending; card ending in; credit card; debit card; bill number; bill no; payment reference; payment ref; payment id; refund reference; refund ref; transaction id; transaction no; transaction number; routing number; routing no; kontonummer; konto; rechnungsnummer; rechnung nr; numéro de compte; número de cuenta; numero di conto; order number; order no"},
	{licenceLabel, vCode, true, "driving licence number; driving licence no; driving licence; driving license; driver s license; driver s licence; drivers license; drivers licence; driver licence; driver license; licence number; licence no; license number; license no; licence id; passport number; passport no; passport; pilot licence; firearms certificate; firearm certificate; shotgun certificate; certificate number; certificate no; birth certificate; fishing licence; taxi licence; führerschein nr; führerscheinnummer; führerschein; reisepass; reisepassnummer; permis de conduire; permiso de conducir; patente di guida; visa number; visa no; residence permit; hgv licence"},
	{licenceStaff, vCode, true, "gmc number; gmc no; gmc; nmc pin; npi number; npi; medical council number; medical council no; council registration; hcpc number; dea number; ahpra number; ahpra; professional registration number; medical registration number; goc number; goc"},
	{vehicleLabel, vPlate, false, "registration number; registration no; registration plate; registration mark; registration; reg number; reg no; reg plate; reg; number plate; licence plate; license plate; plate number; plate no; plates; plate; vin; vehicle identification number; chassis number; chassis no; tail number; hull number; kennzeichen; immatriculation; matrícula; targa; index mark; vehicle"},
	{deviceLabel, vCode, true, "serial number; serial no; serial num; serial nr; serial; s n; sn; ser no; seriennummer; numéro de série; número de serie; numero di serie; udi; device id; device identifier; device number; implant number; imei number; imei; asset tag; asset number; asset no; pacemaker number; implant id; sticker number"},
	{deviceLot, vCode, false, "lot number; lot no; lot; batch number; batch no; batch; charge nr; charge; chargennummer; lote"},
	{biometricLabel, vCode, true, "iris template; iris code; iris scan; iris enrolment; iris enrollment; iris print; iris id; iris recognition; face recognition; voice recognition; retina template; retina scan; retinal template; retinal scan; fingerprint template; fingerprint scan; fingerprint id; fingerprint; fingerprints; face template; face scan; face id; face print; facial template; facial scan; facial recognition; faceprint; voice template; voice print; voiceprint; voice id; voice scan; palm scan; palm print; palm vein; biometric id; biometric template; biometric reference; biometric; biometrics id; template id; enrolment id; vein scan"},
	{phoneLabel, vPhone, true, "tel; telephone; phone; mobile; mob; cell phone; cell; cellphone; ring; rings; rang; call; called; calls; whatsapp; sms; text; contact number; contact no; contact; rückruf; telefon; telefonnummer; handy; teléfono; téléphone; telefono; móvil; portable; landline; helpline; hotline; tlf; next of kin; reachable; reached; dial; ph; nok"},
	{phoneLabel, vDialed, false, "bleep; pager; ext; switchboard; bleep number; pager number; extension number; ward on extension; theatre on extension; clinic on extension; desk on extension; ring extension; call extension; dial extension; phone extension; dect"},
	{faxLabel, vPhone, true, "fax; fax number; fax no; faxed; faxes; telefax; facsimile; télécopie; telecopy"},
	{otherSubject, vShort, true, "subject id; subject no; subject number; participant id; participant no; participant number; trial participant no; trial participant; study id; study number; study no; trial number; trial id; trial no; randomisation number; randomization number; randomisation no; screening number; screening no; enrolment number; enrollment number; research id"},
	{dateLabel, vDate, false, "dob; d o b; date of birth; birth date; birthdate; birthday; geb; geburtsdatum; geb datum; date de naissance; fecha de nacimiento; f nac; fn; data di nascita; date of death; dod; date of surgery; date of operation; date of admission; date of visit; op date; surgery date; admission date; discharge date; date of injury; date"},
	{geoLabel, vDegrees, false, "lat; latitude; lon; lng; longitude; gps; coordinates; coords; geo; grid reference; gpslatitude; gpslongitude; gps lat; gps lon"},
	{geoLabel, vPlace, false, "town; city; village; county; hometown; home town; birthplace; place of birth; residence; place of residence; district; parish; borough; municipality; wohnort; ville; ciudad; città; place; region; suburb; country; nation; lives"},
	{geoLabel, vAddress, false, "address; home address; postal address; adresse; anschrift; dirección; indirizzo; lives at; resides at; residing at; living at; post town"},
	{geoZip, vShort, false, "postcode; post code; postal code; zip code; zip; zipcode; pin code; pincode; pin; plz; postleitzahl; code postal; código postal; cap code; eircode; po box; p o box; postfach"},
	{facilityNamed, vHouse, false, "hospital; clinic; facility; institution; employer; workplace; school; practice; gp surgery; care home; trust; affiliation"},
	{nameLabel, vName, false, "name; patient name; patient s name; patients name; pt name; full name; surname; last name; first name; forename; forenames; given name; family name; maiden name; pt; patient; nok; next of kin; carer; nom; prénom; nombre; apellido; apellidos; cognome; vorname; nachname; familienname; patientin; name der patientin; signed; signature; mother s name; father s name; husband s name; wife s name; emergency contact; contact name; contact; relative; cc"},
	{nameLabel, vAgent, false, "surgeon; operator; consultant; referrer; referred by; seen by; operated by; operated on by; listed by; reviewed by; assisted by; gp; anaesthetist; assistant; scrub nurse; supervisor; optometrist; narrated by; dictated by; interviewer; doctor; physician; performed by; witnessed by; recorded by; filmed by"},
}

// labels are the phrases that begin with one word, the longest first.
type labels struct {
	phrases []labelPhrase
	single  bool   // one of them has no other word
	second  uint64 // the letters that the second words of all others begin with
}

// letterBit is the bit of an ASCII letter, the same for small and capital.
func letterBit(c byte) uint64 { return 1 << (c & 0x1f) }

// mayBegin says whether one of the phrases may go on with this word.
func (l *labels) mayBegin(next string) bool {
	return l.single || next != "" && (next[0] >= utf8.RuneSelf || l.second&letterBit(next[0]) != 0)
}

// labelTrie finds phrases by their first word.
var labelTrie = buildLabels()

func buildLabels() map[string]*labels {
	all := map[string]*labels{}
	for first, list := range sortedLabels() {
		l := &labels{phrases: list}
		for _, p := range list {
			if len(p.words) == 1 {
				l.single = true
			} else if c := p.words[1][0]; c < utf8.RuneSelf {
				l.second |= letterBit(c)
			} else {
				l.second = ^uint64(0)
			}
		}
		all[first] = l
	}
	return all
}

func sortedLabels() map[string][]labelPhrase {
	m := map[string][]labelPhrase{}
	for _, l := range labelLists {
		for phrase := range strings.SplitSeq(l.phrases, ";") {
			w := strings.Fields(phrase)
			m[w[0]] = append(m[w[0]], labelPhrase{w, l.rule, l.value, l.loose})
		}
	}
	for first, list := range m {
		for i := 1; i < len(list); i++ { // insertion sort keeps the table's order among equals
			for k := i; k > 0 && len(list[k].words) > len(list[k-1].words); k-- {
				list[k], list[k-1] = list[k-1], list[k]
			}
		}
		m[first] = list
	}
	return m
}

// scanLabels reads every label with its value. A label word may be glued to
// its value: mrn4471902.
func (p *passage) scanLabels() {
	if p.zone == Caption {
		for i := range p.toks {
			p.labelFrom(i)
			if p.toks[i].is(blockHead) {
				p.speakerAt(i)
			}
			if p.in(i, digitWords) {
				p.spokenAt(i)
			}
		}
	} else {
		for _, i := range p.starts {
			p.labelFrom(int(i))
		}
	}
	if p.signs&openSign != 0 {
		p.udiParts()
	}
}

// labelFrom reads a label that begins with token i.
func (p *passage) labelFrom(i int) {
	switch t := &p.toks[i]; {
	case t.is(inMatch | inURL):
	case t.any(rLabel):
		p.labelAt(i)
	case t.mixed() && t.len() > 5:
		p.gluedAt(i)
	}
}

// labelAt tries the phrases that begin with token i. A phrase's value may
// serve a longer phrase only.
func (p *passage) labelAt(i int) {
	var buf [48]byte
	all := labelTrie[string(lower(buf[:0], p.word(i)))]
	if all == nil || !all.mayBegin(p.word(i+1)) {
		return
	}
	for _, l := range all.phrases {
		if end, ok := p.phraseEnd(i, l.words); ok && p.labelValue(l, i, end) {
			return
		}
	}
}

// phraseEnd matches the words of a label from token i on.
func (p *passage) phraseEnd(i int, words []string) (int, bool) {
	for k := 1; k < len(words); k++ {
		g := p.gap(i + k)
		if len(g) > 2 || strings.Contains(g, "\n") || !p.same(i+k, words[k]) {
			return 0, false
		}
	}
	return i + len(words) - 1, true
}

// gluedAt finds a label glued to its figures, as file names and exports have
// them.
func (p *passage) gluedAt(i int) {
	w := p.low(i)
	for _, l := range [...]struct {
		prefix string
		rule   ruleID
		digits int
	}{{"mrn", mrnLabel, 4}, {"dob", dateLabel, 6}, {"nhs", idLabel, 8}, {"chi", idLabel, 8}, {"ssn", ssnLabel, 4}, {"tel", phoneLabel, 7}, {"fax", faxLabel, 7}, {"sn", deviceLabel, 4}, {"pid", mrnLabel, 4}, {"uhid", mrnLabel, 4}, {"urn", mrnLabel, 4}, {"gmc", licenceStaff, 6}} {
		if rest := strings.TrimPrefix(w, l.prefix); rest != w && leadDigits(rest) >= l.digits && leadDigits(rest) == len(rest) {
			p.add(l.rule, i, i)
			return
		}
	}
}

// udiParts finds the serial (21) and lot (10) of a GS1 string.
func (p *passage) udiParts() {
	for _, i := range p.starts {
		i := int(i)
		if !p.toks[i].digits() || p.toks[i].len() != 2 || p.toks[i].a == 0 || p.s[p.toks[i].a-1] != '(' || !strings.HasPrefix(p.after(i), ")") {
			continue
		}
		if p.word(i) != "21" && p.word(i) != "10" || i+1 >= len(p.toks) || len(p.gap(i+1)) > 2 {
			continue
		}
		rule, end := deviceLabel, i+1
		if p.word(i) == "10" {
			rule = deviceLot
			if !p.toks[end].is(hasDigit) || p.toks[end].len() < 4 {
				continue
			}
		}
		for end+1 < len(p.toks) && p.gap(end+1) == "-" {
			end++
		}
		if p.toks[end].is(hasDigit) || p.toks[i+1].is(hasDigit) {
			p.add(rule, i+1, end)
		}
	}
}
