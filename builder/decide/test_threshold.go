package decide

import "math/big"

// TestOrTreat are the probabilities of disease at which the choice between
// leaving alone, testing and treating changes.
type TestOrTreat struct {
	// Treatment is where treating equals leaving alone, without a test.
	Treatment *big.Rat
	// Testing is where testing equals leaving alone, TestTreatment where it
	// equals treating. They may lie outside 0 to 1 or be crossed.
	Testing, TestTreatment *big.Rat
	// Worthwhile says that between Testing and TestTreatment testing is best;
	// otherwise there is no such range, which is said and not drawn.
	Worthwhile bool
}

// TreatmentThreshold is the probability of disease above which treating is
// better than leaving alone: R/(B+R), with benefit B of treating disease and
// risk R of treating health. B + R must be above 0, otherwise nil.
//
// Pauker SG, Kassirer JP. N Engl J Med 1975;293:229-234.
func TreatmentThreshold(benefit, risk *big.Rat) *big.Rat {
	return ratio(risk, new(big.Rat).Add(benefit, risk))
}

// Thresholds gives the testing and the test-treatment threshold of a test with
// sensitivity Se and specificity Sp whose own risk is T:
//
//	testing        ((1-Sp)R + T)/((1-Sp)R + Se·B)
//	test-treatment (Sp·R - T)/(Sp·R + (1-Se)B)
//
// A threshold whose denominator is not above 0 is nil, and no test is then
// worthwhile.
//
// Pauker SG, Kassirer JP. N Engl J Med 1980;302:1109-1117.
func Thresholds(sensitivity, specificity, benefit, risk, testRisk *big.Rat) TestOrTreat {
	one := big.NewRat(1, 1)
	falseAlarm := new(big.Rat).Mul(new(big.Rat).Sub(one, specificity), risk)
	spared := new(big.Rat).Mul(specificity, risk)
	found := new(big.Rat).Mul(sensitivity, benefit)
	missed := new(big.Rat).Mul(new(big.Rat).Sub(one, sensitivity), benefit)
	t := TestOrTreat{
		Treatment:     TreatmentThreshold(benefit, risk),
		Testing:       ratio(new(big.Rat).Add(falseAlarm, testRisk), new(big.Rat).Add(falseAlarm, found)),
		TestTreatment: ratio(new(big.Rat).Sub(spared, testRisk), new(big.Rat).Add(spared, missed)),
	}
	t.Worthwhile = t.Testing != nil && t.TestTreatment != nil && t.Testing.Cmp(t.TestTreatment) < 0 &&
		t.Testing.Sign() >= 0 && t.TestTreatment.Cmp(one) <= 0
	return t
}

// ratio is a/b, nil unless b is above 0.
func ratio(a, b *big.Rat) *big.Rat {
	if b.Sign() <= 0 {
		return nil
	}
	return new(big.Rat).Quo(a, b)
}

// Revised is what a test result makes of a prevalence.
type Revised struct {
	// Positive is the probability of a positive result.
	Positive *big.Rat
	// PPV is the probability of disease after a positive result, NPV of health
	// after a negative one; nil where the result cannot occur.
	PPV, NPV *big.Rat
}

// Revise applies Bayes' rule at a test node:
//
//	PPV = p·Se/(p·Se + (1-p)(1-Sp)),  NPV = (1-p)Sp/((1-p)Sp + p(1-Se))
//
// All three are probabilities from 0 to 1. Ledley RS, Lusted LB. Science
// 1959;130:9-21 (from memory).
func Revise(prevalence, sensitivity, specificity *big.Rat) Revised {
	one := big.NewRat(1, 1)
	health := new(big.Rat).Sub(one, prevalence)
	truePositive := new(big.Rat).Mul(prevalence, sensitivity)
	falsePositive := new(big.Rat).Mul(health, new(big.Rat).Sub(one, specificity))
	trueNegative := new(big.Rat).Mul(health, specificity)
	positive := new(big.Rat).Add(truePositive, falsePositive)
	return Revised{
		Positive: positive,
		PPV:      ratio(truePositive, positive),
		NPV:      ratio(trueNegative, new(big.Rat).Sub(one, positive)),
	}
}
