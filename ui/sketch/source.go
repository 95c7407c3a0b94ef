package sketch

import (
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
)

// Source is what a board shows and changes.
type Source interface {
	// Project is the current snapshot; nobody may change it.
	Project() *model.Project
	// View is the section to be drawn at the stage that is looked at. The error
	// says what is missing.
	View() (*section.View, error)
	// Scene draws the section for mmPerM millimetres of paper per metre, within
	// the window clip.
	Scene(v *section.View, mmPerM float64, clip geom.Rect) (*scene.Scene, error)
	// Edit changes the project. Edits with the same merge text become one step
	// of undo until EndGesture.
	Edit(what, merge string, change func(*model.Project) error) error
	EndGesture()
	Undo()
	Redo()
	// Format writes an SI value in the reader's units, with the unit.
	Format(v float64, kind quantity.Kind) string
	// Entry writes an SI value for a field in which it is changed: nothing of
	// it is lost.
	Entry(v float64, kind quantity.Kind) string
	// Parse reads what a person typed, in any unit of the kind, into SI.
	Parse(text string, kind quantity.Kind) (float64, error)
	// Explain says what is wrong in the reader's units.
	Explain(err error) string
	// Steps are the round lengths of the reader's units: the grid that drawing
	// snaps to and the step of an arrow key, m.
	Steps() (grid, nudge float64)
}

// Kind is which of the two sections a board shows.
type Kind int

// The two sections.
const (
	LongSection  Kind = iota // down the fall line, drawn by the user
	CrossSection             // along the contour, derived at a station
)
