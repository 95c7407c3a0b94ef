package concrete

import (
	"cmp"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/quantity"
)

// SlabCorner is the corner of a slab on the ground under a corner casting, which
// stands at its very edges. Bars, where it has any, run both ways near the
// underside; those of the upper layer count for both.
type SlabCorner struct {
	Section
	P              box.Pair // kN from the casting
	Case, CaseLRFD string   // combinations of P
	CastL, CastW   float64  // m, casting along the length and the width
	ReachL, ReachW float64  // m, share of the slab that belongs to this casting
	Allowable      float64  // kPa of the ground below the slab
	Basis          string   // where that comes from
}

// SlabCornerResult is what comes out of it. Moments and shears are those of a metre.
type SlabCornerResult struct {
	Net       float64    // kPa, allowable pressure less the slab itself
	Area      float64    // m2, of slab that presses on the ground
	Over      [2]float64 // m, how far that reaches beyond the casting, along and across
	Q         float64    // kPa, below it by factored load
	D         float64    // m, depth that counts
	M, PhiMn  float64    // kNm/m at the face of the casting
	V, PhiVn  float64    // kN/m, a depth from it
	Vp, PhiVp float64    // kN round the two inner sides of the casting
	Bend, Cut float64    // ratios
	Punch     float64
	Plain     bool // no bars, or too few: they do not count
	Short     bool // the ground asks for more slab than there is
	phiV      float64
}

const (
	srcCornerPlain = srcPad
	srcCornerBars  = "ACI 318: rectangular stress block, φ 0.90; 2·√f'c one way, min(4, 2 + 4/β, 20·d/b0 + 2)·λs·√f'c two ways at a corner, φ 0.75, in psi (memory)"
	cornerAlpha    = 20.0 // of a corner column
)

func (in *SlabCorner) check() error {
	return cmp.Or(in.Section.check(), castingRange(in.P, in.CastL, in.CastW),
		quantity.Within("slab along the box", in.ReachL, in.CastL, 20, quantity.Length), quantity.Within("slab across the box", in.ReachW, in.CastW, 20, quantity.Length),
		quantity.Within("slab thickness", in.Thickness, againstSoil+0.01, 3, quantity.Thickness),
		quantity.Within("allowable pressure below the slab", in.Allowable, Gamma*in.Thickness+1, 1e5, quantity.Pressure))
}

// Solve finds how much of the slab the ground needs to carry the casting, and what
// that part asks of the concrete: the rest of the slab is left out, so that a slab
// that has cracked round its corner holds as well (statics, derived).
func (in SlabCorner) Solve() (SlabCornerResult, error) {
	var r SlabCornerResult
	if err := in.check(); err != nil {
		return r, err
	}
	r.Net = in.Allowable - Gamma*in.Thickness
	r.spread(&in)
	r.Q = in.P.LRFD / r.Area
	if err := r.strength(&in); err != nil {
		return r, err
	}
	for _, c := range r.Over {
		r.M = math.Max(r.M, r.Q*c*c/2)
		r.V = math.Max(r.V, r.Q*math.Max(0, c-r.D))
	}
	r.Bend, r.Cut = r.M/r.PhiMn, r.V/r.PhiVn
	l, w := math.Min(in.CastL+r.D/2, in.ReachL), math.Min(in.CastW+r.D/2, in.ReachW)
	r.Vp = math.Max(0, in.P.LRFD-r.Q*l*w)
	r.PhiVp = r.phiV * in.root(in.twoWay(&r, l+w)) * (l + w) * r.D
	r.Punch = r.Vp / r.PhiVp
	return r, nil
}

