package earth

import "math"

// Merge is the pointwise larger total pressure of two diagrams, with rows at
// the levels of both and where they cross. Where only one of them reaches it
// is that one. Each row keeps the parts of the diagram that it comes from, so
// that at a crossing two rows with the same total stand at one level.
func Merge(a, b Diagram) Diagram {
	// they bend at much the same levels
	return make(Diagram, 0, max(len(a), len(b))+6).merged(a, b)
}

// merged adds the rows of Merge.
func (d Diagram) merged(a, b Diagram) Diagram {
	top := math.Inf(1)
	for i, j := 0, 0; i < len(a) || j < len(b); {
		bottom := math.Inf(-1)
		if i < len(a) {
			bottom = a[i].Level
		}
		if j < len(b) {
			bottom = math.Max(bottom, b[j].Level)
		}
		if !math.IsInf(top, 1) {
			d = d.larger(a, b, i, j, top, bottom)
		}
		top = bottom
		i, j = a.past(i, top), b.past(j, top)
	}
	return d
}

// past goes on from row i to the first row that lies below a level.
func (d Diagram) past(i int, level float64) int {
	for i < len(d) && d[i].Level >= level {
		i++
	}
	return i
}

// larger adds the larger of two diagrams between two levels, where i and j are
// the first rows below the upper one and no row stands between.
func (d Diagram) larger(a, b Diagram, i, j int, top, bottom float64) Diagram {
	a1, a2, inA := a.stretch(i, top, bottom)
	b1, b2, inB := b.stretch(j, top, bottom)
	if !inA && !inB {
		return d.join(Row{Level: top}, Row{Level: bottom})
	}
	if !inB {
		return d.join(a1, a2)
	}
	if !inA {
		return d.join(b1, b2)
	}
	p, q := a1.Total-b1.Total, a2.Total-b2.Total
	if p*q < 0 {
		z := top - (top-bottom)*p/(p-q)
		am, bm := between(&a1, &a2, z), between(&b1, &b2, z)
		if p > 0 {
			return d.join(a1, am, bm, b2)
		}
		return d.join(b1, bm, am, a2)
	}
	if p+q >= 0 {
		return d.join(a1, a2)
	}
	return d.join(b1, b2)
}

// stretch is the pressure just below the level top and just above the level
// bottom, which both lie between row i-1 and row i; ok is false where the
// diagram does not reach over them.
func (d Diagram) stretch(i int, top, bottom float64) (upper, lower Row, ok bool) {
	if i == 0 || i == len(d) {
		return upper, lower, false
	}
	upper, lower = d[i-1], d[i]
	if upper.Level != top {
		upper = between(&d[i-1], &d[i], top)
	}
	if lower.Level != bottom {
		lower = between(&d[i-1], &d[i], bottom)
	}
	return upper, lower, true
}

// join adds rows, leaving out those that repeat the last one.
func (d Diagram) join(rows ...Row) Diagram {
	for i := range rows {
		if n := len(d); n == 0 || d[n-1] != rows[i] {
			d = append(d, rows[i])
		}
	}
	return d
}
