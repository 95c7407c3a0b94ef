package assess

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/frame"
	"hillset/engine/model"
	"hillset/engine/section"
)

// roofAt is the load on the roof at one station.
type roofAt struct {
	load     RoofLoad
	wheels   frame.Load // kPa across the span from the left (downhill) rail, impact included; nil for none
	impact   float64    // share by which the wheels grew
	depth    float64    // m, soil and build-up
	prism    float64    // kPa, weight of the soil alone, without the arching factor
	fe       float64    // factor on it
	gamma    float64    // kN/m3, mean over the soil cover, moist
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

// roof is the load on the roof here at the stage of a view. Only soil and
// build-up wait for the cover: snow, machines and water come as they please.
func (pl *place) roof(v *section.View) (roofAt, error) {
	r := roofAt{load: RoofLoad{Station: pl.x}}
	if v.Stage.Cover {
		if err := pl.lay(v, &r); err != nil {
			return r, err
		}
	}
	if surface, w := pl.j.roofLevel()+r.depth, pl.j.level(v, pl.x); w > surface {
		r.load.Water = earth.GammaW * (w - surface)
	}
	if v.Stage.Snow {
		r.load.Snow = pl.j.p.Site.Climate.GroundSnow
	}
	err := pl.j.roofSurcharges(v.Stage, &r, pl.x)
	l := &r.load
	l.Total = l.Layers + l.Soil + l.Live + l.Area + l.Snow + l.Water
	return r, err
}

// lay puts build-up and soil on the roof. The factor on the soil goes by the
// width of the box itself, however it lies to the hill.
func (pl *place) lay(v *section.View, r *roofAt) error {
	if pl.cover == nil {
		pl.cover = pl.j.coverAt(pl.x)
	}
	r.depth, r.load.Layers = pl.cover.depth, pl.cover.weight
	z, w := pl.j.roofLevel()+r.depth, pl.j.level(v, pl.x)
	for i := range pl.cover.soils {
		s := &pl.cover.soils[i]
		dry := s.t
		if !math.IsNaN(w) {
			dry = math.Min(s.t, math.Max(0, z-math.Max(w, z-s.t)))
		}
		r.prism += dry*s.so.Gamma + (s.t-dry)*s.so.GammaSat
		r.load.Cover += s.t
		r.gamma += s.t * s.so.Gamma
		r.gammaSat += s.t * s.so.GammaSat
		z -= s.t
	}
	if r.load.Cover <= 0 {
		return nil
	}
	r.gamma /= r.load.Cover
	r.gammaSat /= r.load.Cover
	var err error
	r.load.Soil, r.fe, err = earth.RoofEarth(r.prism/r.load.Cover, r.load.Cover, pl.j.box.W, pl.j.p.Fill.Proven)
	return err
}

// roofSpan is the span of the roof sheet between the middles of the top rails.
func (j *job) roofSpan() float64 { return j.box.W - j.side.top.B }

// hasRibs tells whether ribs stand in the box; purlins and the wales of the
// long sides rest on them.
func (j *job) hasRibs() bool { return j.p.Strengthening.Ribs.Spacing > 0 }
