package exec

import (
	"go/types"
	"reflect"

	"ohmwright/units"
)

// class says in which kind of register a value lives.
type class uint8

const (
	classNum class = iota // bool, integers, floats: one uint64 in canonical form
	classQty              // units.Quantity
	classRef              // everything else: any
)

// Canonical form of numbers in a uint64: false 0 and true 1; integers
// extended by their sign or by zeros to 64 bits; floats as the bits of a
// float64, which for a float32 is the rounded value.

// unitsPath is the import path of Quantity's package.
var unitsPath = reflect.TypeFor[units.Quantity]().PkgPath()

// isQuantity reports whether t is units.Quantity. It goes by name, because
// storage is made before any program is known (NewVariable).
func isQuantity(t types.Type) bool {
	n, ok := types.Unalias(t).(*types.Named)
	return ok && n.Obj().Name() == "Quantity" && n.Obj().Pkg() != nil && n.Obj().Pkg().Path() == unitsPath
}

// classOf returns the class of the values of type t.
func classOf(t types.Type) class {
	if isQuantity(t) {
		return classQty
	}
	if b, ok := t.Underlying().(*types.Basic); ok && b.Info()&(types.IsBoolean|types.IsInteger|types.IsFloat) != 0 {
		return classNum
	}
	return classRef
}

// kindOf returns the basic kind of a number or string type, with the untyped
// kinds replaced by their default.
func kindOf(t types.Type) types.BasicKind {
	b, ok := t.Underlying().(*types.Basic)
	if !ok {
		return types.Invalid
	}
	switch b.Kind() {
	case types.UntypedBool:
		return types.Bool
	case types.UntypedInt:
		return types.Int
	case types.UntypedRune:
		return types.Int32
	case types.UntypedFloat:
		return types.Float64
	case types.UntypedString:
		return types.String
	}
	return b.Kind()
}

func isFloat(k types.BasicKind) bool { return k == types.Float64 || k == types.Float32 }

func isUnsigned(k types.BasicKind) bool { return k >= types.Uint && k <= types.Uintptr }

func isInteger(k types.BasicKind) bool { return k >= types.Int && k <= types.Uintptr }

// norm brings the low bits of x into the canonical form of integer kind k.
func norm(k types.BasicKind, x uint64) uint64 {
	switch k {
	case types.Int8:
		return uint64(int64(int8(x)))
	case types.Int16:
		return uint64(int64(int16(x)))
	case types.Int32:
		return uint64(int64(int32(x)))
	case types.Uint8:
		return uint64(uint8(x))
	case types.Uint16:
		return uint64(uint16(x))
	case types.Uint32:
		return uint64(uint32(x))
	}
	return x
}

// isAggregate reports whether variables of type t are identity objects:
// structs and arrays, but not Quantity, which is a number here.
func isAggregate(t types.Type) bool {
	if isQuantity(t) {
		return false
	}
	switch t.Underlying().(type) {
	case *types.Struct, *types.Array:
		return true
	}
	return false
}
