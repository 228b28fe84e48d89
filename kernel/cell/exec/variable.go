package exec

import (
	"go/types"
)

// Variable is the storage of a package-level variable.
type Variable struct {
	// ReadOnly: the variable belongs to another cell. A store to it is a Fault that
	// names it (storing through a pointer taken from it is harmless: Copy isolates).
	ReadOnly bool
	Owner    string // for the message: "cell 3"
	// Held: what is stored is not kept; a quantity only.
	Held bool

	t   types.Type
	ptr any // pointer form; nil until it is first used
}

// NewVariable makes zeroed storage; Load and Set read and write it.
func NewVariable(t types.Type) *Variable { return &Variable{t: t} }

// link makes the storage, with the compiled types that ls knows.
func (v *Variable) link(ls *layouts) {
	if v.ptr == nil {
		v.ptr = ls.newCell(v.t)
	}
}

// Load returns the value. It shares what it points to with the variable.
func (v *Variable) Load() Value {
	ls := &layouts{}
	if v.ptr == nil && isAggregate(v.t) && ls.of(v.t).size() > defaultMemory {
		return Value{v.t, nil} // nobody used it, and making it would take all memory
	}
	v.link(ls)
	return Value{v.t, loadCell(v.ptr)}
}

// Set stores x, which must be of the variable's type.
func (v *Variable) Set(x Value) {
	if v.ptr == nil {
		switch b := x.V.(type) {
		case *hostBox:
			if isAggregate(v.t) {
				v.ptr = b.clone()
				return
			}
		case *structure:
			if isAggregate(v.t) {
				v.ptr = b.clone()
				return
			}
		}
	}
	v.link(&layouts{})
	storeCell(v.ptr, x.V)
}
