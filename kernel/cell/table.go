package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/lib/table"
)

// Table("hold.csv") reads a file beside the note. The note reads what a cell
// names before it computes anything, and computes the cell again when the file
// has changed; so the name is written out.

// tableFile is the file that a call of Table names.
func tableFile(call *ast.CallExpr) (file string, ok bool) {
	id, isName := ast.Unparen(call.Fun).(*ast.Ident)
	if !isName || id.Name != "Table" || len(call.Args) != 1 {
		return "", false
	}
	lit, isLiteral := ast.Unparen(call.Args[0]).(*ast.BasicLit)
	if !isLiteral || lit.Kind != token.STRING {
		return "", false
	}
	file, err := strconv.Unquote(lit.Value)
	return file, err == nil
}

// filesIn lists the files that tables in the nodes are read from, sorted.
func filesIn(nodes []ast.Node) []string {
	var files []string
	for _, n := range nodes {
		ast.Inspect(n, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				if file, ok := tableFile(call); ok {
					files = append(files, file)
				}
			}
			return true
		})
	}
	slices.Sort(files)
	return slices.Compact(files)
}

// findFiles lists the files that the cell reads.
func (p *Parsed) findFiles() {
	nodes := []ast.Node{p.declFile, p.stmtFile}
	for _, s := range p.stmts {
		if s.spec != nil {
			nodes = append(nodes, s.spec) // an override stands in it alone
		}
	}
	p.Files = filesIn(nodes)
}

// FilesOf lists the files that the definition of a name reads itself.
func (c *Checked) FilesOf(name string) []string {
	if len(c.Files) == 0 {
		return nil
	}
	return filesIn(c.nodesOf(name))
}

// unnamedTables refuses tables whose file the note cannot know beforehand.
func (c *Checked) unnamedTables() []*Error {
	good := map[*ast.Ident]bool{}
	var errs []*Error
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.CallExpr:
				if _, ok := tableFile(x); ok {
					good[ast.Unparen(x.Fun).(*ast.Ident)] = true
				}
			case *ast.Ident:
				if c.isBuiltin(x, "Table") && !good[x] {
					errs = append(errs, c.errorAt(x.Pos(), CodeRefused, "Table needs the name of its file written out, so that the note knows its files before it computes",
						"write Table(\"curve.csv\"), and a function or list of tables from several of these"))
				}
			}
			return true
		})
	}
	return errs
}

// readsTable reports whether a call is that of Table.
func readsTable(call exec.Call) bool {
	return call.Func.Name() == "Table" && strings.HasSuffix(call.Func.Pkg().Path(), "/kernel/cell/builtin")
}

// tableOf gives the results of a call of Table.
func (r *runner) tableOf(call exec.Call) []exec.Value {
	file, _ := call.Args[0].V.(string)
	var t table.Table
	var err error = ErrNoFolder
	if r.env.Table != nil {
		t, err = r.env.Table(file)
	}
	results := call.Func.Signature().Results()
	return []exec.Value{
		exec.FromGo(results.At(0).Type(), reflect.ValueOf(t)),
		exec.FromGo(results.At(1).Type(), reflect.ValueOf(&err).Elem()),
	}
}

// tabling reports whether a function gives a table of what stands in its
// arguments, so that a definition with nothing else is an input.
func tabling(f *types.Func) bool {
	switch {
	case f.Pkg() == nil:
		return false
	case strings.HasSuffix(f.Pkg().Path(), "/kernel/cell/builtin"):
		return f.Name() == "Table"
	case strings.HasSuffix(f.Pkg().Path(), "/lib/table"):
		return slices.Contains([]string{"Text", "Curve", "Of", "Held", "Extended", "Log", "Linear", "Inverse"}, f.Name())
	}
	return false
}
