package slope

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
	"hillset/geom"
)

// Range is where an end of a slip may lie, m; the whole section where it is
// empty.
type Range struct{ Lo, Hi float64 }

func (r Range) holds(x float64) bool { return r.Hi <= r.Lo || x >= r.Lo && x <= r.Hi }

// Options say how a search is made.
type Options struct {
	// MinDepth is how deep a slip reaches below the surface at least, m: what is
	// shallower is the skin, for Skin to judge.
	MinDepth float64
	Foot     Range // of the lower end
	Head     Range // of the upper end
	Crack    float64
	Water    float64 // m in the crack
	// Places is how many places along the surface are tried for the ends beside
	// its corners; 0 takes the ordinary number.
	Places int
}

// Ordinary numbers of a search.
const (
	ordinaryPlaces = 24
	coarseSlices   = 12
	fineSlices     = 30
	starts         = 5    // best places of the walk that are refined
	settled        = 1e-4 // of the section, the step at which refining ends
)

// shares are the half angles tried of an arc, as shares of the greatest.
var shares = []float64{0.06, 0.18, 0.32, 0.46, 0.6, 0.74, 0.87, 0.97}

// Found is the circle along which the ground slides first.
type Found struct {
	Slip   Slip
	Bishop float64
	Tried  int // circles worked
}

// ErrNone says that no circle was found that drives at all.
var ErrNone = errors.New("no circle was found along which anything drives")

// Search finds the circle with the least factor by Bishop's method, among those
// of toe, face and base over the whole section: arcs between all pairs of places
// on the surface first, the corners among them, then by trial from the best of
// these. It stops with ctx.
func (g *Ground) Search(ctx context.Context, o Options) (Found, error) {
	if err := limit.First(limit.Within("min_depth", o.MinDepth, 0, 100, quantity.Length), limit.Within("crack", o.Crack, 0, 100, quantity.Length),
		limit.Within("water", o.Water, 0, o.Crack, quantity.Length), limit.Within("places", float64(o.Places), 0, 400, quantity.None)); err != nil {
		return Found{}, err
	}
	if o.Places == 0 {
		o.Places = ordinaryPlaces
	}
	s := &seeker{g: g, o: o}
	s.surface()
	if err := s.walk(ctx); err != nil {
		return Found{}, err
	}
	best := trial{f: math.Inf(1)}
	for _, t := range s.apart() {
		if err := ctx.Err(); err != nil {
			return Found{}, err
		}
		if t = s.refine(t); t.f < best.f {
			best = t
		}
	}
	if math.IsInf(best.f, 1) {
		return Found{}, ErrNone
	}
	slip, _ := s.slip(best)
	return Found{Slip: slip, Bishop: best.f, Tried: s.tried}, nil
}

// seeker is one search.
type seeker struct {
	g       *Ground
	o       Options
	top     []geom.Vec
	corners []float64
	mass    Mass
	slices  int
	tried   int
	kept    []trial
}

// trial is an arc between two places on the surface; share is its half angle as
// a share of the greatest.
type trial struct{ a, b, share, f float64 }

// surface takes the top of the ground and its corners.
func (s *seeker) surface() {
	s.top = s.g.Surface()
	for i, v := range s.top {
		if i == 0 || i == len(s.top)-1 || bend(s.top[i-1], v, s.top[i+1]) > 1e-3 {
			s.corners = append(s.corners, v[0])
		}
	}
}

// bend is the turn of a line at a corner, rad.
func bend(a, b, c geom.Vec) float64 {
	p, q := b.Sub(a), c.Sub(b)
	return math.Abs(math.Atan2(p[0]*q[1]-p[1]*q[0], p.Dot(q)))
}

// level is the surface at a place: where it is upright, its foot for the lower
// end of a slip and its top for the upper.
func (s *seeker) level(x float64, high bool) float64 {
	i := s.g.columnAt(x)
	if i < 0 {
		return math.NaN()
	}
	c := &s.g.columns[i]
	z := c.top(c.share(x))
	if x == c.x1 && i+1 < len(s.g.columns) && s.g.columns[i+1].x0 == x {
		if n := s.g.columns[i+1].top(0); high == (n > z) {
			z = n
		}
	}
	return z
}

// slip makes the arc of a trial; ok is false where there is none.
func (s *seeker) slip(t trial) (Slip, bool) {
	a, b := geom.Vec{t.a, s.level(t.a, false)}, geom.Vec{t.b, s.level(t.b, true) - s.o.Crack}
	chord := b.Sub(a)
	if !(chord[0] > 10*least) || !s.o.Foot.holds(t.a) || !s.o.Head.holds(t.b) || !(t.share > 0 && t.share <= 1) {
		return Slip{}, false
	}
	return Slip{A: a, B: b, Half: t.share * (rightUp - math.Abs(math.Atan2(chord[1], chord[0]))), Water: s.o.Water}, true
}

// factor is that of a trial by Bishop's method, infinite where it is no way to
// slide.
func (s *seeker) factor(t trial) float64 {
	slip, ok := s.slip(t)
	if !ok || !slip.round() || !s.buried(&slip) {
		return math.Inf(1)
	}
	s.tried++
	if err := s.g.fill(&s.mass, slip, s.slices); err != nil || s.mass.Deep < s.o.MinDepth {
		return math.Inf(1)
	}
	f, err := s.mass.Bishop()
	if err != nil {
		return math.Inf(1)
	}
	return f
}

