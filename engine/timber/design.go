// Package timber checks sawn studs and plywood of a skin outside the walls of
// a box. Units are m, kN, kPa; values of lumber are those of grade No. 2 of the
// lumber table.
//
// Every check is made twice: allowable stresses (ASD) and load and resistance
// factors (LRFD), both after the national design specification for wood (NDS).
package timber

import (
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Durations of load: the factor on allowable stresses (structure reference,
// section 5, memory).
const (
	CDLasting = 0.9  // earth, water, dead load
	CDForms   = 1.25 // forms for concrete, some days
)

// Use is how lumber is put to use.
type Use struct {
	CD      float64 // duration of load, 0.9 to 2.0
	Wet     bool    // more than 19 % moisture in use
	Incised bool    // cut open for the preservative
	// Repetitive is true for three members and more, no further apart than
	// RepetitiveSpacing, joined by what they carry.
	Repetitive bool
}

// RepetitiveSpacing is the largest spacing of members that help each other, m
// (24 in, NELMA grading rules, verified).
const RepetitiveSpacing = 0.61

// Factors on the reference values (structure reference, section 5): wet service
// (verified, public finite-element library), the two exceptions (memory),
// incising (memory), repetitive members (NELMA grading rules, verified).
const (
	wetFb, wetFv, wetFcP, wetFc, wetE = 0.85, 0.97, 0.67, 0.80, 0.90

	wetFbUpTo = 1150 * psi // Fb·CF up to which bending does not lose by wetness
	wetFcUpTo = 750 * psi  // Fc·CF up to which compression does not

	incisedF, incisedE = 0.80, 0.95
	repetitive         = 1.15
)

const psi = 6.894757293168361 // kPa

// Factors of load and resistance (NDS appendix N, memory): format conversion
// KF, resistance phi, and the time effect of lasting load.
const (
	kfFb, kfFv, kfFcP, kfFc     = 2.54, 2.88, 1.67, 2.40
	phiFb, phiFv, phiFcP, phiFc = 0.85, 0.75, 0.90, 0.90

	lambdaLasting = 0.6
)

// Factors are those that bring the reference values of a piece to its use.
type Factors struct {
	CD, CF, Cr              float64
	MFb, MFv, MFcP, MFc, ME float64 // wet service, CM
	IF, IE                  float64 // incising, Ci: on stresses along the grain, on E
}

// Values are the design values of a piece in its use, kPa.
type Values struct {
	Fb, Fv, Fc, FcP, E float64
}

// Design are reference values brought to their use, in both forms.
type Design struct {
	Factors
	ASD  Values // allowable stresses
	LRFD Values // factored resistances; E is the same
}

// Adjust brings the reference values of lumber to a use: Fb' = Fb CD CM CF Cr
// Ci and so on; neither duration nor incising acts on bearing across the grain,
// nor duration on E (NDS 4.3; structure reference, section 5). CF is that for
// bending; for Fc it is taken as 1, on the safe side. Errors name what is out of
// range.
func Adjust(l tables.Lumber, u Use) (Design, error) {
	if err := quantity.Range("duration factor CD", u.CD, 0.9, 2); err != nil {
		return Design{}, err
	}
	if err := quantity.Within("reference bending stress Fb", l.Fb, 1e3, 1e5, quantity.Stress); err != nil {
		return Design{}, err
	}
	f := Factors{CD: u.CD, CF: l.CF, Cr: 1, MFb: 1, MFv: 1, MFcP: 1, MFc: 1, ME: 1, IF: 1, IE: 1}
	if u.Repetitive {
		f.Cr = repetitive
	}
	if u.Incised {
		f.IF, f.IE = incisedF, incisedE
	}
	if u.Wet {
		f.MFb, f.MFv, f.MFcP, f.MFc, f.ME = wetFb, wetFv, wetFcP, wetFc, wetE
		if l.Fb*l.CF <= wetFbUpTo*(1+1e-9) {
			f.MFb = 1
		}
		if l.Fc <= wetFcUpTo*(1+1e-9) {
			f.MFc = 1
		}
	}
	base := Values{Fb: l.Fb * f.MFb * f.CF * f.Cr * f.IF, Fv: l.Fv * f.MFv * f.IF, Fc: l.Fc * f.MFc * f.IF,
		FcP: l.FcP * f.MFcP, E: l.E * f.ME * f.IE}
	return Design{
		Factors: f,
		ASD:     Values{base.Fb * f.CD, base.Fv * f.CD, base.Fc * f.CD, base.FcP, base.E},
		LRFD: Values{base.Fb * kfFb * phiFb * lambdaLasting, base.Fv * kfFv * phiFv * lambdaLasting,
			base.Fc * kfFc * phiFc * lambdaLasting, base.FcP * kfFcP * phiFcP, base.E},
	}, nil
}

// Creep is by how much the bow of lumber under lasting load grows in time: 1.5
// where it is dry in use, 2.0 where it is wet (NDS 3.5.2, memory).
func (u Use) Creep() float64 {
	if u.Wet {
		return 2.0
	}
	return 1.5
}

// ID is the row of the lumber table for a species and a size.
func ID(species, size string) string { return species + " " + size }
