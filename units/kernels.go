package units

import (
	"runtime"
	"sync"
	"sync/atomic"
)

const (
	blockLanes = 4096    // that stay in the fastest cache from one loop to the next
	manyLanes  = 1 << 16 // from here on it pays to wake the other processors
)

// inBlocks calls f for all of 0 … n−1, a block at a time, several at once
// where they are many, and reports whether all calls did. f must not panic.
func inBlocks(n int, f func(from, to int) bool) bool {
	run := func(from, to int) bool {
		ok := true
		for ; from < to; from += blockLanes {
			ok = f(from, min(from+blockLanes, to)) && ok
		}
		return ok
	}
	if n < manyLanes {
		return run(0, n)
	}
	workers := runtime.GOMAXPROCS(0)
	share := (n/workers/blockLanes + 1) * blockLanes
	var wait sync.WaitGroup
	var failed atomic.Bool
	for from := 0; from < n; from += share {
		wait.Go(func() {
			if !run(from, min(from+share, n)) {
				failed.Store(true)
			}
		})
	}
	wait.Wait()
	return !failed.Load()
}

// The loops of arithmetic, one for each operator and kind of operands: a
// function call for each lane would cost more than the operation.

func kernel(op byte, dst, x, y []float64) {
	x, y = x[:len(dst)], y[:len(dst)]
	switch op {
	case '+':
		for i := range dst {
			dst[i] = x[i] + y[i]
		}
	case '-':
		for i := range dst {
			dst[i] = x[i] - y[i]
		}
	case '*':
		for i := range dst {
			dst[i] = x[i] * y[i]
		}
	case '/':
		for i := range dst {
			dst[i] = x[i] / y[i]
		}
	}
}

func kernelScalar(op byte, dst, x []float64, c float64) {
	x = x[:len(dst)]
	switch op {
	case '+':
		for i := range dst {
			dst[i] = x[i] + c
		}
	case '-':
		for i := range dst {
			dst[i] = x[i] - c
		}
	case '*':
		for i := range dst {
			dst[i] = x[i] * c
		}
	case '/':
		for i := range dst {
			dst[i] = x[i] / c
		}
	}
}

func scalarKernel(op byte, dst []float64, c float64, y []float64) {
	y = y[:len(dst)]
	switch op {
	case '+':
		for i := range dst {
			dst[i] = c + y[i]
		}
	case '-':
		for i := range dst {
			dst[i] = c - y[i]
		}
	case '*':
		for i := range dst {
			dst[i] = c * y[i]
		}
	case '/':
		for i := range dst {
			dst[i] = c / y[i]
		}
	}
}

// finite reports whether all lanes are finite numbers, as far as their sum
// says so: it may also be false because the sum is too large.
func finite(lanes []float64) bool {
	// Four sums do not wait for each other.
	var a, b, c, d float64
	for len(lanes) >= 4 {
		a, b, c, d = a+lanes[0], b+lanes[1], c+lanes[2], d+lanes[3]
		lanes = lanes[4:]
	}
	for _, v := range lanes {
		a += v
	}
	sum := a + b + c + d
	return sum-sum == 0
}

// affine is how far a source goes, put to lanes from −1 to 1: ·width·of + from.
type affine struct{ width, of, from float64 }

var asItIs = affine{width: 1, of: 1}

func (f affine) apply(lanes []float64) {
	width, of, from := f.width, f.of, f.from
	for i, v := range lanes {
		lanes[i] = float64(float64(v*width)*of) + from
	}
}

// moments returns the sums of the distances of the lanes from a center, and of
// their squares.
func moments(lanes []float64, center float64) (sum, squares float64) {
	// Two of each do not wait for each other.
	var s0, s1, t0, t1 float64
	for len(lanes) >= 2 {
		a, b := lanes[0]-center, lanes[1]-center
		s0, s1 = s0+a, s1+b
		t0, t1 = t0+float64(a*a), t1+float64(b*b)
		lanes = lanes[2:]
	}
	for _, v := range lanes {
		s0 += v - center
		t0 += float64((v - center) * (v - center))
	}
	return s0 + s1, t0 + t1
}
