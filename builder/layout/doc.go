// Package layout executes templates that html/template has made safe, with a
// fraction of its work: a handout is laid out from a few templates, thousands of
// times each.
//
// Enter: a template. Leave: the same bytes that its own Execute writes.
//
//	html/template: parse ─► escape ──► a tree with an escaper behind all that is printed
//	                                   │
//	                            Compile┴─► steps ──► Execute
//
// What is safe where is decided by html/template alone: it puts an escaper behind
// each thing that is printed. Compile takes a template only when an escaper that
// this package knows stands there; an escaper does short work of text that needs
// none, and leaves the rest to html/template. Whatever else a template holds that
// this package does not know, Compile refuses, and what goes wrong ends Execute;
// the caller then lays the page out by html/template.
//
// Read [Compile] first, then [Template.Execute].
package layout
