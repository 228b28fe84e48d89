// Package exec runs functions that golang.org/x/tools/go/ssa built, with
// units.Quantity as one more kind of number.
//
// A Program compiles functions to closures at their first call; a Run holds
// what one evaluation may use and has used; values live in typed registers
// and are converted only at calls of compiled functions.
//
//	p := exec.New(ssaProgram, quantityType, linker)
//	run := &exec.Run{Ctx: ctx, Out: os.Stdout, Global: storage}
//	results, err := p.Call(run, ssaPackage.Func("Run"))
//
// A panic of the program, a wrong operation on quantities, a limit or a
// cancel comes back as a *Fault with the place in the source.
//
// What differs from the gc compiler: maps are ranged over in the order of
// their keys; the capacity that append chooses when it grows a slice is its
// own; pointers print as a fixed number; goroutines, channels, complex
// numbers and unsafe are refused. A compiled function that keeps a function
// value of a cell and calls it from another goroutine is not supported. A
// cell's value in an interface reaches compiled code as a stand-in that has
// the methods of the interface asked for; compiled code cannot look inside.
package exec

import (
	"context"
	"errors"
	"go/ast"
	"go/token"
	"go/types"
	"io"
	"reflect"

	"golang.org/x/tools/go/ssa"
)

// Linker finds what the program uses but does not contain.
type Linker interface {
	// Func finds a function or method declared by another cell (obj as this
	// program sees it): the program that has its body and the function.
	Func(obj *types.Func) (*Program, *ssa.Function, bool)
	// Host finds a compiled function or variable: for a variable the
	// reflect.Value is a pointer to it (as yaegi's symbol tables give it).
	Host(pkgPath, name string) (reflect.Value, bool)
	// HostType gives the compiled type of a named type of an allowed package.
	HostType(named *types.Named) (reflect.Type, bool)
}

// Run is the state of one evaluation. All fields are set before the first
// Call. Calls of one Run follow each other; they share its limits.
type Run struct {
	Ctx    context.Context
	Limits Limits
	Out    io.Writer // fmt.Print and print write here

	// Global gives the storage of a package-level variable of a cell. Called
	// once per variable and run; the run keeps what it gets.
	Global func(v *types.Var) *Variable
	// Intercept, if set, sees every call of a compiled (host) package-level
	// function or method before it is made. handled: results are used and
	// the call is not made.
	Intercept func(call Call) (results []Value, handled bool, err error)
	// After, if set, sees the results of every host call that was made, and may
	// give others in their place (nil: they stay).
	After func(call Call, results []Value) []Value
	// Compared, if set, is told where quantities with spread were compared.
	Compared func(pos token.Pos)
	// Trace, if set, gets the value of every non-constant expression of the
	// traced function (ssa.DebugRef instructions are followed in it only), and
	// of those for which Program.TraceAlways was told.
	Trace  func(e ast.Expr, v Value)
	Traced *ssa.Function

	in runState
}

// Call is a call of a compiled function.
type Call struct {
	Func *types.Func
	Args []Value
	Pos  token.Pos
	// Chain holds Pos and the places of the calls that led there, the innermost first.
	Chain []token.Pos
}

// ErrLimit is what the Err of a Fault is where a limit stopped the run.
var ErrLimit = errors.New("a limit is reached")

// Limits bound a run; zero means the default in brackets.
type Limits struct {
	Steps  int64 // blocks and calls executed [2e9]
	Depth  int   // nested calls [10 000]; at most 100 000
	Memory int64 // bytes asked for by the cell, counted not measured [1 GiB]
}

// Value is a value of a cell with its type.
type Value struct {
	Type types.Type
	V    any // units.Quantity for a quantity; the executor's own form otherwise
}

// Fault is what stopped a run: a panic of the cell, a wrong operation on
// quantities (*units.Error, kept in Err), a limit or a cancel (ctx.Err()).
type Fault struct {
	Pos   token.Pos // the instruction in the cell that asked for it, NoPos if unknown
	Msg   string
	Hint  string
	Err   error
	Stack []Frame
}

// Frame is one function on the stack of a Fault, the innermost first.
type Frame struct {
	Func string
	Pos  token.Pos
}

func (f *Fault) Error() string { return f.Msg }

func (f *Fault) Unwrap() error { return f.Err }
