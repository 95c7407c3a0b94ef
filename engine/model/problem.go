package model

import "fmt"

// Problem is one fault of the input: the field by its path, the value found
// and what is allowed. Hard problems keep a value from being stored at all;
// the others only keep something from being computed.
type Problem struct {
	Field   string // path as in the file, e.g. "fill.lift_height"
	Value   string // value found, as text
	Allowed string // what is allowed, e.g. "0.05 to 1 m"
	Text    string // what is wrong, in words
	Hard    bool
}

// Error makes a Problem an error.
func (p Problem) Error() string {
	if p.Allowed == "" {
		return fmt.Sprintf("%s = %s: %s", p.Field, p.Value, p.Text)
	}
	return fmt.Sprintf("%s = %s: %s (allowed: %s)", p.Field, p.Value, p.Text, p.Allowed)
}
