package render

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// values are what the names of a test stand for, as literals: "10kΩ".
type values map[string]string

func quantityView(q units.Quantity) *cell.View {
	return &cell.View{Kind: exec.KindQuantity, Type: "Quantity", Quantity: q, Text: q.String()}
}

func numberView(x float64) *cell.View {
	return &cell.View{Kind: exec.KindNumber, Type: "float64", Number: x, Text: plainNumber(x, 0)}
}

// tree reads an expression as a cell has it, 10kΩ ± 1% included, into the
// tree that the engine hands to this package.
func tree(t testing.TB, src string, vs values) *cell.Expr {
	t.Helper()
	var goSrc strings.Builder
	literals := map[string]string{}
	for i := 0; i < len(src); {
		c := src[i]
		boundary := i == 0 || !isWord(src[i-1])
		if c == '"' {
			n := strings.IndexByte(src[i+1:], '"') + 2
			goSrc.WriteString(src[i : i+n])
			i += n
			continue
		}
		if c >= '0' && c <= '9' && boundary {
			_, n, err := units.ScanLiteral(src[i:])
			if err != nil {
				t.Fatalf("%s: %v", src, err)
			}
			if n > 0 {
				name := "lit" + string(rune('A'+len(literals)))
				literals[name] = src[i : i+n]
				goSrc.WriteString(name)
				i += n
				continue
			}
		}
		goSrc.WriteByte(c)
		i++
	}
	// ± binds tighter than * in a cell; &^ stands in for it here, as the only
	// operator of that strength which the tests do not use otherwise.
	e, err := parser.ParseExpr(strings.ReplaceAll(goSrc.String(), "±", "&^"))
	if err != nil {
		t.Fatalf("%s: %v", goSrc.String(), err)
	}
	return toExpr(t, e, literals, vs)
}

func isWord(c byte) bool {
	return c == '_' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80
}

func toExpr(t testing.TB, e ast.Expr, literals map[string]string, vs values) *cell.Expr {
	t.Helper()
	sub := func(e ast.Expr) *cell.Expr { return toExpr(t, e, literals, vs) }
	all := func(es []ast.Expr) (out []*cell.Expr) {
		for _, e := range es {
			out = append(out, sub(e))
		}
		return out
	}
	valued := func(x *cell.Expr, key string) *cell.Expr {
		if lit, ok := vs[key]; ok {
			if q, err := units.Parse(lit); err == nil {
				x.Value = quantityView(q)
			} else {
				x.Value = &cell.View{Kind: exec.KindText, Text: lit}
			}
		}
		return x
	}
	switch e := e.(type) {
	case *ast.Ident:
		if lit, ok := literals[e.Name]; ok {
			q, err := units.Parse(lit)
			if err != nil {
				t.Fatal(err)
			}
			return &cell.Expr{Kind: cell.ExprLiteral, Text: lit, Value: quantityView(q)}
		}
		return valued(&cell.Expr{Kind: cell.ExprName, Text: e.Name}, e.Name)
	case *ast.BasicLit:
		if e.Kind == token.STRING {
			return &cell.Expr{Kind: cell.ExprString, Text: e.Value}
		}
		return &cell.Expr{Kind: cell.ExprNumber, Text: e.Value}
	case *ast.ParenExpr:
		return sub(e.X)
	case *ast.UnaryExpr:
		x := sub(e.X)
		if x.Kind == cell.ExprLiteral && e.Op == token.SUB {
			// The sign belongs to an offset or level literal.
			if q, err := units.Parse("-" + x.Text); err == nil && q.Dim().Kind() != units.PlainScale {
				return &cell.Expr{Kind: cell.ExprLiteral, Text: "-" + x.Text, Value: quantityView(q)}
			}
		}
		return &cell.Expr{Kind: cell.ExprUnary, Text: e.Op.String(), Args: []*cell.Expr{x}}
	case *ast.BinaryExpr:
		op := strings.Replace(e.Op.String(), "&^", "±", 1)
		return &cell.Expr{Kind: cell.ExprBinary, Text: op, Args: []*cell.Expr{sub(e.X), sub(e.Y)}}
	case *ast.CallExpr:
		switch f := e.Fun.(type) {
		case *ast.Ident:
			return &cell.Expr{Kind: cell.ExprCall, Text: f.Name, Args: all(e.Args)}
		case *ast.SelectorExpr:
			if x, ok := f.X.(*ast.Ident); ok && vs[x.Name] == "" {
				return &cell.Expr{Kind: cell.ExprCall, Text: x.Name + "." + f.Sel.Name, Args: all(e.Args)}
			}
			return &cell.Expr{Kind: cell.ExprCall, Text: "." + f.Sel.Name, Args: append([]*cell.Expr{sub(f.X)}, all(e.Args)...)}
		}
	case *ast.SelectorExpr:
		if x, ok := e.X.(*ast.Ident); ok && x.Name == "math" {
			return &cell.Expr{Kind: cell.ExprName, Text: "math." + e.Sel.Name}
		}
		key := ""
		if x, ok := e.X.(*ast.Ident); ok {
			key = x.Name + "." + e.Sel.Name
		}
		return valued(&cell.Expr{Kind: cell.ExprField, Text: e.Sel.Name, Args: []*cell.Expr{sub(e.X)}}, key)
	case *ast.IndexExpr:
		key := ""
		if x, ok := e.X.(*ast.Ident); ok {
			key = x.Name + "[]"
		}
		return valued(&cell.Expr{Kind: cell.ExprIndex, Args: []*cell.Expr{sub(e.X), sub(e.Index)}}, key)
	case *ast.CompositeLit:
		name := ""
		if id, ok := e.Type.(*ast.Ident); ok {
			name = id.Name
		}
		r := &cell.Expr{Kind: cell.ExprRecord, Text: name}
		for _, el := range e.Elts {
			if kv, ok := el.(*ast.KeyValueExpr); ok {
				r.Args = append(r.Args, &cell.Expr{Kind: cell.ExprKey, Text: kv.Key.(*ast.Ident).Name, Args: []*cell.Expr{sub(kv.Value)}})
				continue
			}
			r.Args = append(r.Args, sub(el))
		}
		return r
	case *ast.FuncLit:
		return &cell.Expr{Kind: cell.ExprCode, Text: "func(x Quantity) Quantity { return x_1 * 2 }"}
	}
	t.Fatalf("no tree for %T", e)
	return nil
}
