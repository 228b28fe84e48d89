package cell

import (
	"iter"

	"ohmwright/kernel/cell/exec"
)

// View is a value in a form that faces can show.
type View = exec.View

// Expr is a formula as the user typed it, with the value that each part had
// when the cell ran. Brackets are not nodes: the shape of the tree says what
// binds to what, and whoever draws it adds the brackets that it needs.
type Expr struct {
	Kind ExprKind
	Text string  // see ExprKind
	Args []*Expr // see ExprKind
	// Value is what the part was when the cell ran; nil for a part that was
	// not evaluated (the right side of a && that was decided by its left).
	Value *View
}

// Names are the names in a formula, in the order in which they stand; nil has none.
func (e *Expr) Names() iter.Seq[string] {
	return func(yield func(string) bool) { e.names(yield) }
}

func (e *Expr) names(yield func(string) bool) bool {
	if e == nil {
		return true
	}
	if e.Kind == ExprName && !yield(e.Text) {
		return false
	}
	for _, a := range e.Args {
		if !a.names(yield) {
			return false
		}
	}
	return true
}

// ExprKind says what an Expr is.
type ExprKind int

const (
	// ExprCode is source that has no form as a formula (a function literal,
	// a type): Text is the source.
	ExprCode ExprKind = iota
	// ExprName is a variable or constant: Text is its name. "Vin".
	ExprName
	// ExprLiteral is a quantity literal: Text as typed, "4.7kohm"; Value is set.
	ExprLiteral
	// ExprNumber is a plain number as typed: "2", "0.5", "1e-3".
	ExprNumber
	// ExprUnary: Text is - + !, Args[0] the operand.
	ExprUnary
	// ExprBinary: Text is one of + - * / % == != < <= > >= && || & | ^ << >> &^ ±,
	// Args left and right. ± is the tolerance.
	ExprBinary
	// ExprCall: Text is the function as written, "Sqrt", "divider.Loaded";
	// Args the arguments. A method call x.M(a) has Text ".M" and Args x, a.
	// A conversion float64(x) is a call as well.
	ExprCall
	// ExprField is a selection: Text the field's name, Args[0] the operand.
	// A qualified name of a package (math.Pi) is an ExprName "math.Pi".
	ExprField
	// ExprIndex: Args[0] the operand, Args[1] the index.
	ExprIndex
	// ExprRecord is a composite literal: Text the type as written, Args the
	// elements; an element with a key is an ExprKey.
	ExprRecord
	// ExprKey is key: value in an ExprRecord: Text the key's source, Args[0] the value.
	ExprKey
	// ExprString is a string literal, Text as typed with its quotes.
	ExprString
)
