package assess

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/model"
)

const (
	lightID    = "light-fill"
	lightTitle = "Stress on the light fill"
	lightPart  = "light fill"
	lightKind  = "lightfill"
)

func (j *job) hasLightFill() bool {
	for _, l := range j.p.Fill.Roof {
		if l.Kind == lightKind {
			return true
		}
	}
	return false
}

// lightChecks offers every layer of block foam over the roof at every station
// that is covered.
func (j *job) lightChecks(sr *stageResult, worst *worstOf) error {
	if !sr.st.Cover {
		return nil // the layers lie there with the cover
	}
	wheels, err := j.rolling(sr.st)
	if err != nil {
		return err
	}
	for k, l := range j.p.Fill.Roof {
		if l.Kind != lightKind {
			continue
		}
		part := j.lightPart(k)
		foam, ok := j.t.Geofoam(l.Grade)
		if !ok {
			worst.missing(lightID, lightTitle, part, sr.st.ID, fmt.Sprintf("%q is not a row of the geofoam table", l.Grade))
			continue
		}
		for i := range sr.tops {
			r := &sr.tops[i].roofAt
			if a := sr.tops[i].above; a != nil {
				r = a
			}
			in := box.LightFill{Foam: foam, Gamma: l.Gamma}
			if err := j.onFoam(&in, r, k, wheels); err != nil {
				return err
			}
			solved, err := in.Solve()
			if err != nil {
				return err
			}
			worst.add(candidate{slot: slot{lightID, part}, stage: sr.st.ID, station: r.load.Station, hasStation: true, ratio: solved.Ratio,
				write: func() (check.Check, error) { made, _, err := in.Check(); return made, err }})
		}
	}
	return nil
}

// lightPart names a layer of block foam; they are numbered where there are more.
func (j *job) lightPart(k int) string {
	n, at := 0, 0
	for i, l := range j.p.Fill.Roof {
		if l.Kind == lightKind {
			n++
		}
		if i == k {
			at = n
		}
	}
	if n == 1 {
		return lightPart
	}
	return fmt.Sprintf("%s %d", lightPart, at)
}

// rolling are the wheels of a stage.
func (j *job) rolling(st model.Stage) ([]earth.Patch, error) {
	var out []earth.Patch
	for _, s := range j.acting(st) {
		if s.Kind == model.AreaLoad {
			continue
		}
		p, err := j.patches(s)
		if err != nil {
			return nil, err
		}
		out = append(out, p...)
	}
	return out, nil
}

// onFoam finds what stands on the layer k of the build-up: the layers above it,
// the soil with the factor it loads the roof with, and all water above; wheels
// as they arrive at the top of the layer, impact included.
func (j *job) onFoam(in *box.LightFill, r *roofAt, k int, wheels []earth.Patch) error {
	l := &r.load
	in.Lasting, in.Live, in.Snow = l.Soil+l.Water, l.Area, l.Snow
	depth := r.depth
	for i, layer := range j.p.Fill.Roof {
		if i > k {
			in.Lasting += layer.Thickness * layer.Gamma
		} else {
			depth -= layer.Thickness
		}
	}
	if len(wheels) == 0 {
		return nil
	}
	depth = math.Max(0, depth) // rounding of layers that fill the cover
	impact, err := earth.DynamicAllowance(depth)
	if err != nil {
		return err
	}
	most := 0.0
	for _, w := range wheels {
		x, y := l.Station, clampTo(w.Y, -j.across/2, j.across/2)
		q, err := earth.PatchStress(wheels, x, y, depth)
		if err != nil {
			return err
		}
		most = math.Max(most, q)
	}
	in.Live += most * (1 + impact)
	return nil
}
