// Values inside any print as their dynamic values.
package main

import "fmt"

func main() {
	v := map[string]any{"n": 1, "s": "x", "l": []any{1.5, nil, []string{"q"}}, "m": map[string]any{"z": true}}
	fmt.Println(v)
	fmt.Printf("%v %+v\n", v["l"], v["m"])
	fmt.Printf("%T %T %T\n", v, v["l"], v["m"])
	type box struct{ V any }
	fmt.Println(box{box{box{nil}}}, []any{box{1}, &box{2}}[0])
	fmt.Printf("%+v %v\n", box{box{"in"}}, [2]any{})
}
