package inside

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
)

// Code is the text of a function of lib, "" for one whose source is not here.
func (l *Library) Code(path, name string) string {
	from, ok := l.world.Source(path)
	if !ok {
		return ""
	}
	files, _ := fs.Glob(from, "*.go")
	for _, file := range files {
		text, err := from.ReadFile(file)
		if err != nil {
			continue
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, file, text, parser.SkipObjectResolution)
		if err != nil {
			continue // a test reads them all
		}
		for _, d := range f.Decls {
			if d, ok := d.(*ast.FuncDecl); ok && d.Recv == nil && d.Name.Name == name {
				return string(text[fset.Position(d.Pos()).Offset:fset.Position(d.End()).Offset])
			}
		}
	}
	return ""
}
