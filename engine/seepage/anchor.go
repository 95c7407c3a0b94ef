package seepage

import (
	"errors"
	"fmt"

	"hillset/engine/quantity"
)

// ErrClosed says that rain seeps into ground that no water can leave: it would
// rise for ever.
var ErrClosed = errors.New("rain seeps into ground that no water can leave")

// anchor ties every piece of ground in which no level is given: a heap cut off
// by the works, or a whole section whose ends have their water below its foot.
// Without rain such ground is dry and its lowest place says so. With rain the
// water must leave at the lowest place at which it can come out.
func (s *solver) anchor() {
	for _, part := range s.m.grid.parts {
		low, out, tied := int32(-1), int32(-1), false
		for _, n := range part {
			z := s.m.Nodes[n][1]
			tied = tied || s.hold[n] == given
			if low < 0 || z < s.m.Nodes[low][1] {
				low = n
			}
			if s.hold[n] == outlet && (out < 0 || z < s.m.Nodes[out][1]) {
				out = n
			}
		}
		if tied {
			continue
		}
		if s.m.domain.Recharge > 0 && out >= 0 {
			low = out
		}
		s.sills = append(s.sills, int(low))
		if s.hold[low] == outlet {
			s.hold[low] = sill
			continue
		}
		s.hold[low], s.head[low] = sill, s.m.Nodes[low][1]
	}
}

// drowned tells whether a sill that is no outlet has to take water: the ground
// is shut in and would fill.
func (s *solver) drowned(f *Flow) error {
	for _, n := range s.sills {
		if s.m.domain.Recharge > 0 && !s.lets(n) && f.Out[n] > 1e-3*f.Rain {
			v := s.m.Nodes[n]
			return fmt.Errorf("%w: round x = %s, z = %s; give a level at an end of the section that the water stands to, or let a drain or a face take it", ErrClosed, quantity.Text(v[0], quantity.Length), quantity.Text(v[1], quantity.Length))
		}
	}
	return nil
}

// lets tells whether water can leave the ground at a node.
func (s *solver) lets(n int) bool {
	for _, d := range s.m.drains {
		if d == n {
			return true
		}
	}
	for _, e := range s.m.Edges {
		if int(e.A) == n || int(e.B) == n {
			switch e.Kind {
			case Air:
				return true
			case LeftEnd:
				return s.m.domain.Left.Face
			case RightEnd:
				return s.m.domain.Right.Face
			}
		}
	}
	return false
}
