package ground

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Sources of the checks, each with how far it was seen.
const (
	srcUplift  = "EM 1110-2-2100 Eq 3-2 (second-hand); required factors Table 3-4 (memory)"
	srcUPL     = "EN 1997-1 UPL, 0.9 and 1.25 (memory)"
	srcSlide   = "UFC 3-220-20 4-5.1.3 (second-hand)"
	srcOver    = "UFC 3-220-20 4-5.1.2 (second-hand)"
	srcMiddle  = "UFC 3-220-20 4-23 to 4-28 (second-hand)"
	srcSides   = "share of side friction: common practice"
	srcPads    = "equilibrium of a stiff box on four pads (derived)"
	maxFactor  = 10.0
	mostCover  = 10.0 // m, of cover looked at as a remedy
	noneNeeded = 1.0
)

// required refuses a factor of safety asked for that is none.
func required(field string, v float64) error {
	return limit.Within(field, v, noneNeeded, maxFactor, q.Factor)
}

// ratioOf is the factor asked for over the one found; zero where nothing
// drives, +Inf where nothing resists.
func ratioOf(asked, found float64) float64 {
	if found <= 0 {
		return math.Inf(1)
	}
	return asked / found
}

// factors fills what all checks by factor of safety have in common.
func factors(id, title string, asked, found float64) check.Check {
	return check.Check{ID: id, Title: title,
		Demand:   q.Of("FS req", asked, q.Factor),
		Capacity: q.Of("FS", found, q.Factor),
		Ratio:    ratioOf(asked, found), RatioLRFD: math.NaN()}
}

// FlotationCheck is Float as a check. The remedy holds the highest water and
// the cover that would do.
func FlotationCheck(in FlotationIn) (check.Check, error) {
	f, err := Float(in)
	if err != nil {
		return check.Check{}, err
	}
	if err := required("required", in.Required); err != nil {
		return check.Check{}, err
	}
	c := factors("flotation", "Flotation", in.Required, f.FS)
	c.RatioLRFD = f.UPL
	c.Method = "Weights against net uplift; EC7 limit state of uplift beside it"
	c.Source = srcUplift + "; " + srcUPL
	c.Assumptions = []string{"the box is closed and empty", "still water, the full pressure on the underside"}
	if f.Friction > 0 {
		c.Assumptions = append(c.Assumptions, "the fill beside the box is proven and holds its sides by friction")
	} else {
		c.Assumptions = append(c.Assumptions, "no friction on the sides")
	}
	c.Working = in.working(f)
	if c.Worst() > 1 {
		c.Remedy, c.RemedyQ = in.remedy()
	}
	return c, nil
}

func (in *FlotationIn) working(f Flotation) []check.Line {
	h := q.Of("h", math.Max(0, in.Water), q.Length)
	area := q.Of("A", f.Area, q.Area)
	gw := q.Of("γw", gammaWater, q.UnitWeight)
	ws := q.Of("Ws", f.Soil+f.Structure, q.Force)
	u, wg := q.Of("U", f.Uplift, q.Force), q.Of("Wg", f.WaterAbove, q.Force)
	wc, s := q.Of("Wc", in.Inside, q.Force), q.Of("S", in.Permanent, q.Force)
	fr := q.Of("F", f.Friction, q.Force)
	lines := []check.Line{
		check.Step("Plan area", "A = L·B", "", area, q.Of("L", in.Length, q.Length), q.Of("B", in.Width, q.Length)),
		check.Step("Uplift on the underside", "U = γw·h·A", srcUplift, u, gw, h, area),
		check.Step("Water above the roof", "Wg = γw·(h − H)·A, not below 0", srcUplift, wg, gw, h, q.Of("H", in.Height, q.Length), area),
		check.Step("Box, and soil on the roof, submerged below the water", "Ws = T + A·Σγ·t", srcUplift, ws,
			q.Of("T", in.Tare, q.Force), area, q.Of("t", in.Cover, q.Length), q.Of("γ", in.Gamma, q.UnitWeight), q.Of("γsat", in.GammaSat, q.UnitWeight)),
	}
	if f.Friction > 0 {
		lines = append(lines, check.Step("Share of the friction on the sides", "F = s·K·tan δ·Σσ'v·P", srcSides, fr,
			q.Of("s", in.Share, q.Ratio), q.Of("K", in.K, q.None), q.Of("δ", in.Delta, q.Angle), q.Of("P", in.Perimeter, q.Length)))
	}
	return append(lines,
		check.Step("Factor of safety", "FS = (Ws + Wc + S + F)/(U − Wg)", srcUplift, q.Of("FS", f.FS, q.Factor), ws, wc, s, fr, u, wg),
		check.Step("By partial factors", "ratio = (U − Wg)/(0.9·(Ws + Wc + S) + F/1.25)", srcUPL, q.Of("ratio", f.UPL, q.Ratio), u, wg, ws, wc, s, fr))
}

// remedy solves for the water level and for the cover at which both ratios
// come down to 1.
func (in *FlotationIn) remedy() (string, []q.Q) {
	holds := func(water, cover float64) bool {
		f := in.at(water, cover)
		return f.FS >= in.Required && f.UPL <= 1
	}
	w := highest(0, in.Height+in.Cover, func(h float64) bool { return holds(h, in.Cover) })
	text, vals := "keep the water no higher than {0} above the underside of the box", []q.Q{q.Of("h", w.Value, q.Length)}
	if in.validateSoil() != nil {
		return text, vals
	}
	c := highest(0, mostCover, func(less float64) bool { return holds(in.Water, mostCover-less) })
	if c.None || mostCover-c.Value <= in.Cover {
		return text, vals
	}
	return text + ", or bring the mean cover to {1}; the roof must carry that", append(vals, q.Of("t", mostCover-c.Value, q.Length))
}
