// Package steel gives the section properties and the strength of the steel of
// a container and of the bars put into it: corrugated sheets with effective
// widths, hollow sections, channels and flats, columns and beam-columns, and
// what rust leaves of a sheet.
//
// Units are m, kN and kPa. The properties of a sheet are per metre of its
// width. The outer flat of a sheet is the one away from the room.
package steel

import (
	"math"

	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Elastic constants and density.
const (
	EAISI   = 203e6 // kPa, modulus in the AISI S100 formulas
	Density = 7.85  // t/m3
)

// Thinner steel is foil, no sheet, and no bar.
const (
	MinSheet = 0.2e-3 // m
	MinBar   = 0.5e-3 // m
)

// Bounds of what the formulas of this package were written for.
const (
	minT  = MinSheet
	maxT  = 30e-3 // m
	minFy = 100e3 // kPa
	maxFy = 700e3 // kPa
	minE  = 150e6 // kPa
	maxE  = 250e6 // kPa
)

// Profile is the midline of one corrugation: outer flat A, plan length of one
// slope S, inner flat B, midline depth H, thickness T, all m.
type Profile struct {
	A, S, B, H, T float64
}

// FromSheet takes the profile of a table row at the thickness t in m, which
// may be less than that of the row where the sheet has rusted: the midline
// depth D - T of the new sheet is kept (structure reference, section 6).
func FromSheet(row tables.Sheet, t float64) (Profile, error) {
	if err := quantity.Within("sheet "+row.ID+" thickness of the row", row.T, minT, maxT, quantity.Thickness); err != nil {
		return Profile{}, err
	}
	p := Profile{A: row.A, S: row.S, B: row.B, H: row.D - row.T, T: t}
	return p, p.check()
}

// check refuses a profile outside the range of a corrugated sheet.
func (p Profile) check() error {
	for _, f := range []struct {
		name      string
		v, lo, hi float64
	}{
		{"sheet thickness t", p.T, minT, maxT},
		{"sheet outer flat a", p.A, 5e-3, 1},
		{"sheet slope in plan", p.S, 0, 1},
		{"sheet inner flat b", p.B, 5e-3, 1},
		{"sheet midline depth h", p.H, 2e-3, 0.5},
	} {
		if err := quantity.Range(f.name, f.v, f.lo, f.hi); err != nil {
			return err
		}
	}
	return nil
}

// Pitch is the length of one corrugation along the wall, m.
func (p Profile) Pitch() float64 { return p.A + p.B + 2*p.S }

// Slope is the developed length of one slope on the midline, m.
func (p Profile) Slope() float64 { return math.Hypot(p.S, p.H) }

// SheetProps are the gross properties of a sheet per metre of width.
type SheetProps struct {
	Pitch      float64 // m
	SlopeLen   float64 // m, developed length of one slope
	Area       float64 // m2/m
	Inertia    float64 // m4/m
	Y0         float64 // m, centroid above mid-depth, + towards the outer flat
	SOuter     float64 // m3/m, elastic modulus at the outer face
	SInner     float64 // m3/m, at the inner face
	Z          float64 // m3/m, plastic modulus
	R          float64 // m, radius of gyration
	Av         float64 // m2/m, area that carries shear (slopes only)
	SlopeAngle float64 // rad, slope against the plane of the wall
	FlatOuter  float64 // width to thickness of the outer flat
	FlatInner  float64
	Mass       float64 // t per m2 of wall
}

// Props computes the gross properties with straight lines and sharp corners
// (structure reference, section 3, derived). It returns an error for a profile
// outside the range of a corrugated sheet.
func (p Profile) Props() (SheetProps, error) {
	if err := p.check(); err != nil {
		return SheetProps{}, err
	}
	pitch, s := p.Pitch(), p.Slope()
	area, inertia, y0 := p.section(p.A, p.B)
	return SheetProps{
		Pitch: pitch, SlopeLen: s, Area: area, Inertia: inertia, Y0: y0,
		SOuter: inertia / ((p.H+p.T)/2 - y0), SInner: inertia / ((p.H+p.T)/2 + y0),
		Z: p.plastic(), R: math.Sqrt(inertia / area), Av: 2 * p.T * p.H / pitch,
		SlopeAngle: math.Atan2(p.H, p.S), FlatOuter: p.A / p.T, FlatInner: p.B / p.T,
		Mass: area * Density,
	}, nil
}

// section gives area, second moment and centroid of the corrugation with the
// flats reduced to the widths a and b; the pitch stays that of the full sheet.
func (p Profile) section(a, b float64) (area, inertia, y0 float64) {
	s, h, t, pitch := p.Slope(), p.H, p.T, p.Pitch()
	line := a + b + 2*s
	area = t * line / pitch
	y0 = (a - b) * h / (2 * line)
	ip := t * ((a+b)*h*h/4 + 2*s*h*h/12)
	// Bending of the lines about their own axes, small but stated.
	ip += (a + b) * t * t * t / 12
	ip += 2 * s * t * t * t / 12 * (p.S / s) * (p.S / s)
	return area, ip/pitch - area*y0*y0, y0
}

// plastic is the plastic modulus of the midline section. Where one flat is
// more than half the steel the neutral axis lies in it.
func (p Profile) plastic() float64 {
	s, h := p.Slope(), p.H
	y := (p.A - p.B) * h / (4 * s)
	y = math.Max(-h/2, math.Min(h/2, y))
	up, down := h/2-y, h/2+y
	m := p.A*up + p.B*down + 2*s/h*(up*up+down*down)/2
	return p.T * m / p.Pitch()
}
