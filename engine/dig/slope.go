package dig

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Piece is one straight stretch of a cut face in one layer, from its foot to
// its top, and the level step behind its top.
type Piece struct {
	Stratum   string  // name for the reader
	Class     string  // excavation class found; None where nobody classified it
	Foot, Top float64 // heights above the toe of the face, m
	N         float64 // horizontal run per unit of rise
	Step      float64 // width of the level bench at its top, m; 0 for none
	Cohesive  bool    // clay-like: only such ground may be benched in class B
}

// BatterInput is one face of the cut, from the toe up.
type BatterInput struct {
	Part   string  // the face, e.g. "back face of the cut"
	Pieces []Piece // contiguous, Foot of the first is 0
	// Height of the cut from toe to crest, m. It may be more than the top of
	// the last piece where another face of the same cut is higher; 0 takes
	// that top. On a hillside it is the height at the crest, not over the toe.
	Height    float64
	HoursOpen float64 // how long the face stands open; 0 where not known
	Seepage   bool    // water seeps from the face
	Fissured  bool    // fissures seen, or ground disturbed before
	Distress  bool    // cracks behind the crest, slumps, bulges, spalling
	Surcharge bool    // spoil, plant or traffic loads the crest
	// ShieldTop is the height above the toe to which a shield or shoring
	// supports the lower part of the face; 0 for none.
	ShieldTop float64
}

// Requirement is what the rule asks of a face.
type Requirement struct {
	N        []float64 // least run per rise of each piece; 0 may be vertical
	Classes  []string  // class each piece counts as
	Height   float64   // height the rule looks at, m
	ShieldTo float64   // height above the toe that a shield must reach, m; 0 none is counted on
	Engineer bool      // too deep for the table: an engineer designs the slope
	Reasons  []string  // why, in words
}

// Required works out the least slope of every piece of a face (rules R1 to R6,
// R8 to R10). A weaker layer over a stronger one keeps its own slope; every
// layer above a weaker one takes the slope of the weaker (R8). Engineer is set
// for any cut deeper than 20 ft, stable rock included (R9). Where Engineer
// is true, N holds the slopes of the table as if they went on, for
// information. Errors name the field out of range.
func Required(in BatterInput) (Requirement, error) {
	if err := in.check(); err != nil {
		return Requirement{}, err
	}
	req := Requirement{N: make([]float64, len(in.Pieces)), Height: in.height()}
	req.classify(in)
	req.layers()
	if exceeds(req.Height, tabulatedTo) {
		req.Engineer = true
		req.because("R9: the cut is deeper than " + length(tabulatedTo))
		return req, nil
	}
	if req.shallow(in) {
		return req, nil
	}
	req.shortTerm(in)
	req.distress(in)
	req.verticalPart(in)
	return req, nil
}

func (q *Requirement) because(why string) { q.Reasons = append(q.Reasons, why) }

// classify puts the class of every piece right for what the face shows.
func (q *Requirement) classify(in BatterInput) {
	for _, p := range in.Pieces {
		class, why := lowered(p.Class, in.Seepage, in.Fissured)
		if why != "" {
			q.because(p.Stratum + ": " + why)
		}
		if class == None {
			q.because(p.Stratum + ": not classified, so 1½H:1V (R2)")
		}
		q.Classes = append(q.Classes, class)
	}
}

// layers gives every piece the flattest slope of itself and all below (R8).
func (q *Requirement) layers() {
	below := 0.0
	for i, class := range q.Classes {
		own := ownSlope(class)
		if own < below {
			q.because("R8: a layer above a weaker one takes the slope of the weaker")
		}
		below = math.Max(below, own)
		q.N[i] = below
	}
}

// ownSlope is the lasting slope of one class by itself (R3; R2 unclassified).
func ownSlope(class string) float64 {
	if class == None {
		return looseN
	}
	return tabulated(class).N
}

// shallow releases a cut that needs no protection: less than 5 ft deep and no
// sign of a cave-in (R1).
func (q *Requirement) shallow(in BatterInput) bool {
	if !(q.Height < protectFrom-lengthTol) || in.Distress || in.Seepage || in.Fissured {
		return false
	}
	for i := range q.N {
		q.N[i] = 0
	}
	q.because("R1: less than " + length(protectFrom) + " deep; no slope is asked as long as a competent person sees no sign of a cave-in")
	return true
}

