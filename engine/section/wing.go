package section

import (
	"fmt"
	"math"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/geom"
)

// Wing is one of the block walls beside the front, from the corner of the box
// outwards. Places along it are distances from that corner along its face, m.
// It never changes.
type Wing struct {
	Dir     float64 // -1 on the left, +1 on the right, looking into the hill
	Splay   float64 // in plan from the line of the front, rad
	Batter  float64 // back from vertical, rad
	Base    float64 // level of the underside of the lowest course, m
	Height  float64 // of a course, m
	Deep    float64 // of a block, from face to back, m
	Setback float64 // of each course from the one below, m
	Columns []WingColumn
	Blocks  WingBlocks

	pl      *Plan
	cut     *Cut
	half    float64 // of the box across
	finish  geom.Polyline
	topFill float64 // level of the finished surface at the front
}

// WingColumn is half a block of length of a wing with all its courses. The wall
// steps down outwards: a column has as many courses as reach the finished
// surface behind its near end, and no more than the one before.
type WingColumn struct {
	From, To float64 // along the wall, m
	Courses  int
}

// WingBlocks are the blocks of one wing, laid in half bond.
type WingBlocks struct {
	Full, Half int     // blocks, and blocks of half the length
	Length     float64 // of the wall as laid, m: whole half blocks
	Rock       float64 // base rock below it, m3: spread 2:1 below the lowest course
}

// Top is the level of the top of a column.
func (w *Wing) Top(c WingColumn) float64 { return w.Base + float64(c.Courses)*w.Height }

// Length is that of the wall as laid, m.
func (w *Wing) Length() float64 { return w.Columns[len(w.Columns)-1].To }

// finished is a stage in which all fill is in place.
var finished = model.Stage{Kind: model.StageService, FillTo: 1, Cover: true}

// Wing lays out the wing wall on one side: dir is -1 for the left and +1 for
// the right. It is nil where the project has none, or where no fill is brought
// to that side. An error is a model.Problem.
func (pl *Plan) Wing(dir float64) (*Wing, error) {
	g := &pl.p.Wings
	if !g.Given() || dir < 0 && pl.p.Box.Orientation == model.Broadside {
		return nil, nil
	}
	if err := wingGiven(g); err != nil {
		return nil, err
	}
	w := &Wing{Dir: dir, Splay: g.Splay * math.Pi / 180, Batter: g.Batter * math.Pi / 180, Height: g.BlockHeight, Deep: g.BlockWidth,
		Base: Formation(pl.p) - g.Embed, pl: pl, half: Across(pl.p, pl.box) / 2}
	w.Setback = w.Height * math.Tan(w.Batter)
	n := max(1, int(math.Ceil(2*g.Length/g.BlockLength-1e-9)))
	long := float64(n) * g.BlockLength / 2
	if x, _ := w.At(long, 0); x < pl.ax.lo {
		return nil, lengthProblem("wing_walls.length", g.Length, 0, (pl.p.Box.Front-pl.ax.lo)/math.Sin(w.Splay), "the wing wall reaches beyond the ground line")
	}
	var err error
	if w.cut, err = pl.Cross(pl.p.Box.Front); err != nil {
		return nil, err
	}
	v, err := w.cut.Beside(finished)
	if err != nil {
		return nil, err
	}
	s, ok := v.sideOf(w.face())
	if !ok {
		return nil, nil
	}
	w.finish = s.surface
	w.topFill, _ = s.surface.At(s.edge)
	courses := g.Courses
	for i := range n {
		c := WingColumn{From: float64(i) * g.BlockLength / 2, To: float64(i+1) * g.BlockLength / 2}
		need := int(math.Ceil((w.Finish(c.From)-w.Base)/w.Height - 1e-6))
		courses = min(courses, max(1, need))
		if i == 0 {
			courses = g.Courses // what is given is built at the box
		}
		c.Courses = courses
		w.Columns = append(w.Columns, c)
	}
	w.Blocks = w.count()
	w.Blocks.Rock = long * (w.Deep + g.BaseRock) * g.BaseRock
	return w, nil
}

