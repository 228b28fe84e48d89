package host

import (
	"go/types"
	"maps"
	"slices"

	"ohmwright/kernel/cell/host/allow"
)

// unitsInScope are the functions of units that have a name of their own in
// cells. The rest, for reading and formatting, is reached as units.Parse;
// the constants and the type Quantity are in scope besides.
var unitsInScope = []string{
	"Range", "Band", "Typical", "High", "Low", "Nominal", "Another", "Matched", "Tempco", "Drift", "Normal", "Uniform", "Histogram",
	"Sqrt", "Exp", "Ln", "Log10", "Pow", "Abs", "Min", "Max",
	"Sin", "Cos", "Tan", "Atan", "Parallel", "Where",
	"In", "Absolute", "Temperature", "Power", "Voltage", "PowerRatio", "VoltageRatio", "PowerGain", "VoltageGain", "PowerSum",
}

// preferredInScope are the names of preferred, besides its series, that
// nearly every note needs; the others would take words that designers want for
// their own values.
var preferredInScope = []string{"Series", "Stock", "Nearest", "AtLeast", "AtMost"}

// builtinObjects lists what is in scope in a cell without an import.
func builtinObjects(w *World) map[string]types.Object {
	found := map[string]types.Object{}
	if p := w.packages[allow.Preferred]; p != nil {
		for name, obj := range exported(p) {
			_, series := obj.(*types.Var)
			if series || slices.Contains(preferredInScope, name) {
				found[name] = obj
			}
		}
	}
	u := w.packages[allow.Units].Scope()
	for _, name := range unitsInScope {
		if obj := u.Lookup(name); obj != nil { // a test holds that all are there
			found[name] = obj
		}
	}
	for _, name := range u.Names() {
		if v, ok := u.Lookup(name).(*types.Var); ok && v.Exported() && types.Identical(v.Type(), w.quantity) {
			found[name] = v
		}
	}
	found[w.quantity.Obj().Name()] = w.quantity.Obj()
	maps.Insert(found, exported(w.packages[allow.Builtin]))
	return found
}

// exported iterates over what a package offers to cells.
func exported(p *types.Package) func(func(string, types.Object) bool) {
	return func(yield func(string, types.Object) bool) {
		for _, name := range p.Scope().Names() {
			obj := p.Scope().Lookup(name)
			if obj.Exported() && allow.Object(obj) == nil && !yield(name, obj) {
				return
			}
		}
	}
}

// Builtin returns the object that is in scope in every cell under the name:
// the functions and constants of units, those of builtin, and the series and
// choices of preferred; nil if there is none. A note may define the name itself.
func (w *World) Builtin(name string) types.Object { return w.builtins[name] }

// BuiltinNames returns the names that Builtin knows, sorted.
func (w *World) BuiltinNames() []string { return slices.Sorted(maps.Keys(w.builtins)) }

// planned says which names of the language of notes this version does not
// have yet, and what to do meanwhile.
var planned = map[string]string{
	"Trend":  "compute the value in a loop over the range",
	"Series": "name a published series, such as E24",
}

// Planned returns a message for a name that cells will have in a later version.
func Planned(name string) (string, bool) {
	instead, ok := planned[name]
	if !ok {
		return "", false
	}
	return name + " is not available in this version: " + instead, true
}
