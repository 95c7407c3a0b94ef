package assess

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/frame"
	"hillset/engine/model"
	"hillset/engine/section"
)

// roofAt is the load on the roof at one station.
type roofAt struct {
	load     RoofLoad
	prism    float64 // kPa, weight of the soil alone, without the arching factor
	gamma    float64 // kN/m3, mean over the soil cover, moist
	gammaSat float64
}

// soilLayer is one soil on the roof.
type soilLayer struct {
	so model.Soil
	t  float64
}

// cover is what lies on the roof at one station once it is covered.
type cover struct {
	soils  []soilLayer // from the top down
	weight float64     // kPa, build-up under them
	depth  float64     // m, soils and build-up
}

// coverAt finds the soils on the roof at x and the weight of the build-up
// under them.
func (j *job) coverAt(x float64) *cover {
	c := &cover{depth: section.Cover(j.p, j.box, x)}
	left := c.depth
	for _, l := range j.p.Fill.Roof {
		left -= l.Thickness
		c.weight += l.Thickness * l.Gamma
	}
	for _, part := range []struct {
		id string
		t  float64
	}{{j.p.Fill.TopsoilSoil, j.p.Fill.TopsoilThickness}, {j.p.Fill.CapSoil, j.p.Fill.CapThickness}, {j.p.Fill.Backfill, math.Inf(1)}} {
		t := math.Min(part.t, left)
		if t <= 1e-6 {
			continue
		}
		left -= t
		if so, ok := section.SoilByID(j.p, part.id); ok {
			c.soils = append(c.soils, soilLayer{so, t})
		}
	}
	return c
}

// roof is the load on the roof here at the stage of a view.
func (pl *place) roof(v *section.View) (roofAt, error) {
	j := pl.j
	r := roofAt{load: RoofLoad{Station: pl.x}}
	if !v.Stage.Cover {
		return r, nil
	}
	if pl.cover == nil {
		pl.cover = j.coverAt(pl.x)
	}
	r.load.Layers = pl.cover.weight
	surface := j.roofLevel() + pl.cover.depth
	z := surface
	for i := range pl.cover.soils {
		s := &pl.cover.soils[i]
		dry := math.Min(s.t, math.Max(0, z-math.Max(v.Water, z-s.t)))
		if math.IsNaN(v.Water) {
			dry = s.t
		}
		r.prism += dry*s.so.Gamma + (s.t-dry)*s.so.GammaSat
		r.load.Cover += s.t
		r.gamma += s.t * s.so.Gamma
		r.gammaSat += s.t * s.so.GammaSat
		z -= s.t
	}
	if v.Water > surface {
		r.load.Water = earth.GammaW * (v.Water - surface)
	}
	if r.load.Cover > 0 {
		r.gamma /= r.load.Cover
		r.gammaSat /= r.load.Cover
		p, _, err := earth.RoofEarth(r.prism/r.load.Cover, r.load.Cover, j.across, j.p.Fill.Proven)
		if err != nil {
			return r, err
		}
		r.load.Soil = p
	}
	if v.Stage.Snow {
		r.load.Snow = j.p.Site.Climate.GroundSnow
	}
	err := j.roofSurcharges(v.Stage, &r, pl.x, pl.cover.depth)
	l := &r.load
	l.Total = l.Layers + l.Soil + l.Live + l.Area + l.Snow + l.Water
	return r, err
}

// roofSurcharges adds area loads over the station in full and wheels as the
// uniform pressure that bends the roof as much.
func (j *job) roofSurcharges(st model.Stage, r *roofAt, x, cover float64) error {
	var wheels []earth.Patch
	for _, s := range j.acting(st) {
		if s.Kind == model.AreaLoad {
			if s.X1 <= x && x <= s.X2 && (isWide(s) || math.Min(*s.Y1, *s.Y2) < j.across/2 && math.Max(*s.Y1, *s.Y2) > -j.across/2) {
				r.load.Area += s.Q
			}
			continue
		}
		p, err := j.patches(s)
		if err != nil {
			return err
		}
		wheels = append(wheels, p...)
	}
	if len(wheels) == 0 {
		return nil
	}
	impact, err := earth.DynamicAllowance(cover)
	if err != nil {
		return err
	}
	r.load.Live, err = j.evenOut(wheels, x, cover, 1+impact)
	return err
}

// evenSamples is the number of points across the span at which the stress
// under wheels is taken.
const evenSamples = 25

