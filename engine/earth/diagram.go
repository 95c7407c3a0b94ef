package earth

import (
	"math"
	"slices"
	"sort"
)

// ResultantOf is the thrust of one part of the pressure, kN per m of wall, and
// the level it acts at. Where the thrust is zero the level is that of the
// lowest row; an empty diagram gives zeros.
func (d Diagram) ResultantOf(part func(*Row) float64) (thrust, level float64) {
	if len(d) == 0 {
		return 0, 0
	}
	foot := d[len(d)-1].Level
	var m float64
	for i := 1; i < len(d); i++ {
		a, b := &d[i-1], &d[i]
		h := a.Level - b.Level
		if h == 0 {
			continue
		}
		p, q := part(a), part(b)
		thrust += h * (p + q) / 2
		m += h*(p+q)/2*(b.Level-foot) + h*h*(2*p+q)/6
	}
	if thrust == 0 {
		return 0, foot
	}
	return thrust, foot + m/thrust
}

// Resultant is the thrust of the total pressure, kN per m of wall, and the
// level it acts at; see ResultantOf for what a diagram without pressure gives.
func (d Diagram) Resultant() (thrust, level float64) {
	return d.ResultantOf(func(r *Row) float64 { return r.Total })
}

// MaxTotal is the largest total pressure and the highest level it stands at;
// zeros for an empty diagram.
func (d Diagram) MaxTotal() (pressure, level float64) {
	for i := range d {
		if i == 0 || d[i].Total > pressure {
			pressure, level = d[i].Total, d[i].Level
		}
	}
	return pressure, level
}

// At is the pressure at a level, linear between rows. At a jump it is that
// just below the level. Beyond the ends of the diagram nothing acts: the row
// returned holds the level alone.
func (d Diagram) At(level float64) Row {
	i := d.below(level)
	if i == 0 || !(level >= d[len(d)-1].Level) { // the latter holds for NaN too
		return Row{Level: level}
	}
	if i == len(d) || d[i-1].Level == level {
		return d[i-1]
	}
	return between(&d[i-1], &d[i], level)
}

// AtAbove is At, but at a jump the pressure just above the level.
func (d Diagram) AtAbove(level float64) Row {
	i := d.from(level)
	if i < len(d) && d[i].Level == level {
		return d[i]
	}
	return d.At(level)
}

// below is the index of the first row that lies below a level.
func (d Diagram) below(level float64) int {
	return sort.Search(len(d), func(i int) bool { return d[i].Level < level })
}

// from is the index of the first row at or below a level.
func (d Diagram) from(level float64) int {
	return sort.Search(len(d), func(i int) bool { return d[i].Level <= level })
}

// between interpolates two rows. What is named (the layer) and what is
// constant in a layer (K) is that of the upper row.
func between(a, b *Row, level float64) Row {
	t := (a.Level - level) / (a.Level - b.Level)
	mix := func(p, q float64) float64 { return p + (q-p)*t }
	return Row{
		Level: level, Depth: mix(a.Depth, b.Depth),
		SigmaV: mix(a.SigmaV, b.SigmaV), U: mix(a.U, b.U), K: a.K, Layer: a.Layer,
		Soil: mix(a.Soil, b.Soil), Surcharge: mix(a.Surcharge, b.Surcharge),
		Compaction: mix(a.Compaction, b.Compaction), Quake: mix(a.Quake, b.Quake),
		Total: mix(a.Total, b.Total),
	}
}

// Slice is the part of the diagram between two levels, with rows at its ends
// where the diagram reaches that far; nil where it does not reach at all. A
// jump at an end level is left outside.
func (d Diagram) Slice(top, bottom float64) Diagram { return d.SliceIn(nil, top, bottom) }

// SliceIn is Slice in the place of what is in room, where that is large enough;
// without any rows where the diagram does not reach.
func (d Diagram) SliceIn(room Diagram, top, bottom float64) Diagram {
	room = room[:0]
	if len(d) == 0 || top <= bottom {
		return room
	}
	top, bottom = math.Min(top, d[0].Level), math.Max(bottom, d[len(d)-1].Level)
	if top <= bottom {
		return room
	}
	from, to := d.below(top), d.from(bottom)
	out := append(slices.Grow(room, max(0, to-from)+2), d.At(top))
	if from < to {
		out = append(out, d[from:to]...)
	}
	return append(out, d.AtAbove(bottom))
}

// Thrust is the total pressure between two levels, kN per m of wall.
func (d Diagram) Thrust(top, bottom float64) (sum float64) {
	for i := 1; i < len(d); i++ {
		a, b := &d[i-1], &d[i]
		hi, lo := min(a.Level, top), max(b.Level, bottom)
		if hi <= lo {
			continue
		}
		grow := (b.Total - a.Total) / (a.Level - b.Level)
		p, q := a.Total+grow*(a.Level-hi), b.Total-grow*(lo-b.Level)
		sum += (hi - lo) * (p + q) / 2
	}
	return sum
}

// Scale multiplies all pressures by f; the vertical stress and K stay, for
// they describe the soil.
func (d Diagram) Scale(f float64) Diagram {
	out := make(Diagram, len(d))
	for i, r := range d {
		r.U *= f
		r.Soil *= f
		r.Surcharge *= f
		r.Compaction *= f
		r.Quake *= f
		r.Total *= f
		out[i] = r
	}
	return out
}