// spread finds the part of the slab that presses: as far beyond the casting both
// ways, unless one of them ends before.
func (r *SlabCornerResult) spread(in *SlabCorner) {
	r.Area = math.Max(in.CastL*in.CastW, in.P.ASD/r.Net)
	sum := in.CastL + in.CastW
	c := (math.Sqrt(sum*sum+4*(r.Area-in.CastL*in.CastW)) - sum) / 2
	most := [2]float64{in.ReachL - in.CastL, in.ReachW - in.CastW}
	r.Over = [2]float64{math.Min(c, most[0]), math.Min(c, most[1])}
	if c > most[1] {
		r.Over[0] = math.Min(r.Area/in.ReachW-in.CastL, most[0])
	} else if c > most[0] {
		r.Over[1] = math.Min(r.Area/in.ReachL-in.CastW, most[1])
	}
	whole := (in.CastL + r.Over[0]) * (in.CastW + r.Over[1])
	r.Short = whole < r.Area*(1-1e-9)
	r.Area = whole
}

// strength is that of a metre of slab.
func (r *SlabCornerResult) strength(in *SlabCorner) error {
	r.Plain = in.Plain() || in.Bars.Area() < in.LeastSlab()
	if r.Plain {
		r.D, r.phiV = in.Thickness-againstSoil, phiPlain
		r.PhiMn, r.PhiVn = phiPlain*in.root(5)*r.D*r.D/6, phiPlain*in.root(oneWay)*r.D
		return nil
	}
	upper := in.Section
	upper.Bars.Cover += upper.Bars.Diameter
	s, err := upper.Strength()
	if err != nil {
		return err
	}
	r.D, r.phiV = s.D, s.PhiV
	r.PhiMn, r.PhiVn = s.Phi*s.Mn, s.PhiV*s.Vn
	return nil
}

// twoWay is the shear stress round the casting in the psi formulas, over √f'c; b0 is
// the length of its two inner sides.
func (in *SlabCorner) twoWay(r *SlabCornerResult, b0 float64) float64 {
	beta := math.Max(in.CastL, in.CastW) / math.Min(in.CastL, in.CastW)
	if r.Plain {
		return math.Min(oneWay*(1+2/beta), twoWay)
	}
	size := math.Min(1, math.Sqrt(2/(1+0.004*r.D*1000)))
	return size * math.Min(4, math.Min(2+4/beta, cornerAlpha*r.D/b0+2))
}

// Worst is the largest ratio of the slab itself.
func (r *SlabCornerResult) Worst() float64 { return math.Max(r.Bend, math.Max(r.Cut, r.Punch)) }

// SlabCornerCheck checks the corner of a slab in bending, shear and punching.
func SlabCornerCheck(in SlabCorner) (check.Check, SlabCornerResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	source, bars := srcCornerBars, "Bars both ways near the underside; the upper layer counts for both."
	if r.Plain {
		source, bars = srcCornerPlain, "No bars are counted, and "+quantity.Brief.Text(againstSoil, quantity.Thickness)+" of its thickness do not count, as it is cast on the bed."
	}
	c := check.Check{
		ID: "pad-concrete", Title: "Slab under a corner casting", Method: "Part of the slab that the ground needs: bending at the face of the casting, shear, punching",
		Source: source + "; bearing: " + in.Basis, Ratio: math.NaN(), RatioLRFD: r.Worst(), CaseLRFD: in.CaseLRFD,
		Assumptions: []string{
			"The casting stands at the corner of the slab. Only as much of the slab carries as the allowable pressure needs; the rest may be cracked off.",
			"The ground presses evenly below that part.", bars,
		},
		Validity: onlyLRFD + " Cracks, warping and frost below the slab are not checked.",
		Working:  in.working(&r, source),
	}
	if !in.Plain() && r.Plain {
		c.Validity += " The bars are fewer than the least of a slab (ACI 318 24.4.3, memory) and are not counted."
	}
	if r.Plain && in.Thickness < leastPad {
		c.Validity += " ACI 318 has no plain footings thinner than " + quantity.Brief.Text(leastFooting, quantity.Thickness) + " (memory): this one is thinner."
	}
	if r.Short {
		c.Validity += " The ground asks for more slab than there is: see the bearing."
	}
	switch c.RatioLRFD {
	case r.Bend:
		c.Demand, c.Capacity = quantity.Of("Mu", r.M, quantity.LineMoment), quantity.Of("φ·Mn", r.PhiMn, quantity.LineMoment)
	case r.Cut:
		c.Demand, c.Capacity = quantity.Of("Vu", r.V, quantity.LineLoad), quantity.Of("φ·Vn", r.PhiVn, quantity.LineLoad)
	default:
		c.Demand, c.Capacity = quantity.Of("Vp", r.Vp, quantity.Force), quantity.Of("φ·Vp", r.PhiVp, quantity.Force)
	}
	if c.RatioLRFD > 1 {
		c.Remedy = "A slab thickened to some {0} under the casting, bars both ways near the underside, or a pad of its own below the casting."
		bend := r.Bend // goes with the depth of bars, and with the square of that of plain concrete
		if r.Plain {
			bend = math.Sqrt(r.Bend)
		}
		c.RemedyQ = []quantity.Q{quantity.Of("", in.Thickness-r.D+r.D*math.Max(bend, math.Max(r.Cut, r.Punch)), quantity.Length)}
	}
	return c, r, nil
}

