// Package tally counts a bank: how often, out of how many, how sure.
//
// A one-minute tour. Two sources are kept apart all the way. Rates come only
// from the consecutive logbook: a [Counter] takes its operations one by one and
// keeps counts, no rows. Everything else comes from the written-up cases, which
// were chosen because they teach, and stays a count or a time: where complications
// began, how long until they were noticed and acted on, how long steps took, what
// was chosen and what came of it, acuity before and after.
//
//	r := tally.Of(bank, bank.Cases)  // everything, for the author
//	p := r.Published()               // what may leave the house
//	json.NewEncoder(w).Encode(p)     // numbers unrounded, undefined is null
//	p.Tables()                       // the same as tables, for CSV and terminals
//
// [Result.Published] applies the small-count rule: counts from 1 to threshold-1
// are hidden and enough others with them that none can be worked out again from
// anything else that is printed, and p values are left out.
package tally
