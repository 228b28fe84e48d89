// Constants have block scope and may shadow.
package main

import "fmt"

func main() {
	const n = 1
	{
		const n = n + 10
		fmt.Println(n)
		{
			const m = n * 2
			fmt.Println(m)
		}
	}
	if true {
		const n = "s"
		fmt.Println(n)
	}
	fmt.Println(n)
}
