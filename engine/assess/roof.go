package assess

import (
	"math"

	"hillset/engine/box"
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

// coverLayers are the soils on the roof at x from the top down, and the
// thickness and weight of the build-up under them.
func (j *job) coverLayers(x float64) (soils []soilLayer, build, weight float64) {
	for _, l := range j.p.Fill.Roof {
		build += l.Thickness
		weight += l.Thickness * l.Gamma
	}
	left := section.Cover(j.p, j.box, x) - build
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
			soils = append(soils, soilLayer{so, t})
		}
	}
	return soils, build, weight
}

// roofLoad is the load on the roof at a station of a stage.
func (j *job) roofLoad(v *section.View, x float64) (roofAt, error) {
	r := roofAt{load: RoofLoad{Stage: v.Stage.ID, Station: x}}
	if !v.Stage.Cover {
		return r, nil
	}
	soils, _, weight := j.coverLayers(x)
	r.load.Layers = weight
	surface := j.roofLevel() + section.Cover(j.p, j.box, x)
	z := surface
	for _, s := range soils {
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
	err := j.roofSurcharges(v.Stage, &r, x)
	l := &r.load
	l.Total = l.Layers + l.Soil + l.Live + l.Area + l.Snow + l.Water
	return r, err
}

// roofSurcharges adds area loads over the station in full and wheels as the
// uniform pressure that bends the roof as much.
func (j *job) roofSurcharges(st model.Stage, r *roofAt, x float64) error {
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
	cover := section.Cover(j.p, j.box, x)
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

// roofStrip is a metre of roof at a station under its load, pressed by the
// walls below it.
func (j *job) roofStrip(st model.Stage, r roofAt, thrust box.Pair) (box.RoofStrip, error) {
	t := j.roof.T
	if j.p.Box.RoofT > 0 {
		t = j.p.Box.RoofT / 1000
	}
	t, err := j.rusted(t, st.Years)
	if err != nil {
		return box.RoofStrip{}, err
	}
	prof, err := profileOf(j.roof, t)
	if err != nil {
		return box.RoofStrip{}, err
	}
	l := r.load
	s := box.RoofStrip{Profile: prof, Steel: j.metal, Span: j.roofSpan(), Thrust: thrust,
		Dead: l.Layers + l.Soil, Live: l.Live + l.Area, Snow: l.Snow, Water: l.Water, Dent: j.p.Box.RoofDent / 1000}
	if n := j.p.Strengthening.Ribs.Purlins; n > 0 && j.hasRibs() {
		for i := 1; i <= n; i++ {
			s.Supports = append(s.Supports, s.Span*float64(i)/float64(n+1))
		}
	}
	return s, nil
}

// hasRibs tells whether ribs stand in the box; purlins and the wales of the
// long sides rest on them.
func (j *job) hasRibs() bool { return j.p.Strengthening.Ribs.Spacing > 0 }