// wingGiven refuses wing walls without their sizes.
func wingGiven(g *model.WingWalls) error {
	for _, f := range []struct {
		field string
		v     float64
	}{{"block_length", g.BlockLength}, {"block_width", g.BlockWidth}, {"block_height", g.BlockHeight}, {"length", g.Length}} {
		if f.v <= 0 {
			return model.Problem{Field: "wing_walls." + f.field, Value: "not given", Allowed: "a length above 0",
				Text: "the wing walls have courses, but not all their sizes"}
		}
	}
	if n := 2 * g.Length / g.BlockLength; n > mostColumns {
		return model.Problem{Field: "wing_walls.block_length", Value: quantity.Typed.Text(g.BlockLength, quantity.Length),
			Allowed: quantity.Ceil.Text(2*g.Length/mostColumns, quantity.Length) + " or more for walls so long", Text: "the wing walls would have too many blocks"}
	}
	return nil
}

// mostColumns bounds the half blocks along a wing: more were never built of
// blocks that one lifts with a machine.
const mostColumns = 200

// face is the side of the box that the wing stands beside.
func (w *Wing) face() Face {
	if w.Dir < 0 {
		return Left
	}
	return Right
}

// At is the plan position, x into the hill and y across, of a place along the
// wing and so far behind its face, square to it, m.
func (w *Wing) At(along, behind float64) (x, y float64) {
	sin, cos := math.Sincos(w.Splay)
	return w.pl.p.Box.Front - along*sin + behind*cos, w.Dir * (w.half + along*cos + behind*sin)
}

// natural is the ground as found at a place in plan; level beyond the ends of
// the ground line.
func (w *Wing) natural(x, y float64) float64 { return w.stratum(0, x, y) }

// stratum is the level of boundary i of the natural ground.
func (w *Wing) stratum(i int, x, y float64) float64 {
	ax := &w.pl.ax
	return ax.level(i, math.Min(math.Max(x, ax.lo), ax.hi)) + w.pl.p.Site.CrossSlope*y
}

// dug is the surface that digging for the box leaves at a place in plan. The
// trench of the wing itself is left out: it is filled behind the blocks, and what
// stands behind its face presses through that fill.
func (w *Wing) dug(x, y float64) float64 {
	p := w.pl.p
	z := w.natural(x, y)
	if x < p.Box.Front-p.Cut.Apron {
		return z
	}
	out := math.Max(0, math.Abs(y)-w.half-p.Cut.WorkSide)
	return math.Min(z, Formation(p)+out/math.Max(p.Cut.SideBatter, minRun))
}

// drop is how far the hill falls along its fall line from the front of the box
// to a place before it.
func (w *Wing) drop(x float64) float64 { return w.natural(w.pl.p.Box.Front, 0) - w.natural(x, 0) }

// Finish is the finished surface behind a place along the wing: that of the
// cross section at the front, which falls with the hill before it.
func (w *Wing) Finish(along float64) float64 {
	x, y := w.At(along, 0)
	return w.across(w.finish, y) - w.drop(x)
}

// across is a surface of the cross section at the front at y; beyond its end
// the ground as found.
func (w *Wing) across(line geom.Polyline, y float64) float64 {
	if z, ok := line.At(y); ok {
		return z
	}
	return w.natural(w.pl.p.Box.Front, y)
}

// Surface is the surface behind a place along the wing at a stage; ok is false
// where no fill is in place yet. While the fill comes up it is level, but never
// above the finished surface.
func (w *Wing) Surface(st model.Stage, along float64) (z float64, ok bool, err error) {
	v, err := w.cut.Beside(st)
	if err != nil {
		return 0, false, err
	}
	s, ok := v.sideOf(w.face())
	if !ok {
		return 0, false, nil
	}
	_, y := w.At(along, 0)
	return math.Min(w.across(s.surface, y), w.Finish(along)), true, nil
}

// Rise is the slope of the finished surface square to the wing at a place,
// rad: a broken surface is replaced by the straight line to the point at twice
// the height behind it, as for the walls of the box. One that falls away counts
// as level.
func (w *Wing) Rise(along, height float64) float64 {
	if height <= 0 {
		return 0
	}
	x, y := w.At(along, 2*height)
	return math.Max(0, math.Atan2(w.over(x, y)-w.Finish(along), 2*height))
}

