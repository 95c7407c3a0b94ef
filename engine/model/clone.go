package model

import (
	"maps"
	"slices"
)

// Clone returns a deep copy of p: no slice, map or pointer is shared, and nil
// stays nil. It copies field by field, as it runs on every step of a drag.
func (p *Project) Clone() *Project {
	q := *p
	q.Site = p.Site.clone()
	q.Box.Openings = slices.Clone(p.Box.Openings)
	q.Cut.ByStratum = maps.Clone(p.Cut.ByStratum)
	q.Cut.Benches = slices.Clone(p.Cut.Benches)
	q.Fill.Line = slices.Clone(p.Fill.Line)
	q.Fill.Roof = slices.Clone(p.Fill.Roof)
	q.Strengthening.Ribs.Struts = slices.Clone(p.Strengthening.Ribs.Struts)
	q.Strengthening.Wales = slices.Clone(p.Strengthening.Wales)
	q.Strengthening.BackWales = slices.Clone(p.Strengthening.BackWales)
	q.Defence.Layers = slices.Clone(p.Defence.Layers)
	q.Prices = maps.Clone(p.Prices)
	q.Room.Temperature = copyOf(p.Room.Temperature)
	q.Stages = slices.Clone(p.Stages)
	for i := range q.Stages {
		q.Stages[i].Surcharges = slices.Clone(q.Stages[i].Surcharges)
	}
	return &q
}

func (s Site) clone() Site {
	s.Ground = slices.Clone(s.Ground)
	s.Rock = slices.Clone(s.Rock)
	s.Soils = slices.Clone(s.Soils)
	for i := range s.Soils {
		s.Soils[i].Set = slices.Clone(s.Soils[i].Set)
		s.Soils[i].Sieves = slices.Clone(s.Soils[i].Sieves)
	}
	s.Strata = slices.Clone(s.Strata)
	for i := range s.Strata {
		s.Strata[i].Top = slices.Clone(s.Strata[i].Top)
	}
	s.Water.Observed = slices.Clone(s.Water.Observed)
	s.Water.DesignHigh = copyOf(s.Water.DesignHigh)
	s.Water.Seasonal = copyOf(s.Water.Seasonal)
	s.Climate.AirMean = copyOf(s.Climate.AirMean)
	s.Surcharges = slices.Clone(s.Surcharges)
	for i := range s.Surcharges {
		s.Surcharges[i].Y1 = copyOf(s.Surcharges[i].Y1)
		s.Surcharges[i].Y2 = copyOf(s.Surcharges[i].Y2)
	}
	return s
}

// copyOf copies the value behind p; nil stays nil.
func copyOf(p *float64) *float64 {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}
