package drain

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const srcCurtain = "Darcy along the bed, q' = K·D·sin β (derived)"

// tenfold is how far a permeability guessed from the soil may be off.
const tenfold = 10

// CurtainIn is a drain across the slope, down to a tight layer that the ground
// water runs on.
type CurtainIn struct {
	K         float64 // permeability of the soil above the tight layer, m/s
	Thickness float64 // of the water, square to the bed, m
	Slope     float64 // of the bed, rad
	Length    float64 // of the drain, m
}

// Curtain is what it catches: all that comes down the bed.
type Curtain struct {
	PerMetre  float64 // m2/s
	Flow      float64 // m3/s
	Low, High float64 // with a tenth and ten times the permeability, m3/s
}

// CurtainFlow is the flow that a drain across the slope intercepts,
// q' = K D sin β for each metre (Darcy, derived).
func CurtainFlow(in CurtainIn) (Curtain, error) {
	err := limit.First(
		limit.Within("permeability", in.K, minK, maxK, q.Permeability),
		limit.Within("thickness", in.Thickness, 0, 50, q.Length),
		limit.Within("slope", in.Slope, 0, math.Pi/3, q.Angle),
		limit.Within("length", in.Length, 0, 1000, q.Length))
	if err != nil {
		return Curtain{}, err
	}
	p := in.K * in.Thickness * math.Sin(in.Slope)
	f := p * in.Length
	return Curtain{PerMetre: p, Flow: f, Low: f / tenfold, High: f * tenfold}, nil
}

// CurtainCheck compares the flow with the full pipe of the drain. Where the
// permeability was not measured, ten times the flow is asked for.
func CurtainCheck(in CurtainIn, measured bool, pipe Pipe) (check.Check, error) {
	r, err := CurtainFlow(in)
	if err != nil {
		return check.Check{}, err
	}
	full, err := pipe.Full()
	if err != nil {
		return check.Check{}, limit.In("pipe", err)
	}
	c := check.Check{ID: "drain-curtain", Title: "Drain across the slope", Part: "curtain drain", Method: "Darcy along a sloping bed", Source: srcCurtain + "; " + srcFlow,
		Assumptions: []string{"the trench reaches down into the tight layer", "even flow along the bed, its gradient that of the bed"},
		Validity:    "Steady seepage; not a spring or a burst of surface water."}
	per := q.Of("q'", r.PerMetre, q.LineFlow)
	c.Working = append(c.Working,
		check.Step("Flow along the trench", "q' = K·D·sin β", srcCurtain, per, q.Of("K", in.K, q.Permeability), q.Of("D", in.Thickness, q.Length), q.Of("β", in.Slope, q.Angle)),
		check.Step("Flow", "Q = q'·L", srcCurtain, q.Of("Q", r.Flow, q.Flow), per, q.Of("L", in.Length, q.Length)),
		check.Step("With a tenth of the permeability", "Q/10", srcCurtain, q.Of("Qlow", r.Low, q.Flow)),
		check.Step("With ten times the permeability", "10·Q", srcCurtain, q.Of("Qhigh", r.High, q.Flow)))
	demand := q.Of("Qhigh", r.High, q.Flow)
	if measured {
		demand = q.Of("Q", r.Flow, q.Flow)
		c.Assumptions = append(c.Assumptions, "the permeability was measured")
	}
	bore := 0.0
	if bore, err = BoreFor(demand.Val, pipe.N, pipe.Fall); err != nil {
		return check.Check{}, err
	}
	govern(&c, []condition{{text: "Pipe of the drain", formula: "r = " + demand.Sym + "/Qf", src: srcFlow, demand: demand, capacity: q.Of("Qf", full.Flow, q.Flow),
		remedy: "a bore of {0}", remedyQ: q.Of("D", bore, q.Thickness)}})
	return c, nil
}
