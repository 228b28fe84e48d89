package loop

import (
	"math/cmplx"

	"pgregory.net/rapid"
)

// nodes is a circuit of nodes; node 0 is ground. It is solved for one
// frequency by nodal analysis, and shares nothing with the package.
type nodes struct {
	s       complex128
	rows    [][]complex128 // modified nodal analysis
	sources []complex128
	count   int
}

func newNodes(s complex128, count int) *nodes {
	n := &nodes{s: s, count: count, rows: make([][]complex128, count), sources: make([]complex128, count)}
	for i := range n.rows {
		n.rows[i] = make([]complex128, count)
	}
	return n
}

func (n *nodes) add(row, column int, y complex128) {
	if row > 0 && column > 0 {
		n.rows[row-1][column-1] += y
	}
}

// admit puts an admittance between two nodes.
func (n *nodes) admit(a, b int, y complex128) {
	n.add(a, a, y)
	n.add(b, b, y)
	n.add(a, b, -y)
	n.add(b, a, -y)
}

func (n *nodes) resistor(a, b int, r float64)  { n.admit(a, b, complex(1/r, 0)) }
func (n *nodes) capacitor(a, b int, c float64) { n.admit(a, b, n.s*complex(c, 0)) }

// current sends gm · (voltage of control) out of node to.
func (n *nodes) current(to, control int, gm complex128) { n.add(to, control, -gm) }

// voltage ties a node to gain · (voltage of control), by a large admittance
// through an unknown current.
func (n *nodes) voltage(node, control int, gain, fixed complex128) {
	for i := range n.rows {
		n.rows[i] = append(n.rows[i], 0)
	}
	row := make([]complex128, len(n.rows)+1)
	n.rows[node-1][len(n.rows)] = 1
	row[node-1] = 1
	if control > 0 {
		row[control-1] -= gain
	}
	n.rows = append(n.rows, row)
	n.sources = append(n.sources, fixed)
}

// solve returns the voltages of the nodes, by elimination with pivots.
func (n *nodes) solve(t rapid.TB) []complex128 {
	t.Helper()
	size := len(n.rows)
	for i, row := range n.rows {
		for len(row) < size {
			row = append(row, 0)
		}
		n.rows[i] = append(row, n.sources[i])
	}
	for k := range size {
		pivot := k
		for i := k; i < size; i++ {
			if cmplx.Abs(n.rows[i][k]) > cmplx.Abs(n.rows[pivot][k]) {
				pivot = i
			}
		}
		n.rows[k], n.rows[pivot] = n.rows[pivot], n.rows[k]
		if n.rows[k][k] == 0 {
			t.Fatal("the network has no solution")
		}
		for i := range size {
			if i != k {
				f := n.rows[i][k] / n.rows[k][k]
				for j := k; j <= size; j++ {
					n.rows[i][j] -= f * n.rows[k][j]
				}
			}
		}
	}
	v := make([]complex128, n.count+1)
	for i := range n.count {
		v[i+1] = n.rows[i][size] / n.rows[i][i]
	}
	return v
}
