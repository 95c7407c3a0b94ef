package seepage

import "math"

// dryShare is what an element above the free surface carries of its saturated
// flow. It keeps the equations whole; what leaks through it is this share of
// what the same gradient would drive through wet ground.
const dryShare = 1e-4

// element holds the upper half of the conductance of a triangle when it is
// saturated, m/s: for the node pairs 00, 11, 22, 01, 12, 20.
type element struct {
	k     [6]float64
	area  float64
	blend float64 // m, the range of pressure head in which it goes from dry to wet
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
		out[i] = element{[6]float64{k(0, 0), k(1, 1), k(2, 2), k(0, 1), k(1, 2), k(2, 0)}, area,
			fringe * (max(p[1], q[1], r[1]) - min(p[1], q[1], r[1]))}
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

// share is what triangle i carries of its saturated flow.
func (m *Mesh) share(i int, h []float64) float64 {
	if m.domain.Full {
		return 1
	}
	n, d := &m.Tris[i].N, m.grid.el[i].blend
	p0, p1, p2 := h[n[0]]-m.Nodes[n[0]][1], h[n[1]]-m.Nodes[n[1]][1], h[n[2]]-m.Nodes[n[2]][1]
	half := d / 2
	switch { // most triangles lie well above or well below
	case p0 >= half && p1 >= half && p2 >= half:
		return 1
	case p0 <= -half && p1 <= -half && p2 <= -half:
		return dryShare
	}
	s := (standing(p0+half, p1+half, p2+half) - standing(p0-half, p1-half, p2-half)) / d
	return math.Max(dryShare, s)
}
