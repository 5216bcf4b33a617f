// Package kit works out what a course needs: what to buy, what lies on each
// bench, and how a stock is diluted.
//
// Enter: a [content.Course] without errors.
// Leave: [Shopping], [Bench] and [Dilutions]: numbers and ids, no words.
// Read [Shopping] first, then dilute.go.
//
// The rules, in one place:
//
//   - What stands per station is counted once for each station, however many
//     groups and waves come. What is per group or per participant is used up:
//     it is counted for every group or participant of every wave.
//   - What is carried from station to station, such as splash glasses, is not
//     used up: the most that any one station asks for serves them all, in every
//     wave.
//   - The course's spares are added to what is per group or per
//     participant. What stands per station gets spares only where its own line says so.
//   - Lines of one term, size and bought strength are one line to buy: their
//     needs and their spares are added exactly, and rounded up once, at the end.
//     500 µL and 0.5 mL are one size.
//   - What is sold in packs is rounded up to whole packs; what is bought by
//     volume to whole vials.
//
// Amounts are exact fractions throughout; nothing is rounded before it is shown.
package kit
