// Package dig checks the cut against excavation law: the batter of its faces,
// the gap beside the box, the spoil heap, overhead lines. The numbers are those
// of the United States rule for construction (29 CFR 1926 Subpart P); other
// places have others. R1 to R22 number the rules that can be checked from a drawing.
//
// Lengths are m; slopes are horizontal run per unit of rise (H:V).
package dig

import (
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Words that stand under every check of this package.
const (
	caution = "US federal excavation rule for construction: check the rule in force where the job is; a competent person decides on site"
	method  = "Tabulated slopes and limits of 29 CFR 1926 Subpart P"
)

const foot = 0.3048 // m

// length writes a length of the rule into a text, m.
func length(v float64) string { return quantity.Brief.Text(v, quantity.Length) }

// Limits of the rule. The mark says how far the source was seen.
const (
	protectFrom   = 5 * foot   // R1 (verified): protection from this depth on
	tabulatedTo   = 20 * foot  // R3, R9 (second-hand): deeper only by an engineer
	verticalMost  = 3.5 * foot // R5 (memory): vertical lower part in class A
	verticalTotal = 8 * foot   // R5 (memory): total depth with 3/4:1 above it
	verticalDeep  = 12 * foot  // R5 (memory): total depth with 1:1 above it
	verticalDeepN = 1.0        // R5 (memory)
	shieldAbove   = 1.5 * foot // R6 (second-hand): support above the vertical part
	benchFirst    = 4 * foot   // R7 (second-hand): first bench in A, every bench in B
	benchOther    = 5 * foot   // R7 (second-hand): other benches in A
	distressMore  = 0.5        // R10 (flatter: verified; by this much: memory)
	spoilSetback  = 2 * foot   // R12 (second-hand)
	egressFrom    = 4 * foot   // R13 (second-hand)
	egressTravel  = 25 * foot  // R13 (second-hand)
	trenchWidth   = 15 * foot  // R14 (memory)
	actWithin     = 20 * foot  // R21 (memory): distance at which to act near a line
	lineBase      = 10 * foot  // R22 (memory): excavators up to 50 kV
	linePerKV     = 0.4 * 0.0254
	lineBaseKV    = 50.0
	crestLoads    = 5 * foot // loads from the crest of a flat cut, public geotechnical letters
	ladderAbove   = 3 * foot // R13: ladders stand out above the edge
	looseN        = 1.5      // R2 (verified): slope where nobody classified the ground
)

// lengthTol is more than the rounding of feet turned into metres and less
// than anything that can be dug.
const lengthTol = 1e-6

// slopeTol is the rounding of a slope worked out from two lengths.
const slopeTol = 1e-9

// verticalN is the run per rise below which a face counts as vertical: the
// drawing gives a vertical face a run of a tenth of a millimetre per metre.
const verticalN = 1e-3

// exceeds says that a is above b by more than rounding.
func exceeds(a, b float64) bool { return a > b+lengthTol }

// tabulated gives the lasting slope of a class; the classes of this package
// are those of the table.
func tabulated(class string) tables.DigRule {
	r, ok := tables.Default().Dig(class)
	if !ok {
		panic("dig: class " + class + " is not in the table of legal slopes")
	}
	return r
}
