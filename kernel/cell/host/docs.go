package host

import (
	_ "embed"
	"encoding/json"
	"sync"
)

// Doc is the documentation of one exported name of units, builtin or lib.
type Doc struct {
	Package   string `json:"package"`   // import path
	Name      string `json:"name"`      // "Sqrt", "Result.Rise", "" for the package
	Kind      string `json:"kind"`      // package, const, var, func, type, method, field
	Signature string `json:"signature"` // as Go source: "func Sqrt(x Quantity) Quantity"
	Text      string `json:"text"`      // the doc comment, in go/doc's syntax
	File      string `json:"file"`      // in the module, "units/function.go"
	Line      int    `json:"line"`
}

//go:embed docs.json
var docsJSON []byte

// docIndex is read when somebody first asks: a run of a note never does.
var docIndex = sync.OnceValue(func() map[string]Doc {
	var list []Doc
	if err := json.Unmarshal(docsJSON, &list); err != nil {
		panic("embedded doc index: " + err.Error()) // a test reads it
	}
	index := make(map[string]Doc, len(list))
	for _, d := range list {
		index[d.Package+"."+d.Name] = d
	}
	return index
})

// Doc returns the documentation of an exported name, of "Type.Method", of
// "Type.Field", or with "" of the package. It knows units, builtin and the
// packages of lib.
func (w *World) Doc(pkgPath, name string) (Doc, bool) {
	d, ok := docIndex()[pkgPath+"."+name]
	return d, ok
}
