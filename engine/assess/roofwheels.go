package assess

import (
	"math"
	"slices"

	"hillset/engine/earth"
	"hillset/engine/frame"
	"hillset/engine/model"
)

// roofSurcharges adds area loads over the station in full, and wheels as the
// pressure that reaches the roof through the cover.
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
	var err error
	if r.impact, err = earth.DynamicAllowance(r.depth); err != nil {
		return err
	}
	r.wheels, r.load.Live, err = j.roll(wheels, x, r.depth, 1+r.impact)
	return err
}

// roofLine is a line across the span of the roof. The span lies across the
// box; set broadside that is along x.
type roofLine struct {
	alongX bool
	start  float64 // the coordinate along the line where the span begins
	at     float64 // the other coordinate
}

// plan is the place in plan at s from the start of the span.
func (l roofLine) plan(s float64) (x, y float64) {
	if l.alongX {
		return l.start + s, l.at
	}
	return l.at, l.start + s
}

// edges are where the footprint of a wheel begins and ends along the line, and
// how far beside the line it stands.
func (l roofLine) edges(p earth.Patch) (from, to, beside float64) {
	if l.alongX {
		return p.X - p.A/2 - l.start, p.X + p.A/2 - l.start, math.Abs(p.Y-l.at) - p.B/2
	}
	return p.Y - p.B/2 - l.start, p.Y + p.B/2 - l.start, math.Abs(p.X-l.at) - p.A/2
}

// roll brings wheels to the roof: the pressure across the span on the line
// that bends it most, and the even pressure that stands for it: the larger of
// what bends a span without purlins as much and of the mean. End-on the line is
// that of the station. Broadside the stations run across the span; there the
// lines of the wheels and those midway between them are tried.
func (j *job) roll(wheels []earth.Patch, x, cover, factor float64) (frame.Load, float64, error) {
	span, inner := j.roofSpan(), j.purlinPlaces()
	if j.own != nil && j.own.span > 0 {
		span, inner = j.own.span, nil
	}
	lines := []roofLine{{start: -span / 2, at: x}}
	if j.p.Box.Orientation == model.Broadside {
		lines = nil
		for _, y := range j.tracks(wheels) {
			lines = append(lines, roofLine{alongX: true, start: (j.frontX+j.backX)/2 - span/2, at: y})
		}
	}
	var worst frame.Load
	most := 0.0
	for _, l := range lines {
		load, err := sample(l, wheels, span, cover, factor)
		if err != nil {
			return nil, 0, err
		}
		if load == nil {
			continue
		}
		m, err := frame.Continuous(append(append([]float64{0}, inner...), span), load, 1)
		if err != nil {
			return nil, 0, err
		}
		if field, _ := m.Field(); field > most {
			worst, most = load, field
		}
	}
	if worst == nil {
		return nil, 0, nil
	}
	total, _ := worst.Total()
	b, err := frame.Simple(span, worst, 1)
	return worst, math.Max(8*b.MMax/(span*span), total/span), err
}

// tracks are the places along the roof at which wheels are followed: their own
// lines and those midway, as far as they are over the box.
func (j *job) tracks(wheels []earth.Patch) []float64 {
	ys := make([]float64, 0, 2*len(wheels))
	for _, w := range wheels {
		ys = append(ys, math.Min(math.Max(w.Y, -j.across/2), j.across/2))
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	for i := len(ys) - 1; i > 0; i-- {
		ys = append(ys, (ys[i-1]+ys[i])/2)
	}
	return ys
}

// Number of points across the span at which the stress under wheels is taken,
// and the cover below which their edges are followed as well: deeper down the
// stress has no edges that lines between the points would miss.
const (
	samples   = 25
	deepCover = 0.6 // m
)

// sample is the pressure of wheels along a line (exact, for footprints on an
// elastic half-space), times a factor; nil where hardly any arrives, as with
// wheels some metres away.
func sample(l roofLine, wheels []earth.Patch, span, cover, factor float64) (frame.Load, error) {
	load := make(frame.Load, 0, samples)
	for _, s := range samplePlaces(l, wheels, span, cover) {
		x, y := l.plan(s)
		q, err := earth.PatchStress(wheels, x, y, cover)
		if err != nil {
			return nil, err
		}
		q = math.Max(0, q) * factor // rounding far from a wheel may leave less than nothing
		load = append(load, frame.LoadPoint{S: s, P: q})
	}
	if total, _ := load.Total(); total < negligible {
		return nil, nil
	}
	return load, nil
}

// samplePlaces are even, and closer about the edges of wheels near the roof.
func samplePlaces(l roofLine, wheels []earth.Patch, span, cover float64) []float64 {
	out := make([]float64, 0, samples)
	for i := range samples {
		out = append(out, span*float64(i)/(samples-1))
	}
	if cover >= deepCover {
		return out
	}
	blur := math.Max(cover, 2e-4) // m, a step where the wheel stands on the steel itself
	for _, w := range wheels {
		from, to, beside := l.edges(w)
		if beside > 4*blur {
			continue
		}
		for _, e := range [...]float64{from, (from + to) / 2, to} {
			for _, k := range [...]float64{-2, -1, -0.5, -0.25, 0, 0.25, 0.5, 1, 2} {
				if s := e + k*blur; s > 0 && s < span {
					out = append(out, s)
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
