// A String method on the value is used for values, pointers and elements.
package main

import "fmt"

type temp float64

func (t temp) String() string { return fmt.Sprintf("%.1f°", float64(t)) }

type pair struct{ a, b temp }
type wrap struct {
	A temp
	B *temp
}

func main() {
	t := temp(21.55)
	fmt.Println(t, &t == nil, []temp{1, 2}, map[string]temp{"x": 3}, [1]temp{4})
	fmt.Printf("%v %s %+v %6.2f|%10s|%v\n", t, t, t, t, t, &t)
	fmt.Println(pair{1, 2})
	fmt.Println(wrap{A: 5}.A, struct{ T temp }{6})
}
