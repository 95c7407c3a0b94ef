package scene

import (
	"errors"
	"math"

	"hillset/engine/model"
	"hillset/engine/seepage"
	"hillset/engine/water"
	"hillset/geom"
)

// wetGround is the computed water in the section that is drawn.
type wetGround struct {
	wet *water.Wet // at the stage; nil for the hill as found
	// In a section across the box the water lies between that of the two
	// computed sections beside it: share of the way from near to beyond.
	near, beyond *water.State
	share        float64
	fars         []fitted // of the hill as found, in the long section
	fault        error    // why there is none although there should be
}

// fitted is the water table of the hill as found under one condition.
type fitted struct {
	*water.Far
	name string
}

// wetGround finds the computed water of the view: what was worked out ahead of
// the result, else that of the result. There is none where the level is given.
func (b *builder) wetGround() *wetGround {
	if p := b.project(); p != nil && !p.Site.Water.Computed {
		return nil
	}
	var full *water.Field
	if b.r != nil {
		full = b.r.Water
	}
	for _, f := range [2]*water.Field{b.o.Water, full} {
		if f == nil {
			continue
		}
		if w := b.wetOf(f); w != nil {
			return w
		}
	}
	if full == nil {
		return nil
	}
	if _, err := full.At(b.v.Stage); err != nil && !errors.Is(err, water.ErrNoCondition) && !errors.Is(err, water.ErrNotAsked) {
		return &wetGround{fault: err}
	}
	return nil
}

// wetOf is the water of the view in one field, nil where that does not hold it.
func (b *builder) wetOf(f *water.Field) *wetGround {
	if b.v.Long && b.v.Stage.Kind == model.StageNatural {
		w := &wetGround{}
		for _, c := range []struct{ wet, name string }{{model.WaterSeasonal, "seasonal"}, {model.WaterHigh, "design high"}} {
			if far := f.Far[c.wet]; far != nil {
				w.fars = append(w.fars, fitted{far, c.name})
			}
		}
		if len(w.fars) == 0 {
			return nil
		}
		return w
	}
	wet, err := f.At(b.v.Stage)
	if err != nil {
		return nil
	}
	w := &wetGround{wet: wet}
	if b.v.Long {
		w.near = wet.Long
	} else {
		w.between(b.v.Station)
	}
	if w.near == nil {
		return nil
	}
	return w
}

// between takes the computed sections before and after a station.
func (w *wetGround) between(x float64) {
	for i, c := range w.wet.Cross {
		if i > 0 && x < c.View.Station {
			return
		}
		w.near, w.beyond, w.share = c, nil, 0
		if i+1 < len(w.wet.Cross) && x > c.View.Station {
			n := w.wet.Cross[i+1]
			w.beyond, w.share = n, math.Min(1, (x-c.View.Station)/(n.View.Station-c.View.Station))
		}
	}
}

// state is the computed section nearest to the one drawn; nil for the hill as
// found.
func (w *wetGround) state() *water.State {
	if w.beyond != nil && w.share > 0.5 {
		return w.beyond
	}
	return w.near
}

// flow is the flow to be shown, with the ways of its drops.
func (w *wetGround) flow() (f *seepage.Flow, drops func() []seepage.Path) {
	if s := w.state(); s != nil {
		return s.Flow, s.FlowLines
	}
	if len(w.fars) > 0 {
		return w.fars[0].Flow, w.fars[0].FlowLines
	}
	return nil, nil
}

// at is the level of the water table at a place along the section.
func (w *wetGround) at(x float64) (float64, bool) {
	z, ok := w.near.WaterAt(x)
	if w.beyond == nil {
		return z, ok
	}
	y, also := w.beyond.WaterAt(x)
	switch {
	case ok && also:
		return z + w.share*(y-z), true
	case ok && w.share < 0.5:
		return z, true
	}
	return y, also && w.share >= 0.5
}

// places are the corners of the water table.
func (w *wetGround) places() []float64 {
	var xs []float64
	for _, s := range [2]*water.State{w.near, w.beyond} {
		if s != nil {
			for _, q := range s.Table {
				xs = append(xs, q[0])
			}
		}
	}
	return xs
}

// tables are the water tables to be drawn, as chains through the ground.
func (b *builder) tables() [][]geom.Polyline {
	w := b.wet
	switch {
	case w == nil || w.fault != nil || !b.show(Water):
		return nil
	case w.near != nil:
		return [][]geom.Polyline{b.tableLine(w.at, w.places())}
	}
	var out [][]geom.Polyline
	for _, f := range w.fars {
		var xs []float64
		for _, q := range f.Table {
			xs = append(xs, q[0])
		}
		out = append(out, b.tableLine(f.WaterAt, xs))
	}
	return out
}

// tableLine is a water table through the ground, up to the walls of the box:
// where the water under the box presses on it, no line is drawn there, as the
// pressure is.
func (b *builder) tableLine(at func(x float64) (float64, bool), xs []float64) []geom.Polyline {
	xs = append(xs, b.land.Min[0], b.land.Max[0])
	box, has := b.v.Box, b.v.HasBox
	if has {
		xs = append(xs, box.Min[0], box.Max[0])
	}
	sortFloats(xs)
	var out []geom.Polyline
	var run geom.Polyline
	flush := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	for i := 1; i < len(xs); i++ {
		p, q := geom.Vec{xs[i-1], 0}, geom.Vec{xs[i], 0}
		if q[0]-p[0] < geom.TolTouch {
			continue
		}
		var okP, okQ bool
		p[1], okP = b.inGround(at, p[0])
		q[1], okQ = b.inGround(at, q[0])
		if !okP || !okQ {
			flush()
			continue
		}
		if mid := (p[0] + q[0]) / 2; has && mid > box.Min[0] && mid < box.Max[0] && !(p[1] >= box.Max[1] && q[1] >= box.Max[1]) {
			if p[1] >= box.Min[1] && q[1] >= box.Min[1] {
				flush()
				continue
			}
			p[1], q[1] = math.Min(p[1], box.Min[1]), math.Min(q[1], box.Min[1])
		}
		if len(run) == 0 || run[len(run)-1] != p {
			flush()
			run = geom.Polyline{p}
		}
		run = append(run, q)
	}
	flush()
	return b.inLand(out)
}

