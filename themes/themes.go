package themes

import (
	"embed"
	"io/fs"
)

//go:embed layout.tmpl pages/*.tmpl pages/_*.tmpl styles/*.css charts/charts.js charts/charts.css
var files embed.FS

// FS returns the embedded theme: layout.tmpl, pages/*.tmpl, styles/*.css,
// charts/charts.js with charts/charts.css and, where there are any, scripts/*.js.
func FS() fs.FS { return files }
