package box

import (
	"fmt"
	"math"
	"sync"

	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// RoofStrip is one metre of roof sheet, corrugations across the box, from one
// top rail to the other. Beams along the box under the sheet (purlins) divide
// its span; beams across the box run beside the corrugations and do not.
type RoofStrip struct {
	Profile  steel.Profile
	Steel    Material
	Span     float64   // clear width between the top rails, m
	Supports []float64 // places of purlins across the span, rising, m

	Dead  float64 // kPa, soil and build-up on the roof
	Live  float64 // kPa, wheels and surcharges that come and go
	Snow  float64 // kPa
	Water float64 // kPa, water standing on the roof; factored like live load
	// Wheels is live load that is not even: the pressure along the span, kPa, from
	// the left rail. It goes on the sheet as it lies.
	Wheels frame.Load
	// Thrust is what the walls press on the edges of the sheet, kN per m: the
	// top reaction of the side sheets. It counts in full in every combination.
	Thrust Pair

	// Dent is the deepest measured sag of the sheet, m. Unless Straight is set
	// (a new sheet, measured or cambered), at least span/300 is taken.
	Dent     float64
	Straight bool
}

// usedSag is the least sag of a used roof as a share of its span (common
// practice).
const usedSag = 1.0 / 300

// ComboRatio is the rating of a roof strip in one combination.
type ComboRatio struct {
	Name   string
	Q      float64 // kPa, without the wheels
	P      float64 // kN/m
	Field  float64 // kNm/m, first order, with P times the sag
	Hog    float64 // kNm/m over purlins, first order
	Sums   [4]float64
	Ratio  float64 // the largest of Sums
	Second float64 // kNm/m, exact second-order moment at midspan of the longest bay
}

// Limit states in ComboRatio.Sums.
const (
	sumBuckling  = iota // compression with amplified bending between supports
	sumStrength         // compression with bending, no buckling
	sumOverBeam         // compression with bending over a purlin
	sumRoofShear        // shear
)

// RoofResult is what comes out of a roof strip, per metre of box length.
type RoofResult struct {
	Unit         frame.Multi // under 1 kPa
	Bay          float64     // m, longest span between supports
	Sag          float64     // m, initial sag taken
	Props        steel.SheetProps
	EI           float64 // kNm2/m
	Strut        steel.Strut
	Outer, Inner steel.EffSection
	Vn           float64
	ASD, LRFD    ComboRatio // the worst combination of each kind
	Deflection   float64    // m, midspan of the longest bay, service, second order
	// Edge and Purlins are the reactions on the top rails (the larger) and on
	// the purlins, kN per m of box.
	Edge    Pair
	Purlins []Pair
	Cases   []Cases // of Purlins

	unitSag float64 // m under 1 kPa, with purlins
	unit    bending // under 1 kPa
	wheels  wheelEffects
}

// checkLoads refuses what does not lie on a roof.
func (s *RoofStrip) checkLoads() error {
	for _, err := range []error{
		quantity.Range("roof dead load", s.Dead, 0, 1e4),
		quantity.Range("roof live load", s.Live, 0, 1e4),
		quantity.Range("roof snow load", s.Snow, 0, 1e4),
		quantity.Range("roof water load", s.Water, 0, 1e4),
		quantity.Range("roof thrust (service)", s.Thrust.ASD, 0, 1e6),
		quantity.Range("roof thrust (factored)", s.Thrust.LRFD, 0, 1e6),
	} {
		if err != nil {
			return err
		}
	}
	return s.checkWheels()
}

// checkSheet refuses a strip that is not a roof of a container.
func (s RoofStrip) checkSheet() error {
	for _, err := range []error{
		s.Steel.check(),
		quantity.Within("roof span", s.Span, minHeight, maxHeight, quantity.Length),
		quantity.Within("roof dent", s.Dent, 0, s.Span/5, quantity.Thickness),
	} {
		if err != nil {
			return err
		}
	}
	last := 0.0
	for k, x := range s.Supports {
		if err := quantity.Within(fmt.Sprintf("place of purlin %d", k+1), x, last+minGap, s.Span-minGap, quantity.Length); err != nil {
			return err
		}
		last = x
	}
	return nil
}

// ReadyRoof is a strip of roof with what does not depend on its loads worked
// out once. Goroutines may share it.
type ReadyRoof struct {
	strip  RoofStrip
	unit   RoofResult // strengths, and the sheet under 1 kPa
	places []float64
	room   sync.Pool // of *rollRoom
}

// Ready prepares a strip for many loads. Its own are set aside.
func (s RoofStrip) Ready() (*ReadyRoof, error) {
	if err := s.checkSheet(); err != nil {
		return nil, err
	}
	out := &ReadyRoof{strip: s, places: s.places()}
	r := &out.unit
	if err := s.strengths(r); err != nil {
		return nil, err
	}
	var err error
	if r.Unit, err = frame.Continuous(out.places, frame.Uniform(1, s.Span), r.EI); err != nil {
		return out, err
	}
	if len(s.Supports) > 0 {
		r.unitSag, _, _ = r.Unit.Sag()
	}
	r.unit = bendingOf(&r.Unit, 1, 0)
	return out, nil
}

// Strip is the strip under other loads, without wheels.
func (s *ReadyRoof) Strip(on OnRoof, thrust Pair) RoofStrip {
	out := s.strip
	out.Dead, out.Live, out.Snow, out.Water, out.Thrust = on.Dead, on.Live, on.Snow, on.Water, thrust
	return out
}

// Under is RoofStrip.Solve under other loads, without wheels.
func (s *ReadyRoof) Under(on OnRoof, thrust Pair) (RoofResult, error) {
	return s.UnderWheels(on, nil, thrust)
}

// UnderWheels is RoofStrip.Solve under other loads.
func (s *ReadyRoof) UnderWheels(on OnRoof, wheels frame.Load, thrust Pair) (RoofResult, error) {
	in, r := s.Strip(on, thrust), s.unit
	in.Wheels = wheels
	if err := in.checkLoads(); err != nil {
		return r, err
	}
	if err := s.roll(&in, &r); err != nil {
		return r, err
	}
	r.ASD = in.rateAll(&r, Allowable, thrust.ASD, steel.BeamColumn.AISIASD, 1/steel.OmegaBending, 1/steel.OmegaShear)
	r.LRFD = in.rateAll(&r, Strength, thrust.LRFD, steel.BeamColumn.AISILRFD, steel.PhiBending, steel.PhiShear)
	r.Deflection = in.deflect(&r)
	r.reactions(&in)
	return r, nil
}

// Solve does the statics and finds the strengths and the worst combinations.
func (s RoofStrip) Solve() (RoofResult, error) {
	ready, err := s.Ready()
	if err != nil {
		return RoofResult{}, err
	}
	return ready.UnderWheels(OnRoof{s.Dead, s.Live, s.Snow, s.Water}, s.Wheels, s.Thrust)
}

// strengths finds the bays, the sag and the strengths of the sheet.
func (s RoofStrip) strengths(r *RoofResult) error {
	last := 0.0
	for _, x := range append(append([]float64{}, s.Supports...), s.Span) {
		r.Bay, last = math.Max(r.Bay, x-last), x
	}
	r.Sag = s.Dent
	if !s.Straight {
		r.Sag = math.Max(s.Dent, r.Bay*usedSag)
	}
	var err error
	if r.Props, err = s.Profile.Props(); err != nil {
		return err
	}
	r.EI = steel.EAISI * r.Props.Inertia
	if r.Strut, err = s.Profile.Strut(steel.AISI, s.Steel.Fy, steel.EAISI, r.Bay); err != nil {
		return err
	}
	if r.Outer, err = s.Profile.Effective(steel.Outer, steel.AISI, s.Steel.Fy, steel.EAISI); err != nil {
		return err
	}
	if r.Inner, err = s.Profile.Effective(steel.Inner, steel.AISI, s.Steel.Fy, steel.EAISI); err != nil {
		return err
	}
	r.Vn, err = s.Profile.ShearStrength(s.Steel.Fy, steel.EAISI)
	return err
}

// effects are the loads on the roof by kind, kPa.
func (s *RoofStrip) effects() Effects {
	return Effects{D: s.Dead, L: s.Live + s.Water, S: s.Snow}
}

// rateAll rates every combination and keeps the worst.
func (s *RoofStrip) rateAll(r *RoofResult, combos []Combo, p float64,
	sums func(steel.BeamColumn) (float64, float64), fb, fv float64) ComboRatio {
	worstOne := ComboRatio{Ratio: -1}
	for k := range combos {
		if one := s.rate(r, &combos[k], p, sums, fb, fv); one.Ratio > worstOne.Ratio {
			worstOne = one
		}
	}
	worstOne.Second = s.second(r, &worstOne)
	return worstOne
}

// rate sets one combination against the strengths.
func (s *RoofStrip) rate(r *RoofResult, c *Combo, p float64,
	sums func(steel.BeamColumn) (float64, float64), fb, fv float64) ComboRatio {
	q := c.Of(s.effects())
	on := r.bent(q, c.L)
	out := ComboRatio{Name: c.Name, Q: q, P: p, Field: on.field + p*r.Sag, Hog: on.hog}
	col := steel.BeamColumn{P: p, M: out.Field, Pn: r.Strut.Pn, Pno: r.Strut.Pno, PE: r.Strut.PE, Mn: r.Outer.Mn, Cm: 1}
	out.Sums[sumBuckling], out.Sums[sumStrength] = sums(col)
	if len(s.Supports) > 0 {
		col.M, col.Mn = out.Hog, r.Inner.Mn
		_, out.Sums[sumOverBeam] = sums(col)
	}
	out.Sums[sumRoofShear] = on.shear / (fv * r.Vn)
	out.Ratio, _ = worst(out.Sums[:]...)
	return out
}

// second is the second-order moment of a combination.
func (s *RoofStrip) second(r *RoofResult, c *ComboRatio) float64 {
	if len(s.Supports) > 0 || len(s.Wheels) > 0 {
		return c.Field / math.Max(0, 1-c.P/r.Strut.PE)
	}
	return steel.SecantMoment(c.Q, c.P, r.EI, r.Bay) + sagMoment(c.P, r)
}

// sagMoment is the second-order moment of the thrust on an initial sag of sine
// form; +Inf at the Euler load.
func sagMoment(p float64, r *RoofResult) float64 {
	if p == 0 || r.Sag == 0 {
		return 0
	}
	return p * r.Sag / math.Max(0, 1-p/r.Strut.PE)
}

// deflect is the service deflection of the longest bay with the thrust: exact
// for one evenly loaded span, amplified by the Euler load otherwise.
func (s *RoofStrip) deflect(r *RoofResult) float64 {
	p := s.Thrust.ASD
	if p >= r.Strut.PE {
		return math.Inf(1)
	}
	grow := 1 / (1 - p/r.Strut.PE)
	q, _ := Largest(Allowable, s.effects())
	w := 0.0
	if len(s.Supports) > 0 {
		w = q * abs(r.unitSag) * grow
	} else {
		w = steel.SecantSag(q, p, r.EI, r.Bay)
	}
	return math.Max(w, r.wheels.sag*grow) + r.Sag*(grow-1)
}

// reactions collects what the roof presses on its supports.
func (r *RoofResult) reactions(s *RoofStrip) {
	n := len(r.Unit.Reactions) - 1
	at := func(k int) (Pair, Cases) {
		re := r.Unit.Reactions[k]
		e := Effects{D: s.Dead * re, L: (s.Live+s.Water)*re + r.wheels.on(k), S: s.Snow * re}
		asd, name := Largest(Allowable, e)
		lrfd, nameLRFD := Largest(Strength, e)
		return Pair{asd, lrfd}, Cases{name, nameLRFD}
	}
	first, _ := at(0)
	last, _ := at(n)
	r.Edge = Pair{math.Max(first.ASD, last.ASD), math.Max(first.LRFD, last.LRFD)}
	if n > 1 {
		r.Purlins, r.Cases = make([]Pair, n-1), make([]Cases, n-1)
	}
	for k := 1; k < n; k++ {
		r.Purlins[k-1], r.Cases[k-1] = at(k)
	}
}
