package units

import (
	"math"

	"hillset/engine/quantity"
)

const (
	yard  = 3 * foot
	gAccl = 9.80665 // m/s2, standard gravity: turns a density into a unit weight
)

// names holds, for each kind, what units may be typed and their size in SI.
// Powers are written plainly: m2 for m².
var names = map[quantity.Kind]map[string]float64{
	quantity.None:   {"": 1, "%": 0.01},
	quantity.Ratio:  {"": 1, "%": 0.01},
	quantity.Factor: {"": 1},
	quantity.Area: {"m2": 1, "cm2": 1e-4, "mm2": 1e-6, "ft2": foot * foot, "sqft": foot * foot, "sf": foot * foot,
		"in2": inch * inch, "yd2": yard * yard},
	quantity.Volume: {"m3": 1, "l": 1e-3, "ft3": foot * foot * foot, "cf": foot * foot * foot,
		"yd3": yard * yard * yard, "cy": yard * yard * yard},
	quantity.Force:    {"kn": 1, "n": 1e-3, "mn": 1e3, "lb": pound, "lbs": pound, "lbf": pound, "kip": kip, "kips": kip},
	quantity.LineLoad: {"kn/m": 1, "n/m": 1e-3, "n/mm": 1, "lb/ft": pound / foot, "plf": pound / foot, "kip/ft": kip / foot, "klf": kip / foot},
	quantity.Moment: {"knm": 1, "kn-m": 1, "nm": 1e-3, "n-m": 1e-3, "ft-lb": pound * foot, "lb-ft": pound * foot, "lbft": pound * foot,
		"in-lb": pound * inch, "lb-in": pound * inch, "kip-ft": kip * foot, "ft-kip": kip * foot, "kip-in": kip * inch},
	quantity.LineMoment: {"knm/m": 1, "kn-m/m": 1, "nm/m": 1e-3, "ft-lb/ft": pound, "lb-ft/ft": pound, "in-lb/ft": pound / 12, "kip-ft/ft": kip},
	quantity.Pressure: {"kpa": 1, "pa": 1e-3, "mpa": 1e3, "kn/m2": 1, "n/m2": 1e-3, "psf": psf, "lb/ft2": psf,
		"ksf": 1000 * psf, "psi": 144 * psf, "tsf": 2000 * psf},
	quantity.Stress: {"mpa": 1e3, "n/mm2": 1e3, "kpa": 1, "kn/m2": 1, "gpa": 1e6, "psi": 144 * psf, "ksi": 144e3 * psf, "psf": psf},
	quantity.UnitWeight: {"kn/m3": 1, "n/m3": 1e-3, "kpa/m": 1, "pcf": pcf, "lb/ft3": pcf, "psf/ft": pcf, "lb/yd3": pcf / 27,
		"kg/m3": gAccl / 1000, "t/m3": gAccl},
	quantity.Mass:           {"kg": 1e-3, "t": 1, "lb": 0.45359237e-3, "lbs": 0.45359237e-3},
	quantity.Modulus:        {"cm3/m": 1e-6, "mm3/m": 1e-9, "mm3/mm": 1e-6, "in3/ft": inch * inch * inch / foot},
	quantity.Inertia:        {"cm4/m": 1e-8, "mm4/m": 1e-12, "mm4/mm": 1e-9, "in4/ft": inch * inch * inch * inch / foot},
	quantity.SectionModulus: {"cm3": 1e-6, "mm3": 1e-9, "in3": inch * inch * inch},
	quantity.SecondMoment:   {"cm4": 1e-8, "mm4": 1e-12, "in4": inch * inch * inch * inch},
	quantity.SheetArea:      {"cm2/m": 1e-4, "mm2/m": 1e-6, "mm2/mm": 1e-3, "in2/ft": inch * inch / foot},
	quantity.Stiffness:      {"knm2/m": 1, "kn-m2/m": 1, "kip-in2/ft": kip * inch * inch / foot},
	quantity.Years:          {"years": 1, "year": 1, "yrs": 1, "yr": 1, "a": 1},
	quantity.Hours:          {"h": 1, "hr": 1, "hrs": 1, "hours": 1, "hour": 1, "min": 1.0 / 60, "days": 24, "day": 24, "d": 24},
	quantity.Angle: {"°": math.Pi / 180, "deg": math.Pi / 180, "degrees": math.Pi / 180, "degree": math.Pi / 180,
		"rad": 1, "gon": math.Pi / 200},
	quantity.Flow: {"l/min": 1e-3 / minute, "l/s": 1e-3, "l/h": 1e-3 / hour, "l/day": 1e-3 / day, "m3/s": 1, "m3/h": 1 / hour, "m3/day": 1 / day,
		"gpm": gallon / minute, "gph": gallon / hour, "gpd": gallon / day, "cfs": foot * foot * foot, "ft3/s": foot * foot * foot},
	quantity.LineFlow: {"l/min/m": 1e-3 / minute, "l/s/m": 1e-3, "l/h/m": 1e-3 / hour, "m2/s": 1, "m3/s/m": 1, "gpm/ft": gallon / minute / foot,
		"cfs/ft": foot * foot},
	quantity.Seep: {"l/h/m": 1e-3 / hour, "l/min/m": 1e-3 / minute, "l/day/m": 1e-3 / day, "m2/s": 1, "m3/s/m": 1, "gph/ft": gallon / hour / foot,
		"gpm/ft": gallon / minute / foot},
	quantity.Velocity:     speeds,
	quantity.Permeability: speeds,
	quantity.Rate: {"mm/h": 1e-3 / hour, "mm/hr": 1e-3 / hour, "cm/h": 1e-2 / hour, "m/h": 1 / hour, "mm/day": 1e-3 / day, "m/s": 1,
		"in/h": inch / hour, "in/hr": inch / hour, "in/day": inch / day, "ft/h": foot / hour},
	quantity.Permittivity: {"/s": 1, "/sec": 1},
	quantity.Duration:     {"min": minute, "s": 1, "sec": 1, "h": hour, "hr": hour, "hours": hour, "hour": hour, "days": day, "day": day},
	quantity.Power:        {"w": 1, "kw": 1e3, "hp": 550 * pound * foot * 1e3},
	quantity.Energy:       {"wh": 1, "kwh": 1e3},
	quantity.Grain:        {"mm": 1, "cm": 10, "m": 1e3, "in": inch * 1e3, `"`: inch * 1e3, "inch": inch * 1e3, "inches": inch * 1e3},
	quantity.Temperature:  {"°c": 1, "c": 1, "°f": degF, "f": degF},
	quantity.Warmth:       {"k": 1, "°c": 1, "c": 1, "°f": degF, "f": degF},
	quantity.FrostIndex: {"°c-days": 1, "°c-day": 1, "°c-d": 1, "c-days": 1, "c-d": 1, "k-d": 1,
		"°f-days": degF, "°f-day": degF, "°f-d": degF, "f-days": degF, "f-d": degF},
	quantity.Conductivity:   {"w/mk": 1, "w/m-k": 1, "btu/h-ft-°f": conductUS, "btu/hr-ft-f": conductUS, "btu-in/h-ft2-°f": conductUS / 12},
	quantity.Insulation:     {"m2k/w": 1, "m2-k/w": 1, "ft2-h-°f/btu": foot / conductUS, "r": foot / conductUS},
	quantity.HeatLoss:       {"w/k": 1, "btu/h-°f": conductUS * foot},
	quantity.HeatFlow:       {"w/m2k": 1, "w/m2-k": 1, "btu/h-ft2-°f": conductUS / foot},
	quantity.Fusion:         {"mj/m3": 1e6, "j/m3": 1, "btu/ft3": btu / (foot * foot * foot)},
	quantity.Share:          {"%": 0.01},
	quantity.VapourPressure: {"pa": 1, "kpa": 1e3},
	quantity.VapourFlow:     {"g/m2/day": 1e-3 / day, "g/m2/d": 1e-3 / day, "g/ft2/day": 1e-3 / day / (foot * foot)},
	quantity.Moisture:       {"kg/h": 1 / hour, "g/h": 1e-3 / hour, "lb/h": 0.45359237 / hour},
	quantity.Humidity:       {"g/m3": 1e-3, "kg/m3": 1},
	quantity.Gathered:       {"g/m2": 1e-3, "kg/m2": 1, "oz/ft2": ounce / (foot * foot)},
	quantity.AirFlow: {"l/s": 1e-3, "l/min": 1e-3 / minute, "m3/h": 1 / hour, "m3/s": 1, "cfm": foot * foot * foot / minute,
		"ft3/min": foot * foot * foot / minute},
	quantity.Length:    lengths,
	quantity.Thickness: lengths,
	quantity.Slope:     {},
	quantity.Gradient:  {},
}

