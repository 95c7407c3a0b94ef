// Package assess runs the stages and the checks of a project and collects
// what they say. It is the only room of the engine that knows all the others.
package assess

import (
	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/water"
	"hillset/geom"
)

// Load is the pressure on one face of the box at one stage and station.
type Load struct {
	Stage   string
	Face    section.Face
	Station float64 // x along the box for side faces; unused for the others
	Diagram earth.Diagram
	Thrust  float64 // kN per m of wall
	Level   float64 // level at which it acts, m
}

// RoofLoad is the vertical pressure on the roof at one stage and station.
type RoofLoad struct {
	Stage   string
	Station float64
	Cover   float64 // m of soil on the roof
	Layers  float64 // kPa, build-up
	Soil    float64 // kPa, earth with arching factor
	Live    float64 // kPa, wheels through the cover, as the even pressure that bends or weighs as much
	Area    float64 // kPa, area surcharges
	Snow    float64 // kPa
	Water   float64 // kPa, water standing above the roof
	Total   float64
}

// Answer is one of the questions of the header, answered by calculation.
type Answer struct {
	Question string
	Value    float64 // m; NaN where there is none
	Kind     string  // "cover" (negative: below the roof) or "water" (above the underside): what Value measures
	Solved   bool
	// AtLeast and None say that the whole range tried is within, or that
	// nothing in it is.
	AtLeast, None bool
	Why           string // why there is no value
	Governs       string // check id that sets the limit
	Unmade        bool   // that check can no longer be made beyond the limit
}

// Result is the outcome of one assessment.
type Result struct {
	Project *model.Project
	Views   []*section.View // long section per stage, in order of the stages
	Loads   []Load
	Roofs   []RoofLoad
	// Checks has one entry per check and part, at its governing stage and
	// station, worst first; rules that are met come after those with a margin,
	// those not checked last.
	Checks []check.Check
	// Blocks says why nothing or not everything could be computed: problems of
	// the input as it stands.
	Blocks  []model.Problem
	Assumed []string // what was assumed throughout
	// Water is the computed ground water; nil where the level is given.
	Water *water.Field
	// Outlet is the pipe from the front corners of the box to daylight, in the long
	// section, m; empty where there is none or none is found.
	Outlet geom.Polyline
	// Slips are the circles along which the hillside slides first; none before
	// Hillside.
	Slips []Slip
	// Bays are the panels of the box patch by patch, each part at its worst
	// stage.
	Bays []Bay
	// Panels are the faces that the bays lie on; none where nothing was worked.
	Panels []Panel
	// Climate is what was worked out of frost, warmth and air; never nil after a
	// stage was worked.
	Climate *Climate
	// Kit is what is built in to strengthen the box.
	Kit Takeoff
	// Depth and WaterUp answer two questions of the header; Governing the first.
	Depth, WaterUp Answer
}

// Governing is the check with the largest ratio, nil when nothing was checked.
// Frost and the air of the room break nothing at once: one of theirs governs
// only where nothing else is beyond limits. A rule that is met has no margin: it
// governs only where nothing else was checked.
func (r *Result) Governing() *check.Check {
	if r == nil {
		return nil
	}
	var climate *check.Check
	for i := range r.Checks {
		c := &r.Checks[i]
		switch {
		case c.Verdict() == check.NotChecked: // those come last
			return climate
		case !ofClimate(c.ID) && climate != nil && climate.Verdict() == check.Beyond && c.Verdict() != check.Beyond:
			return climate
		case !ofClimate(c.ID):
			return c
		case climate == nil:
			climate = c
		}
	}
	return climate
}
