package assess

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Burial is how high one soil may stand against the long wall of the bare box,
// level, with nothing else: the measure for the saying that a box may be
// buried 4 to 6 ft deep.
type Burial struct {
	Class, Name string
	// Height of fill above the bottom of the sheet, m, up to which the side
	// sheet stays within limits: drained, and with water standing to the top of
	// the fill. NaN where the soil is not allowed as backfill.
	Drained, Flooded float64
	// Whole says that the full height of the wall is within.
	WholeDrained, WholeFlooded bool
	// RoofCover is the depth of this soil that the bare roof sheet carries by
	// itself, without thrust from the walls, m.
	RoofCover float64
}

// buried are the soil classes of the table of burials, from the least pressure
// to the most.
var buried = []string{"drain-stone", "GW", "SW", "GM", "SM", "ML", "CL-ML", "SC", "CL", "CH"}

// BurialTable works out how high each soil may stand against the sheet of the
// box of a project, taken bare, and how much of it the bare roof sheet bears:
// the saying is one of bare boxes. What is built in is left out, since it would
// only move the limit to ribs and bars that this table does not look at; so are
// rails, sliding, flotation, compaction, surcharges and slope: on site less
// holds, never more.
func BurialTable(p *model.Project, t *tables.Set) ([]Burial, error) {
	bare := *p
	bare.Strengthening = model.Strengthening{}
	j, err := newJob(&bare, t)
	if err != nil {
		return nil, err
	}
	var out []Burial
	for _, class := range buried {
		row, ok := t.Soil(class)
		so, ok2 := t.SoilOf(class)
		if !ok || !ok2 {
			continue
		}
		b := Burial{Class: class, Name: row.Name, Drained: math.NaN(), Flooded: math.NaN(), RoofCover: math.NaN()}
		if row.CodeAtRest > 0 {
			if b.Drained, b.WholeDrained, err = j.burial(so, false); err != nil {
				return nil, err
			}
			if b.Flooded, b.WholeFlooded, err = j.burial(so, true); err != nil {
				return nil, err
			}
			if b.RoofCover, err = j.roofBurial(so); err != nil {
				return nil, err
			}
		}
		out = append(out, b)
	}
	return out, nil
}

// burial is the height of one soil at which the side sheet reaches its limit.
func (j *job) burial(so model.Soil, flooded bool) (h float64, whole bool, err error) {
	strip, err := j.stripOf(j.side, j.side.t)
	if err != nil {
		return 0, false, err
	}
	return fillHeight(strip, section.LayerOf(so, 0, 0), flooded)
}

// fillHeight is the height of a drained or flooded soil at rest that brings a
// strip of wall to its limit; whole is true where the full wall is within.
func fillHeight(strip box.Strip, l earth.Layer, flooded bool) (h float64, whole bool, err error) {
	ready, err := strip.Ready()
	if err != nil {
		return 0, false, err
	}
	within := func(h float64) bool {
		l.Top, l.Bottom = h, -1
		c := earth.Column{Layers: []earth.Layer{l}, Water: math.Inf(-1)}
		if flooded {
			c.Water = h
		}
		d, e := c.Lateral(earth.AtRest, strip.Height, 0)
		if e != nil {
			err = e
			return false
		}
		r, e := ready.Rate(pressures(d, 0, strip.Height))
		if e != nil {
			err = e
			return false
		}
		return (&wallLoad{result: r}).ratio() <= 1
	}
	if within(strip.Height) {
		return strip.Height, true, err
	}
	h = bisect(0, strip.Height, within)
	return h, false, err
}

// roofBurial is the depth of one soil that the roof sheet bears, arching
// factor included, without thrust from the walls.
func (j *job) roofBurial(so model.Soil) (float64, error) {
	strip, err := j.roofStrip(0)
	if err != nil {
		return 0, err
	}
	var fault error
	within := func(h float64) bool {
		p, _, err := earth.RoofEarth(so.Gamma, h, j.box.W, j.p.Fill.Proven)
		if err != nil {
			fault = err
			return false
		}
		strip.Dead = p
		r, err := strip.Solve()
		if err != nil {
			fault = err
			return false
		}
		return math.Max(r.ASD.Ratio, r.LRFD.Ratio) <= 1
	}
	return bisect(0, mostCover, within), fault
}

// bisect is the largest value known to be within, between lo, which is, and
// hi, which may not be.
func bisect(lo, hi float64, within func(float64) bool) float64 {
	for hi-lo > tolAnswer {
		mid := (lo + hi) / 2
		if within(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
