package frame

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/quantity"
)

// Multi is a beam of constant stiffness that runs over several rigid supports,
// free to turn at its two ends.
type Multi struct {
	Places    []float64 // supports, m from the start; the first is 0
	Reactions []float64 // what the beam presses on each support, kN, + with the load
	MSup      []float64 // moment over each support, kNm; 0 at the ends
	Spans     []Beam
}

// Continuous solves a beam over the supports at the given rising places by the
// three-moment equation with exact load terms. The load must lie between the
// first and the last support. Two supports give the pinned span.
func Continuous(places []float64, load Load, ei float64) (Multi, error) {
	var m Multi
	err := m.Solve(places, load, ei, &MultiRoom{})
	return m, err
}

// MultiRoom is memory for one beam after the other: what was solved in it is
// lost with the next.
type MultiRoom struct {
	forces []float64
	spans  []Beam
	points Load
	pieces []piece
}

// Solve is Continuous in the memory of a room.
func (m *Multi) Solve(places []float64, load Load, ei float64, room *MultiRoom) error {
	*m = Multi{}
	if err := checkPlaces(places, load); err != nil {
		return err
	}
	if err := quantity.Range("stiffness EI", ei, 1e-9, 1e15); err != nil {
		return err
	}
	n := len(places) - 1
	room.fit(n, len(load))
	forces := room.forces[:2*(n+1)]
	clear(forces)
	*m = Multi{Places: places, Spans: room.spans[:n], MSup: forces[: 0 : n+1], Reactions: forces[n+1:]}
	var few [fewSpans]pinnedSpan
	m.MSup = threeMoments(apart(places, load, few[:0]), m.MSup)
	points, pieces := room.points[:0], room.pieces
	for k := range m.Spans {
		part := load
		if n > 1 {
			part = load.clip(points, places[k], places[k+1])
			points = part[len(part):]
		}
		most := mostPieces(part)
		m.Spans[k] = span(places[k+1]-places[k], part, ei, m.MSup[k], m.MSup[k+1], pieces[:0:most])
		pieces = pieces[most:]
		m.Reactions[k] += m.Spans[k].Ra
		m.Reactions[k+1] += m.Spans[k].Rb
	}
	return nil
}

// Combine is the sum of solved beams, each times its factor, over the same
// supports and of the same stiffness, under loads with points at the same places,
// in the memory of a room that is none of theirs. It panics where they are cut
// at other places.
func (m *Multi) Combine(parts []*Multi, factors []float64, room *MultiRoom) {
	first, count := parts[0], 0
	for k := range first.Spans {
		count += len(first.Spans[k].pieces)
	}
	n := len(first.Spans)
	room.fit(n, count)
	forces := room.forces[:2*(n+1)]
	clear(forces)
	*m = Multi{Places: first.Places, Spans: room.spans[:n], MSup: forces[:n+1], Reactions: forces[n+1:]}
	for i, part := range parts {
		for k := range part.MSup {
			m.MSup[k] += factors[i] * part.MSup[k]
			m.Reactions[k] += factors[i] * part.Reactions[k]
		}
	}
	pieces := room.pieces
	for k := range m.Spans {
		b := &m.Spans[k]
		*b = Beam{L: first.Spans[k].L, EI: first.Spans[k].EI, pieces: append(pieces[:0], first.Spans[k].pieces...)}
		pieces = pieces[len(b.pieces):]
		b.combine(parts, factors, k)
		b.findMoments()
	}
}

// combine sums the spans k of beams; the pieces are those of the first.
func (b *Beam) combine(parts []*Multi, factors []float64, k int) {
	for i, part := range parts {
		o, w := &part.Spans[k], factors[i]
		if len(o.pieces) != len(b.pieces) || o.EI != b.EI {
			panic(fmt.Sprintf("frame: spans of %d and %d pieces, EI %g and %g, are no sum", len(b.pieces), len(o.pieces), b.EI, o.EI))
		}
		b.Ra, b.Rb = b.Ra+w*o.Ra, b.Rb+w*o.Rb
		for j := range b.pieces {
			c, d := &b.pieces[j], &o.pieces[j]
			if c.s0 != d.s0 {
				panic(fmt.Sprintf("frame: pieces from %g and %g are no sum", c.s0, d.s0))
			}
			if i == 0 {
				*c = piece{s0: c.s0, d: c.d}
			}
			c.p, c.g, c.v = c.p+w*d.p, c.g+w*d.g, c.v+w*d.v
			c.m, c.t, c.w = c.m+w*d.m, c.t+w*d.t, c.w+w*d.w
		}
	}
}

// fit makes room for n spans under a load of so many points.
func (r *MultiRoom) fit(n, points int) {
	if cap(r.forces) < 2*(n+1) {
		r.forces = make([]float64, 2*(n+1))
	}
	if cap(r.spans) < n {
		r.spans = make([]Beam, n)
	}
	r.spans = r.spans[:cap(r.spans)]
	if most := points + 2*n; n > 1 && cap(r.points) < most {
		r.points = make(Load, 0, most)
	}
	if most := points + 3*n; cap(r.pieces) < most {
		r.pieces = make([]piece, most)
	}
	r.pieces = r.pieces[:cap(r.pieces)]
}

// Reactions is what the beam of Continuous presses on each support, kN: it is
// the same for any stiffness.
func Reactions(places []float64, load Load) ([]float64, error) {
	return ReactionsIn(nil, places, load)
}

