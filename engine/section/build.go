package section

import (
	"fmt"
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
// bedding and the surface of what is dug.
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
	roofTop float64 // level of the finished surface over the middle of the roof
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
	box, err := BoxOf(p, t)
	if err != nil {
		return nil, err
	}
	ax, err := longAxis(p)
	if err != nil {
		return nil, err
	}
	l := &layout{p: p, st: st, box: box, ax: ax, length: true,
		a: p.Box.Front, b: p.Box.Front + Depth(p, box)}
	if l.a-p.Cut.Apron < ax.lo || l.b+p.Cut.WorkBack > ax.hi {
		return nil, model.Problem{Field: "box.front", Value: fmt.Sprintf("%.2f m", l.a),
			Allowed: fmt.Sprintf("%.2f to %.2f m", ax.lo+p.Cut.Apron, ax.hi-p.Cut.WorkBack-Depth(p, box)),
			Text:    "the box with its apron and working space reaches beyond the ground line"}
	}
	return l.view(math.NaN())
}

// NewCross builds the cross section at station x (absolute, along the long
// section) at a stage, looking into the hill.
func NewCross(p *model.Project, t *tables.Set, st model.Stage, x float64) (*View, error) {
	long, err := NewLong(p, t, st)
	if err != nil {
		return nil, err
	}
	return CrossOf(p, t, long, x)
}

// CrossOf is NewCross with the long section already at hand.
func CrossOf(p *model.Project, t *tables.Set, long *View, x float64) (*View, error) {
	box, err := BoxOf(p, t)
	if err != nil {
		return nil, err
	}
	lax, err := longAxis(p)
	if err != nil {
		return nil, err
	}
	w := Across(p, box)
	l := &layout{p: p, st: long.Stage, box: box, a: -w / 2, b: w / 2}
	zg, ok := lax.ground().At(x)
	if !ok {
		return nil, model.Problem{Field: "station", Value: fmt.Sprintf("%.2f m", x),
			Allowed: fmt.Sprintf("%.2f to %.2f m", lax.lo, lax.hi), Text: "the station is outside the ground line"}
	}
	half := w/2 + crossReach(p, w, zg-Formation(p), finishAt(p, box, x)-zg) + crossMargin
	if l.ax, err = crossAxis(p, lax, x, half); err != nil {
		return nil, err
	}
	v, err := l.view(x)
	if err != nil {
		return nil, err
	}
	return v, nil
}

// How much ground a cross section shows beyond the works, and the most it
// shows in all, m. A face or a mound that has not met the ground within the
// most never will for practical purposes, and is refused by name.
const (
	crossMargin = 2.5
	crossMost   = 60.0
)

// crossReach is how far the works reach beyond the side of the box: the faces
// of a cut so deep, or a mound so high, on ground that falls across.
func crossReach(p *model.Project, w, cut, mound float64) float64 {
	run := func(h, n float64) float64 {
		if h <= 0 {
			return 0
		}
		flat := 1/math.Max(n, minRun) - math.Abs(p.Site.CrossSlope)
		if flat <= h/crossMost {
			return crossMost
		}
		return h / flat
	}
	// beside the box the ground may be lower or higher than on the centre line
	side := math.Abs(p.Site.CrossSlope) * (w/2 + p.Cut.WorkSide + p.Fill.Shoulder)
	face := p.Cut.WorkSide + run(cut+side, p.Cut.SideBatter)
	return math.Max(face, p.Fill.Shoulder) + run(mound+side, p.Fill.SideSlope)
}

// view runs the steps of building a section in order.
func (l *layout) view(station float64) (*View, error) {
	l.floor = l.p.Box.Level
	l.roof = l.floor + l.box.H
	l.form = Formation(l.p)
	v := &View{lay: l, Stage: l.st, Long: l.length, Station: station, Ground: l.ax.ground(), Formation: l.form, Water: l.water(),
		Box: geom.Rect{Min: geom.Vec{l.a, l.floor}, Max: geom.Vec{l.b, l.roof}}, Doors: l.length && l.p.Box.Orientation == model.EndOn}
	l.dug = l.ax.ground()
	if l.st.Kind != model.StageNatural {
		if err := l.dig(v); err != nil {
			return nil, err
		}
	}
	v.HasBox = l.st.Kind != model.StageNatural && l.st.Kind != model.StageCut
	v.Finish = l.dug
	if v.HasBox {
		v.Bedding = l.bedding()
		if l.st.Kind != model.StageSet {
			if err := l.fill(v); err != nil {
				return nil, err
			}
		}
	}
	v.Strata = l.strataZones()
	return v, nil
}

// water is the level that stands at this stage, NaN for none or not given.
func (l *layout) water() float64 {
	z, ok := WaterAt(l.p, l.st)
	if !ok {
		return math.NaN()
	}
	return z
}

// WaterAt is the level of standing water at a stage. ok is false where the
// stage has no water or the level is not given; Missing tells the two apart.
func WaterAt(p *model.Project, st model.Stage) (level float64, ok bool) {
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
