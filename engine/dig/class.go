package dig

import (
	"fmt"
	"slices"
	"strings"

	"hillset/engine/quantity"
)

// Excavation classes, strongest first. None stands for ground that nobody has
// classified.
const (
	Rock = "rock" // stable rock
	A    = "A"
	B    = "B"
	C    = "C"
	None = ""
)

// Kinds of ground that the classes are told from.
const (
	Cohesive      = "cohesive"       // clay, silty or sandy clay, clay loam
	Cemented      = "cemented"       // caliche, hardpan
	Silt          = "silt"           // silt, silt loam, sandy loam
	AngularGravel = "angular gravel" // crushed, interlocking
	Granular      = "granular"       // gravel, sand, loamy sand
	StableRock    = "stable rock"    // stands vertical while exposed
	UnstableRock  = "unstable rock"
)

const tsf = 2000 * 0.0044482216152605 / (foot * foot) // short ton per square foot, kPa

// Strength bounds of the classes (App. A, memory).
const (
	strongFrom = 1.5 * tsf // A from here on
	weakTo     = 0.5 * tsf // C up to here
	dipLimit   = 4.0       // H:V of layers dipping into the cut
	quMost     = 1e5       // kPa, beyond any soil or rock
)

// strengthTol is the rounding of a strength turned from tons per square foot
// into kPa.
const strengthTol = 1e-6

// Field is what is seen and measured of one layer of a cut face.
type Field struct {
	Kind string
	Qu   float64 // unconfined compressive strength, kPa; asked for Cohesive and Cemented only

	Fissured, Vibrated, Disturbed bool
	Seeping                       bool // water freely seeps from the face, or the soil is submerged
	// Dip is the run per rise of layers that dip into the cut (H:V); 0 where
	// they do not.
	Dip float64
}

// Classify tells the excavation class of one layer from what is seen of it
// (29 CFR 1926 Subpart P App. A, class limits from memory) and why. Errors
// name the field out of range.
func Classify(f Field) (class string, why []string, err error) {
	if err := f.check(); err != nil {
		return None, nil, err
	}
	class, reason := f.base()
	why = []string{reason}
	lower := func(to, reason string) {
		if weaker(to, class) {
			class = to
			why = append(why, reason)
		}
	}
	if f.Fissured {
		lower(B, "fissured ground is not class A")
	}
	if f.Vibrated && class != Rock {
		lower(B, "ground under vibration is not class A")
	}
	if f.Disturbed {
		lower(B, "ground dug or filled before is not class A")
	}
	if f.Dip > 0 && f.Dip <= dipLimit {
		lower(C, "layers dip into the cut at 4H:1V or steeper")
	}
	if f.Seeping && class != Rock {
		lower(C, "water seeps from the face")
	}
	return class, why, nil
}

func (f Field) check() error {
	kinds := []string{Cohesive, Cemented, Silt, AngularGravel, Granular, StableRock, UnstableRock}
	if !slices.Contains(kinds, f.Kind) {
		return fmt.Errorf("%w: kind of ground = %q, allowed %s", quantity.ErrRange, f.Kind, strings.Join(kinds, ", "))
	}
	if err := quantity.Within("unconfined strength", f.Qu, 0, quMost, quantity.Pressure); err != nil {
		return err
	}
	return quantity.Range("dip of the layers (H:V, 0 for none)", f.Dip, 0, 1e6)
}

// base is the class of the ground as it would be dry, whole and at rest.
func (f Field) base() (class, why string) {
	switch f.Kind {
	case StableRock:
		return Rock, "stable rock"
	case UnstableRock:
		return B, "rock that is not stable, dry"
	case Silt, AngularGravel:
		return B, f.Kind
	case Granular:
		return C, "gravel, sand or loamy sand"
	}
	switch {
	case f.Qu >= strongFrom-strengthTol:
		return A, "unconfined strength at least 1.5 tons per square foot"
	case f.Qu > weakTo+strengthTol:
		return B, "unconfined strength between 0.5 and 1.5 tons per square foot"
	}
	return C, "unconfined strength up to 0.5 tons per square foot"
}

// rank orders the classes from strong to weak.
func rank(class string) int { return slices.Index([]string{Rock, A, B, C, None}, class) }

func weaker(a, b string) bool { return rank(a) > rank(b) }

// lowered is a class found earlier, put right for what the open face shows:
// fissures or old disturbance take a soil out of class A and make rock
// unstable; seepage makes every soil, and unstable rock, class C. The reason
// is empty where nothing changes.
func lowered(class string, seepage, fissured bool) (as, why string) {
	if fissured && weaker(B, class) {
		class, why = B, "fissured or disturbed ground is class B at best"
	}
	if seepage && class != Rock && weaker(C, class) {
		class, why = C, "water seeps from the face, so it counts as class C"
	}
	return class, why
}
