package water

import (
	"context"
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

// Target is a level that the water table of the hill as found is to have.
type Target struct {
	X, Level float64
}

// Far is what was fitted: the levels at both ends of the section, and how near
// the water table comes to its targets.
type Far struct {
	Left, Right float64
	Misses      []Miss
	Flow        *seepage.Flow // of the hill as found
	Table       geom.Polyline // its water table
	// Full says that the far ground is saturated to its surface and the water
	// still does not come as high as asked.
	Full bool

	drops drops
}

// Miss is a target with the level computed there.
type Miss struct {
	Target
	Computed float64
}

// Targets are the levels to fit for a stage's water: the level given at the
// back of the box, else the highest water observed at each place.
func Targets(p *model.Project, wet string, back float64) []Target {
	level := p.Site.Water.Seasonal
	if wet == model.WaterHigh {
		level = p.Site.Water.DesignHigh
	}
	if level != nil {
		return []Target{{back, *level}}
	}
	if wet == model.WaterHigh {
		return nil // what was seen is no design level
	}
	return highest(p.Site.Water.Observed)
}

// samePlace is how near two observations may lie and still be of one place, m.
const samePlace = 0.5

// highest keeps of the observations of each place the highest.
func highest(obs []model.WaterPoint) []Target {
	var out []Target
next:
	for _, o := range obs {
		for i := range out {
			if math.Abs(out[i].X-o.Pos[0]) < samePlace {
				out[i].Level = math.Max(out[i].Level, o.Pos[1])
				continue next
			}
		}
		out = append(out, Target{o.Pos[0], o.Pos[1]})
	}
	return out
}

// leftLevel is the water at the downhill end: as deep below the ground as at
// the observation nearest to it that lies downhill of the box, or at the ground.
func leftLevel(p *model.Project, v *section.View) float64 {
	z := v.Ground[0][1]
	depth, found := 0.0, math.Inf(1)
	for _, t := range highest(p.Site.Water.Observed) {
		g, ok := v.Ground.At(t.X)
		if ok && t.X < p.Box.Front && t.X < found {
			depth, found = math.Max(0, g-t.Level), t.X
		}
	}
	return z - depth
}

// Fit finds the far water level uphill at which the water table of the hill as
// found, in view v, meets the targets best (least squares). It is between the
// foot of the section and the ground. An error is a model.Problem, or
// seepage.ErrUnsettled.
func Fit(ctx context.Context, p *model.Project, v *section.View, targets []Target, g seepage.Grain) (*Far, error) {
	if len(targets) == 0 {
		return nil, model.Problem{Field: "site.water.observed", Value: "none", Allowed: "1 or more", Text: "no water level is given or was observed: the far level cannot be fitted"}
	}
	d, err := domain(p, v, Options{})
	if err != nil {
		return nil, err
	}
	m, err := d.Build(g)
	if err != nil {
		return nil, err
	}
	f := &fit{m: m, d: d, targets: targets}
	d.Left.Head = leftLevel(p, v)
	ground := v.Ground[len(v.Ground)-1][1]
	foot := m.Nodes[m.Lines[len(m.Lines)-1].First][1]
	level, err := f.search(ctx, math.Max(foot, d.Left.Head), ground)
	if err != nil {
		return nil, err
	}
	flow, miss, err := f.try(level)
	if err != nil {
		return nil, err
	}
	out := &Far{Left: d.Left.Head, Right: level, Flow: flow, Table: flow.Table(), Misses: miss}
	out.Full = level > ground-settled && sum(miss, nil) < -settled
	return out, nil
}

// settled is how near a level is fitted, m.
const settled = 2e-3

type fit struct {
	m       *seepage.Mesh
	d       *seepage.Domain
	targets []Target
	last    *seepage.Flow
}

// try is the flow under a far level.
func (f *fit) try(level float64) (*seepage.Flow, []Miss, error) {
	flow, err := f.m.WithLevels(f.d.Left.Head, level).Solve(f.last)
	if err != nil {
		return nil, nil, err
	}
	f.last = flow
	table := flow.Table()
	miss := make([]Miss, 0, len(f.targets))
	for _, t := range f.targets {
		z, ok := table.At(t.X)
		if !ok {
			return nil, nil, model.Problem{Field: "site.water.observed", Value: "x = " + quantity.Text(t.X, quantity.Length), Allowed: "a place on the ground line", Text: "a water level lies beside the ground line"}
		}
		miss = append(miss, Miss{t, z})
	}
	return flow, miss, nil
}

// sum is how much the computed table lies too high, over all targets, each
// counted by its weight; all the same for none.
func sum(miss []Miss, weight []float64) float64 {
	s := 0.0
	for i, m := range miss {
		w := 1.0
		if weight != nil {
			w = weight[i]
		}
		s += w * (m.Computed - m.Level)
	}
	return s
}

// weights are how much the table rises at each target when the far level goes
// from one end of its range to the other, in units of the mean: the squares of
// the misses are least where the misses cancel when so weighted.
func weights(low, high []Miss) []float64 {
	out, total := make([]float64, len(low)), 0.0
	for i := range low {
		out[i] = math.Max(0, high[i].Computed-low[i].Computed)
		total += out[i]
	}
	if total == 0 {
		return nil
	}
	for i := range out {
		out[i] *= float64(len(out)) / total
	}
	return out
}

// search closes in on the level at which the squares of the misses are least
// (regula falsi, the Illinois way); at an end of the range where they still
// fall there.
func (f *fit) search(ctx context.Context, lo, hi float64) (float64, error) {
	at := func(z float64) ([]Miss, error) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		_, miss, err := f.try(z)
		return miss, err
	}
	high, err := at(hi)
	if err != nil || sum(high, nil) <= 0 && len(high) == 1 || hi-lo < settled {
		return hi, err
	}
	low, err := at(lo)
	if err != nil {
		return lo, err
	}
	w := weights(low, high)
	a, b := sum(low, w), sum(high, w)
	switch {
	case b <= 0:
		return hi, nil
	case a >= 0:
		return lo, nil
	}
	side := 0
	for range 30 {
		z := (a*hi - b*lo) / (a - b)
		miss, err := at(z)
		if err != nil {
			return z, err
		}
		c := sum(miss, w)
		if math.Abs(c) < settled*float64(len(f.targets)) || hi-lo < settled/10 {
			return z, nil
		}
		if c < 0 {
			lo, a = z, c
			if side == -1 {
				b /= 2
			}
			side = -1
			continue
		}
		hi, b = z, c
		if side == 1 {
			a /= 2
		}
		side = 1
	}
	return lo, nil
}
