// Package section derives the two sections from a project: the long section
// down the fall line and the cross section at a station, with the cut, the
// box, the bedding, the fill and the finished surface at a given stage. It
// also gives the columns of soil beside the faces of the box.
package section

import (
	"hillset/engine/model"
	"hillset/geom"
)

// ZoneKind says what a zone of the section is made of.
type ZoneKind string

// Kinds of zone.
const (
	Natural  ZoneKind = "natural"
	Backfill ZoneKind = "backfill"
	Rock     ZoneKind = "drain-rock"
	Cap      ZoneKind = "clay-cap"
	Topsoil  ZoneKind = "topsoil"
	Bed      ZoneKind = "rock-bed"
	Pad      ZoneKind = "pad"
	Slab     ZoneKind = "slab"
	RoofLay  ZoneKind = "roof-layer"
	Toe      ZoneKind = "toe-beam"
	BedRock  ZoneKind = "bedrock"
)

// Zone is one material in a section.
type Zone struct {
	Kind   ZoneKind
	Name   string // as the drawing calls it
	Soil   string // soil id; empty for other materials
	Hatch  string // USCS symbol or material name that chooses the hatch
	Region geom.Region
}

// Batter is one straight piece of a cut face.
type Batter struct {
	Foot, Top geom.Vec
	N         float64 // horizontal run per unit rise
	Stratum   string  // stratum id
}

// Face is a face of the box.
type Face string

// Faces of the box, named looking into the hill.
const (
	Front Face = "front"
	Back  Face = "back"
	Left  Face = "left"
	Right Face = "right"
	Roof  Face = "roof"
	Floor Face = "floor"
)

// View is one section at one stage, ready to be drawn and measured. For the
// long section the horizontal axis is x; for the cross section it is y.
type View struct {
	Stage     model.Stage
	Long      bool
	Station   float64       // x of a cross section
	Ground    geom.Polyline // ground as found
	Finish    geom.Polyline // surface at this stage
	Strata    []Zone        // natural ground less what is dug away
	Excavated geom.Region   // what was dug away
	CutLine   geom.Polyline // formation and faces; nil before the cut
	Batters   []Batter      // faces of the cut; [0] is the back or left face
	Toe       geom.Vec      // foot of the (back or left) face
	Crest     geom.Vec      // where it meets the ground
	CutHeight float64       // vertical height of the highest face
	Formation float64       // level of the formation
	HasBox    bool
	Box       geom.Rect // outside of the box
	Doors     bool      // the section shows the doors on the left (low x) face
	Bedding   []Zone
	Fill      []Zone
	Wings     []WingSeen // wing walls behind the plane of a long section
	Water     float64    // level of standing water assumed at this stage; NaN for none

	lay   *layout
	sides []side
}
