// Print puts blanks between operands only if neither is a string.
package main

import "fmt"

func main() {
	fmt.Print(1, 2, "a", "b", 3, 4, '\n', "\n")
	fmt.Print("a", 1, 2.5, true, nil, "\n")
	fmt.Println("a", 1, 2.5, true, nil, "")
	fmt.Println()
	fmt.Println(fmt.Sprint(1, 2, "x", 3), fmt.Sprint("a", "b", 1, []int{1}), fmt.Sprintf("%v", []any{}))
	fmt.Println(fmt.Sprintln("end", 1) == "end 1\n")
}
