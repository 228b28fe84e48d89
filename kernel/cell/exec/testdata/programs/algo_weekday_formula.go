// The day of the week by Zeller's congruence, without the clock.
package main

import "fmt"

func main() {
	weekday := func(y, m, d int) string {
		if m < 3 {
			m += 12
			y--
		}
		k, j := y%100, y/100
		h := (d + 13*(m+1)/5 + k + k/4 + j/4 + 5*j) % 7
		return [...]string{"Sat", "Sun", "Mon", "Tue", "Wed", "Thu", "Fri"}[h]
	}
	leap := func(y int) bool { return y%4 == 0 && (y%100 != 0 || y%400 == 0) }
	fmt.Println(weekday(2000, 1, 1), weekday(1969, 7, 20), weekday(2024, 2, 29), weekday(1900, 3, 1))
	fmt.Println(leap(1900), leap(2000), leap(2024), leap(2023))
}
