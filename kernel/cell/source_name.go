package cell

import (
	"fmt"
	"go/ast"
	"regexp"
	"strings"
)

// Of several sources in one definition each has a name that says which it is, as
// people would: tap (12 V ± 5 %), tvs (40 … 44.2 V). No other than the name of
// the definition can be told where a function makes them: supply (second).

// spokenSource words the call that makes a source.
func (r *runner) spokenSource(call *ast.CallExpr) string {
	args := call.Args
	switch {
	case r.made[call] && len(args) == 2: // x ± t
		tolerance := ast.Unparen(args[1])
		if how, ok := tolerance.(*ast.CallExpr); ok && len(how.Args) > 0 && !r.made[how] { // Normal(1%, 3)
			tolerance = how.Args[0]
		}
		return spaced(r.typed(args[0]) + " ± " + r.typed(tolerance))
	case len(args) == 3 && (callName(call) == "Range" || callName(call) == "Band"):
		low, high := spaced(r.typed(args[0])), spaced(r.typed(args[2]))
		number, unit, _ := strings.Cut(low, " ")
		if _, other, _ := strings.Cut(high, " "); other == unit {
			low = number
		}
		return minus(low) + " … " + minus(high)
	}
	return spaced(r.typed(call))
}

func callName(call *ast.CallExpr) string {
	if id, ok := ast.Unparen(call.Fun).(*ast.Ident); ok {
		return id.Name
	}
	return ""
}

// typed is an expression as it was typed; that of ± has its place in the text.
func (r *runner) typed(e ast.Expr) string {
	from, ok := r.offset(e.Pos())
	to, done := r.offset(r.end(e))
	if !ok || !done || from > to {
		return r.text(e)
	}
	return r.Src[from:to]
}

// numberWithUnit is a number with a unit right behind it.
var numberWithUnit = regexp.MustCompile(`(^|[^\pL\d_.])(\d[\d_.]*(?:[eE][+-]?\d+)?)([\pL°%√][\pL\d°%√/·*^²³]*)`)

// spaced parts the numbers of a text from their units.
func spaced(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	return strings.TrimSpace(numberWithUnit.ReplaceAllString(text, "$1$2 $3"))
}

// minus writes the sign of a number as it is set.
func minus(text string) string {
	if rest, negative := strings.CutPrefix(text, "-"); negative {
		return "−" + rest
	}
	return text
}

// ordinal of what has no other name.
func ordinal(n int) string {
	if words := strings.Fields("first second third fourth fifth sixth seventh eighth ninth tenth"); n <= len(words) {
		return words[n-1]
	}
	return fmt.Sprintf("no. %d", n)
}
