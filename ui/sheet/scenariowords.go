package sheet

import (
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// ScenarioHeads are the columns of the table of scenarios.
var ScenarioHeads = []string{"What happens", "Water at the box", "Floating", "Worst ratio", "Time to act"}

// ScenarioCells is one row of that table, in the order of the heads.
func ScenarioCells(s *assess.Scenario, r *assess.Result, sys units.System) []string {
	return []string{s.Name, scenarioWater(s, sys), scenarioFloat(s), scenarioWorst(s, r), scenarioHours(s)}
}

// scenarioWater says how high the water stands over the underside of the box.
func scenarioWater(s *assess.Scenario, sys units.System) string {
	text := scenarioLevel(s, sys)
	if s.Rough {
		text += ", less exact"
	}
	return text
}

func scenarioLevel(s *assess.Scenario, sys units.System) string {
	switch {
	case math.IsNaN(s.Above):
		return "not known"
	case math.IsInf(s.Above, -1):
		return "below the ground computed"
	case s.Above <= 0:
		return units.Format(-s.Above, quantity.Length, sys) + " below the underside"
	}
	return units.Format(s.Above, quantity.Length, sys) + " above the underside"
}

// scenarioFloat is the ratio of flotation.
func scenarioFloat(s *assess.Scenario) string {
	switch {
	case math.IsNaN(s.Float) || math.IsNaN(s.Worst):
		return "not checked"
	case s.Float == 0:
		return "no lift"
	}
	return FormatRatio(s.Float)
}

// scenarioWorst is the largest ratio with its check and part.
func scenarioWorst(s *assess.Scenario, r *assess.Result) string {
	if math.IsNaN(s.Worst) {
		return "not checked"
	}
	return FormatRatio(s.Worst) + ", " + lowerFirst(checkCalled(r, s.Check, s.Part))
}

// scenarioHours is the time until the water reaches the box, from the soonest.
func scenarioHours(s *assess.Scenario) string {
	switch {
	case math.IsNaN(s.Hours):
		return "not known"
	case math.IsInf(s.Hours, 1):
		return "never reaches it"
	}
	soon, late := lasting(s.Soonest), lasting(s.Hours)
	if soon == late {
		return late
	}
	return soon + " to " + late
}

// lasting is a time in hours, rounded down.
func lasting(h float64) string {
	switch {
	case h < 1:
		return units.Number(math.Floor(h*60), 0) + " min"
	case h < 48:
		return units.Number(math.Floor(h*10)/10, 1) + " h"
	case h >= 2*hoursAYear:
		return units.Number(math.Floor(h/hoursAYear), 0) + " years"
	}
	return units.Number(math.Floor(h/24*10)/10, 1) + " days"
}

const hoursAYear = 365.25 * 24

// ScenarioHeld says what the table counts.
const ScenarioHeld = "The finished stages that have water are run through the whole assessment with each state of the drains. Time to act is counted from when it begins until water reaches the underside of the box; it is rounded down; the shorter one counts ten times the permeability of the hill, where that was not measured. A dead pump is worked where the drain ends in a sump. In practice a drain clogs slowly: look at the outlet after rain."
