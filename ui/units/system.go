// Package units is the one place where numbers meet their units: what a
// person types becomes an SI value here, and an SI value becomes text here.
// It draws nothing and knows no toolkit.
package units

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// System is the system of units that a person reads and types.
type System int

// The two systems.
const (
	Metric System = iota // m, mm, kN, kPa
	US                   // feet and inches, lb, psf
)

// Of returns the system that a project file names; an empty or unknown name is
// Metric, as Validate has reported it already.
func Of(name string) System {
	if name == model.US {
		return US
	}
	return Metric
}

// String is the name that a project file holds.
func (s System) String() string {
	if s == US {
		return model.US
	}
	return model.Metric
}

// Exact conversions (international foot and pound; standard gravity).
const (
	foot  = 0.3048
	inch  = foot / 12
	pound = 0.45359237 * 9.80665 / 1000 // kN
	kip   = 1000 * pound
	psf   = pound / (foot * foot) // kPa
	pcf   = psf / foot            // kN/m3

	gallon    = 231 * inch * inch * inch // m3, of the United States
	degF      = 5.0 / 9                  // K
	zeroF     = -32 * degF               // °C
	ounce     = 0.45359237 / 16          // kg
	btu       = 1055.05585262            // J, of the international table
	conductUS = btu / hour / foot / degF // W/mK of 1 Btu/h·ft·°F

	minute = 60.0
	hour   = 3600.0
	day    = 24 * hour
)

// unit is one unit of a kind with its size in SI and how it is written.
type unit struct {
	name   string
	size   float64 // SI value of one unit
	digits int     // decimals when shown
}

// zeroOf is the SI value of the zero of the unit of a kind: other than 0 for
// °F alone.
func zeroOf(kind quantity.Kind, sys System) float64 {
	if kind == quantity.Temperature && sys == US {
		return zeroF
	}
	return 0
}

