package model

import (
	"fmt"

	"hillset/engine/quantity"
)

// Problem is one fault of the input: the field by its path, the value found
// and what is allowed. Hard problems keep a value from being stored at all: a
// single value that can never be right, ids that stand twice, points that run
// backwards. The others only keep something from being computed: what is still
// missing, and values that do not fit together.
//
// Value, Allowed and Text may hold values (quantity.Text), which the reader's
// side writes in his units.
type Problem struct {
	Field   string // path as in the file, e.g. "fill.lift_height"
	Value   string // value found, as text
	Allowed string // what is allowed, e.g. "0.05 to 1 m"
	Text    string // what is wrong, in words
	Hard    bool

	// Ranged is true for a number outside Min to Max. Num, Min and Max are in
	// the SI unit of Kind, so that they can be shown in the reader's units.
	Ranged        bool
	Kind          quantity.Kind
	Num, Min, Max float64
}

// Error makes a Problem an error, in the units of the engine.
func (p Problem) Error() string {
	if p.Allowed == "" {
		return quantity.SI(fmt.Sprintf("%s = %s: %s", p.Field, p.Value, p.Text))
	}
	return quantity.SI(fmt.Sprintf("%s = %s: %s (allowed: %s)", p.Field, p.Value, p.Text, p.Allowed))
}
