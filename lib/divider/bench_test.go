package divider

import "testing"

func BenchmarkPlain(b *testing.B) {
	input, upper, lower := q("12 V"), q("10 kΩ"), q("3.3 kΩ")
	for b.Loop() {
		if _, err := Plain(input, upper, lower); err != nil {
			b.Fatal(err)
		}
	}
}
