// Package geom is plane geometry for sections: polylines over a horizontal
// axis, polygons with holes, clipping, offsets and hatching. Points are
// mathgl vectors (x, z) in metres with z up. The package knows nothing of
// soil, boxes or drawing.
//
// Functions given NaN or infinite coordinates panic in none of the exported
// paths: they return an error or the empty result their comment names.
package geom

import "github.com/go-gl/mathgl/mgl64"

// Vec is a point or a direction in the plane.
type Vec = mgl64.Vec2

// Polyline is an open chain of points.
type Polyline []Vec

// Ring is a closed chain of points; the last is joined to the first and is not
// repeated. Anticlockwise rings have positive area.
type Ring []Vec

// Polygon is one outer ring with holes.
type Polygon struct {
	Outer Ring
	Holes []Ring
}

// Region is a set of polygons that do not overlap; nil is empty.
type Region []Polygon

// Segment is a straight line from A to B.
type Segment struct{ A, B Vec }

// Rect is an axis-parallel rectangle. The zero Rect is empty.
type Rect struct{ Min, Max Vec }
