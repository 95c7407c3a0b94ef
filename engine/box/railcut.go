package box

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/quantity"
)

// RoofCut is a length of a top rail along which the roof sheet is cut, so that
// nothing there holds the rail sideways.
type RoofCut struct{ From, To float64 } // m from the door end

// checkCuts refuses cuts that do not lie along the rail.
func checkCuts(cuts []RoofCut, length float64) error {
	for i, c := range cuts {
		for _, err := range []error{
			quantity.Within(fmt.Sprintf("start of cut %d in the roof", i+1), c.From, 0, length, quantity.Length),
			quantity.Within(fmt.Sprintf("end of cut %d in the roof", i+1), c.To, c.From, length, quantity.Length),
		} {
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// looseLength is the length of a rail on a bed, m, that counts as held by nothing:
// its longest cut. The sheet beside a cut holds as an endless one would only where
// it goes on for the length anchor. Cuts nearer to each other are one; from one
// nearer to a post twice the length from the post counts, as the post holds the
// rail in place and lets it turn (derived, on the careful side).
func looseLength(cuts []RoofCut, length, anchor float64) (most float64) {
	sorted := slices.Clone(cuts)
	slices.SortFunc(sorted, func(a, b RoofCut) int {
		if a.From < b.From {
			return -1
		}
		return 1
	})
	var run RoofCut
	for i, c := range sorted {
		if i == 0 || c.From-run.To >= anchor {
			run = c
		} else {
			run.To = math.Max(run.To, c.To)
		}
		loose := run.To - run.From
		if run.From < anchor {
			loose = math.Max(loose, 2*run.To)
		}
		if length-run.To < anchor {
			loose = math.Max(loose, 2*(length-run.From))
		}
		most = math.Max(most, math.Min(loose, 2*length))
	}
	return most
}

// endlessBed is the length of bed beyond which the rest of it is not felt: half a
// wave of a beam on it, π·⁴√(4EI/k) (beam on an elastic bed, derived).
func endlessBed(ei, bed float64) float64 { return math.Pi * math.Pow(4*ei/bed, 0.25) }

// gapLoad is the force at which an endless strut on an elastic bed buckles that is
// missing over a length, kN: without a gap 2·√(k·EI), over a long one that of a bar
// with both ends fixed, 4π²·EI/g². From the differential equations inside and beside
// the gap, even about its middle: m·cot(m·g/2) = (m² − S)/√(2S − m²), m² = P/EI, S =
// √(k/EI) (derived).
func gapLoad(ei, bed, gap float64) float64 {
	if gap <= 0 {
		return 2 * math.Sqrt(bed*ei)
	}
	s := math.Sqrt(bed / ei)
	lo, hi := 0.0, math.Min(math.Sqrt(2*s), 2*math.Pi/gap)
	holds := func(m float64) bool {
		return m/math.Tan(m*gap/2) > (m*m-s)/math.Sqrt(2*s-m*m)
	}
	for range 60 {
		if mid := (lo + hi) / 2; holds(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return ei * lo * lo
}