// buried tells whether an arc stays in the ground between its ends: an arc hangs
// down, so that it does where it passes below every corner of the surface.
func (s *seeker) buried(p *Slip) bool {
	c, r, ok := p.Circle()
	if !ok {
		return false
	}
	i, _ := slices.BinarySearchFunc(s.top, p.A[0], func(v geom.Vec, x float64) int { return cmp.Compare(v[0], x) })
	for ; i < len(s.top) && s.top[i][0] < p.B[0]-least; i++ {
		v := s.top[i]
		if v[0] <= p.A[0]+least {
			continue
		}
		if d := v[0] - c[0]; c[1]-math.Sqrt(math.Max(0, r*r-d*d)) > v[1]+least {
			return false
		}
	}
	return true
}

// places are where the ends of arcs are tried.
func (s *seeker) places() []float64 {
	lo, hi := s.top[0][0], s.top[len(s.top)-1][0]
	xs := slices.Clone(s.corners)
	for i := range s.o.Places + 1 {
		xs = append(xs, lo+(hi-lo)*float64(i)/float64(s.o.Places))
	}
	slices.Sort(xs)
	gap := (hi - lo) / float64(s.o.Places) / 8
	out := xs[:1]
	for _, x := range xs[1:] {
		last := out[len(out)-1]
		if x-last > gap || slices.Contains(s.corners, x) && x > last {
			out = append(out, x)
		}
	}
	return out
}

// walk tries arcs between all pairs of places.
func (s *seeker) walk(ctx context.Context) error {
	s.slices = coarseSlices
	xs := s.places()
	for i, a := range xs {
		if err := ctx.Err(); err != nil {
			return err
		}
		for _, b := range xs[i+1:] {
			for _, share := range shares {
				t := trial{a: a, b: b, share: share}
				if t.f = s.factor(t); !math.IsInf(t.f, 1) {
					s.kept = append(s.kept, t)
				}
			}
		}
	}
	return nil
}

// apart are the best trials that differ from each other.
func (s *seeker) apart() []trial {
	slices.SortFunc(s.kept, func(a, b trial) int { return cmp.Compare(a.f, b.f) })
	w := (s.top[len(s.top)-1][0] - s.top[0][0]) / float64(s.o.Places)
	var out []trial
	for _, t := range s.kept {
		if !slices.ContainsFunc(out, func(o trial) bool { return math.Abs(o.a-t.a)+math.Abs(o.b-t.b) < 1.5*w }) {
			if out = append(out, t); len(out) == starts {
				break
			}
		}
	}
	return out
}

// refine moves the ends and the bulge of an arc as long as the factor falls, in
// ever smaller steps: one by one, and in pairs so that the arc can slip along a
// layer that it must not enter.
func (s *seeker) refine(t trial) trial {
	s.slices = fineSlices
	t.f = s.factor(t)
	span := s.top[len(s.top)-1][0] - s.top[0][0]
	w, h := span/float64(s.o.Places), 0.1
	for w > settled*span {
		next := s.better(t, w, h)
		if next.f >= t.f {
			w, h = w/2, h/2
			continue
		}
		t = next
	}
	return t
}

// better is the best of the trials round one.
func (s *seeker) better(t trial, w, h float64) trial {
	best := t
	see := func(n trial) {
		if n.f = s.factor(n); n.f < best.f {
			best = n
		}
	}
	for _, d := range [2]float64{-1, 1} {
		see(trial{a: t.a, b: t.b, share: t.share + d*h})
		for _, n := range [2]trial{{a: t.a + d*w, b: t.b}, {a: t.a, b: t.b + d*w}} {
			for _, k := range [3]float64{0, -1, 1} {
				see(trial{a: n.a, b: n.b, share: t.share + k*h})
			}
			if share, ok := s.asDeep(t, n); ok {
				see(trial{a: n.a, b: n.b, share: share})
			}
		}
		see(trial{a: t.a + d*w, b: t.b + d*w, share: t.share})
	}
	for _, x := range s.corners { // an arc that comes near a toe may end there
		if x != t.a && math.Abs(x-t.a) < w {
			see(trial{a: x, b: t.b, share: t.share})
		}
	}
	return best
}

// asDeep is the share at which an arc between new ends reaches down to the same
// level as an old one.
func (s *seeker) asDeep(old, n trial) (float64, bool) {
	lowest := func(t trial) (float64, bool) {
		p, ok := s.slip(t)
		if !ok {
			return 0, false
		}
		c, r, ok := p.Circle()
		if !ok || c[0] <= p.A[0] || c[0] >= p.B[0] {
			return 0, false
		}
		return c[1] - r, true
	}
	want, ok := lowest(old)
	if !ok {
		return 0, false
	}
	lo, hi := 0.01, 1.0
	for range 40 {
		n.share = (lo + hi) / 2
		// an arc with its lowest point beyond an end is not deep enough yet
		if z, ok := lowest(n); !ok || z > want {
			lo = n.share
		} else {
			hi = n.share
		}
	}
	return lo, hi < 1
}