var lengths = map[string]float64{
	"m": 1, "meter": 1, "meters": 1, "metre": 1, "metres": 1, "cm": 0.01, "mm": 0.001, "km": 1000,
	"'": foot, "ft": foot, "feet": foot, "foot": foot, `"`: inch, "in": inch, "inch": inch, "inches": inch, "yd": yard, "mil": inch / 1000,
}

var speeds = map[string]float64{
	"m/s": 1, "cm/s": 0.01, "mm/s": 0.001, "m/h": 1 / hour, "m/day": 1 / day, "m/d": 1 / day,
	"ft/s": foot, "fps": foot, "ft/min": foot / minute, "ft/day": foot / day, "ft/d": foot / day,
}

// kindNames says in words what each kind is, for messages.
var kindNames = map[quantity.Kind]string{
	quantity.None: "a pure number", quantity.Length: "length", quantity.Thickness: "thickness", quantity.Area: "area",
	quantity.Volume: "volume", quantity.Force: "force", quantity.LineLoad: "load per length", quantity.Moment: "moment",
	quantity.LineMoment: "moment per length", quantity.Pressure: "pressure", quantity.Stress: "stress",
	quantity.UnitWeight: "unit weight", quantity.Angle: "angle", quantity.Slope: "slope", quantity.Gradient: "gradient",
	quantity.Ratio: "ratio", quantity.Factor: "factor", quantity.Mass: "mass", quantity.Modulus: "section modulus per length",
	quantity.Inertia: "second moment per length", quantity.SectionModulus: "section modulus", quantity.SecondMoment: "second moment of area",
	quantity.SheetArea: "area per length", quantity.Years: "years", quantity.Hours: "hours", quantity.Stiffness: "bending stiffness",
	quantity.Flow: "flow", quantity.LineFlow: "flow per length", quantity.Seep: "seepage per length", quantity.Velocity: "velocity", quantity.Permeability: "permeability",
	quantity.Rate: "rate of rain or rise", quantity.Permittivity: "permittivity", quantity.Duration: "time", quantity.Power: "power",
	quantity.Energy: "energy", quantity.Grain: "grain size", quantity.Temperature: "temperature", quantity.Warmth: "difference of temperature",
	quantity.FrostIndex: "frost of a winter", quantity.Conductivity: "conductivity of heat", quantity.Insulation: "resistance to heat",
	quantity.HeatLoss: "loss of heat", quantity.HeatFlow: "loss of heat per area", quantity.Fusion: "heat per volume", quantity.Share: "a share",
	quantity.VapourPressure: "pressure of vapour", quantity.VapourFlow: "vapour through an area", quantity.Moisture: "moisture per time",
	quantity.Humidity: "water in air", quantity.AirFlow: "flow of air", quantity.Gathered: "water on an area",
}

