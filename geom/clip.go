package geom

import (
	"fmt"
	"math"

	sf "github.com/peterstace/simplefeatures/geom"
)

// Union is the region covered by a or b.
func Union(a, b Region) (Region, error) { return overlay(a, b, sf.Union) }

// Intersect is the region covered by both a and b.
func Intersect(a, b Region) (Region, error) { return overlay(a, b, sf.Intersection) }

// Difference is the region covered by a and not by b.
func Difference(a, b Region) (Region, error) { return overlay(a, b, sf.Difference) }

func overlay(a, b Region, op func(sf.Geometry, sf.Geometry) (sf.Geometry, error)) (Region, error) {
	ga, err := toSF(a)
	if err != nil {
		return nil, fmt.Errorf("first region: %w", err)
	}
	gb, err := toSF(b)
	if err != nil {
		return nil, fmt.Errorf("second region: %w", err)
	}
	g, err := op(ga, gb)
	if err != nil {
		return nil, err
	}
	return fromSF(g), nil
}

func toSF(r Region) (sf.Geometry, error) {
	var ps []sf.Polygon
	for _, p := range r {
		var rings []sf.LineString
		for _, ring := range p.Rings() {
			var c []float64
			for _, v := range ring.Closed() {
				c = append(c, math.Round(v[0]/SnapGrid)*SnapGrid, math.Round(v[1]/SnapGrid)*SnapGrid)
			}
			rings = append(rings, sf.NewLineString(sf.NewSequence(c, sf.DimXY)))
		}
		ps = append(ps, sf.NewPolygon(rings))
	}
	m := sf.NewMultiPolygon(ps)
	return m.AsGeometry(), m.Validate()
}

func fromSF(g sf.Geometry) (out Region) {
	for _, part := range g.Dump() {
		if !part.IsPolygon() {
			continue
		}
		p := part.MustAsPolygon().ForceCCW()
		poly := Polygon{Outer: ringSF(p.ExteriorRing())}
		for i := range p.NumInteriorRings() {
			poly.Holes = append(poly.Holes, ringSF(p.InteriorRingN(i)))
		}
		out = append(out, poly)
	}
	return out
}

func ringSF(l sf.LineString) (r Ring) {
	s := l.Coordinates()
	for i := range s.Length() - 1 {
		xy := s.GetXY(i)
		r = append(r, Vec{xy.X, xy.Y})
	}
	return r
}