// ReactionsIn is Reactions in the place of what is in room, where it is large
// enough.
func ReactionsIn(room []float64, places []float64, load Load) ([]float64, error) {
	if err := checkPlaces(places, load); err != nil {
		return nil, err
	}
	out := slices.Grow(room[:0], len(places))[:len(places)]
	clear(out)
	var few [fewSpans]pinnedSpan
	spans := apart(places, load, few[:0])
	var some [fewSpans + 1]float64
	sup := threeMoments(spans, some[:0])
	for k, b := range spans {
		turn := (sup[k+1] - sup[k]) / b.l
		out[k] += b.ra + turn
		out[k+1] += b.rb - turn
	}
	return out, nil
}

// checkPlaces refuses supports that do not rise and loads beyond them.
func checkPlaces(places []float64, load Load) error {
	n := len(places)
	if n < 2 {
		return fmt.Errorf("%w: supports = %d, allowed 2 and more", quantity.ErrRange, n)
	}
	if err := quantity.Range("place of the first support", places[0], 0, 0); err != nil {
		return err
	}
	for k := 1; k < n; k++ {
		if p := places[k]; p >= places[k-1]+minSpan && p <= maxPlace {
			continue
		}
		if err := quantity.Range(fmt.Sprintf("place of support %d", k), places[k], places[k-1]+minSpan, maxPlace); err != nil {
			return err
		}
	}
	return load.Check(places[n-1])
}

// pinnedSpan is a span by itself, pinned at both ends: what it presses on them and
// EI times its slope there.
type pinnedSpan struct{ l, ra, rb, start, end float64 }

// fewSpans is how many spans do without memory of their own.
const fewSpans = 8

// apart takes a beam apart into pinned spans under their parts of the load.
// Three-point Gauss sums are exact for a linear load times the cubic influence
// lines of the slopes at the ends.
func apart(places []float64, load Load, room []pinnedSpan) []pinnedSpan {
	for k := 1; k < len(places); k++ {
		from, to := places[k-1], places[k]
		b := pinnedSpan{l: to - from}
		for i := 1; i < len(load); i++ {
			p, q := load[i-1], load[i]
			lo, hi := max(p.S, from), min(q.S, to)
			if hi <= lo || p.P == 0 && q.P == 0 {
				continue
			}
			grow, over := (q.P-p.P)/(q.S-p.S), 1/b.l
			for g := range 3 {
				s := lo + (hi-lo)*gaussX[g]
				w := (p.P + grow*(s-p.S)) * (hi - lo) * gaussW[g]
				t := (s - from) * over
				b.ra += w * (1 - t)
				b.rb += w * t
				b.start += w * t * (1 - t) * (2 - t)
				b.end -= w * t * (1 - t*t)
			}
		}
		b.start *= b.l * b.l / 6
		b.end *= b.l * b.l / 6
		room = append(room, b)
	}
	return room
}

// minSpan is the shortest span between supports, m: less is one support.
// maxPlace bounds the length of a beam.
const (
	minSpan  = 0.01
	maxPlace = 1e4 // m
)

// threeMoments solves for the moments over the supports, given the spans as
// pinned; they are none at the ends. The system is tridiagonal and diagonally
// dominant. The result is appended to room.
func threeMoments(spans []pinnedSpan, room []float64) []float64 {
	sup := room
	for range len(spans) + 1 {
		sup = append(sup, 0)
	}
	var few [fewSpans]float64
	up := few[:0]
	for k := range len(spans) - 1 { // forward, the right sides in sup
		l, r := &spans[k], &spans[k+1]
		diag, low, b := 2*(l.l+r.l), l.l, 6*(l.end-r.start)
		if k > 0 {
			diag -= low * up[k-1]
			b -= low * sup[k]
		}
		up, sup[k+1] = append(up, r.l/diag), b/diag
	}
	for k := len(up) - 1; k >= 0; k-- {
		sup[k+1] -= up[k] * sup[k+2]
	}
	return sup
}

// Field is the largest moment with tension on the face between the supports
// and where it is, m from the start; 0 where there is none.
func (m *Multi) Field() (moment, s float64) {
	for k := range m.Spans {
		if b := &m.Spans[k]; b.MPos > moment {
			moment, s = b.MPos, m.Places[k]+b.SPos
		}
	}
	return moment, s
}

// Hog is the largest moment with tension on the back, as a positive number,
// and where it is; 0 where there is none.
func (m *Multi) Hog() (moment, s float64) {
	for k := range m.Spans {
		if b := &m.Spans[k]; -b.MNeg > moment {
			moment, s = -b.MNeg, m.Places[k]+b.SNeg
		}
	}
	return moment, s
}

// Shear is the largest absolute shear, kN.
func (m *Multi) Shear() float64 {
	v := 0.0
	for k := range m.Spans {
		v = max(v, m.Spans[k].VMax)
	}
	return v
}

// Sag is the deflection of largest absolute value with its sign, m, where it
// is, and the index of its span.
func (m *Multi) Sag() (w, s float64, span int) {
	for k := range m.Spans {
		if v, x := m.Spans[k].Sag(); math.Abs(v) > math.Abs(w) {
			w, s, span = v, m.Places[k]+x, k
		}
	}
	return w, s, span
}

// SagOverSpan is Sag of the span that deflects most for its length: next to a
// long span a short one may come nearer to a limit that is a share of the span.
func (m *Multi) SagOverSpan() (w, s float64, span int) {
	most := 0.0
	for k := range m.Spans {
		if v, x := m.Spans[k].Sag(); math.Abs(v)/m.Spans[k].L > most {
			w, s, span, most = v, m.Places[k]+x, k, math.Abs(v)/m.Spans[k].L
		}
	}
	return w, s, span
}

// M is the moment at s, kNm. It panics when s is off the beam.
func (m *Multi) M(s float64) float64 {
	k := 0
	for k < len(m.Spans)-1 && s > m.Places[k+1] {
		k++
	}
	return m.Spans[k].M(s - m.Places[k])
}
