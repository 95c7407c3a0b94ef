package drain

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	srcCycle = "MIL-HDBK-1005/9A eq. 1-2, UFC 3-240-04A (verified)"
	srcStart = "at least 6 min below 37 kW: MIL-HDBK (verified); 10 to 15 min below 15 kW: EI 11C201 table 7-1 (verified); 10 min used"
)

// startEvery is the least time between two starts of a small pump, s.
const startEvery = 600.0

const (
	leastPump = 1e-6 // m3/s
	mostPump  = 1.0
)

// CycleTime is the time from one start of the pump to the next, s, for a live
// volume between the levels, m3, a pump rate and a smaller inflow, both m3/s:
// t = (V/D)·(1/(1 − Q/D) + D/Q).
func CycleTime(volume, rate, inflow float64) (float64, error) {
	err := limit.First(
		limit.Within("volume", volume, 1e-4, 100, q.Volume),
		limit.Within("rate", rate, leastPump, mostPump, q.Flow))
	if err != nil {
		return 0, err
	}
	if err := limit.Within("inflow", inflow, rate*1e-9, rate*(1-1e-9), q.Flow); err != nil {
		err.(*limit.Error).Why = "a pump that keeps up must pump more than comes in"
		return 0, err
	}
	return volume/(rate-inflow) + volume/inflow, nil
}

// LeastCycle is the shortest cycle that any inflow gives, at half the pump
// rate: 4 V/D, s.
func LeastCycle(volume, rate float64) (float64, error) {
	if err := limit.Within("rate", rate, leastPump, mostPump, q.Flow); err != nil {
		return 0, err
	}
	return CycleTime(volume, rate, rate/2)
}

// LiveVolume is the volume between the levels at which the pump starts no more
// often than every so many s: V = t D/4, m3.
func LiveVolume(cycle, rate float64) (float64, error) {
	err := limit.First(
		limit.Within("cycle", cycle, 1, 86400, q.Duration),
		limit.Within("rate", rate, leastPump, mostPump, q.Flow))
	return cycle * rate / 4, err
}

// LiveDepth is the depth between the levels in a round basin, m.
func LiveDepth(volume, diameter float64) (float64, error) {
	err := limit.First(
		limit.Within("volume", volume, 1e-4, 100, q.Volume),
		limit.Within("diameter", diameter, 0.1, 10, q.Length))
	return volume / (math.Pi * diameter * diameter / 4), err
}

// BasinDiameter is the least diameter of a round basin that holds a live
// volume, m3, in a depth, m.
func BasinDiameter(volume, depth float64) (float64, error) {
	err := limit.First(
		limit.Within("volume", volume, 1e-4, 100, q.Volume),
		limit.Within("depth", depth, 0.02, 10, q.Length))
	return math.Sqrt(4 * volume / (math.Pi * depth)), err
}

// SumpIn is a round basin with a pump that runs between two levels.
type SumpIn struct {
	Rate     float64 // of the pump at its head, m3/s
	Inflow   float64 // design inflow, m3/s
	Diameter float64 // m
	Live     float64 // depth between the levels, m
}

// SumpCheck compares the pump with the inflow and its starts with those that a
// small motor stands, at the inflow that starts it most often.
func SumpCheck(in SumpIn) (check.Check, error) {
	err := limit.First(
		limit.Within("rate", in.Rate, leastPump, mostPump, q.Flow),
		limit.Within("inflow", in.Inflow, 0, mostPump, q.Flow),
		limit.Within("diameter", in.Diameter, 0.1, 10, q.Length),
		limit.Within("live", in.Live, 0.02, 10, q.Length))
	if err != nil {
		return check.Check{}, err
	}
	volume := math.Pi * in.Diameter * in.Diameter / 4 * in.Live
	cycle, err := LeastCycle(volume, in.Rate)
	if err != nil {
		return check.Check{}, err
	}
	need := startEvery * in.Rate / 4
	deep := need / (math.Pi * in.Diameter * in.Diameter / 4)
	c := check.Check{ID: "sump", Title: "Sump and pump", Part: "sump", Method: "Cycle of the pump", Source: srcCycle + "; " + srcStart,
		Assumptions: []string{"one pump", "its rate is that at the head found", "a second pump or none: see what happens when it stops"},
		Validity:    "Pumps below 15 kW."}
	v, d := q.Of("V", volume, q.Volume), q.Of("D", in.Rate, q.Flow)
	c.Working = append(c.Working,
		check.Step("Live volume", "V = π·b²/4·h", srcCycle, v, q.Of("b", in.Diameter, q.Length), q.Of("h", in.Live, q.Length)),
		check.Step("Shortest cycle, at an inflow of half the pump", "t = 4·V/D", srcCycle, q.Of("t", cycle, q.Duration), v, d),
		check.Step("Live volume for the cycle asked for", "Vreq = treq·D/4", srcCycle, q.Of("Vreq", need, q.Volume), d))
	govern(&c, []condition{
		{text: "Inflow", formula: "r = Q/D", src: srcCycle, demand: q.Of("Q", in.Inflow, q.Flow), capacity: d,
			remedy: "a pump of {0} at its head", remedyQ: q.Of("D", in.Inflow, q.Flow)},
		{text: "Starts", formula: "r = treq/t", src: srcStart, demand: q.Of("treq", startEvery, q.Duration), capacity: q.Of("t", cycle, q.Duration),
			remedy: "{0} between the levels in this basin, or a wider one", remedyQ: q.Of("h", deep, q.Length)},
	})
	return c, nil
}
