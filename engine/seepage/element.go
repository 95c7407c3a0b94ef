package seepage

import "math"

// dryShare is what an element above the free surface carries of its saturated
// flow. It keeps the equations whole; what leaks through it is this share of
// what the same gradient would drive through wet ground.
const dryShare = 1e-4

// element holds the upper half of the conductance of a triangle when it is
// saturated, m/s: for the node pairs 00, 11, 22, 01, 12, 20.
type element struct {
	k    [6]float64
	area float64
}

// elements works out all triangles.
func (m *Mesh) elements() []element {
	out := make([]element, len(m.Tris))
	for i, t := range m.Tris {
		z := &m.domain.Zones[t.Zone]
		p, q, r := m.Nodes[t.N[0]], m.Nodes[t.N[1]], m.Nodes[t.N[2]]
		b := [3]float64{q[1] - r[1], r[1] - p[1], p[1] - q[1]}
		c := [3]float64{r[0] - q[0], p[0] - r[0], q[0] - p[0]}
		area := (c[2]*b[1] - c[1]*b[2]) / 2
		f := 1 / (4 * area)
		k := func(i, j int) float64 { return f * (z.Kx*b[i]*b[j] + z.Kz*c[i]*c[j]) }
		out[i] = element{[6]float64{k(0, 0), k(1, 1), k(2, 2), k(0, 1), k(1, 2), k(2, 0)}, area}
	}
	return out
}

// pairs are the node pairs of element.k.
var pairs = [6][2]int{{0, 0}, {1, 1}, {2, 2}, {0, 1}, {1, 2}, {2, 0}}

// standing is the mean over a triangle of the pressure head where it is above
// zero, m, for a head that is linear between p0, p1 and p2.
func standing(p0, p1, p2 float64) float64 {
	up := 0
	for _, p := range [3]float64{p0, p1, p2} {
		if p > 0 {
			up++
		}
	}
	switch up {
	case 0:
		return 0
	case 3:
		return (p0 + p1 + p2) / 3
	case 2:
		return (p0+p1+p2)/3 + standing(-p0, -p1, -p2)
	}
	// one corner is wet: bring it first
	if p1 > 0 {
		p0, p1, p2 = p1, p2, p0
	} else if p2 > 0 {
		p0, p1, p2 = p2, p0, p1
	}
	return p0 / (p0 - p1) * p0 / (p0 - p2) * p0 / 3
}

// fringe is the range of pressure head, over the height of a triangle, in
// which ground goes from dry to wet, half of it on either side of zero. Without
// it the equations jump where water falls freely, with no pressure at all.
const fringe = 0.25

// pressures are the pressure heads of the corners of a triangle, m.
func (m *Mesh) pressures(t *Tri, h []float64) (p [3]float64) {
	for c, n := range t.N {
		p[c] = h[n] - m.Nodes[n][1]
	}
	return p
}

// share is what a triangle carries of its saturated flow.
func (m *Mesh) share(t *Tri, h []float64) float64 {
	if m.domain.Full {
		return 1
	}
	p := m.pressures(t, h)
	z0, z1, z2 := m.Nodes[t.N[0]][1], m.Nodes[t.N[1]][1], m.Nodes[t.N[2]][1]
	d := fringe * (max(z0, z1, z2) - min(z0, z1, z2))
	s := (standing(p[0]+d/2, p[1]+d/2, p[2]+d/2) - standing(p[0]-d/2, p[1]-d/2, p[2]-d/2)) / d
	return math.Max(dryShare, s)
}
