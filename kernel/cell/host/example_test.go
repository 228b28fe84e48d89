package host_test

import (
	"fmt"
	"reflect"

	"ohmwright/kernel/cell/host"
	"ohmwright/units"
)

func Example() {
	w, err := host.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	sqrt, _ := w.Host("ohmwright/units", "Sqrt")
	result := sqrt.Call([]reflect.Value{reflect.ValueOf(units.Number(6.25))})
	fmt.Println(result[0].Interface())

	_, err = w.Importer().Import("strngs")
	fmt.Println(err)
	fmt.Println(w.Missing("fmt", "Fprintf"))
	// Output:
	// 2.5
	// there is no package strngs for cells: did you mean strings?
	// fmt.Fprintf is not available in cells, because it writes to a stream: use fmt.Sprintf, or fmt.Printf to show text below the cell
}
