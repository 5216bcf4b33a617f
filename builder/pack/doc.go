// Package pack is a handout as it travels: its list of files, the zip it is sent
// in, and the check that a copy is still what was sent.
//
// Enter: files in an order, or the name of a zip or folder.
// Leave: a zip that is the same bytes for the same files, or a [Report] of what
// differs from the manifest inside.
// Read [Manifest] first, then [Write] and [Verify].
//
//	err := pack.Write(w, items)
//	report, err := pack.Verify("handout-2026.zip")
//
// Verify reads files that anybody may have made: it unpacks nothing to disk,
// reads no more of an entry than the manifest says it holds, and follows no link.
package pack