func (in *SlabCorner) working(r *SlabCornerResult, source string) []check.Line {
	length := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Length) }
	bend, cut := "φ·Mn = φ·As·Fy·(d − a/2)", "Vu = q·(c − d) ≤ φ·2·√f'c·d"
	if r.Plain {
		bend, cut = "φ·Mn = 0.60·5√f'c·d²/6", "Vu = q·(c − d) ≤ φ·4/3·√f'c·d"
	}
	return []check.Line{{
		Text: "Allowable pressure for the casting, less the slab itself", Formula: "qn = qa − γ·t",
		Terms:  []quantity.Q{quantity.Of("qa", in.Allowable, quantity.Pressure), quantity.Of("γ", Gamma, quantity.UnitWeight), length("t", in.Thickness)},
		Result: quantity.Of("qn", r.Net, quantity.Pressure), Source: in.Basis,
	}, {
		Text: "Part of the slab that the ground needs, " + in.Case, Formula: "A = P/qn = (l + c)·(w + c)",
		Terms: []quantity.Q{quantity.Of("P", in.P.ASD, quantity.Force), length("l", in.CastL), length("w", in.CastW),
			length("c along", r.Over[0]), length("c across", r.Over[1])},
		Result: quantity.Of("A", r.Area, quantity.Area), Source: srcStat,
	}, {
		Text: "Pressure below it by factored load, " + in.CaseLRFD, Formula: "q = Pu/A",
		Terms:  []quantity.Q{quantity.Of("Pu", in.P.LRFD, quantity.Force)},
		Result: quantity.Of("q", r.Q, quantity.Pressure), Source: srcStat,
	}, {
		Text: "Moment at the face of the casting, along it", Formula: "Mu = q·c²/2",
		Terms:  []quantity.Q{length("c", math.Max(r.Over[0], r.Over[1]))},
		Result: quantity.Of("Mu", r.M, quantity.LineMoment), Source: srcStat,
	}, {
		Text: "Bending strength", Formula: bend,
		Terms:  []quantity.Q{quantity.Of("f'c", in.Fc, quantity.Stress), length("d", r.D)},
		Result: quantity.Of("φ·Mn", r.PhiMn, quantity.LineMoment), Source: source,
	}, {
		Text: "Shear a depth away from the casting", Formula: cut,
		Terms:  []quantity.Q{quantity.Of("φ·Vn", r.PhiVn, quantity.LineLoad)},
		Result: quantity.Of("Vu", r.V, quantity.LineLoad), Source: source,
	}, {
		Text: "Punching, on the two inner sides of the casting", Formula: "Vp = Pu − q·(l + d/2)·(w + d/2)",
		Terms:  []quantity.Q{quantity.Of("φ·Vp", r.PhiVp, quantity.Force)},
		Result: quantity.Of("Vp", r.Vp, quantity.Force), Source: source,
	}, {
		Text: "Ratio: bending, shear, punching", Formula: "the largest of the three",
		Terms: []quantity.Q{
			quantity.Of("bending", r.Bend, quantity.Ratio), quantity.Of("shear", r.Cut, quantity.Ratio), quantity.Of("punching", r.Punch, quantity.Ratio),
		},
		Result: quantity.Of("r", r.Worst(), quantity.Ratio), Source: source,
	}}
}
