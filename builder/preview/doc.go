// Package preview shows a bank as a handout while its author writes: a save is
// on the screen at once, a mistake is shown over the last good version, and
// nothing is published.
//
// Enter: a bank's folder and an address of this machine. Leave: pages over HTTP,
// each scanned by the privacy gate as a build would scan it.
//
//	watcher ──► settle ──► read, check ──► version ──► server ──► live.js
//	(folders)   (saves)                   (the last     (pages)    (reloads what
//	                                       good one)                changed)
//
// Read [Preview] first, then settle.go, which tells a save that is whole from
// one that an editor is still writing.
package preview
