package builder

import (
	"bytes"
	"errors"
	"io/fs"
	"path"
	"strings"

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
		"assets/style.css": lightStyle(style.Bytes()), "assets/paper.css": lightStyle(paper.Bytes()), "assets/chroma.css": prose.StyleSheet(),
	}
	return files, each(theme, "scripts", ".js", func(name string, data []byte) {
		files["assets/"+name] = lightScript(data)
	})
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

// lightStyle takes comments, line ends and needless blanks out of a style sheet:
// they are for whoever writes it, and every reader would load them. Texts in
// quotes are left as they are, and so are the blanks between words.
func lightStyle(css []byte) []byte {
	var out bytes.Buffer
	var quote byte
	last := func() byte {
		if out.Len() == 0 {
			return '}'
		}
		return out.Bytes()[out.Len()-1]
	}
	for i := 0; i < len(css); i++ {
		c := css[i]
		switch {
		case quote != 0:
			if c == '\\' && i+1 < len(css) {
				out.WriteByte(c)
				i++
				c = css[i]
			} else if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '/' && i+1 < len(css) && css[i+1] == '*':
			end := bytes.Index(css[i+2:], []byte("*/"))
			if end < 0 {
				return out.Bytes()
			}
			i += end + 3
			continue
		case c == ' ' || c == '\n' || c == '\t':
			if strings.IndexByte("{};:,> ", last()) < 0 {
				out.WriteByte(' ')
			}
			continue
		case (c == '{' || c == '}' || c == '>') && last() == ' ':
			out.Truncate(out.Len() - 1)
		case c == '0' && i+2 < len(css) && css[i+1] == '.' && isDigit(css[i+2]) && strings.IndexByte(" :,(-", last()) >= 0:
			continue // 0.5 is .5
		}
		if c == '}' && quote == 0 && last() == ';' {
			out.Truncate(out.Len() - 1)
		}
		out.WriteByte(c)
	}
	return out.Bytes()
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// lightScript takes indents, needless blanks, needless line ends and comments that
// stand on lines of their own out of a script. A script with a template literal or
// a text that goes on over a line's end, where blanks may be part of a text, is
// left as it is.
func lightScript(js []byte) []byte {
	if bytes.IndexByte(js, '`') >= 0 || bytes.Contains(js, []byte("\\\n")) {
		return js
	}
	var out bytes.Buffer
	comment := false
	for line := range bytes.Lines(js) {
		line = bytes.TrimSpace(line)
		switch {
		case comment:
			comment = !bytes.HasSuffix(line, []byte("*/"))
		case bytes.HasPrefix(line, []byte("/*")):
			comment = !bytes.HasSuffix(line, []byte("*/"))
		case len(line) > 0 && !bytes.HasPrefix(line, []byte("//")):
			out.Write(tight(line))
			if !goesOn(line) {
				out.WriteByte('\n')
			}
		}
	}
	return out.Bytes()
}

// goesOn reports that a line's end has no meaning: a statement, a list or a block
// goes on, and no comment ends there.
func goesOn(line []byte) bool {
	return strings.IndexByte("{(,;", line[len(line)-1]) >= 0 && !bytes.Contains(line, []byte("//"))
}

// tight takes the blanks round brackets and signs out of one line of a script,
// outside its strings. A line with a slash, which may begin a regular expression
// or a comment, is left as it is; so are signs that may stand doubled.
func tight(line []byte) []byte {
	const signs = "{}()[];,=<>?:&|*!"
	var out []byte
	var quote byte
	for i := 0; i < len(line); i++ {
		c := line[i]
		switch {
		case quote != 0 && c == '\\' && i+1 < len(line):
			out = append(out, c)
			i++
			c = line[i]
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '/':
			return line
		case c == ' ' && len(out) > 0 && strings.IndexByte(signs, out[len(out)-1]) >= 0,
			c == ' ' && i+1 < len(line) && strings.IndexByte(signs, line[i+1]) >= 0:
			continue
		}
		out = append(out, c)
	}
	return out
}
