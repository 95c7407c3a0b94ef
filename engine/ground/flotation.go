package ground

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// FlotationIn is a closed box below ground in still water.
type FlotationIn struct {
	Length, Width, Height float64 // outside, m
	Tare                  float64 // kN, empty
	Cover                 float64 // soil on the roof, mean over its plan, m
	Gamma, GammaSat       float64 // of the soil on the roof, kN/m3
	Permanent             float64 // other lasting load on the roof, kN
	Inside                float64 // water inside, kN
	Water                 float64 // level above the underside, m; at or below 0 none acts

	// Friction of the fill on the sides: counted with Share only.
	K         float64 // coefficient of the fill beside the box
	Delta     float64 // wall friction, rad
	Perimeter float64 // plan length of the faces held by fill, m
	Share     float64 // share of the friction counted, 0 to 1

	Required float64 // factor of safety asked for; FlotationCheck only
}

// Flotation holds every step from weights to the factor of safety.
type Flotation struct {
	Area       float64 // plan, m2
	Soil       float64 // Ws part: soil on the roof, submerged below the water, kN
	Structure  float64 // Ws part: tare, kN
	Resisting  float64 // Ws + Wc + S, kN
	Uplift     float64 // U on the underside, kN
	WaterAbove float64 // Wg: water above the roof, kN
	Net        float64 // U - Wg, kN
	FrictionW  float64 // friction of the whole wetted side area, kN
	Friction   float64 // the share counted, kN
	FSWeight   float64 // without friction
	FS         float64 // with the share of friction counted
	UPL        float64 // EC7 ratio: net uplift over 0.9 weights + friction/1.25
}

// Partial factors of the limit state of uplift (EN 1997-1, memory).
const (
	uplStab     = 0.9
	uplFriction = 1.25
)

// Float works out the factor of safety against flotation,
// (Ws + Wc + S)/(U - Wg) (EM 1110-2-2100 Eq 3-2, second-hand), with the share
// of side friction K tan(delta) times mean sv' times area added to the weights
// (common practice).
func Float(in FlotationIn) (Flotation, error) {
	if err := in.validate(); err != nil {
		return Flotation{}, err
	}
	return in.at(in.Water, in.Cover), nil
}

// at is Float at another water level and cover, without checking the input.
func (in *FlotationIn) at(water, cover float64) Flotation {
	f := Flotation{Area: in.Length * in.Width, Structure: in.Tare}
	h := math.Max(0, water)
	wet := math.Min(math.Max(0, h-in.Height), cover) // of the cover
	buoyant := in.GammaSat - earth.GammaW
	f.Soil = f.Area * ((cover-wet)*in.Gamma + wet*buoyant)
	f.Uplift = earth.GammaW * h * f.Area
	f.WaterAbove = earth.GammaW * math.Max(0, h-in.Height) * f.Area
	f.Net = f.Uplift - f.WaterAbove
	f.Resisting = f.Soil + f.Structure + in.Inside + in.Permanent
	f.FrictionW = in.K * math.Tan(in.Delta) * in.Perimeter * in.sideStress(h, cover)
	f.Friction = in.Share * f.FrictionW
	f.FSWeight, f.FS, f.UPL = math.Inf(1), math.Inf(1), 0
	if f.Net > 0 {
		f.FSWeight = f.Resisting / f.Net
		f.FS = (f.Resisting + f.Friction) / f.Net
		f.UPL = math.Inf(1)
		if r := uplStab*f.Resisting + f.Friction/uplFriction; r > 0 {
			f.UPL = f.Net / r
		}
	}
	return f
}

// sideStress is the effective vertical stress summed over the height of the
// side, kN/m: the fill beside the box reaches as high as the cover.
func (in *FlotationIn) sideStress(h, cover float64) float64 {
	wetCover := math.Min(math.Max(0, h-in.Height), cover)
	top := (cover-wetCover)*in.Gamma + wetCover*(in.GammaSat-earth.GammaW)
	wet := math.Min(h, in.Height)
	dry := in.Height - wet
	mid := top + dry*in.Gamma
	foot := mid + wet*(in.GammaSat-earth.GammaW)
	return dry*(top+mid)/2 + wet*(mid+foot)/2
}

func (in *FlotationIn) validate() error {
	err := limit.First(
		limit.Positive("length", in.Length, quantity.Length),
		limit.Positive("width", in.Width, quantity.Length),
		limit.Positive("height", in.Height, quantity.Length),
		limit.AtLeast("tare", in.Tare, 0, quantity.Force),
		limit.AtLeast("cover", in.Cover, 0, quantity.Length),
		limit.AtLeast("gamma", in.Gamma, 0, quantity.UnitWeight),
		limit.AtLeast("permanent", in.Permanent, 0, quantity.Force),
		limit.AtLeast("inside", in.Inside, 0, quantity.Force),
		limit.Finite("water", in.Water, quantity.Length),
		limit.AtLeast("k", in.K, 0, quantity.None),
		limit.Within("delta", in.Delta, 0, math.Pi/3, quantity.Angle),
		limit.AtLeast("perimeter", in.Perimeter, 0, quantity.Length),
		limit.Within("share", in.Share, 0, 1, quantity.None))
	if err != nil || in.Cover == 0 && in.Perimeter == 0 {
		return err
	}
	return in.validateSoil()
}

// validateSoil concerns only a box that soil covers or holds.
func (in *FlotationIn) validateSoil() error {
	if err := limit.Positive("gamma", in.Gamma, quantity.UnitWeight); err != nil {
		return err
	}
	return limit.AtLeast("gamma_sat", in.GammaSat, math.Max(earth.GammaW, in.Gamma), quantity.UnitWeight)
}

// Solved is a value found by bisection.
type Solved struct {
	Value float64
	// Any says that all values tried will do, None that no value will; Value
	// is then the end of the range tried.
	Any, None bool
}

// WaterFor is the highest water level above the underside at which the factor
// of safety is at least fs: Any when even water over the ground will do.
func (in FlotationIn) WaterFor(fs float64) (Solved, error) {
	if err := limit.First(in.validate(), limit.Within("fs", fs, 1, 10, quantity.Factor)); err != nil {
		return Solved{}, err
	}
	// Above roof and cover nothing changes any more.
	top := in.Height + in.Cover
	holds := func(h float64) bool { return in.at(h, in.Cover).FS >= fs }
	return highest(0, top, holds), nil
}

// CoverFor is the least cover at which the factor of safety is at least fs,
// up to most. With follow the water stands at the surface of the cover
// whatever that is, as in the worst case, else at its level in the input.
func (in FlotationIn) CoverFor(fs, most float64, follow bool) (Solved, error) {
	err := limit.First(in.validate(), in.validateSoil(), limit.Within("fs", fs, 1, 10, quantity.Factor),
		limit.Positive("most", most, quantity.Length))
	if err != nil {
		return Solved{}, err
	}
	holds := func(less float64) bool {
		c, w := most-less, in.Water
		if follow {
			w = in.Height + c
		}
		return in.at(w, c).FS >= fs
	}
	s := highest(0, most, holds)
	s.Value = most - s.Value
	return s, nil
}

// steps of bisection: an interval of metres shrinks below a nanometre.
const steps = 60

// highest is the largest x from lo to hi for which holds, which must turn
// from true to false at most once.
func highest(lo, hi float64, holds func(float64) bool) Solved {
	if holds(hi) {
		return Solved{Value: hi, Any: true}
	}
	if !holds(lo) {
		return Solved{Value: lo, None: true}
	}
	for range steps {
		mid := (lo + hi) / 2
		if holds(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return Solved{Value: lo}
}
