// Package cache keeps between two builds what the first worked out, so that the
// second need not.
//
// Enter: a value to keep and what it was worked out from. Leave: the same value,
// or nothing.
//
//	inputs ──► Digest ──┐
//	program ─► Program ─┴─► File.Load ──► the value, when every sum agrees
//	                        File.Save ◄── the value of this build
//
// What a cache says is never believed on its word. A file is taken only when its
// form, its program, its machine and a sum over all its bytes are those expected;
// one that is missing, cut short, changed by a bit, or of another program or
// machine counts as none, and is written anew. Everything in it can be worked out
// again from the bank, so it may be deleted at any time.
//
// A folder that was read once need not be read again while it looks the same: see
// [Stamp] for what that rests on, and [Look].
//
// Read [File] first, then [Digest].
package cache