// evenOut is the uniform pressure that gives the same largest moment on the
// span of the roof as the stress of the wheels below the cover (exact, for
// footprints on an elastic half-space), times the dynamic factor. The span lies
// across the box; set broadside that is along x, and every wheel's own line is
// tried, since the stations run across the span there.
func (j *job) evenOut(wheels []earth.Patch, x, cover, factor float64) (float64, error) {
	if j.p.Box.Orientation != model.Broadside {
		return j.evenLine(wheels, cover, factor, func(s float64) (px, py float64) { return x, s })
	}
	worst := 0.0
	for _, w := range wheels {
		y := math.Min(math.Max(w.Y, -j.across/2), j.across/2)
		q, err := j.evenLine(wheels, cover, factor, func(s float64) (px, py float64) { return (j.frontX+j.backX)/2 + s, y })
		if err != nil {
			return 0, err
		}
		worst = math.Max(worst, q)
	}
	return worst, nil
}

// evenLine samples one line across the span; at gives the plan position of a
// point by its distance from the middle.
func (j *job) evenLine(wheels []earth.Patch, cover, factor float64, at func(s float64) (x, y float64)) (float64, error) {
	span := j.roofSpan()
	load := make(frame.Load, evenSamples)
	sum := 0.0
	for i := range load {
		s := span * float64(i) / (evenSamples - 1)
		x, y := at(s - span/2)
		q, err := earth.PatchStress(wheels, x, y, cover)
		if err != nil {
			return 0, err
		}
		load[i] = frame.LoadPoint{S: s, P: q * factor}
		sum += q
	}
	if sum == 0 {
		return 0, nil
	}
	b, err := frame.Simple(span, load, 1)
	if err != nil {
		return 0, err
	}
	return 8 * b.MMax / (span * span), nil
}

// roofSpan is the span of the roof sheet between the middles of the top rails.
func (j *job) roofSpan() float64 { return j.box.W - j.side.top.B }

// roofSheet is a metre of roof under its load, pressed by the walls below it.
// Stages that load it alike share it.
type roofSheet struct {
	on     box.OnRoof
	thrust box.Pair
	roof   *agedRoof
	result box.RoofResult
}

// onRoof are the loads as sheet and ribs take them.
func (l *RoofLoad) onRoof() box.OnRoof {
	return box.OnRoof{Dead: l.Layers + l.Soil, Live: l.Live + l.Area, Snow: l.Snow, Water: l.Water}
}

// sheet loads and solves the roof sheet here, nil where nothing presses on it.
func (pl *place) sheet(st model.Stage, l *RoofLoad, thrust box.Pair) (*roofSheet, error) {
	roof, on := &pl.j.agedAt(st.Years).roof, l.onRoof()
	if roof.fault != nil {
		return nil, roof.fault
	}
	if l.Total <= 0 && thrust.ASD <= 0 {
		return nil, nil
	}
	for _, s := range pl.sheets {
		if s.roof == roof && s.on == on && s.thrust == thrust {
			return s, nil
		}
	}
	if roof.unfit != nil {
		return nil, roof.unfit
	}
	made, err := roof.ready.Under(on, thrust)
	if err != nil {
		return nil, err
	}
	s := &roofSheet{roof: roof, on: on, thrust: thrust, result: made}
	pl.sheets = append(pl.sheets, s)
	return s, nil
}

// strip is the sheet with its load, to be written.
func (s *roofSheet) strip() box.RoofStrip { return s.roof.ready.Strip(s.on, s.thrust) }

// roofChecks offers the roof sheet, its deflection and the purlins under it at
// every station that carries or is pressed, and the corner posts.
func (j *job) roofChecks(sr *stageResult, worst *worstOf) error {
	for i := range sr.tops {
		t := &sr.tops[i]
		if t.sheetFault != nil {
			return t.sheetFault
		}
		if t.sheet == nil {
			continue
		}
		s := t.sheet
		c := candidate{slot: slot{"roof-sheet", "roof"}, stage: sr.st.ID, station: t.load.Station, hasStation: true}
		c.ratio = math.Max(s.result.ASD.Ratio, s.result.LRFD.Ratio)
		c.write = func() (check.Check, error) { made, _, err := box.RoofSheet(s.strip()); return made, err }
		worst.add(c)
		c.id, c.ratio = "roof-deflection", s.result.Deflection*j.sagLimit/s.result.Bay
		c.write = func() (check.Check, error) {
			made, _, err := box.RoofDeflection(s.strip(), j.sagLimit)
			return made, err
		}
		worst.add(c)
		if err := j.purlinChecks(sr, s, t.load.Station, worst); err != nil {
			return err
		}
	}
	return j.postCheck(sr, worst)
}

// hasRibs tells whether ribs stand in the box; purlins and the wales of the
// long sides rest on them.
func (j *job) hasRibs() bool { return j.p.Strengthening.Ribs.Spacing > 0 }
