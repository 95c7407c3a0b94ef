package seepage

import (
	"math"

	"hillset/engine/quantity"
)

// The ground above the water table, column by column: steady flow up or down an
// upright line. The meshes of this package do not use it; they take that ground as
// dry. Suction is how far the pressure head lies below zero, m.

// Retention is how ground holds and leads water under suction (van Genuchten
// 1980; the conductivity after Mualem, memory).
type Retention struct {
	Alpha float64 // 1/m
	N     float64 // above 1
	Ks    float64 // saturated permeability, m/s
}

func (r Retention) check() error {
	for _, err := range []error{
		quantity.Range("alpha of the retention curve", r.Alpha, 0.01, 100),
		quantity.Range("n of the retention curve", r.N, 1.01, 10),
		quantity.Within("saturated permeability", r.Ks, leastK, mostK, quantity.Permeability),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

func (r Retention) m() float64 { return 1 - 1/r.N }

// Saturation is the effective saturation, 0 to 1: the water between its residual
// and its saturated content.
func (r Retention) Saturation(suction float64) float64 {
	if suction <= 0 {
		return 1
	}
	return math.Pow(1+math.Pow(r.Alpha*suction, r.N), -r.m())
}

// Suction is that at an effective saturation above 0 and up to 1, m.
func (r Retention) Suction(saturation float64) float64 {
	return math.Pow(math.Pow(saturation, -1/r.m())-1, 1/r.N) / r.Alpha
}

// Conductivity is the permeability under suction, m/s.
func (r Retention) Conductivity(suction float64) float64 {
	if suction <= 0 {
		return r.Ks
	}
	se := r.Saturation(suction)
	rest := 1 - math.Pow(1-math.Pow(se, 1/r.m()), r.m())
	return r.Ks * math.Sqrt(se) * rest * rest
}

// SuctionAt is the suction at a height over the water table, m, while a steady
// rain, m/s on the level, seeps down to it.
func (r Retention) SuctionAt(rain, height float64) (float64, error) {
	if err := r.under(rain); err != nil {
		return 0, err
	}
	if err := quantity.Within("height over the water table", height, 0, mostHeight, quantity.Length); err != nil {
		return 0, err
	}
	s := 0.0
	r.climb(rain, height, func(_, length float64, after func(float64) float64) bool {
		s = after(length)
		return true
	})
	return s, nil
}

// Reach is how high over the water table the effective saturation stays at least
// as given while a steady rain, m/s, seeps down; +Inf where it does so all the
// way up.
func (r Retention) Reach(saturation, rain float64) (float64, error) {
	if err := r.under(rain); err != nil {
		return 0, err
	}
	if err := quantity.Range("effective saturation", saturation, 0.01, 1); err != nil {
		return 0, err
	}
	aim, height := r.Suction(saturation), math.Inf(1)
	if r.Conductivity(aim) <= rain {
		return height, nil
	}
	r.climb(rain, mostHeight, func(z, length float64, after func(float64) float64) bool {
		if after(length) < aim {
			return true
		}
		lo, hi := 0.0, length
		for hi-lo > climbFine {
			if mid := (lo + hi) / 2; after(mid) < aim {
				lo = mid
			} else {
				hi = mid
			}
		}
		height = z + hi
		return false
	})
	return height, nil
}

// under refuses a rain that the ground does not take.
func (r Retention) under(rain float64) error {
	if err := r.check(); err != nil {
		return err
	}
	return quantity.Within("steady rain", rain, 0, r.Ks, quantity.Rate)
}

const (
	mostHeight = 100.0 // m
	climbFine  = 1e-6  // error of suction that a step may make, m per m
	climbFirst = 1e-4  // m, first step
	climbLeast = 1e-7  // m, shortest step
	climbMost  = 0.1   // m, longest step
)

// climb follows the suction up from the water table to a height: by Darcy's law
// it grows by 1 - rain/K over each metre (Runge and Kutta's steps of the fourth
// order, as short as two halves of one agree with it). see gets the foot of every
// step, its length and the suction after any part of it, and says whether to go
// on.
func (r Retention) climb(rain, to float64, see func(z, length float64, after func(float64) float64) bool) {
	slope := func(s float64) float64 { return 1 - rain/r.Conductivity(s) }
	one := func(s, h float64) float64 {
		a := slope(s)
		b := slope(s + h/2*a)
		c := slope(s + h/2*b)
		d := slope(s + h*c)
		return s + h/6*(a+2*b+2*c+d)
	}
	s, h := 0.0, climbFirst
	for z := 0.0; z < to; {
		step := math.Min(h, to-z)
		whole, halves := one(s, step), one(one(s, step/2), step/2)
		if off := math.Abs(halves - whole); !(off <= climbFine*step) && h > climbLeast {
			h = step / 2
			continue
		}
		if !see(z, step, func(part float64) float64 { return one(one(s, part/2), part/2) }) {
			return
		}
		z, s = z+step, halves
		h = math.Min(climbMost, 1.5*h)
	}
}
