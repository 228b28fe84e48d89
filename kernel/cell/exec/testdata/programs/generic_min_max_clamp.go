// The builtins min and max work on ordered type parameters.
package main

import (
	"cmp"
	"fmt"
	"math"
)

func clamp[T cmp.Ordered](x, lo, hi T) T { return max(lo, min(x, hi)) }

type level int

func main() {
	fmt.Println(clamp(15, 0, 10), clamp(-1.5, -1, 1), clamp("m", "a", "k"), clamp(level(7), 1, 5))
	fmt.Println(math.IsNaN(clamp(math.NaN(), 0, 1)))
}
