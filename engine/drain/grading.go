package drain

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Sieve is one point of a grading: the share of the mass finer than a size.
type Sieve struct {
	Size   float64 // mm
	Passes float64 // 0 to 1
}

// Grading is a grading curve, from fine to coarse. Between its points it is
// straight over the logarithm of the size; beyond them nothing is known,
// except that all passes above a point where all passes.
type Grading []Sieve

// Sizes that divide the grain sizes, mm: gravel above the first, fines below
// the second (No. 4 and No. 200).
const (
	gravelSize = 4.75
	finesSize  = 0.075
)

// Validate reports what is wrong with a curve: fewer than two points, a size
// or share out of range, sizes that do not grow or shares that fall. The error
// names the point from 0.
func (g Grading) Validate() error {
	if len(g) < 2 {
		return fmt.Errorf("grading has %d points, needs at least 2", len(g))
	}
	for i, s := range g {
		err := limit.First(
			limit.Within("size", s.Size, 1e-5, 2000, quantity.Grain),
			limit.Within("passes", s.Passes, 0, 1, quantity.None))
		if err == nil && i > 0 {
			err = limit.First(
				limit.AtLeast("size", s.Size, g[i-1].Size*(1+1e-9), quantity.Grain),
				limit.AtLeast("passes", s.Passes, g[i-1].Passes, quantity.None))
		}
		if err != nil {
			return limit.In(fmt.Sprintf("grading[%d]", i), err)
		}
	}
	return nil
}

// D is the size, mm, that a share of the mass is finer than: D(0.15) is D15.
// A share that the curve does not reach is refused.
func (g Grading) D(share float64) (float64, error) {
	if err := g.Validate(); err != nil {
		return 0, err
	}
	first, last := g[0], g[len(g)-1]
	if err := limit.Within("share finer", share, first.Passes, last.Passes, quantity.None); err != nil {
		err.(*limit.Error).Why = fmt.Sprintf("the size that %.3g %% is finer than is asked for, and the grading given goes from %.3g %% to %.3g %%: have it sieved further", 100*share, 100*first.Passes, 100*last.Passes)
		return 0, err
	}
	for i := 1; i < len(g); i++ {
		a, b := g[i-1], g[i]
		switch {
		case share > b.Passes:
		case a.Passes == share:
			return a.Size, nil
		default:
			return a.Size * math.Pow(b.Size/a.Size, (share-a.Passes)/(b.Passes-a.Passes)), nil
		}
	}
	panic("drain: share within the curve was not found")
}

// Passing is the share finer than a size, mm. A size that the curve does not
// reach is refused.
func (g Grading) Passing(size float64) (float64, error) {
	if err := g.Validate(); err != nil {
		return 0, err
	}
	first, last := g[0], g[len(g)-1]
	hi := last.Size
	switch {
	case size > last.Size && last.Passes == 1 && size-size == 0:
		return 1, nil
	case size < first.Size && first.Passes == 0 && size > 0:
		return 0, nil
	}
	if err := limit.Within("size", size, first.Size, hi, quantity.Grain); err != nil {
		err.(*limit.Error).Why = "the grading given does not reach a size that is asked for, have it sieved further"
		return 0, err
	}
	for i := 1; i < len(g); i++ {
		if a, b := g[i-1], g[i]; size <= b.Size {
			return a.Passes + (b.Passes-a.Passes)*math.Log(size/a.Size)/math.Log(b.Size/a.Size), nil
		}
	}
	panic("drain: size within the curve was not found")
}

// Uniformity is Cu = D60/D10.
func (g Grading) Uniformity() (float64, error) {
	d10, err := g.D(0.10)
	if err != nil {
		return 0, err
	}
	d60, err := g.D(0.60)
	return d60 / d10, err
}

// Fines is the share finer than 0.075 mm.
func (g Grading) Fines() (float64, error) { return g.Passing(finesSize) }

// Regraded is the part finer than 4.75 mm as a grading of its own: a soil with
// gravel is filtered by its finer part (NEH 633 ch. 26, memory). A curve
// without gravel comes back as it is.
func (g Grading) Regraded() (Grading, error) {
	p, err := g.Passing(gravelSize)
	if err != nil {
		if e := g.Validate(); e != nil {
			return nil, e
		}
		if g[len(g)-1].Size < gravelSize {
			return nil, fmt.Errorf("the largest sieve of the base soil: %w", err)
		}
		return nil, err
	}
	if p == 1 {
		return g, nil
	}
	if p <= 0 {
		return nil, &limit.Error{Field: "passes", Value: p, Lo: 0, Hi: 1, Kind: quantity.None, Why: "the soil has nothing finer than gravel"}
	}
	var out Grading
	for _, s := range g {
		if s.Size < gravelSize {
			out = append(out, Sieve{s.Size, s.Passes / p})
		}
	}
	return append(out, Sieve{gravelSize, 1}), nil
}

// A gap in a grading: less than a twentieth of the mass between two sizes of
// which one is four times the other, with a tenth or more both finer and coarser
// (common practice, no source).
const (
	gapTimes = 4.0
	gapMass  = 0.05
	gapEnds  = 0.10
)

// Gap tells whether the curve has a gap in its middle.
func (g Grading) Gap() (bool, error) {
	if err := g.Validate(); err != nil {
		return false, err
	}
	first, last := g[0], g[len(g)-1]
	lo, hi := first.Size, last.Size/gapTimes
	if last.Passes <= gapEnds || first.Passes >= 1-gapEnds {
		return false, nil // the middle is not on the curve
	}
	if first.Passes < gapEnds {
		lo, _ = g.D(gapEnds)
	}
	if last.Passes > 1-gapEnds {
		hi, _ = g.D(1 - gapEnds)
		hi /= gapTimes
	}
	// The mass within is straight over the log of the size between these: it is
	// least at one of them.
	starts := []float64{lo, hi}
	for _, s := range g {
		starts = append(starts, s.Size, s.Size/gapTimes)
	}
	for _, d := range starts {
		if d < lo || d > hi {
			continue
		}
		a, err := g.Passing(d)
		if err != nil {
			return false, err
		}
		b, err := g.Passing(d * gapTimes)
		if err != nil {
			return false, err
		}
		if b-a < gapMass {
			return true, nil
		}
	}
	return false, nil
}

// sizes reads several sizes off a curve.
func (g Grading) sizes(shares ...float64) ([]float64, error) {
	out := make([]float64, len(shares))
	for i, s := range shares {
		var err error
		if out[i], err = g.D(s); err != nil {
			return nil, err
		}
	}
	return out, nil
}
