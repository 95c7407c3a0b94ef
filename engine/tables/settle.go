package tables

import "strings"

// SettleLimit is how far a box may go down, tilt or twist where the project does
// not say.
type SettleLimit struct {
	ID, Name string
	Limit    float64 // m, or m per m
	Src      Source
}

// settleUnits are the units of the limits: the factor to the unit held, and what
// is a limit at all.
var settleUnits = map[string]struct{ unit, low, high float64 }{"mm": {mm, 1, 200}, "m per m": {1, 0.0005, 0.05}}

func parseSettleLimit(r *row) SettleLimit {
	l := SettleLimit{ID: r.text("id"), Name: r.text("name")}
	u := settleUnits[r.oneOf("unit", "mm", "m per m")]
	l.Limit, l.Src = r.num("limit", u.unit, u.low, u.high), r.source()
	return l
}

// SettleLimit gives one of the limits: "settlement", "tilt" or "twist"; false
// where there is none.
func (s *Set) SettleLimit(id string) (SettleLimit, bool) { return s.settle.get(id) }

// SettleLimitIDs gives the ids of the limits.
func (s *Set) SettleLimitIDs() []string { return s.settle.ids }

// Stiffness is the ordinary range of Young's modulus of a kind of soil.
type Stiffness struct {
	ID, Name  string
	Family    string  // gravel, sand, silt or clay
	Low, High float64 // kPa
	Src       Source
}

func parseStiffness(r *row) Stiffness {
	s := Stiffness{ID: r.text("id"), Name: r.text("name"), Family: r.oneOf("family", "gravel", "sand", "silt", "clay"),
		Low: r.num("low_MPa", mpa, 0.1, 1000), High: r.num("high_MPa", mpa, 0.1, 1000), Src: r.source()}
	if r.err == nil && s.Low >= s.High {
		r.fail("high_MPa", r.raw("high_MPa"), "is not above the low end")
	}
	return s
}

// StiffnessIDs gives the ids of the ordinary ranges.
func (s *Set) StiffnessIDs() []string { return s.stiffness.ids }

// StiffnessOf gives the ordinary ranges of a class of ASTM D2487, by the first
// letter of its group; none for organic soil, and for rows of the table of soils
// that are no class.
func (s *Set) StiffnessOf(class string) []Stiffness {
	if class == "" || class != strings.ToUpper(class) {
		return nil
	}
	family := map[byte]string{'G': "gravel", 'S': "sand", 'M': "silt", 'C': "clay"}[class[0]]
	var out []Stiffness
	for _, row := range s.stiffness.all() {
		if row.Family == family {
			out = append(out, row)
		}
	}
	return out
}
