package steel

import (
	"errors"
	"fmt"

	"hillset/engine/quantity"
)

// ErrRustedThrough is wrapped by the error for a sheet that has no thickness
// left.
var ErrRustedThrough = errors.New("rusted through")

// LossTable is the loss of thickness of one exposed side, m, after the years
// in Years (rising, all above 0), in the form of EN 1993-5 Table 4-1. Loss at
// year 0 is 0.
type LossTable struct {
	Years []float64
	Loss  []float64
}

// At is the loss of one side after the given years, m, by linear
// interpolation. Years beyond the table and tables that do not rise are
// refused.
func (l LossTable) At(years float64) (float64, error) {
	if len(l.Years) == 0 || len(l.Years) != len(l.Loss) {
		return 0, fmt.Errorf("%w: loss table has %d years and %d losses", quantity.ErrRange, len(l.Years), len(l.Loss))
	}
	y0, s0 := 0.0, 0.0
	for k, y := range l.Years {
		if !(y > y0) || !(l.Loss[k] >= s0) {
			return 0, fmt.Errorf("%w: loss table does not rise at row %d", quantity.ErrRange, k)
		}
		y0, s0 = y, l.Loss[k]
	}
	if err := quantity.Within("years of rust", years, 0, y0, quantity.Years); err != nil {
		return 0, err
	}
	y0, s0 = 0, 0
	for k, y := range l.Years {
		if years <= y {
			return s0 + (l.Loss[k]-s0)*(years-y0)/(y-y0), nil
		}
		y0, s0 = y, l.Loss[k]
	}
	panic("steel: years within the table but beyond its last row")
}

// Rusted is the thickness left of t0 after the years, m, with one or two
// sides exposed. A sheet with nothing left gives ErrRustedThrough.
func (l LossTable) Rusted(t0, years float64, sides int) (float64, error) {
	if err := quantity.Within("sheet thickness t", t0, minT, maxT, quantity.Thickness); err != nil {
		return 0, err
	}
	if sides != 1 && sides != 2 {
		return 0, fmt.Errorf("%w: sides exposed = %d, allowed 1 to 2", quantity.ErrRange, sides)
	}
	loss, err := l.At(years)
	if err != nil {
		return 0, err
	}
	left := t0 - float64(sides)*loss
	if left < minT {
		return 0, fmt.Errorf("sheet of %s after %g years: %w", quantity.Text(t0, quantity.Thickness), years, ErrRustedThrough)
	}
	return left, nil
}
