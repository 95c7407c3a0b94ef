package section

import (
	"math"

	"hillset/engine/model"
	"hillset/geom"
)

// side is the fill beside one wall of the box at this stage.
type side struct {
	edge, limit float64 // from the wall to the end of the axis
	dir         float64
	surface     geom.Polyline // top of the fill, or what is dug where there is none
	dug         geom.Polyline
}

// fill lays the earth beside the box, with the zones of it and the surface
// over all where they are to be drawn.
func (l *layout) fill(v *View, drawn bool) error {
	for _, dir := range [...]float64{-1, 1} {
		if !l.filled(dir) {
			continue
		}
		s, err := l.side(dir)
		if err != nil {
			return err
		}
		v.sides = append(v.sides, s)
	}
	if !drawn {
		return nil
	}
	for _, s := range v.sides {
		v.Fill = append(v.Fill, l.sideZones(s)...)
	}
	if l.st.Cover {
		v.Fill = append(v.Fill, l.roofZones()...)
	}
	v.Finish = l.silhouette(v.sides)
	return nil
}

// filled tells whether earth is brought against the wall on that side. The
// front stays open, and so does the door end of a box set broadside.
func (l *layout) filled(dir float64) bool {
	if l.length {
		return dir > 0
	}
	return dir > 0 || l.p.Box.Orientation == model.EndOn
}

func (l *layout) side(dir float64) (side, error) {
	s := side{edge: l.b, limit: l.ax.hi, dir: dir}
	lead := 0.0
	if dir < 0 {
		s.edge, s.limit = l.a, l.ax.lo
		if l.st.OneSide {
			lead = l.p.Fill.MaxAhead
		}
	}
	f := l.flank(dir, s.edge, s.limit)
	if f.err != nil {
		return s, f.err
	}
	s.dug = f.dug
	s.surface = l.stageSurface(f.finish, s.dug, s.edge, lead)
	return s, nil
}

// flank is what lies beside a wall at every stage, worked out when first asked.
func (l *layout) flank(dir, edge, limit float64) *flank {
	k := 0
	if dir > 0 {
		k = 1
	}
	f := &l.flanks[k]
	if !f.done {
		f.done = true
		f.dug = l.dug.ClipX(math.Min(edge, limit), math.Max(edge, limit))
		f.finish, f.err = l.profile(f.dug, edge, limit, dir)
	}
	return f
}

// shifted is a line moved down by dz, but not below the dug surface.
func (s side) shifted(dz float64) geom.Polyline {
	if dz == 0 {
		return s.surface
	}
	return geom.Upper(s.surface.Translate(geom.Vec{0, -dz}), s.dug)
}

func (s side) between(upper, lower geom.Polyline, from, to float64) geom.Region {
	return geom.Between(upper, lower, math.Min(from, to), math.Max(from, to))
}

// covers are the thicknesses of topsoil and clay cap laid at this stage.
func (l *layout) covers() (topsoil, clay float64) {
	if !l.st.Cover {
		return 0, 0
	}
	return l.p.Fill.TopsoilThickness, l.p.Fill.CapThickness
}

// sideZones splits the fill beside a wall into drainage rock, backfill, clay
// cap and topsoil.
func (l *layout) sideZones(s side) []Zone {
	topsoil, clay := l.covers()
	under, body := s.shifted(topsoil), s.shifted(topsoil+clay)
	rockEnd := s.edge + s.dir*l.p.Fill.RockWidth
	rockEnd = s.dir * math.Min(s.dir*rockEnd, s.dir*s.limit)
	top := l.roof - l.p.Fill.RockTop
	flat := geom.Polyline{{l.ax.lo, top}, {l.ax.hi, top}}

	rock := s.between(geom.Lower(body, flat), s.dug, s.edge, rockEnd)
	fill := s.between(body, s.dug, rockEnd, s.limit)
	fill = append(fill, s.between(body, geom.Upper(flat, s.dug), s.edge, rockEnd)...)
	out := []Zone{
		l.soilZone(Rock, l.p.Fill.RockSoil, rock),
		l.soilZone(Backfill, l.p.Fill.Backfill, fill),
		l.soilZone(Cap, l.p.Fill.CapSoil, s.between(under, body, s.edge, s.limit)),
		l.soilZone(Topsoil, l.p.Fill.TopsoilSoil, s.between(s.surface, under, s.edge, s.limit)),
	}
	return keepFilled(out)
}

func (l *layout) soilZone(kind ZoneKind, id string, r geom.Region) Zone {
	so, _ := SoilByID(l.p, id)
	return Zone{Kind: kind, Name: so.Name, Soil: id, Hatch: so.USCS, Region: r}
}

func keepFilled(in []Zone) []Zone {
	out := in[:0]
	for _, z := range in {
		if len(z.Region) > 0 {
			out = append(out, z)
		}
	}
	return out
}

// overBox is the finished surface above the roof, in this section.
func (l *layout) overBox() geom.Polyline {
	if !l.length {
		return geom.Polyline{{l.a, l.roofTop}, {l.b, l.roofTop}}
	}
	if len(l.p.Fill.Line) >= 2 {
		if span, err := spanTo(l.p.Fill.Line, l.a, l.b); err == nil {
			return span
		}
	}
	return geom.Polyline{{l.a, finishAt(l.p, l.box, l.a)}, {l.b, finishAt(l.p, l.box, l.b)}}
}

// roofZones is the build-up on the roof: first the laid layers, then backfill,
// clay cap and topsoil up to the surface. Where the surface comes down below
// the laid layers they are shown as laid; the soil ends there.
func (l *layout) roofZones() []Zone {
	flat := func(z float64) geom.Polyline { return geom.Polyline{{l.a, z}, {l.b, z}} }
	over := geom.Upper(l.overBox(), flat(l.roof))
	if geom.AreaBetween(over, flat(l.roof), l.a, l.b) <= 0 {
		return nil
	}
	var out []Zone
	z := l.roof
	for _, lay := range l.p.Fill.Roof {
		out = append(out, Zone{Kind: RoofLay, Name: lay.Name, Hatch: lay.Kind,
			Region: geom.Between(geom.Lower(over, flat(z+lay.Thickness)), flat(z), l.a, l.b)})
		z += lay.Thickness
	}
	topsoil, clay := l.covers()
	base := flat(z)
	under := geom.Upper(over.Translate(geom.Vec{0, -topsoil}), base)
	body := geom.Upper(over.Translate(geom.Vec{0, -topsoil - clay}), base)
	out = append(out,
		l.soilZone(Backfill, l.p.Fill.Backfill, geom.Between(body, base, l.a, l.b)),
		l.soilZone(Cap, l.p.Fill.CapSoil, geom.Between(under, body, l.a, l.b)),
		l.soilZone(Topsoil, l.p.Fill.TopsoilSoil, geom.Between(geom.Upper(over, base), under, l.a, l.b)))
	return keepFilled(out)
}

// silhouette is the surface over ground, fill and box, from end to end.
func (l *layout) silhouette(sides []side) geom.Polyline {
	left, right := l.dug.ClipX(l.ax.lo, l.a), l.dug.ClipX(l.b, l.ax.hi)
	for _, s := range sides {
		if s.dir < 0 {
			left = s.surface
		} else {
			right = s.surface
		}
	}
	roof := geom.Polyline{{l.a, l.roof}, {l.b, l.roof}}
	if l.st.Cover {
		roof = geom.Upper(l.overBox(), roof)
	}
	return increasing(append(append(append(geom.Polyline(nil), left...), roof...), right...))
}
