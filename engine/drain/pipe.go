package drain

import (
	"math"

	"hillset/engine/bisect"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Pipe is a round pipe that runs by its fall, not under pressure.
type Pipe struct {
	Bore float64 // inside diameter, m
	N    float64 // Manning's n of the full pipe, s/m^(1/3)
	Fall float64 // m per m
	Camp bool    // n grows in a pipe that is not full, by Camp's curve
}

// Flowing is the state of a pipe at one depth of water.
type Flowing struct {
	Depth    float64 // m
	Area     float64 // of the water, m2
	Wet      float64 // wetted perimeter, m
	Radius   float64 // hydraulic radius, m
	N        float64 // s/m^(1/3)
	Velocity float64 // m/s
	Flow     float64 // m3/s
}

// Normal is the depth at which a pipe carries a flow.
type Normal struct {
	Flowing
	Ratio float64 // depth over bore
	Share float64 // flow over that of the full pipe
	// Surcharge is true where the flow is more than the full pipe carries: it
	// then also runs at the depth Upper, and any ripple fills the pipe.
	Surcharge bool
	Upper     float64 // m
}

// Bounds of pipes: from a hose to a culvert, from laser level to a chute.
const (
	minBore, maxBore = 0.01, 3.0
	minN, maxN       = 0.008, 0.15
	minFall, maxFall = 1e-5, 1.0
)

func (p *Pipe) validate() error {
	return limit.First(
		limit.Within("bore", p.Bore, minBore, maxBore, quantity.Thickness),
		limit.Within("n", p.N, minN, maxN, quantity.None),
		limit.Within("fall", p.Fall, minFall, maxFall, quantity.Gradient))
}

// Full is the pipe just full, Q = (1/n) A R^(2/3) S^(1/2) (Manning, memory).
func (p Pipe) Full() (Flowing, error) {
	if err := p.validate(); err != nil {
		return Flowing{}, err
	}
	return p.at(p.Bore), nil
}

// At is the pipe at a depth of water from 0 to its bore, m (Manning with the
// geometry of a circle, memory and derived).
func (p Pipe) At(depth float64) (Flowing, error) {
	if err := limit.First(p.validate(), limit.Within("depth", depth, 0, p.Bore, quantity.Length)); err != nil {
		return Flowing{}, err
	}
	return p.at(depth), nil
}

func (p *Pipe) at(depth float64) Flowing {
	f := Flowing{Depth: depth, N: p.n(depth / p.Bore)}
	theta := 2 * math.Acos(math.Max(-1, 1-2*depth/p.Bore))
	f.Area = p.Bore * p.Bore / 8 * (theta - math.Sin(theta))
	f.Wet = p.Bore * theta / 2
	if f.Wet > 0 {
		f.Radius = f.Area / f.Wet
	}
	f.Velocity = math.Pow(f.Radius, 2.0/3) * math.Sqrt(p.Fall) / f.N
	f.Flow = f.Velocity * f.Area
	return f
}

// n is Manning's n at a depth over the bore.
func (p *Pipe) n(ratio float64) float64 {
	if !p.Camp {
		return p.N
	}
	return p.N * between(tables.Default().Camp(), ratio)
}

// between reads a curve in straight pieces; x lies on it.
func between(curve []tables.Node, x float64) float64 {
	for i := 1; i < len(curve); i++ {
		if a, b := curve[i-1], curve[i]; x <= b.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return curve[len(curve)-1].Y
}

// Most is the depth at which the pipe carries the most: at constant n 0.938 of
// the bore, with 1.076 of the flow of the full pipe (derived).
func (p Pipe) Most() (Flowing, error) {
	if err := p.validate(); err != nil {
		return Flowing{}, err
	}
	return p.most(), nil
}

// thirds is how often most takes a third off: the rest is below rounding.
const thirds = 80

// most looks in the upper half, where the flow has a single peak: that of
// Camp's n lies above the one at constant n, both well above half the bore.
func (p *Pipe) most() Flowing {
	lo, hi := p.Bore/2, p.Bore
	for range thirds {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if p.at(a).Flow < p.at(b).Flow {
			lo = a
		} else {
			hi = b
		}
	}
	return p.at((lo + hi) / 2)
}

// Depth is the normal depth at a flow, m3/s: the smaller one where there are
// two. A flow above the most that the pipe carries is refused.
func (p Pipe) Depth(flow float64) (Normal, error) {
	err := limit.First(p.validate(), limit.Within("flow", flow, 0, most, quantity.Flow))
	if err != nil {
		return Normal{}, err
	}
	top := p.most()
	if flow > top.Flow {
		return Normal{}, &limit.Error{Field: "flow", Value: flow, Hi: top.Flow, Kind: quantity.Flow,
			Why: "the pipe would run under pressure and back up"}
	}
	var r Normal
	full := p.at(p.Bore).Flow
	if flow > 0 {
		r.Flowing = p.at(bisect.Rising(0, top.Depth, func(y float64) float64 { return p.at(y).Flow - flow }))
	}
	r.Ratio, r.Share = r.Flowing.Depth/p.Bore, flow/full
	if flow > full {
		r.Surcharge = true
		r.Upper = bisect.Rising(top.Depth, p.Bore, func(y float64) float64 { return flow - p.at(y).Flow })
	}
	return r, nil
}

// Velocities below which a drain silts up, m/s (drainage practice of the
// NRCS, second-hand): where nothing finer than gravel enters, and where sand
// and silt may.
const (
	cleanClear = 0.15
	cleanFines = 0.43
)

// CleanVelocity is the least velocity that keeps a drain clean, m/s.
func CleanVelocity(fines bool) float64 {
	if fines {
		return cleanFines
	}
	return cleanClear
}

// FallFor is the least fall at which the full pipe of a bore (m) and n runs at
// a velocity, m/s: S = (V n / R^(2/3))² (Manning, derived).
func FallFor(bore, n, velocity float64) (float64, error) {
	err := limit.First(
		limit.Within("bore", bore, minBore, maxBore, quantity.Thickness),
		limit.Within("n", n, minN, maxN, quantity.None),
		limit.Within("velocity", velocity, 0, 10, quantity.Velocity))
	if err != nil {
		return 0, err
	}
	s := velocity * n / math.Pow(bore/4, 2.0/3)
	return s * s, nil
}

// BoreFor is the least bore, m, of a pipe of n and fall that carries a flow,
// m3/s, when full (Manning solved for D, derived).
func BoreFor(flow, n, fall float64) (float64, error) {
	err := limit.First(
		limit.Within("flow", flow, 0, most, quantity.Flow),
		limit.Within("n", n, minN, maxN, quantity.None),
		limit.Within("fall", fall, minFall, maxFall, quantity.Gradient))
	if err != nil {
		return 0, err
	}
	return math.Pow(flow*n*math.Pow(4, 5.0/3)/(math.Pi*math.Sqrt(fall)), 3.0/8), nil
}
