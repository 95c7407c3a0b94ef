package drain

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	srcDupuit   = "Dupuit, q' = K·(H² − h²)/(2·L): TM 5-818-5 fig. 4-1 (memory)"
	srcSichardt = "Sichardt's reach 3000·(H − h)·√K, after Powers 1992 (verified); 1500 to 2000 for trenches (memory)"
	// SrcFirstDays is where FirstDays comes from.
	SrcFirstDays = "first days 30 % above the steady flow, TM 5-818-5 4-1f (verified)"
	srcPit       = "well of equal area, π·K·(H² − h²)/ln(R/re) (memory)"
)

// Factors of the reach of a drawdown, with K in m/s and lengths in m.
const (
	SichardtReach = 3000.0 // Sichardt
	TrenchReach   = 2000.0 // for trenches: a shorter reach gives more flow
)

// FirstDays is the flow of the first days over the steady one.
const FirstDays = 1.3

// leastDrawdown is the drawdown over H below which Sichardt's reach is refused:
// it shrinks with the drawdown, so that the flow would not vanish with it.
const leastDrawdown = 0.1

// CutIn is an open cut into ground that holds water over a tight layer.
type CutIn struct {
	H      float64 // water above the tight layer far from the cut, m
	Low    float64 // water above the tight layer at the cut, m
	K      float64 // permeability, m/s
	Length float64 // of the faces that water comes through, m
	Reach  float64 // factor of the reach: SichardtReach or TrenchReach
}

// Inflow is what comes into a cut: at the permeability given, and at a tenth
// and ten times of it, as it is hardly ever known better.
type Inflow struct {
	Reach     float64 // m
	PerMetre  float64 // m2/s; 0 for a pit
	Steady    float64 // m3/s
	First     float64 // in the first days, m3/s
	Low, High float64 // First at K/10 and 10·K, m3/s
}

func (in *CutIn) validate() error {
	err := limit.First(
		limit.Within("permeability", in.K, minK, maxK/tenfold, q.Permeability),
		limit.Within("h_far", in.H, 0.01, 100, q.Length),
		limit.Within("length", in.Length, 0, 1000, q.Length),
		limit.Within("reach", in.Reach, 500, 5000, q.None))
	if err != nil {
		return err
	}
	if err := limit.Within("h_cut", in.Low, 0, (1-leastDrawdown)*in.H, q.Length); err != nil {
		err.(*limit.Error).Why = "with so little drawdown the reach of the drawdown is not known"
		return err
	}
	return nil
}

// CutInflow is the inflow to the long faces of a cut (Dupuit with Sichardt's
// reach). Both together give more flow for less drawdown, √K·(H + h)/(2·reach),
// as the reach shrinks: a known fault of the method, on the careful side.
func CutInflow(in CutIn) (Inflow, error) {
	if err := in.validate(); err != nil {
		return Inflow{}, err
	}
	var f Inflow
	f.Reach = in.Reach * (in.H - in.Low) * math.Sqrt(in.K)
	f.PerMetre = in.perMetre(in.K)
	f.Steady = f.PerMetre * in.Length
	f.First = FirstDays * f.Steady
	f.Low = FirstDays * in.Length * in.perMetre(in.K/tenfold)
	f.High = FirstDays * in.Length * in.perMetre(in.K*tenfold)
	return f, nil
}

// perMetre is Dupuit's flow to a metre of the face, m2/s.
func (in *CutIn) perMetre(k float64) float64 {
	reach := in.Reach * (in.H - in.Low) * math.Sqrt(k)
	return k * (in.H*in.H - in.Low*in.Low) / (2 * reach)
}

// PitInflow is the inflow to a compact pit of sides a and b, m, taken as a well
// of the same area; Length of the input is not used.
func PitInflow(in CutIn, a, b float64) (Inflow, error) {
	err := limit.First(in.validate(), limit.Within("a", a, 0.1, 500, q.Length), limit.Within("b", b, 0.1, 500, q.Length))
	if err != nil {
		return Inflow{}, err
	}
	re := math.Sqrt(a * b / math.Pi)
	flow := func(k float64) float64 {
		r := in.Reach * (in.H - in.Low) * math.Sqrt(k)
		return math.Pi * k * (in.H*in.H - in.Low*in.Low) / math.Log1p(r/re)
	}
	f := Inflow{Reach: in.Reach * (in.H - in.Low) * math.Sqrt(in.K), Steady: flow(in.K)}
	f.First = FirstDays * f.Steady
	f.Low, f.High = FirstDays*flow(in.K/tenfold), FirstDays*flow(in.K*tenfold)
	return f, nil
}

// CutCheck compares a pump for the dig with the inflow of the first days.
// Where the permeability was not measured the upper end of the range counts.
func CutCheck(in CutIn, measured bool, pump float64) (check.Check, error) {
	f, err := CutInflow(in)
	if err := limit.First(err, limit.Within("pump", pump, leastPump, mostPump, q.Flow)); err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "cut-inflow", Title: "Water into the open cut", Part: "cut", Method: "Dupuit with Sichardt's reach",
		Source:      srcDupuit + "; " + srcSichardt + "; " + SrcFirstDays,
		Assumptions: []string{"steady flow to a long face over a tight layer", "one soil, as permeable sideways as along"},
		Validity: "An order of magnitude: the permeability of a soil is seldom known better than ten times, " +
			"and with little drawdown the method gives too much."}
	k, h, low := q.Of("K", in.K, q.Permeability), q.Of("H", in.H, q.Length), q.Of("h", in.Low, q.Length)
	reach, per, steady := q.Of("L", f.Reach, q.Length), q.Of("q'", f.PerMetre, q.LineFlow), q.Of("Q", f.Steady, q.Flow)
	c.Working = append(c.Working,
		check.Step("Reach of the drawdown", "L = c·(H − h)·√K", srcSichardt, reach, q.Of("c", in.Reach, q.None), h, low, k),
		check.Step("Flow along the face", "q' = K·(H² − h²)/(2·L)", srcDupuit, per, k, h, low, reach),
		check.Step("Steady flow", "Q = q'·B", srcDupuit, steady, per, q.Of("B", in.Length, q.Length)),
		check.Step("In the first days", "Q1 = 1.3·Q", SrcFirstDays, q.Of("Q1", f.First, q.Flow), steady),
		check.Step("With a tenth of the permeability", "Q1 at K/10", srcDupuit, q.Of("Qlow", f.Low, q.Flow)),
		check.Step("With ten times the permeability", "Q1 at 10·K", srcDupuit, q.Of("Qhigh", f.High, q.Flow)))
	demand := q.Of("Qhigh", f.High, q.Flow)
	if measured {
		demand = q.Of("Q1", f.First, q.Flow)
		c.Assumptions = append(c.Assumptions, "the permeability was measured")
	}
	govern(&c, []condition{{text: "Pump for the dig", formula: "r = " + demand.Sym + "/D", src: SrcFirstDays, demand: demand, capacity: q.Of("D", pump, q.Flow),
		remedy: "pumps of {0} together", remedyQ: demand}})
	return c, nil
}
