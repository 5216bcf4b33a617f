// Package themes holds the look of a handout: templates, style sheets and
// scripts, embedded. A bank may lay files of its own over any of them, so the
// names below are an interface.
//
// # Templates
//
// Every page is layout.tmpl, executed with a builder.Frame. The page's own file
// pages/<name>.tmpl defines the template "main", which the layout calls with the
// same frame. Files of pages whose names begin with an underscore hold partials
// that every page may call. A page file may also define
//
//	"head"   more elements of the document's head; empty by default
//
// Inside a template:
//
//	.Root       "" or "../": stands before every path of the handout
//	.Site       the edition: title, language, whether the data are invented
//	.Data       the page's struct, such as builder.CasePage
//	.Word "k"   the interface's words for the key k (builder/words.go)
//	.With x     the frame again with x as its data, for calling a partial
//
// Templates lay out and compute nothing: every number, order and link is in the
// page's struct. Paths in a struct are relative to the handout and are written
// with the root before them:
//
//	<a href="{{$.Root}}{{.Path}}">{{.Text}}</a>
//
// # Pages
//
//	start          index.html
//	case           cases/<id>.html          cases          cases.html
//	source         sources/<id>.html
//	step           steps/<id>.html          steps          steps.html
//	complication   complications/<id>.html  complications  complications.html
//	technique      techniques/<id>.html     techniques     techniques.html
//	decision       decisions/<id>.html      decisions      decisions.html
//	course         courses/<id>.html        courses        courses.html
//	risks          risk-factors.html        glossary       glossary.html
//	about          about.html               cautions       cautions.html
//	frequencies    frequencies.html         frequency      frequencies/<id>.html
//
// # Styles
//
// styles/*.css are joined in the order of their names into assets/style.css.
// Colours and sizes come in two layers: 10-palette.css names what there is,
// 20-intent.css says what each is for, and only intents are used further on.
// Dark mode, print and forced colours change intents and nothing else. Classes
// are written Block, Block-part, Block--variant; js- marks what scripts touch.
// Properties are logical (inline, block), so that a page can run right to left.
//
// # Scripts
//
// scripts/*.js only add: every page is complete without them. Each is served as
// a file of its own, assets/<name>.js, and loaded by the pages whose "head"
// names it, deferred, so that no reading waits for it:
//
//	{{define "head"}}<script defer src="{{.Root}}assets/exercise.js"></script>{{end}}
//
// They are classic scripts, since a page opened from a disk loads no modules.
// The policy in layout.tmpl lets nothing run that is not such a file, and lets
// nothing be sent; a theme of a bank's own is held to it too. charts/charts.js
// is loaded by pages with interactive figures alone, and only where the handout
// has the chart library.
package themes
