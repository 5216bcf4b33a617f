package themes

import (
	"embed"
	"io/fs"
)

//go:embed layout.tmpl pages/*.tmpl pages/_*.tmpl styles/*.css paper/*.css scripts/*.js charts/charts.js charts/charts.css epub/book.css
var files embed.FS

// FS returns the embedded theme: layout.tmpl, pages/*.tmpl, styles/*.css,
// paper/*.css, scripts/*.js, and charts/charts.js with charts/charts.css.
func FS() fs.FS { return files }
