// Package scene is the drawing between the engine and whatever shows it: a
// display list of paths and labels, in metres of the section, with sizes of
// signs and letters in millimetres of paper. The screen, the PDF and the
// exports all replay the same list, so that what is seen is what is handed
// out. It knows neither the window toolkit nor the PDF library.
package scene

import "hillset/geom"

// Layer groups items that are shown and hidden together. Layers are drawn in
// the order of the items, not of the layers.
type Layer string

// Layers of a section.
const (
	Ground    Layer = "ground"
	Fills     Layer = "fill"
	BoxLayer  Layer = "box"
	Water     Layer = "water"
	Pressures Layer = "pressures"
	Dims      Layer = "dimensions"
	Levels    Layer = "levels"
	Slopes    Layer = "batters"
	Callouts  Layer = "callouts"
	Verdicts  Layer = "verdicts"
	SlipLine  Layer = "slip"  // where the hillside slides first
	Flow      Layer = "flow"  // flow lines of the computed water
	Heads     Layer = "heads" // lines of equal head
	Mesh      Layer = "mesh"  // triangles that it was computed on
	Frame     Layer = "frame" // scale bar, axes, arrows

	// What the steel does, drawn where Options.Portrait is given.
	Deformed    Layer = "deformed"
	MomentLines Layer = "moments"
	ThrustLines Layer = "thrusts"
)

// Role names a colour by its use; a Palette turns it into a colour.
type Role string

// Path is lines or areas with one style.
type Path struct {
	Layer  Layer
	Tag    string          // what it is, for tests and picking, e.g. "zone:backfill"
	Parts  []geom.Polyline // one or more chains, in metres
	Closed bool            // chains are rings; filled even-odd
	Fill   Role            // "" for none
	Stroke Role            // "" for none
	Width  float64         // mm on paper
	Dash   []float64       // mm on, mm off, ...; nil for a full line
}

// Anchor is which point of the text stands at the given place.
type Anchor struct {
	H float64 // 0 left, 0.5 middle, 1 right
	V float64 // 0 baseline, 0.5 middle of a capital, 1 top of a capital
}

// Label is one line of text.
type Label struct {
	Layer  Layer
	Tag    string
	At     geom.Vec // metres
	Text   string
	Height float64 // capital height, mm on paper
	Angle  float64 // rad, anticlockwise
	Anchor Anchor
	Role   Role
	Bold   bool
	Halo   bool // cleared ground behind the letters, in the paper colour
}

// Item is one thing of the display list: exactly one of the two is set.
type Item struct {
	Path  *Path
	Label *Label
}

// Scene is a display list.
type Scene struct {
	Items   []Item
	Bounds  geom.Rect // of everything, in metres
	MMPerM  float64   // paper millimetres per metre that signs were laid out for
	Caption string    // what the section is
	Lost    []string  // texts that found no free place at this scale
	Axis    geom.Rect // strip of the level axis, kept free of signs; empty where there is none
}
