package box

import (
	"hillset/engine/check"
	"hillset/engine/quantity"
)

// Sag is a deflection set against its span over a limit, of whatever material.
type Sag struct {
	ID, Title, Method string
	Source            string
	From              string  // where the limit comes from
	W                 float64 // m
	Span              float64 // m
	Limit             float64 // the span may sag by its length over this
}

const serviceSag = "Deflection under service loads"

// sheetSag sets the deflection of a sheet against its span over a limit.
func sheetSag(id, title string, w, span, limit float64, working ...check.Line) check.Check {
	return Sag{ID: id, Title: title, Method: serviceSag, Source: sheetSagSource, From: sheetSagSource, W: w, Span: span, Limit: limit}.Check(working...)
}

// SagLimitRange refuses what is no limit of a deflection.
func SagLimitRange(limit float64) error {
	return quantity.Range("deflection limit L over", limit, minSagLimit, maxSagLimit)
}

// Check makes the check of a deflection under service loads: how it came about, and
// what is allowed.
func (s Sag) Check(working ...check.Line) check.Check {
	allowed := s.Span / s.Limit
	return check.Check{
		ID: s.ID, Title: s.Title, Method: s.Method, Source: s.Source,
		Demand: quantity.Of("w", s.W, quantity.Thickness), Capacity: quantity.Of("L/n", allowed, quantity.Thickness),
		Ratio: s.W / allowed, RatioLRFD: nan, Case: serviceCombo,
		Working: append(working, check.Line{
			Text: "Allowed deflection", Formula: "wa = L/n",
			Terms:  []quantity.Q{quantity.Of("L", s.Span, quantity.Length), quantity.Of("n", s.Limit, quantity.None)},
			Result: quantity.Of("wa", allowed, quantity.Thickness), Source: s.From,
		}),
	}
}
