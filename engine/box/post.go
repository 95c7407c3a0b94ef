package box

import (
	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Post is a corner post under the load on the roof.
type Post struct {
	Strength         float64 // kN, lower bound of one post in compression (box table)
	Dead, Live, Snow float64 // kN on the whole roof
	Length, Width    float64 // m between the posts along and across the box
	EccX, EccY       float64 // m, resultant of the load from the middle of the roof, along and across; the sign does not matter
}

// PostResult is what comes out of a corner post.
type PostResult struct {
	Share float64 // of the whole load, on the most loaded post
	P     Pair    // kN
}

func (in Post) check() error {
	for _, err := range []error{
		quantity.Within("post strength", in.Strength, 1, 1e5, quantity.Stress),
		quantity.Range("roof dead load", in.Dead, 0, 1e6),
		quantity.Range("roof live load", in.Live, 0, 1e6),
		quantity.Range("roof snow load", in.Snow, 0, 1e6),
		quantity.Within("post spacing along", in.Length, 0.5, 20, quantity.Length),
		quantity.Within("post spacing across", in.Width, 0.5, 6, quantity.Length),
		quantity.Within("eccentricity along", abs(in.EccX), 0, in.Length/2, quantity.Length),
		quantity.Within("eccentricity across", abs(in.EccY), 0, in.Width/2, quantity.Length),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// share of the whole load on the most loaded post.
func (in Post) share() float64 {
	return (1 + 2*abs(in.EccX)/in.Length) * (1 + 2*abs(in.EccY)/in.Width) / 4
}

// On is what the most loaded post carries, kN.
func (in Post) On() (Effects, error) {
	if err := in.check(); err != nil {
		return Effects{}, err
	}
	s := in.share()
	return Effects{D: s * in.Dead, L: s * in.Live, S: s * in.Snow}, nil
}

// CornerPost checks the most loaded corner post in compression. The posts are
// taken to carry all of the load on the roof.
func CornerPost(in Post) (check.Check, PostResult, error) {
	var r PostResult
	if err := in.check(); err != nil {
		return check.Check{}, r, err
	}
	r.Share = in.share()
	e := Effects{D: in.Dead, L: in.Live, S: in.Snow}
	asd, asdName := Largest(Allowable, e)
	lrfd, lrfdName := Largest(Strength, e)
	r.P = Pair{asd, lrfd}.Times(r.Share)
	allowed := in.Strength / steel.OmegaTube
	c := check.Check{
		ID: "corner-post", Title: "Corner post in compression",
		Method: "Share of the roof load against the lower bound of the post's strength",
		Source: "post strength: lower bound of a published thesis (abstract seen, verified); Ω 1.67, φ 0.90 (memory)",
		Assumptions: []string{
			"The four posts carry the whole load of the roof; the side walls' help is not counted.",
			"The posts stand straight, without dents, on pads that do not settle unevenly.",
			"Rust takes the share of their strength that it takes of their steel.",
		},
		Validity: "Posts of an ISO box; the wall does not push on the post beyond what its own checks show.",
		Demand:   quantity.Of("P", r.P.ASD, quantity.Force), Capacity: quantity.Of("Pn/Ω", allowed, quantity.Force),
		Ratio: r.P.ASD / allowed, RatioLRFD: r.P.LRFD / (steel.PhiTube * in.Strength),
		Case: asdName, CaseLRFD: lrfdName,
		Working: []check.Line{{
			Text: "Share of the most loaded post", Formula: "s = (1 + 2·ex/L)·(1 + 2·ey/B)/4",
			Terms: []quantity.Q{
				quantity.Of("ex", abs(in.EccX), quantity.Length), quantity.Of("ey", abs(in.EccY), quantity.Length),
				quantity.Of("L", in.Length, quantity.Length), quantity.Of("B", in.Width, quantity.Length),
			},
			Result: quantity.Of("s", r.Share, quantity.None), Source: srcStat,
		}, {
			Text: "Load on the post, " + asdName, Formula: "P = s·W",
			Terms:  []quantity.Q{quantity.Of("W", asd, quantity.Force)},
			Result: quantity.Of("P", r.P.ASD, quantity.Force), Source: "load combinations of the building code form (verified)",
		}, {
			Text: "The same, " + lrfdName, Formula: "Pu = s·Wu",
			Terms:  []quantity.Q{quantity.Of("Wu", lrfd, quantity.Force)},
			Result: quantity.Of("Pu", r.P.LRFD, quantity.Force), Source: "load combinations of the building code form (verified)",
		}},
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "Less cover: the load on the whole roof must not exceed {0}; or a slab over the roof on posts of its own."
		c.RemedyQ = []quantity.Q{quantity.Of("", asd/most, quantity.Force)}
	}
	return c, r, nil
}

// Stacking test of ISO 1496-1 and the plate that shows it (structure
// reference, sections 1.3 and ST-16).
const (
	gravity       = 9.81 // m/s2
	plateDivisor  = 1.8  // the plate shows the mass for 1.8 g at sea
	postsPerFrame = 4
)

// StackingForce is the force on one post in the stacking test for a test mass
// of one post in kg, kN.
func StackingForce(perPost float64) (float64, error) {
	if err := quantity.Range("stacking test mass per post", perPost, 1, 1e6); err != nil {
		return 0, err
	}
	return perPost * gravity / 1000, nil
}

// PlateStacking is the allowable stacking mass that the plate shows, kg, for a
// test mass of one post in kg.
func PlateStacking(perPost float64) (float64, error) {
	if err := quantity.Range("stacking test mass per post", perPost, 1, 1e6); err != nil {
		return 0, err
	}
	return postsPerFrame * perPost / plateDivisor, nil
}
