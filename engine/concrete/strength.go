// Package concrete checks a skin of concrete outside the walls of a box and a
// slab over its roof: plain walls, and strips with bars in one layer. Units are
// m, kN, kPa; strips are a metre wide.
//
// The rules of ACI 318 are load and resistance factors; there is no allowable
// stress form beside them, so checks of concrete have RatioLRFD alone.
package concrete

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Gamma is the unit weight of reinforced concrete, kN/m3 (common practice).
const Gamma = 24.0

// Resistance factors and strengths of ACI 318 (structure reference, section 5
// for plain walls, derived from the ACI form; the rest memory).
const (
	phiPlain = 0.60
	phiBend  = 0.90
	phiShear = 0.75

	againstSoil  = 0.05  // m of a plain wall cast against soil that do not count
	leastFooting = 0.2   // m, thinnest plain footing that ACI 318 knows (8 in, memory)
	plainLeast   = 0.140 // m, thinnest plain wall (5.5 in, memory)

	strainCrush = 0.003 // of concrete at its strength
	strainMore  = 0.003 // beyond yield from which bars have the full phi (ACI 318-19)
	phiLeast    = 0.65

	psi = 6.894757293168361 // kPa
)

// Source of the figures that were not read in the standard itself.
const (
	srcPlain = "ACI 318 ch. 14, φ 0.60, 5√f'c in psi (structure reference, section 5; memory)"
	srcBars  = "ACI 318: rectangular stress block, φ 0.90 and φ 0.75 for shear (memory)"
	srcStat  = "beam statics (derived)"
	srcLoad  = "load factors 1.6H + 1.6L of the building code form (verified)"
	onlyLRFD = "ACI 318 has no allowable-stress form beside its load factors, so there is one ratio only."
)

// Bars are one layer of bars near the face that is in tension.
type Bars struct {
	Diameter float64 // m
	Spacing  float64 // m
	Cover    float64 // m, clear
	Fy       float64 // kPa
}

// Area is the area of the bars in a metre, m2.
func (b Bars) Area() float64 { return math.Pi / 4 * b.Diameter * b.Diameter / b.Spacing }

// Section is a metre of concrete.
type Section struct {
	Thickness float64 // m
	Fc        float64 // kPa, cylinder strength f'c
	Bars      Bars    // spacing 0 is plain
	Soil      bool    // cast against soil
}

// Plain tells whether there are no bars.
func (s Section) Plain() bool { return s.Bars.Spacing == 0 }

// Strength is what a metre of concrete carries.
type Strength struct {
	T     float64 // m, thickness that counts
	S     float64 // m3/m, of a plain section
	D     float64 // m, from the compressed face to the bars; 0 plain
	As    float64 // m2/m
	A     float64 // m, depth of the stress block
	Phi   float64 // on bending
	Mn    float64 // kNm/m, nominal
	Vn    float64 // kN/m, nominal
	PhiV  float64
	EI    float64 // kNm2/m, whole section uncracked
	Block float64 // beta1
}

// check refuses what is no wall or slab.
func (s Section) check() error {
	if err := quantity.Within("concrete strength f'c", s.Fc, 10e3, 80e3, quantity.Stress); err != nil {
		return err
	}
	if err := quantity.Within("concrete thickness", s.Thickness, 0.05, 3, quantity.Thickness); err != nil {
		return err
	}
	if s.Plain() {
		return nil
	}
	b := s.Bars
	for _, err := range []error{
		quantity.Within("bar diameter", b.Diameter, 4e-3, 0.06, quantity.Thickness),
		quantity.Within("bar spacing", b.Spacing, 2*b.Diameter, 1, quantity.Length),
		quantity.Within("bar cover", b.Cover, 0.01, s.Thickness-b.Diameter, quantity.Thickness),
		quantity.Within("yield strength of the bars", b.Fy, 200e3, 700e3, quantity.Stress),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// root is sqrt(f'c) of the psi formulas times k, kPa: 5 sqrt(2500 psi) is 250
// psi. The metric form 0.42 sqrt(f'c) is 1 % more.
func (s Section) root(k float64) float64 { return k * math.Sqrt(s.Fc/psi) * psi }

// Strength works out what the section carries. Bars count by the rectangular
// stress block at their yield; a section whose bars yield too late loses phi as
// ACI 318-19 table 21.2.2 has it (memory), and one with so much steel that it
// would crush first is refused.
func (s Section) Strength() (Strength, error) {
	r := Strength{T: s.Thickness}
	if err := s.check(); err != nil {
		return r, err
	}
	e := s.root(57000)
	r.EI = e * math.Pow(s.Thickness, 3) / 12
	if s.Plain() {
		if s.Soil {
			r.T -= againstSoil
		}
		if err := quantity.Within("thickness of a plain wall", s.Thickness, plainLeast, 3, quantity.Thickness); err != nil {
			return r, err
		}
		r.S = r.T * r.T / 6
		r.Phi, r.Mn = phiPlain, s.root(5)*r.S
		r.PhiV, r.Vn = phiPlain, s.root(4.0/3)*r.T
		return r, nil
	}
	return r, s.reinforced(&r)
}

// reinforced fills in the strengths of a section with bars.
func (s Section) reinforced(r *Strength) error {
	b := s.Bars
	r.D, r.As = s.Thickness-b.Cover-b.Diameter/2, b.Area()
	if err := quantity.Within("depth of the bars", r.D, 0.02, s.Thickness, quantity.Thickness); err != nil {
		return err
	}
	r.Block = math.Min(0.85, math.Max(0.65, 0.85-0.05*(s.Fc-28e3)/7e3))
	r.A = r.As * b.Fy / (0.85 * s.Fc)
	c := r.A / r.Block
	yield := b.Fy / 200e6
	strain := strainCrush * (r.D - c) / c
	if strain < yield {
		return fmt.Errorf("%w: area of the bars = %s, so much that the concrete crushes before they yield", quantity.ErrRange, quantity.Text(r.As, quantity.SheetArea))
	}
	r.Phi = math.Min(phiBend, phiLeast+(phiBend-phiLeast)*(strain-yield)/strainMore)
	r.Mn = r.As * b.Fy * (r.D - r.A/2)
	r.PhiV, r.Vn = phiShear, s.root(2)*r.D
	return nil
}

// Least shares of upright bars in a wall and of bars in a slab, of the whole
// section (ACI 318 11.6.1 and 24.4.3, memory): 0.0012 holds for bars up to 16
// mm of 420 MPa and more.
const (
	leastWall   = 0.0012
	leastWallUp = 0.0015
	leastSlab   = 0.0018
	thinBar     = 0.0161 // m
)

// LeastWall is the least area of upright bars in a wall, m2/m; with less it is
// plain concrete.
func (s Section) LeastWall() float64 {
	if s.Bars.Diameter <= thinBar && s.Bars.Fy >= 420e3 {
		return leastWall * s.Thickness
	}
	return leastWallUp * s.Thickness
}

// LeastSlab is the least area of bars in a slab, m2/m.
func (s Section) LeastSlab() float64 { return leastSlab * s.Thickness }
