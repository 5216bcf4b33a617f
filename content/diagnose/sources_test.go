package diagnose_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"caseleaf/content/diagnose"
)

// sources parses every Go file of the repository that is no test.
func sources(t *testing.T) map[string]*ast.File {
	t.Helper()
	files := map[string]*ast.File{}
	set := token.NewFileSet()
	for _, folder := range []string{"cmd", "content", "builder"} {
		err := filepath.WalkDir("../../"+folder, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
			if err == nil {
				files[path] = file
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return files
}

// isCode reports the type diagnose.Code, also as the package itself writes it.
func isCode(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.SelectorExpr:
		x, ok := e.X.(*ast.Ident)
		return ok && x.Name == "diagnose" && e.Sel.Name == "Code"
	case *ast.Ident:
		return e.Name == "Code"
	}
	return false
}

// codePlaces says where a code is taken: by function the index of the
// parameter, and the names of fields. Functions that are not exported are known
// by their package and name.
type codePlaces struct {
	parameters map[string]map[int]bool
	fields     map[string]bool
}

func functionKey(path, name string) string {
	if ast.IsExported(name) {
		return name
	}
	return filepath.Dir(path) + "." + name
}

func findPlaces(files map[string]*ast.File) codePlaces {
	p := codePlaces{map[string]map[int]bool{}, map[string]bool{}}
	for path, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				key := functionKey(path, n.Name.Name)
				for i, is := range flat(n.Type.Params) {
					if !is {
						continue
					}
					if p.parameters[key] == nil {
						p.parameters[key] = map[int]bool{}
					}
					p.parameters[key][i] = true
				}
			case *ast.Field:
				if isCode(n.Type) {
					for _, name := range n.Names {
						p.fields[name.Name] = true
					}
				}
			}
			return true
		})
	}
	return p
}

// flat says for each parameter or field, one by one, whether it takes a code.
func flat(list *ast.FieldList) []bool {
	var out []bool
	for _, f := range list.List {
		for range max(1, len(f.Names)) {
			out = append(out, isCode(f.Type))
		}
	}
	return out
}

// usedCodes gathers every code literal that the sources give to a parameter,
// field, constant or conversion of type diagnose.Code, with a file that does.
func usedCodes(files map[string]*ast.File) map[string]string {
	places := findPlaces(files)
	used := map[string]string{}
	add := func(e ast.Expr, path string) {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if code, err := strconv.Unquote(lit.Value); err == nil && code != "" {
				used[code] = path
			}
		}
	}
	for path, file := range files {
		if strings.HasPrefix(filepath.Base(path), "codes_") {
			continue
		}
		// A method may be held in a variable: add := bag.Warn.
		held := map[string]string{}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				name := ""
				switch f := n.Fun.(type) {
				case *ast.Ident:
					name = f.Name
				case *ast.SelectorExpr:
					name = f.Sel.Name
				}
				if method := held[name]; method != "" {
					name = method
				}
				for i, arg := range n.Args {
					if places.parameters[functionKey(path, name)][i] || i == 0 && isCode(n.Fun) {
						add(arg, path)
					}
				}
			case *ast.KeyValueExpr:
				if key, ok := n.Key.(*ast.Ident); ok && key.Name == "Code" && places.fields["Code"] {
					add(n.Value, path)
				}
			case *ast.ValueSpec:
				if n.Type != nil && isCode(n.Type) {
					for _, v := range n.Values {
						add(v, path)
					}
				}
			case *ast.AssignStmt:
				for i, left := range n.Lhs {
					name, ok := left.(*ast.Ident)
					if !ok || i >= len(n.Rhs) {
						continue
					}
					if name.Name == "code" {
						add(n.Rhs[i], path)
					}
					if method, ok := n.Rhs[i].(*ast.SelectorExpr); ok && places.parameters[method.Sel.Name] != nil {
						held[name.Name] = method.Sel.Name
					}
				}
			case *ast.CompositeLit:
				addRows(n, path, add)
			}
			return true
		})
	}
	return used
}

// addRows reads tables: slices of unnamed structs with a field of type Code.
func addRows(n *ast.CompositeLit, path string, add func(ast.Expr, string)) {
	array, ok := n.Type.(*ast.ArrayType)
	if !ok {
		return
	}
	row, ok := array.Elt.(*ast.StructType)
	if !ok {
		return
	}
	for i, is := range flat(row.Fields) {
		if !is {
			continue
		}
		for _, element := range n.Elts {
			if cells, ok := element.(*ast.CompositeLit); ok && i < len(cells.Elts) {
				add(cells.Elts[i], path)
			}
		}
	}
}

// TestEveryCodeIsExplained reads the sources: a code that they use has a help
// page, and a help page has a code that is used.
func TestEveryCodeIsExplained(t *testing.T) {
	used := usedCodes(sources(t))
	if len(used) < 40 {
		t.Fatalf("only %d codes found in the sources; the search itself is broken", len(used))
	}
	for code, path := range used {
		if _, ok := diagnose.Explain(diagnose.Code(code)); !ok {
			t.Errorf("%s uses the code %q, which has no explanation", path, code)
		}
	}
	for _, e := range diagnose.Explanations() {
		if used[string(e.Code)] == "" {
			t.Errorf("the code %q is explained but nothing uses it", e.Code)
		}
	}
}
