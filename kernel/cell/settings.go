package cell

import (
	"go/ast"
	"go/token"
	"strconv"
	"strings"
)

// A setting holds for the whole note: Boards(20_000), PartsAreNormal(3). The
// note reads it before it computes anything, so it stands by itself at the top
// level of a cell and its number is written out.

// Setting is one setting of the note.
type Setting struct {
	Name   string
	Number float64
	call   *ast.CallExpr
}

// settingRange are the settings and what their number may be.
var settingRange = map[string][2]float64{"Boards": {100, 200_000}, "PartsAreNormal": {0.5, 10}}

// Settings lists the settings of the cell; wrong ones are left out, and the
// check says what is wrong with them.
func (p *Parsed) Settings() []Setting {
	var out []Setting
	for _, s := range p.stmts {
		call, ok := ast.Unparen(s.value).(*ast.CallExpr)
		if s.value == nil || !ok || len(call.Args) != 1 {
			continue
		}
		id, ok := call.Fun.(*ast.Ident)
		if !ok {
			continue
		}
		limits, ok := settingRange[id.Name]
		if !ok {
			continue
		}
		lit, ok := ast.Unparen(call.Args[0]).(*ast.BasicLit)
		if !ok || lit.Kind != token.INT && lit.Kind != token.FLOAT {
			continue
		}
		x, err := strconv.ParseFloat(strings.ReplaceAll(lit.Value, "_", ""), 64)
		if err != nil || x < limits[0] || x > limits[1] {
			continue
		}
		out = append(out, Setting{Name: id.Name, Number: x, call: call})
	}
	return out
}

// ErrorAtSetting makes an error at a setting of the cell.
func (p *Parsed) ErrorAtSetting(s Setting, code Code, msg, hint string) *Error {
	return p.errorAt(s.call.Pos(), code, msg, hint)
}

// misplaced refuses settings that the note cannot read.
func (c *Checked) misplaced() []*Error {
	good := map[*ast.CallExpr]bool{}
	for _, s := range c.Settings() {
		good[s.call] = true
	}
	var errs []*Error
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || good[call] {
				return true
			}
			for name, limits := range settingRange {
				if c.isBuiltin(call.Fun, name) {
					errs = append(errs, c.errorAt(call.Pos(), CodeRefused, name+" holds for the whole note, which has to read it first",
						"let it stand by itself at the top level of a cell, with a number from "+number(limits[0])+" to "+number(limits[1])))
				}
			}
			return true
		})
	}
	return errs
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
