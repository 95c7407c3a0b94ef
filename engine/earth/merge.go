package earth

import "slices"

// Merge is the pointwise larger total pressure of two diagrams, with rows at
// the levels of both and where they cross. Where only one of them reaches it
// is that one. Each row keeps the parts of the diagram that it comes from, so
// that at a crossing two rows with the same total stand at one level.
func Merge(a, b Diagram) Diagram {
	var levels []float64
	for _, d := range []Diagram{a, b} {
		for i := range d {
			levels = append(levels, d[i].Level)
		}
	}
	slices.SortFunc(levels, func(p, q float64) int {
		switch {
		case p > q:
			return -1
		case p < q:
			return 1
		}
		return 0
	})
	levels = slices.Compact(levels)
	var out Diagram
	for i := 1; i < len(levels); i++ {
		out = out.larger(a, b, levels[i-1], levels[i])
	}
	return out
}

// larger adds the larger of two diagrams between two neighbouring levels.
func (d Diagram) larger(a, b Diagram, top, bottom float64) Diagram {
	inA, inB := a.covers(top, bottom), b.covers(top, bottom)
	if !inA && !inB {
		return d.join(Row{Level: top}, Row{Level: bottom})
	}
	if !inB {
		return d.join(a.At(top), a.AtAbove(bottom))
	}
	if !inA {
		return d.join(b.At(top), b.AtAbove(bottom))
	}
	a1, a2, b1, b2 := a.At(top), a.AtAbove(bottom), b.At(top), b.AtAbove(bottom)
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

// covers says whether a diagram reaches over a stretch of wall.
func (d Diagram) covers(top, bottom float64) bool {
	return len(d) > 0 && d[0].Level >= top && d[len(d)-1].Level <= bottom
}

// join adds rows, leaving out those that repeat the last one.
func (d Diagram) join(rows ...Row) Diagram {
	for _, r := range rows {
		if n := len(d); n == 0 || d[n-1] != r {
			d = append(d, r)
		}
	}
	return d
}
