package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// mesh is a network while it is solved: the conductances between its free
// points, and from each to the held ones.
type mesh struct {
	between [][]units.Quantity // W/K
	held    []units.Quantity   // W/K
	heats   []units.Quantity   // into each point, with what the held ones send, W
}

func newMesh(n int) *mesh {
	m := &mesh{between: make([][]units.Quantity, n), held: make([]units.Quantity, n), heats: make([]units.Quantity, n)}
	for i := range n {
		m.between[i] = make([]units.Quantity, n)
		for j := range n {
			m.between[i][j] = argument.Slope.OrZero(none)
		}
		m.held[i] = argument.Slope.OrZero(none)
		m.heats[i] = argument.Power.OrZero(none)
	}
	return m
}

func (m *mesh) join(i, j int, conductance units.Quantity) {
	m.between[i][j] = m.between[i][j].Add(conductance)
	m.between[j][i] = m.between[i][j]
}

func (m *mesh) tie(i int, conductance, rise units.Quantity) {
	m.held[i] = m.held[i].Add(conductance)
	m.heats[i] = m.heats[i].Add(conductance.Mul(rise))
}

// solve takes the points out one after the other, a star for a mesh: the paths
// at a point become paths between its neighbours, its heat goes to them in
// proportion. That only adds and divides conductances, so that nothing is lost
// to rounding however unlike they are, and every case takes the same steps.
func (m *mesh) solve() []units.Quantity {
	n := len(m.heats)
	sums := make([]units.Quantity, n)
	for k := range n {
		sum := m.held[k]
		for j := k + 1; j < n; j++ {
			sum = sum.Add(m.between[k][j])
		}
		sums[k] = sum
		for i := k + 1; i < n; i++ {
			share := m.between[k][i].Div(sum)
			m.heats[i] = m.heats[i].Add(share.Mul(m.heats[k]))
			m.held[i] = m.held[i].Add(share.Mul(m.held[k]))
			for j := i + 1; j < n; j++ {
				m.join(i, j, share.Mul(m.between[k][j]))
			}
		}
	}
	rises := make([]units.Quantity, n)
	for k := n - 1; k >= 0; k-- {
		heat := m.heats[k]
		for j := k + 1; j < n; j++ {
			heat = heat.Add(m.between[k][j].Mul(rises[j]))
		}
		rises[k] = heat.Div(sums[k])
	}
	return rises
}