// shown holds the unit in which each kind is shown and a bare number read.
var shown = map[quantity.Kind][2]unit{
	quantity.None:           {{"", 1, 3}, {"", 1, 3}},
	quantity.Length:         {{"m", 1, 2}, {"ft", foot, 2}},
	quantity.Thickness:      {{"mm", 1e-3, 1}, {"in", inch, 3}},
	quantity.Area:           {{"m²", 1, 2}, {"ft²", foot * foot, 1}},
	quantity.Volume:         {{"m³", 1, 2}, {"yd³", 27 * foot * foot * foot, 1}},
	quantity.Force:          {{"kN", 1, 1}, {"lb", pound, 0}},
	quantity.LineLoad:       {{"kN/m", 1, 2}, {"lb/ft", pound / foot, 0}},
	quantity.Moment:         {{"kNm", 1, 2}, {"ft-lb", pound * foot, 0}},
	quantity.LineMoment:     {{"kNm/m", 1, 2}, {"ft-lb/ft", pound, 0}},
	quantity.Pressure:       {{"kPa", 1, 1}, {"psf", psf, 0}},
	quantity.Stress:         {{"MPa", 1000, 0}, {"ksi", kip / (inch * inch), 1}},
	quantity.UnitWeight:     {{"kN/m³", 1, 1}, {"pcf", pcf, 0}},
	quantity.Angle:          {{"°", math.Pi / 180, 1}, {"°", math.Pi / 180, 1}},
	quantity.Slope:          {{"H:V", 1, 2}, {"H:V", 1, 2}},
	quantity.Gradient:       {{"%", 0.01, 1}, {"%", 0.01, 1}},
	quantity.Ratio:          {{"", 1, 2}, {"", 1, 2}},
	quantity.Factor:         {{"", 1, 2}, {"", 1, 2}},
	quantity.Mass:           {{"kg", 1e-3, 0}, {"lb", 0.45359237e-3, 0}},
	quantity.Modulus:        {{"cm³/m", 1e-6, 1}, {"in³/ft", inch * inch * inch / foot, 3}},
	quantity.Inertia:        {{"cm⁴/m", 1e-8, 1}, {"in⁴/ft", inch * inch * inch * inch / foot, 3}},
	quantity.SectionModulus: {{"cm³", 1e-6, 1}, {"in³", inch * inch * inch, 3}},
	quantity.SecondMoment:   {{"cm⁴", 1e-8, 1}, {"in⁴", inch * inch * inch * inch, 3}},
	quantity.SheetArea:      {{"cm²/m", 1e-4, 2}, {"in²/ft", inch * inch / foot, 3}},
	quantity.Years:          {{"years", 1, 1}, {"years", 1, 1}},
	quantity.Hours:          {{"h", 1, 1}, {"h", 1, 1}},
	quantity.Stiffness:      {{"kNm²/m", 1, 2}, {"kip-in²/ft", kip * inch * inch / foot, 1}},
	quantity.Flow:           {{"L/min", 1e-3 / minute, 1}, {"gpm", gallon / minute, 1}},
	quantity.LineFlow:       {{"L/min/m", 1e-3 / minute, 2}, {"gpm/ft", gallon / minute / foot, 2}},
	quantity.Seep:           {{"L/h/m", 1e-3 / hour, 1}, {"gph/ft", gallon / hour / foot, 2}},
	quantity.Velocity:       {{"m/s", 1, 2}, {"ft/s", foot, 2}},
	quantity.Permeability:   {{"m/s", 1, 3}, {"ft/day", foot / day, 3}},
	quantity.Rate:           {{"mm/h", 1e-3 / hour, 1}, {"in/h", inch / hour, 2}},
	quantity.Permittivity:   {{"/s", 1, 2}, {"/s", 1, 2}},
	quantity.Duration:       {{"min", minute, 1}, {"min", minute, 1}},
	quantity.Power:          {{"W", 1, 0}, {"W", 1, 0}},
	quantity.Energy:         {{"Wh", 1, 0}, {"Wh", 1, 0}},
	quantity.Grain:          {{"mm", 1, 2}, {"mm", 1, 2}},
	quantity.Temperature:    {{"°C", 1, 1}, {"°F", degF, 1}},
	quantity.Warmth:         {{"K", 1, 1}, {"°F", degF, 1}},
	quantity.FrostIndex:     {{"°C·days", 1, 0}, {"°F·days", degF, 0}},
	quantity.Conductivity:   {{"W/mK", 1, 3}, {"Btu/h·ft·°F", conductUS, 3}},
	quantity.Insulation:     {{"m²K/W", 1, 2}, {"ft²·h·°F/Btu", foot / conductUS, 1}},
	quantity.HeatLoss:       {{"W/K", 1, 1}, {"Btu/h·°F", conductUS * foot, 1}},
	quantity.HeatFlow:       {{"W/m²K", 1, 3}, {"Btu/h·ft²·°F", conductUS / foot, 3}},
	quantity.Fusion:         {{"MJ/m³", 1e6, 1}, {"Btu/ft³", btu / (foot * foot * foot), 0}},
	quantity.Share:          {{"%", 0.01, 1}, {"%", 0.01, 1}},
	quantity.VapourPressure: {{"Pa", 1, 0}, {"Pa", 1, 0}},
	quantity.VapourFlow:     {{"g/m²/day", 1e-3 / day, 2}, {"g/ft²/day", 1e-3 / day / (foot * foot), 2}},
	quantity.Moisture:       {{"kg/h", 1 / hour, 3}, {"lb/h", 0.45359237 / hour, 3}},
	quantity.Humidity:       {{"g/m³", 1e-3, 2}, {"g/m³", 1e-3, 2}},
	quantity.AirFlow:        {{"L/s", 1e-3, 1}, {"cfm", foot * foot * foot / minute, 1}},
	quantity.Gathered:       {{"g/m²", 1e-3, 0}, {"oz/ft²", ounce / (foot * foot), 2}},
}

// Unit is the unit in which values of a kind are shown and in which a bare
// number is read; empty for pure numbers.
func Unit(kind quantity.Kind, sys System) string { return of(kind, sys).name }

func of(kind quantity.Kind, sys System) unit {
	u, ok := shown[kind]
	if !ok {
		panic("units: no unit for the kind of quantity")
	}
	return u[sys]
}
