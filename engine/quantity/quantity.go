// Package quantity names what a number is, so that a value can travel from
// the engine to a screen or a sheet and be turned into the reader's units
// there and nowhere else. All values are SI: m, kN, kPa, kN/m3, radians; grain
// sizes alone are in mm, as every grading is, and temperatures in °C.
package quantity

// Kind says which physical quantity a value is. It fixes the SI unit the
// value is held in.
type Kind int

// The kinds in use, each with the unit its values are held in.
const (
	None           Kind = iota // pure number without a unit
	Length                     // m: distances, levels, depths
	Thickness                  // m: sheet thickness, deflection; shown in mm or in
	Area                       // m2
	Volume                     // m3
	Force                      // kN
	LineLoad                   // kN per m
	Moment                     // kNm
	LineMoment                 // kNm per m
	Pressure                   // kPa: earth and water pressure
	Stress                     // kPa: steel and timber stress; shown in MPa or ksi
	UnitWeight                 // kN/m3
	Angle                      // rad; shown in degrees
	Slope                      // horizontal run per unit of vertical rise (H:V)
	Gradient                   // rise per run; shown as a percentage
	Ratio                      // demand over capacity, pure
	Factor                     // factor of safety, pure
	Mass                       // t
	Modulus                    // m3 per m: section modulus of a sheet
	Inertia                    // m4 per m: second moment of area of a sheet
	SectionModulus             // m3: section modulus of a bar
	SecondMoment               // m4: second moment of area of a bar
	SheetArea                  // m2 per m: area of a sheet
	Years                      // a
	Hours                      // h
	Stiffness                  // kNm2 per m: bending stiffness of a strip
	Flow                       // m3/s: water in a pipe, out of a pump
	LineFlow                   // m2/s: water into a metre of drain or face
	Seep                       // m2/s: what seeps into a metre of drain or pit, by the hour
	Velocity                   // m/s: water in a pipe or a ditch
	Permeability               // m/s: of soil and rock, over ten powers of ten
	Rate                       // m/s: rain, rise of water; shown in mm/h or in/h
	Permittivity               // 1/s: flow through a cloth per head on it
	Duration                   // s: pump cycles, times of a storm; shown in min
	Power                      // W
	Energy                     // Wh
	Grain                      // mm: grains, sieves, openings of a cloth
	Temperature                // °C
	Warmth                     // K: difference of two temperatures
	FrostIndex                 // °C·day: frost of a winter
	Conductivity               // W/mK
	Insulation                 // m2K/W: resistance to heat
	HeatLoss                   // W/K: of the whole box
	HeatFlow                   // W/m2K: through a surface
	Fusion                     // J/m3: heat that freezes a volume
	Share                      // part of a whole; shown as a percentage
	VapourPressure             // Pa
	VapourFlow                 // kg/(m2·s): vapour through a wall
	Moisture                   // kg/s: given off by people
	Humidity                   // kg/m3: water in air
	AirFlow                    // m3/s
	Gathered                   // kg/m2: water that gathers on a face
)

// Last is the last of the kinds, for what must go through all of them.
const Last = Gathered

// Q is one value with its symbol as it stands in a formula.
type Q struct {
	Sym  string  // symbol, e.g. "K0" or "σ'v"; may be empty
	Val  float64 // value in the SI unit of Kind
	Kind Kind
}

// Of makes a Q.
func Of(sym string, val float64, kind Kind) Q { return Q{Sym: sym, Val: val, Kind: kind} }
