package ground

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Settlement is the elastic settlement of a flexible rectangle, m.
type Settlement struct {
	Corner, Centre, Average float64
	// Influence are the factors I on the short side for corner and average;
	// the centre has twice that of the corner.
	ICorner, IAverage float64
}

// RigidShare is what a rigid footing settles of the flexible average, about;
// for a stiff box the average itself is taken, a little high (derived for a
// circle; common practice).
const RigidShare = 0.93

// longest is the ratio of sides from which the mean loses figures; a strip has
// no settlement on an endless depth anyway.
const longest = 1e4

// Settle is the immediate settlement q B (1-nu2) I/E of a rectangle b by l
// under q kPa on soil of modulus e kPa and Poisson's ratio nu, endlessly deep
// (UFC 3-220-10, second-hand; the average derived). The sides may be given
// either way round.
func Settle(q, b, l, e, nu float64) (Settlement, error) {
	err := limit.First(
		limit.AtLeast("q", q, 0, quantity.Pressure),
		limit.Positive("b", b, quantity.Length),
		limit.Positive("l", l, quantity.Length),
		limit.Positive("e", e, quantity.Stress),
		limit.Within("nu", nu, 0, 0.5, quantity.None))
	if err != nil {
		return Settlement{}, err
	}
	b, l = math.Min(b, l), math.Max(b, l)
	m := l / b
	if err := limit.Within("l/b", m, 1, longest, quantity.None); err != nil {
		return Settlement{}, err
	}
	d := math.Sqrt(m*m + 1)
	s := Settlement{ICorner: (m*math.Log((1+d)/m) + math.Log(m+d)) / math.Pi}
	s.IAverage = averageOf(m)
	unit := q * b * (1 - nu*nu) / e
	s.Corner, s.Centre, s.Average = unit*s.ICorner, 2*unit*s.ICorner, unit*s.IAverage
	return s, nil
}

// averageOf is the factor I of the average settlement of a rectangle whose sides
// are as 1 to m, by the mean inverse distance between its points.
func averageOf(m float64) float64 {
	d := math.Sqrt(m*m + 1)
	mean := 2*m*m*math.Log((1+d)/m) + 2*m*math.Log(m+d) - 2./3*(d*d*d-m*m*m-1)
	return mean / (math.Pi * m)
}

// Constrained is the modulus of a layer that cannot spread, E (1-nu)/((1+nu)
// (1-2nu)), kPa.
func Constrained(e, nu float64) (float64, error) {
	err := limit.First(limit.Positive("e", e, quantity.Stress), limit.Within("nu", nu, 0, 0.49, quantity.None))
	if err != nil {
		return 0, err
	}
	return e * (1 - nu) / ((1 + nu) * (1 - 2*nu)), nil
}

// Bed is the squeezing of a bed of rock below a pad, m.
type Bed struct {
	Modulus  float64 // constrained, kPa
	Unspread float64 // under the pad's own pressure
	Spread   float64 // under the mean pressure at mid-depth, spread 2:1
}

// SettleBed is the settlement q t/M of a bed of thickness t below a pad b by l.
func SettleBed(q, b, l, t, e, nu float64) (Bed, error) {
	m, err := Constrained(e, nu)
	if err != nil {
		return Bed{}, err
	}
	err = limit.First(
		limit.AtLeast("q", q, 0, quantity.Pressure),
		limit.Positive("b", b, quantity.Length),
		limit.Positive("l", l, quantity.Length),
		limit.AtLeast("t", t, 0, quantity.Length))
	if err != nil {
		return Bed{}, err
	}
	spread := b * l / ((b + t/2) * (l + t/2))
	return Bed{Modulus: m, Unspread: q * t / m, Spread: q * spread * t / m}, nil
}

// DrainedNu is Poisson's ratio of drained soil, (1-sin phi)/(2-sin phi) (UFC
// 3-220-20 5-38, second-hand). phi in rad.
func DrainedNu(phi float64) (float64, error) {
	if err := limit.Within("phi", phi, 0, maxFooting, quantity.Angle); err != nil {
		return 0, err
	}
	s := math.Sin(phi)
	return (1 - s) / (2 - s), nil
}
