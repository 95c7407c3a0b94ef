package drain

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
	"hillset/engine/tables"
)

// Sources of the formulas of this file, as a working names them. Kerby's, which
// is from memory, is in no working yet.
const (
	SourceRational = "rational method (memory; constants derived)"
	SourceCN       = "NRCS curve number, TR-55 eq. 2-1 to 2-4 (verified)"
	SourceKirpich  = "Kirpich, TxDOT Hydraulic Design Manual 2016 p. 4-40 (verified)"
)

const (
	feet        = 0.3048
	inches      = feet / 12
	mostArea    = 80e4               // m2: the rational method ends there
	mostRain    = 1000 * 1e-3 / 3600 // m/s, a metre an hour
	leastTime   = 600.0              // s, below which no time of concentration is believed
	roofTime    = 300.0              // the same for roofs
	mostKirpich = 2000.0             // m
	mostKerby   = 365.0              // m
)

// Surface is one kind of ground within a catchment.
type Surface struct {
	Area float64 // m2
	C    float64 // runoff coefficient, or curve number over 100
}

// Composite is the mean of a coefficient weighted by area, and the whole area.
func Composite(surfaces []Surface) (c, area float64, err error) {
	if len(surfaces) == 0 {
		return 0, 0, fmt.Errorf("surfaces: none given, at least one is needed")
	}
	for i, s := range surfaces {
		err := limit.First(
			limit.Within("area", s.Area, 0, 1e9, q.Area),
			limit.Within("c", s.C, 0, 1, q.None))
		if err != nil {
			return 0, 0, limit.In(fmt.Sprintf("surfaces[%d]", i), err)
		}
		area += s.Area
		c += s.C * s.Area
	}
	if err := limit.Positive("area", area, q.Area); err != nil {
		return 0, 0, err
	}
	return c / area, area, nil
}

// Rational is the peak runoff C·i·A, m3/s, of a storm of intensity i, m/s,
// that lasts as long as the time of concentration, from an area of up to 80
// hectares, m2.
func Rational(c, intensity, area float64) (float64, error) {
	err := limit.First(
		limit.Within("c", c, 0, 1, q.None),
		limit.Within("intensity", intensity, 0, mostRain, q.Rate),
		limit.Within("area", area, 0, mostArea, q.Area))
	if err != nil {
		return 0, err
	}
	return c * intensity * area, nil
}

// StormFactor multiplies the runoff coefficient for a return period of 10, 25,
// 50 or 100 years; others are refused, as nothing is tabulated for them.
func StormFactor(years float64) (float64, error) {
	t := tables.Default().Storms()
	for _, n := range t {
		if n.X == years {
			return n.Y, nil
		}
	}
	return 0, &limit.Error{Field: "return period", Value: years, Lo: t[0].X, Hi: t[len(t)-1].X, Kind: q.Years, Why: "10, 25, 50 and 100 years are tabulated"}
}

// RareRunoff is the runoff coefficient of a rarer storm, not above 1.
func RareRunoff(c, years float64) (float64, error) {
	if err := limit.Within("c", c, 0, 1, q.None); err != nil {
		return 0, err
	}
	f, err := StormFactor(years)
	return math.Min(1, c*f), err
}

// CurveRunoff is the depth of runoff, m, of a 24-hour storm of depth p, m, on
// ground of a curve number from 40 to 100.
func CurveRunoff(p, cn float64) (float64, error) {
	err := limit.First(
		limit.Within("rain", p, 0, 2, q.Length),
		limit.Within("curve number", cn, 40, 100, q.None))
	if err != nil {
		return 0, err
	}
	s := Retained(cn)
	a := 0.2 * s
	if p <= a {
		return 0, nil
	}
	return (p - a) * (p - a) / (p - a + s), nil
}

// Retained is the greatest depth that the ground keeps back, S, m, at a curve
// number above 0.
func Retained(cn float64) float64 { return (1000/cn - 10) * inches }

// WetCurve is the curve number of ground that is wet before the storm, straight
// between the tabulated ones of 60 to 100.
func WetCurve(cn float64) (float64, error) {
	t := tables.Default().WetCN()
	if err := limit.Within("curve number", cn, t[0].X, t[len(t)-1].X, q.None); err != nil {
		return 0, err
	}
	return between(t, cn), nil
}

// Kirpich is the time of concentration, s, along a channel of a length, m, at
// a slope: 0.0078 L^0.77 S^-0.385 minutes with L in feet.
func Kirpich(length, slope float64) (float64, error) {
	err := limit.First(
		limit.Within("length", length, 1, mostKirpich, q.Length),
		limit.Within("slope", slope, 1e-4, 2, q.Gradient))
	if err != nil {
		return 0, err
	}
	return 60 * 0.0078 * math.Pow(length/feet, 0.770) * math.Pow(slope, -0.385), nil
}

// Kerby is the time of flow over land, s, for a length of up to 365 m, a
// retardance n and a slope: 0.828 (L n)^0.467 S^-0.235 minutes with L in feet.
func Kerby(length, n, slope float64) (float64, error) {
	err := limit.First(
		limit.Within("length", length, 1, mostKerby, q.Length),
		limit.Within("retardance", n, 0.01, 1, q.None),
		limit.Within("slope", slope, 1e-4, 2, q.Gradient))
	if err != nil {
		return 0, err
	}
	return 60 * 0.828 * math.Pow(length/feet*n, 0.467) * math.Pow(slope, -0.235), nil
}

// StormDuration is the duration for which the intensity of the design storm is
// looked up, s: the time of concentration, and not below 10 min (5 min for a
// roof), since shorter storms are not tabulated for such small catchments.
// Floored says that the lower bound was taken.
func StormDuration(concentration float64, roof bool) (duration float64, floored bool, err error) {
	if err := limit.Within("time of concentration", concentration, 0, 24*3600, q.Duration); err != nil {
		return 0, false, err
	}
	floor := leastTime
	if roof {
		floor = roofTime
	}
	return math.Max(concentration, floor), concentration < floor, nil
}
