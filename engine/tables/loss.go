package tables

import (
	"fmt"
	"math"
)

// Corrosion gives the losses of one environment.
func (s *Set) Corrosion(environment string) (Corrosion, bool) { return s.corrosion.get(environment) }

// Environments gives the ids of the corrosion table.
func (s *Set) Environments() []string { return s.corrosion.ids }

// Loss is the thickness lost from one side of bare steel in an environment of
// the corrosion table after a number of years, m: linear between the ages of
// the table (EN 1993-5 table 4-1) and from zero at the start. An unknown
// environment and an age outside 0 to 100 years are errors.
func (s *Set) Loss(environment string, years float64) (float64, error) {
	c, ok := s.Corrosion(environment)
	if !ok {
		return 0, fmt.Errorf("environment = %q: not in the table of corrosion", environment)
	}
	top := corrosionYears[len(corrosionYears)-1]
	if !(years >= 0 && years <= top) {
		return 0, fmt.Errorf("years = %g: outside 0 to %g, the ages of the table of corrosion", years, top)
	}
	t0, l0 := 0.0, 0.0
	for i, t1 := range corrosionYears {
		l1 := c.Loss[i]
		if years <= t1 {
			return l0 + (l1-l0)*(years-t0)/(t1-t0), nil
		}
		t0, l0 = t1, l1
	}
	panic("tables: ages of the corrosion table do not reach its end")
}

// LossRate gives one row of the table of loss rates.
func (s *Set) LossRate(id string) (LossRate, bool) { return s.lossRates.get(id) }

// LossRateIDs gives the ids of the loss rates.
func (s *Set) LossRateIDs() []string { return s.lossRates.ids }

// At is the thickness lost from one side after t years, m. Years below zero,
// NaN and Inf are errors.
func (l LossRate) At(years float64) (float64, error) {
	if !(years >= 0) || math.IsInf(years, 0) {
		return 0, fmt.Errorf("years = %g: must be a number from 0 up", years)
	}
	return l.K * math.Pow(years, l.N), nil
}
