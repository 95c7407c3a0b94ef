package drain

import (
	"fmt"
	"math"

	"hillset/engine/bisect"
	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	srcRise  = "dz/dt = Q/(n·A); z = H0·(1 − e^(−t/τ)) where the inflow falls to nothing at H0 (derived)"
	srcFloat = "weight against γw·h, no friction on the sides (derived)"
)

// Store is one layer of rock or fill that can still take water.
type Store struct {
	Top       float64 // level above the lowest water, m
	Area      float64 // plan area that fills, m2
	Drainable float64 // share of the volume that fills and drains, 0.26 to 0.40 for rock
}

// RiseIn is what happens when nothing takes the water away any more.
type RiseIn struct {
	Inflow float64 // at the lowest level, m3/s
	// Head is the level at which the inflow has fallen to nothing, in a
	// straight line, m; 0 means that it stays what it is.
	Head   float64
	Layers []Store // from below
}

func (in *RiseIn) validate() error {
	err := limit.First(
		limit.Within("inflow", in.Inflow, 0, mostPump, q.Flow),
		limit.Within("head", in.Head, 0, 50, q.Length))
	if err != nil {
		return err
	}
	if len(in.Layers) == 0 {
		return fmt.Errorf("layers: none given, at least one is needed")
	}
	last := 0.0
	for i, l := range in.Layers {
		err := limit.First(
			limit.Within("top", l.Top, last+1e-6, 50, q.Length),
			limit.Within("area", l.Area, 1e-3, 1e6, q.Area),
			limit.Within("drainable", l.Drainable, 0.001, 1, q.None))
		if err != nil {
			return limit.In(fmt.Sprintf("layers[%d]", i), err)
		}
		last = l.Top
	}
	return nil
}

// Top is the level up to which the layers reach, m.
func (in *RiseIn) Top() float64 { return in.Layers[len(in.Layers)-1].Top }

// Seconds is the time until the water reaches a level, s; +Inf where it never
// does. A level above the layers is refused.
func (in RiseIn) Seconds(level float64) (float64, error) {
	if err := in.validate(); err != nil {
		return 0, err
	}
	if err := limit.Within("level", level, 0, in.Top(), q.Length); err != nil {
		return 0, err
	}
	return in.seconds(level), nil
}

func (in *RiseIn) seconds(level float64) float64 {
	t, from := 0.0, 0.0
	for _, l := range in.Layers {
		if from >= level {
			break
		}
		to := math.Min(level, l.Top)
		t += in.fill(l.Area*l.Drainable, from, to)
		from = to
	}
	return t
}

// fill is the time to fill a store of a volume per metre from one level to
// another, s.
func (in *RiseIn) fill(volume, from, to float64) float64 {
	switch {
	case in.Inflow == 0:
		return math.Inf(1)
	case in.Head == 0:
		return volume * (to - from) / in.Inflow
	case to >= in.Head:
		return math.Inf(1)
	}
	return volume * in.Head / in.Inflow * math.Log((in.Head-from)/(in.Head-to))
}

// Level is where the water stands after a time, s, m. It stops at the top of
// the layers, beyond which nothing is known: full says so.
func (in RiseIn) Level(seconds float64) (level float64, full bool, err error) {
	if err := limit.First(in.validate(), limit.Within("time", seconds, 0, 1e10, q.Duration)); err != nil {
		return 0, false, err
	}
	if in.seconds(in.Top()) <= seconds {
		return in.Top(), true, nil
	}
	return bisect.Rising(0, in.Top(), func(z float64) float64 { return in.seconds(z) - seconds }), false, nil
}

// Speed is the rise at the start, m/s.
func (in RiseIn) Speed() (float64, error) {
	if err := in.validate(); err != nil {
		return 0, err
	}
	return in.Inflow / (in.Layers[0].Area * in.Layers[0].Drainable), nil
}

