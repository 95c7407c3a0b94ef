package steel

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Limits of the web crippling formula (AISI S100 G5, memory).
const (
	cripplingHT  = 200.0 // flat depth of a web over its thickness
	cripplingNT  = 210.0 // bearing length over the thickness
	cripplingNH  = 3.0   // bearing length over the depth of a web
	cripplingDeg = 45.0  // slope of a web, degrees
	// edgeDepths is how many depths of a web from the edge of a sheet a bar must
	// keep to bear inside it.
	edgeDepths = 1.5
	// webSpacing is how far apart webs may stand, m, so that bending over a bar
	// need not be added to crippling (AISI S100 H3, exception for decks, memory).
	webSpacing = 0.254
)

// ErrFlatSlope is wrapped by the error for a sheet whose slopes stand at less
// than 45 degrees: the crippling of such webs is outside the standard.
var ErrFlatSlope = errors.New("slopes flatter than 45 degrees")

// Bearing is a bar that bears on the crests of a sheet across its corrugations.
type Bearing struct {
	Length float64 // m, of the contact along the span of the sheet
	Edge   float64 // m, from the end of the contact to the end of the sheet
	Radius float64 // m, inner radius of the bends
}

// Crippling is the strength of the webs of a sheet under a bar, per metre of
// the bar.
type Crippling struct {
	Row    tables.Crippling
	H      float64 // m, depth of a web in its own plane
	N      float64 // m, bearing length that counts
	Theta  float64 // rad, slope of the webs
	PerWeb float64 // kN
	Pn     float64 // kN/m
	// Factors of PerWeb for the bends, the bearing length and the depth.
	ForR, ForN, ForH float64
}

// CripplingRow picks the row for a bearing: at an edge of the sheet or inside
// it, fastened or not, from the ids of the table.
func CripplingRow(t *tables.Set, p Profile, b Bearing, fastened bool) (tables.Crippling, error) {
	id := "end"
	if b.Edge >= edgeDepths*p.Slope() {
		id = "inner"
	}
	if fastened {
		id += "-fastened"
	} else {
		id += "-loose"
	}
	row, ok := t.Crippling(id)
	if !ok {
		return row, fmt.Errorf("steel: no row %q in the table of crippling", id)
	}
	return row, nil
}

// Cripple is the strength of the webs of a sheet where a bar presses on its
// crests from one side (AISI S100 G5 for decks with many webs, memory). Of a
// long contact no more counts than the formula was made for. Slopes flatter
// than 45 degrees give ErrFlatSlope; other values outside the range of the
// formula are named.
func (p Profile) Cripple(row tables.Crippling, b Bearing, fy float64) (Crippling, error) {
	c := Crippling{Row: row, H: p.Slope(), Theta: math.Atan2(p.H, p.S)}
	if err := p.checkWith(fy, EAISI); err != nil {
		return c, err
	}
	if err := p.Steep(); err != nil {
		return c, err
	}
	for _, err := range []error{
		quantity.Range("depth of a web to its thickness", c.H/p.T, 0, cripplingHT),
		quantity.Range("bend radius to thickness", b.Radius/p.T, 0, row.RTMax),
		quantity.Within("bearing length", b.Length, 5e-3, 1, quantity.Thickness),
		quantity.Within("distance to the edge of the sheet", b.Edge, 0, 100, quantity.Length),
		quantity.Within("spacing of the webs", math.Max(p.A, p.B)+p.S, 0, webSpacing, quantity.Thickness),
	} {
		if err != nil {
			return c, err
		}
	}
	c.N = MostBearing(p, b.Length)
	c.ForR, c.ForN, c.ForH = 1-row.CR*math.Sqrt(b.Radius/p.T), 1+row.CN*math.Sqrt(c.N/p.T), 1-row.Ch*math.Sqrt(c.H/p.T)
	c.PerWeb = row.C * p.T * p.T * fy * math.Sin(c.Theta) * c.ForR * c.ForN * c.ForH
	c.Pn = 2 * c.PerWeb / p.Pitch()
	return c, nil
}

// Steep refuses slopes flatter than 45 degrees with ErrFlatSlope.
func (p Profile) Steep() error {
	if theta := math.Atan2(p.H, p.S) * 180 / math.Pi; theta < cripplingDeg {
		return fmt.Errorf("%w: they stand at %.0f degrees to the wall", ErrFlatSlope, theta)
	}
	return nil
}

// MostBearing is what counts of a bearing length, m.
func MostBearing(p Profile, length float64) float64 {
	return min(length, cripplingNH*p.Slope(), cripplingNT*p.T)
}

// NeedBearing is the bearing length, m, at which the strength is raised by the
// factor given; +Inf where even the longest that counts is too short.
func (c Crippling) NeedBearing(p Profile, factor float64) float64 {
	root := (c.ForN*factor - 1) / c.Row.CN
	n := p.T * root * root
	if root < 0 || n > MostBearing(p, math.Inf(1)) {
		return math.Inf(1)
	}
	return n
}
