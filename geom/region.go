package geom

// Area is the area (m2) of the outer ring less its holes, whatever way the
// rings run.
func (p Polygon) Area() float64 {
	a := p.Outer.Area()
	for _, h := range p.Holes {
		a -= h.Area()
	}
	return a
}

// moment is the area and its first moment about the origin.
func (p Polygon) moment() (area float64, m Vec) {
	area, m = positiveMoment(p.Outer)
	for _, h := range p.Holes {
		ha, hm := positiveMoment(h)
		area, m = area-ha, m.Sub(hm)
	}
	return area, m
}

func positiveMoment(r Ring) (area float64, m Vec) {
	if len(r) == 0 {
		return 0, Vec{}
	}
	area, m = r.moment()
	m = m.Add(r[0].Mul(area))
	if area < 0 {
		return -area, m.Mul(-1)
	}
	return area, m
}

// Centroid is the centre of area; see Region.Centroid.
func (p Polygon) Centroid() (c Vec, ok bool) { return Region{p}.Centroid() }

// Contains reports whether v lies in the polygon. It is a closed set: a point
// on the outer ring or on the edge of a hole counts as inside.
func (p Polygon) Contains(v Vec) bool {
	if !p.Outer.Contains(v) {
		return false
	}
	for _, h := range p.Holes {
		if h.Contains(v) && !h.OnBoundary(v) {
			return false
		}
	}
	return true
}

// Bounds is the rectangle round the outer ring.
func (p Polygon) Bounds() Rect { return p.Outer.Bounds() }

// Rings are the outer ring and the holes, in that order.
func (p Polygon) Rings() []Ring {
	return append([]Ring{p.Outer}, p.Holes...)
}

// Oriented is the polygon with its outer ring anticlockwise and its holes
// clockwise.
func (p Polygon) Oriented() Polygon {
	out := Polygon{Outer: p.Outer.Oriented(true)}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, h.Oriented(false))
	}
	return out
}

// Translate is a copy moved by d.
func (p Polygon) Translate(d Vec) Polygon {
	out := Polygon{Outer: p.Outer.Translate(d)}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, h.Translate(d))
	}
	return out
}

// Area is the sum of the polygons' areas (m2); 0 for nil.
func (r Region) Area() float64 {
	var a float64
	for _, p := range r {
		a += p.Area()
	}
	return a
}

// Centroid is the common centre of area. ok is false for a region without
// area or with coordinates that are not finite.
func (r Region) Centroid() (c Vec, ok bool) {
	base := r.Bounds().Center() // moments about a near point keep their digits
	var area, length float64
	var m Vec
	for _, p := range r.Translate(base.Mul(-1)) {
		pa, pm := p.moment()
		area, m = area+pa, m.Add(pm)
		length += p.Outer.Length()
	}
	if !(area > TolLength*length) || !finite(area) || !FiniteVec(m) {
		return Vec{}, false
	}
	return base.Add(m.Mul(1 / area)), true
}

// Contains reports whether v lies in one of the polygons, edges included.
func (r Region) Contains(v Vec) bool {
	for _, p := range r {
		if p.Contains(v) {
			return true
		}
	}
	return false
}

// Bounds is the rectangle round all polygons; zero for nil.
func (r Region) Bounds() Rect {
	var b Rect
	for _, p := range r {
		b = b.Union(p.Bounds())
	}
	return b
}

// Translate is a copy moved by d.
func (r Region) Translate(d Vec) Region {
	out := make(Region, len(r))
	for i, p := range r {
		out[i] = p.Translate(d)
	}
	return out
}

// ToRegion is the ring as a region of one polygon; nil for fewer than three
// points.
func (r Ring) ToRegion() Region {
	if len(r) < 3 {
		return nil
	}
	return Region{{Outer: r}}
}
