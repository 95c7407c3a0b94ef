package climate

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	latentIce = 334000.0 // J/kg
	heatWater = 4186.8   // J/kgK
	dryHeat   = 0.17     // heat capacity of dry soil over that of water
	halfIce   = 0.75     // the same of its water, half of it frozen

	srcFrost = "Stefan with the correction of modified Berggren, UFC 3-130-05; WSDOT training page (verified); lambda by Neumann's solution (derived)"
	srcIndex = "surface index over air index: US Army table as quoted in a note on IRC SP:48 (second-hand)"
	srcHeat  = "heat capacity and latent heat by UFC 3-130-05 (verified)"
)

// Soil is what frost goes through.
type Soil struct {
	Dry       float64 // dry density, kg/m3
	Water     float64 // share of the dry mass
	KUnfrozen float64 // W/mK
	KFrozen   float64 // W/mK
}

func (s *Soil) validate() error {
	return limit.First(
		limit.Within("dry", s.Dry, 100, 3000, q.None),
		limit.Within("water", s.Water, 0.001, 10, q.None),
		limit.Within("k_unfrozen", s.KUnfrozen, 0.05, 10, q.Conductivity),
		limit.Within("k_frozen", s.KFrozen, 0.05, 10, q.Conductivity))
}

// fusion is the heat that freezes the water of a volume, J/m3.
func (s *Soil) fusion() float64 { return latentIce * s.Dry * s.Water }

// capacity is the heat of a volume per kelvin, half of its water frozen, J/m3K.
func (s *Soil) capacity() float64 { return s.Dry * heatWater * (dryHeat + halfIce*s.Water) }

// k is the mean of frozen and unfrozen conductivity, W/mK.
func (s *Soil) k() float64 { return (s.KFrozen + s.KUnfrozen) / 2 }

// FrostIn is one winter over one soil.
type FrostIn struct {
	Soil  Soil
	Index float64 // freezing index of the air, °C·days
	N     float64 // index of the surface over that of the air
	// Mean is the mean temperature of the year, °C, and Days the length of the
	// frost season; without them (HasMean false) the depth is Stefan's, which is
	// too deep.
	Mean    float64
	Days    float64
	HasMean bool
}

// Frost is how deep it freezes.
type Frost struct {
	Surface       float64 // freezing index of the surface, °C·days
	Fusion        float64 // J/m3
	K             float64 // mean conductivity, W/mK
	Stefan, Depth float64 // m; Depth is Stefan where the season is not known
	Alpha, Mu     float64
	Lambda        float64 // 1 where the season is not known
}

func (in *FrostIn) validate() error {
	err := limit.First(limit.In("soil", in.Soil.validate()),
		limit.Within("index", in.Index, 0, 8000, q.FrostIndex),
		limit.Within("n", in.N, 0.1, 2, q.None))
	if err == nil && in.HasMean {
		err = limit.First(degrees("mean", in.Mean), limit.Within("days", in.Days, 1, year, q.None))
	}
	return err
}

// FindFrost is the depth of frost in a ground of one soil. A mean temperature
// of the year below freezing, where ground does not thaw, is refused.
func FindFrost(in FrostIn) (Frost, error) {
	if err := in.validate(); err != nil {
		return Frost{}, err
	}
	f := Frost{Surface: in.N * in.Index, Fusion: in.Soil.fusion(), K: in.Soil.k(), Lambda: 1}
	f.Stefan = math.Sqrt(2 * f.K * f.Surface * day / f.Fusion)
	if in.HasMean && f.Surface > 0 {
		if err := limit.Within("mean", in.Mean, 0, hottest, q.Temperature); err != nil {
			err.(*limit.Error).Why = "where the mean of the year is below freezing the ground stays frozen"
			return Frost{}, err
		}
		cold := f.Surface / in.Days
		f.Alpha, f.Mu = in.Mean/cold, cold*in.Soil.capacity()/f.Fusion
		var err error
		if f.Lambda, err = Lambda(f.Alpha, f.Mu); err != nil {
			return Frost{}, fmt.Errorf("the winter is too mild for the method: %w", err)
		}
	}
	f.Depth = f.Lambda * f.Stefan
	return f, nil
}

// Lines are the working of a depth of frost.
func (f *Frost) Lines(in FrostIn) []check.Line {
	surface := q.Of("nF", f.Surface, q.FrostIndex)
	out := []check.Line{
		check.Step("Freezing index of the surface", "nF = n·F", srcIndex, surface, q.Of("n", in.N, q.None), q.Of("F", in.Index, q.FrostIndex)),
		check.Step("Heat that freezes the soil", "L = Li·ρd·w", srcHeat, q.Of("L", f.Fusion, q.Fusion), q.Of("w", in.Soil.Water, q.Share)),
		check.Step("Depth of frost by Stefan, which is too deep", "X0 = √(2·k·nF/L)", srcFrost, q.Of("X0", f.Stefan, q.Length), q.Of("k", f.K, q.Conductivity)),
	}
	if !in.HasMean || f.Surface == 0 {
		return out
	}
	cold := f.Surface / in.Days
	return append(out,
		check.Step("Mean of the surface below freezing", "vs = nF/t", srcFrost, q.Of("vs", cold, q.Warmth), surface, q.Of("t", in.Days, q.None)),
		check.Step("Warmth of the ground", "α = Tm/vs", srcFrost, q.Of("α", f.Alpha, q.None), q.Of("Tm", in.Mean, q.Warmth)),
		check.Step("Heat of cooling over that of freezing", "μ = vs·C/L", srcFrost, q.Of("μ", f.Mu, q.None)),
		check.Step("Correction", "exp(−x²)/erf x − α·exp(−x²)/erfc x = √π·x/μ, λ = x·√(2/μ)", srcFrost, q.Of("λ", f.Lambda, q.None)),
		check.Step("Depth of frost", "X = λ·X0", srcFrost, q.Of("X", f.Depth, q.Length)))
}

// Heave is the rise of soil that freezes to a depth by the swelling of its own
// water alone, m: 0.09·n·Sr·z. Ice lenses, which draw water from below, lift
// far more (Konrad and Morgenstern, memory).
func Heave(s Soil, depth float64) (float64, error) {
	if err := limit.First(s.validate(), limit.Within("depth", depth, 0, 20, q.Length)); err != nil {
		return 0, err
	}
	return 0.09 * s.Water * s.Dry / 1000 * depth, nil
}
