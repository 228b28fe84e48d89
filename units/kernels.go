package units

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
