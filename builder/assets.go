package builder

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/js"

	"caseleaf/builder/prose"
)

// assets returns the files that pages share: the styles, joined in the order of
// their names into one sheet, that of pages made for paper, the style of
// marked-up code, and the scripts, each as a file of its own, so that a page
// loads only those it uses. A page names its scripts and the sheet for paper in
// the "head" of its template.
func assets(theme fs.FS) (map[string][]byte, error) {
	var style, paper bytes.Buffer
	if err := each(theme, "styles", ".css", func(_ string, data []byte) { style.Write(data) }); err != nil {
		return nil, err
	}
	if err := each(theme, "paper", ".css", func(_ string, data []byte) { paper.Write(data) }); err != nil {
		return nil, err
	}
	files := map[string][]byte{
		"assets/style.css": style.Bytes(), "assets/paper.css": paper.Bytes(), "assets/chroma.css": prose.StyleSheet(),
	}
	if err := each(theme, "scripts", ".js", func(name string, data []byte) { files["assets/"+name] = data }); err != nil {
		return nil, err
	}
	for name, data := range files {
		var err error
		if files[name], err = light(name, data); err != nil {
			return nil, &ThemeError{err}
		}
	}
	return files, nil
}

// each hands out the files of a theme's folder with an ending, in the order of
// their names. A theme needs no such folder.
func each(theme fs.FS, folder, ending string, use func(name string, data []byte)) error {
	list, err := fs.ReadDir(theme, folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return &ThemeError{err}
	}
	for _, f := range list {
		if path.Ext(f.Name()) != ending {
			continue
		}
		data, err := fs.ReadFile(theme, folder+"/"+f.Name())
		if err != nil {
			return &ThemeError{err}
		}
		use(f.Name(), bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n")))
	}
	return nil
}

// lighter leaves out of styles and scripts what is for whoever writes them, and
// every reader would load: comments, blanks, the long names within a script. Old
// browsers of a ward are given nothing newer than what the scripts are written in.
var lighter = func() *minify.M {
	m := minify.New()
	m.AddFunc(".css", css.Minify)
	m.Add(".js", &js.Minifier{Version: 2018})
	return m
}()

// light is a style or script, told by the ending of its name, as it is loaded. The
// error of a script that is none has its line and column.
func light(name string, data []byte) ([]byte, error) {
	out, err := lighter.Bytes(path.Ext(name), data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path.Base(name), err)
	}
	return out, nil
}
