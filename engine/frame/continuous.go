package frame

import (
	"fmt"
	"math"

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
	if err := checkPlaces(places, load); err != nil {
		return Multi{}, err
	}
	if err := quantity.Range("stiffness EI", ei, 1e-9, 1e15); err != nil {
		return Multi{}, err
	}
	m, parts := pin(places, load, ei)
	for k := range m.Spans {
		b := &m.Spans[k]
		*b = span(b.L, parts[k], ei, m.MSup[k], m.MSup[k+1], b.pieces)
		m.Reactions[k] += b.Ra
		m.Reactions[k+1] += b.Rb
	}
	return m, nil
}

// Reactions is what the beam of Continuous presses on each support, kN: it is
// the same for any stiffness.
func Reactions(places []float64, load Load) ([]float64, error) {
	if err := checkPlaces(places, load); err != nil {
		return nil, err
	}
	m, _ := pin(places, load, 1)
	for k := range m.Spans {
		b := &m.Spans[k]
		turn := (m.MSup[k+1] - m.MSup[k]) / b.L
		m.Reactions[k] += b.Ra + turn
		m.Reactions[k+1] += b.Rb - turn
	}
	return m.Reactions, nil
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

// pin finds the spans of a beam as pinned ones under their parts of the load,
// and the moments over the supports.
func pin(places []float64, load Load, ei float64) (Multi, []Load) {
	n := len(places) - 1
	m := Multi{Places: places, Spans: make([]Beam, n), MSup: make([]float64, n+1), Reactions: make([]float64, n+1)}
	parts := make([]Load, n)
	points := make(Load, 0, len(load)+2*n)
	room := make([]piece, cap(points)+n)
	for k := range parts {
		parts[k] = load
		if n > 1 {
			parts[k] = load.clip(points, places[k], places[k+1])
			points = parts[k][len(parts[k]):]
		}
		most := mostPieces(parts[k])
		m.Spans[k] = pinned(places[k+1]-places[k], parts[k], ei, 0, 0, room[:0:most])
		room = room[most:]
	}
	m.threeMoments()
	return m, parts
}

// minSpan is the shortest span between supports, m: less is one support.
// maxPlace bounds the length of a beam.
const (
	minSpan  = 0.01
	maxPlace = 1e4 // m
)

// threeMoments solves for the moments over the inner supports, given the spans
// as pinned. The system is tridiagonal and diagonally dominant.
func (m *Multi) threeMoments() {
	n := len(m.Spans) - 1
	if n < 1 {
		return
	}
	up, rhs := make([]float64, n), make([]float64, n)
	for k := range n {
		l, r := &m.Spans[k], &m.Spans[k+1]
		diag, low, b := 2*(l.L+r.L), l.L, 6*(l.endSlope()-r.startSlope())
		if k > 0 {
			diag -= low * up[k-1]
			b -= low * rhs[k-1]
		}
		up[k], rhs[k] = r.L/diag, b/diag
	}
	for k := n - 1; k >= 0; k-- {
		m.MSup[k+1] = rhs[k] - up[k]*m.MSup[k+2]
	}
}

// startSlope and endSlope are EI times the slope at the ends.
func (b *Beam) startSlope() float64 { return b.pieces[0].t }
func (b *Beam) endSlope() float64 {
	c := b.pieces[len(b.pieces)-1]
	return c.slope(c.d)
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
		v = math.Max(v, m.Spans[k].VMax)
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

// M is the moment at s, kNm. It panics when s is off the beam.
func (m *Multi) M(s float64) float64 {
	k := 0
	for k < len(m.Spans)-1 && s > m.Places[k+1] {
		k++
	}
	return m.Spans[k].M(s - m.Places[k])
}
