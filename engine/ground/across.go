package ground

import (
	"hillset/engine/check"
	q "hillset/engine/quantity"
)

// A box whose fill stands higher on one side than on the other is pushed along
// the contour. SlideBox works that out with the width of the box as its length;
// Earth and Water are then what one side presses more than the other.

const acrossPush = "at rest pressure of the side that presses more, less the pressure at rest of the soil on the other side; loads that come and go count only where they push"

// SlidingAcrossCheck is the sliding of SlideBox along the contour as a check.
func SlidingAcrossCheck(in SlideIn) (check.Check, error) {
	s, err := SlideBox(in)
	if err != nil {
		return check.Check{}, err
	}
	if err := required("required", in.Required); err != nil {
		return check.Check{}, err
	}
	c := factors("sliding-across", "Sliding along the contour", in.Required, s.FSBase)
	c.Method = "Friction of the base against what one side presses more than the other"
	c.Source = srcSlide
	c.Assumptions = []string{acrossPush, "the other side holds with no more than its pressure at rest: not the passive pressure that a movement would call up"}
	c.Validity = "The push of the hill on the back draws on the same friction: where both are large, judge them together."
	n, t := q.Of("N", s.Normal, q.Force), q.Of("tan δ", in.TanBase, q.None)
	c.Working = append(in.acrossLines(),
		check.Step("Load on the base", "N = W − U", srcSlide, n, q.Of("W", in.Weight, q.Force), q.Of("U", in.Uplift, q.Force)),
		check.Step("Friction of the base", "Rb = N·tan δ, not below 0", srcSlide, q.Of("Rb", s.Base, q.Force), n, t),
		check.Step("Factor of safety", "FS = Rb/(ΔE + ΔU)", srcSlide, q.Of("FS", s.FSBase, q.Factor), q.Of("Rb", s.Base, q.Force),
			q.Of("ΔE", in.Earth, q.Force), q.Of("ΔU", in.Water, q.Force)))
	if c.Ratio > 1 {
		c.Remedy = "raise both sides together so that one presses no more than {0} above the other; or weight in the box while the fill comes up"
		c.RemedyQ = []q.Q{q.Of("ΔE", s.Base/in.Required, q.Force)}
	}
	return c, nil
}

// TippingAcrossCheck is the overturning of SlideBox about a long edge as a
// check.
func TippingAcrossCheck(in SlideIn) (check.Check, error) {
	s, err := SlideBox(in)
	if err != nil {
		return check.Check{}, err
	}
	if err := required("required", in.Required); err != nil {
		return check.Check{}, err
	}
	c := factors("tipping-across", "Tipping along the contour", in.Required, s.FSOver)
	c.Method = "Moments about the lower edge away from the push"
	c.Source = srcOver
	c.Assumptions = []string{acrossPush, "friction on the walls is left out"}
	mr, mo := q.Of("MR", s.Resisting, q.Moment), q.Of("MO", s.Overturning, q.Moment)
	c.Working = append(in.acrossLines(),
		check.Step("Resisting moment", "MR = W·a", srcOver, mr, q.Of("W", in.Weight, q.Force), q.Of("a", s.Resisting/in.Weight, q.Length)),
		check.Step("Overturning moment", "MO = ΔE·zE + ΔU·zU + U·xU", srcOver, mo,
			q.Of("ΔE", in.Earth, q.Force), q.Of("zE", in.EarthLevel, q.Length),
			q.Of("ΔU", in.Water, q.Force), q.Of("zU", in.WaterLevel, q.Length),
			q.Of("U", in.Uplift, q.Force), q.Of("xU", in.Length/2+in.UpliftBehind, q.Length)),
		check.Step("Factor of safety", "FS = MR/MO", srcOver, q.Of("FS", s.FSOver, q.Factor), mr, mo))
	if c.Ratio > 1 {
		c.Remedy = "raise both sides together, or lower the water, so that the overturning moment comes down to {0}"
		c.RemedyQ = []q.Q{q.Of("MO", s.Resisting/in.Required, q.Moment)}
	}
	return c, nil
}

// acrossLines write what pushes.
func (in *SlideIn) acrossLines() []check.Line {
	out := []check.Line{check.Step("What the soil of one side presses more than that of the other", "ΔE = Σ (E − E')·Δx", srcDifference,
		q.Of("ΔE", in.Earth, q.Force), q.Of("level", in.EarthLevel, q.Length))}
	if in.Water > 0 {
		out = append(out, check.Step("Water that presses on one end only", "ΔU = Uh·b", srcDifference, q.Of("ΔU", in.Water, q.Force), q.Of("level", in.WaterLevel, q.Length)))
	}
	return out
}

const srcDifference = "at rest diagrams of both sides, station by station (derived)"
