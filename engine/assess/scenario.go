package assess

// Scenario is what water does to the box in service under one state of its
// drains, by the whole assessment.
type Scenario struct {
	// ID is one of "working", "half", "blocked", "pump", "storm",
	// "storm-blocked".
	ID, Name string
	// Level is the highest water at the box, and Above its height over the
	// underside, m: below zero where it stays under the box. NaN where it is not
	// known.
	Level, Above float64
	// Float is the ratio of the check of flotation: above 1 the box may float; 0
	// where no water stands above the underside.
	Float float64
	// Worst is the largest ratio of all checks of the box in service, Check its
	// id and Part the part.
	Worst       float64
	Check, Part string
	Inflow      float64 // m3/s, what the drains still take
	// Hours is the time from when this begins until the water reaches the
	// underside of the box: +Inf where it never does, NaN where it is not known.
	// Soonest is the same with ten times the permeability of the hill, where that
	// was not measured; else it is Hours.
	Hours, Soonest float64
	// Rough says that the water hangs on a flow that is less exact.
	Rough bool
	Why   string // why something is not known; empty where all is
}
