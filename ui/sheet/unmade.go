package sheet

import (
	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/geom"
	"hillset/ui/units"
)

// Unmade says why a check was not made, and what is asked for where that much is
// known: how much water is to be pumped, though nobody has named a pump.
func Unmade(c *check.Check, sys units.System) string {
	why := units.Fill(c.Missing, c.MissingQ, sys)
	if why == "" {
		why = "no value was found"
	}
	if Asked(c) {
		why += "; asked for: " + units.FormatQ(c.Demand, sys)
	}
	return why
}

// Asked tells whether what a check asks for is known, made or not.
func Asked(c *check.Check) bool {
	return c.Demand.Kind != quantity.None && geom.Finite(c.Demand.Val)
}
