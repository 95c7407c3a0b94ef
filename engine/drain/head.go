package drain

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	srcHW   = "Hazen-Williams (memory; the metric and US forms agree within 2 %, derived)"
	srcDW   = "Darcy-Weisbach with Colebrook's f (memory)"
	srcHead = "static lift, friction and K·V²/2g (memory)"
)

// Riser is the pipe from a pump to its free outlet.
type Riser struct {
	Flow      float64 // m3/s
	Bore      float64 // m
	Length    float64 // m
	C         float64 // Hazen-Williams
	Roughness float64 // m
	Minor     float64 // sum of K of bends, valves and the outlet
	Static    float64 // lift from the lowest water level to the outlet, m
}

// Head is what the pump must lift against.
type Head struct {
	Velocity      float64 // m/s
	Reynolds      float64
	HazenWilliams float64 // friction, m
	Colebrook     float64 // friction, m
	Minor         float64 // m
	Total         float64 // with the larger friction, m
	Power         float64 // of the water, W
}

func (r *Riser) validate() error {
	return limit.First(
		limit.Within("flow", r.Flow, leastPump, mostPump, q.Flow),
		limit.Within("bore", r.Bore, 0.01, 1, q.Thickness),
		limit.Within("length", r.Length, 0, 5000, q.Length),
		limit.Within("c", r.C, 60, 160, q.None),
		limit.Within("roughness", r.Roughness, 0, r.Bore/20, q.Thickness),
		limit.Within("minor", r.Minor, 0, 100, q.None),
		limit.Within("static", r.Static, 0, 100, q.Length))
}

// Lift works out the head on a pump. Friction is found by two laws and the
// larger counts.
func Lift(r Riser) (Head, error) {
	if err := r.validate(); err != nil {
		return Head{}, err
	}
	h := Head{Velocity: r.Flow / (math.Pi * r.Bore * r.Bore / 4)}
	h.Reynolds = h.Velocity * r.Bore / nu10
	v2 := h.Velocity * h.Velocity / (2 * gravity)
	h.HazenWilliams = 10.67 * r.Length * math.Pow(r.Flow/r.C, 1.852) / math.Pow(r.Bore, 4.87)
	h.Colebrook = Friction(h.Reynolds, r.Roughness/r.Bore) * r.Length / r.Bore * v2
	h.Minor = r.Minor * v2
	h.Total = r.Static + math.Max(h.HazenWilliams, h.Colebrook) + h.Minor
	h.Power = density * gravity * r.Flow * h.Total
	return h, nil
}

// laminar is the Reynolds number below which flow in a pipe is laminar.
const laminar = 2300

// Friction is Darcy's factor f: 64/Re below 2300, above by Colebrook's
// equation for a roughness over bore. Between 2300 and 4000, where a pipe may
// do either, that is the larger.
func Friction(re, rough float64) float64 {
	if re < laminar {
		return 64 / re
	}
	// Newton on x = 1/√f; the equation is convex and this start converges.
	x := -2 * math.Log10(rough/3.7+5.74/math.Pow(re, 0.9))
	for range 20 {
		a := rough/3.7 + 2.51*x/re
		g := x + 2*math.Log10(a)
		slope := 1 + 2/math.Ln10*2.51/re/a
		x -= g / slope
	}
	return 1 / (x * x)
}

// LiftCheck compares the head with the one that the pump gives at this flow.
func LiftCheck(r Riser, pump float64) (check.Check, error) {
	h, err := Lift(r)
	if err := limit.First(err, limit.Within("pump head", pump, 0.1, 200, q.Length)); err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "pump-head", Title: "Head of the pump", Part: "sump", Method: "Static lift and losses", Source: srcHead + "; " + srcHW + "; " + srcDW,
		Assumptions: []string{"water of " + q.Brief.Text(10, q.Temperature) + ", pipe full, free outlet", "the head of the pump is read off its own curve at this flow"},
		Validity:    "Hazen-Williams: turbulent flow of water."}
	if h.Velocity > 3 {
		c.Validity += " So fast a flow needs a wider pipe."
	}
	v := q.Of("V", h.Velocity, q.Velocity)
	flow, bore, length := q.Of("Q", r.Flow, q.Flow), q.Of("d", r.Bore, q.Thickness), q.Of("L", r.Length, q.Length)
	h1, h2, hm := q.Of("h1", h.HazenWilliams, q.Length), q.Of("h2", h.Colebrook, q.Length), q.Of("hm", h.Minor, q.Length)
	total := q.Of("H", h.Total, q.Length)
	c.Working = append(c.Working,
		check.Step("Velocity", "V = 4·Q/(π·d²)", srcHead, v, flow, bore),
		check.Step("Friction, Hazen-Williams", "h1 = 10.67·L·Q^1.852/(C^1.852·d^4.87)", srcHW, h1, length, q.Of("C", r.C, q.None), flow, bore),
		check.Step("Friction, Darcy-Weisbach", "h2 = f·(L/d)·V²/(2·g)", srcDW, h2, q.Of("k", r.Roughness, q.Thickness), length, bore, v),
		check.Step("Bends, valves, outlet", "hm = ΣK·V²/(2·g)", srcHead, hm, q.Of("ΣK", r.Minor, q.None), v),
		check.Step("Head", "H = hs + larger of h1 and h2 + hm", srcHead, total, q.Of("hs", r.Static, q.Length), h1, h2, hm),
		check.Step("Power of the water", "P = ρ·g·Q·H", srcHead, q.Of("P", h.Power, q.Power), flow, total))
	govern(&c, []condition{{text: "Head", formula: "r = H/Hp", src: srcHead, demand: total, capacity: q.Of("Hp", pump, q.Length),
		remedy: "a pump that gives {0} at this flow, or a wider pipe", remedyQ: total}})
	return c, nil
}
