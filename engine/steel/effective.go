package steel

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Rule is a code's formula for the effective width of a flat.
type Rule int

// The two rules.
const (
	AISI Rule = iota // AISI S100 App. 1, unified effective width
	EN               // EN 1993-1-5 4.4, uniform compression
)

// String names the rule.
func (r Rule) String() string {
	if r == EN {
		return "EN 1993-1-5 4.4"
	}
	return "AISI S100 App. 1"
}

// Coefficients and limits of the effective width formulas.
const (
	kFlat       = 4.0   // buckling coefficient of a flat held at both edges
	kWebBending = 24.0  // of a web in pure bending
	lambdaFull  = 0.673 // slenderness up to which the flat is fully effective
	maxFlat     = 500.0 // width to thickness of a flat held at both edges
	winterLoss  = 0.22  // Winter's coefficient
	enFy0       = 235e3 // kPa, reference strength of EN 1993
	enLambda    = 28.4  // slenderness constant of EN 1993-1-5
	settled     = 1e-12 // relative change at which the neutral axis has settled
	maxRounds   = 200   // rounds after which the iteration counts as failed
	aisiLambda  = 1.052 // slenderness constant of AISI S100
)

// Rho gives slenderness and effective share of a flat of width to thickness
// wt, held at both edges with the buckling coefficient k, under the uniform
// compression f in kPa. E in kPa serves the AISI rule; the EN rule carries its
// own modulus. Valid for 0 < wt <= 500 (formulas from memory, limit verified).
func Rho(rule Rule, wt, f, e, k float64) (lambda, rho float64, err error) {
	for _, c := range []error{
		quantity.Range("width to thickness of a flat", wt, 0, maxFlat),
		quantity.Within("stress f", f, 0, maxFy, quantity.Stress),
		quantity.Within("modulus E", e, minE, maxE, quantity.Stress),
		quantity.Range("buckling coefficient k", k, 0.4, 50),
	} {
		if c != nil {
			return 0, 0, c
		}
	}
	lambda, rho = rhoOf(rule, wt, f, e, k)
	return lambda, rho, nil
}

// rhoOf is Rho on values already checked.
func rhoOf(rule Rule, wt, f, e, k float64) (lambda, rho float64) {
	if rule == EN {
		lambda = wt / (enLambda * math.Sqrt(k)) * math.Sqrt(f/enFy0)
	} else {
		lambda = aisiLambda / math.Sqrt(k) * wt * math.Sqrt(f/e)
	}
	if lambda <= lambdaFull {
		return lambda, 1
	}
	return lambda, (1 - winterLoss/lambda) / lambda
}

// Side is a face of a sheet.
type Side int

// The faces.
const (
	Outer Side = iota // away from the room, against the soil
	Inner             // towards the room
)

// String names the side.
func (s Side) String() string {
	if s == Inner {
		return "inner"
	}
	return "outer"
}

// EffSection is the effective section of a sheet in bending, per metre.
type EffSection struct {
	Side       Side    // face in compression
	Rule       Rule    // formula of the effective width
	Lambda     float64 // slenderness of the flat in compression
	Rho        float64 // effective share of it
	B          float64 // m, effective width of it
	F          float64 // kPa, stress in it
	Area       float64 // m2/m
	Inertia    float64 // m4/m
	Y0         float64 // m, centroid from mid-depth, + towards the face in compression
	SComp      float64 // m3/m, modulus at the face in compression
	STens      float64 // m3/m, at the other face
	S          float64 // m3/m, the smaller of the two: first yield
	Mn         float64 // kNm/m, S·Fy
	LambdaWeb  float64 // slenderness of the slopes in bending
	WebsAreOK  bool    // the slopes are fully effective, as assumed
	Fy         float64 // kPa
	Iterations int
}

// Effective computes the effective section of a sheet bent until its first
// fibre yields, with the flat of the given side in compression. The stress in
// that flat follows the neutral axis, which is iterated; the slopes count
// fully (WebsAreOK says whether that holds). Errors name the value out of
// range; a flat beyond width to thickness 500 is refused.
func (p Profile) Effective(side Side, rule Rule, fy, e float64) (EffSection, error) {
	out := EffSection{Side: side, Rule: rule, Fy: fy}
	if err := p.checkWith(fy, e); err != nil {
		return out, err
	}
	flat, other := p.A, p.B
	if side == Inner {
		flat, other = p.B, p.A
	}
	c := (p.H + p.T) / 2
	f, last := fy, -1.0
	for ; math.Abs(f-last) > settled*fy; out.Iterations++ {
		if out.Iterations == maxRounds {
			return out, fmt.Errorf("steel: effective width of a flat %s does not settle at %s", quantity.Text(flat, quantity.Thickness), quantity.Text(fy, quantity.Stress))
		}
		last = f
		out.Lambda, out.Rho = rhoOf(rule, flat/p.T, f, e, kFlat)
		out.B = out.Rho * flat
		out.Area, out.Inertia, out.Y0 = p.section(out.B, other)
		f = fy * math.Min(1, (c-out.Y0)/(c+out.Y0))
	}
	out.F = f
	out.SComp, out.STens = out.Inertia/(c-out.Y0), out.Inertia/(c+out.Y0)
	out.S = math.Min(out.SComp, out.STens)
	out.Mn = out.S * fy
	out.LambdaWeb, _ = rhoOf(AISI, p.Slope()/p.T, fy, e, kWebBending)
	out.WebsAreOK = out.LambdaWeb <= lambdaFull
	return out, nil
}

// checkWith refuses values outside the range of the formulas.
func (p Profile) checkWith(fy, e float64) error {
	if err := p.check(); err != nil {
		return err
	}
	if err := checkSteel(fy, e); err != nil {
		return err
	}
	for _, w := range []float64{p.A, p.B, p.Slope()} {
		if err := quantity.Range("width to thickness of a flat", w/p.T, 0, maxFlat); err != nil {
			return err
		}
	}
	return nil
}

// checkSteel refuses strength and modulus outside the range of structural steel.
func checkSteel(fy, e float64) error {
	if err := quantity.Within("yield strength Fy", fy, minFy, maxFy, quantity.Stress); err != nil {
		return err
	}
	return quantity.Within("modulus E", e, minE, maxE, quantity.Stress)
}

// AreaAt is the effective area per metre of the sheet under the uniform
// compression f in kPa, m2/m: flats and slopes each reduced to their
// effective width.
func (p Profile) AreaAt(rule Rule, f, e float64) (float64, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	line := 0.0
	for _, part := range []struct {
		w float64
		n float64
	}{{p.A, 1}, {p.B, 1}, {p.Slope(), 2}} {
		_, rho, err := Rho(rule, part.w/p.T, f, e, kFlat)
		if err != nil {
			return 0, err
		}
		line += part.n * rho * part.w
	}
	return p.T * line / p.Pitch(), nil
}
