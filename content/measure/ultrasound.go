package measure

// Ultrasound is one stretch of ultrasound: the seconds it was on and its mean power.
type Ultrasound struct {
	Seconds   float64 // 0 or more
	MeanPower Percent // 0 to 100
}

// EffectiveSeconds gives the effective phaco time, as if at full power: time x power
// (common practice, makers differ; no source).
func (u Ultrasound) EffectiveSeconds() float64 { return u.Seconds * float64(u.MeanPower) / 100 }

// UltrasoundTotal is the sum over the stretches of one operation.
type UltrasoundTotal struct {
	Seconds          float64
	EffectiveSeconds float64
}

// SumUltrasound adds stretches of ultrasound.
func SumUltrasound(parts []Ultrasound) UltrasoundTotal {
	var t UltrasoundTotal
	for _, p := range parts {
		t.Seconds += p.Seconds
		t.EffectiveSeconds += p.EffectiveSeconds()
	}
	return t
}

// MeanPower gives the power weighted by time, and false when the ultrasound was never on:
// 30 s at 10 % and 15 s at 40 % are 20 %, not 25 %.
func (t UltrasoundTotal) MeanPower() (Percent, bool) {
	if t.Seconds <= 0 {
		return 0, false
	}
	return Percent(100 * t.EffectiveSeconds / t.Seconds), true
}
