package quantity

import (
	"strconv"
	"strings"
)

// Manner is how a value in a text is written.
type Manner int

// The manners of a value in a text.
const (
	Shown Manner = iota // as values of results are
	Brief               // the same without zeros at the end: a rule, not a measurement
	Typed               // as in a field: nothing of it is lost
	Floor               // the upper end of a range: typed, and rounded down where it is no round number
	Ceil                // the lower end of a range: typed, and rounded up
	Level               // a level over the datum, as read off a staff
)

var manners = [...]string{Shown: "", Brief: " brief", Typed: " typed", Floor: " down", Ceil: " up", Level: " level"}

// names are what the kinds are called in a text.
var names = [...]string{None: "number", Length: "length", Thickness: "thickness", Area: "area", Volume: "volume", Force: "force",
	LineLoad: "line-load", Moment: "moment", LineMoment: "line-moment", Pressure: "pressure", Stress: "stress", UnitWeight: "unit-weight",
	Angle: "angle", Slope: "slope", Gradient: "gradient", Ratio: "ratio", Factor: "factor", Mass: "mass", Modulus: "modulus", Inertia: "inertia",
	SectionModulus: "section-modulus", SecondMoment: "second-moment", SheetArea: "sheet-area", Years: "years", Hours: "hours", Stiffness: "stiffness",
	Flow: "flow", LineFlow: "line-flow", Seep: "seep", Velocity: "velocity", Permeability: "permeability", Rate: "rate", Permittivity: "permittivity",
	Duration: "duration", Power: "power", Energy: "energy", Grain: "grain", Temperature: "temperature", Warmth: "warmth", FrostIndex: "frost-index",
	Conductivity: "conductivity", Insulation: "insulation", HeatLoss: "heat-loss", HeatFlow: "heat-flow", Fusion: "fusion", Share: "share",
	VapourPressure: "vapour-pressure", VapourFlow: "vapour-flow", Moisture: "moisture", Humidity: "humidity", AirFlow: "air-flow", Gathered: "gathered"}

// Text puts a value into a text, for whoever shows the text to write it in the
// reader's units: "{length 0.35}". It goes wherever a text goes, through errors
// and lists, where numbers of its own would have to be carried along.
func Text(val float64, kind Kind) string { return Shown.Text(val, kind) }

// Text puts a value into a text, to be written in a manner.
func (m Manner) Text(val float64, kind Kind) string {
	return "{" + names[kind] + " " + strconv.FormatFloat(val, 'g', -1, 64) + manners[m] + "}"
}

// Between puts a range into a text, its ends to be rounded into it.
func Between(lo, hi float64, kind Kind) string {
	return Ceil.Text(lo, kind) + " to " + Floor.Text(hi, kind)
}

// Read takes apart what stands between the braces of Text; ok is false where it
// is something else.
func Read(inside string) (q Q, m Manner, ok bool) {
	parts := strings.Split(inside, " ")
	if len(parts) < 2 || len(parts) > 3 {
		return Q{}, 0, false
	}
	kind, m := -1, Manner(-1)
	for i, n := range names {
		if n == parts[0] {
			kind = i
		}
	}
	for i, s := range manners {
		if s == strings.TrimPrefix(inside, parts[0]+" "+parts[1]) {
			m = Manner(i)
		}
	}
	v, err := strconv.ParseFloat(parts[1], 64)
	if kind < 0 || m < 0 || err != nil {
		return Q{}, 0, false
	}
	return Q{Val: v, Kind: Kind(kind)}, m, true
}

// Replace writes the values of a text by write, which is given what stands
// between two braces and says whether it is a value.
func Replace(text string, write func(inside string) (string, bool)) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		inside, after, closed := strings.Cut(rest, "}")
		if s, ok := write(inside); closed && ok {
			b.WriteString(s)
			text = after
			continue
		}
		b.WriteString("{")
		text = rest
	}
}

// SI writes the values of a text in the units of the engine, for errors that
// reach no reader.
func SI(text string) string {
	return Replace(text, func(inside string) (string, bool) {
		q, _, ok := Read(inside)
		return strconv.FormatFloat(q.Val, 'g', 6, 64) + si(q.Kind), ok
	})
}

func si(k Kind) string {
	if u := Unit(k); u != "" {
		return " " + u
	}
	return ""
}

// Unit is the SI unit in which values of a kind are held; empty for pure
// numbers and what is as good as pure.
func Unit(k Kind) string {
	switch k {
	case Length, Thickness:
		return "m"
	case Area:
		return "m2"
	case Volume, SectionModulus:
		return "m3"
	case Force:
		return "kN"
	case LineLoad:
		return "kN/m"
	case Moment:
		return "kNm"
	case LineMoment:
		return "kNm/m"
	case Pressure, Stress:
		return "kPa"
	case UnitWeight:
		return "kN/m3"
	case Mass:
		return "t"
	case SecondMoment:
		return "m4"
	case Years:
		return "years"
	case Hours:
		return "h"
	case Angle:
		return "rad"
	case Flow, AirFlow:
		return "m3/s"
	case LineFlow, Seep:
		return "m2/s"
	case Velocity, Permeability, Rate:
		return "m/s"
	case Permittivity:
		return "1/s"
	case Duration:
		return "s"
	case Power:
		return "W"
	case Energy:
		return "Wh"
	case Grain:
		return "mm"
	case Temperature:
		return "°C"
	case Warmth:
		return "K"
	case FrostIndex:
		return "°C·days"
	case Conductivity:
		return "W/mK"
	case Insulation:
		return "m2K/W"
	case VapourPressure:
		return "Pa"
	}
	return ""
}
