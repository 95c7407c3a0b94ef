// Package version is the one home of the name and the version of the program.
package version

// Name and Number of the program.
const (
	Name   = "Hillset"
	Number = "0.1"
)

// Text is what sheets, reports and the window say of themselves.
const Text = Name + " " + Number
