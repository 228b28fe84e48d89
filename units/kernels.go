package units

import (
	"runtime"
	"sync"
)

const (
	blockLanes = 4096    // that stay in the fastest cache from one loop to the next
	manyLanes  = 1 << 16 // from here on it pays to wake the other processors
)

// inBlocks calls f for all of 0 … n−1, a block at a time; several at once
// where they are many. f must not panic.
func inBlocks(n int, f func(from, to int)) {
	run := func(from, to int) {
		for ; from < to; from += blockLanes {
			f(from, min(from+blockLanes, to))
		}
	}
	if n < manyLanes {
		run(0, n)
		return
	}
	workers := runtime.GOMAXPROCS(0)
	share := (n/workers/blockLanes + 1) * blockLanes
	var wait sync.WaitGroup
	for from := 0; from < n; from += share {
		wait.Go(func() { run(from, min(from+share, n)) })
	}
	wait.Wait()
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
