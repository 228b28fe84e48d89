// The sieve of Eratosthenes up to a hundred.
package main

import "fmt"

func main() {
	n := 100
	composite := make([]bool, n+1)
	var primes []int
	for i := 2; i <= n; i++ {
		if composite[i] {
			continue
		}
		primes = append(primes, i)
		for j := i * i; j <= n; j += i {
			composite[j] = true
		}
	}
	fmt.Println(len(primes), primes)
}
