package seepage

import "math"

// conditions sets what is held at the edges and at drains.
func (s *solver) conditions() {
	d := s.m.domain
	level := func(n int32) float64 { return s.m.Nodes[n][1] }
	for _, e := range s.m.Edges {
		side := d.Left
		switch e.Kind {
		case Air:
			if !d.Full {
				s.air(e)
			}
			continue
		case RightEnd:
			side = d.Right
		case LeftEnd:
		default:
			continue
		}
		for _, n := range [2]int32{e.A, e.B} {
			switch {
			case math.IsNaN(side.Head):
			case d.Full || level(n) <= side.Head:
				s.hold[n], s.head[n] = given, side.Head
			case side.Face && s.hold[n] == free:
				s.hold[n], s.head[n] = outlet, level(n)
			}
		}
	}
	for _, h := range d.Held {
		room := h.In.Expand(touch / 2)
		for n, v := range s.m.Nodes {
			if room.Contains(v) {
				s.hold[n], s.head[n] = given, h.Head+h.Slope*(v[0]-h.In.Min[0])
			}
		}
	}
	for k, n := range s.m.drains {
		if n >= 0 && !d.Drains[k].Closed && s.hold[n] != given {
			s.hold[n], s.head[n] = outlet, level(int32(n))+d.Drains[k].Backed
		}
	}
	s.shower()
}

// air lets water out where it comes to the surface, and holds what lies below
// a pond.
func (s *solver) air(e Edge) {
	d := s.m.domain
	mid := (s.m.Nodes[e.A][0] + s.m.Nodes[e.B][0]) / 2
	for _, c := range d.Sealed {
		if mid > c[0] && mid < c[1] {
			return
		}
	}
	for _, n := range [2]int32{e.A, e.B} {
		z := s.m.Nodes[n][1]
		switch {
		case s.hold[n] == given:
		case z <= d.Pond: // false for no pond
			s.hold[n], s.head[n] = given, d.Pond
		default:
			s.hold[n], s.head[n] = outlet, z
		}
	}
}
