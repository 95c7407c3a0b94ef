package seepage

import (
	"math"

	"hillset/geom"
)

// surface is where the water table stands on a line of nodes: between nodes lo
// and hi, at the share t of the way; the two are the same where the whole line
// is wet or none of it is, or where the water is held down by a solid. It is
// looked for from the bottom up. Water above a solid is that below only where
// the one below would rise so high: rain that runs off a roof is another.
func (m *Mesh) surface(l Line, h []float64) (lo, hi int, t float64) {
	for n := l.First; n <= l.Last; n++ {
		if n > l.First && m.grid.gaps[n-1] && h[n-1] < m.Nodes[n][1] {
			return n - 1, n - 1, 0
		}
		p := h[n] - m.Nodes[n][1]
		if p >= 0 {
			continue
		}
		if n == l.First {
			return n, n, 0
		}
		q := h[n-1] - m.Nodes[n-1][1]
		return n - 1, n, q / (q - p)
	}
	return l.Last, l.Last, 0
}

// Table is the water table: its level on every line of nodes. Below a solid it
// is the level to which water would rise in a pipe set there.
func (f *Flow) Table() (line geom.Polyline) {
	m := f.Mesh
	for _, l := range m.Lines {
		lo, hi, t := m.surface(l, f.Head)
		z := m.Nodes[lo][1] + t*(m.Nodes[hi][1]-m.Nodes[lo][1])
		if lo == hi { // dry ground has its foot, wet ground its head
			z = math.Max(z, f.Head[lo])
		}
		line = append(line, geom.Vec{l.X, z})
	}
	return line
}