// over is the finished surface at a place uphill of the front: the mound beside
// the box, the fill behind it, or the ground, whichever is higher.
func (w *Wing) over(x, y float64) float64 {
	p := w.pl.p
	back := p.Box.Front + Depth(p, w.pl.box)
	if x < p.Box.Front {
		return w.across(w.finish, y) - w.drop(x)
	}
	z := finishAt(p, w.pl.box, math.Min(x, back)) + math.Max(0, x-back)*p.Fill.BackSlope
	z -= math.Max(0, math.Abs(y)-w.half-p.Fill.Shoulder) / math.Max(p.Fill.SideSlope, minRun)
	if x > back {
		return math.Max(z, w.natural(x, y))
	}
	return math.Max(z, w.dug(x, y))
}

// Footing is the ground as found at the front of the lowest course, and so far
// before it, square to the wall.
func (w *Wing) Footing(along, before float64) float64 {
	x, y := w.At(along, -before)
	return w.natural(x, y)
}

// Under is the natural soil just under a level at a place along the wing.
func (w *Wing) Under(along, level float64) (model.Soil, bool) {
	x, y := w.At(along, w.Deep/2)
	k := -1
	for i := range w.pl.ax.strata {
		if math.Min(level, w.natural(x, y))-thin < w.stratum(i, x, y) {
			k = i
		}
	}
	if k < 0 {
		return model.Soil{}, false
	}
	return SoilByID(w.pl.p, w.pl.ax.strata[k].Soil)
}

// WingCore is a column of soil behind a wing, with the friction of each layer on
// concrete, rad.
type WingCore struct {
	Column earth.Column
	Delta  []float64
}

// Cores are the columns of soil that may press on a wing at a place where the
// surface stands at a level at a stage: at the wall, in the middle and at the
// back of the wedge behind it. The strip of drainage rock beside the box counts
// as backfill. A soil that is not in the project is a model.Problem.
func (w *Wing) Cores(st model.Stage, along, surface float64) ([]WingCore, error) {
	l := layout{p: w.pl.p, st: st, ax: w.pl.ax}
	wedge := (surface - w.Base) * math.Tan(math.Pi/4-l.weakest()*math.Pi/360)
	topsoil, clay := l.covers()
	var out []WingCore
	for _, share := range wedgeShares {
		x, y := w.At(along, share*wedge)
		if x > w.pl.ax.hi {
			break
		}
		dug := math.Min(w.dug(x, y), surface)
		z1, z2 := math.Max(surface-topsoil, dug), math.Max(surface-topsoil-clay, dug)
		cores := append(make([]core, 0, 3+len(w.pl.ax.strata)),
			core{w.pl.p.Fill.TopsoilSoil, surface, z1}, core{w.pl.p.Fill.CapSoil, z1, z2}, core{w.pl.p.Fill.Backfill, z2, dug})
		top := dug
		for i, s := range w.pl.ax.strata {
			bottom := w.Base - below
			if i+1 < len(w.pl.ax.strata) {
				bottom = math.Max(bottom, math.Min(top, w.stratum(i+1, x, y)))
			}
			cores = append(cores, core{s.Soil, top, bottom})
			top = bottom
		}
		col, err := w.coreOf(cores)
		if err != nil {
			return nil, err
		}
		out = append(out, col)
	}
	return out, nil
}

// coreOf makes a column of what was met going down.
func (w *Wing) coreOf(met []core) (WingCore, error) {
	out := WingCore{Column: earth.Column{Layers: make([]earth.Layer, 0, len(met))}, Delta: make([]float64, 0, len(met))}
	for _, c := range met {
		if c.top-c.bottom <= thin {
			continue
		}
		so, ok := SoilByID(w.pl.p, c.soil)
		if !ok {
			return out, model.Problem{Field: "fill", Value: fmt.Sprintf("%q", c.soil), Allowed: "a soil of the project", Text: "a layer behind a wing wall has no soil"}
		}
		if n := len(out.Delta); n > 0 {
			c.top = out.Column.Layers[n-1].Bottom
		}
		out.Column.Layers = append(out.Column.Layers, LayerOf(so, c.top, c.bottom))
		out.Delta = append(out.Delta, so.DeltaCo*math.Pi/180)
	}
	return out, nil
}

// count takes the blocks off, course by course.
func (w *Wing) count() WingBlocks {
	out := WingBlocks{Length: w.Length()}
	high := make([]int, len(w.Columns))
	for i, c := range w.Columns {
		high[i] = c.Courses
	}
	half := w.Columns[0].To
	for k := range high[0] {
		w.course(k, high, func(from, to float64) {
			if to-from > 1.5*half {
				out.Full++
			} else {
				out.Half++
			}
		})
	}
	return out
}
