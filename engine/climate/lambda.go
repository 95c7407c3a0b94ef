package climate

import (
	"math"

	"hillset/engine/bisect"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Lambda is the factor on Stefan's depth of frost for the heat that soil gives
// off as it cools, 0 to 1. alpha is the mean temperature of the year above
// freezing over the mean temperature of the surface below freezing in the frost
// season; mu is that temperature of the surface times heat capacity over latent
// heat. The exact solution of Neumann with equal properties on both sides
// (derived; checked by enthalpy finite differences).
func Lambda(alpha, mu float64) (float64, error) {
	err := limit.First(
		limit.Within("alpha", alpha, 0, 20, q.None),
		limit.Within("mu", mu, 1e-4, 10, q.None))
	if err != nil {
		return 0, err
	}
	// times erf and erfc, so that nothing divides by zero or overflows
	front := bisect.Rising(1e-9, 5, func(x float64) float64 {
		e, ec := math.Erf(x), math.Erfc(x)
		return e*ec*math.SqrtPi*x/mu - math.Exp(-x*x)*(ec-alpha*e)
	})
	return front * math.Sqrt(2/mu), nil
}