// shortTerm lets a face wholly in class A stand steeper for a day (R4).
func (q *Requirement) shortTerm(in BatterInput) {
	a := tabulated(A)
	if in.Distress || in.HoursOpen <= 0 || in.HoursOpen > a.ShortHrs || exceeds(q.Height, a.ShortMax) || !q.all(A) {
		return
	}
	for i := range q.N {
		q.N[i] = a.ShortN
	}
	q.because("R4: class A, not deeper than " + length(verticalDeep) + " and open no longer than 24 hours")
}

// distress flattens every slope of soil where the ground shows that it moves.
func (q *Requirement) distress(in BatterInput) {
	if !in.Distress {
		return
	}
	for i := range q.N {
		q.N[i] += distressMore
	}
	q.because("R10: signs of distress; stop work, and lay the face back by at least ½H:1V more before anyone goes in again")
}

// verticalPart treats a vertical stretch at the toe: supported (R6), or in
// class A low and under a flatter slope (R5); otherwise it is not allowed. A
// benched face is judged by its own rule (R7).
func (q *Requirement) verticalPart(in BatterInput) {
	k := vertical(in.Pieces, q.N)
	if k == 0 || in.ShieldTop == 0 && in.benched() {
		return
	}
	top := in.Pieces[k-1].Top
	if in.ShieldTop > 0 {
		clear(q.N[:k])
		q.ShieldTo = top + shieldAbove
		q.because("R6: the vertical lower part is supported; the support stands " + length(shieldAbove) + " above it")
		return
	}
	if in.Distress || !q.all(A) || exceeds(top, verticalMost) || exceeds(q.Height, verticalDeep) {
		q.because("R5: a vertical lower part without support is not allowed here (class A only, up to " + length(verticalMost) + " high, in a cut up to " + length(verticalDeep) + " deep)")
		return
	}
	above := tabulated(A).N
	if exceeds(q.Height, verticalTotal) {
		above = verticalDeepN
	}
	clear(q.N[:k])
	for i := k; i < len(q.N); i++ {
		q.N[i] = above
	}
	q.because("R5: class A with a vertical lower part up to " + length(verticalMost) + " high")
}

// vertical counts the pieces of a vertical stretch that starts at the toe and
// has a slope asked of it.
func vertical(pieces []Piece, need []float64) int {
	k := 0
	for k < len(pieces) && pieces[k].N <= verticalN && need[k] > 0 {
		k++
	}
	return k
}

func (q *Requirement) all(class string) bool {
	for _, c := range q.Classes {
		if c != class {
			return false
		}
	}
	return true
}

// benched says that the face has level steps.
func (in BatterInput) benched() bool {
	for _, p := range in.Pieces {
		if p.Step > lengthTol {
			return true
		}
	}
	return false
}

func (in BatterInput) height() float64 {
	return math.Max(in.Height, in.Pieces[len(in.Pieces)-1].Top)
}

// Ranges that a face may have; wider than anything dug for a box.
const (
	mostHeight = 200.0 // m
	mostRun    = 100.0 // H:V
	mostHours  = 1e6
)

func (in BatterInput) check() error {
	if len(in.Pieces) == 0 {
		return fmt.Errorf("%w: face of the cut = no pieces, allowed at least one", quantity.ErrRange)
	}
	at := 0.0
	for i, p := range in.Pieces {
		if err := p.check(fmt.Sprintf("face piece %d", i+1), at); err != nil {
			return err
		}
		at = p.Top
	}
	if in.Height != 0 {
		if err := quantity.Within("height of the cut", in.Height, at-lengthTol, mostHeight, quantity.Length); err != nil {
			return err
		}
	}
	if err := quantity.Within("hours open", in.HoursOpen, 0, mostHours, quantity.Hours); err != nil {
		return err
	}
	return quantity.Within("top of the shield", in.ShieldTop, 0, mostHeight, quantity.Length)
}

func (p Piece) check(name string, foot float64) error {
	if rank(p.Class) < 0 {
		return fmt.Errorf("%w: %s class = %q, allowed rock, A, B, C or none", quantity.ErrRange, name, p.Class)
	}
	if err := quantity.Within(name+" foot", p.Foot, foot-lengthTol, foot+lengthTol, quantity.Length); err != nil {
		return err
	}
	if err := quantity.Within(name+" top", p.Top, p.Foot, mostHeight, quantity.Length); err != nil {
		return err
	}
	if p.Top <= p.Foot {
		return fmt.Errorf("%w: %s top = %s, allowed above its foot", quantity.ErrRange, name, quantity.Typed.Text(p.Top, quantity.Length))
	}
	if err := quantity.Range(name+" batter (H:V)", p.N, 0, mostRun); err != nil {
		return err
	}
	return quantity.Within(name+" bench width", p.Step, 0, mostHeight, quantity.Length)
}
