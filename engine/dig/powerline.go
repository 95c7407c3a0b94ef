package dig

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// LineInput is a machine near an overhead line: its highest or nearest part.
type LineInput struct {
	Part      string
	KV        float64 // voltage between phases, kV
	LineLevel float64 // lowest level of the wires, sag included, m
	TipLevel  float64 // highest level that any part of the machine reaches, m
	Side      float64 // horizontal distance between that part and the nearest wire, m
	Crane     bool    // lifting with a crane; false for an excavator digging
}

// Clearance is the least distance to a line of so many kV, m: table A of 29
// CFR 1926.1408 for cranes (R21, verified), 10 ft and 0.4 in for every kV
// above 50 for excavators (R22, memory). Voltages that the table does not
// reach, and NaN, are errors.
func Clearance(kv float64, crane bool) (float64, error) {
	lines := tables.Default().PowerLines()
	if err := quantity.Range("line voltage, kV", kv, 0, lines[len(lines)-1].KV); err != nil {
		return 0, err
	}
	if !crane {
		return lineBase + linePerKV*math.Max(kv-lineBaseKV, 0), nil
	}
	for _, l := range lines {
		if kv <= l.KV {
			return l.Clearance, nil
		}
	}
	panic("dig: table of clearances does not reach its own end")
}

// PowerLineCheck checks the distance of a machine from an overhead line:
// Demand is the least distance, Capacity the straight distance found. Inside
// 20 ft it says so even where the limit is kept: the rule asks for measures
// there. A machine that reaches above the wires has some part level with them,
// so its distance is then the one to the side. A value out of range gives a check that was not made, naming it.
func PowerLineCheck(in LineInput) check.Check {
	const id, title = "power-line", "Distance from the overhead line"
	part := in.Part
	if part == "" {
		part = "machine beside the cut"
	}
	need, err := in.check()
	if err != nil {
		return check.Unchecked(id, title, part, err.Error())
	}
	up := math.Max(in.LineLevel-in.TipLevel, 0)
	have := math.Hypot(in.Side, up)
	c := check.Check{
		ID: id, Title: title, Part: part, Method: method, RatioLRFD: math.NaN(),
		Demand: quantity.Of("r,req", need, quantity.Length), Capacity: quantity.Of("r", have, quantity.Length),
		Ratio:       over(need, have, lengthTol),
		Source:      in.source(),
		Assumptions: []string{caution, "the line is live; wind and sag are in the levels given; the owner of the line is asked"},
	}
	if c.Ratio > 1 {
		c.Remedy, c.RemedyQ = "Keep every part of the machine {0} away from the wires, or have the line made dead", []quantity.Q{c.Demand}
	}
	c.Working = []check.Line{{
		Text: "Straight distance from the wire", Formula: "r = √(a² + Δz²)",
		Terms:  []quantity.Q{quantity.Of("a", in.Side, quantity.Length), quantity.Of("Δz", up, quantity.Length)},
		Result: c.Capacity, Source: "geometry",
	}, {
		Text: "Least distance at this voltage" + nearWords(have), Formula: "r ≥ r,req",
		Terms: []quantity.Q{c.Demand}, Result: quantity.Of("ratio", c.Ratio, quantity.Ratio), Source: c.Source,
	}}
	return c
}

// nearWords warns of the distance at which measures are asked for.
func nearWords(r float64) string {
	if exceeds(r, actWithin) {
		return ""
	}
	return "; inside " + length(actWithin) + ": a spotter, warning lines or a dead line are asked for before work goes on"
}

func (in LineInput) source() string {
	if in.Crane {
		return "29 CFR 1926.1408 table A (R21) [verified]; action distance of " + length(actWithin) + " [memory]"
	}
	return "29 CFR 1926.600(a)(6) (R22) [memory]; action distance of " + length(actWithin) + " [memory]"
}

func (in LineInput) check() (float64, error) {
	for _, f := range []struct {
		name string
		v    float64
	}{{"level of the line", in.LineLevel}, {"level of the machine", in.TipLevel}} {
		if err := quantity.Range(f.name, f.v, -1e4, 1e4); err != nil {
			return 0, err
		}
	}
	if err := quantity.Within("distance to the side", in.Side, 0, 1e4, quantity.Length); err != nil {
		return 0, err
	}
	return Clearance(in.KV, in.Crane)
}