// examples shows how a value of a kind may be typed.
var examples = map[quantity.Kind]string{
	quantity.Length: `1.93 m, 193 cm, 6'4", 6' 4 1/2" or 76"`, quantity.Thickness: `1.6 mm, 1/16" or 0.063 in`,
	quantity.Area: "12.5 m2 or 134 ft2", quantity.Volume: "3.5 m3 or 4.6 yd3", quantity.Force: "12 kN, 2700 lb or 2.7 kip",
	quantity.LineLoad: "15 kN/m or 1030 lb/ft", quantity.Moment: "5 kNm or 3690 ft-lb", quantity.LineMoment: "5 kNm/m or 1120 ft-lb/ft",
	quantity.Pressure: "15 kPa or 313 psf", quantity.Stress: "345 MPa or 50 ksi", quantity.UnitWeight: "19 kN/m3, 120 pcf or 60 psf/ft",
	quantity.Angle: "32, 32.5° or 60 %", quantity.Slope: "1.5:1 (horizontal to vertical), 1 in 2 or 34°",
	quantity.Gradient: "2 %, 1 in 50 or 1.1°", quantity.Mass: "2230 kg, 2.23 t or 4916 lb",
	quantity.Years: "25", quantity.Hours: "24 h or 10 days", quantity.Modulus: "57 cm3/m", quantity.Inertia: "100 cm4/m",
	quantity.SectionModulus: "28 cm3 or 1.7 in3", quantity.SecondMoment: "106 cm4 or 2.5 in4", quantity.SheetArea: "20 cm2/m",
	quantity.Flow: "8 L/min, 0.5 L/s or 2 gpm", quantity.LineFlow: "0.11 L/min/m or 0.01 gpm/ft", quantity.Seep: "8.5 L/h/m or 0.68 gph/ft", quantity.Velocity: "0.43 m/s or 1.4 ft/s",
	quantity.Permeability: "2e-5 m/s, 0.002 cm/s or 5.7 ft/day", quantity.Rate: "75 mm/h or 3 in/h", quantity.Permittivity: "0.2 /s",
	quantity.Duration: "10 min or 2 h", quantity.Power: "80 W or 0.1 hp", quantity.Energy: "391 Wh or 2.8 kWh", quantity.Grain: "0.43 mm or 3/4 in",
	quantity.Temperature: "8 °C or 46 °F", quantity.Warmth: "5 K or 9 °F", quantity.FrostIndex: "450 °C·days or 810 °F·days",
	quantity.Conductivity: "0.026 W/mK or 0.015 Btu/h·ft·°F", quantity.Insulation: "1.9 m2K/W or 11 ft2·h·°F/Btu", quantity.HeatLoss: "25 W/K",
	quantity.HeatFlow: "0.7 W/m2K", quantity.Fusion: "80 MJ/m3 or 2160 Btu/ft3", quantity.Share: "75 %", quantity.VapourPressure: "1276 Pa",
	quantity.VapourFlow: "2.7 g/m2/day", quantity.Moisture: "0.27 kg/h or 0.59 lb/h", quantity.Humidity: "7.4 g/m3", quantity.AirFlow: "10 L/s or 21 cfm", quantity.Gathered: "80 g/m2 or 0.26 oz/ft2",
	quantity.Stiffness: "200 kNm2/m", quantity.None: "1.25", quantity.Ratio: "0.85", quantity.Factor: "1.5",
}

// otherKind finds a kind that knows the unit, to say what was typed instead.
func otherKind(name string) (string, bool) {
	for k := quantity.None; k <= quantity.Last; k++ {
		if _, ok := names[k][name]; ok && name != "" {
			return kindNames[k], true
		}
	}
	return "", false
}
