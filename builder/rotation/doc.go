// Package rotation sends groups round stations: who is where in which round.
//
// Enter: a [Problem], numbers only: how many groups, stations and waves, and
// the demands (this group here in that round, or never there).
// Leave: a [Rotation] with its [Fairness], or the smallest set of demands that
// cannot be met together.
// Read [Solve] first, then design.go.
//
// What always holds: every group meets every station exactly once, no station
// has two groups in a round, and there are as many rounds as the larger of the
// two numbers. So with more groups than stations each group rests in
// groups − stations rounds, and with more stations than groups nobody rests.
//
// What is then made as good as it can be, in this order: the rests of a group
// lie apart; and every station follows every other equally often, so that no
// group's day is always the one order. The second is a Williams design where
// there is one (design.go); elsewhere a search (improve.go, exhaust.go) does
// what it can.
//
// All work is counted in nodes and bounded, never timed, so the same course
// gives the same rotation on every machine.
package rotation