// FloatLevel is the water level above the underside at which a closed box of a
// weight (kN) on a plan area (m2), under a cover of soil (m, kN/m3), has a
// factor of safety against flotation: h = (W/A + γ·d)/(γw·FS). Once water
// stands over the roof the cover is lighter, which this does not see: a level
// above the height of the box, m, is refused.
func FloatLevel(weight, area, cover, gamma, height, factor float64) (float64, error) {
	err := limit.First(
		limit.Within("weight", weight, 0, 1e4, q.Force),
		limit.Within("area", area, 1, 1000, q.Area),
		limit.Within("cover", cover, 0, 10, q.Length),
		limit.Within("gamma", gamma, 0, 30, q.UnitWeight),
		limit.Within("height", height, 0.5, 10, q.Length),
		limit.Within("factor", factor, 1, 10, q.Factor))
	if err != nil {
		return 0, err
	}
	h := (weight/area + gamma*cover) / (gammaW * factor)
	if err := limit.Within("level", h, 0, height, q.Length); err != nil {
		err.(*limit.Error).Why = "the water would stand over the roof; the check of flotation covers that"
		return 0, err
	}
	return h, nil
}

// StopIn is a dead pump or a blocked drain, with the time that somebody needs
// to act.
type StopIn struct {
	RiseIn
	Floor    float64 // level of the floor above the lowest water, m
	Float    float64 // level at which the box no longer has its factor against flotation, m
	HasFloat bool
	Reaction float64 // h from the stop until water is taken away again
}

// reaches is the text of a time, or says that the level is never reached.
func reaches(seconds float64, text string) string {
	if math.IsInf(seconds, 1) {
		return text + ": the water does not rise so far"
	}
	return text
}

// StopCheck compares the hours until the water reaches the floor, and the
// level at which the box may float, with the time that somebody needs.
func StopCheck(in StopIn) (check.Check, error) {
	speed, err := in.Speed()
	if err := limit.First(err, limit.Within("reaction", in.Reaction, 0.1, 2000, q.Hours)); err != nil {
		return check.Check{}, err
	}
	tf, err := in.Seconds(in.Floor)
	if err != nil {
		return check.Check{}, limit.In("floor", err)
	}
	c := check.Check{ID: "pump-stops", Title: "When the pump stops", Part: "sump", Method: "Filling of the rock", Source: srcRise + "; " + srcFloat,
		Assumptions: []string{"nothing runs away", "the rock was drained down to the lowest level before", "the water level rises evenly under the whole box"},
		Validity:    "Inflow constant, or falling in a straight line with the level."}
	need := q.Of("treq", in.Reaction, q.Hours)
	hf := q.Of("tf", tf/3600, q.Hours)
	first := in.Layers[0]
	c.Working = append(c.Working,
		check.Step("Rise at the start", "v = Q/(n·A)", srcRise, q.Of("v", speed, q.Rate), q.Of("Q", in.Inflow, q.Flow), q.Of("n", first.Drainable, q.None), q.Of("A", first.Area, q.Area)),
		check.Step(reaches(tf, "Hours until the floor"), "t = Σ n·A·Δz/Q(z)", srcRise, hf, q.Of("z", in.Floor, q.Length)))
	if in.Head > 0 && in.Inflow > 0 {
		c.Working = append(c.Working, check.Step("Time constant of the first layer", "τ = n·A·H0/Q", srcRise,
			q.Of("τ", first.Drainable*first.Area*in.Head/in.Inflow/3600, q.Hours), q.Of("H0", in.Head, q.Length)))
	}
	const remedy = "a standby pump or a relief drain at a higher level, and an alarm at the lowest: the water must be taken away within {0}"
	conds := []condition{{text: "Floor", formula: "r = treq/tf", src: srcRise, demand: need, capacity: hf, remedy: remedy, remedyQ: hf}}
	if in.HasFloat {
		t, err := in.Seconds(in.Float)
		if err != nil {
			return check.Check{}, limit.In("float", err)
		}
		h := q.Of("tu", t/3600, q.Hours)
		c.Working = append(c.Working, check.Step(reaches(t, "Hours until the box may float"), "t = Σ n·A·Δz/Q(z)", srcRise, h, q.Of("z", in.Float, q.Length)))
		conds = append(conds, condition{text: "Flotation", formula: "r = treq/tu", src: srcFloat, demand: need, capacity: h, remedy: remedy, remedyQ: h})
	}
	govern(&c, conds)
	return c, nil
}
