package section

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
)

// baseDepth is how far below the lowest thing drawn the strata are shown, m.
const baseDepth = 1.5

// minRun keeps a vertical face a function of the horizontal axis: its run is
// this share of its height (1 mm in 10 m), invisible at any scale.
const minRun = 1e-4

// layout is what both sections are built from: the axis, the box on it, the
// bedding and the surface of what is dug. Only st, and dug at the natural
// stage, differ between the stages.
type layout struct {
	p      *model.Project
	st     model.Stage
	box    tables.Box
	ax     axis
	a, b   float64 // the box from a to b along the axis
	floor  float64 // underside of the castings
	roof   float64
	form   float64 // formation level
	length bool    // true for the long section

	dug     geom.Polyline // surface after digging, below or at the ground
	left    []Batter
	right   []Batter
	roofTop float64   // level of the finished surface over the middle of the roof
	flanks  *[2]flank // beside the wall on the left and on the right, dug
}

// BoxOf is the row of the box table that the project names.
func BoxOf(p *model.Project, t *tables.Set) (tables.Box, error) {
	b, ok := t.Box(p.Box.Type)
	if !ok {
		return b, model.Problem{Field: "box.type", Value: p.Box.Type, Allowed: "a type of the box table", Text: "no such box"}
	}
	return b, nil
}

// Depth is how far the box reaches into the hill: its length end-on, its
// width broadside.
func Depth(p *model.Project, b tables.Box) float64 {
	if p.Box.Orientation == model.Broadside {
		return b.W
	}
	return b.L
}

// Across is the extent of the box along the contour.
func Across(p *model.Project, b tables.Box) float64 {
	if p.Box.Orientation == model.Broadside {
		return b.L
	}
	return b.W
}

// Formation is the level to be dug to under the box.
func Formation(p *model.Project) float64 {
	z := p.Box.Level - p.Bedding.RockThickness
	if p.Bedding.Kind != model.RockBedding {
		z -= p.Bedding.PadThickness
	}
	return z
}

// NewLong builds the long section at a stage. An error is a model.Problem that
// names what is missing or cannot be.
func NewLong(p *model.Project, t *tables.Set, st model.Stage) (*View, error) {
	plan, err := NewPlan(p, t)
	if err != nil {
		return nil, err
	}
	long, err := plan.Long()
	if err != nil {
		return nil, err
	}
	return long.At(st)
}

// NewCross builds the cross section at station x (absolute, along the long
// section) at a stage, looking into the hill.
func NewCross(p *model.Project, t *tables.Set, st model.Stage, x float64) (*View, error) {
	plan, err := NewPlan(p, t)
	if err != nil {
		return nil, err
	}
	long, err := plan.Long()
	if err != nil {
		return nil, err
	}
	if _, err := long.Beside(st); err != nil {
		return nil, err // the long section tells first what cannot be
	}
	cross, err := plan.Cross(x)
	if err != nil {
		return nil, err
	}
	return cross.At(st)
}

// CrossOf is NewCross with the long section already at hand.
func CrossOf(p *model.Project, t *tables.Set, long *View, x float64) (*View, error) {
	plan, err := NewPlan(p, t)
	if err != nil {
		return nil, err
	}
	cross, err := plan.Cross(x)
	if err != nil {
		return nil, err
	}
	return cross.At(long.Stage)
}

// WaterAt is the level of still water given for a stage. ok is false where the
// stage has no water or the level is not given; Missing tells the two apart.
func WaterAt(p *model.Project, st model.Stage) (level float64, ok bool) {
	if p.Site.Water.Computed {
		return math.NaN(), false // see package water
	}
	var z *float64
	switch st.Water {
	case model.WaterHigh:
		z = p.Site.Water.DesignHigh
	case model.WaterSeasonal:
		z = p.Site.Water.Seasonal
	}
	if z == nil {
		return math.NaN(), false
	}
	return *z, true
}

// strataZones are the natural strata less what is dug.
func (l *layout) strataZones() []Zone {
	lowest := math.Inf(1)
	for _, q := range l.dug {
		lowest = math.Min(lowest, q[1])
	}
	for _, top := range l.ax.tops {
		for _, q := range top {
			lowest = math.Min(lowest, q[1])
		}
	}
	base := geom.Polyline{{l.ax.lo, lowest - baseDepth}, {l.ax.hi, lowest - baseDepth}}
	var out []Zone
	for i, s := range l.ax.strata {
		under := base
		if i+1 < len(l.ax.tops) {
			under = l.ax.tops[i+1]
		}
		upper := l.ax.tops[i]
		if len(l.dug) > 0 {
			upper = geom.Lower(upper, l.dug)
		}
		r := geom.Between(upper, under, l.ax.lo, l.ax.hi)
		if len(r) == 0 {
			continue
		}
		so, _ := SoilByID(l.p, s.Soil)
		out = append(out, Zone{Kind: Natural, Name: so.Name, Soil: s.Soil, Hatch: so.USCS, Region: r})
	}
	return out
}

// SoilByID finds a soil of the project.
func SoilByID(p *model.Project, id string) (model.Soil, bool) {
	for _, s := range p.Site.Soils {
		if s.ID == id {
			return s, true
		}
	}
	return model.Soil{}, false
}
