package exec_test

import (
	"context"
	"testing"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

const benchSource = `package main
import "ohmwright/units"
var sum float64
func FloatGlobal() { sum = 0; for i := 0; i < 1000000; i++ { sum += 0.5 } }
func FloatLocal() float64 { s := 0.0; for i := 0; i < 1000000; i++ { s = s*0.5 + 1 }; return s }
func Int() int { n := 0; for i := 0; i < 1000000; i++ { n += i }; return n }
func Slice() float64 { a := make([]float64, 1000); for j := 0; j < 1000; j++ { for i := range a { a[i] += float64(j) } }; return a[7] }
func Fib(n int) int { if n < 2 { return n }; return Fib(n-1) + Fib(n-2) }
func Fib20() int { return Fib(20) }
func Small(v, w units.Quantity) (x, y, z units.Quantity) { x = v * 7; y = (x + w*2) / w; f := func(a units.Quantity) units.Quantity { return a * x }; return x, y, f(y) }
func Quantity(v units.Quantity) units.Quantity { s := v; for i := 0; i < 1000000; i++ { s = s + v }; return s }
func Sqrt(v units.Quantity) units.Quantity { var s units.Quantity; for i := 0; i < 100000; i++ { s = units.Sqrt(v) }; return s }
type P struct{ a, b float64; q units.Quantity }
func Struct() float64 { p := &P{}; for i := 0; i < 1000000; i++ { p.a += 1 }; return p.a }
func Words() int { m := map[string]int{}; ks := []string{"a", "b", "c", "d"}; for i := 0; i < 100000; i++ { m[ks[i%4]]++ }; return m["a"] }
`

func benchmark(b *testing.B, fn string, args ...exec.Value) {
	p := mustCompile(b, benchSource)
	run := &exec.Run{Ctx: context.Background(), Limits: exec.Limits{Steps: 1 << 60, Memory: 1 << 60}}
	f := p.pkg.Func(fn)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.code.Call(run, f, args...); err != nil {
			b.Fatal(err)
		}
	}
}

func quantity(x float64) exec.Value { return exec.Value{Type: world().Quantity(), V: units.Number(x)} }

func BenchmarkFloatLoopGlobal(b *testing.B) { benchmark(b, "FloatGlobal") }
func BenchmarkFloatLoopLocal(b *testing.B)  { benchmark(b, "FloatLocal") }
func BenchmarkIntLoop(b *testing.B)         { benchmark(b, "Int") }
func BenchmarkSliceLoop(b *testing.B)       { benchmark(b, "Slice") }
func BenchmarkFib20(b *testing.B)           { benchmark(b, "Fib20") }
func BenchmarkSmallCall(b *testing.B)       { benchmark(b, "Small", quantity(3), quantity(4)) }
func BenchmarkQuantityLoop(b *testing.B)    { benchmark(b, "Quantity", quantity(3)) }
func BenchmarkHostCalls1e5(b *testing.B)    { benchmark(b, "Sqrt", quantity(3)) }
func BenchmarkStructLoop(b *testing.B)      { benchmark(b, "Struct") }
func BenchmarkMapLoop1e5(b *testing.B)      { benchmark(b, "Words") }