// inGround is a level kept below the surface: the water may have been computed
// for a surface that has just been moved.
func (b *builder) inGround(at func(x float64) (float64, bool), x float64) (float64, bool) {
	z, ok := at(x)
	if top, on := b.v.Finish.At(x); on {
		z = math.Min(z, top)
	}
	return z, ok
}

// waterTable draws the computed water table; there is none to draw before the
// result is there, and none in a stage that is dry.
func (b *builder) waterTable() {
	for _, t := range b.tables() {
		for _, c := range t {
			b.at.chain(c)
		}
		b.add(Path{Layer: Water, Tag: "water:table", Parts: t, Stroke: WaterLine, Width: wGround, Dash: dashChain})
	}
}

// waterTableText gives the level of the table at its far end and at the walls.
func (b *builder) waterTableText() {
	w := b.wet
	if w == nil || !b.show(Water) {
		return
	}
	if w.fault != nil {
		l := label(Water, "water:fault", "no water line: see why under Checks")
		l.Role = WaterLine
		b.must(l, b.foot().Add(geom.Vec{0, 8 * b.mm}), b.foot().Add(geom.Vec{0, 13 * b.mm}))
		return
	}
	names := []string{"water table"}
	if w.near == nil {
		names = nil
		for _, f := range w.fars {
			names = append(names, "fitted water table, "+f.name+",")
		}
	} else if s := conditions[b.v.Stage.Water]; s != "" {
		names[0] += ", " + s + ","
	}
	for i, t := range b.tables() {
		b.farEnd(t, names[i])
	}
	b.atWalls()
	b.misses()
}

// conditions are the names of the conditions in a text.
var conditions = map[string]string{model.WaterHigh: "design high", model.WaterSeasonal: "seasonal"}

// farEnd puts sign and level near the uphill end of a line.
func (b *builder) farEnd(line []geom.Polyline, name string) {
	if len(line) == 0 {
		return
	}
	last := line[len(line)-1]
	lo, hi := last[0][0], last[len(last)-1][0]
	l := label(Water, "water:table", "")
	l.Role = WaterLine
	for _, share := range []float64{0.93, 0.85, 0.75, 0.62, 0.5, 0.35, 0.2} {
		x := lo + share*(hi-lo)
		z, ok := last.At(x)
		at := geom.Vec{x, z}
		if !ok || !b.seen(at) || !b.at.free(waterRoom(at, b.mm)) {
			continue
		}
		l.Text = name + " " + b.level(z)
		l.Anchor = Anchor{H: share, V: 0}
		b.waterSign(at)
		if !b.put(l, at.Add(geom.Vec{0, 4 * b.mm}), at.Add(geom.Vec{0, 8 * b.mm}), at.Sub(geom.Vec{0, 7 * b.mm})) {
			b.callout(l, at, 2.8)
		}
		return
	}
}

// atWalls gives the level at each wall that water stands against, and says so
// where the checks take a higher one from the section across.
func (b *builder) atWalls() {
	const more = 0.05 // m, what is worth a word
	w := b.wet
	if w.near == nil || !b.v.HasBox {
		return
	}
	box := b.v.Box
	for _, side := range []struct {
		x    float64
		name string
	}{{box.Max[0], "at the back wall"}, {box.Min[0], "at the front"}} {
		name := side.name
		if !b.v.Long {
			name = "at this wall"
		}
		z, ok := w.at(side.x)
		own := ok && z > box.Min[1]+geom.TolTouch
		text := "water " + name + " " + b.level(z)
		if across, has := b.acrossAt(side.x); has && (!own || across > z+more) {
			at := geom.Vec{side.x, across}
			l := label(Water, "water:across", "checks take "+b.level(across)+" "+name+", from the cross section")
			l.Role = WaterLine
			b.callout(l, at, 0)
		}
		if !own || z >= box.Max[1] {
			continue
		}
		l := label(Water, "water:wall", text)
		l.Role = WaterLine
		at := geom.Vec{side.x, z}
		if room := waterRoom(at, b.mm); b.at.free(room) {
			b.waterSign(at)
			b.callout(l, at, 2.8)
			continue
		}
		b.callout(l, at, 0)
	}
}

// acrossAt is how high the water stands beside an end of the box by the section
// across it; false in such a section itself.
func (b *builder) acrossAt(x float64) (float64, bool) {
	if !b.v.Long || b.wet.wet == nil {
		return 0, false
	}
	c := b.wet.wet.CrossAt(x)
	if c == nil {
		return 0, false
	}
	most := math.Inf(-1)
	for _, side := range [2]float64{c.View.Box.Min[0], c.View.Box.Max[0]} {
		if z, ok := c.WaterAt(side); ok {
			most = math.Max(most, z)
		}
	}
	return most, most > b.v.Box.Min[1]+geom.TolTouch
}
