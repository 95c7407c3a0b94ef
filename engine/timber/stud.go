package timber

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Stud is one upright of a skin, pinned at the bottom and the top, flat on the
// rails, under the pressure on its strip of wall.
type Stud struct {
	Lumber  tables.Lumber
	Use     Use
	Spacing float64 // m
	Height  float64 // m, between the edges of the rails
	// Bottom and Top are how long the stud bears on the lower and the upper
	// rail, m.
	Bottom, Top float64
	Load        frame.Load // kPa over the height from the bottom, all that presses on the wall
	Share       float64    // of it that the stud takes, 0 to 1
}

// factorWall is the load factor of all that presses on a wall: 1.6H + 1.6L, as
// for the sheets (structure reference, section 7, verified).
const factorWall = 1.6

// StudResult is what comes out of a stud. Forces are those of one stud.
type StudResult struct {
	Design
	A, S, I     float64    // m2, m3, m4
	Beam        frame.Beam // service loads
	M, V        box.Pair   // kNm, kN
	Rb, Rt      box.Pair   // kN on the lower and the upper rail
	Bend, Shear box.Pair   // ratios
	Bear        box.Pair   // ratio of the worse of the two bearings
	BearTop     bool       // that is the upper one
	Sag         float64    // m, with creep
}

// ReadyStud is a stud with what does not depend on its load worked out once.
// Goroutines may share it.
type ReadyStud struct {
	stud Stud
	base StudResult
}

// check refuses what is no stud outside the wall of a box.
func (s Stud) check() error {
	for _, err := range []error{
		quantity.Within("stud spacing", s.Spacing, 0.05, 3, quantity.Length),
		quantity.Within("stud height", s.Height, 0.3, 6, quantity.Length),
		quantity.Within("breadth of the stud", s.Lumber.B, 0.01, 0.3, quantity.Thickness),
		quantity.Within("depth of the stud", s.Lumber.D, 0.02, 0.4, quantity.Thickness),
		quantity.Within("bearing on the lower rail", s.Bottom, 0.005, 0.5, quantity.Thickness),
		quantity.Within("bearing on the upper rail", s.Top, 0.005, 0.5, quantity.Thickness),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Ready prepares a stud for many loads. Its own load and share are set aside.
func (s Stud) Ready() (*ReadyStud, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	out := &ReadyStud{stud: s}
	r := &out.base
	var err error
	if r.Design, err = Adjust(s.Lumber, s.Use); err != nil {
		return nil, err
	}
	b, d := s.Lumber.B, s.Lumber.D
	r.A, r.S, r.I = b*d, b*d*d/6, b*d*d*d/12
	return out, nil
}

// EI is the bending stiffness of a metre of skin, kNm2/m.
func (s *ReadyStud) EI() float64 { return s.base.ASD.E * s.base.I / s.stud.Spacing }

// With is the stud under a load and a share of it, to be checked.
func (s *ReadyStud) With(load frame.Load, share float64) Stud {
	out := s.stud
	out.Load, out.Share = load, share
	return out
}

// Solve does the statics and the ratios of the stud.
func (s Stud) Solve() (StudResult, error) {
	ready, err := s.Ready()
	if err != nil {
		return StudResult{}, err
	}
	return ready.Under(s.Load, s.Share)
}

// Under is Stud.Solve under a load and a share of it.
func (s *ReadyStud) Under(load frame.Load, share float64) (StudResult, error) {
	r := s.base
	if err := quantity.Range("share of the stud", share, 0, 1); err != nil {
		return r, err
	}
	w := s.stud.Spacing * share
	var err error
	if r.Beam, err = frame.Simple(s.stud.Height, load.Scale(w), r.ASD.E*r.I); err != nil {
		return r, err
	}
	pair := func(v float64) box.Pair { return box.Pair{ASD: math.Abs(v), LRFD: math.Abs(v) * factorWall} }
	r.M, r.V = pair(r.Beam.MMax), pair(r.Beam.VMax)
	r.Rb, r.Rt = pair(r.Beam.Ra), pair(r.Beam.Rb)
	r.Bend = box.Pair{ASD: r.M.ASD / (r.S * r.ASD.Fb), LRFD: r.M.LRFD / (r.S * r.LRFD.Fb)}
	r.Shear = box.Pair{ASD: 1.5 * r.V.ASD / (r.A * r.ASD.Fv), LRFD: 1.5 * r.V.LRFD / (r.A * r.LRFD.Fv)}
	bear := func(p box.Pair, length float64) box.Pair {
		a := s.stud.Lumber.B * length
		return box.Pair{ASD: p.ASD / (a * r.ASD.FcP), LRFD: p.LRFD / (a * r.LRFD.FcP)}
	}
	low, high := bear(r.Rb, s.stud.Bottom), bear(r.Rt, s.stud.Top)
	r.Bear = low
	if r.BearTop = high.ASD > low.ASD; r.BearTop {
		r.Bear = high
	}
	sag, _ := r.Beam.Sag()
	r.Sag = math.Abs(sag) * s.stud.Use.Creep()
	return r, nil
}

// Worst is the largest ratio of the stud in each of the two forms.
func (r *StudResult) Worst() box.Pair {
	return box.Pair{ASD: math.Max(r.Bend.ASD, math.Max(r.Shear.ASD, r.Bear.ASD)),
		LRFD: math.Max(r.Bend.LRFD, math.Max(r.Shear.LRFD, r.Bear.LRFD))}
}
