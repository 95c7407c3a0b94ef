package water

import (
	"math"
	"sort"
	"sync"

	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

// What only a drawing asks for.

// flowLines is how many drops are followed through a section.
const flowLines = 12

// drops are followed when they are first asked for.
type drops struct {
	once  sync.Once
	lines []seepage.Path
}

func (d *drops) of(f *seepage.Flow) []seepage.Path {
	d.once.Do(func() { d.lines = f.Paths(flowLines) })
	return d.lines
}

// FlowLines are the ways of drops that each stand for the same flow. It may be
// called from several goroutines.
func (s *State) FlowLines() []seepage.Path { return s.drops.of(s.Flow) }

// FlowLines are those of the hill as found.
func (f *Far) FlowLines() []seepage.Path { return f.drops.of(f.Flow) }

// WaterAt is the level of the water table at x, m; false where the ground is dry
// down to the foot of the section, or x lies beyond it.
func (s *State) WaterAt(x float64) (z float64, ok bool) { return waterAt(s.Flow.Mesh, s.Table, x) }

// WaterAt is the level in the hill as found.
func (f *Far) WaterAt(x float64) (z float64, ok bool) { return waterAt(f.Flow.Mesh, f.Table, x) }

func waterAt(m *seepage.Mesh, table geom.Polyline, x float64) (z float64, ok bool) {
	z, ok = table.At(x)
	if !ok {
		return 0, false
	}
	i := sort.Search(len(m.Lines), func(i int) bool { return m.Lines[i].X >= x })
	for _, k := range [2]int{i - 1, i} {
		if k >= 0 && k < len(m.Lines) && table[k][1] > m.Nodes[m.Lines[k].First][1]+dryFoot {
			return z, true
		}
	}
	return 0, false
}

// dryFoot is how high the water must stand over the foot of the section to be
// water, m.
const dryFoot = 1e-3

// Trench is the stone round a drain pipe in a section.
func Trench(v *section.View, pipe section.Pipe) geom.Rect {
	top := math.Max(v.Formation, pipe.At[1]+pipe.Bore)
	if pipe.Top > 0 {
		top = pipe.At[1] + pipe.Top
	}
	return geom.Rect{Min: geom.Vec{pipe.At[0] - trench/2, pipe.At[1] - pipe.Bore}, Max: geom.Vec{pipe.At[0] + trench/2, top}}
}
